"""What may be imported on the way to an answer: a library may cost more than the answer, and so may many small ones."""

import subprocess
import sys
from pathlib import Path

import pytest

HEAVY = {"numpy", "sympy", "pint", "jinja2", "pydantic", "rich", "typst", "scipy"}
HEAVY |= {"asyncio", "email", "http", "multiprocessing", "socket", "ssl", "unittest", "xml"}
BEAM = [
    "beam",
    "--span",
    "13 ft 6 in",
    "--dead",
    "210 plf",
    "--live",
    "480 plf",
    "--member",
    "3-ply 2x12 Douglas Fir-Larch No.2",
]
POST = ["post", "--height", "7 ft", "--dead", "2,100 lb", "--member", "6x6 Douglas Fir-Larch No.1"]

PROGRAM = """
import sys
from beamcheck.cli import app
try:
    app(sys.argv[1:])
except SystemExit:
    pass
print("loaded:", *sorted({name.partition(".")[0] for name in sys.modules}))
"""


# modules of ours, and modules in all but those inside numpy, which every release of it cuts differently: a little above
# what a start takes, so that growth is seen
BUDGETS = (
    (["--version"], 15, 165),
    (BEAM, 67, 220),
    (POST, 67, 220),
    (["check", "DEMO"], 134, 295),
    (["options", "DEMO"], 116, 295),
    (["margins", "SLAB", "--samples", "0"], 150, 320),
)


SURVEYS = {
    "DEMO": str(Path(__file__).parents[2] / "beamcheck" / "survey" / "demo.toml"),
    "SLAB": str(Path(__file__).parents[1] / "houses" / "slab_house.toml"),  # margins work it in a fifth of the time
}


@pytest.mark.parametrize(("command", "own", "every"), BUDGETS, ids=[command[0] for command, *_ in BUDGETS])
def test_a_start_imports_no_more_than_its_budget(command, own, every) -> None:
    """What ``python -X importtime`` lists of a command is few enough, ours and others'."""
    arguments = [SURVEYS.get(part, part) for part in command]
    timed = [sys.executable, "-X", "importtime", "-m", "beamcheck", *arguments]
    listed = subprocess.run(timed, capture_output=True, text=True, check=False).stderr
    names = {line.rpartition("|")[2].strip() for line in listed.splitlines() if line.startswith("import time:")}
    names = {name for name in names if not name.startswith("numpy.")}
    ours = {name for name in names if name.partition(".")[0] == "beamcheck"}
    assert 5 < len(ours) <= own, sorted(ours)
    assert len(ours) < len(names) <= every, len(names)


@pytest.mark.parametrize("command", [BEAM, POST, ["--version"], ["check", "DEMO"]], ids=lambda command: command[0])
def test_the_fast_path_stays_light(command) -> None:
    """None of the heavy libraries is loaded by beam, post, --version and check."""
    arguments = [SURVEYS.get(part, part) for part in command]
    done = subprocess.run([sys.executable, "-c", PROGRAM, *arguments], capture_output=True, text=True, check=True)
    loaded = set(done.stdout.rpartition("loaded:")[2].split())
    assert "beamcheck" in loaded
    assert not loaded & HEAVY


@pytest.mark.parametrize("command", [["options", "DEMO"], ["margins", "SLAB"]], ids=lambda command: command[0])
def test_trying_many_takes_numpy_and_nothing_else(command: list[str]) -> None:
    """What is worked many times over loads numpy; no other heavy library comes with it."""
    arguments = [SURVEYS.get(part, part) for part in command]
    done = subprocess.run([sys.executable, "-c", PROGRAM, *arguments], capture_output=True, text=True, check=True)
    assert set(done.stdout.rpartition("loaded:")[2].split()) & HEAVY == {"numpy"}
