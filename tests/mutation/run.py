"""Change the sums of the program one at a time, and see whether a test notices: the score of the tests.

The changes are cosmic-ray's (``pip install cosmic-ray pytest-cov``; neither is needed for anything else): one operator,
number, comparison, truth or loop of a module at a time, texts, type hints and decorators left alone. Which tests run a
line is measured first, once:

python tests/mutation/run.py map           # the tests behind every line: some ten minutes
python tests/mutation/run.py control       # modules as they are: every one must live
python tests/mutation/run.py score --sample 600 --seed 1
python tests/mutation/run.py again --seed 1 --budget 300   # what lived, against all the tests that run its line

Each change is tried in a process of its own, forked before anything of ours is imported; the tests that run the
changed line are tried quickest first, until one fails. What lives is printed with its place. What lives and changes
nothing that anybody could see is told in ``same.csv``, with the reason, and left out of the second share.

Left out: texts, type hints, decorators, imports, raised messages; and what these operators do not do: another name in
the place of a name, another key of a table. Measured on 25 November 2026, changes drawn at random, 10 s of tests each:

    standards  250 of 2455 tried: 100 % killed
    takedown   all 105 tried:      88 % killed, 100 % of those that change anything
    beam       200 of 3557 tried:  88 % killed,  98 % of those that change anything
    checks     200 of  973 tried:  88 % killed,  99 % of those that change anything
"""

import argparse
import importlib.abc
import importlib.util
import io
import json
import os
import random
import signal
import sqlite3
import subprocess
import sys
import time
import xml.etree.ElementTree as ET
from collections import defaultdict
from concurrent.futures import ThreadPoolExecutor
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path

from changes import NOTHING, PARTS, ROOT, Change, changes, texts
from same import reads, reasons

SUITE = ("tests/published", "tests/independent", "tests/rules", "tests/houses")
KEPT = Path(os.environ.get("MUTATION_FOLDER", "/tmp/bearline-mutation"))  # noqa: S108  a scratch folder, not a secret
PATIENCE = 90  # seconds that the tests of one change may take: an endless loop is noticed too


class Changed(importlib.abc.SourceLoader):
    """Loads one module from changed text; nothing is written to disk."""

    def __init__(self, path: str, text: str) -> None:
        self.path, self.text = path, text

    def get_filename(self, fullname: str) -> str:
        return self.path

    def get_data(self, path: str) -> bytes:
        return self.text.encode()

    def path_stats(self, path: str) -> dict[str, int]:
        raise OSError


class Finder(importlib.abc.MetaPathFinder):
    """Finds the changed module before anything else does."""

    def __init__(self, name: str, loader: Changed) -> None:
        self.name, self.loader = name, loader

    def find_spec(self, fullname, path, target=None):
        if fullname != self.name:
            return None
        package = Path(self.loader.path).name == "__init__.py"
        folders = [str(Path(self.loader.path).parent)] if package else None
        return importlib.util.spec_from_file_location(
            fullname, self.loader.path, loader=self.loader, submodule_search_locations=folders
        )


def dotted(path: str) -> str:
    """The module's name by its path."""
    return path.removesuffix(".py").removesuffix("/__init__").replace("/", ".")


def tried(change: Change, tests: list[str]) -> int:
    """In a fresh process: 0 where every test of the change still passes."""
    source, text = texts(change)
    if text == source and change.operator != NOTHING:
        return 99
    sys.meta_path.insert(0, Finder(dotted(change.path), Changed(str(ROOT / change.path), text)))
    first = _nearest(tests)
    rest = [test for test in tests if test not in first]
    return _failing(first) or (_failing(rest) if rest else 0)


def _nearest(tests: list[str]) -> list[str]:
    """The quickest tests, of three files at most: collecting a file costs more than running a test of it."""
    files = list(dict.fromkeys(test.partition("::")[0] for test in tests))[:3]
    return [test for test in tests if test.partition("::")[0] in files][:25]


_QUIET = ("-x", "-q", "--assert=plain", "--no-header", "-p", "no:randomly", "-p", "no:cacheprovider")


def _failing(tests: list[str]) -> int:
    import pytest

    said = io.StringIO()
    with redirect_stdout(said), redirect_stderr(said):
        code = int(pytest.main([*_QUIET, *tests]))
    return 2 if "found no collectors" in said.getvalue() else code  # a file that the change keeps from being read


def outcome(change: Change, tests: list[str]) -> str:
    """killed, lived, slow or none, of one change."""
    if not tests:
        return "no test"
    child = os.fork()
    if child == 0:
        os.setpgid(0, 0)
        signal.alarm(PATIENCE)
        code = 70
        try:
            code = tried(change, tests)
        finally:
            os._exit(code)
    _, status = os.waitpid(child, 0)
    if os.WIFSIGNALED(status):
        return "killed, by the clock" if os.WTERMSIG(status) == signal.SIGALRM else "killed"
    known = {0: "lived", 1: "killed", 2: "killed", 5: "no test", 99: "no change"}  # 2: a test file that cannot import
    return known.get(os.WEXITSTATUS(status), f"the run broke off with {os.WEXITSTATUS(status)}")


def mapped() -> None:
    """Run the suite once, keeping which test runs which line and how long each takes."""
    KEPT.mkdir(parents=True, exist_ok=True)
    (KEPT / "rc").write_text(f"[run]\nsource = beamcheck\ndata_file = {KEPT / 'lines.db'}\n", encoding="utf-8")
    subprocess.run(
        [
            *(sys.executable, "-m", "pytest", "-q", "-p", "no:randomly", "-W", "ignore", "--cov=beamcheck"),
            *(f"--cov-config={KEPT / 'rc'}", "--cov-context=test", "--cov-report=", f"--junitxml={KEPT / 'times.xml'}"),
            *SUITE,
        ],
        cwd=ROOT,
        check=False,
    )


class Tests:
    """The tests that run a line, quickest first."""

    def __init__(self, budget: float) -> None:
        self.budget = budget
        self.seconds = _seconds(KEPT / "times.xml")
        self.lines: dict[str, dict[int, set[str]]] = defaultdict(lambda: defaultdict(set))
        from coverage.numbits import numbits_to_nums

        with sqlite3.connect(KEPT / "lines.db") as base:
            query = (
                "select path, context, numbits from line_bits"
                " join file on file.id = file_id join context on context.id = context_id"
            )
            for path, context, bits in base.execute(query):
                if not context:
                    continue
                here = self.lines[os.path.relpath(path, ROOT)]
                for line in numbits_to_nums(bits):
                    here[line].add(context.rpartition("|")[0])  # names of tests may hold a bar too

    def of(self, change: Change) -> list[str]:
        """Tests that run any line of the change, or of its module where it is run by importing alone."""
        lines = self.lines.get(change.path, {})
        found = set().union(*(lines.get(line, set()) for line in range(change.line, change.last + 1)))
        if not found:
            found = set().union(*lines.values()) if lines else set()
        ordered = sorted(found, key=lambda test: (self.seconds.get(test, 1.0), test))
        chosen, spent = [], 0.0
        for test in ordered:
            spent += self.seconds.get(test, 1.0)
            if spent > self.budget and chosen:
                break
            chosen.append(test)
        return chosen


def _seconds(report: Path) -> dict[str, float]:
    """Seconds of each test by its name, as the report of a run has them."""
    found: dict[str, float] = {}
    for case in ET.parse(report).iter("testcase"):  # noqa: S314  our own report
        file = f"{case.get('classname', '').replace('.', '/')}.py"
        found[f"{file}::{case.get('name')}"] = float(case.get("time", "1"))
    return found


def score(size: int, seed: int, parts: list[str], budget: float, processes: int) -> None:
    """Try a sample of each part, print what lives and the score."""
    _ready()
    every, tests, known = changes(), Tests(budget), reasons()
    with (KEPT / f"lived-{seed}.jsonl").open("w", encoding="utf-8", buffering=1) as kept:
        for part in parts:
            own = [change for change in every if change.part == part]
            chosen = random.Random(seed).sample(own, min(size, len(own)))  # noqa: S311  a repeatable draw
            started, counts = time.monotonic(), defaultdict(int)
            with ThreadPoolExecutor(processes) as pool:
                for change, what in zip(chosen, pool.map(lambda one: outcome(one, tests.of(one)), chosen), strict=True):
                    counts[told(change, what, known)] += 1
                    if what in ("lived", "no test"):
                        kept.write(json.dumps(change._asdict()) + "\n")
            print(f"{part}: {len(own)} changes, {rated(counts)}, {time.monotonic() - started:.0f} s", flush=True)


def told(change: Change, what: str, known: dict[tuple[str, str, str], str]) -> str:
    """Print a change that was not killed, unless it is known to change nothing; return what counts."""
    if what.startswith("killed") or what == "no change":
        return what
    before, after = reads(*texts(change))
    if (change.path, before, after) in known:
        return "the same"
    place = f"{change.path}:{change.line} {change.operator} #{change.occurrence}"
    print(f"{what}: {place}\n    - {before}\n    + {after}", flush=True)
    return what


def rated(counts: dict[str, int]) -> str:
    """The score in words: of all that were tried, and without those that change nothing."""
    tried_ones = sum(counts.values()) - counts["no change"]
    dead = counts["killed"] + counts["killed, by the clock"]
    rest = tried_ones - counts["the same"]
    shares = f"{dead / tried_ones:.1%}, or {dead / rest:.1%} of those that change anything"
    return f"{tried_ones} tried, {dead} killed: {shares}"


def control(seed: int, budget: float) -> None:
    """Try modules that are not changed at all: every one of them must live."""
    _ready()
    every, tests = changes(), Tests(budget)
    for part in PARTS:
        own = [change for change in every if change.part == part]
        for change in random.Random(seed).sample(own, 10):  # noqa: S311  a repeatable draw
            what = outcome(change._replace(operator=NOTHING), tests.of(change))
            print(f"{what}: {change.path}:{change.line} unchanged", flush=True)


def again(seed: int, budget: float) -> None:
    """Try once more what lived, as it stands now, against more tests."""
    _ready()
    tests, known = Tests(budget), reasons()
    counts: dict[str, int] = defaultdict(int)
    for line in (KEPT / f"lived-{seed}.jsonl").read_text(encoding="utf-8").splitlines():
        change = Change(**json.loads(line))
        counts[told(change, outcome(change, tests.of(change)), known)] += 1
    print(dict(counts))


def _ready() -> None:
    """What every child will need of others, so that none need import it; nothing of ours."""
    os.chdir(ROOT)
    sys.path[:0] = [str(ROOT)]
    for name in ("pytest", "hypothesis", "numpy", "sympy", "typer", "rich", "jinja2"):
        importlib.import_module(name)
    from hypothesis import Phase, settings

    # the same draws for every change, none of them shrunk or kept, and a busy machine is no failure
    plain = (Phase.explicit, Phase.generate)
    settings.register_profile("mutation", deadline=None, derandomize=True, database=None, phases=plain)
    settings.load_profile("mutation")


def main() -> None:
    """Read what is asked."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("what", choices=("map", "control", "score", "again", "count"))
    parser.add_argument("--sample", type=int, default=600)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--parts", nargs="*", default=list(PARTS))
    parser.add_argument("--budget", type=float, default=20.0, help="seconds of tests for each change")
    parser.add_argument("--processes", type=int, default=2)
    asked = parser.parse_args()
    if asked.what == "map":
        mapped()
    elif asked.what == "count":
        every = changes()
        print({part: sum(change.part == part for change in every) for part in PARTS})
    elif asked.what == "control":
        control(asked.seed, asked.budget)
    elif asked.what == "again":
        again(asked.seed, asked.budget)
    else:
        score(asked.sample, asked.seed, asked.parts, asked.budget, asked.processes)


if __name__ == "__main__":
    main()
