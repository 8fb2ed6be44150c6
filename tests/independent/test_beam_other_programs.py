"""The beam solver against programs that other people wrote: a frame analysis by stiffness, and symbolic integration."""

import random

import pytest

from beamcheck.beam.model import Line, Point, Spread
from beamcheck.beam.solver import solve

E, I = 1.6e6, 650.0


def random_line(seed):
    """One to four spans, overhangs now and then, loads of every kind."""
    dice = random.Random(seed)  # noqa: S311  a repeatable draw
    supports = [0.0]
    for _ in range(dice.randint(1, 4)):
        supports.append(supports[-1] + dice.randint(30, 240))
    line = Line(tuple(supports), dice.choice([0.0, 0.0, 24.0]), dice.choice([0.0, 0.0, 40.0]))
    loads = [Spread(line.start, line.end, 20.0, 20.0)]
    for _ in range(dice.randint(1, 3)):
        a, b = sorted(dice.sample(range(int(line.start) + 1, int(line.end)), 2))
        loads.append(Point(float(a), float(dice.randint(-500, 3000))))
        loads.append(Spread(float(a), float(b), float(dice.randint(0, 90)), float(dice.randint(-20, 90))))
    return line, loads


def frame(line, loads):
    """The same line as a plane frame, one member a bay; loads that cross a support are cut there by hand."""
    pynite = pytest.importorskip("Pynite", reason="PyNiteFEA, a second opinion for tests only, is not installed")
    model = pynite.FEModel3D()
    model.add_material("wood", E, E / 2.4, 0.2, 0.0)
    model.add_section("beam", 60.0, 100.0, I, 50.0)
    for station in sorted({line.start, line.end, *line.supports}):
        model.add_node(f"at {station}", station, 0.0, 0.0)
    for k, support in enumerate(line.supports):
        model.def_support(f"at {support}", k == 0, True, True, True, False, False)
    for bay in line.bays:
        model.add_member(bay.label, f"at {bay.start}", f"at {bay.end}", "wood", "beam")
        for load in loads:
            if isinstance(load, Point):
                if bay.start < load.station <= bay.end:
                    model.add_member_pt_load(bay.label, "Fy", -load.force, load.station - bay.start)
                continue
            start, end = max(load.start, bay.start), min(load.end, bay.end)
            if start < end:
                slope = (load.last - load.first) / (load.end - load.start)
                first, last = (load.first + slope * (x - load.start) for x in (start, end))
                model.add_member_dist_load(bay.label, "Fy", -first, -last, start - bay.start, end - bay.start)
    model.analyze_linear()
    return model


@pytest.mark.parametrize("seed", range(50))
def test_against_a_stiffness_program(seed):
    """Reactions, moments and shears of a frame program agree to 1e-9, its deflections to what sampling leaves out.

    It samples a bay at 100 sections, and so falls short by no more than the beam can bend between two of them.
    """
    line, loads = random_line(seed)
    model, response = frame(line, loads), solve(line, loads)
    reactions = [model.nodes[f"at {support}"].RxnFY["Combo 1"] for support in line.supports]
    assert reactions == pytest.approx(list(response.reactions), rel=1e-9, abs=1e-9 * max(map(abs, reactions)))
    whole = response.peaks()
    bent = max(whole.sagging.value, -whole.hogging.value)
    for i, bay in enumerate(line.bays):
        member, peaks = model.members[bay.label], response.peaks(i)
        moments = [-member.min_moment("Mz"), -member.max_moment("Mz")]
        assert moments == pytest.approx([peaks.sagging.value, peaks.hogging.value], rel=1e-9, abs=1e-9 * bent)
        shear = max(member.max_shear("Fy"), -member.min_shear("Fy"))
        assert shear == pytest.approx(abs(peaks.shear.value), rel=1e-9)
        rise = bent / (E * I) * (bay.length / 198.0) ** 2 / 2.0  # of the sharpest bend, half way between two samples
        assert -1e-9 <= peaks.EI_down.value / (E * I) + member.min_deflection("dy") <= rise + 1e-9
        assert -1e-9 <= -peaks.EI_up.value / (E * I) - member.max_deflection("dy") <= rise + 1e-9


@pytest.mark.parametrize("seed", range(8))
def test_against_a_stiffness_program_section_by_section(seed):
    """At sections away from loads and supports both programs have the same moment, shear and deflection."""
    line, loads = random_line(seed)
    model, response = frame(line, loads), solve(line, loads)
    peaks = response.peaks()
    bent = max(peaks.sagging.value, -peaks.hogging.value)
    for bay in line.bays:
        member = model.members[bay.label]
        for k in range(1, 12):
            way = k * bay.length / 12.0 + 0.123
            x = bay.start + way
            assert -member.moment("Mz", way) == pytest.approx(response.moment(x), abs=1e-9 * bent)
            assert member.shear("Fy", way) == pytest.approx(
                response.shear(x, "left"), abs=1e-9 * abs(peaks.shear.value)
            )
            assert -member.deflection("dy", way) == pytest.approx(response.deflection(x, E * I), abs=1e-9)


def symbolic(line, loads):
    """Shear, moment and deflection by symbolic integration with unknown reactions; x from the start of the beam."""
    sympy = pytest.importorskip("sympy")
    from sympy.physics.continuum_mechanics.beam import Beam

    x = sympy.Symbol("x")
    start = sympy.Rational(line.start)
    beam = Beam(sympy.Rational(line.end) - start, 1, 1, variable=x)
    unknown = []
    for k, support in enumerate(line.supports):
        way = sympy.Rational(support) - start
        unknown.append(sympy.Symbol(f"R_{k}"))
        beam.apply_load(unknown[-1], way, -1)
        beam.bc_deflection.append((way, 0))
    for load in loads:
        if isinstance(load, Point):
            beam.apply_load(-sympy.Rational(load.force), sympy.Rational(load.station) - start, -1)
            continue
        a, b, first, last = map(sympy.Rational, load)
        beam.apply_load(-first, a - start, 0, end=b - start)
        beam.apply_load((first - last) / (b - a), a - start, 1, end=b - start)
    beam.solve_for_reaction_loads(*unknown)
    return x, [beam.reaction_loads[symbol] for symbol in unknown], beam


@pytest.mark.parametrize("seed", [1, 4, 9])
def test_against_symbolic_integration(seed):
    """Integrated symbolically, with rational figures, the line has the same reactions, moments and deflections."""
    line, loads = random_line(seed)
    loads = loads[:3]
    x, reactions, beam = symbolic(line, loads)
    response = solve(line, loads)
    scale = max(map(abs, response.reactions))
    assert [float(R) for R in reactions] == pytest.approx(list(response.reactions), abs=1e-12 * scale)
    moment, deflection = beam.bending_moment(), beam.deflection()
    bent = max(abs(response.sagging().value), abs(response.hogging().value))
    sunk = max(response.down(1.0).value, -response.up(1.0).value)
    for k in range(1, 10):
        station = line.start + k * (line.end - line.start) / 10.0
        way = {x: station - line.start}
        assert abs(float(moment.subs(way))) == pytest.approx(abs(response.moment(station)), abs=1e-11 * bent)
        assert -float(deflection.subs(way)) == pytest.approx(response.deflection(station, 1.0), abs=1e-11 * sunk)
