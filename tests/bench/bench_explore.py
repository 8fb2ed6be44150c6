"""Times, memory and agreement of sweeps, margins and chances: a script, no test.

    python tests/bench/bench_explore.py            (--alone leaves the frame program out)

S1  10,000 beams on three spans: every live pattern of every combination, every wood check of the beam
S2  S1 with the checks of the seats and of four posts
S3  the yard's list on the demonstration survey, as  bearline options  runs it
C1  100,000 draws through beam, seats and posts of the demonstration; C2 the same on three spans
F1  every flip and corner of the demonstration, as  bearline margins  solves them
Q1  one study of the demonstration, the numpy-free path

Times are the best of several runs, of the process's own time on one core (pin it with ``taskset -c 0`` and
OPENBLAS_NUM_THREADS=1). Memory is the most that Python and numpy hold at once.
"""

import gc
import importlib.util
import os
import platform
import random
import resource
import sys
import time
import tracemalloc
import warnings
from dataclasses import replace
from importlib.resources import files
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np

from beamcheck.catalogue.reading import read_member
from beamcheck.explore.chance import chance
from beamcheck.explore.margins import margins
from beamcheck.explore.options import options
from beamcheck.explore.ratios import of_beam, of_post, reduced
from beamcheck.explore.swept import Swept, ground
from beamcheck.standards import nds_2018 as nds
from beamcheck.standards import statics
from beamcheck.study.chain import study
from beamcheck.study.designs import axial_cases, beam_design, post_design
from beamcheck.study.layout import lay_out
from beamcheck.survey.reader import read_text
from beamcheck.takedown.carried import all_sources
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import EDITIONS
from beamcheck.trace import Check, items

BEAMS = 10_000
PATTERNS = 8
GATE_SWEEP, GATE_DRAWS, GATE_MEMORY = 0.100, 1.0, 300.0
THREE_SPANS = """
[study]
title = "Three spans"
[site]
loads = "ASCE 7-16"
ground_snow = { value = "30 psf", trust = "looked up" }
[wall]
clear_opening = { value = "36 ft 6-1/2 in", trust = "stated" }
ceiling_height = { value = "8 ft", trust = "stated" }
[[carried]]
name = "floor"
kind = "floor"
span_a = { value = "12 ft", trust = "stated" }
span_b = { value = "11 ft", trust = "stated" }
continuity = { value = "lapped", trust = "seen" }
use = "other rooms"
dead = { value = "15 psf", trust = "stated" }
[[carried]]
name = "roof"
kind = "roof"
span_a = { value = "10 ft", trust = "stated" }
span_b = { value = "10 ft", trust = "stated" }
pitch = { value = "6:12", trust = "seen" }
dead = { value = "15 psf", trust = "stated" }
[beam]
member = "3-ply 2x12 Douglas Fir-Larch No.2"
position = "dropped"
top_edge = "not held"
ceiling_below = "gypsum"
floor_above = "wood or carpet"
""" + "".join(
    f"""
[[post]]
member = "6x6 Douglas Fir-Larch No.1"
{station}
held = "free"
seat = "cap"
eccentricity = {{ value = "1 in", trust = "stated" }}
plate = "Hem-Fir"
stands_on = "pier"
"""
    for station in ("", 'station = "12 ft"', 'station = "27 ft"', "")
)


def best(run, rounds=7):
    """The best time of one run, in seconds of the process."""
    run()
    gc.collect()
    gc.disable()
    least = float("inf")
    for _ in range(rounds):
        start = time.process_time()
        run()
        least = min(least, time.process_time() - start)
    gc.enable()
    return least


def memory(run):
    """The most memory that Python and numpy held at once during one run, and what stays after it, in MB."""
    tracemalloc.start()
    run()
    gc.collect()
    stays, most = (size / 1e6 for size in tracemalloc.get_traced_memory())
    tracemalloc.stop()
    return most, stays


def report(name, seconds, cases, what, gate=None):
    """Print one line: time, cases a second, and whether the gate is met."""
    limit = "" if gate is None else f"   gate {gate * 1e3:g} ms: {'met' if seconds <= gate else 'NOT met'}"
    print(f"{name:58} {seconds * 1e3:9.1f} ms {cases / seconds:14,.0f} {what}/s{limit}")


def many(survey):
    """10,000 beams of one kind: 40 depths, 10 breadths (so 400 weights) and 25 grades, as one member of arrays."""
    base = read_member(survey.beam.member, "beam.member")
    dice = np.random.default_rng(1)
    sizes = np.linspace(7.25, 17.0, 40), np.linspace(3.0, 7.5, 10), np.arange(25)
    depth, breadth, grade = np.meshgrid(*sizes, indexing="ij")
    grades = 1 + dice.random(25)
    figures = {
        name: replace(value, number=value.number * grades[grade.ravel()])
        for name, value in base.figures.items()
        if not name.startswith("C_F")
    }
    b, d = replace(base.b, number=breadth.ravel()), replace(base.d, number=depth.ravel())
    return replace(base, b=b, b_ply=b, d=d, plies=1, figures=base.figures | figures)


def sweeps():
    """S1 and S2, and how far they are from studies of some of the same beams."""
    survey = read_text(THREE_SPANS.encode())
    member, count = many(survey), BEAMS
    layout = lay_out(survey, read_member(survey.beam.member, "beam.member"))
    layout = replace(layout, seats=tuple(
        replace(seat, breadth=statics.shared_breadth(b=member.b, d_post=post.d))
        for seat, post in zip(layout.seats, layout.posts, strict=True)
    ))  # fmt: skip
    rows, _ = all_sources(survey.carried, survey.site, layout.reach)
    cases = combinations(EDITIONS[survey.site.loads], frozenset(row.load_type for row in rows))

    def solved():
        weight = statics.self_weight(gamma=member.density, A=nds.area(b=member.b, d=member.d))
        return Swept(ground(layout.line, rows, cases), weight.to("lb/in"), member.d.number)

    def beams():
        anew = replace(member)  # so that nothing of the run before is known of it
        return reduced(of_beam(beam_design(survey, anew, layout, solved())), count)

    def posts(loaded):
        for number in range(len(layout.posts)):
            design = post_design(survey, number, layout, axial_cases(loaded, number))
            yield from of_post(survey, member, layout, number, design)

    vectors = BEAMS * PATTERNS * len(cases)
    print(f"   {BEAMS:,} beams x 3 spans x {PATTERNS} patterns x {len(cases)} combinations = {vectors:,} load vectors")
    report("S0 the line and its peaks alone", best(solved), vectors, "vectors")
    seconds = best(beams)
    report("S1 10,000 beams, every wood check", seconds, vectors, "vectors", GATE_SWEEP)
    print(f"   {BEAMS / seconds:,.0f} beams/s, {sum(1 for _ in beams())} checks each")
    both = best(lambda: (beams(), reduced(posts(solved()), count)), 3)
    report("S2 with seats and four posts", both, vectors, "vectors")
    most, stays = memory(beams)
    gate = f"gate {GATE_MEMORY:.0f} MB: {'met' if most < GATE_MEMORY else 'NOT met'}"
    print(f"   most memory {most:.0f} MB, {stays:.0f} MB stay   {gate}")
    return survey, seconds


def agreement(survey):
    """The largest difference between the yard's list as swept and as studied one by one."""
    from beamcheck.explore.stock import stock
    from beamcheck.explore.trials import tried

    batches = stock(survey)
    trial = tried(survey, batches)
    texts = [text for batch in batches for text in batch.texts]
    off = 0.0
    start = time.process_time()
    sample = random.Random(2).sample(range(len(texts)), 20)  # noqa: S311
    for beam in sample:
        batch, number = trial.batch_of(beam)
        for item in items(study(replace(survey, beam=replace(survey.beam, member=texts[beam]))).sheet):
            if isinstance(item, Check) and item.key in trial.of_beam[batch]:
                off = max(off, abs(trial.of_beam[batch][item.key].ratio[number] - float(item.ratio)))
    each = (time.process_time() - start) / len(sample)
    print(f"   differs from studies one by one by {off:.1e} in utilisation")
    return each


def beside_others(survey, each, seconds):
    """The ratio to the numpy-free path and to the frame program on the same line, and differences from the latter."""
    print(f"   numpy-free, a study a beam: {each * BEAMS:,.0f} s for {BEAMS:,}: {each * BEAMS / seconds:,.0f} times S1")
    if "--alone" in sys.argv or not importlib.util.find_spec("Pynite"):
        return
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        framed(survey, seconds)


def framed(survey, seconds):
    """One beam of S1 in the frame program, every pattern of every combination, against ours."""
    spec = importlib.util.spec_from_file_location("bench_beam", Path(__file__).with_name("bench_beam.py"))
    bench = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(bench)
    loaded = study(survey).loaded
    cases, named = {}, {}
    for name, units in loaded.strength.units.by_type.items():
        for unit in units:
            cases[f"{name} {unit.bay}"] = list(unit.loads)
    for combination in loaded.strength.combinations:
        for mask in loaded.strength.under(combination.name).masks:
            named[f"{combination.name} {mask}"] = {
                case: combination.factors[case.split()[0]]
                for case in cases
                if case.split()[0] in combination.factors and int(case.split()[1]) in (-1, *mask)
            }

    def theirs():
        model = bench.frame(loaded.line, cases, named)
        beams = [model.members[bay.label] for bay in loaded.line.bays]
        return (
            max(-beam.min_moment("Mz", name) for beam in beams for name in named),
            max(max(beam.max_shear("Fy", name), -beam.min_shear("Fy", name)) for beam in beams for name in named),
            max(model.nodes[f"at {at}"].RxnFY[name] for at in loaded.line.supports for name in named),
            max(-beam.min_deflection("dy", name) for beam in beams for name in named) * bench.E * bench.I,
        )

    peaks = loaded.strength.peaks
    ours = (
        max(one.value for each in peaks for one in each.sagging),
        max(abs(one.value) for each in peaks for one in each.shear),
        max(one.value for each in peaks for one in each.most_reaction),
        max(one.value for each in peaks for one in each.EI_down),
    )
    start = time.process_time()
    found = theirs()
    each = time.process_time() - start
    print(f"   PyNiteFEA, peaks only: {each * BEAMS:,.0f} s for {BEAMS:,}: {each * BEAMS / seconds:,.0f} times S1")
    told = ", ".join(f"{name} {b / a - 1:.1e}" for name, a, b in zip("MVRy", ours, found, strict=True))
    print(f"   it differs from ours by {told}")


def surveys():
    """S3, C1, C2, F1 and Q1."""
    demo = read_text((files("beamcheck.survey") / "demo.toml").read_bytes(), "demo.toml")
    one, three = study(demo), study(read_text(THREE_SPANS.encode()))
    listed = options(demo)
    report("S3 the yard's list on the demonstration", best(lambda: options(demo)), listed.tried, "beams")
    report("C1 100,000 draws, the demonstration", best(lambda: chance(one), 3), 100_000, "draws", GATE_DRAWS)
    report("C2 100,000 draws, three spans", best(lambda: chance(three), 1), 100_000, "draws")
    print(f"   most memory {memory(lambda: chance(one, 20_000))[0]:.0f} MB (C1), "
          f"{memory(lambda: chance(three, 20_000))[0]:.0f} MB (C2)")  # fmt: skip
    found = margins(one)
    report("F1 flips and corners of the demonstration", best(lambda: margins(one), 1), len(found.flips), "flips")
    report("Q1 one study of the demonstration", best(lambda: study(demo)), 1, "studies")


if __name__ == "__main__":
    print(f"Python {platform.python_version()}, numpy {np.__version__}, {platform.machine()}, {os.cpu_count()} cores")
    three_spans, swept = sweeps()
    beside_others(three_spans, agreement(three_spans), swept)
    surveys()
    print(f"most memory of the whole process {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e3:.0f} MB")
