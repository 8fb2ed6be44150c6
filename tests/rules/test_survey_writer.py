"""A survey that is written reads back as what was written."""

import tomllib
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck.study.chain import study
from beamcheck.survey.fields import SECTIONS
from beamcheck.survey.reader import read_text
from beamcheck.survey.writer import tidied, write_survey
from beamcheck.views.data import study_data

DEMO = (files("beamcheck.survey") / "demo.toml").read_text("utf-8")
TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=30)
ENTRIES = TEXTS | st.dictionaries(st.sampled_from(["value", "trust", "note", "low", "high"]), TEXTS)


def tables(section):
    """Tables of a section: any of its keys, and keys that are none."""
    keys = st.sampled_from([field.key for field in section.fields]) | TEXTS
    return st.dictionaries(keys, ENTRIES, max_size=4)


def parts(section):
    """A section as it may stand in a survey; a list without tables leaves no trace in TOML."""
    return st.lists(tables(section), min_size=1, max_size=3) if section.repeated else tables(section)


SURVEYS = st.fixed_dictionaries({}, optional={section.key: parts(section) for section in SECTIONS})
VARIANTS = st.fixed_dictionaries({"name": TEXTS, "set": st.dictionaries(TEXTS, ENTRIES, max_size=3)})


@given(SURVEYS)
def test_any_entries_read_back(entries) -> None:
    """TOML's own reader finds in the text exactly the entries that were written, whatever their letters."""
    assert tomllib.loads(write_survey(entries)) == entries


@given(SURVEYS, st.lists(VARIANTS, min_size=1, max_size=2))
def test_variants_read_back_too(entries, variants) -> None:
    """Tables within tables, such as what a variant sets, are written as they are."""
    written = {**entries, "variant": variants}
    assert tomllib.loads(write_survey(written)) == written


@given(st.lists(st.text(st.characters(exclude_categories=["Cs"]))))
def test_remarks_stay_remarks(remarks) -> None:
    """No remark, whatever line ends or letters are in it, becomes an entry."""
    assert tomllib.loads(write_survey({"study": {"title": "x"}}, remarks)) == {"study": {"title": "x"}}


@pytest.mark.parametrize("starter", [False, True], ids=["demonstration", "starter"])
def test_a_survey_written_again_is_the_same_survey(starter: bool, filled_starter: str) -> None:
    """The study of a survey and of the same survey written anew differ in nothing but the file's hash."""
    text = filled_starter if starter else DEMO
    found = [
        study_data(study(read_text(one.encode())))
        for one in (text, write_survey(tidied(tomllib.loads(text))))
    ]
    for data in found:
        data["input"]["sha256"] = ""
    assert found[0] == found[1]


@given(SURVEYS)
def test_tidying_takes_away_only_what_is_empty(entries) -> None:
    """Tidied twice is tidied once; every part of the survey is still there, and nothing is longer."""
    once = tidied(entries)
    assert tidied(once) == once
    assert set(once) == set(entries)
    for key, part in entries.items():
        assert not isinstance(part, list) or len(once[key]) == len(part)
    assert len(write_survey(once)) <= len(write_survey(entries))


def test_sections_and_keys_stand_in_the_order_of_the_list() -> None:
    """What is given in any order is written in the order in which the survey asks for it."""
    text = write_survey(
        {"wall": {"ceiling_height": "8 ft", "clear_opening": "12 ft"}, "study": {"date": "x", "title": "y"}}
    )
    places = [
        text.index(word) for word in ("[study]", "title", "date", "[wall]", "clear_opening", "ceiling_height")
    ]
    assert places == sorted(places)
