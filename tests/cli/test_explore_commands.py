"""The commands options, compare and margins as a person runs them; the progress bar, and what Ctrl-C leaves behind."""

import os
import re
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from beamcheck.cli.bar import Bar

HOUSES = Path(__file__).parents[1] / "independent" / "explore"
DEMO = Path(__file__).parents[2] / "beamcheck" / "survey" / "demo.toml"
LONG, PLAIN = HOUSES / "long_line.toml", HOUSES / "plain_house.toml"
FORBIDDEN = re.compile(r"\b(approved|safe|ok to build|pass(es|ed)?|not bearing)\b", re.IGNORECASE)
PATIENCE = 60.0


def run(*arguments: str) -> subprocess.CompletedProcess[str]:
    """Run the command in a process of its own."""
    return subprocess.run([sys.executable, "-m", "beamcheck", *arguments], capture_output=True, text=True, check=False)


def test_options_rank_and_say_why() -> None:
    """Options prints the cautions, what it leaves out, a ranked table, the front, the posts and what fails."""
    done = run("options", str(PLAIN))
    assert done.returncode == 1, done.stderr
    rest, first = done.stdout.index("It says nothing of what stands"), done.stdout.index("by depth and then weight")
    assert rest < first
    assert done.stderr == ""
    for part in ("STUDY AID", "by depth and then weight", "None of these is beaten", "The posts under"):
        assert part in done.stdout
    assert not FORBIDDEN.search(done.stdout)


def test_options_end_with_zero_where_all_loads_are_told(tmp_path) -> None:
    """With every kind of load told or looked for, and no post over, a beam that stays ends in 0."""
    path = tmp_path / "whole.toml"
    path.write_text(PLAIN.read_text().replace("[wall]", '[wall]\nno_other = "roof, ceiling, wall above"', 1))
    done = run("options", str(path))
    assert "NOT SHOWN" not in done.stdout
    assert done.returncode == 0, done.stdout


def test_lengths_are_metric_wherever_the_survey_wants_them_so(tmp_path) -> None:
    """Options, compare and margins print no foot and no inch where check prints none."""
    for command, house in ((("options",), DEMO), (("compare",), DEMO), (("margins", "--samples", "0"), PLAIN)):
        path = tmp_path / house.name
        text = house.read_text(encoding="utf-8")
        path.write_text(text.replace("[study]", '[study]\ndimensions = "metric"', 1), encoding="utf-8")
        done = run(*command, str(path))
        assert " mm" in done.stdout, done.stderr
        assert not re.search(r"\d (ft|in)(?![²\w])", done.stdout), command


def test_options_call_checks_by_their_titles() -> None:
    """The list of beams calls a check as a study does, never by its key."""
    done = run("options", str(PLAIN))
    assert "Floor member: " in done.stdout
    assert not re.search(r"\[\d\]|L\d\d\d", done.stdout)


def test_options_end_with_one_where_nothing_will_do(tmp_path) -> None:
    """Where no beam keeps to the limits the exit code is 1 and each family says why."""
    path = tmp_path / "low.toml"
    path.write_text(PLAIN.read_text().replace("[[variant]]", '[options]\ngreatest_depth = "4 in"\n[[variant]]', 1))
    done = run("options", str(path))
    assert done.returncode == 1
    assert "None stays at or below 1.00" in done.stdout
    assert "deeper than 4 in" in done.stdout


def test_compare_marks_what_differs() -> None:
    """The variants of one file stand side by side, lines that differ begin with a star."""
    done = run("compare", str(PLAIN))
    assert done.returncode in (0, 1), done.stderr
    assert "deeper beam" in done.stdout
    told = reversed(done.stdout.splitlines())  # the second line of a long title counts for none
    lines = {line[4:].split("  ")[0].strip(): line[1] for line in told if len(line) > 4}
    assert lines["beam"] == "*"
    assert lines["clear opening"] == " "
    assert not FORBIDDEN.search(done.stdout)


def test_compare_two_files_names_them() -> None:
    """Two files with variants make one table whose sides bear the files' names."""
    done = run("compare", str(PLAIN), str(LONG))
    assert "plain_house.toml: deeper" in done.stdout
    assert "long_line.toml" in done.stdout


def test_compare_one_file_without_variants_is_refused() -> None:
    """One survey by itself is nothing to compare: exit code 2 and what would do."""
    done = run("compare", str(LONG))
    assert done.returncode == 2
    assert "[[variant]]" in done.stderr


def test_margins_ask_first() -> None:
    """What is not known and would tip a result stands first, as a question; then flips, corners, chances, ranges."""
    done = run("margins", str(PLAIN), "--samples", "3000", "--seed", "5")
    assert done.returncode == 1, done.stderr
    heads = ["find out first", "the nearest first", "at their unkindest", "3,000 draws", "The ranges that were taken"]
    places = [done.stdout.index(head) for head in heads]
    assert places == sorted(places)
    assert "your range" in done.stdout
    assert not FORBIDDEN.search(done.stdout)
    assert run("margins", str(PLAIN), "--samples", "3000", "--seed", "5").stdout == done.stdout


def test_margins_without_draws() -> None:
    """With no samples there are no chances, and all else stands."""
    done = run("margins", str(LONG), "--samples", "0")
    assert "draws" not in done.stdout
    assert "at their unkindest" in done.stdout
    assert "practice/spreads" in done.stdout


@pytest.mark.parametrize("command", ["options", "margins", "compare"])
def test_a_missing_file_is_a_sentence(command, tmp_path) -> None:
    """A file that is not there gives exit code 2 and a sentence, never a traceback."""
    done = run(command, str(tmp_path / "none.toml"))
    assert done.returncode == 2
    assert "cannot be read" in done.stderr
    assert "Traceback" not in done.stderr


TELLING = """
import pathlib, time
from {module} import {name} as real
import {module} as module
def told(*given):
    if {begun}:
        pathlib.Path({ready!r}).touch()
        time.sleep({longer})
    return real(*given)
module.{name} = told
from beamcheck.__main__ import main
main()
"""
# the command; what of it tells that long work has begun, and by how much longer it is made for the test
STOPPED = {
    # numpy's random module, imported before the first lanes, swallows an interrupt of its import
    "margins": (("--samples", "10000000"), "beamcheck.explore.chance", "chain_lanes", "given[2] > 1", 0.0),
    "sheet": (("-o", "summary.html"), "beamcheck.views.asked_first", "questions", "True", PATIENCE),
    "sheet of paper": (("-o", "summary.pdf"), "beamcheck.views.pdf", "sources", "True", PATIENCE),
}


@pytest.mark.skipif(os.name != "posix", reason="signals as a terminal sends them")
@pytest.mark.parametrize("command", STOPPED)
def test_ctrl_c_ends_with_one_line_and_leaves_nothing(tmp_path, command) -> None:
    """Ctrl-C in long work ends with exit code 130 and one line, and leaves no file behind."""
    options, module, name, begun, longer = STOPPED[command]
    ready, work = tmp_path / "ready", tmp_path / "work"
    work.mkdir()
    code = TELLING.format(module=module, name=name, begun=begun, ready=str(ready), longer=longer)
    process = subprocess.Popen(
        [sys.executable, "-c", code, command.partition(" ")[0], str(PLAIN), *options],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, cwd=work,
    )  # fmt: skip
    begun = time.monotonic()
    while not ready.exists() and time.monotonic() - begun < PATIENCE and process.poll() is None:
        time.sleep(0.02)
    process.send_signal(signal.SIGINT)
    out, err = process.communicate(timeout=PATIENCE)
    assert process.returncode == 130, err
    assert out == ""
    assert err.strip().splitlines() == ["stopped; nothing was left half-written"]
    assert list(work.iterdir()) == []


class Terminal:
    """An error stream that says it is a terminal or not."""

    def __init__(self, *, watched: bool) -> None:
        self.watched = watched
        self.written = ""

    def isatty(self) -> bool:
        return self.watched

    def write(self, text: str) -> int:
        self.written += text
        return len(text)

    def flush(self) -> None:
        """Nothing is held back."""


@pytest.mark.parametrize(("watched", "late", "drawn"), [(True, True, True), (True, False, False), (False, True, False)])
def test_a_bar_shows_itself_only_late_and_to_somebody(watched, late, drawn, monkeypatch) -> None:
    """The bar is drawn on the error stream after half a second, and only where that is a terminal."""
    terminal = Terminal(watched=watched)
    monkeypatch.setattr(sys, "stderr", terminal)
    clock = iter([0.0, 0.6 if late else 0.4])
    monkeypatch.setattr("beamcheck.cli.bar.monotonic", lambda: next(clock))
    bar = Bar("beams tried")
    with bar:
        bar(0.5)
        monkeypatch.undo()
    assert bool(terminal.written) is drawn
