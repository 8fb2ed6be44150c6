"""The clauses below the beam by another road: statics written out, limits, and rules that must agree."""

import math

import pytest

from beamcheck.beam.model import Line, Spread
from beamcheck.beam.solver import solve
from beamcheck.checks.lines import load_line
from beamcheck.checks.pad import Standing, needed_side, needed_thickness
from beamcheck.checks.seat import at_less_crush
from beamcheck.standards import aci318_19 as aci
from beamcheck.standards import aisc360_16 as aisc
from beamcheck.standards import irc_2021 as irc
from beamcheck.standards import nds_2018 as nds
from beamcheck.standards import statics
from beamcheck.study.brought import brought, factored
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import Source
from beamcheck.trace import Given, Trust, Value


def told(name: str, number: float, unit: str) -> Value:
    """A figure of the example's text."""
    return Value(name, number, unit, Given("example", Trust.STATED))


@pytest.mark.parametrize(
    ("d_post", "b", "e", "times"), [(5.5, 3.5, 1.00, 2.09), (5.5, 3.0, 1.25, 2.36), (7.25, 5.25, 1.0, 1.83)]
)
def test_a_seat_at_one_face_is_off_centre_by_half_of_what_is_left(
    d_post: float, b: float, e: float, times: float
) -> None:
    """The middle of the seat lies half the tongue off the middle of the post, and the edge stress is 1 + 6e/d times."""
    b_seat = statics.notch_seat.fn(b, b)
    found = statics.eccentricity_in_notch.fn(d_post, b_seat)
    assert found == pytest.approx(d_post / 2 - b / 2) == pytest.approx(e, abs=0.005)
    assert found == pytest.approx(statics.tongue.fn(d_post, b) / 2)
    assert 1 + found / statics.kern.fn(d_post) == pytest.approx(times, abs=0.005)


def test_at_the_edge_of_the_kern_one_side_of_the_foot_is_empty() -> None:
    """An eccentric load at a sixth of the side presses nothing at the far edge: P/A - M/S = 0."""
    P, b, d = 1000.0, 5.5, 7.25
    e = statics.kern.fn(d)
    assert P / nds.area.fn(b, d) - P * e / nds.section_modulus.fn(b, d) == pytest.approx(0.0, abs=1e-9)


def test_a_notch_is_never_broader_than_the_beam_or_itself() -> None:
    """The seat in a notch is the narrower of beam and notch, and the tongue is never less than nothing."""
    assert statics.notch_seat.fn(5.25, 3.5) == 3.5
    assert statics.notch_seat.fn(3.5, 5.25) == 3.5
    assert statics.tongue.fn(5.5, 6.0) == 0.0


def test_a_stack_goes_down_by_the_sum_of_its_layers() -> None:
    """Three interfaces at full, half and no stress settle by 0.04, 0.02 and 0 in."""
    total = 0.0
    for f, F in ((625.0, 625.0), (212.5, 425.0), (0.0, 405.0)):
        total = statics.stack_settlement.fn(total, statics.plate_crush.fn(statics.crush_share.fn(f, F), 0.04))
    assert total == pytest.approx(0.06)


def test_less_crushing_is_the_lower_value() -> None:
    """At 0.02 in the value across the grain is 0.73 of that at 0.04 in."""
    assert nds.bearing_at_less_crush.fn(625.0, 0.73) == pytest.approx(456.25)
    assert at_less_crush(told("F_c_perp_adj", 625.0, "psi")).number == pytest.approx(456.25)


def test_a_cut_joist_moves_two_point_four_times_as_far() -> None:
    """Two equal spans in one piece: 5/384 over 1/185 is 2.4 (any beam table), and so is the solver's."""
    assert statics.continuity_lost.fn(5 / 384, 1 / 185) == pytest.approx(2.4, abs=0.05)
    cut = solve(Line((0.0, 100.0)), [Spread(0.0, 100.0, 1.0, 1.0)]).down(1.0).value
    through = solve(Line((0.0, 100.0, 200.0)), [Spread(0.0, 200.0, 1.0, 1.0)]).down(1.0).value
    assert statics.continuity_lost.fn(cut, through) == pytest.approx(2.4, abs=0.05)


def test_hangers_of_both_sides_carry_what_the_take_down_puts_on_the_beam() -> None:
    """Hanger loads of one foot of beam add up to its line load: equilibrium."""
    q_D, q_L, a, b, o = 12.0, 40.0, 12.25, 10.5, 16 / 12
    per_foot = sum(statics.hanger_load.fn(q_D, q_L, o, span) for span in (a, b)) / o
    width = statics.tributary_width.fn(a, b)
    assert per_foot == pytest.approx(statics.line_load.fn(q_D + q_L, width, 1.0))


@pytest.mark.parametrize(
    ("q", "inches", "feet", "rise", "force"), [(30.0, 16, 24.0, 4, 720.0), (50.0, 16, 28.0, 4, 1400.0)]
)
def test_a_tie_holds_the_rafters_together(q: float, inches: int, feet: float, rise: int, force: float) -> None:
    """Moments about the ridge: half the load times a quarter of the span is the tie's pull times the height."""
    theta = math.degrees(math.atan(rise / 12))
    found = statics.tie_force.fn(q / 2, q / 2, inches / 12, feet, theta)
    height = feet / 2 * rise / 12
    half = q * inches / 12 * feet / 2
    assert found == pytest.approx(half * feet / 4 / height) == pytest.approx(force, abs=0.5)


def test_a_pad_that_the_soil_just_bears() -> None:
    """A square of the side that is needed, with its own weight, presses the soil with just what it may."""
    P, q, h = told("P", 9000.0, "lb"), told("q_allow", 1500.0, "psf"), told("h_cast", 10.0, "in")
    side = needed_side(P, q, h)
    assert side is not None
    weight = statics.pad_weight.fn(150.0, side.number**2, 10.0)
    assert weight == pytest.approx(150.0 * side.number**2 * 10 / 12)
    assert aci.soil_pressure.fn(statics.load_on_soil.fn(9000.0, weight), side.number**2) == pytest.approx(1500.0)
    assert statics.soil_left.fn(1500.0, 150.0, 12.0) == pytest.approx(1350.0)
    assert needed_side(P, told("q_allow", 100.0, "psf"), h) is None


def test_a_pad_is_as_thick_as_it_projects() -> None:
    """The thickness that a projection asks for is the projection, and never less than the least."""
    assert irc.thickness_for_projection.fn(10.0, 8.0) == 10.0
    assert irc.thickness_for_projection.fn(5.0, 8.0) == 8.0
    sides = [told("c_1", side, "in") for side in (4.0, 8.0, 4.0, 8.0)]
    thickness = needed_thickness(told("b_pad", 2.0, "ft"), Standing(*sides))
    assert thickness.number == pytest.approx((24 - 4) / 2)


def test_a_square_column_has_the_ratio_one() -> None:
    """Long to short side is one for a square and never below it."""
    assert aci.column_ratio.fn(6.0, 6.0) == 1.0
    assert aci.column_ratio.fn(3.5, 7.0) == aci.column_ratio.fn(7.0, 3.5) == 2.0


def test_a_plate_no_larger_than_its_post_does_not_bend() -> None:
    """The cantilever of a plate is half of what it is larger, and nothing where it is not."""
    assert aisc.plate_cantilever.fn(6.0, 3.5) == pytest.approx(1.25)
    assert aisc.plate_cantilever.fn(3.0, 3.5) == 0.0


def test_the_schedule_of_a_nailed_column() -> None:
    """30d nails of 0.207 in through three plies of 1-1/2 in: 4-1/8 in at least, 20 D is 4.14 in, 6 t is 9 in."""
    assert nds.nail_length_needed.fn(3.0, 0.75, 1.5) == pytest.approx(4.125)
    assert nds.distance_by_diameter.fn(20.0, 0.207) == pytest.approx(4.14)
    assert nds.distance_by_ply.fn(6.0, 1.5) == 9.0


def test_a_member_that_carries_twice_as_much_rises_by_one() -> None:
    """The rise is the share by which the load grows."""
    assert statics.rise.fn(200.0, 100.0) == 1.0
    assert statics.rise.fn(105.0, 100.0) == pytest.approx(0.05)


def test_near_is_half_the_depth() -> None:
    """A girder of 9-1/4 in lets a post stand 4-5/8 in beside its pier."""
    assert statics.near_pier.fn(9.25) == 4.625


def test_a_steel_posts_weight_comes_down_with_its_load() -> None:
    """Seven feet of 7.58 plf is 53 lb."""
    assert statics.shape_load_at_foot.fn(1000.0, 7.58, 84.0) == pytest.approx(1053.06)


# Structural calculations of the Lake Kegonsa house (2014-2015), basement beam on grid E (R_dead is cut there)
def test_reactions_pass_on_dead_and_live_apart() -> None:
    """8.28 ft of floor on 14.18 ft: 2.35 kip of live and 1.057 kip of dead load at each end."""
    span = told("l", 14.18, "ft")
    rows = tuple(
        Source(
            "floor",
            "floor",
            name,
            w=statics.line_load(q=told("q", q, "psf"), t_w=told("t_w", 8.28, "ft"), k_c=told("k_c", 1.0, "1")),
        )
        for name, q in (("D", 18.0), ("L", 40.0))
    )
    line = Line((0.0, span.to("in")))
    loaded = load_line(line, (span,), rows, combinations("asce7_16", frozenset("DL")))
    for end in brought(loaded, rows):
        assert end.most["L"].to("kip") == pytest.approx(2.35, abs=0.005)
        assert end.whole["D"].to("kip") == pytest.approx(1.057, abs=0.0005)


@pytest.mark.parametrize(("edition", "factor"), [("ASCE 7-16", 1.6), ("ASCE 7-22", 1.0)])
def test_snow_at_strength_level_is_not_factored_again(edition: str, factor: float) -> None:
    """1,000 lb of dead load and 2,000 lb of snow: 1.2 D + 1.6 S with ASCE 7-16, 1.2 D + 1.0 S with 7-22."""
    P_u, words = factored(edition, {"D": told("P", 1000.0, "lb"), "S": told("P", 2000.0, "lb")})
    assert P_u.number == pytest.approx(1200 + factor * 2000)
    assert words == ("1.2 D + S" if factor == 1 else f"1.2 D + {factor:g} S")
