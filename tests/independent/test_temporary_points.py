"""Point loads over a temporary wall, and two sides under different loads: by hand (NDS 2018) and by the second road."""

import sys
import tomllib
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest

from beamcheck.catalogue.reading import read_member
from beamcheck.checks.post import AxialCase
from beamcheck.checks.shoring import StudWall, check_plate, check_studs
from beamcheck.checks.shoring_loads import TemporaryWall
from beamcheck.checks.shoring_points import spots
from beamcheck.standards import shoring
from beamcheck.study.chain import study
from beamcheck.study.types import Link
from beamcheck.survey.reader import VARIANT, from_document
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import Source
from beamcheck.trace import Check, Refer, Value, items, taken

sys.path.insert(0, str(Path(__file__).parent))

from second_road.temporary import utilisations

DEMO = (files("beamcheck.survey") / "demo.toml").read_text("utf-8")


def figure(name: str, number: float, unit: str) -> Value:
    """A figure for a test."""
    return taken(name, number, "a figure for a test", unit=unit)


def point(pounds: float, inches: float, load_type: str = "D", name: str = "strut") -> Source:
    """A point load at a station."""
    return Source("c", name, load_type, P=figure("P_t", pounds, "lb"), station=figure("x", inches, "in"))


def wall(*points: Source) -> TemporaryWall:
    """A temporary wall with point loads and nothing else."""
    return TemporaryWall("A", figure("a", 30.0, "in"), figure("k", 1.2, "1"), (), points)


DEAD = combinations("asce7_16", frozenset("D"))[:1]


def gathered(*points: Source, apart: float = 16.0) -> list[float]:
    """Dead load of each spot, lb."""
    nothing = AxialCase(figure("P_s", 0.0, "lb"), figure("C_D", 0.9, "1"), "D")
    found = spots(wall(*points), DEAD, figure("s", apart, "in"))
    return [float(spot.under((nothing,))[0].P.number) for spot in found]


def test_points_closer_than_the_studs_come_to_one_of_them() -> None:
    """Of loads 10 in apart one stud at 16 in may take all; loads 16 in apart stand over two studs."""
    assert gathered(point(500.0, 40.0)) == [500.0]
    assert gathered(point(500.0, 40.0), point(300.0, 50.0)) == [800.0]
    assert gathered(point(500.0, 40.0), point(300.0, 56.0)) == [500.0, 300.0]
    assert gathered(point(500.0, 40.0), point(300.0, 50.0), point(200.0, 60.0)) == [800.0, 500.0]
    assert gathered(point(300.0, 56.0), point(500.0, 40.0), apart=24.0) == [800.0]


@pytest.mark.parametrize("stations", [(0.0, 9.0), (0.0, 15.9), (0.0, 7.0, 15.0), (0.0, 10.0, 20.0), (3.0, 30.0)])
def test_no_stud_takes_more_than_its_spot(stations: tuple[float, ...]) -> None:
    """Wherever studs at 16 in are set, the lever rule between two of them gives none more than the greatest spot."""
    most = max(gathered(*(point(100.0, at) for at in stations)))
    for tenth in range(600):
        stud = tenth / 10 - 16
        assert sum(100 * max(0.0, 1 - abs(at - stud) / 16) for at in stations) <= most + 1e-9


def test_each_combination_counts_the_kinds_that_it_holds() -> None:
    """752 lb dead and 405 lb roof live over 233 lb dead: 985 lb of D, 1,390 lb of D + Lr, with its own C_D."""
    chosen = [one for one in combinations("asce7_16", frozenset({"D", "Lr"})) if one.name in ("D", "D + Lr")]
    (spot,) = spots(wall(point(752.0, 62.0), point(405.0, 62.0, "Lr")), tuple(chosen), figure("s", 16.0, "in"))
    cases = tuple(AxialCase(figure("P_s", 233.0, "lb"), one.C_D, one.name) for one in chosen)
    found = {case.when: (float(case.P.number), float(case.C_D.number)) for case in spot.under(cases)}
    assert found == {"D": (pytest.approx(985.0), 0.9), "D + Lr": (pytest.approx(1390.0), 1.25)}
    assert shoring.added_points.fn(700.0, 52.0) == 752.0
    assert shoring.load_under_points.fn(387.0, 1.0, 752.0, 1.0, 0.0, 0.75, 400.0, 0.0, 999.0) == pytest.approx(1439.0)


def demo_wall() -> StudWall:
    """The demonstration's wall on side A under D + L: 290.3 plf, and 752 lb dead at one point."""
    chosen = tuple(one for one in combinations("asce7_16", frozenset("DL")) if one.name == "D + L")
    return StudWall(
        cases=(AxialCase(figure("w_c", 387.0 * 12 / 16, "plf"), figure("C_D", 1.0, "1"), "D + L"),),
        height=figure("h", 97.5, "in"),
        stud=read_member("2x4 Spruce-Pine-Fir Stud", "temporary.stud"),
        stud_spacing=figure("s_o", 16.0, "in"),
        rail=True,
        plate=read_member("2-ply 2x4 Spruce-Pine-Fir No.2", "temporary.top_plate"),
        soft=figure("F_c_perp", 335.0, "psi"),
        joist_spacing=figure("s_o", 16.0, "in"),
        joist_breadth=figure("b", 1.625, "in"),
        under_joists=False,
        spots=spots(wall(point(752.0, 62.0)), chosen, figure("s", 16.0, "in")),
    )


def test_the_stud_under_a_point_load_takes_the_whole_of_it() -> None:
    """387 + 752 = 1,139 lb on a 2x4 Stud, f_c 217 psi, held at half of 97.5 in: 1.43 by Eq. 15.4-1 with e = d/6.

    F_cE = 0.822 x 440,000/32.5^2; F_c* = 725 x 1.05; F_b' = 675 x 1.1.
    """
    found = {item.key: item for item in check_studs(demo_wall()) if isinstance(item, Check)}
    f_c, F_cE, star = 1139 / 5.25, 0.822 * 440_000 / 32.5**2, 725 * 1.05
    half = (1 + F_cE / star) / 1.6
    F_c_adj = star * (half - (half**2 - F_cE / star / 0.8) ** 0.5)
    by_hand = (f_c / F_c_adj) ** 2 + f_c * (1 + 0.234 * f_c / F_cE) / (675 * 1.1 * (1 - f_c / F_cE))
    assert by_hand == pytest.approx(1.43, abs=0.005)
    check = found["temporary.point_stud.eccentric"]
    assert float(check.ratio) == pytest.approx(by_hand, rel=1e-6)
    assert check.title == "Stud with its load off centre, along the wall, under a point load"
    column = found["temporary.point_stud.column"]
    assert (column.demand.number, column.limit.number) == (pytest.approx(f_c), pytest.approx(F_c_adj))
    assert found["temporary.stud_between.eccentric"].ratio == pytest.approx(0.20, abs=0.01)
    assert "temporary.point_stud.slenderness_along" not in found


def test_the_plate_under_a_point_load_takes_the_whole_of_it() -> None:
    """1,139 lb in the middle of 16 in on two flat 2x4: P s/4 / (2 x 3.5 x 1.5^2/6) over 875 x 1.5, and 1.5 V/A."""
    found = {item.key: item for item in check_plate(demo_wall()) if isinstance(item, Check)}
    bending, shear, crush = (found[f"temporary.point_plate_{what}"] for what in ("bending", "shear", "crushing"))
    assert float(bending.ratio) == pytest.approx(1139 * 16 / 4 / 2.625 / (875 * 1.5))
    assert float(shear.ratio) == pytest.approx(1.5 * 1139 / 10.5 / 135)
    assert float(crush.ratio) == pytest.approx(1139 / (1.625 * 3.5) / 335)
    assert found["temporary.plate_bending"].demand.number == pytest.approx(387 * 16 / 4 / 2.625)


def document() -> dict[str, Any]:
    """The demonstration survey without its variant, to be changed."""
    return {key: part for key, part in tomllib.loads(DEMO).items() if key != VARIANT}


def temporary(changed: dict[str, Any]) -> Link:
    """The link of the temporary support of a survey."""
    made = study(from_document(changed, "0" * 64, "demo.toml"))
    return next(link for link in made.links if link.key == "temporary")


def ratios(link: Link) -> dict[str, float]:
    """Utilisations of a link by key."""
    return {item.key: float(item.ratio) for item in items(link.sheet) if isinstance(item, Check)}


def strut(area: str) -> dict[str, Any]:
    """The demonstration with another area under the strut."""
    changed = document()
    changed["carried"][2]["area"] = area
    return changed


def test_a_link_is_not_within_over_a_point_load_that_nothing_takes() -> None:
    """A strut makes the link over, a larger one worse; without it no stud stands under a point."""
    word, most = [], []
    for changed in (strut("46 ft^2"), strut("246 ft^2")):
        link = temporary(changed)
        word.append(link.word)
        most.append(max(ratios(link).values()))
    assert word == ["over", "over"]
    assert 2 < most[0] < 3 < most[1]
    plain = document()
    del plain["carried"][2]
    link = temporary(plain)
    assert link.word == "within"
    assert not [key for key in ratios(link) if "point" in key]


def test_a_temporary_post_is_shown_with_the_point_load_over_it() -> None:
    """Posts at 4 ft: 290.3 x 4 lb of D + L; with the strut (174.8 + 0.75 x 115.4) x 4 + 752 + 0.75 x 405 lb."""
    changed = document()
    del changed["temporary"]["stud"]
    changed["temporary"]["post_spacing"] = "4 ft"
    told = {item.title: float(item.number) for item in temporary(changed).sheet.items if isinstance(item, Value)}
    factor = 12.25 / 9.75
    dead = (20 * 12.25 / 2 + 8 * 50 / 12 / 2) * factor
    assert told["load of one temporary post on side A"] == pytest.approx(4 * (dead + 15 * 12.25 / 2 * factor))
    with_strut = told["load of one temporary post on side A under roof strut from the purlin"]
    assert with_strut == pytest.approx(4 * (dead + 0.75 * 15 * 12.25 / 2 * factor) + 752 + 0.75 * 405, abs=1.0)


def two_sides() -> dict[str, Any]:
    """12 ft of floor on side A, 10 psf dead and 40 psf live; 12 ft of ceiling on side B, 49 psf dead alone."""
    changed = document()
    usual = {"continuity": "lapped", "spacing": "16 in"}
    floor = {"name": "floor", "kind": "floor", "span_a": "12 ft", "span_b": "0 ft", "use": "other rooms"}
    ceiling = {"name": "attic", "kind": "ceiling", "span_a": "0 ft", "span_b": "12 ft"}
    changed["carried"] = [
        {**floor, **usual, "dead": "10 psf", "live": "40 psf"},
        {**ceiling, **usual, "dead": "49 psf", "live": "0 psf", "use": "attic without storage"},
    ]
    for key in ("rooms_above", "live", "wall_line_loads"):
        del changed["temporary"][key]
    return changed


def test_the_side_with_less_load_may_govern() -> None:
    """50 x 6 x 12/9.5 = 378.9 plf of D + L at C_D 1.0 on A, 49 x 6 x 12/9.5 = 371.4 plf of D at C_D 0.9 on B.

    Side B governs. Top plate bending: 371.4 x 16/12 x 16/4/2.625 over 875 x 1.5 x 0.9; crushing has no C_D: side A.
    """
    found = {item.key: item for item in items(temporary(two_sides()).sheet) if isinstance(item, Check)}
    a, b = 50 * 6 * 12 / 9.5 * 16 / 12, 49 * 6 * 12 / 9.5 * 16 / 12
    bending = found["temporary.plate_bending"]
    assert float(bending.ratio) == pytest.approx(b * 16 / 4 / 2.625 / (875 * 1.5 * 0.9))
    assert float(bending.ratio) > a * 16 / 4 / 2.625 / (875 * 1.5)
    assert bending.when == "D, side B"
    crushing = found["temporary.plate_crushing"]
    assert float(crushing.ratio) == pytest.approx(a / (1.625 * 3.5) / 335)
    assert crushing.when == "D + L, side A"


def railless() -> dict[str, Any]:
    """No rail, a stud under each joist, snow counted, and a second strut 10 in from the first."""
    changed = document()
    changed["temporary"] |= {"rail": "no", "studs_under_joists": "yes", "snow": "counted"}
    changed["wall"]["ceiling_height"] = "6 ft"
    changed["carried"].append({**changed["carried"][2], "name": "second strut", "station": "6 ft", "area": "20 ft^2"})
    return changed


def packed(pack: str) -> dict[str, Any]:
    """The demonstration with a pack of studs right under the strut."""
    changed = document()
    changed["temporary"]["point_stud"] = pack
    return changed


def test_a_pack_under_the_point_load_takes_it() -> None:
    """Three 2x4 under 1,417 lb of D + Lr: 90 psi, and no plate bends between studs.

    Six plies are beyond the rules of built-up columns (NDS 15.3.1), and asked about.
    """
    link = temporary(packed("3-ply 2x4 Spruce-Pine-Fir Stud"))
    found = {item.key: item for item in items(link.sheet) if isinstance(item, Check)}
    assert found["temporary.point_stud.column"].demand.number == pytest.approx(1417.44 / 15.75, abs=0.01)
    assert not found.keys() & {"temporary.point_plate_bending", "temporary.point_plate_shear"}
    assert link.word == "within"
    sheet = temporary(packed("6-ply 2x4 Spruce-Pine-Fir Stud")).sheet
    assert "temporary.point_stud.column" in {stop.key for stop in items(sheet) if isinstance(stop, Refer)}


SURVEYS = {
    "pack": packed("3-ply 2x4 Spruce-Pine-Fir Stud"),
    "pack of 4x4": packed("4x4 Hem-Fir No.2"),
    "demo": document(),
    "larger strut": strut("146 ft^2"),
    "sides": two_sides(),
    "no rail": railless(),
}


@pytest.mark.parametrize("name", SURVEYS)
def test_both_roads_give_the_same_temporary_walls(name: str) -> None:
    """Every utilisation of the temporary walls, worked out anew without the program's code, is the program's."""
    ours, theirs = ratios(temporary(SURVEYS[name])), utilisations(SURVEYS[name])
    assert ours.keys() == theirs.keys()
    for key, ratio in ours.items():
        assert min(ratio, 999.0) == pytest.approx(min(theirs[key], 999.0), rel=1e-6), key


def test_the_question_about_points_says_what_was_done_with_them() -> None:
    """The question stays, and tells that one stud was given the whole of the load."""
    stops = {item.key: item for item in items(temporary(document()).sheet) if isinstance(item, Refer)}
    assert "the whole of it is put on one of them" in stops["temporary.points"].why


def test_figures_of_the_hand_calculation() -> None:
    """What docs/explain/hand-room.md comes to by hand under the roof strut is what the study shows."""
    found = {item.key: item for item in items(temporary(document()).sheet) if isinstance(item, Check)}
    column, off_centre = (found[f"temporary.point_stud.{what}"] for what in ("column", "eccentric"))
    assert (round(column.demand.number), round(column.limit.number)) == (270, 312)
    assert round(column.demand.number * 5.25) == 1417
    assert round(off_centre.demand.number, 2) == 2.38
    assert off_centre.when == "D + Lr, side B"
