"""Plies of a flush beam, joined: the printed tables of dowels, hand sums, and what loads must and must not add up."""

import sys
from dataclasses import replace
from pathlib import Path

import pytest

from beamcheck import tables
from beamcheck.catalogue.gravity import specific_gravity
from beamcheck.catalogue.reading import read_member
from beamcheck.checks.plies import Face, JoinedPlies, check_plies, lateral_value
from beamcheck.checks.wood import Conditions
from beamcheck.errors import InputError
from beamcheck.standards import nds_2018 as nds
from beamcheck.study.types import Study
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import Source
from beamcheck.trace import Check, Item, Missing, Note, Refer, Value, items, taken

sys.path.insert(0, str(Path(__file__).parent))

from changed_houses import studied

TEXT = """
[study]
title = "flush"
[wall]
clear_opening = "12 ft"
ceiling_height = "8 ft"
[[carried]]
name = "floor"
kind = "floor"
span_a = "14 ft"
span_b = "10 ft"
continuity = "lapped"
dead = "15 psf"
live = "40 psf"
[beam]
member = "3-ply 2x12 Douglas Fir-Larch No.2"
position = "flush"
moisture = "dry"
plies_joined_by = "16d common"
fastener_rows = "3"
fastener_spacing = "12 in"
[[post]]
member = "4x6 Douglas Fir-Larch No.2"
[[post]]
member = "4x6 Douglas Fir-Larch No.2"
"""


def figure(name: str, number: float, unit: str = "1") -> Value:
    """A figure for a test."""
    return taken(name, number, "a figure for a test", unit=unit)


def joined(member: str, fastener: str, rows: int = 2, spacing: float = 12.0, **loads: float) -> JoinedPlies:
    """Plies with one loaded face; spacing in inches, loads in plf by type."""
    sources = tuple(Source("c", "floor", name, w=figure("w", w, "plf")) for name, w in loads.items())
    return JoinedPlies(
        "flush",
        read_member(member, "beam.member"),
        (Face("side A", sources),),
        combinations("asce7_16", frozenset({"D", "L"})),
        fastener,
        figure("n_f", rows),
        figure("o_f", spacing, "in"),
        Conditions(),
    )


def checks(found: tuple[Item, ...]) -> dict[str, Check]:
    """Checks by the last part of their key."""
    return {item.key.rpartition(".")[2]: item for item in found if isinstance(item, Check)}


def made(*changes: tuple[str, str]) -> Study:
    """The study of the house with some of its text changed."""
    return studied(TEXT, *changes)


def crossing(found: Study) -> Check:
    """The check of what crosses the first joint."""
    (check,) = [item for item in items(found.sheet) if isinstance(item, Check) and item.key == "flush.plies"]
    return check


# NDS 2018, Table 12N: 16d common through a side member of 1-1/2 in; from memory, but for 141 lb
NAILS = {"Southern Pine": 154, "Douglas Fir-Larch": 141, "Hem-Fir": 122, "Spruce-Pine-Fir": 120}


@pytest.mark.parametrize("species", NAILS)
def test_a_nail_through_two_plies_meets_the_printed_table(species: str) -> None:
    """The 16d nail that ends beyond the second ply carries what the table has, within the rounding of F_e."""
    found = lateral_value(joined(f"2-ply 2x10 {species} No.2", "16d common"))
    assert found.to("lb") == pytest.approx(NAILS[species], rel=0.005)


# NDS 2018, Table 12A: bolts in two members of 1-1/2 in, both across their grain, to 10 lb; from memory
BOLTS = {
    ("Douglas Fir-Larch", "1/2 in"): 220, ("Douglas Fir-Larch", "5/8 in"): 240, ("Douglas Fir-Larch", "3/4 in"): 270,
    ("Southern Pine", "1/2 in"): 250, ("Southern Pine", "5/8 in"): 280, ("Southern Pine", "3/4 in"): 310,
}  # fmt: skip


@pytest.mark.parametrize(("species", "size"), BOLTS)
def test_a_bolt_between_two_plies_meets_the_printed_table(species: str, size: str) -> None:
    """Both plies are loaded across their grain, which is the lowest column of the table."""
    found = lateral_value(joined(f"2-ply 2x10 {species} No.2", f"{size} bolt"))
    assert 10 * round(found.to("lb") / 10) == BOLTS[species, size]


@pytest.mark.parametrize(("plies", "share"), [(2, 1 / 2), (3, 2 / 3), (4, 3 / 4)])
def test_the_other_plies_take_their_share_over_the_first_joint(plies: int, share: float) -> None:
    """Of 600 plf on one face (n - 1)/n crosses, against three nails a foot of 141 lb each."""
    found = checks(check_plies(joined(f"{plies}-ply 2x12 Douglas Fir-Larch No.2", "16d common", 3, D=200.0, L=400.0)))
    assert found["plies"].demand.number == pytest.approx(600 * share)
    assert found["plies"].limit.to("plf") == pytest.approx(3 * 141, rel=0.005)
    assert found["plies"].when == "D + L"


def test_half_the_spacing_or_twice_the_rows_is_half_the_utilisation() -> None:
    """Fasteners in a joint share the load alike."""
    whole, closer, more = (
        checks(check_plies(joined("3-ply 2x12 Hem-Fir No.2", "16d common", rows, spacing, L=500.0)))["plies"].ratio
        for rows, spacing in ((1, 12.0), (1, 6.0), (2, 12.0))
    )
    assert (closer, more) == (pytest.approx(whole / 2), pytest.approx(whole / 2))


def test_dead_load_alone_counts_with_its_long_duration() -> None:
    """Nails under dead load for good carry 0.9 of what they carry for ten years."""
    dead = checks(check_plies(joined("2-ply 2x12 Hem-Fir No.2", "16d common", D=500.0)))["plies"]
    live = checks(check_plies(joined("2-ply 2x12 Hem-Fir No.2", "16d common", L=500.0)))["plies"]
    assert dead.when == "D"
    assert float(dead.ratio) == pytest.approx(float(live.ratio) / 0.9)


def test_wet_wood_holds_seven_tenths() -> None:
    """C_M of nails and bolts in a wet place (Table 11.3.3)."""
    for fastener in ("16d common", "1/2 in bolt"):
        design = joined("3-ply 2x12 Hem-Fir No.2", fastener, L=300.0)
        dry, wet = (checks(check_plies(one))["plies"] for one in (design, replace(design, at=Conditions("wet"))))
        assert float(wet.ratio) == pytest.approx(float(dry.ratio) / 0.7)


def test_the_heavier_face_counts_alone() -> None:
    """Side A with 14 ft: 7 ft x 55 psf x 2/3; joists on side B neither add to it nor help it."""
    both, one = made(), made(('span_b = "10 ft"', 'span_b = "0 ft"'))
    assert crossing(both).demand.to("plf") == pytest.approx(7 * 55 * 2 / 3)
    assert crossing(one).ratio == pytest.approx(crossing(both).ratio)
    assert crossing(both).title.endswith("side A")
    assert crossing(made(('span_b = "10 ft"', 'span_b = "15 ft"'))).title.endswith("side B")


def test_cut_joists_hand_on_half_their_span_whatever_they_did_before() -> None:
    """A joist in one piece pressed harder on the wall; cut at the beam, each part rests by itself."""
    assert crossing(made(("lapped", "one piece"))).ratio == pytest.approx(crossing(made()).ratio)


def test_floors_that_lie_apart_do_not_add_up() -> None:
    """Two floors one beside the other press where they lie; where they lie one above the other both do."""
    again = '[[carried]]\nname = "more"\nkind = "floor"\nspan_a = "8 ft"\nspan_b = "0 ft"\ncontinuity = "lapped"\n'
    again += 'dead = "15 psf"\nlive = "40 psf"\nfrom = "8 ft"\nto = "11 ft"\n[beam]'
    apart = made(("[beam]", again), ('name = "floor"', 'name = "floor"\nfrom = "0 ft"\nto = "8 ft"'))
    assert crossing(apart).demand.to("plf") == pytest.approx(7 * 55 * 2 / 3)
    both = made(("[beam]", again))
    assert crossing(both).demand.to("plf") == pytest.approx((7 + 4) * 55 * 2 / 3)
    assert crossing(both).title.endswith("side A, where more begins")


def test_a_nail_too_short_is_over_and_gets_no_load() -> None:
    """6 D of a 10d nail is 0.89 in, and it reaches 1.25 in through a ply of 1-3/4; through 3-1/2 in not at all."""
    reach = checks(check_plies(joined("2-ply 1-3/4x14 LVL", "10d common", L=300.0)))
    assert float(reach["plies_reach"].ratio) == pytest.approx(6 * 0.148 / 1.25)
    short = checks(check_plies(joined("2-ply 3-1/2x14 LVL", "10d common", L=300.0)))
    assert short["plies_reach"].word == "over"
    assert "plies" not in short


def test_the_point_of_a_nail_counts_from_ten_diameters_on() -> None:
    """The 10d nail reaches 1.25 in beyond a ply of 1-3/4 in, less than 10 D: 2 D of its point bear nothing."""
    D, ply = 0.148, 1.75
    p = nds.nail_penetration.fn(3.0, ply)
    assert p == pytest.approx(1.25)
    assert nds.bearing_within_ply.fn(nds.nail_bearing_length.fn(p, D), ply) == pytest.approx(1.25 - 2 * D)
    assert nds.bearing_within_ply.fn(2.0, 1.5) == 1.5
    assert nds.nail_penetration.fn(1.0, 1.5) == 0.0


def test_room_for_rows_and_along_the_beam() -> None:
    """Four rows of 1/2 in bolts are too many for the rule; two need 4 D + 4 D + 4 D; the spacing is at least 5 D."""
    found = checks(check_plies(joined("2-ply 2x8 Hem-Fir No.2", "1/2 in bolt", 2, 2.0, L=100.0)))
    assert found["plies_rows"].demand.number == pytest.approx(nds.depth_for_rows.fn(2, 2.0, 2.0))
    assert float(found["plies_rows"].ratio) == pytest.approx(6.0 / 7.25)
    assert float(found["plies_spacing"].ratio) == pytest.approx(2.5 / 2.0)
    (stop,) = check_plies(joined("2-ply 2x8 Hem-Fir No.2", "1/2 in bolt", 3, L=100.0))
    assert isinstance(stop, Refer)
    assert nds.lateral_line.fn(300.0, 0.5) == 600.0


def test_what_is_left_out_is_asked_for() -> None:
    """A nail without rows or spacing shows nothing; no nail at all leaves the question to the engineer."""
    found = made(('fastener_rows = "3"\n', ""))
    assert any(isinstance(item, Missing) and item.key == "flush.plies" for item in items(found.sheet))
    plain = made((TEXT[TEXT.index("plies_joined_by") : TEXT.index("[[post]]")], ""))
    keys = [item.key for item in items(plain.sheet) if isinstance(item, Refer)]
    assert "house.plies" in keys
    assert "house.plies" not in [item.key for item in items(made().sheet) if isinstance(item, Refer)]


def test_a_dropped_beam_keeps_its_question() -> None:
    """Its loads come from above: nails named for it are not checked, and the sheet says so."""
    found = made(('position = "flush"', 'position = "dropped"'))
    assert not [item for item in items(found.sheet) if isinstance(item, Check) and item.key.startswith("flush")]
    assert "house.plies" in [item.key for item in items(found.sheet) if isinstance(item, Refer)]
    assert any(isinstance(item, Note) and "between the plies" in item.text for item in items(found.sheet))


def test_one_piece_has_nothing_to_join() -> None:
    """Fasteners in a beam of one ply are a mistake, told with its place."""
    with pytest.raises(InputError, match="nothing to join") as error:
        made(("3-ply 2x12 Douglas Fir-Larch No.2", "6x12 Douglas Fir-Larch No.1"))
    assert error.value.faults[0].where == "beam.plies_joined_by"


def test_every_species_has_a_specific_gravity_of_its_own() -> None:
    """None borrows the weight of the heaviest wood, by which dowels would bear too well."""
    weighed = {row.text("material") for row in tables.load("practice/densities").rows if row.has("G")}
    for table in ("nds_2018/sawn_4a", "nds_2018/sawn_4b", "nds_2018/timber_4d"):
        assert {row.text("species") for row in tables.load(table).rows} <= weighed
    for text, G in (("2-ply 1-3/4x14 LVL", 0.5), ("2-ply 2x10 Hem-Fir No.2", 0.43), ("3-1/2x12 glulam 24F-V4", 0.5)):
        assert specific_gravity(read_member(text, "x")).number == G
