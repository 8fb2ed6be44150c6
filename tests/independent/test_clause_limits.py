"""The wood clauses by another road: limits of mechanics, seams between branches, and rules that must agree."""

import math

import pytest

from beamcheck import tables
from beamcheck.beam.model import Line, Point, Spread
from beamcheck.beam.solver import solve
from beamcheck.standards import nds_2018 as nds
from beamcheck.trace import Clause

RATIOS = (1e-3, 0.05, 0.3, 0.8, 1.0, 1.3, 4.0, 1e3)  # buckling stress over crushing stress


@pytest.mark.parametrize("r", RATIOS)
@pytest.mark.parametrize("c", [0.8, 0.85, 0.9])
def test_column_stability_is_ylinens_curve(r: float, c: float) -> None:
    """What C_P is short of crushing, times what it is short of buckling, is (1 - c) C_P^2 (Ylinen)."""
    C_P = nds.column_stability.fn(1000 * r, 1000.0, c)
    assert (1 - C_P) * (r - C_P) == pytest.approx((1 - c) * C_P**2, rel=1e-6, abs=1e-9)
    assert 0 < C_P <= min(1.0, r)


@pytest.mark.parametrize("r", RATIOS)
def test_beam_stability_is_ylinens_curve(r: float) -> None:
    """C_L is the same curve with c = 0.95."""
    C_L = nds.beam_stability.fn(1000 * r, 1000.0)
    assert (1 - C_L) * (r - C_L) == pytest.approx(0.05 * C_L**2, rel=1e-6, abs=1e-9)
    assert 0 < C_L <= min(1.0, r)


def test_stocky_members_crush_and_slender_ones_buckle() -> None:
    """C_L and C_P go to 1 as slenderness goes to nothing, and to the buckling stress as it grows."""
    for slender, limit in ((0.01, 1.0), (1000.0, None)):
        F_bE = nds.critical_bending.fn(580_000.0, slender)
        F_cE = nds.critical_compression.fn(580_000.0, slender)
        C_L, C_P = nds.beam_stability.fn(F_bE, 1000.0), nds.column_stability.fn(F_cE, 1000.0, 0.8)
        assert pytest.approx(limit or F_bE / 1000, rel=1e-3) == C_L
        assert pytest.approx(limit or F_cE / 1000, rel=1e-3) == C_P


def test_critical_compression_is_eulers_load() -> None:
    """F_cE times the area is Euler's load of a rectangle with E_min: 0.822 stands for pi^2/12."""
    b, d, l_e, E_min = 3.5, 5.5, 96.0, 580_000.0
    euler = math.pi**2 * E_min * nds.moment_of_inertia.fn(b, d) / l_e**2
    s_c = nds.column_slenderness.fn(l_e, d)
    assert nds.critical_compression.fn(E_min, s_c) * nds.area.fn(b, d) == pytest.approx(euler, rel=1e-3)


def test_built_up_column_without_reduction_is_solid() -> None:
    """K_f scales C_P, and 1.0 leaves the solid column."""
    solid = nds.column_stability.fn(500.0, 1650.0, 0.8)
    assert nds.column_stability_built_up.fn(500.0, 1650.0, 0.8, 1.0) == solid
    assert nds.column_stability_built_up.fn(500.0, 1650.0, 0.8, 0.75) == pytest.approx(0.75 * solid)


def test_unlisted_effective_length_has_no_step() -> None:
    """The three rules for an unlisted load meet at l_u/d = 7 and 14.3 to a fifth of a percent."""
    for seam in (7.0, 14.3):
        before = nds.effective_length_unlisted.fn(seam * (1 - 1e-9), 1.0)
        after = nds.effective_length_unlisted.fn(seam * (1 + 1e-9), 1.0)
        assert before == pytest.approx(after, rel=2e-3)


@pytest.mark.parametrize("l_u", [3.0, 6.9, 7.1, 10.0, 14.2, 14.4, 25.0])
def test_unlisted_effective_length_is_never_the_shorter(l_u: float) -> None:
    """A load that the table does not list is never given a shorter effective length than one that it lists."""
    longest = nds.effective_length_unlisted.fn(l_u, 1.0)
    for row in tables.load("nds_2018/effective_length").rows:
        factors = [row.number(column) for column in ("short_coef", "long_coef", "d_coef")]
        if not row.has("cap_coef"):
            assert nds.effective_length.fn(l_u, 1.0, *factors) <= longest * (1 + 1e-3)


@pytest.mark.parametrize(
    ("l_u", "l_e"), [(60.0, 123.6), (79.0, 162.5217), (120.0, 229.35), (160.0, 294.55), (162.0, 298.08), (180.0, 331.2)]
)
def test_effective_length_by_hand(l_u: float, l_e: float) -> None:
    """At a depth of 11.25 in: 2.06 l_u below 78.75 in, 1.63 l_u and 33.75 in up to 160.875 in, 1.84 l_u beyond."""
    assert nds.effective_length_unlisted.fn(l_u, 11.25) == pytest.approx(l_e, abs=0.05)
    if l_u <= 160:
        assert nds.effective_length.fn(l_u, 11.25, 2.06, 1.63, 3.0) == pytest.approx(l_e, abs=0.05)


def test_volume_and_size_factors_start_at_their_reference() -> None:
    """Size and volume factors are 1 at the reference size, and a power of the depth alone beyond it."""
    assert nds.size_timber.fn(12.0) == nds.volume_scl.fn(12.0, 12.0, 0.111, 9.0) == 1.0
    assert nds.size_timber.fn(9.5) == 1.0
    assert nds.volume_glulam.fn(252.0, 12.0, 5.125, 10.0) == 1.0
    assert nds.volume_glulam.fn(120.0, 9.0, 3.125, 10.0) == 1.0
    assert nds.size_timber.fn(24.0) ** 9 == pytest.approx(0.5)
    assert nds.volume_scl.fn(24.0, 12.0, 0.5, 9.0) ** 2 == pytest.approx(0.5)
    assert nds.volume_scl.fn(6.0, 12.0, 0.5, 1.0) == 1.0
    assert nds.volume_glulam.fn(504.0, 24.0, 10.25, 10.0) ** 10 == pytest.approx(1 / 8)


def test_bending_values_of_glued_products_take_volume_once() -> None:
    """C_V below 1 stands beside C_L and the lesser counts; above 1 it is inside F_b* and so counts beside C_L."""
    low, high = (nds.bending_star_scl.fn(2600.0, 1.15, 1.0, 1.0, 1.04, C_V) for C_V in (0.9, 1.1))
    assert low == pytest.approx(2600 * 1.15 * 1.04)
    assert nds.bending_star_scl.fn(2600.0, 1.0, 0.8, 0.7, 1.0, 0.9) == pytest.approx(2600 * 0.56)
    assert high == pytest.approx(1.1 * low)
    assert nds.bending_glued.fn(low, 0.95, 0.9) == pytest.approx(0.9 * low)
    assert nds.bending_glued.fn(high, 0.95, 1.1) == pytest.approx(0.95 * 1.1 * low)


@pytest.mark.parametrize("row", tables.load("nds_2018/sawn_4a").rows, ids=lambda row: row.label)
def test_reference_modulus_for_stability_is_the_printed_one(row: tables.Row) -> None:
    """E_min of Table 4A follows from E by Appendix D with COV 0.25 and 1.03, as printed to the 10,000 psi."""
    assert nds.modulus_min_reference.fn(row.number("E"), 0.25, 1.03) == pytest.approx(row.number("E_min"), abs=5000)


def test_buckling_stiffness_grows_straight_to_eight_feet() -> None:
    """C_T starts at 1, grows in proportion to the length, and stays from 96 in on."""
    rise = [nds.buckling_stiffness.fn(l_e, 1.6e6, 2300.0, 0.59) - 1 for l_e in (0.0, 12.0, 96.0, 144.0)]
    assert rise == pytest.approx([0.0, rise[1], 8 * rise[1], 8 * rise[1]], abs=1e-12)
    assert rise[3] == pytest.approx(220_800 / 944_000)


def test_shear_deflection_is_the_work_of_the_shear() -> None:
    """At mid-span of a simple beam the shear part is the sum of 1.2 V/(G A), for a uniform and for a point load."""
    b, d, span, E, steps = 5.25, 11.875, 168.0, 2.0e6, 200
    for load in (Spread(0.0, span, 60.0, 60.0), Point(span / 2, 4000.0)):
        beam = solve(Line((0.0, span)), [load])
        cuts = [(k + 0.5) * span / 2 / steps for k in range(steps)]  # the shear is straight: mid-points are exact
        work = sum(beam.shear(cut, "right") for cut in cuts) * (span / 2 / steps) * 1.2 / (E / 16 * b * d)
        assert nds.shear_deflection.fn(beam.sagging().value, E, b, d) == pytest.approx(work, rel=1e-9)


def test_composite_deflection_is_the_customary_formula() -> None:
    """270 w L^4/(E b d^3) + 28.8 w L^2/(E b d), w in plf and L in ft: the usual form for a uniform load."""
    b, d, L, w, E = 3.5, 14.0, 16.0, 500.0, 2.0e6
    beam = solve(Line((0.0, 12 * L)), [Spread(0.0, 12 * L, w / 12, w / 12)])
    bending = nds.bending_deflection.fn(beam.down(1.0).value, E, nds.moment_of_inertia.fn(b, d))
    shear = nds.shear_deflection.fn(beam.sagging().value, E, b, d)
    customary = 270 * w * L**4 / (E * b * d**3) + 28.8 * w * L**2 / (E * b * d)
    assert nds.deflection.fn(bending, shear) == pytest.approx(customary, rel=1e-9)


def test_creep_takes_the_long_term_part_alone() -> None:
    """K_cr multiplies the long-term part, not the short-term part, and is not added to one."""
    assert nds.total_deflection.fn(1.5, 0.2, 0.0) == pytest.approx(0.3)
    assert nds.total_deflection.fn(2.0, 0.0, 0.2) == pytest.approx(0.2)


PRODUCTS = (
    nds.bending_star,
    nds.bending_sawn,
    nds.shear,
    nds.modulus,
    nds.modulus_min,
    nds.bearing,
    nds.compression_star,
    nds.compression,
)


@pytest.mark.parametrize("clause", PRODUCTS, ids=lambda clause: clause.key)
def test_an_adjusted_value_goes_with_each_of_its_factors(clause: Clause) -> None:
    """Factors of 1.0 leave the reference value, and twice any one factor is twice the adjusted value."""
    ones = [1000.0] + [1.0] * (len(clause.parameters) - 1)
    assert clause.fn(*ones) == 1000.0
    for which in range(len(ones)):
        assert clause.fn(*(2 * x if k == which else x for k, x in enumerate(ones))) == 2000.0


def test_capacity_without_a_notch_is_that_of_the_whole_section() -> None:
    """With the full depth left, each rule for notches and connections gives the load at which f_v is F_v'."""
    F_v, b, d = 180.0, 3.5, 11.25
    whole = nds.notched_tension_shear.fn(F_v, b, d, d)
    assert nds.shear_stress.fn(whole, b, d) == pytest.approx(F_v)
    assert nds.notched_compression_shear.fn(F_v, b, d, d, 4.0) == pytest.approx(whole)
    assert nds.connection_shear_near_end.fn(F_v, b, d, d) == pytest.approx(whole)
    assert nds.connection_shear_inside.fn(F_v, b, d) == pytest.approx(whole)


def test_notch_on_the_compression_side_ends_at_the_net_section() -> None:
    """A long notch on the compression side leaves the net depth; one that ends at the support face costs nothing."""
    F_v, b, d, d_n = 180.0, 3.5, 11.25, 8.0
    net, whole = nds.notched_tension_shear.fn(F_v, b, d_n, d_n), nds.notched_tension_shear.fn(F_v, b, d, d)
    assert nds.notched_compression_shear.fn(F_v, b, d, d_n, 20.0) == pytest.approx(net)
    assert nds.notched_compression_shear.fn(F_v, b, d, d_n, 0.0) == pytest.approx(whole)


def test_connection_near_the_end_is_as_a_notch() -> None:
    """Fasteners near the end cost as much as a tension notch to their line; away from it only the depth counts."""
    notched, net = (nds.notched_tension_shear.fn(180.0, 3.5, d, 8.0) for d in (11.25, 8.0))
    assert nds.connection_shear_near_end.fn(180.0, 3.5, 11.25, 8.0) == notched
    assert nds.connection_shear_inside.fn(180.0, 3.5, 8.0) == net


def test_bearing_at_an_angle_runs_between_along_and_across() -> None:
    """Along the grain it is F_c*, across it F_c_perp', at 45 degrees their harmonic mean."""
    along, across = 1350.0, 625.0
    assert nds.bearing_at_angle.fn(along, across, 0.0, 1.0) == along
    assert nds.bearing_at_angle.fn(along, across, 1.0, 0.0) == across
    assert nds.bearing_at_angle.fn(along, across, 0.5, 0.5) == pytest.approx(2 / (1 / along + 1 / across))


def test_bearing_area_meets_one_at_six_inches() -> None:
    """From 6 in on the factor is 1; below it counts 3/8 in more of bearing."""
    for l_b in (0.5, 2.0, 5.9):
        assert nds.bearing_area.fn(l_b) * l_b == pytest.approx(l_b + 3 / 8)
    assert nds.bearing_area.fn(6.0) == nds.bearing_area.fn(9.0) == 1.0


@pytest.mark.parametrize("r", [0.0, 0.1, 0.3, 0.5, 0.7, 0.9])
def test_eccentric_load_is_the_secant_formula(r: float) -> None:
    """(1 + 0.234 r)/(1 - r) is within 3 % of the secant formula, r being the stress over its buckling stress."""
    f_c, F_cE, e, d = 1000 * r, 1000.0, 1.0, 5.5
    f_b = nds.eccentric_bending_strong.fn(f_c, e, d)
    k_1 = nds.amplifier_strong.fn(f_c, F_cE)
    interaction = nds.eccentric_compression_one_axis.fn(f_c, 1e12, f_b, F_cE, 1.0, k_1)
    secant = f_b / math.cos(math.pi / 2 * math.sqrt(r))
    assert interaction == pytest.approx(secant, rel=0.03)


def test_eccentric_bending_is_moment_over_section_modulus() -> None:
    """The stress of an end load off its axis is P e/S, about either axis."""
    b, d, e, P = 3.5, 5.5, 0.75, 6000.0
    f_c = nds.compression_stress.fn(P, nds.area.fn(b, d))
    strong = nds.bending_stress.fn(P * e, nds.section_modulus.fn(b, d))
    weak = nds.bending_stress.fn(P * e, nds.section_modulus.fn(d, b))
    assert nds.eccentric_bending_strong.fn(f_c, e, d) == pytest.approx(strong)
    assert nds.eccentric_bending_weak.fn(f_c, e, b) == pytest.approx(weak)


def test_eccentric_interaction_falls_back_to_its_parts() -> None:
    """Without eccentricity the centric column is left; with one, the rule for one axis; a load on both is more."""
    f_c, F_c, F_b, F_cE, F_bE = 400.0, 1000.0, 1500.0, 1200.0, 5000.0
    k_1, k_2 = nds.amplifier_strong.fn(f_c, F_cE), nds.amplifier_weak.fn(f_c, F_cE, 300.0, F_bE)
    one = nds.eccentric_compression_one_axis.fn(f_c, F_c, 300.0, F_cE, F_b, k_1)

    def both(f_b1: float, f_b2: float) -> float:
        return nds.eccentric_compression.fn(f_c, F_c, f_b1, F_cE, F_b, k_1, f_b2, F_cE, F_bE, F_b, k_2)

    weak_alone = nds.eccentric_compression_one_axis.fn(f_c, F_c, 100.0, F_cE, F_b, k_2)
    assert both(0.0, 100.0) == pytest.approx(weak_alone)
    assert both(0.0, 0.0) == pytest.approx(0.16)
    assert both(300.0, 0.0) == pytest.approx(one)
    assert both(300.0, 100.0) > one > 0.16


def test_bending_about_the_strong_axis_burdens_the_weak_one() -> None:
    """With f_c/F_cE2 = 0.2 and f_b1/F_bE = 0.5 the weak axis keeps 0.55 and takes 1.1053 times its end moment."""
    assert nds.amplifier_weak.fn(200.0, 1000.0, 2500.0, 5000.0) == pytest.approx(0.55)
    inputs = (200.0, 1e9, 2500.0, 1e9, 1e12, 1.0, 550.0, 1000.0, 5000.0, 1000.0, 0.55)
    assert nds.eccentric_compression.fn(*inputs) == pytest.approx(1.1053)


def test_interactions_are_whole_on_their_axes() -> None:
    """Each stress alone at its own limit makes an interaction of exactly 1."""
    assert nds.bending_and_tension.fn(600.0, 600.0, 0.0, 1200.0) == 1.0
    assert nds.bending_and_tension.fn(0.0, 600.0, 1200.0, 1200.0) == 1.0
    assert nds.bending_and_tension.fn(300.0, 600.0, 600.0, 1200.0) == 1.0
    assert nds.bending_and_compression.fn(0.0, 900.0, 1200.0, 1200.0, 1.0, 0.0, 1200.0, 1.0) == 1.0
    assert nds.bending_and_compression.fn(0.0, 900.0, 0.0, 1200.0, 1.0, 1200.0, 1200.0, 1.0) == 1.0
    assert nds.bending_and_compression.fn(900.0, 900.0, 0.0, 1200.0, 1.0, 0.0, 1200.0, 1.0) == 1.0


def test_axial_load_at_the_buckling_stress_leaves_nothing() -> None:
    """What axial load leaves of an axis falls from 1 to nothing and never below, so that no sum turns round."""
    assert nds.amplifier_strong.fn(0.0, 800.0) == nds.amplifier_weak.fn(0.0, 800.0, 0.0, 5000.0) == 1.0
    for f_c in (800.0, 5000.0):
        assert 0 < nds.amplifier_strong.fn(f_c, 800.0) < 1e-5
        assert 0 < nds.amplifier_weak.fn(f_c, 800.0, 0.0, 5000.0) < 1e-5


@pytest.mark.parametrize(("x", "counted"), [(0.0, 0.0), (0.25, 0.25), (1.0, 1.0)])
def test_near_point_load_counts_by_its_distance(x: float, counted: float) -> None:
    """A point load at the support face does not count in the shear at d, one at d counts in full."""
    d, P = 11.25, 1000.0
    spread = solve(Line((0.0, 168.0)), [Spread(0.0, 168.0, 50.0, 50.0)]).shear(d, "right")
    assert nds.shear_within_depth.fn(spread, P * x) == pytest.approx(50 * (84 - d) + counted * P)
