"""Thousands of beams at once give what one beam at a time gives."""

import random

import numpy as np
import pytest

from beamcheck.beam.clear_shear import clear_shear
from beamcheck.beam.envelope import Combination, envelope
from beamcheck.beam.model import Line, Point, Spread
from beamcheck.beam.moved import Points, Spreads, moved
from beamcheck.beam.samples import sampled
from beamcheck.beam.solver import solve
from beamcheck.beam.superpose import scaled
from beamcheck.beam.sweep import sweep

COMBINATIONS = [
    Combination("D", {"D": 1.0}),
    Combination("D + L", {"D": 1.0, "L": 1.0}),
    Combination("D + 0.75 L + 0.75 S", {"D": 1.0, "L": 0.75, "S": 0.75}),
    Combination("L", {"L": 1.0}),
    Combination("0.6 D + W", {"D": 0.6, "W": 1.0}),
]


def random_line(seed):
    """A line and its loads by type; every third has sloped loads that change sign, and forces."""
    dice = random.Random(seed)  # noqa: S311  a repeatable draw
    supports = [0.0]
    for _ in range(1 + seed % 4):
        supports.append(supports[-1] + float(dice.randint(40, 240)))
    line = Line(tuple(supports), dice.choice([0.0, 30.0]), dice.choice([0.0, 45.5]))
    loads = {"D": [Spread(line.start, line.end, 6.0, 6.0)], "L": [Spread(line.start, line.end, 30.0, 30.0)]}
    loads["W"] = [Spread(line.start, line.end, -14.0, -14.0)]
    if seed % 3:
        start, end = sorted(dice.uniform(line.start, line.end) for _ in range(2))
        loads["S"] = [Spread(start, end, -8.0, 25.0), Point(dice.uniform(line.start, line.end), 700.0)]
        loads["L"].append(Point(dice.uniform(line.start, line.end), 900.0))
    return line, loads


@pytest.mark.parametrize("seed", range(9))
def test_sweep_is_the_envelope_of_each_candidate(seed):
    """A candidate's peaks are those of the envelope with its own self-weight among the loads."""
    line, loads = random_line(seed)
    chance = np.random.default_rng(seed)
    weight, EI = chance.uniform(0.3, 9.0, 40), chance.uniform(1e8, 1e9, 40)
    weight[10:14] = weight[3]
    found = sweep(envelope(line, loads, COMBINATIONS), weight, EI)
    for k in (0, 3, 12, 39, int(weight.argmin()), int(weight.argmax())):
        heavy = {**loads, "D": [*loads["D"], Spread(line.start, line.end, weight[k], weight[k])]}
        for c, peaks in enumerate(envelope(line, heavy, COMBINATIONS).peaks):
            for name in ("sagging", "hogging", "shear", "EI_down", "EI_up", "most_reaction", "least_reaction"):
                expected = [governing.value for governing in getattr(peaks, name)]
                if name == "shear":
                    expected = [abs(value) for value in expected]
                actual = getattr(found, name.removeprefix("EI_"))[c, :, k] * (EI[k] if "EI" in name else 1.0)
                assert list(actual) == pytest.approx(expected, rel=1e-10, abs=1e-12 * max(map(abs, expected))), name


def test_sweep_of_one_candidate_and_of_equal_ones():
    """One candidate alone, or many of the same weight, are swept as any others."""
    line, loads = random_line(2)
    found = envelope(line, loads, COMBINATIONS)
    one = sweep(found, np.array([2.5]), np.array([4e8]))
    many = sweep(found, np.full(5, 2.5), np.full(5, 4e8))
    for single, several in zip(one, many, strict=True):
        assert several.shape[-1] == 5
        assert np.array_equal(np.repeat(single, 5, axis=-1), several)


def test_sweep_without_patterns_by_closed_form():
    """On a simple span: M = (q + w) L²/8 and y = 5 (q + w) L⁴ / 384 EI for every candidate."""
    line = Line((0.0, 150.0))
    weight, EI = np.linspace(1.0, 7.0, 500), np.linspace(2e8, 9e8, 500)
    found = sweep(envelope(line, {"D": [Spread(0.0, 150.0, 20.0, 20.0)]}, COMBINATIONS[:1]), weight, EI)
    np.testing.assert_allclose(found.sagging[0, 0], (20.0 + weight) * 150.0**2 / 8.0, rtol=1e-13)
    np.testing.assert_allclose(found.down[0, 0], 5.0 * (20.0 + weight) * 150.0**4 / 384.0 / EI, rtol=1e-13)
    np.testing.assert_allclose(found.most_reaction[0, 1], (20.0 + weight) * 75.0, rtol=1e-13)
    assert not found.hogging.any()
    assert not found.up.any()


@pytest.mark.parametrize("seed", range(4))
def test_clear_shear_is_the_greatest_beyond_the_distance(seed):
    """Shear at a distance is the greatest of all patterns at any section that far from the supports and beyond."""
    line, loads = random_line(3 * seed)
    loads["L"] += [Point(0.6 * line.supports[1], 800.0), Point(line.supports[0] + 5.0, 300.0)]
    loads["L"].append(Point(line.supports[-1] - 6.0, 200.0))
    weight, distance = np.array([0.5, 2.0, 6.0]), np.array([9.25, 11.25, 16.0])
    found = clear_shear(envelope(line, loads, COMBINATIONS), weight, distance)
    for k in range(3):
        heavy = {**loads, "D": [*loads["D"], Spread(line.start, line.end, weight[k], weight[k])]}
        again = envelope(line, heavy, COMBINATIONS)
        for c, peaks in enumerate(again.peaks):
            cases = [again.response(peaks.combination, mask) for mask in peaks.masks]
            for i, bay in enumerate(line.bays):
                left = bay.start + (distance[k] if bay.kind != "left overhang" else 0.0)
                right = bay.end - (distance[k] if bay.kind != "right overhang" else 0.0)
                inner = [piece.end for piece in cases[0].pieces if left < piece.end < right]
                faces = [(left, "left"), (right, "right"), *[(x, side) for x in inner for side in ("left", "right")]]
                expected = max(abs(case.shear(x, side)) for case in cases for x, side in faces)
                assert found[c, i, k] == pytest.approx(expected, rel=1e-11, abs=1e-9)


def test_clear_shear_of_a_simple_span():
    """A uniform load leaves w (L/2 - d) at the distance d, and nothing at the middle of a span of two depths."""
    line = Line((0.0, 100.0))
    found = envelope(line, {"D": [Spread(0.0, 100.0, 10.0, 10.0)]}, COMBINATIONS[:1])
    distance = np.array([0.0, 12.0, 50.0, 70.0])
    assert list(clear_shear(found, np.full(4, 2.0), distance)[0, 0]) == pytest.approx(
        [600.0, 456.0, 0.0, 0.0], abs=1e-9
    )


@pytest.mark.parametrize("seed", range(5))
def test_samples_are_solved_one_by_one(seed):
    """A sample of load sizes gives the peaks of the line under the loads of those sizes."""
    line, by_type = random_line(seed)
    loads = [load for part in by_type.values() for load in part]
    factors = np.random.default_rng(seed).uniform(-0.5, 1.5, (30, len(loads)))
    found = sampled(line, loads, factors)
    for k in range(30):
        response = solve(line, [scaled(load, f) for load, f in zip(loads, factors[k], strict=True)])
        assert_same(found, k, response, 1e-10)


@pytest.mark.parametrize(("posts", "left", "right"), [(2, 0, 0), (2, 1, 0), (3, 0, 1), (4, 1, 1), (7, 0, 0)])
def test_moved_lines_are_solved_one_by_one(posts, left, right):
    """A sample of moved supports and moved loads gives the peaks of that line under those loads."""
    chance, n = np.random.default_rng(posts), 40
    supports = list(np.cumsum(chance.uniform(40.0, 200.0, (posts, n)), axis=0))
    hang, tail = chance.uniform(5.0, 50.0, n) * left, chance.uniform(5.0, 50.0, n) * right
    start, length = supports[0] - hang, supports[-1] + tail - supports[0] + hang
    loads = [Points(start + length * chance.random(n) * 0.999, chance.uniform(-500.0, 2000.0, n)) for _ in range(3)]
    loads += [Points(supports[1], 100.0), Points(start, 50.0)]
    for _ in range(3):
        share = np.sort(chance.random((2, n)), axis=0) * 0.999
        sizes = chance.uniform(-30.0, 50.0, (2, n))
        loads.append(Spreads(start + length * share[0], start + length * share[1], sizes[0], sizes[1]))
    found = moved(supports, loads, hang if left else 0.0, tail if right else 0.0)
    for k in range(n):
        line = Line(tuple(float(support[k]) for support in supports), float(hang[k]), float(tail[k]))
        put = []
        for load in loads:
            figures = [float(figure[k]) if np.ndim(figure) else float(figure) for figure in load]
            put.append(Point(*figures) if isinstance(load, Points) else Spread(*figures))
        assert_same(found, k, solve(line, put), 1e-9)


def assert_same(found, k, response, rel):
    """The peaks of sample ``k`` are those of the response, to a share of the greatest figure of the line."""
    whole = response.peaks()
    bent = max(abs(whole.sagging.value), abs(whole.hogging.value))
    sunk = max(abs(whole.EI_down.value), abs(whole.EI_up.value))
    for bay in range(len(found.sagging)):
        peaks = response.peaks(bay)
        assert found.sagging[bay, k] == pytest.approx(peaks.sagging.value, abs=rel * bent)
        assert found.hogging[bay, k] == pytest.approx(peaks.hogging.value, abs=rel * bent)
        assert found.shear[bay, k] == pytest.approx(abs(peaks.shear.value), abs=rel * abs(whole.shear.value))
        assert found.EI_down[bay, k] == pytest.approx(peaks.EI_down.value, abs=rel * sunk)
        assert found.EI_up[bay, k] == pytest.approx(peaks.EI_up.value, abs=rel * sunk)
    scale = max(map(abs, response.reactions))
    assert list(found.reactions[:, k]) == pytest.approx(list(response.reactions), abs=rel * scale)
