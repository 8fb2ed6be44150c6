"""Temporary support, fit and heavy things by another road: the beam solver, exact geometry, sums done in the head."""

import math
from dataclasses import replace
from statistics import NormalDist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck import tables
from beamcheck.beam.model import Line, Point, Spread
from beamcheck.beam.solver import solve
from beamcheck.catalogue.reading import read_member
from beamcheck.checks import line_loads
from beamcheck.checks.floor import Standing, check_joist
from beamcheck.checks.shoring_loads import Work, temporary_walls
from beamcheck.standards import fit, shoring, statics
from beamcheck.standards import nds_2018 as nds
from beamcheck.survey.around import Temporary
from beamcheck.survey.model import Carried, Site
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import Reach
from beamcheck.trace import Value, taken

JOISTS = [(12.0, 2.0), (12.25, 2.5), (9.0, 1.0), (15.0, 4.0)]


def figure(name: str, number: float, unit: str) -> Value:
    """A figure for a test."""
    return taken(name, number, "a figure for a test", unit=unit)


@pytest.mark.parametrize(("s", "a_set"), JOISTS)
def test_set_back_factor_is_the_solvers_overhang(s: float, a_set: float) -> None:
    """A joist that overhangs the temporary wall presses on it as the beam solver says, by spread and by end load."""
    line = Line((0.0, s - a_set), right_overhang=a_set)
    spread = solve(line, [Spread(0.0, s, 1.0, 1.0)]).reactions[1]
    tip = solve(line, [Point(s, 1.0)]).reactions[1]
    k_set = shoring.set_back_factor.fn(s, a_set)
    assert shoring.joists_of_one_side.fn(1.0, s, k_set) == pytest.approx(spread)
    assert shoring.wall_line_on_side.fn(1.0, 1.0, k_set) == pytest.approx(tip)
    assert shoring.point_on_side.fn(1.0, 1.0, k_set) == pytest.approx(tip)


def test_set_back_of_two_feet_in_twelve_is_a_fifth_more() -> None:
    """12 ft joists press 12/10 as hard on a wall 2 ft off, and a wall that takes half of the line above takes 0.6."""
    assert shoring.set_back_factor.fn(12.0, 2.0) == pytest.approx(1.2)
    assert shoring.wall_line_on_side.fn(100.0, 0.5, 1.2) == pytest.approx(60.0)


@pytest.mark.parametrize(("s", "a_set"), JOISTS)
def test_joists_that_run_past_rest_as_on_a_longer_span(s: float, a_set: float) -> None:
    """Joists of the other side that reach the only temporary wall bring half of their load over the longer span."""
    end = solve(Line((0.0, s + a_set)), [Spread(0.0, s + a_set, 1.0, 1.0)]).reactions[1]
    assert shoring.joists_of_other_side.fn(1.0, s, a_set) == pytest.approx(end)


def test_line_loads_are_summed_and_gathered() -> None:
    """Hand sum: 100 + 50 plf; D + 0.75 L + 0.75 S of 150, 80 and 40 plf is 240 plf, 320 lb on a stud at 16 in."""
    assert shoring.added.fn(100.0, 50.0) == 150.0
    w_c = shoring.combined.fn(1.0, 150.0, 0.75, 80.0, 0.0, 99.0, 0.75, 40.0)
    assert w_c == pytest.approx(240.0)
    assert shoring.load_at_spacing.fn(w_c, 16 / 12) == pytest.approx(320.0)


def test_plate_between_studs_is_a_simple_span_of_plies() -> None:
    """The moment of a joist in the middle is the solver's; two plies that slide on each other are twice one."""
    moment = solve(Line((0.0, 16.0)), [Point(8.0, 400.0)]).moment(8.0)
    assert shoring.plate_moment.fn(400.0, 16.0) == pytest.approx(moment)
    assert shoring.stacked_section_modulus.fn(2.0, 3.5, 1.5) == pytest.approx(2 * nds.section_modulus.fn(3.5, 1.5))


def test_reach_and_free_height() -> None:
    """A plate 3-1/2 in broad, its middle 30 in off, needs joists that run 31-3/4 in past; a rail halves 97 in."""
    assert 12 * shoring.reach_needed.fn(30 / 12, 3.5 / 12) == pytest.approx(31.75)
    assert shoring.height_between.fn(97.0) == 48.5


ENDS = figure("x_a", 0.0, "in"), figure("x_b", 160.0, "in")
REACH = Reach(figure("l", 160.0, "in"), ENDS[0], (ENDS,))
SITE = Site("ASCE 7-16", None, "sheltered B", "unheated", "other", figure("q_allow", 1500.0, "psf"))


def joisted(continuity: str, span_a: float = 144.0, span_b: float = 144.0) -> Carried:
    """A floor of 12 psf over the wall."""
    nothing = dict.fromkeys(Carried.__dataclass_fields__)
    told = {
        "where": "carried[1]",
        "name": "floor",
        "kind": "floor",
        "continuity": continuity,
        "use": "other rooms",
        "span_a": figure("s_a", span_a, "in"),
        "span_b": figure("s_b", span_b, "in"),
        "dead": figure("q_D", 12.0, "psf"),
    }
    return Carried(**{**nothing, **told})


def support(sides: str, set_back: float) -> Temporary:
    """Temporary walls at one distance, nothing left out."""
    nothing = dict.fromkeys(Temporary.__dataclass_fields__)
    distance = figure("a_set", set_back, "in")
    told = {"sides": sides, "set_back_a": distance, "set_back_b": distance, "rooms_above": "in use", "snow": "counted"}
    return Temporary(**{**nothing, **told})


def total(
    continuity: str, sides: str, set_back: float = 30.0, spans: tuple[float, float] = (144.0, 144.0)
) -> list[float]:
    """Dead and live load together on each temporary wall, plf."""
    work = Work((joisted(continuity, *spans),), SITE, support(sides, set_back), REACH)
    walls = temporary_walls(work)
    return [sum(row.w.number for row in wall.rows if row.w is not None) for wall in walls]


@pytest.mark.parametrize("set_back", [6.0, 24.0, 36.0])
def test_joists_in_one_piece_on_one_wall_follow_the_three_moment_factor(set_back: float) -> None:
    """One temporary wall under joists in one piece is a middle support moved: the clauses' for its spans."""
    s_a, s_b = (144.0 - set_back) / 12, (144.0 + set_back) / 12
    factor, width = statics.continuity_factor.fn(s_a, s_b), statics.tributary_width.fn(s_a, s_b)
    assert total("one piece", "A", set_back) == [pytest.approx((12 + 40) * width * factor)]


def test_lapped_joists_bring_hand_sums() -> None:
    """12 ft joists, 12 + 40 psf, walls 2 ft off: 52 x 6 x 1.2 = 374.4 plf each."""
    assert total("lapped", "both", 24.0) == [pytest.approx(374.4), pytest.approx(374.4)]


def test_unknown_continuity_is_never_the_lighter() -> None:
    """Where nobody knows how the joists pass over, each wall gets at least what either way would bring."""
    for spans in ((144.0, 144.0), (120.0, 180.0), (200.0, 96.0)):
        lapped, through, unknown = (total(way, "both", 24.0, spans) for way in ("lapped", "one piece", "unknown"))
        for side in (0, 1):
            assert unknown[side] == pytest.approx(max(lapped[side], through[side]), rel=0.2)
            assert unknown[side] >= max(lapped[side], through[side]) - 1e-9


@given(st.floats(2.0, 60.0), st.floats(0.5, 11.0), st.sampled_from(["lapped", "one piece", "unknown"]))
def test_a_wall_set_farther_back_holds_no_less_of_lapped_joists(set_back: float, more: float, way: str) -> None:
    """Moving both walls away never lightens them under lapped joists; joists in one piece press at least half."""
    near, far = total(way, "both", set_back), total(way, "both", set_back + more)
    if way == "lapped":
        assert all(after >= before for before, after in zip(near, far, strict=True))
    assert all(load > 0.5 * 52 * 6 for load in (*near, *far))


def exact_turn(w_door: float, w_turn: float, t: float) -> float:
    """Longest rectangle of thickness t that turns the corner: the least over all angles of what fits there."""
    angles = (math.radians(step / 50) for step in range(1, 90 * 50))
    return min((w_door * math.cos(a) + w_turn * math.sin(a) - t) / (math.sin(a) * math.cos(a)) for a in angles)


@pytest.mark.parametrize(("w_door", "w_turn"), [(31.0, 40.0), (30.0, 68.0), (36.0, 36.0), (27.0, 64.0)])
@pytest.mark.parametrize("t", [0.0, 1.75, 3.5, 5.5])
def test_turning_length_is_never_longer_than_exact(w_door: float, w_turn: float, t: float) -> None:
    """The closed form equals the exact answer for a thin piece and is a little short of it for a thick one."""
    found, exact = fit.turning_length.fn(w_door, w_turn, t), exact_turn(w_door, w_turn, t)
    assert found <= exact * (1 + 1e-6)
    assert found >= exact - 2.9 * t - 1e-3


@given(st.floats(0.05, 3.0), st.lists(st.floats(0.01, 0.5), min_size=5, max_size=5))
def test_chance_of_closing_is_the_normal_tail(g_left: float, parts: list[float]) -> None:
    """The chance is a normal deviate's below minus k g/t; the likely stack is a Euclidean length, below the worst."""
    t_rss = fit.likely_stack.fn(*parts)
    assert t_rss == pytest.approx(math.dist(parts, [0.0] * 5))
    assert t_rss <= fit.worst_stack.fn(*parts) + 1e-12
    assert fit.worst_stack.fn(*parts) == pytest.approx(sum(parts))
    assert fit.chance_of_closing.fn(g_left, t_rss, 2.0) == pytest.approx(
        NormalDist().cdf(-2 * g_left / t_rss), abs=1e-12
    )


def test_gaps_and_heights_by_hand() -> None:
    """1-1/4 in less 3/4 in and 1/4 in is 1/4 in; 97-1/2 in less floor, beam and board is 82-1/8 in; 1/8 in 4 ft."""
    assert fit.gap_left.fn(1.25, 0.75, 0.25) == 0.25
    assert fit.headroom.fn(97.5, 0.75, 14.0, 0.625) == 82.125
    assert fit.out_of_plumb.fn(0.125, 48.0, 96.0) == 0.25


def test_pieces_by_hand() -> None:
    """Centres 166-1/2 in apart on posts 4-1/2 and 5-1/2 in broad make 171-1/2 in; 7.2 plf over 14 ft is 100.8 lb."""
    assert fit.piece_length.fn(166.5, 4.5, 5.5) == 171.5
    assert fit.piece_weight.fn(7.2, 14.0) == pytest.approx(100.8)


def test_holes_by_hand() -> None:
    """A 1 in hole 5 in below the top of a 14 in beam reaches 2-1/2 in off its middle; a third of it is 2-1/3 in."""
    assert fit.hole_off_middle.fn(5.0, 14.0, 1.0) == fit.hole_off_middle.fn(9.0, 14.0, 1.0) == 2.5
    assert fit.half_of_middle.fn(1 / 3, 14.0) == pytest.approx(14 / 6)
    assert fit.hole_off_midspan.fn(60.0, 160.0) == fit.hole_off_midspan.fn(100.0, 160.0) == 20.0
    assert fit.half_of_middle_span.fn(1 / 3, 162.0) == pytest.approx(27.0)


def test_walls_lost_by_hand() -> None:
    """Of 160 in that go and 100 + 60 in that stay, half is lost."""
    stay = fit.lengths_together.fn(100.0, 60.0)
    assert fit.share_lost.fn(160.0, stay) == 0.5


def test_footprint_by_hand() -> None:
    """1,200 lb on 2 ft x 5 ft is 120 psf; half of it along 5 ft is 120 plf; on three legs 400 lb each."""
    assert fit.footprint_pressure.fn(1200.0, 5.0, 2.0) == 120.0
    assert fit.spread_along.fn(fit.share_of_one_joist.fn(1200.0, 0.5), 5.0) == 120.0
    assert fit.leg_load.fn(1200.0, 3.0) == 400.0


def standing(
    legs: float | None, across: float = 40.0, along: float = 60.0, weight: float = 900.0, *, placed: bool = True
) -> Standing:
    """A thing in the middle of 12 ft joists, or anywhere on them."""
    return Standing(
        key="heavy[1]",
        joist=read_member("2x10 Douglas Fir-Larch No.2", "heavy[1].joist"),
        span=figure("l", 144.0, "in"),
        spacing=figure("s_o", 16.0, "in"),
        dead=figure("q_D", 12.0, "psf"),
        live=figure("q_L", 40.0, "psf"),
        weight=figure("W_thing", weight, "lb"),
        along=figure("l_base", along, "in"),
        across=figure("b_base", across, "in"),
        legs=None if legs is None else figure("n_legs", legs, "1"),
        lasting=True,
        station=figure("x_thing", 72.0, "in") if placed else None,
        combinations=combinations("asce7_16", frozenset({"D", "L"})),
        finishes=(tables.lookup("irc_2021/deflection", member="floors"),),
    )


def demand(at: Standing, key: str) -> float:
    """The demand of one check of the joist."""
    return next(float(check.demand.number) for check in check_joist(at) if check.key == f"heavy[1].{key}")


def test_joist_under_a_base_by_hand() -> None:
    """40 in across joists at 16 in covers two for sure: 450 lb along 60 in of one, live load beside the base only."""
    w, w_D, w_L = 450 / 60, 12 * 16 / 144, 40 * 16 / 144
    R = w_D * 72 + w_L * 42 + w * 30
    moment = R * 72 - w_D * 72**2 / 2 - w_L * 42 * (72 - 21) - w * 30**2 / 2
    assert demand(standing(None), "bending_sagging") == pytest.approx(moment / (1.5 * 9.25**2 / 6))


def test_joist_under_legs_by_hand() -> None:
    """Three legs bring two on one joist, 300 lb each, 60 in apart: between them the moment is 300 lb x 42 in."""
    w = (12 + 40) * 16 / 144
    moment = w * 144**2 / 8 + 300 * (144 - 60) / 2
    assert demand(standing(3.0), "bending_sagging") == pytest.approx(moment / (1.5 * 9.25**2 / 6))


def test_legs_closer_than_the_joists_stand_on_one() -> None:
    """Four legs whose lines are 12 in apart, closer than joists at 16 in, may all come down on one joist."""
    apart, together = standing(4.0), standing(4.0, across=12.0)
    alone = demand(standing(4.0, weight=1e-9), "bending_sagging")
    assert demand(together, "bending_sagging") - alone == pytest.approx(2 * (demand(apart, "bending_sagging") - alone))


def test_live_deflection_of_legs_by_the_textbook() -> None:
    """5 w l^4/(384 E I) of the live load and, for two equal forces a from the ends, P a (3 l^2 - 4 a^2)/(24 E I)."""
    EI = 1.6e6 * 1.5 * 9.25**3 / 12
    w, P, a, l = 40 * 16 / 144, 300.0, 42.0, 144.0
    textbook = 5 * w * l**4 / (384 * EI) + P * a * (3 * l**2 - 4 * a**2) / (24 * EI)
    assert demand(standing(3.0), "deflection_live_L360") == pytest.approx(textbook, rel=1e-6)


@pytest.mark.parametrize("legs", [None, 1.0, 2.0, 3.0, 4.0, 6.0])
def test_no_place_is_worse_than_those_tried(legs: float | None) -> None:
    """A thing that may stand anywhere works its joist as hard as at the worst of all places, an inch apart."""
    free, slack = standing(legs, placed=False), 1e-3 if legs == 6 else 1e-9  # six: searched in steps
    tried = {check.key: float(check.ratio) for check in check_joist(free)}
    for inch in range(30, 115):
        there = replace(free, station=figure("x_thing", float(inch), "in"))
        assert all(float(check.ratio) <= tried[check.key] * (1 + slack) for check in check_joist(there))


def test_a_heavier_thing_never_works_the_joist_less() -> None:
    """More weight raises every check of the joist."""
    light, heavy = check_joist(standing(None, weight=400.0)), check_joist(standing(None, weight=800.0))
    assert [check.key for check in light] == [check.key for check in heavy]
    assert all(more.ratio > less.ratio for less, more in zip(light, heavy, strict=True))


def test_by_type_adds_rows_of_one_type_alone() -> None:
    """Dead rows are added to dead rows; a type that is not there counts as nothing, and says so."""
    work = Work((joisted("lapped"), joisted("lapped")), SITE, support("both", 24.0), REACH)
    wall = temporary_walls(work)[0]
    assert line_loads.by_type(wall, "D").number == pytest.approx(2 * 12 * 6 * 1.2)
    assert line_loads.by_type(wall, "S").number == 0.0
