"""Shells are told how a line may go on: commands, options, words, names of tables, keys and files of a survey."""

import os
import shutil
import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import pytest

PROGRAM = "import sys; sys.argv = ['bearline']; from beamcheck.__main__ import main; main()"


@pytest.fixture
def house(tmp_path: Path) -> Path:
    """A folder that holds the demonstration's survey under a name of one's own, and a file beside it."""
    (tmp_path / "house.toml").write_bytes((files("beamcheck.survey") / "demo.toml").read_bytes())
    (tmp_path / "other.txt").write_text("no survey")
    return tmp_path


def asked(folder: Path, **how: str) -> subprocess.CompletedProcess[str]:
    """What the program answers to a shell that asks by variables of the environment."""
    words = [sys.executable, "-c", PROGRAM]
    return subprocess.run(
        words, capture_output=True, text=True, check=False, cwd=folder, env={**os.environ, "COLUMNS": "80", **how}
    )


def by_bash(folder: Path, line: str) -> list[str]:
    """What bash is offered for the last word of a line; nothing leaves bash to its own files."""
    last = str(len(line.split(" ")) - 1)
    done = asked(folder, _BEARLINE_COMPLETE="complete_bash", COMP_WORDS=line, COMP_CWORD=last)
    assert not done.stderr
    return done.stdout.split()


@pytest.mark.parametrize(
    ("line", "offered"),
    [
        ("bearline op", ["options"]),
        ("bearline beam --sp", ["--span"]),
        ("bearline post --held i", ["in", "wall"]),  # one offer, of two words
        ("bearline sheet house.toml --pap", ["--paper"]),
        ("bearline sheet house.toml --paper ", ["letter", "a4"]),
        ("bearline tables nds_2018/cr", ["nds_2018/creep"]),
        ("bearline why house.toml beam.bending", ["beam.bending_sagging"]),
        ("bearline why nothing.toml beam.bending", []),
        ("bearline why other.txt beam.bending", []),
        ("bearline check hou", []),
    ],
)
def test_bash_is_offered_what_may_stand_there(house: Path, line: str, offered: list[str]) -> None:
    """Commands, options, words, tables and keys that begin as typed; nothing where a file or nothing at all fits."""
    assert by_bash(house, line) == offered


@pytest.mark.parametrize(
    ("shell", "more"), [("zsh", {}), ("fish", {"_TYPER_COMPLETE_FISH_ACTION": "get-args"})], ids=["zsh", "fish"]
)
def test_other_shells_are_told_what_a_command_does(shell: str, more: dict[str, str], tmp_path: Path) -> None:
    """Zsh and fish ask in their own ways, and are given the command with what it does."""
    how = {"_BEARLINE_COMPLETE": f"complete_{shell}", "_TYPER_COMPLETE_ARGS": "bearline op", **more}
    shown = asked(tmp_path, **how).stdout
    assert "options" in shown
    assert "Try the yard" in shown


def test_zsh_is_sent_to_its_files_where_a_survey_stands(house: Path) -> None:
    """For a survey zsh is told to offer files."""
    how = {"_BEARLINE_COMPLETE": "complete_zsh", "_TYPER_COMPLETE_ARGS": "bearline check hou"}
    assert asked(house, **how).stdout.strip() == "_files"


def test_fish_is_left_to_its_files_where_a_survey_stands(house: Path) -> None:
    """For a survey fish is told, by an exit code, that there is nothing to offer in place of files."""
    how = {"_BEARLINE_COMPLETE": "complete_fish", "_TYPER_COMPLETE_FISH_ACTION": "is-args"}
    assert asked(house, _TYPER_COMPLETE_ARGS="bearline check hou", **how).returncode == 1
    assert asked(house, _TYPER_COMPLETE_ARGS="bearline op", **how).returncode == 0


BASH = """
source ./script
COMP_WORDS=({line}) COMP_CWORD={last}
_bearline_completion ./bearline
printf '%s\\n' "${{COMPREPLY[@]}}"
complete -p bearline
"""


@pytest.mark.skipif(shutil.which("bash") is None, reason="no bash on this system")
@pytest.mark.parametrize(("line", "offered"), [("bearline mar", "margins"), ("bearline check hou", "")])
def test_bash_itself_completes_by_the_script_that_is_installed(house: Path, line: str, offered: str) -> None:
    """The script bash installs offers the command, and falls back to files where there is nothing to offer."""
    (house / "script").write_text(asked(house, _BEARLINE_COMPLETE="source_bash").stdout)
    (house / "bearline").write_text(f'#!/bin/sh\nexec "{sys.executable}" -c "{PROGRAM}"\n')
    (house / "bearline").chmod(0o700)
    told = BASH.format(line=line, last=len(line.split()) - 1)
    done = subprocess.run(["bash", "--norc", "-c", told], capture_output=True, text=True, check=False, cwd=house)
    assert not done.stderr
    assert done.stdout.splitlines() == [offered, "complete -o default -F _bearline_completion bearline"]


def test_completion_is_for_the_command_however_it_was_started(tmp_path: Path) -> None:
    """The lines for the shell complete  bearline,  not the Python that ran it."""
    script = asked(tmp_path, _BEARLINE_COMPLETE="source_zsh").stdout
    assert "#compdef bearline" in script
    assert "_BEARLINE_COMPLETE=complete_zsh" in script
