"""Studs and top plates of temporary walls, and what stands on the old wall, by sums on paper (NDS 2018)."""

import math

import pytest

from beamcheck.catalogue.reading import read_member
from beamcheck.checks.line_loads import line_cases
from beamcheck.checks.post import AxialCase
from beamcheck.checks.shoring import (
    StudWall,
    check_plate,
    check_reach,
    check_studs,
    greatest,
    softest,
    types_present,
)
from beamcheck.checks.shoring_loads import TemporaryWall, Work, counted_live, temporary_walls
from beamcheck.survey.around import Temporary
from beamcheck.survey.model import Carried, Site
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import Reach, Source
from beamcheck.trace import Check, Value, taken


def figure(name: str, number: float, unit: str) -> Value:
    """A figure for a test."""
    return taken(name, number, "a figure for a test", unit=unit)


SITE = Site("ASCE 7-16", None, "sheltered B", "unheated", "other", figure("q_allow", 1500.0, "psf"))
ENDS = figure("x_a", 0.0, "in"), figure("x_b", 160.0, "in")
REACH = Reach(figure("l", 160.0, "in"), ENDS[0], (ENDS,))


def carried(kind: str, **told: object) -> Carried:
    """One carried item, all that is not told left out."""
    nothing = dict.fromkeys(Carried.__dataclass_fields__)
    return Carried(**{**nothing, "where": "carried[1]", "name": kind, "kind": kind, **told})


def joists(feet: float, kind: str = "floor") -> Carried:
    """Lapped joists of one span on both sides, 12 psf."""
    span = {"span_a": figure("s_a", feet * 12, "in"), "span_b": figure("s_b", feet * 12, "in")}
    return carried(kind, use="other rooms", continuity="lapped", dead=figure("q_D", 12.0, "psf"), **span)


def support(**told: object) -> Temporary:
    """Temporary walls 2 ft off on both sides, in use above, snow counted, what stands on the old wall shared."""
    blank = dict.fromkeys(Temporary.__dataclass_fields__)
    two = figure("a_set", 24.0, "in")
    usual = {"sides": "both", "set_back_a": two, "set_back_b": two, "rooms_above": "in use", "snow": "counted"}
    return Temporary(**{**blank, **usual, "wall_line_loads": "shared", **told})


def walls(temporary: Temporary, *items: Carried) -> tuple[TemporaryWall, ...]:
    """The temporary walls under these items."""
    return temporary_walls(Work(items, SITE, temporary, REACH))


def lines(wall: TemporaryWall, name: str) -> list[float]:
    """The rows of one item, plf."""
    return [float(row.w.number) for row in wall.rows if row.name == name and row.w is not None]


@pytest.mark.parametrize(
    ("told", "share"),
    [
        ({}, 0.5),
        ({"sides": "A"}, 1.0),
        ({"wall_line_loads": "each"}, 1.0),
        ({"sides": "A", "wall_line_loads": "each"}, 1),
    ],
)
def test_what_stands_on_the_old_wall_is_shared_only_by_two(told: dict[str, object], share: float) -> None:
    """A wall of 80 plf and a post of 1,000 lb hang on 12 ft joists 2 ft out: 12/10 of them, half each where shared."""
    above = carried("wall above", weight=figure("q_w", 10.0, "psf"), height=figure("h_w", 96.0, "in"))
    post = carried("point", dead_load=figure("P_D", 1000.0, "lb"), station=figure("x", 30.0, "in"))
    for wall in walls(support(**told), joists(12.0), above, post):
        assert lines(wall, "wall above") == [pytest.approx(80 * 1.2 * share)]
        (point,) = wall.points
        assert point.P is not None and point.station is not None
        assert point.P.number == pytest.approx(1000 * 1.2 * share)
        assert (point.load_type, point.station.number) == ("D", 30.0)


def test_the_shortest_joists_hang_out_the_farthest() -> None:
    """Beside 12 ft and 10 ft joists what stands on the old wall is counted 10/8 times, each floor by its own span."""
    above = carried("line", dead_line=figure("w_D", 100.0, "plf"))
    for wall in walls(support(), joists(12.0), joists(10.0, "ceiling"), above):
        assert lines(wall, "line") == [pytest.approx(100 * 0.5 * 10 / 8)]
        assert lines(wall, "floor")[0] == pytest.approx(12 * 6 * 12 / 10)
        assert lines(wall, "ceiling")[0] == pytest.approx(12 * 5 * 10 / 8)


@pytest.mark.parametrize(("snow", "rows"), [("counted", 1), ("out of season", 0)])
def test_snow_is_left_out_where_there_is_none(snow: str, rows: int) -> None:
    """Work out of season leaves the snow out and nothing else."""
    above = carried("line", snow_line=figure("w_S", 100.0, "plf"))
    for wall in walls(support(snow=snow), joists(12.0), above):
        assert lines(wall, "line") == [pytest.approx(60.0)] * rows
        assert len(lines(wall, "floor")) == 2
    found = types_present(walls(support(snow=snow), joists(12.0), above))
    assert found == ({"D", "L", "S"} if rows else {"D", "L"})


@pytest.mark.parametrize(
    ("kind", "rooms", "live", "counted"),
    [
        ("floor", "empty", 10.0, 10.0),
        ("floor", "empty", None, 40.0),
        ("floor", "in use", 10.0, 40.0),
        ("ceiling", "empty", 10.0, 40.0),
    ],
)
def test_only_an_emptied_floor_counts_less(kind: str, rooms: str, live: float | None, counted: float) -> None:
    """The owner's lower live load holds for floors whose rooms are emptied; else the table's 40 psf (IRC R301.5)."""
    reduced = None if live is None else figure("q_L", live, "psf")
    item = joists(12.0, kind)
    work = Work((item,), SITE, support(rooms_above=rooms, live=reduced), REACH)
    assert counted_live(work, item).number == counted


def test_each_combination_sums_its_own_types() -> None:
    """D 100, L 200, S 80 plf: D 100, D + L 300, D + S 180, D + 0.75 L + 0.75 S 310; the greatest of them governs."""
    loads = {"D": 60.0, "L": 200.0, "S": 80.0}
    rows = [Source("c", "c", name, w=figure("w", w, "plf")) for name, w in loads.items()]
    rows.append(Source("c", "more", "D", w=figure("w", 40.0, "plf")))
    wall = TemporaryWall("A", figure("a", 24.0, "in"), figure("k", 1.2, "1"), tuple(rows), ())
    found = line_cases(wall, combinations("asce7_16", frozenset("DLS")))
    by_name = {case.when: (float(case.P.number), float(case.C_D.number)) for case in found}
    assert by_name["D"] == (pytest.approx(100.0), 0.9)
    assert by_name["D + L"] == (pytest.approx(300.0), 1.0)
    assert by_name["D + S"] == (pytest.approx(180.0), 1.15)
    assert by_name["D + 0.75 L + 0.75 S"] == (pytest.approx(310.0), 1.15)
    assert greatest(found).number == pytest.approx(310.0)


def test_a_load_that_is_not_there_adds_nothing() -> None:
    """On a wall of 100 plf dead load alone every combination puts its share of that and no more."""
    rows = (Source("c", "c", "D", w=figure("w", 100.0, "plf")),)
    wall = TemporaryWall("A", figure("a", 24.0, "in"), figure("k", 1.2, "1"), rows, ())
    found = line_cases(wall, combinations("asce7_16", frozenset({"D", "L", "Lr", "S"})))
    assert {float(case.P.number) for case in found} <= {100.0, 60.0}
    assert len(found) > 4


STUD = read_member("2x4 Douglas Fir-Larch No.2", "temporary.stud")
PLATE = read_member("2-ply 2x4 Douglas Fir-Larch No.2", "temporary.top_plate")


def stud_wall(*, rail: bool = True, under_joists: bool = False) -> StudWall:
    """Studs at 24 in under joists at 16 in, 480 plf of D and 600 plf of D + L."""
    return StudWall(
        cases=(
            AxialCase(figure("w_c", 480.0, "plf"), figure("C_D", 0.9, "1"), "D"),
            AxialCase(figure("w_c", 600.0, "plf"), figure("C_D", 1.25, "1"), "D + L"),
        ),
        height=figure("h", 96.0, "in"),
        stud=STUD,
        stud_spacing=figure("s_o", 24.0, "in"),
        rail=rail,
        plate=PLATE,
        soft=figure("F_c_perp", 405.0, "psi"),
        joist_spacing=figure("s_o", 16.0, "in"),
        joist_breadth=figure("b", 1.5, "in"),
        under_joists=under_joists,
    )


def test_the_plate_carries_a_joist_between_two_studs() -> None:
    """A joist in the middle of 24 in: M = P 24/4 on two flat 2x4, V = P, and P on 1-1/2 x 3-1/2 in of 405 psi."""
    found = {check.key: check for check in check_plate(stud_wall()) if isinstance(check, Check)}
    bending, shear, crush = (found[f"temporary.plate_{what}"] for what in ("bending", "shear", "crushing"))
    P = 480 * 16 / 12
    assert bending.demand.number == pytest.approx(P * 24 / 4 / (2 * 3.5 * 1.5**2 / 6))
    assert bending.limit.number == pytest.approx(900 * 0.9 * 1.5)
    assert shear.demand.number == pytest.approx(1.5 * P / (3.5 * 3.0))
    assert shear.limit.number == pytest.approx(180 * 0.9)
    assert {bending.when, shear.when} == {"D"}
    assert crush.demand.number == pytest.approx(600 * 16 / 12 / (1.5 * 3.5))
    assert (crush.limit.number, crush.when) == (405.0, "D + L")


def test_a_stud_under_each_joist_leaves_nothing_to_bend() -> None:
    """Where each joist has its stud the plate is checked for crushing alone."""
    keys = [check.key for check in check_plate(stud_wall(under_joists=True)) if isinstance(check, Check)]
    assert keys == ["temporary.plate_crushing"]


def column_stability(ratio: float, F_c_star: float) -> float:
    """C_P of sawn lumber by Eq. 3.7-1 with E_min 580,000 psi."""
    share = 0.822 * 580_000 / ratio**2 / F_c_star
    middle = (1 + share) / 1.6
    return middle - math.sqrt(middle**2 - share / 0.8)


@pytest.mark.parametrize(("rail", "ratio", "which"), [(True, 48 / 1.5, "_between"), (False, 96 / 1.5, "")])
def test_a_stud_buckles_by_its_slenderness(rail: bool, ratio: float, which: str) -> None:
    """A 2x4 of 8 ft at 24 in: 1,200 lb beside F_c* C_P, over the whole height across, over half along with a rail."""
    found = {item.key: item for item in check_studs(stud_wall(rail=rail)) if isinstance(item, Check)}
    star = 1350 * 1.15 * 1.25
    check = found[f"temporary.stud{which}.column"]
    assert (check.demand.number, check.when) == (pytest.approx(600 * 2 / (1.5 * 3.5)), "D + L")
    assert check.limit.number == pytest.approx(star * column_stability(ratio, star))
    if rail:
        whole = found["temporary.stud.column"]
        assert whole.limit.number == pytest.approx(star * column_stability(96 / 3.5, star))


def test_a_rail_halves_the_length_along_the_wall_alone() -> None:
    """With a rail at half height a stud is half as slender along the wall, as slender as without across it."""
    railed, bare = (
        {item.key: item for item in check_studs(stud_wall(rail=rail)) if isinstance(item, Check)}
        for rail in (True, False)
    )
    assert railed["temporary.stud.slenderness_across"].demand.number == pytest.approx(96 / 3.5)
    assert railed["temporary.stud_between.slenderness_along"].demand.number == pytest.approx(48 / 1.5)
    assert bare["temporary.stud.slenderness_along"].demand.number == pytest.approx(96 / 1.5)
    between = {key for key in railed if key.startswith("temporary.stud_between")}
    assert not {key for key in between if key.endswith(("slenderness_across", "end_grain"))}
    assert not {key for key in railed.keys() - between if key.endswith("along")}


def test_lapped_joists_must_reach_past_the_middle_of_the_plate() -> None:
    """A wall 30 in off with a plate 3-1/2 in broad asks 31-3/4 in of lap; 30 in of lap is over."""
    check = check_reach(figure("a_set", 30.0, "in"), PLATE.d, figure("l_lap", 30.0, "in"))
    assert check.demand.to("in") == pytest.approx(31.75)
    assert float(check.ratio) == pytest.approx(31.75 / 30)


def test_the_softest_layer_is_the_lowest_value() -> None:
    """Of 405, 625 and 565 psi the layer that crushes first has 405."""
    layers = [figure("F_c_perp", number, "psi") for number in (625.0, 405.0, 565.0)]
    assert softest(*layers).number == 405.0
