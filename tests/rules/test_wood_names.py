"""Wood is named as the trade names it, and no species is taken for another (common practice of yards, no source)."""

import re

import pytest

from beamcheck import tables
from beamcheck.catalogue.grade_names import bare
from beamcheck.catalogue.reading import read_member
from beamcheck.catalogue.wording import plies_written
from beamcheck.errors import InputError

LARCH, SPRUCE = "Douglas Fir-Larch No.2", "Spruce-Pine-Fir No.1/No.2"
SAID = [
    ("(3) 2x12 DF-L #2", 3, LARCH),
    ("(3)2x12 SPF #2", 3, SPRUCE),
    ("3-2x12 HF No. 2", 3, "Hem-Fir No.2"),
    ("3 - 2x12 SP #2", 3, "Southern Pine No.2"),
    ("3-ply 2x12, S-P-F #2", 3, SPRUCE),
    ("2x12 #2 Hem Fir", 1, "Hem-Fir No.2"),
    ("2x10 HF #2 & Btr", 1, "Hem-Fir No.2"),
    ("2x10 Doug Fir-Larch number 2", 1, LARCH),
    ("6x6 DF-L SS", 1, "Douglas Fir-Larch Select Structural"),
    ("4x12 D Fir-L Sel. Struct.", 1, "Douglas Fir-Larch Select Structural"),
    ("2x4 DF-L (N) #2", 1, "Douglas Fir-Larch (North) No.1/No.2"),
    ("2x4 SPF-S Std", 1, "Spruce-Pine-Fir (South) Standard"),
    ("2x12 DF-S #2", 1, "Douglas Fir-South No.2"),
    ("(2) 1-3/4x14 LVL 2.0E-2900F", 2, "LVL 2.0E-2900F"),
    ("1-3/4x14 LVL 2.0E-2900F", 1, "LVL 2.0E-2900F"),
]


@pytest.mark.parametrize(("text", "plies", "grade"), SAID, ids=[said[0] for said in SAID])
def test_the_words_of_the_trade_are_read(text: str, plies: int, grade: str) -> None:
    """Plies before the size in any of the usual ways, short names of species and grades, either of them first."""
    member = read_member(text, "beam.member")
    assert (member.plies, member.grade) == (plies, grade)
    assert plies_written(text) == plies


DOUBTFUL = {
    "2x12 DF No.2": [LARCH, "Douglas Fir-South No.2"],
    "2x12 Doug Fir #2": [LARCH, "Douglas Fir-South No.2"],
    "2x12 Douglas Fir No.2": [LARCH, "Douglas Fir-South No.2"],
    "2x12 #2 Fir": [LARCH, "Douglas Fir-South No.2", "Hem-Fir No.2"],
    "2x12 Spruce #2": [SPRUCE, "Spruce-Pine-Fir (South) No.2"],
    "2x12 Pine No.2": ["Southern Pine No.2", "Eastern White Pine No.2"],
    "2x12 SPF No.2x": [SPRUCE],
    "2x12 Hem-Fur No.2": ["Hem-Fir No.2"],
    "2x12 SPF": [SPRUCE],
}


@pytest.mark.parametrize(("text", "wanted"), DOUBTFUL.items(), ids=DOUBTFUL)
def test_what_may_be_more_than_one_wood_is_asked_not_guessed(text: str, wanted: list[str]) -> None:
    """Every species that a name may stand for is suggested, the likeliest grade of each, and none is taken."""
    with pytest.raises(InputError) as caught:
        read_member(text, "beam.member")
    named = re.findall(r"'([^']+)'", caught.value.faults[0].mend)
    assert named[: len(wanted)] == wanted


@pytest.mark.parametrize(
    ("text", "what", "mend"),
    [
        ("DF-L No.2", "has no size", "3-ply 2x12"),
        ("(3) 2x12", "has no species and grade", '"(3) 2x12 unknown"'),
        ("7-ply 2x12 SPF #2", "7 plies", "one to 6"),
    ],
)
def test_what_lacks_is_named(text: str, what: str, mend: str) -> None:
    """A size without a grade, a grade without a size and too many plies are told as that."""
    with pytest.raises(InputError) as caught:
        read_member(text, "beam.member")
    assert what in caught.value.faults[0].what
    assert mend in caught.value.faults[0].mend


def test_no_short_name_stands_for_two() -> None:
    """A short name of one species or grade is no way to write another, nor one of the names that are not clear."""
    species = {bare(row.text("alias")): row.text("species") for row in tables.load("practice/aliases").rows}
    for row in tables.load("practice/aliases").rows:
        assert species[bare(row.text("alias"))] == row.text("species")
    names = {row.text("species") for table in ("sawn_4a", "sawn_4b") for row in tables.load(f"nds_2018/{table}").rows}
    assert set(species.values()) <= names
    assert not set(species) & {bare(name) for name in names - set(species.values())}
    unclear = {bare(row.text("name")) for row in tables.load("practice/unclear_names").rows}
    assert not unclear & (set(species) | {bare(name) for name in names})
    grades = {bare(row.text("alias")): row.text("grade") for row in tables.load("practice/grade_aliases").rows}
    assert len(grades) == len(tables.load("practice/grade_aliases").rows)
