"""Times, memory and errors of the beam solver, beside a frame program and symbolic integration: a script, no test.

    python tests/bench/bench_beam.py

T1  simple span of 174 in, one uniform load, three forces and a partial trapezoid: reactions, peaks of M, V, y
T2  144, 180, 120 in; D, S, W on all spans, live load on or off each span, seven combinations: the whole envelope
T3  T2 for 1,000 candidates, and for 10,000 with as many self-weights as a catalogue has
T4  T1 for 10,000 samples of the sizes of the loads; T4b of their places as well

Times are the best of several runs, on one core (pin it with ``taskset -c 0`` and OPENBLAS_NUM_THREADS=1). Errors are
against exact fractions (tests/independent/test_beam_exact.py), the other programs are timed on models made anew. The
gates are for the machine that they were set on, which took 2.8 ms for the frame program's T1: the last lines tell what
the times of this run come to there, by what that program takes here.
"""

import gc
import importlib.util
import os
import platform
import resource
import sys
import time
import tracemalloc
import warnings
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np

from beamcheck.beam.clear_shear import clear_shear
from beamcheck.beam.envelope import Combination, envelope
from beamcheck.beam.model import Line, Point, Spread
from beamcheck.beam.moved import Points, Spreads, moved
from beamcheck.beam.samples import sampled
from beamcheck.beam.solver import solve
from beamcheck.beam.superpose import scaled
from beamcheck.beam.sweep import sweep

E, I = 1.6e6, 650.0
FRAME_T1 = 2.8e-3  # s that the frame program took for T1 on the machine of the gates
GATES = {"T1": 15e-6, "T2": 0.6e-3, "T3": 10e-3, "T4": 5e-3}
SIMPLE = Line((0.0, 174.0))
T1 = [
    Spread(0.0, 174.0, 10.0, 10.0),
    Point(40.0, 500.0),
    Point(80.0, 700.0),
    Point(120.0, 300.0),
    Spread(60.0, 130.0, 5.0, 12.0),
]
THREE = Line((0.0, 144.0, 324.0, 444.0))
T2 = {name: [Spread(0.0, 444.0, w, w)] for name, w in (("D", 8.0), ("L", 25.0), ("S", 12.0), ("W", -6.0))}
PERMANENT = ("D", "S", "W")
COMBINATIONS = [
    Combination("1", {"D": 1.0}),
    Combination("2", {"D": 1.0, "L": 1.0}),
    Combination("3", {"D": 1.0, "S": 1.0}),
    Combination("4", {"D": 1.0, "L": 0.75, "S": 0.75}),
    Combination("5", {"D": 1.0, "W": 0.6}),
    Combination("6", {"D": 1.0, "L": 0.75, "W": 0.45, "S": 0.75}),
    Combination("7", {"D": 0.6, "W": 0.6}),
]
PATTERNS = 8 * len(COMBINATIONS)


def best(run, times, rounds=9):
    """The best time of one run, in seconds."""
    gc.collect()
    gc.disable()
    least = float("inf")
    for _ in range(rounds):
        start = time.perf_counter()
        for _ in range(times):
            run()
        least = min(least, (time.perf_counter() - start) / times)
    gc.enable()
    return least


def peak_memory(run):
    """The most memory that Python and numpy held at once during one run, in MB."""
    run()
    tracemalloc.start()
    run()
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return peak / 1e6


def exact():
    """The module of the exact reference."""
    path = Path(__file__).parent.parent / "independent" / "test_beam_exact.py"
    spec = importlib.util.spec_from_file_location("exact", path)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def error(line, loads, response):
    """The largest relative error of reactions and peaks against exact fractions."""
    reference = exact()
    reactions, pieces = reference.exact_pieces(line, loads)
    expected = [*map(float, reactions), *map(float, reference.exact_peaks(pieces))]
    peaks = response.peaks()
    actual = [*response.reactions, *(peak.value for peak in peaks)]
    actual[len(reactions) + 2] = abs(actual[len(reactions) + 2])
    return max(abs(a - b) / abs(b) for a, b in zip(actual, expected, strict=True) if b)


def frame(line, cases, combinations):
    """The model of the frame program: one member a bay, loads by case."""
    from Pynite import FEModel3D

    model = FEModel3D()
    model.add_material("wood", E, E / 2.4, 0.2, 0.0)
    model.add_section("beam", 60.0, 100.0, I, 50.0)
    for station in line.supports:
        model.add_node(f"at {station}", station, 0.0, 0.0)
    for k, support in enumerate(line.supports):
        model.def_support(f"at {support}", k == 0, True, True, True, False, False)
    for bay in line.bays:
        model.add_member(bay.label, f"at {bay.start}", f"at {bay.end}", "wood", "beam")
        for case, loads in cases.items():
            put_on(model, bay, case, loads)
    for name, factors in combinations.items():
        model.add_load_combo(name, factors)
    model.analyze_linear()
    return model


def put_on(model, bay, case, loads):
    """Put the part of the loads that stands on a bay on its member; line loads that cross a support are uniform."""
    for load in loads:
        if isinstance(load, Point):
            model.add_member_pt_load(bay.label, "Fy", -load.force, load.station - bay.start, case=case)
            continue
        start, end = max(load.start, bay.start) - bay.start, min(load.end, bay.end) - bay.start
        if start < end:
            model.add_member_dist_load(bay.label, "Fy", -load.first, -load.last, start, end, case=case)


def frame_t1():
    """T1 by the frame program, peaks read its own way."""
    model = frame(SIMPLE, {"all": T1}, {"all": {"all": 1.0}})
    beam = model.members["span 1"]
    return (
        -beam.min_moment("Mz", "all"),
        max(beam.max_shear("Fy", "all"), -beam.min_shear("Fy", "all")),
        -beam.min_deflection("dy", "all"),
        *(model.nodes[f"at {support}"].RxnFY["all"] for support in SIMPLE.supports),
    )


def frame_t2():
    """T2 by the frame program: one combination a pattern, peaks by bay."""
    cases = {name: T2[name] for name in PERMANENT}
    for i, bay in enumerate(THREE.bays):
        cases[f"L{i}"] = [Spread(bay.start, bay.end, 25.0, 25.0)]
    combinations = {}
    for name, factors in COMBINATIONS:
        for mask in range(8 if "L" in factors else 1):
            live = {f"L{i}": factors["L"] for i in range(3) if mask >> i & 1}
            combinations[f"{name} {mask}"] = {**{t: f for t, f in factors.items() if t != "L"}, **live}
    model = frame(THREE, cases, combinations)
    members = [model.members[bay.label] for bay in THREE.bays]
    return (
        [max(-member.min_moment("Mz", name) for name in combinations) for member in members],
        [max(member.max_moment("Mz", name) for name in combinations) for member in members],
        [max(member.max_shear("Fy", name) for name in combinations) for member in members],
        [max(-member.min_deflection("dy", name) for name in combinations) for member in members],
        [max(member.max_deflection("dy", name) for name in combinations) for member in members],
    )


def symbolic_t1():
    """T1 by symbolic integration, read at the stations of the peaks."""
    from sympy import Rational, Symbol
    from sympy.physics.continuum_mechanics.beam import Beam

    x, left, right = Symbol("x"), Symbol("left"), Symbol("right")
    beam = Beam(174, 1, 1, variable=x)
    beam.apply_load(left, 0, -1)
    beam.apply_load(right, 174, -1)
    beam.bc_deflection = [(0, 0), (174, 0)]
    for load in T1:
        if isinstance(load, Point):
            beam.apply_load(-Rational(load.force), Rational(load.station), -1)
        else:
            a, b, first, last = map(Rational, load)
            beam.apply_load(-first, a, 0, end=b)
            beam.apply_load((first - last) / (b - a), a, 1, end=b)
    beam.solve_for_reaction_loads(left, right)
    peaks = solve(SIMPLE, T1).peaks()
    return (
        float(beam.bending_moment().subs(x, Rational(peaks.sagging.station))),
        -float(beam.deflection().subs(x, Rational(peaks.EI_down.station))) / (E * I),
    )


def report(name, seconds, cases, gate=None, ours=None):
    """Print one line: time, cases a second, whether the gate is met, and how many times ours another program takes."""
    unit, scale = ("us", 1e6) if seconds < 1e-4 else ("ms", 1e3)
    limit = "" if gate is None else f"   gate {gate * scale:g} {unit}: {'met' if seconds <= gate else 'NOT met'}"
    ratio = "" if ours is None else f"   {seconds / ours:,.0f} times ours"
    print(f"{name:58} {seconds * scale:9.2f} {unit} {cases / seconds:14,.0f} cases/s{limit}{ratio}")


def one_beam():
    """T1 and T2: their times."""

    def anew():
        line = Line((0.0, 174.0))
        loads = [Point(*load) if isinstance(load, Point) else Spread(*load) for load in T1]
        response = solve(line, loads)
        return response.peaks(), response.reactions

    alone = best(lambda: solve(SIMPLE, T1).peaks(), 2000)
    report("T1 solve and all peaks", alone, 1, GATES["T1"])
    report("T1 with the line and its loads made anew", best(anew, 2000), 1)
    print(f"   largest relative error of T1 {error(SIMPLE, T1, solve(SIMPLE, T1)):.1e}")
    whole = best(lambda: envelope(THREE, T2, COMBINATIONS, PERMANENT), 30)
    report("T2 whole envelope, by bay, with names of cases", whole, PATTERNS, GATES["T2"])
    found = envelope(THREE, T2, COMBINATIONS, PERMANENT)
    cases = [found.response(peaks.combination, mask) for peaks in found.peaks for mask in peaks.masks]
    print(f"   largest relative error of its {len(cases)} cases {max(error(THREE, c.loads, c) for c in cases):.1e}")
    long = Line(tuple(150.0 * k for k in range(7)), 30.0, 30.0)
    loads = {name: [Spread(long.start, long.end, w, w)] for name, w in (("D", 8.0), ("L", 25.0), ("S", 12.0))}
    seconds = best(lambda: envelope(long, loads, COMBINATIONS[:4]), 1, 3)
    report("six spans, two overhangs, D, L, S: 256 patterns, 4 comb.", seconds, 3 * 256 + 1)
    return alone, whole


def many_beams():
    """T3 and T4: their times, of T3 that of as many self-weights as candidates."""
    chance = np.random.default_rng(0)
    found = envelope(THREE, T2, COMBINATIONS, PERMANENT)
    times = []
    for n, weights in ((1000, 1000), (1000, 60), (10_000, 200), (10_000, 10_000)):
        weight = chance.choice(np.linspace(0.5, 3.0, weights), n)
        EI = chance.uniform(1e8, 1e9, n)
        run = lambda weight=weight, EI=EI: sweep(found, weight, EI)  # noqa: E731
        gate = GATES["T3"] if n == 1000 else None
        times.append(best(run, 2))
        report(f"T3 {n:,} candidates, {weights:,} self-weights", times[-1], n * PATTERNS, gate)
        print(f"   peak memory {peak_memory(run):.0f} MB; largest relative error {sweep_error(weight, EI):.1e}")
    depth = chance.choice([7.25, 9.25, 9.5, 11.25, 11.875, 14.0, 16.0, 18.0], len(weight))
    report("   shear at a depth from the supports, 10,000", best(lambda: clear_shear(found, weight, depth), 2), n)
    factors = chance.uniform(0.5, 1.5, (10_000, len(T1)))
    sizes = best(lambda: sampled(SIMPLE, T1, factors), 2)
    report("T4 10,000 samples of sizes", sizes, 10_000, GATES["T4"])
    print(f"   largest relative difference from one beam at a time {sample_error(factors):.1e}")
    share = np.sort(chance.random((2, 10_000)), axis=0) * 174.0
    loads = [Spreads(0.0, 174.0, factors[:, 0] * 10.0, 10.0), Spreads(share[0], share[1], 5.0, 12.0)]
    loads += [Points(chance.uniform(0.0, 174.0, 10_000), 500.0 * factors[:, k]) for k in (1, 2, 3)]
    report("T4b 10,000 samples of sizes and places", best(lambda: moved([0.0, 174.0], loads), 2), 10_000)
    return times[0], sizes


def sweep_error(weight, EI):
    """Sweep against the envelope of single candidates."""
    found = sweep(envelope(THREE, T2, COMBINATIONS, PERMANENT), weight, EI)
    worst = 0.0
    for k in range(0, len(weight), len(weight) // 10):
        loads = {**T2, "D": [*T2["D"], Spread(0.0, 444.0, weight[k], weight[k])]}
        for c, peaks in enumerate(envelope(THREE, loads, COMBINATIONS, PERMANENT).peaks):
            for ours, theirs, scale in (
                (found.sagging, peaks.sagging, 1.0),
                (found.hogging, peaks.hogging, 1.0),
                (found.shear, peaks.shear, 1.0),
                (found.down, peaks.EI_down, EI[k]),
            ):
                for bay, governing in enumerate(theirs):
                    expected = governing.value / scale
                    if expected:
                        worst = max(worst, abs(abs(ours[c, bay, k] / expected) - 1.0))
    return worst


def sample_error(factors):
    """Samples against one beam at a time."""
    found = sampled(SIMPLE, T1, factors)
    worst = 0.0
    for k in range(0, len(factors), 500):
        peaks = solve(SIMPLE, [scaled(load, f) for load, f in zip(T1, factors[k], strict=True)]).peaks()
        for ours, theirs in (
            (found.sagging, peaks.sagging),
            (found.shear, peaks.shear),
            (found.EI_down, peaks.EI_down),
        ):
            worst = max(worst, abs(abs(ours[0, k] / theirs.value) - 1.0))
    return worst


def others(alone, whole, *many):
    """The other programs on T1 and T2, beside our times for them in the same run; and ours on the gates' machine."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        if importlib.util.find_spec("Pynite"):
            frame = best(frame_t1, 2, 5)
            report("PyNiteFEA T1", frame, 1, ours=alone)
            report("PyNiteFEA T2, 28 combinations that differ", best(frame_t2, 1, 3), PATTERNS, ours=whole)
            compare_frame()
            for (name, gate), seconds in zip(GATES.items(), (alone, whole, *many), strict=True):
                there = seconds * FRAME_T1 / frame
                report(f"{name} on the machine of the gates, by PyNiteFEA T1", there, 1, gate)
        report("sympy Beam T1, read at two stations, warm", best(symbolic_t1, 1, 3), 1, ours=alone)
        moment, down = symbolic_t1()
        peaks = solve(SIMPLE, T1).peaks()
        ratio = abs(moment) / peaks.sagging.value - 1.0, abs(down) * E * I / peaks.EI_down.value - 1.0
        print(f"   differs from ours by {ratio[0]:.1e} (M) and {ratio[1]:.1e} (y)")


def compare_frame():
    """How far the frame program is from our peaks."""
    peaks, response = solve(SIMPLE, T1).peaks(), solve(SIMPLE, T1)
    ours = (peaks.sagging.value, abs(peaks.shear.value), peaks.EI_down.value / (E * I), *response.reactions)
    off = [theirs / own - 1.0 for theirs, own in zip(frame_t1(), ours, strict=True)]
    print("   differs on T1 by", ", ".join(f"{name} {share:.1e}" for name, share in zip("MVyRR", off, strict=True)))
    found = envelope(THREE, T2, COMBINATIONS, PERMANENT).peaks
    names = ("sagging", "hogging", "EI_down", "EI_up")
    theirs = frame_t2()
    for name, figures in zip(names, (theirs[0], theirs[1], theirs[3], theirs[4]), strict=True):
        scale = E * I if name.startswith("EI") else 1.0
        own = [max(abs(getattr(p, name)[bay].value) / scale for p in found) for bay in range(3)]
        off = max(abs(a / b - 1.0) for a, b in zip(figures, own, strict=True) if b)
        print(f"   differs on T2 by {off:.1e} ({name})")


if __name__ == "__main__":
    print(f"Python {platform.python_version()}, numpy {np.__version__}, {platform.machine()}, {os.cpu_count()} cores")
    ours = (*one_beam(), *many_beams())
    if "--alone" not in sys.argv:
        others(*ours)
    print(f"most memory of the whole process {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e3:.0f} MB")
