"""The form of the local page holds the whole survey: every key, every part of an entry, every stand-in."""

import re
import tomllib
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck.errors import Fault
from beamcheck.survey.blank import blank
from beamcheck.survey.fields import SECTIONS
from beamcheck.tables import lookup
from beamcheck.views.page.edits import edited, misfits
from beamcheck.views.page.form import BadForm, form_entries, read_form
from beamcheck.views.page.rows import divisions

WHOLE = tomllib.loads((files("beamcheck.survey") / "demo.toml").read_text("utf-8"))
DEMO = {key: part for key, part in WHOLE.items() if key != "variant"}  # no form shows variants: they go along
KINDS = next(field.choices for section in SECTIONS for field in section.fields if field.key == "kind")


def pairs(made):
    """Names and texts that a browser would send of the form."""
    for division in made:
        for part in division.parts:
            for row in part.every:
                yield row.name, row.entry["value"]
                if row.known:
                    yield from ((f"{row.name}.{said}", row.entry[said]) for said in ("trust", "note"))
                if row.known and row.ranged:
                    yield from ((f"{row.name}.{end}", row.entry[end]) for end in ("low", "high"))


FULL = tomllib.loads(re.sub(r"(?m)^# ", "", blank()))  # every key there is


@pytest.mark.parametrize("document", [DEMO, tomllib.loads(blank()), FULL], ids=["demonstration", "blank", "full"])
def test_the_form_gives_back_the_survey(document) -> None:
    """What the form sends of an unchanged survey are the entries that it was filled from; of an empty list nothing."""
    entries = form_entries(document)
    filled = {key: part for key, part in entries.items() if part != []}
    assert read_form(pairs(divisions(entries, ()))).entries == filled


@pytest.mark.parametrize("section", SECTIONS, ids=lambda section: section.key)
def test_every_key_has_a_row(section) -> None:
    """Each key of the list can be filled in, with its about, its words and its stand-in from the list."""
    for kind in KINDS if section.key == "carried" else ("",):
        table = {"kind": kind} if kind else {}
        entries = {section.key: [table] if section.repeated else table}
        part = next(one for one in divisions(entries, ()) if one.key == section.key).parts[0]
        rows = {row.name.rpartition(".")[2]: row for row in part.every}
        wanted = {field.key: field for field in section.fields if not field.kinds or kind in field.kinds}
        assert set(rows) == set(wanted)
        for key, field in wanted.items():
            assert rows[key].about == field.about
            assert set(field.choices) <= set(rows[key].options)
            item = field.register.replace("*", kind.replace(" ", "_"))
            assert rows[key].stand_in == (
                lookup("practice/defaults", item=item).text("value") if item else ""
            )
            if field.dimension and not field.many:
                assert rows[key].known
                assert rows[key].ranged


@pytest.mark.parametrize(
    ("where", "at"),
    [
        ("wall.clear_opening", "wall.clear_opening"),
        ("wall.clear_opening.low", "wall.clear_opening"),
        ("wall.clear_opening.trust", "wall.clear_opening"),
        ("carried[1].span_a", "carried[1].span_a"),
        ("post[2]", "post[2]"),
    ],
)
def test_a_fault_stands_at_its_row_and_nowhere_else(where: str, at: str) -> None:
    """A fault of the reader stands at the deepest place of the form that its key path names, once."""
    fault = Fault(where, "is odd", "mend it")
    made = divisions(form_entries(DEMO), (fault,))
    found = [division.key for division in made if fault in division.faults]
    for division in made:
        found += [part.where for part in division.parts if fault in part.faults]
        found += [row.name for part in division.parts for row in part.every if fault in row.faults]
    assert found == [at]


def test_a_fault_of_a_list_stands_at_the_list() -> None:
    """One entry of several in a text is shown at the text."""
    entries = {**form_entries(DEMO), "girder": [{"supports": "0 ft, x"}]}
    fault = Fault("girder[1].supports[2]", "is odd", "mend it")
    rows = [
        row for one in divisions(entries, (fault,)) for part in one.parts for row in part.every if row.faults
    ]
    assert [row.name for row in rows] == ["girder[1].supports"]


def test_what_a_form_cannot_hold_is_refused_in_the_readers_words() -> None:
    """A file with a key that the form has no place for is not opened, so nothing of it is lost unseen."""
    from beamcheck.errors import InputError

    for document in (
        {**DEMO, "wal": {}},
        {**DEMO, "wall": {"hight": "8 ft"}},
        {**DEMO, "post": {}},
        {"beam": {"member": ["x"]}},
    ):
        with pytest.raises(InputError):
            form_entries(document)


def test_figures_without_quotes_come_into_the_form() -> None:
    """A bare number of a file stands in the form as text, where it can be given its unit."""
    entries = form_entries({**DEMO, "wall": {"clear_opening": 13.5}})
    assert entries["wall"] == {"clear_opening": "13.5"}


HOUSE = {
    "post": [{"member": "a"}, {"member": "b"}, {"member": "c"}],
    "girder": [
        {"posts": "post 1, post 3", "post_stations": {"value": "1 ft, 9 ft", "trust": "measured"}},
        {"posts": {"value": "post 2", "note": "seen"}, "post_stations": "3 ft"},
    ],
    "pad": [{"under": "post 2, post 3"}, {"under": "cellar girder support 2"}],
    "neighbour": [{"post": "3"}, {"post": {"value": "2", "trust": "seen"}}],
    "variant": [{"name": "v", "set": {"post[2].held": "free", "post[3].member": "d", "beam.member": "e"}}],
}


def test_adding_a_post_renumbers_what_points_behind_it() -> None:
    """After a new second post, all that named posts 2 and 3 names 3 and 4; what named post 1 stays."""
    made = edited(HOUSE, "add post[2]")
    assert [post.get("member") for post in made["post"]] == ["a", None, "b", "c"]
    assert made["girder"][0]["posts"] == "post 1, post 4"
    assert made["girder"][1]["posts"] == {"value": "post 3", "note": "seen"}
    assert [pad["under"] for pad in made["pad"]] == ["post 3, post 4", "cellar girder support 2"]
    assert made["neighbour"] == [{"post": "4"}, {"post": {"value": "3", "trust": "seen"}}]
    assert made["variant"][0]["set"] == {"post[3].held": "free", "post[4].member": "d", "beam.member": "e"}


def test_removing_a_post_takes_away_what_named_it_and_no_more() -> None:
    """Without post 2 its names and its station on a girder are gone, and post 3 is post 2 everywhere."""
    made = edited(HOUSE, "remove post[2]")
    assert [post["member"] for post in made["post"]] == ["a", "c"]
    assert made["girder"][0] == {
        "posts": "post 1, post 2",
        "post_stations": {"value": "1 ft, 9 ft", "trust": "measured"},
    }
    assert made["girder"][1] == {"posts": {"value": "", "note": "seen"}, "post_stations": ""}
    assert [pad["under"] for pad in made["pad"]] == ["post 2", "cellar girder support 2"]
    assert made["neighbour"] == [{"post": "2"}, {"post": {"value": "", "trust": "seen"}}]
    assert made["variant"][0]["set"] == {"post[2].member": "d", "beam.member": "e"}


@given(st.integers(1, 4), st.data())
def test_adding_and_removing_again_changes_nothing(number: int, data) -> None:
    """A part that is added and taken away leaves the survey as it was, wherever it was put."""
    section = data.draw(st.sampled_from(["post", "carried"]))
    entries = {**HOUSE, "carried": [{"name": "x"}, {"name": "y"}, {"name": "z"}]}
    assert edited(edited(entries, f"add {section}[{number}]"), f"remove {section}[{number}]") == entries


def test_optional_parts_come_and_go() -> None:
    """A part that a survey may do without is there, empty, after one button, and gone after the other."""
    made = edited(HOUSE, "add temporary")
    assert made["temporary"] == {}
    assert edited(made, "remove temporary") == HOUSE
    assert "pad" not in edited(edited(HOUSE, "remove pad[1]"), "remove pad[1]")


def test_a_changed_kind_can_be_cleared() -> None:
    """What does not belong to the kind of a carried item is named, and goes only when asked."""
    table = {"name": "x", "kind": "strut", "span_a": "12 ft", "area": "40 ft^2"}
    assert misfits(table) == ("span_a",)
    made = edited({"carried": [table]}, "clear carried[1]")
    assert made == {"carried": [{"name": "x", "kind": "strut", "area": "40 ft^2"}]}


@pytest.mark.parametrize(
    "do",
    [
        "add wall",
        "remove beam",
        "add post",
        "add post[9]",
        "remove post[4]",
        "clear post[1]",
        "drop post[1]",
        "add x[1]",
        "add temporary[1]",
    ],
)
def test_buttons_that_the_form_has_not_are_refused(do: str) -> None:
    """Nothing but the form's own buttons does anything."""
    with pytest.raises(BadForm):
        edited(HOUSE, do)


@pytest.mark.parametrize(
    "names",
    [
        ["wall.hight"],
        ["wal.clear_opening"],
        ["wall[1].clear_opening"],
        ["post.member"],
        ["post[0].member"],
        ["post[61].member"],
        ["wall.clear_opening.value"],
        ["wall.clear_opening", "wall.clear_opening"],
        ["__class__.x"],
    ],
)
def test_names_that_the_form_has_not_are_refused(names) -> None:
    """A form with any other name, or with one name twice, is not one of ours."""
    with pytest.raises(BadForm):
        read_form((name, "x") for name in names)
