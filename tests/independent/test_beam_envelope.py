"""The envelope against trying every pattern by hand, and closed forms that every table of beams has."""

import random
from itertools import product

import pytest

from beamcheck.beam.envelope import Combination, envelope
from beamcheck.beam.model import Line, Point, Settlement, Spread
from beamcheck.beam.patterns import by_bay, masks
from beamcheck.beam.solver import solve

COMBINATIONS = [
    Combination("D", {"D": 1.0}),
    Combination("D + L", {"D": 1.0, "L": 1.0}),
    Combination("D + 0.75 L + 0.75 S", {"D": 1.0, "L": 0.75, "S": 0.75}),
    Combination("0.6 D + W", {"D": 0.6, "W": 1.0}),
    Combination("1.5 D + L", {"D": 1.5, "L": 1.0}),
]


def random_case(seed):
    """A line of one to four spans, and loads of four types on parts of it."""
    dice = random.Random(seed)  # noqa: S311  a repeatable draw
    supports = [0.0]
    for _ in range(dice.randint(1, 4)):
        supports.append(supports[-1] + float(dice.randint(40, 240)))
    line = Line(tuple(supports), dice.choice([0.0, 30.0]), dice.choice([0.0, 45.5]))

    def anywhere():
        return dice.uniform(line.start, line.end)

    loads = {"D": [Spread(line.start, line.end, 9.0, 9.0), Point(anywhere(), 400.0)]}
    for load_type, size in (("L", 30.0), ("S", 12.0), ("W", -25.0)):
        start, end = sorted((anywhere(), anywhere()))
        loads[load_type] = [Spread(start, end, size, dice.choice([size, 0.4 * size]))]
        if dice.random() < 0.5:
            loads[load_type].append(Point(anywhere(), dice.choice([20.0, -14.0]) * size))
    return line, loads


def patterned(line, loads, factors, mask):
    """The loads of one case, cut at the supports by hand."""
    put = []
    for load_type, factor in factors.items():
        for load in loads.get(load_type, []):
            if isinstance(load, Settlement):
                put.append(Settlement(load.support, factor * load.EI_drop))
            elif isinstance(load, Point):
                bay = next(i for i, bay in enumerate(line.bays) if load.station <= bay.end)
                if load_type == "D" or mask[bay]:
                    put.append(Point(load.station, factor * load.force))
            else:
                for i, bay in enumerate(line.bays):
                    start, end = max(load.start, bay.start), min(load.end, bay.end)
                    if start < end and (load_type == "D" or mask[i]):
                        slope = (load.last - load.first) / (load.end - load.start)
                        first, last = (load.first + slope * (x - load.start) for x in (start, end))
                        put.append(Spread(start, end, factor * first, factor * last))
    return put


def worst_by_hand(line, loads, factors):
    """Every figure of the envelope from every pattern, each solved on its own."""
    cases = [
        solve(line, patterned(line, loads, factors, mask)) for mask in product((False, True), repeat=len(line.bays))
    ]
    bays, supports = range(len(line.bays)), range(len(line.supports))
    peaks = [[case.peaks(bay) for case in cases] for bay in bays]

    def face(case, support, side):
        station = line.supports[support]
        outside = station == (line.start if side == "left" else line.end)
        return 0.0 if outside else case.shear(station, side)

    return {
        "sagging": [max(p.sagging.value for p in peaks[bay]) for bay in bays],
        "hogging": [min(p.hogging.value for p in peaks[bay]) for bay in bays],
        "shear": [max(abs(p.shear.value) for p in peaks[bay]) for bay in bays],
        "EI_down": [max(p.EI_down.value for p in peaks[bay]) for bay in bays],
        "EI_up": [min(p.EI_up.value for p in peaks[bay]) for bay in bays],
        "shear_left": [max(abs(face(case, i, "left")) for case in cases) for i in supports],
        "shear_right": [max(abs(face(case, i, "right")) for case in cases) for i in supports],
        "most_reaction": [max(case.reactions[i] for case in cases) for i in supports],
        "least_reaction": [min(case.reactions[i] for case in cases) for i in supports],
    }


@pytest.mark.parametrize("seed", range(12))
def test_envelope_is_the_worst_of_all_patterns(seed):
    """Each governing figure is that of the worst among all patterns, solved one by one."""
    line, loads = random_case(seed)
    found = envelope(line, loads, COMBINATIONS)
    for combination, peaks in zip(COMBINATIONS, found.peaks, strict=True):
        by_hand = worst_by_hand(line, loads, combination.factors)
        for name, expected in by_hand.items():
            actual = [governing.value for governing in getattr(peaks, name)]
            if name.startswith("shear"):
                actual = [abs(value) for value in actual]
            assert actual == pytest.approx(expected, rel=1e-9, abs=1e-9 * max(map(abs, expected))), name


@pytest.mark.parametrize("seed", range(12))
def test_the_named_case_makes_the_figure(seed):
    """The combination and pattern named with a governing figure give that figure when they are put on the line."""
    line, loads = random_case(seed)
    found = envelope(line, loads, COMBINATIONS)
    for peaks in found.peaks:
        for bay in range(len(line.bays)):
            for name in ("sagging", "hogging"):
                governing = getattr(peaks, name)[bay]
                case = found.response(governing.combination, governing.mask)
                assert case.moment(governing.station) == pytest.approx(governing.value, rel=1e-9, abs=1e-6)
            governing = peaks.EI_down[bay]
            case = found.response(governing.combination, governing.mask)
            assert case.deflection(governing.station, 1.0) == pytest.approx(governing.value, rel=1e-9, abs=1e-3)
        for support in range(len(line.supports)):
            for governing in (peaks.most_reaction[support], peaks.least_reaction[support]):
                case = found.response(governing.combination, governing.mask)
                assert case.reactions[support] == pytest.approx(governing.value, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("seed", range(6))
def test_superposed_case_is_the_case_solved(seed):
    """A case put together from its parts equals the same loads solved at once, and is in balance."""
    line, loads = random_case(seed)
    found = envelope(line, loads, COMBINATIONS)
    for mask in found.under("D + 0.75 L + 0.75 S").masks:
        case = found.response("D + 0.75 L + 0.75 S", mask)
        again = solve(line, case.loads)
        assert case.reactions == pytest.approx(again.reactions, rel=1e-9, abs=1e-9 * max(map(abs, again.reactions)))
        assert case.peaks().EI_down.value == pytest.approx(again.peaks().EI_down.value, rel=1e-9)
        assert abs(case.residual.force) < 1e-13
        assert abs(case.residual.moment) < 1e-13


def test_masks_are_all_choices_and_each_once():
    """Of n bays there are 2^n patterns, each once, from none to all."""
    for n in range(9):
        found = masks(range(n))
        assert len(found) == len(set(found)) == 2**n
        by_hand = {tuple(bay for bay in range(n) if here[bay]) for here in product((False, True), repeat=n)}
        assert set(found) == by_hand


def test_bays_without_transient_load_are_not_tried():
    """Patterns that differ only in an empty bay come once; a type with the factor zero makes no bay live."""
    line = Line((0.0, 100.0, 250.0, 340.0))
    loads = {
        "D": [Spread(0.0, 340.0, 5.0, 5.0)],
        "L": [Spread(120.0, 200.0, 20.0, 20.0)],
        "S": [Spread(0.0, 340.0, 9.0, 9.0)],
    }
    found = envelope(
        line, loads, [("D", {"D": 1.0}), ("D + L", {"D": 1.0, "L": 1.0, "S": 0.0}), ("D + S", {"D": 1.0, "S": 1.0})]
    )
    assert found.under("D").masks == ((),)
    assert found.under("D + L").masks == ((), (1,))
    assert len(found.under("D + S").masks) == 8


def test_a_type_may_be_declared_permanent():
    """A type that is permanent lies on all bays in every pattern."""
    line = Line((0.0, 100.0, 200.0))
    loads = {"D": [Spread(0.0, 200.0, 5.0, 5.0)], "L": [Spread(0.0, 200.0, 20.0, 20.0)]}
    found = envelope(line, loads, [("D + L", {"D": 1.0, "L": 1.0})], permanent=("D", "L"))
    assert found.under("D + L").masks == ((),)
    assert found.under("D + L").sagging[0].value == pytest.approx(9.0 / 128.0 * 25.0 * 100.0**2, rel=1e-12)


def test_a_settlement_stays_in_every_pattern():
    """A support that settles does so under every pattern of its type."""
    line = Line((0.0, 100.0, 200.0))
    loads = {"L": [Spread(0.0, 200.0, 20.0, 20.0)], "settling": [Settlement(1, 1e6)]}
    found = envelope(line, loads, [("L", {"L": 1.0, "settling": 1.0})])
    alone = solve(line, [Settlement(1, 1e6)])
    assert found.response("L", ()).reactions == pytest.approx(alone.reactions, rel=1e-12)
    assert alone.moment(100.0) == pytest.approx(3.0 * 1e6 / 100.0**2, rel=1e-12)
    half = envelope(line, loads, [("half", {"L": 1.0, "settling": 0.5})]).response("half", ())
    assert half.loads == (Settlement(1, 0.5e6),)
    assert half.reactions == pytest.approx([0.5 * R for R in alone.reactions], rel=1e-12)


def test_loads_are_cut_at_supports():
    """The parts of a load by bay make up the load: same sum and same moment."""
    line = Line((0.0, 100.0, 200.0), 20.0, 30.0)
    load = Spread(-10.0, 215.0, 4.0, 13.0)
    parts = [part for bay in by_bay([load], line.bays) for part in bay]
    assert [(part.start, part.end) for part in parts] == [(-10, 0), (0, 100), (100, 200), (200, 215)]
    assert [part.last for part in parts[:-1]] == pytest.approx([part.first for part in parts[1:]])

    def moments(some):
        third = [(part.end - part.start) / 3.0 for part in some]
        first = [1.5 * h * part.first for part, h in zip(some, third, strict=True)]
        last = [1.5 * h * part.last for part, h in zip(some, third, strict=True)]
        arms = [
            a * (part.start + h) + b * (part.end - h) for part, h, a, b in zip(some, third, first, last, strict=True)
        ]
        return sum(first) + sum(last), sum(arms)

    assert moments(parts) == pytest.approx(moments([load]), rel=1e-12)


@pytest.mark.parametrize("seed", range(40))
def test_loads_that_cancel_leave_nothing(seed):
    """Where line loads and forces cancel, all that is left of any figure is rounding, however the sum is rounded."""
    dice = random.Random(seed)  # noqa: S311  a repeatable draw
    supports = [0.0]
    for _ in range(dice.randint(1, 3)):
        supports.append(supports[-1] + dice.uniform(60.0, 240.0))
    end = supports[-1]
    at = dice.uniform(0.0, end)
    loads = {"D": [Spread(0.0, end, 1.0, 1.0), Point(at, 90.0)]}
    loads["L"] = [Spread(0.0, end, 2.0, 2.0), Point(at, 10.0)]
    loads["W"] = [Spread(0.0, end, -3.0, -3.0), Point(at, -100.0)]
    (peaks,) = envelope(Line(tuple(supports)), loads, [Combination("all", dict.fromkeys(loads, 1.0))], loads).peaks
    forces = [*peaks.shear, *peaks.most_reaction, *peaks.least_reaction]
    assert max(abs(figure.value) for figure in forces) < 1e-11 * 3.0 * end
    assert max(abs(figure.value) for figure in (*peaks.sagging, *peaks.hogging)) < 1e-11 * 3.0 * end**2
    assert max(abs(figure.value) for figure in (*peaks.EI_down, *peaks.EI_up)) < 1e-11 * 3.0 * end**4


def test_slivers_left_by_rounding_make_no_bay_live():
    """A load that reaches past a support by rounding alone stays in its bay."""
    line = Line((0.0, 100.0, 200.0))
    over = 100.0 + 1e-10
    parts = by_bay([Spread(0.0, over, 4.0, 4.0), Spread(100.0 - 1e-10, 200.0, 4.0, 4.0), Point(over, 9.0)], line.bays)
    assert [len(part) for part in parts] == [2, 1]
    found = envelope(line, {"L": [Spread(0.0, over, 4.0, 4.0)]}, [Combination("L", {"L": 1.0})])
    assert found.under("L").masks == ((), (0,))


@pytest.mark.parametrize(
    ("line", "loads", "figure", "expected"),
    [
        (Line((0.0, 10.0)), [Spread(0.0, 10.0, 8.0, 8.0)], lambda r: r.sagging(), (100.0, 5.0)),
        (Line((0.0, 10.0)), [Spread(0.0, 10.0, 384.0, 384.0)], lambda r: r.down(1.0), (5.0 * 10.0**4, 5.0)),
        (Line((0.0, 10.0)), [Point(5.0, 4.0)], lambda r: r.sagging(), (10.0, 5.0)),
        (Line((0.0, 10.0)), [Point(5.0, 48.0)], lambda r: r.down(1.0), (1000.0, 5.0)),
        (Line((0.0, 10.0)), [Spread(0.0, 10.0, 0.0, 6.0)], lambda r: r.sagging(), (600.0 / 9 / 3**0.5, 10 / 3**0.5)),
        (Line((0.0, 10.0, 20.0)), [Spread(0.0, 20.0, 8.0, 8.0)], lambda r: r.hogging(), (-100.0, 10.0)),
        (Line((0.0, 10.0, 20.0)), [Spread(0.0, 20.0, 128.0, 128.0)], lambda r: r.sagging(0), (900.0, 3.75)),
        (Line((0.0, 10.0, 20.0, 30.0)), [Spread(0.0, 30.0, 1.0, 1.0)], lambda r: r.hogging(1), (-10.0, 10.0)),
        (Line((0.0, 10.0), 0.0, 3.0), [Point(13.0, 5.0)], lambda r: r.hogging(), (-15.0, 10.0)),
        (Line((0.0, 10.0), 0.0, 3.0), [Point(13.0, 3.0)], lambda r: r.down(1.0), (3.0 * 9.0 * 13.0 / 3.0, 13.0)),
        (Line((0.0, 10.0)), [Point(2.5, 100.0)], lambda r: r.greatest_shear(), (75.0, 0.0)),
    ],
)
def test_closed_forms(line, loads, figure, expected):
    """wL²/8, 5wL⁴/384EI, PL/4, PL³/48EI, wL²/9√3, two and three equal spans, a force at the tip of an overhang."""
    value, station = expected
    peak = figure(solve(line, loads))
    assert peak.value == pytest.approx(value, rel=1e-13)
    assert peak.station == pytest.approx(station, rel=1e-13)


def test_reactions_of_two_equal_spans():
    """Two equal spans under one uniform load rest on 3/8, 10/8 and 3/8 of a span's load."""
    assert solve(Line((0.0, 8.0, 16.0)), [Spread(0.0, 16.0, 1.0, 1.0)]).reactions == pytest.approx(
        (3.0, 10.0, 3.0), rel=1e-14
    )


def test_length_between_points_of_zero_moment():
    """A simple span has its own length; the end span of two has three quarters, and half a span lies over the post."""
    simple = solve(Line((0.0, 100.0)), [Spread(0.0, 100.0, 1.0, 1.0)])
    assert simple.length_between_zero_moments(50.0) == 100.0
    two = solve(Line((0.0, 100.0, 200.0)), [Spread(0.0, 200.0, 1.0, 1.0)])
    assert two.length_between_zero_moments(37.5) == pytest.approx(75.0, rel=1e-12)
    assert two.length_between_zero_moments(100.0) == pytest.approx(50.0, rel=1e-12)
