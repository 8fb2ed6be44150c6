"""Every command that the help or a page of the documentation shows can be typed as it stands."""

import re
import shlex
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from beamcheck.cli import app
from beamcheck.cli.foot import ALWAYS, ANSWERS, EXAMPLES

ROOT = Path(__file__).parents[2]
PAGES = (ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md")), *sorted((ROOT / "docs" / "how-to").glob("*.md")))
PAGES += tuple(sorted((ROOT / "docs" / "explain").glob("*.md")))
SHOWN = [found for page in PAGES for found in re.findall(r"`(bearline [a-z][^`]*)`", page.read_text(encoding="utf-8"))]
TYPED = [line for lines in EXAMPLES.values() for line in lines]
WHOLE = sorted({line for line in (*SHOWN, *TYPED) if not re.search(r"\b(FILE|KEY)\b|^bearline (page|ask)\b", line)})
NAMED = {command.name or command.callback.__name__ for command in app.registered_commands}
# the demonstration's chain is over: README says so; options look at it with --whole only
OF_THE_CHAIN = {"demo", "check", "sheet", "margins", "compare"}
DEMO = (ROOT / "beamcheck" / "survey" / "demo.toml").read_bytes()
SLAB = (ROOT / "tests" / "houses" / "slab_house.toml").read_bytes()
# over as the demonstration is; margins and summaries work that for many seconds, this for less than one
PLAIN = (ROOT / "tests" / "independent" / "explore" / "plain_house.toml").read_bytes()


def run(line: str, folder: Path, **more: object) -> subprocess.CompletedProcess[str]:
    """Run a line as a shell would, by the Python that runs this."""
    words = [sys.executable, "-m", "beamcheck", *shlex.split(line)[1:]]
    return subprocess.run(words, capture_output=True, text=True, check=False, cwd=folder, **more)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with the surveys that examples name, and one to write into."""
    for name in ("house.toml", "demo.toml", "a.toml", "survey.toml"):
        (tmp_path / name).write_bytes(DEMO)
    for name in ("other.toml", "b.toml"):
        (tmp_path / name).write_bytes(SLAB)
    (tmp_path / "some-folder").mkdir()
    return tmp_path


def test_every_command_has_an_example_and_exit_codes_in_its_help() -> None:
    """No command goes without an example and the meaning of its exit codes, and nothing is told of one not there."""
    assert set(EXAMPLES) == NAMED
    assert set(ANSWERS) == NAMED


@pytest.mark.parametrize("command", sorted(EXAMPLES))
def test_help_shows_the_foot_line_by_line(command: str, tmp_path: Path) -> None:
    """The foot of the help holds each example whole, however long it is, and each exit code with its meaning."""
    lines = [line.strip() for line in run(f"bearline {command} --help", tmp_path).stdout.splitlines()]
    for example in EXAMPLES[command]:
        assert example in lines
    for code, meaning in (dict(enumerate(ANSWERS[command])) | dict(ALWAYS)).items():
        assert f"{code:<4} {meaning}" in lines


@pytest.mark.parametrize("line", WHOLE)
def test_an_example_can_be_typed_as_it_stands(line: str, folder: Path) -> None:
    """An example does its work: it prints something, no complaint, and ends with the code that its help gives."""
    command = line.split()[1]
    if command == "new":
        (folder / "house.toml").unlink()
    elif command in {"margins", "sheet"}:
        for name in ("house.toml", "demo.toml", "survey.toml"):
            (folder / name).write_bytes(PLAIN)
    done = run(line, folder)
    assert done.stdout.strip()
    assert not done.stderr
    alone = command in {"beam", "post"} and re.search(r" over  ", done.stdout)
    over = command in OF_THE_CHAIN or "--whole" in line or alone
    assert done.returncode == (1 if over else 0)
    assert done.returncode < len(ANSWERS[command])


def test_an_interview_without_answers_says_that_they_ended(tmp_path: Path) -> None:
    """The example of the interview asks; with nobody there to answer it keeps its draft and ends with exit code two."""
    done = run(EXAMPLES["ask"][0], tmp_path, stdin=subprocess.DEVNULL)
    assert done.returncode == 2
    assert "the answers ended" in done.stderr


@pytest.mark.skipif(sys.platform == "win32", reason="no such interruption on this system")
def test_the_page_of_an_example_opens_and_closes(folder: Path) -> None:
    """The example of the page tells its address and ends on Ctrl-C."""
    words = [sys.executable, "-m", "beamcheck", *shlex.split(EXAMPLES["page"][1])[1:]]
    with subprocess.Popen(words, cwd=folder, stdout=subprocess.PIPE, text=True) as served:
        assert served.stdout is not None
        assert "the page is at" in served.stdout.readline()
        served.send_signal(signal.SIGINT)
        assert served.wait(timeout=60) == 0
