"""What the second road found, as the smallest surveys that showed it: both roads agree, and the law behind it holds."""

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from two_roads import compare

from beamcheck.catalogue.reading import read_member
from beamcheck.study.chain import study
from beamcheck.survey.reader import read_text
from beamcheck.trace import Schedule, items

HEAD = """
[study]
title = "a test"
[site]
ground_snow = "30 psf"
[wall]
clear_opening = "{opening}"
ceiling_height = "8 ft"
"""
BEAM = """
[beam]
member = "{member}"
position = "dropped"
top_edge = "held"
"""
POST = """
[[post]]
member = "{member}"
seat = "cap"
stands_on = "pad"
"""
FLOOR = """
[[carried]]
name = "floor"
kind = "floor"
span_a = "12 ft"
span_b = "12 ft"
continuity = "lapped"
dead = "12 psf"
"""


def ratios(
    *more: str, member: str = "3-ply 2x12 Hem-Fir No.2", beam: str = "", post: str = "6x6 Hem-Fir No.1", opening="12 ft"
):
    """Utilisations of a small house by key; raises where the two roads differ."""
    carried = [text for text in more if "[[carried]]" in text] or [FLOOR]
    others = [text for text in more if "[[carried]]" not in text]
    posts = others or [POST.format(member=post), POST.format(member=post)]
    text = HEAD.format(opening=opening) + "".join(carried) + BEAM.format(member=member) + beam + "".join(posts)
    found = compare(text)
    assert not found.refused
    assert found.different == {}
    return {key: ours for key, (ours, _) in found.pairs.items()}


def inner(station: str, member: str = "6x6 Hem-Fir No.1") -> str:
    """A post between the ends."""
    return POST.format(member=member) + f'station = "{station}"\n'


END = POST.format(member="6x6 Hem-Fir No.1")
PAD = '\n[[pad]]\nunder = "post {}"\nstate = "{}"\n'
SIZES = 'length = "24 in"\nbreadth = "24 in"\nthickness = "12 in"\n'


def test_a_post_that_is_only_lifted_presses_on_nothing() -> None:
    """Beside a long span a short one lifts its end: no push, and no pad whose soil is used less than not at all."""
    point = '\n[[carried]]\nname = "stack"\nkind = "point"\nstation = "10 ft"\ndead_load = "4000 lb"\n'
    found = ratios(point, END, inner("2 ft"), END, PAD.format(1, "existing"), SIZES, opening="18 ft")
    assert found["beam.bearing[1]"] == 0.0
    assert found["post[1].column"] == 0.0
    assert 0.0 < found["pad[1].soil"] < 0.2
    assert min(found.values()) >= 0.0


def test_a_pad_is_sized_for_a_post_that_is_only_lifted() -> None:
    """Its own weight is all that such a post brings down, and a pad can be made for that."""
    point = '\n[[carried]]\nname = "stack"\nkind = "point"\nstation = "10 ft"\ndead_load = "4000 lb"\n'
    found = ratios(point, END, inner("2 ft"), END, PAD.format(1, "new"), opening="18 ft")
    assert "pad[1].flexure" in found


def test_a_lifted_post_takes_no_load_off_a_girder() -> None:
    """A girder under a post that pulls up is no less loaded than without that post."""
    point = '\n[[carried]]\nname = "stack"\nkind = "point"\nstation = "10 ft"\ndead_load = "4000 lb"\n'
    girder = """
[[girder]]
name = "cellar girder"
member = "6x10 Hem-Fir No.1"
supports = "0 ft, 9 ft"
posts = "post 1"
post_stations = "4 ft"
span_a = "6 ft"
span_b = "6 ft"
"""
    lifted = END.replace('"pad"', '"girder"')
    pulled = ratios(point, lifted, inner("2 ft"), END, girder, opening="18 ft")
    far = ratios(point, lifted, inner("2 ft"), END, girder.replace('"4 ft"', '"0 ft"'), opening="18 ft")
    assert pulled["girder[1].bending_sagging"] >= far["girder[1].bending_sagging"]


def test_a_roof_over_part_of_the_beam_is_reduced_for_its_own_area_only() -> None:
    """Roof live load goes by half of the area that comes down: 20 psf over 8 ft of 20 ft, less over the whole of it."""
    roof = '\n[[carried]]\nname = "roof"\nkind = "roof"\nspan_a = "40 ft"\nspan_b = "40 ft"\npitch = "3:12"\n'
    found = {}
    for extent in ("", 'from = "1 ft"\nto = "9 ft"\n', 'to = "8 ft"\n', 'from = "12 ft"\n'):
        ratios(roof + extent, opening="20 ft")
        text = HEAD.format(opening="20 ft") + roof + extent + BEAM.format(member="2x12 Hem-Fir No.2") + END + END
        table = next(item for item in items(study(read_text(text.encode())).sheet) if isinstance(item, Schedule))
        plf = table.heads.index("plf or lb")
        found[extent] = next(row[plf].number for row in table.rows if "roof live" in row)
    whole, *parts = found.values()
    assert whole == pytest.approx(20 * 40 * (1.2 - 0.001 * 40 * (240 + 5.5) / 12 / 2))
    assert parts == [pytest.approx(20 * 40)] * 3


def test_load_on_a_part_is_no_uniform_load() -> None:
    """The table's line for a uniform load is for one over the whole span: over a part the unlisted case stands."""
    line = '\n[[carried]]\nname = "line"\nkind = "line"\ndead_line = "100 plf"\n'
    whole, part = (
        compare(
            HEAD.format(opening="16 ft")
            + text
            + BEAM.format(member="2x10 Hem-Fir No.2").replace('"held"', '"not held"')
            + END
            + END
        )
        for text in (line, line + 'from = "1 ft"\n')
    )
    key = "beam.slenderness_sagging"
    assert whole.different == part.different == {}
    assert part.pairs[key][0] > whole.pairs[key][0]


def test_an_overhang_longer_than_its_span_sets_the_free_length_below() -> None:
    """Over a support the bottom edge of an overhang is held by nothing up to its end."""
    found = ratios(beam='overhang_right = "8 ft"\n', member="2x12 Hem-Fir No.2", opening="5 ft")
    l_e = 1.63 * 96 + 3 * 11.25
    assert found["beam.slenderness_hogging"] == pytest.approx((l_e * 11.25 / 1.5**2) ** 0.5 / 50)


def test_sharing_asked_for_the_beam_is_not_counted_on_its_posts() -> None:
    """The factor for repetitive members is asked for under [beam], and posts keep their own value."""
    post = "3-ply 2x6 Hem-Fir No.2"
    with_it, without = (ratios(beam=f'plies_share = "{word}"\n', post=post) for word in ("yes", "no"))
    assert with_it["beam.bending_sagging"] < without["beam.bending_sagging"]
    assert with_it["post[1].eccentric"] == without["post[1].eccentric"]


def test_loose_plies_buckle_sideways_each_by_itself_in_bending_too() -> None:
    """Plies that nothing joins have the slenderness of one ply when the load bends them, not of all together."""
    loose = POST.format(member="3-ply 2x8 Hem-Fir No.2") + 'fastening = "{}"\nheld = "free"\n'
    apart, joined = (ratios(loose.format(how), loose.format(how)) for how in ("not fastened", "nailed"))
    assert apart["post[1].eccentric"] > joined["post[1].eccentric"]


@pytest.mark.parametrize("post", ["6x10 Hem-Fir No.1", "5-1/8x9 glulam 24F-V4", "3-1/2x7 LVL 2.0E-2900F"])
def test_posts_bent_about_their_weak_axis_have_its_value(post: str) -> None:
    """Wide timbers and glulam have a lower bending value about the weak axis, and composites no rise for depth."""
    free = POST.format(member=post) + 'held = "free"\neccentricity = "2 in"\n'
    wall = free.replace('"free"', '"in wall"')
    assert ratios(free, free)["post[1].eccentric"] > ratios(wall, wall)["post[1].eccentric"]


def test_a_glulam_without_a_weak_axis_is_a_stop_where_it_may_bend_so() -> None:
    """A stock header has no value about its weak axis: free to bend both ways it is not judged."""
    free = POST.format(member="3-1/2x9 glulam 24F-1.8E header") + 'held = "free"\n'
    assert "post[1].eccentric" not in ratios(free, free)
    wall = free.replace('"free"', '"in wall"')
    assert "post[1].eccentric" in ratios(wall, wall)


def test_where_it_is_wet_the_plates_are_wet_too() -> None:
    """Plates under a wet post have the wet factor across the grain, 0.67 of lumber."""
    wet, dry = (ratios(beam=f'moisture = "{word}"\n', post="6x6 Southern Pine No.1") for word in ("wet", "dry"))
    assert wet["post[1].plate"] == pytest.approx(dry["post[1].plate"] / 0.67)


@pytest.mark.parametrize(("size", "kind"), [("full 6x8", "6x6"), ("full 8x10", "8x8")])
def test_a_rough_timber_two_inches_wider_than_thick_is_a_post(size: str, kind: str) -> None:
    """Beams and Stringers are more than 2 in wider than thick: a rough 6x8 has the values of a 6x6."""
    rough, square = (read_member(f"{name} Douglas Fir-Larch No.1", "x") for name in (size, kind))
    assert {name: rough[name].number for name in ("F_b", "F_c")} == {
        name: square[name].number for name in ("F_b", "F_c")
    }
    ratios(post=f"{size} Douglas Fir-Larch No.1")


def test_a_load_that_presses_up_moves_the_greatest_shear_off_the_supports() -> None:
    """Between a load down and a load up the shear may be greater than on any support, and is counted there."""
    loads = "".join(
        f'\n[[carried]]\nname = "{way}"\nkind = "point"\nstation = "{at}"\ndead_load = "{size}"\n'
        for way, at, size in (("down", "4 ft", "3000 lb"), ("up", "8 ft", "-3000 lb"))
    )
    up, half = ratios(loads), ratios(loads.replace("3000", "1500"))
    assert up["beam.shear"] > 1.9 * half["beam.shear"]


def test_glulam_plies_have_the_volume_factor_of_one_piece() -> None:
    """The factor goes by the widest piece (5.3.6): two plies bend as two single ones do."""
    one, two = (ratios(member=f"{plies}3-1/2x18 glulam 24F-V4") for plies in ("", "2-ply "))
    weight = 0.03  # what the second ply's own weight adds at most
    assert 0.5 * one["beam.bending_sagging"] == pytest.approx(two["beam.bending_sagging"], rel=weight)


def test_shear_bends_a_span_by_its_own_moment_whatever_its_neighbours_do() -> None:
    """A middle span of composite lumber goes down by shear as if it stood alone."""
    posts = (END, inner("5 ft"), inner("10 ft"), END)
    found = ratios(*posts, member="2-ply 1-3/4x14 LVL 2.0E-2900F", opening="15 ft")
    w, l, b, d, E = 40 * 12 / 12, 60.0, 3.5, 14.0, 2.0e6
    by_shear = 1.2 * (w * l**2 / 8) / (E / 16 * b * d)
    assert found["beam.deflection_live_L360"] * l / 360 > by_shear


def test_a_point_load_beside_a_support_only_helps_against_shear_the_other_way() -> None:
    """Far loads that pull the shear of a face the other way are not added to the near load's share."""
    loads = """
[[carried]]
name = "near"
kind = "point"
station = "25 in"
snow_load = "3000 lb"
[[carried]]
name = "far"
kind = "line"
snow_line = "400 plf"
"""
    posts = (END, inner("44 in"), inner("84 in"), END)
    asked = {"member": "2x8 Hem-Fir No.2", "beam": 'overhang_left = "3 ft"\n', "opening": "10 ft"}
    dropped = ratios(loads, *posts, **asked)
    flush = compare(
        HEAD.format(opening="10 ft")
        + loads
        + BEAM.format(member="2x8 Hem-Fir No.2").replace("dropped", "flush")
        + asked["beam"]
        + "".join(posts)
    )
    assert flush.different == {}
    assert dropped["beam.shear"] <= flush.pairs["beam.shear"][0]


def test_an_entry_told_to_be_unknown_needs_no_row_of_its_own() -> None:
    """A fastener that nobody knows is a fastener that was not named."""
    post = POST.format(member="3-ply 2x6 Hem-Fir No.2") + 'held = "free"\nfastening = "nailed"\nfastener = "unknown"\n'
    assert "post[1].nail" not in ratios(post, post)


def test_of_patterns_that_bend_an_overhang_alike_the_longest_reach_counts() -> None:
    """Live load on the far overhang leaves the near one's moment as it is, but lets the whole beam hog.

    The volume factor of glulam goes by the length between points of zero moment: here that of the whole beam, 48 in and
    47 in out over a span of 20 ft 5.5 in, under 3 psf dead and 40 psf live on 12 ft.
    """
    out = 'overhang_left = "48 in"\noverhang_right = "47 in"\n'
    light = FLOOR.replace("12 psf", "3 psf")
    found = ratios(light, member="6-3/4x13.5 glulam 24F-V3", beam=out, opening="20 ft")
    b, d, length = 6.75, 13.5, 48 + 245.5 + 47
    w = (43 * 12 + 40 * b * d / 144) / 12
    C_V = (21 * 12 / length * 12 / d * 5.125 / b) ** (1 / 20)  # Southern Pine
    F_b = read_member("6-3/4x13.5 glulam 24F-V3", "beam.member")["F_b_neg"].to("psi")
    assert found["beam.bending_hogging"] == pytest.approx(w * 48**2 / 2 / (b * d**2 / 6) / (F_b * C_V))
