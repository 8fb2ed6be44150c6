"""Cold starts of the commands that print and end, beside ``python -c "import numpy"``.

    python tests/bench/bench_start.py            (20 rounds; another number as its argument)

Each command runs on the demonstration in a process of its own, all of them in turns, as often as the first argument
says (what takes seconds once): so whatever else the machine does falls on all alike. Least time and median are printed.
Gates: beam 1.5 times numpy's import, check 2.0 times, options 2.5 times.
"""

import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from importlib.resources import files
from pathlib import Path

GATES = {"beam": 1.5, "check": 2.0, "options": 2.5}
DEMO = files("beamcheck.survey") / "demo.toml"
BEAM = ("--member", "3-ply 1-3/4x11-7/8 LVL 2.0E-2900F", "--span", "14 ft", "--dead", "300 plf", "--live", "400 plf")
POST = ("--member", "3-ply 2x6 Douglas Fir-Larch No.2", "--height", "8 ft", "--dead", "3000 lb", "--live", "4000 lb")
COMMANDS = {
    "version": ("--version",),
    "beam": ("beam", *BEAM),
    "post": ("post", *POST),
    "check": ("check", "demo.toml"),
    "why": ("why", "demo.toml", "beam.bending_sagging"),
    "signs": ("signs", "demo.toml"),
    "tables": ("tables", "nds_2018/sawn_4a"),
    "options": ("options", "demo.toml"),
    "compare": ("compare", "demo.toml", "demo.toml"),
    "sheet, web page": ("sheet", "demo.toml", "-o", "demo.html"),
    "sheet, paper": ("sheet", "demo.toml", "-o", "demo.pdf"),
    "margins": ("margins", "demo.toml", "--samples", "0"),
}
SLOW = ("sheet, web page", "sheet, paper", "margins")


def main() -> None:
    """Run all in turns and print how long each takes, and how that stands to numpy's import."""
    rounds = int(sys.argv[1]) if sys.argv[1:] else 20
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    programs = {"numpy": (sys.executable, "-c", "import numpy")}
    programs |= {name: (sys.executable, "-m", "beamcheck", *words) for name, words in COMMANDS.items()}
    times: dict[str, list[float]] = {name: [] for name in programs}
    with tempfile.TemporaryDirectory() as folder:
        for turn in range(rounds + 1):
            for name, program in programs.items():
                if turn > 1 and name in SLOW:
                    continue
                shutil.copy(str(DEMO), Path(folder) / "demo.toml")
                took = _timed(program, folder, environment)
                if turn:  # the first compiles, and does not count
                    times[name].append(took)
    print("                   least         median        times numpy's import")
    for name, each in times.items():
        gate = f"   gate {GATES[name]}" if name in GATES else ""
        took = f"{1000 * min(each):8.0f} ms {1000 * statistics.median(each):8.0f} ms"
        beside = (of(each) / of(times["numpy"]) for of in (min, statistics.median))
        print(f"{name:16}{took} {'  '.join(f'{ratio:8.2f}' for ratio in beside)}{gate}")


def _timed(program: tuple[str, ...], folder: str, environment: dict[str, str]) -> float:
    begun = time.perf_counter()
    done = subprocess.run(program, cwd=folder, env=environment, capture_output=True, check=False, text=True)
    took = time.perf_counter() - begun
    assert done.returncode in (0, 1), f"{program}: {done.stderr}"
    return took


if __name__ == "__main__":
    main()
