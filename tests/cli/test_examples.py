"""Every command that the help or a page of the documentation shows can be typed as it stands."""

import re
import shlex
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from beamcheck.cli import app
from beamcheck.cli.examples import EXAMPLES

ROOT = Path(__file__).parents[2]
PAGES = (ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md")), *sorted((ROOT / "docs" / "how-to").glob("*.md")))
PAGES += tuple(sorted((ROOT / "docs" / "explain").glob("*.md")))
SHOWN = [found for page in PAGES for found in re.findall(r"`(bearline [a-z][^`]*)`", page.read_text(encoding="utf-8"))]
TYPED = [line for lines in EXAMPLES.values() for line in lines]
WHOLE = sorted({line for line in (*SHOWN, *TYPED) if not re.search(r"\b[A-Z]{3,}\b|bearline (page|ask)", line)})
NAMED = {command.name or command.callback.__name__ for command in app.registered_commands}
DEMO = (ROOT / "beamcheck" / "survey" / "demo.toml").read_bytes()
SLAB = (ROOT / "tests" / "houses" / "slab_house.toml").read_bytes()


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


def test_every_command_has_an_example_in_its_help() -> None:
    """No command goes without an example, and none has examples that is not there."""
    assert set(EXAMPLES) == NAMED


@pytest.mark.parametrize("command", sorted(EXAMPLES))
def test_help_shows_the_examples_each_on_a_line(command: str, tmp_path: Path) -> None:
    """The foot of the help holds each example whole, however long it is."""
    lines = [line.strip() for line in run(f"bearline {command} --help", tmp_path).stdout.splitlines()]
    for example in EXAMPLES[command]:
        assert example in lines


@pytest.mark.parametrize("line", WHOLE)
def test_an_example_can_be_typed_as_it_stands(line: str, folder: Path) -> None:
    """An example does its work: it prints something, no complaint, and ends as an answer does."""
    if line.startswith("bearline new"):
        (folder / "house.toml").unlink()
    done = run(line, folder)
    assert done.returncode in (0, 1), done.stderr
    assert done.stdout.strip()
    assert not done.stderr


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


@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        ("bearline op", ["options"]),
        ("bearline beam --sp", ["--span"]),
        ("bearline post --held ", ["free", "in wall"]),
        ("bearline sheet house.toml --pap", ["--paper"]),
    ],
)
def test_a_shell_is_told_how_a_line_may_go_on(typed: str, offered: list[str], tmp_path: Path) -> None:
    """Bash asks by the variables of its completion, and is given commands, options and words that may stand there."""
    env = {"_BEARLINE_COMPLETE": "complete_bash", "COMP_WORDS": typed, "COMP_CWORD": str(len(typed.split(" ")) - 1)}
    program = "import sys; sys.argv = ['bearline']; from beamcheck.cli import main; main()"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False, env=env)
    assert done.stdout.split("\n")[:-1] == offered


@pytest.mark.parametrize(
    ("shell", "more"),
    [("zsh", {}), ("fish", {"_TYPER_COMPLETE_FISH_ACTION": "get-args"})],
)
def test_other_shells_are_told_as_well(shell: str, more: dict[str, str], tmp_path: Path) -> None:
    """Zsh and fish ask in their own ways, and are given the command with what it does."""
    env = {"_BEARLINE_COMPLETE": f"complete_{shell}", "_TYPER_COMPLETE_ARGS": "bearline op", **more}
    program = "import sys; sys.argv = ['bearline']; from beamcheck.cli import main; main()"
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False, env=env)
    assert "options" in done.stdout
    assert "Try the yard" in done.stdout


def test_completion_is_for_the_command_however_it_was_started(tmp_path: Path) -> None:
    """The lines for the shell complete  bearline,  not the Python that ran it."""
    shown = run("bearline --show-completion", tmp_path).stdout
    assert "_BEARLINE_COMPLETE" in shown
