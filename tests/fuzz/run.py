"""Spoil surveys and unit strings by the hundred thousand, and print every law that breaks.

python tests/fuzz/run.py --surveys 200000 --units 1000000 --processes 2 --seed 1
"""

import argparse
import random
import re
import sys
import time
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor, as_completed
from pathlib import Path
from typing import NamedTuple

FOLDER = Path(__file__).parent
ROOT = FOLDER.parents[1]
sys.path[:0] = [str(FOLDER), str(ROOT), str(ROOT / "tests" / "independent")]

from laws import LONGEST, in_time, survey_fault, unit_fault  # noqa: E402  the folders above come first
from mutation import Mutator, unit_text  # noqa: E402

from beamcheck.units import Dimension  # noqa: E402

BATCH_SURVEYS, BATCH_UNITS = 500, 20_000
MOST_SHOWN = 20


class Batch(NamedTuple):
    """A run of numbers to try, of surveys or of units."""

    what: str
    seed: int
    first: int
    count: int


class Found(NamedTuple):
    """What a batch came to: counts by outcome, broken laws with the number that shows each, slowest seconds."""

    outcomes: Counter[str]
    broken: list[str]
    slowest: float


def bases() -> tuple[tuple[str, ...], tuple[int, ...]]:
    """The surveys that are spoilt, and how often each is taken: short ones more often than long ones."""
    from random_surveys import survey

    from beamcheck.survey.blank import blank

    demo = (ROOT / "beamcheck" / "survey" / "demo.toml").read_text(encoding="utf-8")
    houses = [path.read_text(encoding="utf-8") for path in sorted((ROOT / "tests" / "houses").glob("*.toml"))]
    random_ones = [survey(seed) for seed in range(40)]
    starter = re.sub(r"(?m)^# ", "", blank())  # every key of every part, with its example
    texts = (demo, starter, SMALL, *houses, *random_ones)
    weights = (6, 4, 90, *(3 for _ in houses), *(1 for _ in random_ones))
    return texts, weights


SMALL = """[study]
title = "a small house"
[site]
ground_snow = "30 psf"
[wall]
clear_opening = "10 ft"
ceiling_height = "8 ft"
[[carried]]
name = "floor"
kind = "floor"
span_a = "12 ft"
span_b = "10 ft"
[beam]
member = "3-ply 2x12 Douglas Fir-Larch No.2"
position = "dropped"
[[post]]
member = "3-ply 2x6 Hem-Fir No.2"
seat = "cap"
stands_on = "pad"
[[post]]
member = "6x6 unknown"
seat = "cap"
stands_on = "pad"
[[pad]]
under = "post 1"
state = "new"
[[pad]]
under = "post 2"
state = "new"
"""


def tried(batch: Batch) -> Found:
    """Try one batch."""
    return _surveys(batch) if batch.what == "surveys" else _units(batch)


def _surveys(batch: Batch) -> Found:
    mutator = Mutator(*bases(), batch.seed)
    outcomes: Counter[str] = Counter()
    broken: list[str] = []
    slowest = 0.0
    for number in range(batch.first, batch.first + batch.count):
        data = mutator.survey(number)
        start = time.monotonic()
        outcome, law = survey_fault(data)
        slowest = max(slowest, time.monotonic() - start)
        outcomes["broken" if law else outcome] += 1
        if law:
            broken.append(f"survey {number}: {law}")
    return Found(outcomes, broken, slowest)


def _units(batch: Batch) -> Found:
    dice = random.Random(f"{batch.seed} {batch.first}")  # noqa: S311  a repeatable draw
    dimensions = tuple(Dimension)
    outcomes: Counter[str] = Counter()
    broken: list[str] = []
    slowest = 0.0
    for _ in range(batch.count):
        text, dimension = unit_text(dice), dice.choice(dimensions)
        start = time.monotonic()
        with in_time(LONGEST):
            law = unit_fault(text, dimension)
        slowest = max(slowest, time.monotonic() - start)
        outcomes["unit broken" if law else "unit read or refused"] += 1
        if law:
            broken.append(law)
    return Found(outcomes, broken, slowest)


def batches(surveys: int, units: int, seed: int) -> Iterator[Batch]:
    """All that is to be tried."""
    for what, whole, size in (("surveys", surveys, BATCH_SURVEYS), ("units", units, BATCH_UNITS)):
        for first in range(0, whole, size):
            yield Batch(what, seed, first, min(size, whole - first))


def main() -> int:
    """Try everything asked for; the exit code says whether any law broke."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--surveys", type=int, default=200_000)
    parser.add_argument("--units", type=int, default=1_000_000)
    parser.add_argument("--processes", type=int, default=2)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--minutes", type=float, default=0.0, help="begin no further batch after this long; 0: no end")
    parser.add_argument("--show", type=int, default=-1, help="print the spoilt survey of that number, and stop")
    asked = parser.parse_args()
    if asked.show >= 0:
        sys.stdout.buffer.write(Mutator(*bases(), asked.seed).survey(asked.show))
        return 0
    return _all(list(batches(asked.surveys, asked.units, asked.seed)), asked.processes, asked.minutes * 60)


def _all(todo: list[Batch], processes: int, longest: float) -> int:
    start, outcomes, broken, slowest = time.monotonic(), Counter[str](), list[str](), 0.0
    for done, found in enumerate(_results(todo, processes, longest), 1):
        outcomes += found.outcomes
        slowest = max(slowest, found.slowest)
        for law in found.broken:
            broken.append(law)
            if len(broken) <= MOST_SHOWN:
                print(f"\n{law}")
        left = f"{done} of {len(todo)} batches, {time.monotonic() - start:.0f} s, {len(broken)} broken"
        if sys.stderr.isatty() or done % 20 == 0:
            print(f"\r{left}", end="", file=sys.stderr, flush=True)
    print(f"\n{time.monotonic() - start:.0f} s; {dict(outcomes)}; slowest {slowest:.2f} s; {len(broken)} laws broken")
    return 1 if broken else 0


def _results(todo: list[Batch], processes: int, longest: float) -> Iterator[Found]:
    start = time.monotonic()

    def late() -> bool:
        return bool(longest) and time.monotonic() - start > longest

    if processes < 2:
        for batch in todo:
            if late():
                return
            yield tried(batch)
        return
    with ProcessPoolExecutor(processes) as pool:
        waiting = {pool.submit(tried, batch) for batch in todo}
        for future in as_completed(waiting):
            yield future.result()
            if late():
                pool.shutdown(cancel_futures=True)
                return


if __name__ == "__main__":
    sys.exit(main())
