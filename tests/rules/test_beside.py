"""What stands beside the chain: temporary support, signs, room, heavy things, walls that stay; each where asked."""

import itertools
import re
import tomllib
from dataclasses import fields
from importlib.resources import files
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck import tables
from beamcheck.errors import InputError
from beamcheck.study.chain import study
from beamcheck.study.signs import BEARING, PARTITION, conclusion, signs_sheet
from beamcheck.study.types import Link, Study
from beamcheck.survey.around import Signs
from beamcheck.survey.fields import SECTIONS
from beamcheck.survey.fields_around import AROUND
from beamcheck.survey.reader import VARIANT, from_document
from beamcheck.tables import Row
from beamcheck.trace import Check, Missing, Note, Refer, Schedule, Value, items
from beamcheck.views.terminal import study_text

DEMO = (files("beamcheck.survey") / "demo.toml").read_text("utf-8")
BESIDE = tuple(section.key for section in AROUND)
FORBIDDEN = re.compile(r"\b(approved|safe|ok|pass(es|ed)?|not bearing|non-bearing)\b", re.IGNORECASE)


def document() -> dict[str, Any]:
    """The demonstration survey without its variant, to be changed."""
    return {key: part for key, part in tomllib.loads(DEMO).items() if key != VARIANT}


def studied(changed: dict[str, Any]) -> Study:
    """Its study."""
    return study(from_document(changed, "0" * 64, "demo.toml"))


def link(made: Study, key: str) -> Link:
    """One link of a study."""
    return next(link for link in made.links if link.key == key)


def ratios(found: Link) -> dict[str, float]:
    """Utilisations of a link by key."""
    return {item.key: float(item.ratio) for item in items(found.sheet) if isinstance(item, Check)}


def missing(found: Link) -> set[str]:
    """Keys of what a link does not show."""
    return {item.key for item in items(found.sheet) if isinstance(item, Missing)}


def test_nothing_stands_beside_the_chain_unasked() -> None:
    """Without their sections the study has none of these links but the signs, which are then not shown."""
    plain = {key: part for key, part in document().items() if key not in BESIDE}
    made = studied(plain)
    assert {link.key for link in made.links} & {"temporary", "signs", "room", "heavy[1]"} == {"signs"}
    assert {"house.temporary", "signs.looked", "signs.bearing"} <= {stop.key for stop in made.stops}
    assert link(made, "signs").word == "not shown"
    assert made.settled == "over"


def test_every_section_makes_its_link() -> None:
    """With them it has each link once, beside the chain, and the question is replaced by those of the design."""
    made = studied(document())
    beside = [link.key for link in made.links if not link.in_chain]
    assert beside == ["temporary", "signs", "room", "heavy[1]", "house"]
    stops = {stop.key for stop in made.stops}
    assert "house.temporary" not in stops
    assert {"temporary.design", "signs.bearing", "house.lateral", "house.side_walls"} <= stops


def test_what_stands_beside_the_chain_never_governs_it() -> None:
    """The governing check of a study is the same with and without these sections."""
    plain = {key: part for key, part in document().items() if key not in BESIDE}
    with_all, without = studied(document()).governing, studied(plain).governing
    assert with_all is not None
    assert without is not None
    assert (with_all.key, with_all.ratio) == (without.key, without.ratio)


def test_no_word_of_theirs_is_a_verdict() -> None:
    """No sentence of these sheets approves of anything or says that a wall does not bear."""
    for found in studied(document()).links:
        for item in items(found.sheet):
            texts = (
                [cell for row in item.rows for cell in row if isinstance(cell, str)]
                if isinstance(item, Schedule)
                else []
            )
            texts += [item.why, item.ask] if isinstance(item, Refer) else []
            texts += [item.text] if isinstance(item, Note) else []
            assert not [text for text in texts if FORBIDDEN.search(text)]


def test_temporary_wall_by_hand() -> None:
    """Side A: 12 ft 3 in joists, wall 2 ft 6 in off: (20 + 15) x 6.125 x 12.25/9.75, and half of 33.3 plf x that."""
    factor = 12.25 / 9.75
    per_foot = 35 * 12.25 / 2 * factor + 8 * 50 / 12 / 2 * factor
    found = [item for item in items(link(studied(document()), "temporary").sheet) if isinstance(item, Value)]
    told = {item.title: float(item.number) for item in found}
    assert told["load per foot of the temporary wall on side A"] == pytest.approx(per_foot)
    assert told["load of one stud on side A"] == pytest.approx(per_foot * 16 / 12)


OPTIONAL = [key for key in tomllib.loads(DEMO)["temporary"] if key != "note"]


@pytest.mark.parametrize("key", OPTIONAL)
def test_leaving_out_an_entry_never_helps_the_temporary_walls(key: str) -> None:
    """Without any one entry each check is as hard as with it, or the link is not shown."""
    changed = document()
    del changed["temporary"][key]
    if key == "rooms_above":
        del changed["temporary"]["live"]
    before, after = link(studied(document()), "temporary"), link(studied(changed), "temporary")
    if missing(after):
        assert "not shown" in after.words
        return
    old, new = ratios(before), ratios(after)
    hardest = max(old.values())
    assert max(new.values()) >= hardest - 1e-9
    assert all(new[name] >= old[name] - 1e-9 for name in old.keys() & new.keys())


@pytest.mark.parametrize(
    ("section", "key"),
    [("heavy", field) for field in ("station", "dead", "live", "finish", "top", "joist_spacing", "lasting")],
)
def test_leaving_out_an_entry_never_helps_the_joist(section: str, key: str) -> None:
    """Without any one entry the joist under the heavy thing works as hard as with it."""
    given_ = document()
    given_[section][0] |= {"station": "5 ft", "live": "40 psf"}
    changed = document()
    changed[section][0] |= {"station": "5 ft", "live": "40 psf"}
    changed[section][0].pop(key, None)
    before, after = link(studied(given_), "heavy[1]"), link(studied(changed), "heavy[1]")
    assert max(ratios(after).values()) >= max(ratios(before).values()) - 1e-9


@pytest.mark.parametrize("key", ["joist", "joist_span"])
def test_joists_not_told_are_not_shown(key: str) -> None:
    """Nothing stands in for the joists under a heavy thing."""
    changed = document()
    del changed["heavy"][0][key]
    found = link(studied(changed), "heavy[1]")
    assert found.word == "not shown"
    assert ratios(found) == {}


def test_stone_asks_for_more_stiffness_than_wood() -> None:
    """A stone floor or top brings L/720 into the list, wood and tile L/360 alone."""
    changed = document()
    assert "heavy[1].deflection_live_L720" not in ratios(link(studied(changed), "heavy[1]"))
    for key, word in (("finish", "stone"), ("top", "stone")):
        changed = document()
        changed["heavy"][0][key] = word
        assert "heavy[1].deflection_live_L720" in ratios(link(studied(changed), "heavy[1]"))


def test_one_temporary_wall_needs_its_lap() -> None:
    """On one side only: not shown without the lap, over where joists end short of it, and butted joists never reach."""
    changed = document()
    changed["temporary"] |= {"sides": "A", "snow": "counted"}
    assert "temporary.lap" in missing(link(studied(changed), "temporary"))
    changed["temporary"]["lap"] = "2 ft"
    assert ratios(link(studied(changed), "temporary"))["temporary.reach"] == pytest.approx((30 + 1.75) / 24)
    changed["temporary"]["lap"] = "3 ft"
    assert ratios(link(studied(changed), "temporary"))["temporary.reach"] < 1
    changed["carried"][0]["continuity"] = "butted"
    assert ratios(link(studied(changed), "temporary"))["temporary.reach"] == float("inf")


def test_snow_and_live_load_are_left_out_only_when_told() -> None:
    """With rooms in use and snow counted the walls hold more, and nothing of either is listed as left out."""
    changed = document()
    for key in ("rooms_above", "live", "snow"):
        del changed["temporary"][key]
    changed["carried"].append(
        {"name": "roof", "kind": "roof", "span_a": "10 ft", "span_b": "10 ft", "pitch": "6:12", "dead": "15 psf"}
    )
    made = link(studied(changed), "temporary")
    left = next(item for item in items(made.sheet) if isinstance(item, Schedule) and item.key == "temporary.left_out")
    assert not [row for row in left.rows if "snow" in str(row[0]) or "live" in str(row[0])]
    rows = next(item for item in items(made.sheet) if isinstance(item, Schedule) and item.key == "temporary.loads").rows
    assert {"snow", "live", "roof live", "dead"} == {row[2] for row in rows}


def test_posts_in_place_of_studs() -> None:
    """With a spacing of posts and no studs the load of one post is shown, and the post itself is a question."""
    changed = document()
    del changed["temporary"]["stud"]
    changed["temporary"]["post_spacing"] = "4 ft"
    made = link(studied(changed), "temporary")
    assert missing(made) == set()
    assert made.word == "refer"
    assert "load of one temporary post on side A" in {
        item.title for item in made.sheet.items if isinstance(item, Value)
    }


BAD = {
    "live load in rooms in use": ({"temporary": {"rooms_above": "in use"}}, "temporary.live", "stay in use"),
    "wall past the middle of the joists": (
        {"temporary": {"set_back_a": "7 ft"}},
        "temporary.set_back_a",
        "past the middle",
    ),
    "wall inside the wall": ({"temporary": {"set_back_b": "1 in"}}, "temporary.set_back_b", "inside the wall"),
    "stud of a timber": ({"temporary": {"stud": "6x6 Hem-Fir No.2"}}, "temporary.stud", "is timber"),
    "stud that no table has": ({"temporary": {"stud": "2x4 Hem-Fir No.9"}}, "temporary.stud", "Hem-Fir No.9"),
    "plate of composite": ({"temporary": {"top_plate": "1-3/4x5-1/2 LVL"}}, "temporary.top_plate", "composite"),
    "set-back without a unit": ({"temporary": {"set_back_a": 30}}, "temporary.set_back_a", "no unit"),
    "post that is not there": ({"neighbour": {"post": "3"}}, "neighbour[1].post", "no post 3"),
    "half a post": ({"neighbour": {"post": "1.5"}}, "neighbour[1].post", "no post 1.5"),
    "hole off the beam": ({"hole": {"station": "20 ft"}}, "hole[1].station", "off the beam"),
    "hole out of the depth": ({"hole": {"from_top": "14 in"}}, "hole[1].from_top", "not within the depth"),
    "hole as deep as the beam": ({"hole": {"diameter": "14 in"}}, "hole[1].from_top", "not within the depth"),
    "half a leg": ({"heavy": {"legs": "2.5"}}, "heavy[1].legs", "2.5 legs"),
    "thing longer than its joists": ({"heavy": {"along": "11 ft"}}, "heavy[1].along", "11 ft 0 in long"),
    "thing off its joists": ({"heavy": {"station": "1 ft"}}, "heavy[1].station", "off the span"),
    "joist of no size": ({"heavy": {"joist": "a joist"}}, "heavy[1].joist", "has no size"),
    "steel joist": ({"heavy": {"joist": "W8x18 A992"}}, "heavy[1].joist", "steel"),
    "weight of nothing": ({"heavy": {"weight": "0 lb"}}, "heavy[1].weight", "outside"),
    "answer that is none": ({"signs": {"stacks": "perhaps"}}, "signs.stacks", "'perhaps' is not one"),
    "sign that is none": ({"signs": {"creaks": "yes"}}, "signs.creaks", "is not a key"),
    "wall of no length": ({"other_wall": {"length": "-1 ft"}}, "other_wall[1].length", "less than 0 in"),
    "door of nothing": ({"room": {"door_width": "0 in"}}, "room.door_width", "outside"),
}


@pytest.mark.parametrize("case", BAD.values(), ids=BAD)
def test_contradictions_name_key_value_and_cure(case) -> None:
    """An entry that cannot be meant raises with its key path, what is wrong, and what would do."""
    changes, where, what = case
    changed = document()
    for section, entries in changes.items():
        part = changed[section][0] if isinstance(changed[section], list) else changed[section]
        part |= entries
    with pytest.raises(InputError) as caught:
        studied(changed)
    fault = next(fault for fault in caught.value.faults if fault.where == where)
    assert what in fault.what
    assert fault.mend


ROWS = tables.load("practice/signs").rows
KEYS = [row.text("key") for row in ROWS]
WEIGHT = tables.load("practice/signs").columns.index("weight")
ANSWERS = st.fixed_dictionaries({key: st.sampled_from(["yes", "no", "unknown"]) for key in KEYS})
ORDER = {"no": 0, "unknown": 1, "yes": 2}


def test_signs_of_table_and_survey_are_the_same() -> None:
    """Each question of the survey has a row with its weight, and each row a question."""
    section = next(section for section in SECTIONS if section.key == "signs")
    assert [field.key for field in section.fields] == KEYS == [field.name for field in fields(Signs)]


@given(ANSWERS)
def test_signs_come_to_one_of_two_sentences(answers: dict[str, str]) -> None:
    """Whatever is answered, it is treated as bearing, or leans to a partition that is to be confirmed."""
    told = conclusion(ROWS, answers)
    assert told.startswith((BEARING, PARTITION))
    assert not FORBIDDEN.search(told)


@given(ANSWERS, st.sampled_from(KEYS), st.sampled_from(["yes", "no", "unknown"]))
def test_more_signs_of_bearing_never_make_a_partition(answers: dict[str, str], key: str, other: str) -> None:
    """Turning a sign of bearing towards yes, or one of a partition away from it, never takes the word bearing back."""
    row = next(row for row in ROWS if row.text("key") == key)
    towards = (
        ORDER[other] >= ORDER[answers[key]] if row.text("leans") == "bearing" else ORDER[other] <= ORDER[answers[key]]
    )
    if towards and conclusion(ROWS, answers).startswith(BEARING):
        assert conclusion(ROWS, {**answers, key: other}).startswith(BEARING)


def test_misleading_signs_change_nothing() -> None:
    """Loose studs, pipes and a hollow sound have no part in the conclusion."""
    misleading = [row.text("key") for row in ROWS if row.text("weight") == "misleading"]
    assert len(misleading) == 3
    lean = dict.fromkeys(KEYS, "no") | {"truss_drawing": "yes"}
    for answer in itertools.product(["yes", "no", "unknown"], repeat=3):
        assert conclusion(ROWS, lean | dict(zip(misleading, answer, strict=True))).startswith(PARTITION)


@pytest.mark.parametrize(
    ("answers", "told"),
    [
        ({}, BEARING),
        ({"truss_drawing": "yes"}, BEARING),
        (dict.fromkeys(KEYS, "no"), BEARING),
        (dict.fromkeys(KEYS, "no") | {"bare_attic": "yes"}, BEARING),
        (dict.fromkeys(KEYS, "no") | {"along_joists": "yes"}, PARTITION),
        (dict.fromkeys(KEYS, "no") | {"along_joists": "yes", "double_plate": "yes"}, PARTITION),
        (dict.fromkeys(KEYS, "no") | {"along_joists": "yes", "crosses_joists": "yes"}, BEARING),
        (dict.fromkeys(KEYS, "no") | {"truss_drawing": "yes", "crosses_joists": "unknown"}, PARTITION),
        (dict.fromkeys(KEYS, "no") | {"truss_drawing": "yes", "stacks": "unknown"}, BEARING),
        (dict.fromkeys(KEYS, "no") | {"gap_under_trusses": "yes", "roof_brace": "yes"}, BEARING),
    ],
)
def test_signs_by_example(answers: dict[str, str], told: str) -> None:
    """Unknown counts as bearing; a partition needs every strong sign of bearing looked for and not found."""
    assert conclusion(ROWS, dict.fromkeys(KEYS, "unknown") | answers).startswith(told)


def test_a_guessed_no_counts_as_unknown() -> None:
    """A no that is assumed, not seen, rules nothing out."""
    changed = document()
    changed["signs"] = dict.fromkeys(KEYS, "no") | {"along_joists": "yes"}
    assert _told(changed).startswith(PARTITION)
    changed["signs"]["roof_brace"] = {"value": "no", "trust": "assumed"}
    assert _told(changed).startswith(BEARING)


def _told(changed: dict[str, Any]) -> str:
    sheet = link(studied(changed), "signs").sheet
    return next(item.text for item in sheet.items if isinstance(item, Note))


def test_nothing_answered_is_treated_as_bearing() -> None:
    """An empty list of signs says so, and names the first that nobody has looked for."""
    sheet = signs_sheet(Signs(**dict.fromkeys(KEYS, "")), ())
    note = next(item.text for item in sheet.items if isinstance(item, Note))
    assert note == f"{BEARING}: nobody knows yet whether {ROWS[0].text('sign')}."


def test_headroom_and_way_in() -> None:
    """82-7/8 in under the beam is over against 7 ft, close against 6 ft 8 in; a straight run takes the turn's place."""
    found = ratios(link(studied(document()), "room"))
    assert found["room.headroom_room"] == pytest.approx(84 / 82.875)
    assert found["room.headroom_through"] == pytest.approx(80 / 82.875)
    assert found["room.carried_in"] > 1
    changed = document()
    changed["room"]["straight_run"] = "20 ft"
    assert ratios(link(studied(changed), "room"))["room.carried_in"] < 1


def test_a_sawn_beam_has_the_codes_limits_for_holes() -> None:
    """In sawn lumber diameter and edge are checked beside the middle thirds; in composite lumber the maker is asked."""
    composite = {key for key in ratios(link(studied(document()), "room")) if key.startswith("hole")}
    assert composite == {"hole[1].depth", "hole[1].span", "hole[1].hangs"}
    changed = document()
    changed["beam"]["member"] = "3-ply 2x12 Douglas Fir-Larch No.2"
    sawn = ratios(link(studied(changed), "room"))
    assert sawn["hole[1].diameter"] == pytest.approx(0.75 / (11.25 / 3), rel=1e-6)
    assert sawn["hole[1].edge"] == pytest.approx(2 / (11.25 - 7 - 0.375))


def test_figures_of_the_hand_calculations() -> None:
    """What docs/explain/hand-room.md comes to by hand is what the study of the demonstration shows."""
    made = studied(document())
    checks = {item.key: item for item in items(made.sheet) if isinstance(item, Check)}
    plate, way, gap, joist = (
        checks[key]
        for key in ("temporary.plate_bending", "room.carried_in", "neighbour[1].gap", "heavy[1].bending_sagging")
    )
    assert (round(plate.demand.number), round(plate.limit.number)) == (590, 1312)
    assert (round(way.demand.number), round(way.limit.number, 1)) == (172, 132.4)
    assert (round(gap.demand.number, 3), gap.limit.number) == (0.339, 0.375)
    assert (round(joist.demand.number), round(joist.limit.number)) == (920, 990)


def test_without_a_rail_a_stud_buckles_the_thin_way() -> None:
    """A 2x4 over 97-1/2 in with nothing that holds it sideways has a slenderness of 65; with a rail, half of that."""
    assert (
        ratios(link(studied(document()), "temporary"))["temporary.stud_between.slenderness_along"] == 48.75 / 1.5 / 50
    )
    changed = document()
    changed["temporary"]["rail"] = "no"
    assert ratios(link(studied(changed), "temporary"))["temporary.stud.slenderness_along"] == 97.5 / 1.5 / 50


def test_joists_crush_the_plate_by_their_own_spacing() -> None:
    """A joist at 24 in brings 580.6 lb on 1-5/8 x 3-1/2 in of 335 psi, the softer of plate and unmarked joist."""
    changed = document()
    changed["temporary"]["joist_spacing"] = "24 in"
    found = link(studied(changed), "temporary")
    per_foot = (35 * 12.25 / 2 + 8 * 50 / 12 / 2) * 12.25 / 9.75
    assert ratios(found)["temporary.plate_crushing"] == pytest.approx(per_foot * 2 / (1.625 * 3.5) / 335)
    weight = 29 * 1.5 * 3.5 / 144 * 97.5 / 12
    assert ratios(found)["temporary.stud.plate"] == pytest.approx((per_foot * 16 / 12 + weight) / (1.5 * 3.5) / 335)


def test_shorter_joists_set_the_factor_of_the_wall_line() -> None:
    """What stands on the old wall overhangs with the shorter of two kinds of joists: 7 ft and 2 ft 6 in make 7/4.5."""
    changed = document()
    ceiling = {"name": "ceiling", "kind": "ceiling", "span_a": "7 ft", "span_b": "9 ft", "continuity": "lapped"}
    changed["carried"].insert(1, ceiling | {"use": "attic without storage", "dead": "6 psf"})
    found = link(studied(changed), "temporary")
    told = {item.title: item.number for item in found.sheet.items if isinstance(item, Value)}
    assert told["set-back factor of the temporary wall on side A"] == pytest.approx(7 / 4.5)
    assert "temporary.floors" in {item.key for item in found.sheet.items if isinstance(item, Refer)}


def test_questions_come_where_they_belong() -> None:
    """Points, closer joists and joists touched by the work are asked about where there are any, and only there."""
    asked = {stop.key for stop in studied(document()).stops}
    assert {"temporary.points", "temporary.overhang", "temporary.stands_on", "heavy[1].joists"} <= asked
    assert not asked & {"temporary.between_studs", "temporary.posts", "temporary.one_side", "temporary.floors"}
    changed = document()
    changed["carried"] = [item for item in changed["carried"] if item["kind"] != "strut"]
    changed["temporary"]["stud_spacing"] = "24 in"
    changed["heavy"][0]["joists_changed"] = "no"
    asked = {stop.key for stop in studied(changed).stops}
    assert "temporary.between_studs" in asked
    assert not asked & {"temporary.points", "heavy[1].joists"}


def test_what_stays_for_good_makes_the_joist_creep() -> None:
    """A thing that stays is dead load and creeps; one that comes and goes does not."""
    changed = document()
    changed["heavy"][0]["lasting"] = "no"
    stays, goes = (ratios(link(studied(one), "heavy[1]")) for one in (document(), changed))
    assert stays["heavy[1].deflection_total_L240"] > goes["heavy[1].deflection_total_L240"]
    assert stays["heavy[1].deflection_live_L360"] == goes["heavy[1].deflection_live_L360"]


def test_a_straight_run_too_short_leaves_the_turn() -> None:
    """A run of 10 ft is no way in for a ply of 14 ft 4 in: it is turned, if it can be."""
    changed = document()
    changed["room"]["straight_run"] = "10 ft"
    with_run, without = ratios(link(studied(changed), "room")), ratios(link(studied(document()), "room"))
    assert with_run["room.carried_in"] == without["room.carried_in"]


def test_a_hole_near_the_edge_is_still_in_the_beam() -> None:
    """A hole of 1-1/2 in, 1 in below the top, leaves a quarter inch: it is judged, not refused."""
    changed = document()
    changed["hole"][0] |= {"diameter": "1-1/2 in", "from_top": "1 in"}
    assert ratios(link(studied(changed), "room"))["hole[1].depth"] == pytest.approx((6 + 0.75) / (14 / 6))


def test_share_of_wall_lost() -> None:
    """13 ft 6 in go, 9 ft 2 in and 8 ft 6 in stay: 162 of 374 in."""
    found = link(studied(document()), "house")
    lost = next(item for item in found.sheet.items if isinstance(item, Value) and item.name == "k_lost")
    assert lost.number == pytest.approx(162 / (162 + 110 + 102))


def test_no_sign_of_a_partition_outweighs_a_strong_sign_of_bearing() -> None:
    """Were a sign of a partition near-decisive, a strong sign of bearing would still decide."""
    heavier = [
        Row(row.table, row.line, [*row.written[:WEIGHT], "near-decisive", *row.written[WEIGHT + 1 :]])
        if row.text("key") == "truss_drawing"
        else row
        for row in ROWS
    ]
    answers = dict.fromkeys(KEYS, "no") | {"truss_drawing": "yes", "stacks": "yes"}
    assert conclusion(tuple(heavier), answers).startswith(BEARING)


def test_a_gap_of_nothing_is_drawn_as_over() -> None:
    """Where finish and plates take the whole gap the utilisation is endless: a full bar, and words for the number."""
    changed = document()
    changed["neighbour"][0]["gap"] = "1/2 in"
    made = studied(changed)
    assert ratios(link(made, "room"))["neighbour[1].gap"] == float("inf")
    assert "> 999" in study_text(made)


def test_a_thing_as_long_as_its_joists_leaves_no_room_for_people() -> None:
    """Nothing walks on a joist that its base covers from end to end: the study shows its checks under that alone."""
    changed = document()
    thing = {"name": "a full floor", "weight": "900 lb", "along": "12 ft", "across": "4 ft", "joist": "2x8 unknown"}
    changed["heavy"] = [{**thing, "joist_span": "12 ft", "lasting": "yes", "joists_changed": "no"}]
    found = ratios(link(studied(changed), "heavy[1]"))
    assert any("deflection" in key for key in found)
    assert all(0 < ratio < float("inf") for key, ratio in found.items() if "bending" in key or "shear" in key)
