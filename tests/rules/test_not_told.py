"""What is not told is asked for and never taken for nothing; the words of a study keep what is known and what is not.

Stretches and figures below are worked by hand from the survey's own lengths.
"""

import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import pytest

from beamcheck.study.chain import study
from beamcheck.study.types import Link, Study
from beamcheck.survey.reader import read, read_text
from beamcheck.trace import Missing, Note, Refer, Value, items
from beamcheck.views.contents import standing, tally
from beamcheck.views.page.rows import divisions
from beamcheck.views.terminal import study_text
from beamcheck.views.words import headline, ratio

HOUSES = Path(__file__).parents[1] / "houses"
DEMO = (files("beamcheck.survey") / "demo.toml").read_text(encoding="utf-8")
POST = """
[[post]]
member = "6x6 Douglas Fir-Larch No.2"
seat = "cap"
blocking = "full area"
stands_on = "masonry"
"""
HALF = f"""
[study]
title = "half of it told"
[wall]
clear_opening = "13 ft 1-1/2 in"
ceiling_height = "8 ft"
[[carried]]
name = "upstairs floor"
kind = "floor"
to = "6 ft"
span_a = "12 ft"
span_b = "10 ft"
continuity = "lapped"
use = "sleeping rooms"
dead = "12 psf"
[beam]
member = "3-ply 1-3/4x14 LVL 2.0E-2900F"
position = "dropped"
{POST}{POST}"""
ROOF = '[[carried]]\nname = "roof"\nkind = "roof"\npitch = "5:12"\nspan_a = "12 ft"\nspan_b = "10 ft"\n'


def made(text: str) -> Study:
    """The study of a survey's text."""
    return study(read_text(text.encode()))


def link(found: Study, key: str) -> Link:
    """The link of that key."""
    return next(one for one in found.links if one.key == key)


def untold(found: Study) -> dict[str, Missing]:
    """What the take-down asks for, by the kind of load."""
    begin = "takedown.not_told_"
    missing = (item for item in items(link(found, "takedown").sheet) if isinstance(item, Missing))
    return {item.key.removeprefix(begin): item for item in missing if item.key.startswith(begin)}


def notes(found: Study, key: str) -> list[str]:
    """The notes of a link."""
    return [item.text for item in items(link(found, key).sheet) if isinstance(item, Note)]


def ruled_out(text: str, entry: str) -> str:
    """The survey with an entry under no_other."""
    return text.replace("[wall]", f"[wall]\nno_other = {entry}")


def test_each_kind_and_stretch_that_is_not_told_is_named() -> None:
    """The beam runs 13 ft 1-1/2 in and half of each 5-1/2 in post: 13 ft 7 in; the floor is told to 6 ft of it."""
    found = made(HALF)
    assert set(untold(found)) == {"roof", "ceiling", "floor", "wall_above"}
    assert untold(found)["floor"].title == "Floor from 6 ft 0 in to 13 ft 7 in"
    assert untold(found)["roof"].title == "Roof"
    assert link(found, "takedown").word == "not shown"
    assert found.settled == "not shown"


def test_what_is_not_told_changes_no_figure() -> None:
    """The same beam is as hard at work whether the other kinds are asked for or ruled out."""
    every = '"roof, ceiling, floor, wall above"'
    before, after = made(HALF), made(ruled_out(HALF, every))
    assert untold(after) == {}
    assert link(after, "takedown").word == "counted"
    assert [one.governing and one.governing.ratio for one in before.links] == [
        one.governing and one.governing.ratio for one in after.links
    ]


@pytest.mark.parametrize(
    ("entry", "asked"),
    [
        ('"roof"', {"ceiling", "floor", "wall_above"}),
        ('{ value = "floor, wall above", trust = "seen" }', {"roof", "ceiling"}),
        ('{ value = "roof, ceiling", trust = "assumed" }', {"roof", "ceiling", "floor", "wall_above"}),
        ('"unknown"', {"roof", "ceiling", "floor", "wall_above"}),
    ],
)
def test_a_kind_is_ruled_out_by_who_has_looked(entry: str, asked: set[str]) -> None:
    """Each kind by itself; what is assumed or unknown rules out nothing."""
    assert set(untold(made(ruled_out(HALF, entry)))) == asked


@pytest.mark.parametrize(
    ("carried", "title"),
    [
        ('kind = "floor"\nfrom = "8 ft"\n', "Floor from 6 ft 0 in to 8 ft 0 in"),
        ('kind = "floor"\nfrom = "6 ft 5 in"\nto = "13 ft 2 in"\n', None),
        ('kind = "floor"\nfrom = "2 ft"\nto = "13 ft 0 in"\n', "Floor from 13 ft 0 in to 13 ft 7 in"),
    ],
)
def test_the_gap_between_two_floors(carried: str, title: str | None) -> None:
    """A gap of more than 6 in, what a tape laid to a post's face leaves out at most, is named."""
    more = f'[[carried]]\nname = "more"\nspan_a = "12 ft"\nspan_b = "10 ft"\n{carried}'
    floor = untold(made(HALF.replace("[beam]", f"{more}[beam]"))).get("floor")
    assert (floor and floor.title) == title


@pytest.mark.parametrize(
    ("carried", "where"),
    [
        ('from = "6 ft 5 in"\nto = "13 ft 2 in"', "from 6 ft 0 in to 6 ft 5 in and from 13 ft 2 in to 13 ft 7 in"),
        ('from = "6 ft 6 in"', "from 6 ft 0 in to 6 ft 6 in"),
        ('from = "6 ft 6-1/16 in"', ""),
        ('from = "6 ft 1/16 in"', "from 6 ft 0 in to 6 ft 0-1/16 in"),
        ('from = "6 ft"', ""),
    ],
)
def test_a_short_gap_that_is_not_asked_about_is_told(carried: str, where: str) -> None:
    """From the survey's own lengths: what is counted as nothing is said, with the length that it keeps to."""
    more = f'[[carried]]\nname = "more"\nkind = "floor"\nspan_a = "12 ft"\nspan_b = "10 ft"\n{carried}\n'
    found = made(HALF.replace("[beam]", f"{more}[beam]"))
    told = [note for note in notes(found, "takedown") if note.startswith("No floor is told")]
    assert [note.split(", and none")[0] for note in told] == ([f"No floor is told {where}"] if where else [])
    kept = [item.title for item in items(link(found, "takedown").sheet) if isinstance(item, Value)]
    assert ("longest stretch that is not asked about" in kept) is bool(where)
    assert notes(made(ruled_out(HALF.replace("[beam]", f"{more}[beam]"), '"floor"')), "takedown") == []


@pytest.mark.parametrize(
    ("carried", "told"),
    [
        ('kind = "strut"\nstation = "5 ft"\narea = "30 ft^2"\npitch = "5:12"\n', "roof"),
        ('kind = "point"\nstation = "5 ft"\nsnow_load = "900 lb"\n', "roof"),
        ('kind = "line"\nroof_live_line = "90 plf"\n', "roof"),
        ('kind = "line"\nlive_line = "90 plf"\n', "floor"),
        ('kind = "wall above"\nto = "3 ft"\n', "wall_above"),
        ('kind = "point"\nstation = "5 ft"\ndead_load = "900 lb"\n', ""),
    ],
)
def test_what_tells_of_a_kind(carried: str, told: str) -> None:
    """A strut tells of the roof, a load worked out by hand of what its parts are; a dead load tells of nothing."""
    text = HALF.replace("[beam]", f'[[carried]]\nname = "x"\n{carried}[site]\nground_snow = "25 psf"\n[beam]')
    assert set(untold(made(text))) == {"roof", "ceiling", "floor", "wall_above"} - {told}


def test_a_roof_that_the_survey_hints_at() -> None:
    """Ties and snow without a roof: the question says that the survey tells of them."""
    hinted = HALF + '[site]\nground_snow = "25 psf"\n[ties]\nspan = "24 ft"\npitch = "4:12"\nspacing = "16 in"\n'
    assert "though the survey has [ties] and site.ground_snow" in untold(made(hinted))["roof"].need
    assert "though" not in untold(made(HALF))["roof"].need


def test_a_roof_struck_out_is_asked_for() -> None:
    """Without its roof a survey is asked about one; with it it is not."""
    roofed = HALF.replace("[beam]", f'{ROOF}[site]\nground_snow = "25 psf"\n[beam]')
    assert "roof" not in untold(made(roofed))
    assert "roof" in untold(made(roofed.replace(ROOF, "")))


def test_floors_over_each_other_on_one_side_are_remarked_on() -> None:
    """A bathroom told to 6 ft over a bedroom floor told all along counts both there; side by side it does not."""
    bath = '[[carried]]\nname = "bath"\nkind = "floor"\nto = "6 ft"\nspan_a = "12 ft"\nspan_b = "0 in"\n'
    whole = HALF.replace('to = "6 ft"\n', "")
    told = " ".join(notes(made(whole.replace("[beam]", f"{bath}[beam]")), "takedown"))
    assert "upstairs floor and bath, both of kind floor" in told
    assert "from 0 in to 6 ft 0 in on side A:" in told
    beside = whole.replace('span_a = "12 ft"', 'span_a = "0 in"', 1)
    assert notes(made(beside.replace("[beam]", f"{bath}[beam]")), "takedown") == []
    ends = HALF.replace('to = "6 ft"', 'from = "6 ft"')
    assert notes(made(ends.replace("[beam]", f"{bath}[beam]")), "takedown") == []


def test_over_stays_over_beside_what_is_not_shown() -> None:
    """A girder over its limit and without the length of its bearings is both, everywhere alike."""
    lacking = DEMO.replace('bearing_length = { value = "8 in", trust = "measured" }\n', "")
    assert lacking != DEMO
    found = made(lacking)
    girder = link(found, "girder[1]")
    assert girder.words == ("over", "not shown")
    assert girder.said == "over, and something not shown"
    assert girder.governing is not None
    number = ratio(girder.governing)
    assert any("over, and" in row and f" {number}  " in row for row in study_text(found).splitlines())
    cell = standing(girder)
    assert (cell.word, cell.ratio, cell.besides) == ("over", number, ", and something not shown")
    told = dict(tally(found))
    assert f"Girder below (cellar girder) {number}" in told["over"]
    assert "Girder below (cellar girder)" in told["not shown"]
    assert girder in found.by_word["over"]
    assert girder in found.by_word["not shown"]


def test_the_headline_counts_what_is_over_not_shown_and_referred() -> None:
    """The worst word stands first, each with how many links it is said of."""
    found = made(HALF)
    words = [word for one in found.links for word in one.words]
    assert words.count("refer") == 4  # below both posts, what rises, the house around
    assert words.count("not shown") == 2  # what comes down, whether it bears
    assert headline(found) == "not shown in 2 links, refer in 4"
    assert "Result of the study: not shown in 2 links, refer in 4." in " ".join(study_text(found).split())


def test_masonry_below_is_no_success() -> None:
    """With all told and looked at, what is under the posts is still the engineer's: the study is not within."""
    every = ruled_out(HALF, '"roof, ceiling, floor, wall above"') + '[signs]\njoists_end = "yes"\n'
    found = made(every)
    assert found.settled == "refer"
    assert headline(found) == "refer in 5 links"


def test_a_chain_that_is_whole_and_within_comes_out_so() -> None:
    """Posts on new pads, all loads told, the signs seen: only the two links that always ask are left."""
    found = study(read(HOUSES / "slab_house.toml"))
    assert found.settled == "within"
    assert headline(found) == "refer in 2 links, the others within"
    assert {one.key for one in found.by_word["refer"]} == {"signs", "house"}


@pytest.mark.parametrize("house", ["half", "slab"])
def test_exit_codes(house: str, tmp_path: Path) -> None:
    """0 only where nothing is over, not shown or refer."""
    path = tmp_path / "house.toml"
    text = {"half": HALF, "slab": (HOUSES / "slab_house.toml").read_text(encoding="utf-8")}[house]
    path.write_text(text, encoding="utf-8")
    done = subprocess.run([sys.executable, "-m", "beamcheck", "check", path.name], cwd=tmp_path, check=False)
    assert done.returncode == {"half": 1, "slab": 0}[house]


def test_without_signs_the_link_says_what_to_look_at() -> None:
    """The link stands, not shown, with the weightiest signs and the question."""
    signs = link(made(HALF), "signs")
    assert signs.word == "not shown"
    missing = next(item for item in items(signs.sheet) if isinstance(item, Missing))
    assert "joists end, lap or are spliced on its top plate" in missing.need
    assert "sounds hollow" not in missing.need
    assert any(isinstance(item, Refer) and item.key == "signs.bearing" for item in items(signs.sheet))


@pytest.mark.parametrize(
    ("answers", "said"),
    [
        ('joists_end = "yes"\njoists_need_it = "yes"', "signs.joists_end and signs.joists_need_it say"),
        ('along_joists = "yes"\ncrosses_joists = "yes"', "signs.along_joists and signs.crosses_joists say"),
        ('joists_need_it = "yes"', "signs.joists_need_it says"),
        ('joists_end = "yes"\njoists_need_it = "no"', ""),
        ('joists_end = { value = "yes", trust = "assumed" }\njoists_need_it = "yes"', "signs.joists_need_it says"),
    ],
)
def test_signs_that_contradict_each_other_are_remarked_on(answers: str, said: str) -> None:
    """Lapped joists do not run over the wall unbroken, whether a sign or what is carried says that they lap."""
    told = notes(made(f"{HALF}[signs]\n{answers}\n"), "signs")
    assert [text.startswith(said) for text in told[1:]][:1] == ([True] if said else [])


def test_the_demonstration_does_not_contradict_itself() -> None:
    """Its joists lap over the wall, so none runs over it; and it asks for no load that it tells of."""
    found = made(DEMO)
    assert len(notes(found, "signs")) == 1
    assert untold(found) == {}


def test_the_form_has_a_line_for_several_words() -> None:
    """A key that takes several words is written, not chosen, and its words are told beside it."""
    wall = next(one for one in divisions({"wall": {}}, ()) if one.key == "wall").parts[0]
    row = next(one for one in wall.every if one.name == "wall.no_other")
    assert (row.kind, row.options) == ("text", ("roof", "ceiling", "floor", "wall above"))
