"""The clauses of plain concrete pads and of cuts by another road: equilibrium, caps, and what the tables say."""

import math

import pytest

from beamcheck import tables
from beamcheck.standards import aci318_19 as aci
from beamcheck.standards import irc_2021 as irc

B, L, C, H = 24.0, 30.0, 6.0, 8.0  # pad, square column, thickness that counts, in


def test_pad_holds_what_its_pressure_carries() -> None:
    """Pressure times area gives the load back; the side of a square pad is the root of its area."""
    A = aci.pad_area.fn(2.0, 2.5)
    assert aci.soil_pressure.fn(9000.0, A) * A == pytest.approx(9000.0)
    assert aci.pad_area_needed.fn(9000.0, aci.soil_pressure.fn(9000.0, A)) == pytest.approx(A)
    assert aci.pad_side.fn(A) ** 2 == pytest.approx(A)


def test_shear_and_moment_are_integrals_of_the_pressure() -> None:
    """The moment at the face sums pressure times arm over the cantilever; shear sums what lies beyond its section."""
    q, l_v = aci.factored_pressure.fn(12_000.0, B, L), aci.cantilever.fn(L, C)
    strips = [(k + 0.5) * l_v / 1000 for k in range(1000)]
    assert sum(q * B * x * l_v / 1000 for x in strips) == pytest.approx(aci.factored_moment.fn(q, B, l_v), rel=1e-5)
    beyond = sum(q * B * l_v / 1000 for x in strips if x > H)
    assert beyond == pytest.approx(aci.one_way_shear.fn(q, B, l_v, H), abs=q * B * l_v / 1000)
    assert aci.one_way_shear.fn(q, B, 7.0, H) == 0.0


def test_punching_shear_and_the_pressure_within_make_the_load() -> None:
    """What the perimeter does not carry stands inside it; a pad no larger than the perimeter is not punched."""
    P_u = 12_000.0
    q = aci.factored_pressure.fn(P_u, B, L)
    assert aci.two_way_shear.fn(q, B, L, C, C, H) + q * (C + H) ** 2 == pytest.approx(P_u)
    assert aci.two_way_shear.fn(q, 10.0, 10.0, C, C, H) == 0.0
    assert aci.punching_perimeter.fn(C, C, H) == pytest.approx(4 * (C + H))


def test_column_on_a_plate_is_counted_half_way() -> None:
    """Between the post's face and the plate's edge; without a plate it is the post itself."""
    assert aci.column_width_on_plate.fn(3.5, 7.5) == 5.5
    assert aci.column_width_on_plate.fn(3.5, 3.5) == 3.5
    assert aci.cantilever.fn(4.0, 6.0) == 0.0


def test_under_masonry_a_pad_bends_from_half_way_between_centre_and_face() -> None:
    """A pier of 8 in: 2 in from its centre, so that a pad of 24 in projects by 10 in (of walls, from memory)."""
    c_col = aci.column_width_of_masonry.fn(8.0)
    assert aci.cantilever.fn(24.0, c_col) == 10.0


def test_pad_on_soil_loses_two_inches() -> None:
    """Ten inches as cast count eight; less than two inches count nothing."""
    assert aci.effective_thickness.fn(10.0) == 8.0
    assert aci.effective_thickness.fn(1.5) == 0.0
    row = tables.lookup("aci318_19/plain_concrete_sizes", item="taken off when cast on soil")
    assert 10.0 - aci.effective_thickness.fn(10.0) == row.number("length")


def test_tension_governs_the_moment_but_for_the_weakest_concrete() -> None:
    """5 sqrt(f'c) is below 0.85 f'c from 35 psi up, so the tension edge sets the moment."""
    S = aci.section_modulus.fn(B, H)
    assert pytest.approx(B * H**2 / 6) == S
    assert aci.nominal_moment.fn(1.0, 2500.0, S) == pytest.approx(5 * math.sqrt(2500.0) * S)
    assert aci.nominal_moment.fn(1.0, 16.0, S) == pytest.approx(0.85 * 16.0 * S)
    assert aci.design_moment.fn(0.6, 100.0) == 60.0


def test_long_columns_punch_at_the_one_way_stress() -> None:
    """A square column gains twofold, at most; a very long one nothing over one-way shear."""
    one_way = aci.nominal_one_way_shear.fn(1.0, 2500.0, 1.0, 1.0)
    assert one_way == pytest.approx(4 / 3 * 50)
    for beta, gain in ((1.0, 2.0), (2.0, 2.0), (4.0, 1.5), (1e9, 1.0)):
        assert aci.nominal_two_way_shear.fn(1.0, 2500.0, beta, 1.0, 1.0) == pytest.approx(gain * one_way)
    assert aci.design_shear.fn(0.6, one_way) == pytest.approx(40.0)


def test_bearing_gains_at_most_twofold() -> None:
    """The concrete around a post helps as the root of the areas' ratio, up to two."""
    assert aci.nominal_bearing.fn(2500.0, 12.25, 12.25) == pytest.approx(0.85 * 2500 * 12.25)
    assert aci.nominal_bearing.fn(2500.0, 12.25, 576.0) == pytest.approx(2 * 0.85 * 2500 * 12.25)
    assert aci.design_bearing.fn(0.6, 100.0) == 60.0


@pytest.mark.parametrize(
    ("item", "found"),
    [
        ("flexure", aci.nominal_moment.fn(1.0, 1e6, 1.0) / 1e3),
        ("one-way shear", aci.nominal_one_way_shear.fn(1.0, 1.0, 1.0, 1.0)),
        ("two-way shear, most", aci.nominal_two_way_shear.fn(1.0, 1.0, 1.0, 1.0, 1.0) / (4 / 3)),
        ("bearing", aci.nominal_bearing.fn(1.0, 1.0, 1.0)),
        ("bearing, area ratio most", aci.nominal_bearing.fn(1.0, 1.0, 100.0) / 0.85),
    ],
)
def test_constants_are_those_of_the_table(item: str, found: float) -> None:
    """A coefficient that the clause holds and the table lists is one and the same."""
    assert found == pytest.approx(tables.lookup("aci318_19/plain_concrete", item=item).number("factor"))


@pytest.mark.parametrize(
    ("clause", "member", "cut", "part"),
    [
        (irc.notch_depth, "joist or beam", "notch depth, outer thirds", 6),
        (irc.notch_depth, "joist or beam", "notch depth, end", 4),
        (irc.notch_length, "joist or beam", "notch length", 3),
        (irc.hole_diameter, "joist or beam", "hole diameter", 3),
        (irc.stud_notch_depth, "bearing stud", "notch depth", 4),
        (irc.stud_hole_diameter, "bearing stud", "hole diameter", 2.5),
    ],
)
def test_cuts_are_the_parts_of_the_depth_that_the_code_names(clause, member, cut, part) -> None:
    """A sixth, a quarter, a third of the depth, and 40 % of a stud for its holes (IRC 2021 R502.8.1, R602.6)."""
    share = tables.lookup("irc_2021/notch_hole", member=member, cut=cut).number("fraction")
    assert clause.fn(share, 9.25) == pytest.approx(9.25 / part)


def test_wood_beside_a_hole_is_measured_to_the_nearer_edge() -> None:
    """A hole at mid-depth has the same wood on both sides; one lower down has less below."""
    assert irc.wood_beside_hole.fn(9.25, 4.625, 2.0) == pytest.approx(3.625)
    assert irc.wood_beside_hole.fn(9.25, 7.25, 2.0) == pytest.approx(1.0)
    assert irc.wood_beside_hole.fn(9.25, 2.0, 2.0) == pytest.approx(1.0)


def test_footing_projects_alike_on_both_sides() -> None:
    """Wall and two projections make the footing's width."""
    assert 8.0 + 2 * irc.footing_projection.fn(16.0, 8.0) == 16.0
