"""The interview as a person has it: answers piped into real processes, and what stands on the disk afterwards."""

import contextlib
import os
import re
import signal
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

FORBIDDEN = re.compile(r"\b(approved|safe|ok|pass(es|ed)?|not bearing)\b", re.IGNORECASE)
STUDY = ["Opening between parlour and study", "n"]
WALL = ["13 ft 6 in", "m", "8 ft 1 in", "", "n"]
FLOOR = ["floor", "bedroom floor", "12 ft 3 in", "m", "10 ft 8 in", "m", "sleeping rooms", "lapped", "s", "n"]
BEAM = ["3-ply 1-3/4x14 LVL", "dropped", "held", "n"]
POST_1 = ["3-ply 2x6 unknown", "in wall", "nailed", "stud pack", "unsure", "n"]
POST_2 = ["6x6 Douglas Fir-Larch No.1", "free", "cap", "slab", "s", "n"]
NO_OTHER = ["roof, 2", "s"]
HOUSE = [*STUDY, *WALL, *FLOOR, "n", *NO_OTHER, "n", *BEAM, *POST_1, *POST_2, "n", ""]


def run(folder: Path, *arguments: str, typed: str = "", **environment: str) -> subprocess.CompletedProcess[str]:
    """Run the command in a process of its own, in the folder."""
    return subprocess.run(
        [sys.executable, "-m", "beamcheck", *arguments],
        input=typed,
        capture_output=True,
        text=True,
        encoding="utf-8",
        errors="surrogateescape",
        check=False,
        cwd=folder,
        env={**os.environ, "COLUMNS": "80", **environment},
    )


def ask(folder: Path, *lines: str, file: str = "house.toml", **environment: str) -> subprocess.CompletedProcess[str]:
    """Pipe the lines into an interview."""
    return run(folder, "ask", file, typed="".join(f"{line}\n" for line in lines), **environment)


def files(folder: Path) -> set[str]:
    """The names in the folder."""
    return {path.name for path in folder.iterdir()}


def survey(folder: Path, name: str = "house.toml") -> dict:
    """A survey or draft that was written."""
    return tomllib.loads((folder / name).read_text(encoding="utf-8"))


def test_a_house_from_nothing_to_a_survey_that_check_accepts(tmp_path) -> None:
    """Answers to every question make a survey, no draft is left, and  bearline check  reads it."""
    done = ask(tmp_path, *HOUSE, "y")
    assert done.returncode == 0, done.stdout + done.stderr
    assert files(tmp_path) == {"house.toml"}
    assert survey(tmp_path) == {
        "study": {"title": STUDY[0]},
        "wall": {
            "clear_opening": {"value": "13 ft 6 in", "trust": "measured"},
            "ceiling_height": "8 ft 1 in",
            "no_other": {"value": "roof, ceiling", "trust": "seen"},
        },
        "carried": [
            {
                "name": "bedroom floor",
                "kind": "floor",
                "span_a": {"value": "12 ft 3 in", "trust": "measured"},
                "span_b": {"value": "10 ft 8 in", "trust": "measured"},
                "continuity": {"value": "lapped", "trust": "seen"},
                "use": "sleeping rooms",
            }
        ],
        "beam": {"member": BEAM[0], "position": "dropped", "top_edge": "held"},
        "post": [
            {
                "member": POST_1[0],
                "held": "in wall",
                "fastening": "nailed",
                "seat": "stud pack",
                "stands_on": "unknown",
            },
            {
                "member": POST_2[0],
                "held": "free",
                "seat": "cap",
                "stands_on": {"value": "slab", "trust": "seen"},
            },
        ],
    }
    checked = run(tmp_path, "check", "house.toml")
    assert checked.returncode in (0, 1), checked.stderr
    assert "bedroom floor" in checked.stdout


def test_the_cautions_come_before_the_first_question(tmp_path) -> None:
    """The status line and every caution stand above the first question, and no word of approval anywhere."""
    done = ask(tmp_path, *HOUSE, "y")
    head = " ".join(done.stdout.partition("The study (part 1")[0].split())
    assert head.index("STUDY AID") < head.index("It decides nothing") < head.index("Do not cut")
    assert not FORBIDDEN.search(done.stdout)


def test_a_bare_number_is_answered_with_what_would_do(tmp_path) -> None:
    """A figure without a unit brings the reader's own message and the same question again."""
    done = ask(tmp_path, *STUDY, "13.5", "13 cows", "13.5 ft", "m")
    assert '13.5 has no unit; write "13.5 ft", which is 13 ft 6 in, or "13.5 in"' in " ".join(done.stdout.split())
    assert '"cows" is not a unit of length known here' in done.stdout
    assert survey(tmp_path, "house.draft.toml")["wall"]["clear_opening"]["value"] == "13.5 ft"


def test_a_member_that_no_table_has_is_refused_at_once(tmp_path) -> None:
    """A grade that is in no table is answered with the nearest ones before the next question."""
    lines = [*STUDY, *WALL, *FLOOR, "n", "", "n", "3-ply 2x12 Hem-Fur No.2", "3-ply 2x12 Hem-Fir No.2"]
    done = ask(tmp_path, *lines)
    assert "'Hem-Fir No.2'" in done.stdout
    assert survey(tmp_path, "house.draft.toml")["beam"] == {"member": "3-ply 2x12 Hem-Fir No.2"}


def test_back_asks_the_last_question_again_and_enter_keeps(tmp_path) -> None:
    """After  back  the former answer is offered; Enter keeps it with all that was said of it."""
    ask(tmp_path, *STUDY, "13 ft", "mn", "steel tape", "back", "", "8 ft", "", "back", "8 ft 1 in", "m")
    wall = survey(tmp_path, "house.draft.toml")["wall"]
    assert wall["clear_opening"] == {"value": "13 ft", "trust": "measured", "note": "steel tape"}
    assert wall["ceiling_height"] == {"value": "8 ft 1 in", "trust": "measured"}


def test_a_changed_kind_takes_the_keys_that_do_not_fit_it_along(tmp_path) -> None:
    """When a floor becomes a roof by  change , its use and continuity are gone and its pitch is asked for."""
    done = ask(tmp_path, *STUDY, *WALL, *FLOOR, "change 6", "roof", "8:12", "", "review")
    assert survey(tmp_path, "house.draft.toml")["carried"] == [
        {
            "name": "bedroom floor",
            "kind": "roof",
            "span_a": {"value": "12 ft 3 in", "trust": "measured"},
            "span_b": {"value": "10 ft 8 in", "trust": "measured"},
            "pitch": "8:12",
        }
    ]
    assert "kind = roof" in done.stdout


def test_unsure_where_something_stands_in_says_what(tmp_path) -> None:
    """Where a cautious default exists  unsure  is taken, and the default and its lean are told."""
    floor = ["floor", "f", "12 ft", "", "0 in", "", "unsure", "not sure", "y", "", "", "unsure", "unsure"]
    done = ask(tmp_path, *STUDY, *WALL, *floor)
    told = " ".join(done.stdout.split())
    assert "= not known: other rooms stands in" in told
    assert "= not known: 20 psf stands in" in told
    carried = survey(tmp_path, "house.draft.toml")["carried"][0]
    assert (carried["use"], carried["continuity"], carried["dead"]) == ("unknown", "unknown", "unknown")


def test_what_must_be_known_can_wait_to_the_end(tmp_path) -> None:
    """``unsure`` where nothing can stand in says so;  later  asks it again at the end, and then the survey is whole."""
    lines = [*STUDY, "unsure", "later", *HOUSE[4:], "13 ft 6 in", "m", "y"]
    done = ask(tmp_path, *lines)
    assert "it must be known: nothing can stand in for it; type  later" in " ".join(done.stdout.split("\n  "))
    assert done.returncode == 0, done.stdout + done.stderr
    assert survey(tmp_path)["wall"]["clear_opening"] == {"value": "13 ft 6 in", "trust": "measured"}


@pytest.mark.parametrize("named", ["house.toml", "house", "house.draft.toml"])
def test_quit_keeps_a_marked_draft_and_ask_goes_on_with_it(tmp_path, named) -> None:
    """What was answered before  quit  is not asked again, whichever way the file is named."""
    at = len(STUDY) + len(WALL) + 4
    left = ask(tmp_path, *HOUSE[:at], "quit")
    assert left.returncode == 0
    assert "go on with:  bearline ask house.toml" in left.stdout
    assert files(tmp_path) == {"house.draft.toml"}
    assert "DRAFT" in (tmp_path / "house.draft.toml").read_text(encoding="utf-8")
    refused = run(tmp_path, "check", "house.draft.toml")
    assert refused.returncode == 2
    assert "this is a draft" in refused.stderr
    done = ask(tmp_path, *HOUSE[at:], "y", file=named)
    assert done.returncode == 0, done.stdout + done.stderr
    assert "clear opening >" not in done.stdout
    assert files(tmp_path) == {"house.toml"}
    (tmp_path / "other").mkdir()
    ask(tmp_path / "other", *HOUSE, "y")
    assert (tmp_path / "house.toml").read_bytes() == (tmp_path / "other" / "house.toml").read_bytes()


def test_answers_that_end_too_soon_are_kept(tmp_path) -> None:
    """At the end of the input the draft is kept, the exit code is 2 and one line says so."""
    done = ask(tmp_path, *HOUSE)
    assert done.returncode == 2
    ended, kept, how = done.stderr.split("; ")
    assert ended == "the answers ended before the survey was complete"
    assert kept == "the answers are kept in house.draft.toml"
    assert how == "go on with:  bearline ask house.toml\n"
    assert files(tmp_path) == {"house.draft.toml"}
    assert survey(tmp_path, "house.draft.toml")["draft"]["parts?"] == "no"


def test_nothing_answered_leaves_nothing(tmp_path) -> None:
    """Where nothing was answered no file is written."""
    assert ask(tmp_path).returncode == 2
    assert ask(tmp_path, "?", "back", "review", "quit").returncode == 0
    assert files(tmp_path) == set()


@pytest.mark.skipif(os.name != "posix", reason="needs signals as POSIX has them")
def test_an_interrupt_keeps_the_draft(tmp_path) -> None:
    """Ctrl-C at a prompt keeps what was answered, says so in one line and exits with 130."""
    with subprocess.Popen(
        [sys.executable, "-m", "beamcheck", "ask", "house.toml"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        cwd=tmp_path,
    ) as process:
        assert process.stdin is not None and process.stdout is not None and process.stderr is not None
        process.stdin.write("\n".join([*STUDY, ""]).encode())
        process.stdin.flush()
        heard = said = process.stdout.read1()
        while said and b"clear opening > " not in heard:
            heard += (said := process.stdout.read1())
        while process.poll() is None:  # one that comes just before the prompt waits for a line is not seen until then
            process.send_signal(signal.SIGINT)
            with contextlib.suppress(subprocess.TimeoutExpired):
                process.wait(timeout=3)
        told = process.stderr.read().decode()
        assert process.returncode == 130
    assert told == "stopped; the answers are kept in house.draft.toml; go on with:  bearline ask house.toml\n"
    assert survey(tmp_path, "house.draft.toml")["study"] == {"title": STUDY[0]}


def test_a_survey_that_is_there_is_refused_before_anything_is_asked(tmp_path) -> None:
    """An existing survey is never written over, and nothing is asked in vain."""
    (tmp_path / "house.toml").write_text("mine", encoding="utf-8")
    done = ask(tmp_path, *HOUSE, "y")
    assert done.returncode == 2
    assert done.stdout == ""
    assert "is there already and is not written over" in done.stderr
    assert (tmp_path / "house.toml").read_text(encoding="utf-8") == "mine"


@pytest.mark.parametrize("text", ["not toml [", "[study]\ntitle = 'a survey, no draft'\n"])
def test_a_draft_that_is_none_of_ours_is_left_alone(tmp_path, text) -> None:
    """A file in the draft's place that no interview wrote is refused and stays as it is."""
    (tmp_path / "house.draft.toml").write_text(text, encoding="utf-8")
    done = ask(tmp_path, *HOUSE, "y")
    assert done.returncode == 2
    assert "house.draft.toml" in done.stderr
    assert (tmp_path / "house.draft.toml").read_text(encoding="utf-8") == text


@pytest.mark.parametrize("name", ["", ".", "no/such/folder/house.toml"])
def test_a_name_that_cannot_be_written_is_refused_first(tmp_path, name) -> None:
    """No name and no folder are said so before anything is asked."""
    done = ask(tmp_path, *HOUSE, "y", file=name)
    assert done.returncode == 2
    assert "Traceback" not in done.stderr
    assert "Title" not in done.stdout


def test_a_draft_changed_by_hand_is_asked_anew_where_it_does_not_hold(tmp_path) -> None:
    """An entry of a draft that no longer reads is asked again, and what no question takes is named."""
    ask(tmp_path, *HOUSE, "quit")
    path = tmp_path / "house.draft.toml"
    text = path.read_text(encoding="utf-8").replace('"8 ft 1 in"', '"8"')
    path.write_text(text + '\n[[carried]]\nname = "by hand"\n', encoding="utf-8")
    done = ask(tmp_path, "8 ft 2 in", "", "y")
    assert done.returncode == 0, done.stdout + done.stderr
    assert "wall.ceiling_height" in done.stdout
    assert "carried[2].name" in done.stdout
    assert survey(tmp_path)["wall"]["ceiling_height"] == "8 ft 2 in"


def test_words_of_any_language_come_through(tmp_path) -> None:
    """Letters of other alphabets, prime marks and fractions as a phone writes them are kept or understood."""
    done = ask(tmp_path, "Umbau Küche ↔ 客厅", "n", "13′ 6½″", "n", "zweimal gemessen, à deux")
    assert "� " not in done.stdout
    kept = survey(tmp_path, "house.draft.toml")
    assert kept["study"]["title"] == "Umbau Küche ↔ 客厅"
    assert kept["wall"]["clear_opening"] == {"value": "13′ 6½″", "note": "zweimal gemessen, à deux"}


def test_what_does_not_print_is_refused(tmp_path) -> None:
    """Bytes that are no text and terminal codes are refused with a sentence and never reach the terminal again."""
    done = ask(tmp_path, "\x1b[31mred", "\udcff", "plain", "n", PYTHONUTF8="1")
    assert done.stdout.count("does not print") == 2
    assert "\x1b" not in done.stdout
    assert survey(tmp_path, "house.draft.toml")["study"] == {"title": "plain"}


def test_a_terminal_of_ascii_only_is_talked_to(tmp_path) -> None:
    """Where the terminal knows no other letters the talk goes on all the same, and such answers are refused."""
    done = ask(tmp_path, "Gäste", "Parlour", PYTHONIOENCODING="ascii:strict", PYTHONUTF8="0")
    assert "does not print" in done.stdout
    assert survey(tmp_path, "house.draft.toml")["study"] == {"title": "Parlour"}
