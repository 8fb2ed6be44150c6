"""The list of fields, the types of a survey and the register of defaults speak of the same things."""

import dataclasses
import re
import tomllib
from importlib.resources import files

import pytest

from beamcheck import tables
from beamcheck.errors import InputError
from beamcheck.study.rest import RESTS_ON
from beamcheck.survey import around, below, explore, model
from beamcheck.survey.blank import blank
from beamcheck.survey.fields import SECTIONS, field_at
from beamcheck.survey.reader import read_text

PARTS = {
    "study": model.About,
    "site": model.Site,
    "wall": model.Wall,
    "carried": model.Carried,
    "beam": model.Beam,
    "post": model.Post,
    "girder": below.Girder,
    "pad": below.Pad,
    "ties": below.Ties,
    "temporary": around.Temporary,
    "signs": around.Signs,
    "room": around.Room,
    "neighbour": around.Neighbour,
    "hole": around.Hole,
    "heavy": around.Heavy,
    "other_wall": around.OtherWall,
    "options": explore.Wanted,
}
MINIMAL = """
[study]
title = "Nothing beside the chain"
[wall]
clear_opening = "10 ft"
ceiling_height = "8 ft"
[[carried]]
name = "floor"
kind = "floor"
span_a = "12 ft"
span_b = "0 in"
[beam]
member = "3-ply 2x12 Hem-Fir No.2"
position = "dropped"
[[post]]
member = "6x6 Hem-Fir No.1"
[[post]]
member = "6x6 Hem-Fir No.1"
"""
RENAMED = {"from": "start", "to": "end"}


@pytest.mark.parametrize("section", SECTIONS, ids=lambda section: section.key)
def test_fields_and_types_agree(section) -> None:
    """Every key of a section is an attribute of its type, and the other way round."""
    keys = {RENAMED.get(field.key, field.key) for field in section.fields}
    attributes = {field.name for field in dataclasses.fields(PARTS[section.key])} - {"where"}
    assert keys == attributes


@pytest.mark.parametrize("section", SECTIONS, ids=lambda section: section.key)
def test_every_section_has_its_place_in_a_survey(section) -> None:
    """A survey has the attribute of each section, and without an optional section it holds what is said to be empty."""
    assert section.attribute in {field.name for field in dataclasses.fields(model.Survey)}
    if section.optional:
        assert getattr(read_text(MINIMAL.encode()), section.attribute) == section.empty


def test_key_paths_are_found_in_the_list_of_fields() -> None:
    """Whatever a section is, its key paths lead to its fields, with a number and without."""
    for section in SECTIONS:
        head = f"{section.key}[2]" if section.repeated else section.key
        for field in section.fields:
            assert field_at(f"{head}.{field.key}") is field
            assert field_at(f"{head}.{field.key}[1]") is field
    assert field_at("cellar.depth") is None


def test_what_links_beside_the_chain_rest_on_are_sections() -> None:
    """Each is made from optional sections, and none from two links' worth."""
    keys = [key for keys in RESTS_ON.values() for key in keys]
    assert len(keys) == len(set(keys))
    assert set(keys) <= {section.key for section in SECTIONS if section.optional}


@pytest.mark.parametrize("section", SECTIONS, ids=lambda section: section.key)
def test_every_register_item_exists_and_parses(section) -> None:
    """Whatever may be unknown has a row of the register, and that row's words or figure are fit for the key."""
    kinds = next((field.choices for field in section.fields if field.key == "kind"), ("",))
    items = {row.text("item"): row for row in tables.load("practice/defaults").rows}
    for field in section.fields:
        for kind in field.kinds or kinds:
            item = field.register.replace("*", kind.replace(" ", "_"))
            if not item:
                continue
            text = items[item].text("value")
            if field.choices:
                assert text in (*field.choices, "unknown"), item
            assert items[item].text("lean"), item
            assert items[item].text("flips"), item


def test_nothing_in_the_blank_survey_is_a_value() -> None:
    """What  bearline new  writes holds no key at all, so that no example can be taken for somebody's house."""
    assert tomllib.loads(blank()) == {"study": {}, "site": {}, "wall": {}, "beam": {}, "post": [{}, {}]}


def test_the_blank_survey_is_told_at_once_what_it_lacks() -> None:
    """Checked untouched, every key marked as NEEDED and what is carried are named, each at its own line."""
    text = blank()
    with pytest.raises(InputError) as caught:
        read_text(text.encode())
    faults = {fault.where: fault for fault in caught.value.faults}
    needed = {"study.title", "wall.clear_opening", "wall.ceiling_height", "beam.member", "beam.position"}
    assert set(faults) == needed | {"post[1].member", "post[2].member", "carried"}
    lines = text.splitlines()
    for where in needed:
        assert lines[faults[where].line - 1].startswith(f"# {where.partition('.')[2]} = "), where
    assert "steel tape" in faults["wall.clear_opening"].mend.lower()
    assert "ground_snow" in faults["carried"].mend


def test_the_blank_survey_filled_in_to_the_letter_reads(filled_starter) -> None:
    """With the # away from all that it marks as NEEDED, the starter is a survey, each thing with a name of its own."""
    survey = read_text(filled_starter.encode())
    assert [item.kind for item in survey.carried] == [
        "roof", "ceiling", "floor", "wall above", "strut", "point", "line"
    ]  # fmt: skip
    assert len({item.name for item in survey.carried}) == 7
    assert len(survey.posts) == 2


def test_the_blank_survey_is_toml_when_every_key_is_filled_in() -> None:
    """Taking the one # from each example leaves TOML with every key of every section."""
    document = tomllib.loads(re.sub(r"(?m)^# ", "", blank()))
    assert document["site"]["ground_snow"] == "30 psf"
    for section in SECTIONS:
        written = document[section.key]
        tables_there = written if section.repeated else [written]
        assert set().union(*tables_there) == {field.key for field in section.fields}, section.key


BAD = {
    "bare number": ("[wall]\nclear_opening = 13.5\n", "wall.clear_opening", "13.5 has no unit"),
    "unknown key": ("[wall]\nclear_openning = '13 ft'\n", "wall.clear_openning", "is not a key"),
    "unknown section": ("[wal]\n", "wal", "is not a part of a survey"),
    "wrong word": ("[beam]\nposition = 'low'\n", "beam.position", "'low' is not one of the words"),
    "range that does not hold": (
        "[wall]\nclear_opening = {value='13 ft', low='14 ft'}\n",
        "wall.clear_opening",
        "does not hold",
    ),
    "not a trust": (
        "[wall]\nclear_opening = {value='13 ft', trust='sure'}\n",
        "wall.clear_opening.trust",
        "'sure' is not a kind of trust",
    ),
    "nan": ("[wall]\nclear_opening = nan\n", "wall.clear_opening", "nan has no unit"),
    "negative": ("[wall]\nclear_opening = '-3 ft'\n", "wall.clear_opening", "outside"),
    "list": ("[wall]\nclear_opening = ['13 ft']\n", "wall.clear_opening", "is not text"),
    "section that is a list": ("[[wall]]\n", "wall", "is not a table"),
    "post that is a table": ("[post]\n", "post", "is not a list of tables"),
    "nothing carried": ("", "carried", "nothing is carried"),
    "needed": ("", "wall.clear_opening", "is needed"),
    "trust that is nearly one": (
        "[wall]\nclear_opening = {value='13 ft', trust='guessed'}\n",
        "wall.clear_opening.trust",
        "'guessed' is not a kind of trust",
    ),
    "bare number of another unit": ("[wall]\nthickness = '3.5'\n", "wall.thickness", "3.5 has no unit"),
    "too long, in feet": ("[wall]\nclear_opening = '130 ft'\n", "wall.clear_opening", "outside 1 ft to 60 ft"),
    "less than nothing": (
        "[[carried]]\nname='x'\nkind='roof'\ndead='-25 psf'\n",
        "carried[1].dead",
        '"-25 psf" is less than 0 psf',
    ),
    "too steep": (
        "[[carried]]\nname='x'\nkind='roof'\npitch='50:12'\n",
        "carried[1].pitch",
        "outside 0:12 to 44:12",
    ),
    "must be known": ("[beam]\nmember='unknown'\n", "beam.member", "must be known"),
    "bare number for a word": ("[wall]\nbraces_seen = true\n", "wall.braces_seen", "true is not text"),
    "a date": ("[study]\ndate = 2026-03-14\n", "study.date", "2026-03-14 is not text"),
    "no such wood": ("[beam]\nmember='3-ply 2x12 Hem-Fur No.2'\n", "beam.member", "'Hem-Fur No.2' is not in"),
    "a variant's key": (
        "[[variant]]\nname='v'\nset={'beam.membr'='x'}\n",
        "variant[1]: beam.membr",
        "is not a key of a survey",
    ),
    "a variant's wood": (
        "[[variant]]\nname='v'\nset={'beam.member'='3-ply 2x12 Hem-Fur No.2'}\n",
        "variant[1]: beam.member",
        "'Hem-Fur No.2' is not in",
    ),
    "a variant of nothing": ("[[variant]]\nname='v'\n", "variant[1].set", "sets nothing"),
    "one variant in single brackets": ("[variant]\nname='v'\n", "variant", "is not a list of tables"),
    "key of another kind": (
        "[[carried]]\nname='x'\nkind='strut'\nspan_a='3 ft'\n",
        "carried[1].span_a",
        "has no span_a",
    ),
}


@pytest.mark.parametrize("case", BAD.values(), ids=BAD)
def test_a_fault_names_key_value_and_cure(case) -> None:
    """Each fault says where it stands, what is wrong, and what would do."""
    text, where, what = case
    with pytest.raises(InputError) as caught:
        read_text(text.encode())
    fault = next(fault for fault in caught.value.faults if fault.where == where and what in fault.what)
    assert fault.mend
    told = str(caught.value)
    assert not re.search(r"<|object at|\(\w*'|\b(?:None|True|False|dict|str|int|float)\b", told), told


def test_of_a_kind_that_is_not_understood_only_the_kind_is_judged() -> None:
    """A misspelt kind makes no other key of its item a fault, for it would be leave out what is right."""
    item = "[[carried]]\nname='x'\nkind='flor'\nspan_a='12 ft'\nspan_b='10 ft'\ndead='12 psf'\nlive='40 psf'\n"
    with pytest.raises(InputError) as caught:
        read_text(item.encode())
    found = [fault for fault in caught.value.faults if fault.where.startswith("carried")]
    assert [(fault.where, fault.mend, fault.line) for fault in found] == [("carried[1].kind", "nearest: 'floor'", 3)]


def test_what_must_be_known_is_told_how_to_find_out() -> None:
    """What nothing can stand in for and is not known is answered with how to find it out, not with how to write it."""
    text = b"[wall]\nclear_opening='unknown'\n[[carried]]\nname='x'\nkind='roof'\npitch='unknown'\n"
    with pytest.raises(InputError) as caught:
        read_text(text)
    mends = {fault.where: fault.mend for fault in caught.value.faults}
    assert "Hold a level flat" in mends["carried[1].pitch"]
    assert mends["wall.clear_opening"].startswith("Mark where the inner faces")


def test_faults_of_the_survey_and_of_its_variants_come_together() -> None:
    """A variant is judged when its survey is read, and tells only what the survey as written does not."""
    demo = (files("beamcheck.survey") / "demo.toml").read_bytes()
    varied = demo + b'[[variant]]\nname = "v"\n[variant.set]\n"beam.membr" = "x"\n"post[1].height" = "7"\n'
    with pytest.raises(InputError) as caught:
        read_text(varied)
    number = varied.count(b"[[variant]]")
    assert {fault.where for fault in caught.value.faults} == {
        f"variant[{number}]: beam.membr",
        f"variant[{number}]: post[1].height",
    }
    with pytest.raises(InputError) as caught:
        read_text(varied.replace(b"[wall]\n", b"[wall]\nhight = '8 ft'\n"))
    assert [fault.where for fault in caught.value.faults].count("wall.hight") == 1
    assert len(caught.value.faults) == 3


def test_a_fault_has_the_line_of_its_key() -> None:
    """Tables that come more than once are counted from one, comments and parts of an entry do not mislead."""
    text = (
        "# [[carried]]\n[wall] # the wall\nclear_opening = '1'\n\n[[carried]]\nname = 'a = b'\nkind = 'floor'\n"
        "span_a = { value = '12 ft', trust = 'sure' }\n[[carried]]\nkind = 'floor'\nspan_b = '12'\n"
    )
    with pytest.raises(InputError) as caught:
        read_text(text.encode())
    lines = {fault.where: fault.line for fault in caught.value.faults}
    assert lines["wall.clear_opening"] == 3
    assert lines["wall.ceiling_height"] == 2
    assert lines["carried[1].span_a.trust"] == 8
    assert lines["carried[2].name"] == 9
    assert lines["carried[2].span_b"] == 11
    assert "carried[2].span_b (line 11): 12 has no unit" in str(caught.value)


def test_all_faults_come_at_once_sorted() -> None:
    """A survey with several faults reports every one, in the order of the file."""
    with pytest.raises(InputError) as caught:
        read_text(b"[wall]\nclear_opening = 13.5\nceiling_height = '8'\n[beam]\nposition = 'low'\n")
    found = [(fault.where, fault.line) for fault in caught.value.faults]
    assert found == [
        ("carried", 0),
        ("post", 0),
        ("study.title", 0),
        ("wall.clear_opening", 2),
        ("wall.ceiling_height", 3),
        ("beam.member", 4),
        ("beam.position", 5),
    ]


@pytest.mark.parametrize("data", [b"\xff\xfe", b"a = ", b"[wall]\n[wall]\n", b"a = " + b"[" * 5000])
def test_what_is_not_toml_is_said_so(data) -> None:
    """Bytes that are no TOML text give one fault and no traceback."""
    with pytest.raises(InputError) as caught:
        read_text(data, "mine.toml")
    assert caught.value.faults[0].where == "mine.toml"


NOT_TOML = {
    "inch mark in double quotes": ('thickness = "3-1/2""', "inch or foot mark", 'such as "13 ft 6 in"'),
    "feet and inches in double quotes": ("clear_opening = \"13' 6\"\"", "inch or foot mark", "13 ft 6 in"),
    "feet and inches in single quotes": ("clear_opening = '13' 6\"'", "inch or foot mark", "13 ft 6 in"),
    "inch mark in a table": ("thickness = { value = \"3' 6\"\", trust = 'seen' }", "inch or foot mark", "13 ft 6 in"),
    "no quotes": ("thickness = 3-1/2 in", "is not in quotes", 'thickness = "3-1/2 in"'),
    "no quotes and marks": ('thickness = 3-1/2"', "is not in quotes", "13 ft 6 in"),
    "a word without quotes": ("position = dropped", "is not in quotes", 'position = "dropped"'),
    "curly quotes": ("thickness = \u201c3 in\u201d", "curly quotes", "straight"),
    "a colon": ('thickness: "3 in"', "a colon", 'thickness = "3 in"'),
    "nothing": ("thickness =", "has nothing behind it", "leave the line out"),
    "no closing quote": ('thickness = "3 in', "no closing quote", "end it"),
    "a key twice": ('a = "1"\na = "2"', "a is there already, on line 2", "leave one"),
    "a table twice": ("[site]\n[wall]", "[wall] is there already, on line 1", "under one"),
    "two tables in single brackets": ("[carried]\n[carried]", "[carried] is written in single brackets", "[[carried]]"),
    "single brackets, then double": ('[post]\nheld = "free"\n[[post]]', "[post] is written in single", "[[post]]"),
}


@pytest.mark.parametrize(("text", "what", "mend"), NOT_TOML.values(), ids=NOT_TOML)
def test_what_is_not_toml_is_told_in_the_owners_words(text: str, what: str, mend: str) -> None:
    """The usual slips of a file are told with the line and with what would do, not in the parser's words."""
    with pytest.raises(InputError) as caught:
        read_text(f"[wall]\n{text}\n".encode(), "mine.toml")
    fault = caught.value.faults[0]
    assert what in fault.what
    assert mend in fault.mend
    assert fault.where == "mine.toml"
    assert fault.line > 1


def test_all_lines_that_are_not_toml_are_told_at_once() -> None:
    """Where several lines are spoilt each is told, though a parser stops at the first."""
    with pytest.raises(InputError) as caught:
        read_text(b"[wall]\nclear_opening = \"13' 6\"\"\nthickness = 3 in\n[post]\n[post]\n")
    assert [fault.line for fault in caught.value.faults] == [2, 3, 4, 5]
