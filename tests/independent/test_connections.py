"""Dowels by another road: printed tables with their own rounding, and laws of the yield equations. Then LRFD."""

import pytest

from beamcheck import tables
from beamcheck.standards import nds_2018 as nds

MODES = ("I_m", "I_s", "II", "III_m", "III_s", "IV")


def yields(
    D: float, l: tuple[float, float], F_e: tuple[float, float], F_yb: float, R_d: tuple[float, ...]
) -> dict[str, float]:
    """Every mode in single shear; lengths and strengths of main and side member, R_d in the order of MODES."""
    (l_m, l_s), (F_em, F_es) = l, F_e
    R_e, R_t = nds.bearing_ratio.fn(F_em, F_es), nds.length_ratio.fn(l_m, l_s)
    k_II = nds.coefficient_ii.fn(R_e, R_t)
    k_III_m = nds.coefficient_iii_m.fn(R_e, F_yb, D, F_em, l_m)
    k_III_s = nds.coefficient_iii_s.fn(R_e, F_yb, D, F_em, l_s)
    loads = (
        nds.yield_i_m.fn(D, l_m, F_em, R_d[0]),
        nds.yield_i_s.fn(D, l_s, F_es, R_d[1]),
        nds.yield_ii.fn(k_II, D, l_s, F_es, R_d[2]),
        nds.yield_iii_m.fn(k_III_m, D, l_m, F_em, R_e, R_d[3]),
        nds.yield_iii_s.fn(k_III_s, D, l_s, F_em, R_e, R_d[4]),
        nds.yield_iv.fn(D, F_em, F_yb, R_e, R_d[5]),
    )
    return dict(zip(MODES, loads, strict=True))


# NDS 2018, Table 12N: common nails, side member 1-1/2 in; Southern Pine, Douglas Fir-Larch, Hem-Fir,
# Spruce-Pine-Fir. From memory, but for 141 lb of the 16d nail
TABLE_12N = {
    "8d": (106, 97, 84, 82),
    "10d": (128, 118, 102, 100),
    "16d": (154, 141, 122, 120),
    "20d": (185, 170, 147, 144),
}
GRAVITIES = (0.55, 0.50, 0.43, 0.42)


@pytest.mark.parametrize("size", TABLE_12N)
def test_common_nails_meet_the_printed_table(size: str) -> None:
    """Lateral values of Table 12N come out to the pound once dowel bearing is rounded as the table does."""
    nail = tables.lookup("nds_2018/nails", type="common", size=size)
    D, F_yb = nail.number("D"), nail.number("F_yb")
    found = []
    for G in GRAVITIES:
        F_e = 50 * round(nds.dowel_bearing_small.fn(G) / 50)
        modes = yields(D, (nail.number("L") - 1.5, 1.5), (F_e, F_e), F_yb, (nds.diameter_coefficient.fn(D),) * 6)
        found.append(round(nds.lateral_single.fn(*modes.values())))
    assert tuple(found) == TABLE_12N[size]


@pytest.mark.parametrize(("G", "printed"), [(0.55, 5550), (0.50, 4650), (0.43, 3500), (0.42, 3350)])
def test_bearing_strength_under_nails_meets_the_printed_table(G: float, printed: int) -> None:
    """Table 12.3.3 of NDS 2018, to its 50 psi."""
    assert 50 * round(nds.dowel_bearing_small.fn(G) / 50) == printed


# NDS 2018, Table 12A: bolts, both members of Douglas Fir-Larch and along the grain: D, l_m, l_s, Z. From memory
TABLE_12A = (
    (0.5, 1.5, 1.5, 480),
    (0.625, 1.5, 1.5, 600),
    (0.75, 1.5, 1.5, 720),
    (0.5, 3.5, 1.5, 610),
    (0.625, 3.5, 1.5, 880),
)


@pytest.mark.parametrize(("D", "l_m", "l_s", "printed"), TABLE_12A)
def test_bolts_meet_the_printed_table(D: float, l_m: float, l_s: float, printed: int) -> None:
    """Lateral values of bolts along the grain come out to the 10 lb of Table 12A."""
    F_e = nds.dowel_bearing_parallel.fn(0.50)
    R_d = tuple(reduction(mode, 0.0) for mode in MODES)
    bolt = tables.lookup("nds_2018/bolts", size={0.5: "1/2 in", 0.625: "5/8 in", 0.75: "3/4 in"}[D])
    modes = yields(bolt.number("D"), (l_m, l_s), (F_e, F_e), bolt.number("F_yb"), R_d)
    assert 10 * round(nds.lateral_single.fn(*modes.values()) / 10) == printed


def reduction(mode: str, angle: float) -> float:
    """R_d of a mode for dowels of 1/4 in to 1 in."""
    k_mode = tables.lookup("nds_2018/reduction_term", mode=mode).number("k_mode")
    return nds.reduction_term.fn(k_mode, nds.angle_coefficient.fn(angle))


def test_load_across_the_grain_takes_a_quarter_more_off() -> None:
    """K_theta is 1 along the grain and 1.25 across it: R_d grows from 4, 3.6, 3.2 to 5, 4.5, 4."""
    assert [reduction(mode, 0.0) for mode in ("I_m", "II", "IV")] == [4.0, 3.6, 3.2]
    assert [reduction(mode, 90.0) for mode in ("I_m", "II", "IV")] == [5.0, 4.5, 4.0]


def test_yield_equations_do_not_care_which_member_is_called_main() -> None:
    """Swapping the members swaps the modes I and III and leaves II and IV."""
    one = yields(0.5, (3.5, 1.5), (5600.0, 4800.0), 45_000.0, (1.0,) * 6)
    two = yields(0.5, (1.5, 3.5), (4800.0, 5600.0), 45_000.0, (1.0,) * 6)
    swapped = {"I_m": "I_s", "I_s": "I_m", "II": "II", "III_m": "III_s", "III_s": "III_m", "IV": "IV"}
    assert {swapped[mode]: load for mode, load in one.items()} == pytest.approx(two)


def test_two_hinges_follow_from_equilibrium() -> None:
    """Mode IV: two hinges of F_yb D^3/6 hold the load over its bearing lengths in both members (plastic theory)."""
    D, F_em, F_es, F_yb = 0.162, 4650.0, 3500.0, 90_000.0
    Z = nds.yield_iv.fn(D, F_em, F_yb, F_em / F_es, 1.0)
    q_m, q_s, hinge = F_em * D, F_es * D, F_yb * D**3 / 6
    assert Z**2 / (2 * q_m) + Z**2 / (2 * q_s) == pytest.approx(2 * hinge)


def test_stiff_dowel_follows_from_equilibrium() -> None:
    """Mode II: a dowel that does not bend turns until the couples of its bearing in both members agree."""
    D, l_m, l_s, F_em, F_es = 0.5, 3.5, 1.5, 5600.0, 4800.0
    k_II = nds.coefficient_ii.fn(F_em / F_es, l_m / l_s)
    Z = nds.yield_ii.fn(k_II, D, l_s, F_es, 1.0)
    couple = 0.0
    for q, l in ((F_em * D, l_m), (F_es * D, l_s)):
        near = (l + Z / q) / 2  # length that bears against the load; the rest bears the other way
        far = l - near
        couple += q * near * near / 2 - q * far * (near + far / 2)
    assert couple == pytest.approx(0.0, abs=1e-6 * Z)


def test_double_shear_is_two_planes() -> None:
    """A middle member is met by two shear planes: modes I_s, III_s and IV carry twice, I_m does not."""
    D, F_em, F_yb, R_e, R_d = 0.5, 5600.0, 45_000.0, 1.2, 3.2
    assert nds.yield_i_s_double.fn(D, 1.5, F_em, R_d) == 2 * nds.yield_i_s.fn(D, 1.5, F_em, R_d)
    one_hinge = nds.yield_iii_s.fn(0.7, D, 1.5, F_em, R_e, R_d)
    assert nds.yield_iii_s_double.fn(0.7, D, 1.5, F_em, R_e, R_d) == pytest.approx(2 * one_hinge)
    two_hinges = nds.yield_iv.fn(D, F_em, F_yb, R_e, R_d)
    assert nds.yield_iv_double.fn(D, F_em, F_yb, R_e, R_d) == pytest.approx(2 * two_hinges)
    assert nds.lateral_double.fn(9.0, 5.0, 7.0, 6.0) == 5.0
    assert nds.lateral_single.fn(9.0, 8.0, 7.0, 4.0, 6.0, 5.0) == 4.0


def test_bearing_across_the_grain_meets_that_of_a_nail_where_diameters_meet() -> None:
    """Bearing strength across the grain falls with the root of the diameter; along it, it does not depend on it."""
    small, large = (nds.dowel_bearing_perpendicular.fn(0.5, D) for D in (0.25, 1.0))
    assert small == pytest.approx(2 * large)
    par = nds.dowel_bearing_parallel.fn(0.5)
    for sin2, wanted in ((0.0, par), (1.0, small), (0.5, 2 / (1 / par + 1 / small))):
        assert nds.dowel_bearing_at_angle.fn(par, small, sin2, 1 - sin2) == pytest.approx(wanted)


def test_reduction_term_of_thin_dowels_has_no_step() -> None:
    """K_D is 2.2 up to 0.17 in and rises to 3.0 at 1/4 in."""
    assert nds.diameter_coefficient.fn(0.162) == 2.2
    assert nds.diameter_coefficient.fn(0.17 * (1 + 1e-9)) == pytest.approx(2.2)
    assert nds.diameter_coefficient.fn(0.25) == pytest.approx(3.0)


def test_short_penetration_counts_in_proportion_down_to_six_diameters() -> None:
    """From 10 D up a nail counts in full, at 6 D it counts 0.6; its tip bears only from 10 D up."""
    D = 0.162
    assert nds.penetration.fn(12 * D, D) == 1.0
    assert nds.penetration.fn(nds.penetration_minimum.fn(D), D) == pytest.approx(0.6)
    assert nds.lateral_short.fn(141.0, 0.6) == pytest.approx(84.6)
    assert nds.nail_bearing_length.fn(2.0, D) == 2.0
    assert nds.nail_bearing_length.fn(1.5, D) == pytest.approx(1.5 - 2 * D)


def test_adjusted_value_is_the_product_of_its_factors() -> None:
    """Each factor scales the value alone; fasteners of a group add up."""
    ones = [1.0] * 8
    assert nds.lateral.fn(100.0, *ones) == 100.0
    for place in range(8):
        assert nds.lateral.fn(100.0, *ones[:place], 0.7, *ones[place + 1 :]) == pytest.approx(70.0)
    assert nds.lateral_group.fn(6.0, 100.0) == 600.0


STRENGTHS = {"F_b": 2.16, "F_v": 2.16, "F_c": 2.16, "F_c_perp": 1.5, "E_min": 1.5}


@pytest.mark.parametrize(("prop", "strength"), STRENGTHS.items())
def test_load_and_resistance_factors_undo_the_allowable_stress(prop: str, strength: float) -> None:
    """K_F times phi is 2.16 for strengths and 1.5 for stability and bearing across the grain, to the digits of K_F."""
    row = tables.lookup("nds_2018/lrfd", property=prop)
    K_F, phi = row.number("K_F"), row.number("phi")
    others = {"F_b": (1.0,) * 5, "F_v": (1.0,) * 3, "F_c": (1.0,) * 4, "F_c_perp": (1.0,) * 4, "E_min": (1.0,) * 3}[
        prop
    ]
    clause = {
        "F_b": nds.bending_star_lrfd,
        "F_v": nds.shear_lrfd,
        "F_c": nds.compression_star_lrfd,
        "F_c_perp": nds.bearing_lrfd,
        "E_min": nds.modulus_min_lrfd,
    }[prop]
    timed = prop in ("F_b", "F_v", "F_c")
    assert clause.fn(1000.0, *others, K_F, phi, *((1.0,) if timed else ())) == pytest.approx(1000 * strength, rel=4e-3)
    if timed:
        assert clause.fn(1000.0, *others, K_F, phi, 0.8) == pytest.approx(0.8 * 1000 * K_F * phi)


def test_load_and_resistance_factors_leave_the_other_adjustments_alone() -> None:
    """Without K_F, phi and lambda the factored clauses are those of allowable stress at C_D = 1."""
    timed = (
        (nds.bending_star_lrfd, nds.bending_star, (0.85, 1.0, 1.1, 0.8, 1.15)),
        (nds.bending_star_scl_lrfd, nds.bending_star_scl, (1.0, 1.0, 1.04, 1.1)),
        (nds.bending_star_scl_lrfd, nds.bending_star_scl, (1.0, 1.0, 1.04, 0.9)),
        (nds.compression_star_lrfd, nds.compression_star, (0.8, 1.0, 1.1, 0.8)),
        (nds.shear_lrfd, nds.shear, (0.97, 1.0, 0.8)),
    )
    for factored, allowable, factors in timed:
        assert factored.fn(900.0, *factors, 1.0, 1.0, 1.0) == pytest.approx(allowable.fn(900.0, 1.0, *factors))
    untimed = (
        (nds.bearing_lrfd, nds.bearing, (0.67, 1.0, 1.0, 1.1)),
        (nds.modulus_min_lrfd, nds.modulus_min, (0.9, 1.0, 0.95)),
    )
    for factored, allowable, factors in untimed:
        assert factored.fn(900.0, *factors, 1.0, 1.0) == pytest.approx(allowable.fn(900.0, *factors))
    ones = [1.0] * 7
    assert nds.lateral_lrfd.fn(141.0, *ones, 3.32, 0.65, 0.8) == pytest.approx(141 * 3.32 * 0.65 * 0.8)
