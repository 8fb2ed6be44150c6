"""What a reader is told in words: buckling, stand-ins that no figure shows, names, keys to answer with, per cents."""

import re
import tomllib
from importlib.resources import files
from typing import Any

import pytest

from beamcheck.catalogue.reading import read_member
from beamcheck.checks.post import AxialCase, PostDesign, check_post
from beamcheck.checks.steel_post import SteelPostDesign, check_steel_post
from beamcheck.checks.wood import Conditions
from beamcheck.errors import InputError
from beamcheck.study.chain import study
from beamcheck.study.registers import assumed, from_memory, rows_from_memory
from beamcheck.study.types import Study, as_title
from beamcheck.survey.reader import VARIANT, from_document
from beamcheck.trace import Check, Looked, Missing, Note, Schedule, Value, items, taken
from beamcheck.views.data import study_data
from beamcheck.views.printed import shown
from beamcheck.views.sheet import Book, sheet_html
from beamcheck.views.terminal import study_text
from beamcheck.views.words import figure, ratio

DEMO = (files("beamcheck.survey") / "demo.toml").read_text("utf-8")


def document(**sections: dict[str, Any]) -> dict[str, Any]:
    """The demonstration survey without its variant, with other entries in some of its sections."""
    found = {key: part for key, part in tomllib.loads(DEMO).items() if key != VARIANT}
    return found | {name: found[name] | entries for name, entries in sections.items()}


def studied(changed: dict[str, Any]) -> Study:
    """Its study."""
    return study(from_document(changed, "0" * 64, "demo.toml"))


def length(name: str, inches: float) -> Value:
    """A length for a test."""
    return taken(name, inches, "a figure for a test", unit="in")


def cases(pounds: float) -> tuple[AxialCase, ...]:
    """One case of a load."""
    P = taken("P", pounds, "a figure for a test", unit="lb")
    return (AxialCase(P, taken("C_D", 1.0, "a figure for a test"), "D + L"),)


def eccentric(pounds: float, e: float) -> Check:
    """A 4x4 of 12 ft with its load off centre by e. F_cE = 0.822 x 620,000/(144/3.5)^2 = 301 psi: 3,688 lb."""
    member = read_member("4x4 Douglas Fir-Larch No.1", "post[1].member")
    at = Conditions()
    design = PostDesign(
        "post[1]", member, length("h", 144.0), cases(pounds), "in wall", "nailed", length("e", e), None, at
    )
    return next(item for item in check_post(design) if isinstance(item, Check) and item.key == "post[1].eccentric")


def test_a_post_that_buckles_before_the_load_says_so() -> None:
    """At 3,680 lb the interaction has a size, at 3,700 lb none; a load on the very centre is not made greater by it."""
    assert eccentric(3680.0, 0.5).instead == ""
    beyond = eccentric(3700.0, 0.5)
    assert (beyond.instead, beyond.word, ratio(beyond)) == ("buckles before this load", "over", "> 999")
    assert eccentric(3700.0, 0.0).instead == ""
    slight = eccentric(3700.0, 1e-6)
    assert (slight.instead, ratio(slight)) == ("buckles before this load", "> 999")


def test_a_steel_post_that_buckles_before_the_load_says_so() -> None:
    """A 3 in standard pipe of 20 ft: pi^2 29,000,000 x 2.85/240^2 = 14,162 lb beside 1.6 x 20,000 lb (AISC App. 8)."""
    member = read_member("Pipe3STD", "post[1].member")
    for pounds, told in ((5000.0, ""), (20_000.0, "buckles before this load")):
        design = SteelPostDesign("post[1]", member, length("h", 240.0), cases(pounds), length("e", 0.5))
        found = {item.key: item for item in check_steel_post(design) if isinstance(item, Check)}
        assert found["post[1].eccentric"].instead == told


@pytest.fixture(scope="module")
def buckled() -> Study:
    """A study whose second post is far too slender for its load."""
    changed = document()
    changed["post"][1] |= {"member": "2x4 Spruce-Pine-Fir Stud", "seat": "unknown"}
    del changed["post"][1]["eccentricity"]
    return studied(changed)


def test_every_view_says_that_a_post_buckles(buckled: Study) -> None:
    """No view prints an interaction without a size as the demand of a check; each says that it is over."""
    check = next(item for item in items(buckled.sheet) if isinstance(item, Check) and item.instead)
    number = figure(check.demand)
    assert float(check.ratio) > 999
    rows = [row for row in study_text(buckled).splitlines() if number in row]
    assert rows == []
    assert "buckles" in study_text(buckled)
    page = sheet_html(buckled, book=Book.FULL)
    assert f'<td class="n">{number}</td>' not in page
    assert f"emand {number}" not in page
    assert "buckles before this load" in page
    assert "it buckles before this load, limit 1.0" in page
    data = str(study_data(buckled))
    assert "'instead_of_demand': 'buckles before this load'" in data


def test_the_width_of_the_house_shows_what_it_leans_on() -> None:
    """Spans of 12 ft 3 in and 10 ft 8 in make 22 ft 11 in with no wall: 3-1/2 in and 6 in are told as assumed."""
    changed = document(wall={"house_width": "23 ft 8 in"})
    del changed["wall"]["thickness"]
    entries = {entry.where: entry for entry in assumed(studied(changed))}
    assert entries["wall.thickness"].text == "3-1/2 in"
    assert entries["wall.house_width"].text == "within 6 in"
    assert all(entries[where].flips and entries[where].lean for where in ("wall.thickness", "wall.house_width"))
    with pytest.raises(InputError, match=r"a wall of 3-1/2 in \(assumed\) make 23 ft 2-1/2 in"):
        studied(document() | {"wall": changed["wall"] | {"house_width": "23 ft 8-3/4 in"}})
    measured = {entry.where for entry in assumed(studied(document(wall={"house_width": "23 ft 4 in"})))}
    assert "wall.house_width" in measured
    assert "wall.thickness" not in measured
    assert {"wall.house_width", "wall.thickness"} & {entry.where for entry in assumed(studied(document()))} == set()


def test_the_reach_of_a_notch_is_listed_as_assumed() -> None:
    """A notch from above without its reach is told as assumed, on the beam's sheet and in the register."""
    made = studied(document(beam={"member": "3-ply 2x12 Douglas Fir-Larch No.2", "end_notch_top": "1 in"}))
    entry = next(entry for entry in assumed(made) if entry.where == "beam.end_notch_reach")
    notes = [item.text for item in items(made.sheet) if isinstance(item, Note)]
    assert any(text.startswith("ASSUMED: beam.end_notch_reach") and entry.flips in text for text in notes)
    notched = {"member": "3-ply 2x12 Douglas Fir-Larch No.2", "end_notch_top": "1 in"}
    told = studied(document(beam={**notched, "end_notch_reach": "2 in"}))
    assert "beam.end_notch_reach" not in {entry.where for entry in assumed(told)}


def test_a_name_keeps_the_letters_of_its_owner() -> None:
    """Only the first letter of a name at the head of a line is made large."""
    assert as_title("old HVAC unit from Uncle Bob") == "Old HVAC unit from Uncle Bob"
    changed = document()
    changed["heavy"][0]["name"] = "upright piano from Uncle Bob"
    changed["girder"][0]["name"] = "girder below Ann's room"
    titles = {link.sheet.title for link in studied(changed).links}
    assert "Upright piano from Uncle Bob on the floor" in titles
    assert "Girder below Ann's room support 1" in titles


def test_shares_of_practice_are_listed_as_from_memory() -> None:
    """What two temporary walls share, and how thick a tongue practice wants, come from a table and are listed so."""
    changed = document()
    changed["post"][1] |= {"seat": "notch", "notch_depth": "4-1/2 in", "seated_plies": "2"}
    del changed["post"][1]["eccentricity"]
    listed = {
        value.name: value.number for value in from_memory(studied(changed)) if isinstance(value.origin, Looked)
    }
    assert listed["k_share"] == 0.5
    assert listed["t_tongue_least"] == 1.5


def test_what_holds_a_joint_is_told_as_a_need_from_memory() -> None:
    """With its blocking unknown nothing is said to be there; the rows of practice are listed as from memory."""
    changed = document()
    changed["post"][0]["blocking"] = "unknown"
    made = studied(changed)
    tables = [item for item in items(made.sheet) if isinstance(item, Schedule) and item.key.endswith(".joints")]
    assert {table.heads for table in tables} == {("joint", "needs")}
    wheres = [row.text("where") for row in rows_from_memory(made)]
    assert wheres == ["beam to stud pack", "post to girder", "beam to post", "post to pier"]
    assert "practice/joints, girder (Practice of the building trade 2025, joints)" in study_text(made)
    assert "post to girder" in sheet_html(made).partition("From memory: look these up first")[2]


KEYS = {
    "temporary": ("set_back_a", "set_back_b", "stud", "top_plate"),
    "heavy": ("joist",),
    "hole": ("from_top",),
}


@pytest.mark.parametrize(("section", "key"), [(section, key) for section, keys in KEYS.items() for key in keys])
def test_what_is_missing_names_the_key_that_answers_it(section: str, key: str) -> None:
    """Left out, a thing that the study cannot do without is named by its key in the survey."""
    changed = document()
    entries = changed[section][0] if isinstance(changed[section], list) else changed[section]
    del entries[key]
    where = f"{section}[1].{key}" if isinstance(changed[section], list) else f"{section}.{key}"
    stop = next(stop for stop in studied(changed).stops if isinstance(stop, Missing) and stop.key == where)
    assert stop.need.endswith(f"; in the survey: {where}")


def test_a_rise_is_told_in_per_cent() -> None:
    """1.708 is a rise of 170.8 %, -0.187 a fall of 18.7 %; the code's limit is 5 %, on each support of a girder too."""
    for number, told in ((1.708, "170.8 %"), (-0.187, "-18.7 %"), (0.05, "5 %"), (0.0, "0 %")):
        value = taken("r_rise", number, "a figure for a test")
        assert figure(value) == shown(value) == told
    text = study_text(studied(document()))
    assert len(re.findall(r"what it rises by: -?[\d.]+ %", text)) == 3
    assert "share above which a member must be shown to be adequate: 5 %" in text
