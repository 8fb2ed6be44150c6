"""The clauses of the load path by another road: the beam solver, a unit library, seams, and sums done in the head."""

import math
from typing import Any

import pint
import pytest

from beamcheck import tables
from beamcheck.beam.model import Line, Spread
from beamcheck.beam.solver import solve
from beamcheck.standards import asce7_16, asce7_22, statics
from beamcheck.standards import nds_2018 as nds
from beamcheck.trace import Clause

SPANS = [(10.0, 10.0), (8.0, 12.0), (6.0, 15.0), (14.0, 9.5)]


@pytest.mark.parametrize(("s_a", "s_b"), SPANS)
def test_continuity_factor_is_the_solvers_middle_reaction(s_a: float, s_b: float) -> None:
    """The middle reaction of a joist over two spans, over that of two joists, is what the beam solver gives."""
    middle = solve(Line((0.0, s_a, s_a + s_b)), [Spread(0.0, s_a + s_b, 1.0, 1.0)]).reactions[1]
    assert statics.continuity_factor.fn(s_a, s_b) == pytest.approx(middle / statics.tributary_width.fn(s_a, s_b))


@pytest.mark.parametrize(("s_a", "s_b"), SPANS)
def test_far_end_reaction_is_the_solvers(s_a: float, s_b: float) -> None:
    """Dead load on both spans and live load on the far one alone leave the solver's reaction at the near end."""
    loads = [Spread(0.0, s_a + s_b, 12.0, 12.0), Spread(s_a, s_a + s_b, 40.0, 40.0)]
    end = solve(Line((0.0, s_a, s_a + s_b)), loads).reactions[0]
    assert statics.far_end_reaction.fn(12.0, 40.0, s_a, s_b) == pytest.approx(end)


@pytest.mark.parametrize("rise", [0.0, 4.0, 8.0, 12.0])
def test_slope_goes_by_pythagoras(rise: float) -> None:
    """A weight along the slope grows on plan as the rafter is longer than its run; the angle gives the rise back."""
    theta = math.degrees(math.atan2(rise, 12))
    assert statics.on_plan.fn(15.0, theta) == pytest.approx(15.0 * math.hypot(rise, 12) / 12)
    assert statics.rise_in_twelve.fn(theta) == pytest.approx(rise)


def test_trade_units_are_joined_as_a_unit_library_joins_them() -> None:
    """The clauses that meet feet with inches give what pint gives for the same product."""
    unit = pint.UnitRegistry()
    inch, foot, lb = unit.inch, unit.foot, unit.force_pound
    weight = (34.0 * lb / foot**3) * (13.875 * inch**2)
    assert statics.self_weight.fn(34.0, 13.875) == pytest.approx(weight.to(lb / foot).magnitude)
    post = 4000.0 * lb + weight * (97.5 * inch)
    assert statics.load_at_foot.fn(4000.0, 34.0, 13.875, 97.5) == pytest.approx(post.to(lb).magnitude)
    area = (11.5 * foot) * (162.5 * inch)
    assert statics.gathered_area.fn(11.5, 162.5) == pytest.approx(area.to(foot**2).magnitude)


HEAD: list[tuple[Clause, dict[str, float], float]] = [
    (statics.line_load, {"q": 40, "t_w": 12, "k_c": 1.25}, 600),
    (statics.wall_weight, {"q_w": 20, "h_w": 8}, 160),
    (statics.point_from_area, {"q": 25, "A_T": 36}, 900),
    (statics.design_span, {"l_clear": 162, "b_a": 3.5, "b_b": 5.5}, 166.5),
    (statics.crossing_load, {"w_c": 600, "n": 3}, 400),
    (statics.crossing_load, {"w_c": 600, "n": 1}, 0),
    (statics.span_between, {"x_b": 170, "x_a": 20}, 150),
    (statics.shared_breadth, {"b": 4.5, "d_post": 3.5}, 3.5),
    (statics.shared_breadth, {"b": 3.5, "d_post": 5.5}, 3.5),
    (statics.lapped_breadth, {"b": 5.5, "d_post": 5.5, "e": 1.0}, 4.5),
    (statics.lapped_breadth, {"b": 3.5, "d_post": 5.5, "e": 1.0}, 3.5),
    (statics.eccentricity_of_plies, {"n": 2.0, "b_ply": 1.75, "d_post": 3.5}, 0.875),
    (statics.eccentricity_of_plies, {"n": 1.0, "b_ply": 1.75, "d_post": 3.5}, 0.0),
    (statics.eccentricity_share, {"r_e": 1 / 6, "d": 5.25}, 0.875),
    (statics.plate_crush, {"u": 0.5, "s_0": 0.04}, 0.02),
    (nds.column_length, {"K_e": 0.8, "l": 100}, 80),
    (nds.end_grain_bearing, {"F_c_star": 1000}, 750),
]


@pytest.mark.parametrize(("clause", "inputs", "figure"), HEAD, ids=lambda given: getattr(given, "key", ""))
def test_small_sums_are_those_done_in_the_head(clause: Clause, inputs: dict[str, float], figure: float) -> None:
    """A clause of one product or sum gives the figure that anybody finds without a pencil."""
    assert clause.fn(**inputs) == pytest.approx(figure)


@pytest.mark.parametrize("row", tables.load("asce7_16/snow_slope").rows, ids=lambda row: row.label)
def test_roof_slope_factor_runs_from_one_to_nothing(row: Any) -> None:
    """C_s is 1 up to the first slope of its line, a half midway, and nothing from 70 degrees on."""
    full, run = row.number("full_to"), row.number("run")
    slopes = (0.0, full, full + run / 2, 70.0, 80.0)
    found = [asce7_16.roof_slope.fn(theta, full, run) for theta in slopes]
    assert found == pytest.approx([1, 1, 0.5, 0, 0])
    assert asce7_16.sloped_roof_snow.fn(found[2], 21.0) == pytest.approx(10.5)


def test_snow_of_the_two_editions_agrees_in_an_ordinary_house() -> None:
    """With an importance factor of 1 both editions turn ground snow into roof snow alike; only its level differs."""
    assert asce7_22.flat_roof_snow.fn(1.0, 1.1, 50.0) == asce7_16.flat_roof_snow.fn(1.0, 1.1, 1.0, 50.0)
    assert asce7_22.flat_roof_snow.fn(1.0, 1.0, 50.0) == pytest.approx(35.0)


def test_roof_snow_goes_with_each_of_its_factors() -> None:
    """Twice the exposure, thermal or importance factor or the ground snow is twice the snow on the roof."""
    for clause in (asce7_16.flat_roof_snow, asce7_22.flat_roof_snow):
        ones = [1.0] * len(clause.parameters)
        for which in range(len(ones)):
            assert clause.fn(*(2.0 if k == which else 1.0 for k in range(len(ones)))) == 2 * clause.fn(*ones) == 1.4


def test_least_snow_is_the_ground_snow_up_to_its_cap() -> None:
    """The least snow follows the ground snow and then stays at its cap, in both editions."""
    assert [asce7_16.minimum_snow.fn(1.1, p_g, 20.0) for p_g in (10.0, 20.0, 70.0)] == pytest.approx([11, 22, 22])
    assert [asce7_22.minimum_snow.fn(p_g, 30.0) for p_g in (10.0, 30.0, 70.0)] == [10.0, 30.0, 30.0]


def test_roof_live_load_stays_between_twelve_and_twenty() -> None:
    """Area and slope reduce the roof live load straight from their first to their last figure, never below 12 psf."""
    falling = pytest.approx([1, 1, 0.8, 0.6, 0.6])
    assert [asce7_16.roof_live_area.fn(A_T) for A_T in (50, 200, 400, 600, 2000)] == falling
    assert [asce7_16.roof_live_slope.fn(F_r) for F_r in (0, 4, 8, 12, 20)] == falling
    assert asce7_16.roof_live.fn(20.0, 0.6, 0.6) == 12.0
    assert asce7_16.roof_live.fn(20.0, 1.0, 1.0) == 20.0


def test_roof_live_load_meets_the_residential_code_midway() -> None:
    """In the middle of a step of IRC Table R301.6 the formula gives the table's figure."""
    def table(pitch: str, area: str) -> float:
        return tables.lookup("irc_2021/roof_live", pitch=pitch, area=area).number("q")

    for F_r, A_T, figure in (
        (0.0, 400.0, table("flat to less than 4:12", "201-600")),
        (8.0, 100.0, table("4:12 to less than 12:12", "0-200")),
        (0.0, 700.0, table("flat to less than 4:12", "over 600")),
        (12.0, 100.0, table("12:12 and steeper", "0-200")),
    ):
        factors = asce7_16.roof_live_area.fn(A_T), asce7_16.roof_live_slope.fn(F_r)
        assert asce7_16.roof_live.fn(20.0, *factors) == pytest.approx(figure)


def test_live_load_reduction_begins_without_a_step() -> None:
    """At 400 ft2 of influence area the reduction begins at nothing, and it ends at its floor."""
    for A_T, share in ((100.0, 1.0), (200.0, 1.0), (200.001, 1.0), (450.0, 0.75), (1e6, 0.5)):
        assert asce7_16.reduced_live.fn(40.0, 2.0, A_T, 0.5) == pytest.approx(40.0 * share, rel=1e-5)
    assert asce7_16.reduced_live.fn(40.0, 2.0, 201.0, 0.5) < 39.95


def test_point_loads_of_a_combination_add_up() -> None:
    """D + 0.75 L + 0.75 S of 9,000, 4,000 and 2,500 lb at one place is 13,875 lb (hand sum)."""
    P = statics.factored_point.fn(1.0, 9000.0)
    for P_more in (4000.0, 2500.0):
        P = statics.point_added.fn(P, 0.75, P_more)
    assert P == 13_875.0


def test_an_end_post_gathers_half_of_its_bay() -> None:
    """Half of 162.5 in (geometry)."""
    assert statics.half_of_bay.fn(162.5) == 81.25
