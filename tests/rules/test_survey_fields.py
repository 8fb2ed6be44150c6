"""The list of fields, the types of a survey and the register of defaults speak of the same things."""

import dataclasses
import re
import tomllib

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


def test_the_blank_survey_reads() -> None:
    """The blank form, filled with its own examples, is a survey without a fault."""
    survey = read_text(blank().encode())
    assert len(survey.carried) == 4
    assert len(survey.posts) == 2


def test_the_blank_survey_is_toml_when_every_key_is_filled_in() -> None:
    """Taking the comment sign from each example leaves TOML."""
    text = "\n".join(
        line.removeprefix("# ") if re.match(r'# (\[|[a-z_]+ = ")', line) else line for line in blank().splitlines()
    )
    assert tomllib.loads(text)["site"]["ground_snow"] == "30 psf"


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


def test_all_faults_come_at_once_sorted() -> None:
    """A survey with several faults reports every one, sorted by key path."""
    with pytest.raises(InputError) as caught:
        read_text(b"[wall]\nclear_opening = 13.5\nceiling_height = '8'\n[beam]\nposition = 'low'\n")
    places = [fault.where for fault in caught.value.faults]
    assert places == sorted(places)
    assert {"wall.clear_opening", "wall.ceiling_height", "beam.position", "beam.member", "carried", "post"} <= set(
        places
    )


@pytest.mark.parametrize("data", [b"\xff\xfe", b"a = ", b"[wall]\n[wall]\n", b"a = " + b"[" * 5000])
def test_what_is_not_toml_is_said_so(data) -> None:
    """Bytes that are no TOML text give one fault and no traceback."""
    with pytest.raises(InputError) as caught:
        read_text(data, "mine.toml")
    assert caught.value.faults[0].where == "mine.toml"
