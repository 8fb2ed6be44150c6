"""What may not be imported on the way to one beam, one post or a check: these libraries cost more than the answer."""

import subprocess
import sys

import pytest

HEAVY = {"numpy", "sympy", "pint", "jinja2", "pydantic", "rich", "typst", "scipy"}
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


@pytest.mark.parametrize("command", [BEAM, POST, ["--version"], ["check", "DEMO"]], ids=lambda command: command[0])
def test_the_fast_path_stays_light(command, tmp_path) -> None:
    """None of the heavy libraries is loaded by beam, post, --version and check."""
    from importlib.resources import files

    demo = tmp_path / "demo.toml"
    demo.write_bytes((files("beamcheck.survey") / "demo.toml").read_bytes())
    arguments = [str(demo) if part == "DEMO" else part for part in command]
    done = subprocess.run([sys.executable, "-c", PROGRAM, *arguments], capture_output=True, text=True, check=True)
    loaded = set(done.stdout.rpartition("loaded:")[2].split())
    assert "beamcheck" in loaded
    assert not loaded & HEAVY
