"""Bearing across the grain and shear at notches and connections (3.4.3, 3.10)."""

from beamcheck.maths import least, most, where
from beamcheck.trace import Inch, Lb, Psi, Pure, clause


@clause("d_notch")
def notch_depth(k_cut: Pure, d: Inch) -> Inch:
    """Greatest depth of a notch as a share of the member's (4.4.3, 5.4.5, 8.4.1)."""
    return k_cut * d


@clause("d_n")
def depth_at_notch(d: Inch, d_cut: Inch) -> Inch:
    """Depth that a notch leaves (3.4.3.2); next to nothing where it goes through."""
    return most(d - d_cut, d / 1000)


@clause("V_r_adj")
def notched_tension_shear(F_v_adj: Psi, b: Inch, d: Inch, d_n: Inch) -> Lb:
    """Shear capacity at a square end notch on the tension side (3.4.3.2(a), Eq. 3.4-3)."""
    return 2 / 3 * F_v_adj * b * d_n * (d_n / d) ** 2


@clause("V_r_adj")
def notched_compression_shear(F_v_adj: Psi, b: Inch, d: Inch, d_n: Inch, e_n: Inch) -> Lb:
    """Shear capacity at an end notch on the compression side, e_n from the support face (3.4.3.2(e), Eq. 3.4-5)."""
    return 2 / 3 * F_v_adj * b * (d - (d - d_n) / d_n * least(e_n, d_n))


@clause("V_r_adj")
def connection_shear_near_end(F_v_adj: Psi, b: Inch, d: Inch, d_e: Inch) -> Lb:
    """Shear capacity where side fasteners carry the member within 5 d of its end (3.4.3.3(a), Eq. 3.4-6)."""
    return 2 / 3 * F_v_adj * b * d_e * (d_e / d) ** 2


@clause("V_r_adj")
def connection_shear_inside(F_v_adj: Psi, b: Inch, d_e: Inch) -> Lb:
    """Shear capacity where side fasteners carry the member 5 d or more from its end (3.4.3.3(b), Eq. 3.4-7)."""
    return 2 / 3 * F_v_adj * b * d_e


@clause("f_c_perp")
def bearing_stress(R: Lb, b: Inch, l_b: Inch) -> Psi:
    """Compression across the grain under a bearing (3.10.2)."""
    return R / (b * l_b)


@clause("C_b")
def bearing_area(l_b: Inch) -> Pure:
    """Bearing area factor for a bearing shorter than 6 in and 3 in or more from the member's end (3.10.4)."""
    return where(l_b < 6, (l_b + 0.375) / l_b, 1.0)


@clause("F_c_perp_adj")
def bearing(F_c_perp: Psi, C_M: Pure, C_t: Pure, C_i: Pure, C_b: Pure) -> Psi:
    """Adjusted value across the grain; load duration does not apply (3.10.2; Table 4.3.1)."""
    return F_c_perp * C_M * C_t * C_i * C_b


@clause("F_theta_adj")
def bearing_at_angle(F_c_star: Psi, F_c_perp_adj: Psi, sin2: Pure, cos2: Pure) -> Psi:
    """Bearing value at an angle to the grain (3.10.3, Eq. 3.10-1); sin2 and cos2 of the angle from the grain."""
    return F_c_star * F_c_perp_adj / (F_c_star * sin2 + F_c_perp_adj * cos2)


@clause("F_end")
def end_grain_bearing(F_c_star: Psi) -> Psi:
    """End grain may bear up to this on wood; above it a steel plate or other stiff insert is needed (3.10.1.3)."""
    return 0.75 * F_c_star


@clause("F_c_perp_less")
def bearing_at_less_crush(F_c_perp_adj: Psi, k_crush: Pure) -> Psi:
    """Value across the grain where less crushing than 0.04 in is allowed (4.2.6)."""
    return F_c_perp_adj * k_crush
