"""The questions of the interview: each can be answered by its own example, and no row of answers breaks the talk."""

import io
import re
import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.survey.fields import SECTIONS
from beamcheck.survey.reader import read
from beamcheck.units import parse
from beamcheck.views.interview import Draft, Ended, Voice, interview
from beamcheck.views.interview.entries import survey_text
from beamcheck.views.interview.known import ASKED_HOW
from beamcheck.views.interview.order import BETWEEN, FIRST, MAIN, ONLY_WITH, PLIES, Answer, Ask, Step, walk
from beamcheck.views.interview.replies import Said, understood
from beamcheck.views.interview.wording import UNIT_EXAMPLES, more, question

FORBIDDEN = re.compile(r"\b(approved|safe|ok|pass(es|ed)?|not bearing)\b", re.IGNORECASE)
FIELDS = {(section.key, field.key): field for section in SECTIONS for field in section.fields}
LINES = [
    *("", "y", "n", "m", "r", "sn", "back", "review", "later", "change 2", "?", "unsure", "unknown", "x"),
    *("1", "2", "roof", "floor", "strut", "A wall", "13 ft 6 in", "0 in", "8:12", "30 psf", "36 ft^2", "13.5", "1, 5"),
    *("3-ply 2x12 Hem-Fir No.2", "6x6 unknown", "dropped", "flush", "post 1", "-1 in", '"back"', "0 ft, 8 ft", "\x1b["),
]
HOUSE = [
    *("T", "n", "13 ft 6 in", "m", "8 ft 1 in", "", "n"),
    *("floor", "f", "12 ft 3 in", "m", "10 ft 8 in", "m", "1", "lapped", "s", "n", "n", "", "n"),
    *("3-ply 1-3/4x14 LVL", "dropped", "held", "n"),
    *("6x6 unknown", "free", "cap", "girder", "s", "n"),
    *("6x6 unknown", "free", "cap", "slab", "s", "n", "n"),
]


def steps(section) -> list[Step]:
    """A question for each key of a section, for each kind that it fits."""
    where = f"{section.key}[1]" if section.repeated else section.key
    return [
        Step(f"{where}.{field.key}", Ask.ENTRY, section, (field,), kind, field.required)
        for field in section.fields
        for kind in field.kinds or ("",)
    ]


@pytest.mark.parametrize("section", SECTIONS, ids=lambda section: section.key)
def test_the_example_answers_its_question(section) -> None:
    """The example that a question shows is taken as an answer to it."""
    for step in steps(section):
        assert not step.field.example or isinstance(understood(step, step.field.example), Answer), step.where


@pytest.mark.parametrize("section", SECTIONS, ids=lambda section: section.key)
def test_unsure_is_an_answer_unless_it_must_be_known(section) -> None:
    """Where a question may stay open  unsure  answers it; where it may not, the way to a draft is told."""
    for step in steps(section):
        reply = understood(step, "unsure")
        assert isinstance(reply, Answer) != step.needed, step.where
        assert not step.needed or "quit" in str(reply) or "unknown" in str(reply), step.where


@pytest.mark.parametrize("section", SECTIONS, ids=lambda section: section.key)
def test_a_question_reads_without_words_of_approval(section) -> None:
    """What is asked, why, and what happens if unknown: none of it sounds like a verdict, and each line ends."""
    for step in steps(section):
        points = [*question(step, {}), *more(step)]
        assert points[0][1].endswith((".", "?")), step.where
        assert not FORBIDDEN.search(" ".join(sentence for _, sentence in points)), step.where
        assert not step.field.register or "What would change it" in dict(question(step, {}))["unsure"], step.where


def test_the_order_names_keys_and_words_that_there_are() -> None:
    """Every key and word in the order of questions is one of the list of fields."""
    listed = {(section, key) for table in (FIRST, ASKED_HOW) for section, keys in table.items() for key in keys}
    assert listed | set(ONLY_WITH) | set(PLIES) | set(BETWEEN) <= set(FIELDS)
    for (section, _), (other, words) in ONLY_WITH.items():
        assert set(words) - {"", "unknown"} <= set(FIELDS[section, other].choices)
    assert set(MAIN) == {section.key for section in SECTIONS if not section.optional}


@pytest.mark.parametrize("dimension", UNIT_EXAMPLES)
def test_the_units_that_are_shown_can_be_written(dimension) -> None:
    """Every example of a unit parses as what it is an example of, and shows one length, load or weight throughout."""
    for example in UNIT_EXAMPLES[dimension][1]:
        assert parse(example, dimension) > 0


def test_every_dimension_of_a_field_has_its_units() -> None:
    """No question about a figure lacks the units that it may be written in."""
    assert {field.dimension for field in FIELDS.values() if field.dimension} <= set(UNIT_EXAMPLES)


def test_every_key_of_a_survey_can_be_reached() -> None:
    """Some answers lead to each key: none of the list of fields is left without its question."""
    answers = {
        "parts?": Answer(", ".join(section.key for section in SECTIONS if section.optional)),
        "post[3]?": Answer("yes"),
        "beam.top_edge": Answer("not held"),
        "beam.member": Answer("3-ply 2x12 unknown"),
        "beam.position": Answer("flush"),
        "temporary.rooms_above": Answer("empty"),
    }
    for number, kind in enumerate(FIELDS["carried", "kind"].choices, 1):
        answers |= {f"carried[{number}]?": Answer("yes"), f"carried[{number}].kind": Answer(kind)}
    for number, seat in enumerate(("steel plate", "notch"), 1):
        answers |= {
            f"post[{number}].seat": Answer(seat),
            f"post[{number}].member": Answer("2-ply 2x6 unknown"),
            f"post[{number}].fastening": Answer("nailed"),
        }
    reached: set[tuple[str, str]] = set()
    for sides in ("both", "A"):
        answers["temporary.sides"] = Answer(sides)
        while closed := [step.where for step in walk(answers) if step.ask is Ask.FURTHER and step.where not in answers]:
            answers |= dict.fromkeys(closed, Answer("yes"))
        reached |= {(step.section.key, step.field.key) for step in walk(answers) if step.ask is Ask.ENTRY}
    assert reached == set(FIELDS)


def talk(folder: Path, lines: list[str]) -> tuple[str, Ended | None]:
    """An interview in this process: what it said, and how it ended (None: the answers ended)."""
    rest = iter(lines)

    def typed(_prompt: str) -> str:
        try:
            return next(rest)
        except StopIteration:
            raise EOFError from None

    out = io.StringIO()
    try:
        ended = interview(Voice(typed, out, 80, echo=True), Draft(folder / "house.toml"))
    except EOFError:
        ended = None
    return out.getvalue(), ended


@settings(deadline=None, max_examples=60)
@given(st.integers(0, len(HOUSE)), st.lists(st.one_of(st.sampled_from(LINES), st.text(max_size=12)), max_size=50))
def test_any_row_of_lines_leaves_a_draft_that_holds_every_answer(begun, lines) -> None:
    """Whatever is typed, the talk goes on to its end, and its draft gives back the same answers."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        said, ended = talk(folder, [*HOUSE[:begun], *lines])
        if ended is Ended.WRITTEN:
            assert read(folder / "house.toml").posts
            assert not (folder / "house.draft.toml").exists()
            return
        draft = Draft(folder / "house.toml")
        if draft.there:
            answers, strange = draft.read()
            assert strange == ()
            assert draft.text(answers).encode() == draft.path.read_bytes()
            assert "\x1b" not in survey_text(answers)
        assert "\x1b" not in said


def test_answers_that_do_not_go_together_are_asked_again(tmp_path) -> None:
    """A girder under a post that there is not comes back with the reader's message, to be mended before the end."""
    girder = ["1", "g", "3-ply 2x10 Hem-Fir No.2", "0 ft, 15 ft", "", "post 9", "7 ft", "", "12 ft", "", "0 in", ""]
    said, ended = talk(tmp_path, [*HOUSE, *girder, "n", "n", "post 1", "y"])
    assert "'post 9' is not a post of this survey" in said
    assert ended is Ended.WRITTEN
    assert read(tmp_path / "house.toml").girders[0].posts == ("post 1",)


def test_a_post_that_turns_out_to_stand_between_the_ends_is_asked_for_its_station(tmp_path) -> None:
    """Once a third post is told of, the second one's station is asked for before the third."""
    third = ["y", "6 ft 9 in", *HOUSE[-7:], "", "y"]
    said, _ = talk(tmp_path, [*HOUSE[:-1], *third])
    assert said.index("Centre of the post") < said.index("Post 3")
    posts = read(tmp_path / "house.toml").posts
    assert [post.station and post.station.number for post in posts] == [None, 81.0, None]


def test_that_nothing_else_comes_down_has_to_be_said(tmp_path) -> None:
    """Pressing Enter does not end the list of what is carried: a load forgotten is worse than one question more."""
    said, _ = talk(tmp_path, [*HOUSE[:17], ""])
    assert "this one wants a clear answer; write y or n" in said


def test_a_range_has_to_hold_its_figure(tmp_path) -> None:
    """A least above the figure is refused with the reader's message and asked again."""
    said, _ = talk(tmp_path, ["T", "n", "13 ft", "mr", "14 ft", "12 ft 11 in", "13 ft 1 in", "8 ft", "", "n"])
    assert "does not hold 13 ft" in said
    draft, _ = Draft(tmp_path / "house.toml").read()
    assert draft["wall.clear_opening"] == Answer("13 ft", "measured", "", "12 ft 11 in", "13 ft 1 in")


def test_commands_are_commands_in_any_case() -> None:
    """Commands are read in any case, and in double quotes they are words."""
    title = steps(SECTIONS[0])[0]
    assert understood(title, " Back ") is Said.BACK
    assert understood(title, "HELP") is Said.MORE
    assert understood(title, '"Back"') == Answer("Back")
