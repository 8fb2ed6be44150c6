"""Dowels in side-loaded plies and hangers: nails, and bolts in single or double shear (chapters 11 and 12).

Lateral values only. Withdrawal, lag screws and wood screws are left out. The group action factor C_g is 1.0 for
dowels under 1/4 in (11.3.6.1), so nails need none; a row of bolts must be given its own.
"""

from beamcheck.maths import least, most, sqrt, where
from beamcheck.trace import Degree, Foot, Inch, Lb, Plf, Psi, Pure, clause


@clause("F_e")
def dowel_bearing_small(G: Pure) -> Psi:
    """Dowel bearing strength under a nail or other dowel thinner than 1/4 in, any direction (12.3.3; Table 12.3.3)."""
    return 16600 * G**1.84


@clause("F_e_par")
def dowel_bearing_parallel(G: Pure) -> Psi:
    """Dowel bearing strength along the grain under a dowel of 1/4 in or more (12.3.3; Table 12.3.3)."""
    return 11200 * G


@clause("F_e_perp")
def dowel_bearing_perpendicular(G: Pure, D: Inch) -> Psi:
    """Dowel bearing strength across the grain under a dowel of 1/4 in or more (12.3.3; Table 12.3.3)."""
    return 6100 * G**1.45 / sqrt(D)


@clause("F_e_theta")
def dowel_bearing_at_angle(F_e_par: Psi, F_e_perp: Psi, sin2: Pure, cos2: Pure) -> Psi:
    """Dowel bearing strength at an angle to the grain (12.3.4, Eq. 12.3-11)."""
    return F_e_par * F_e_perp / (F_e_par * sin2 + F_e_perp * cos2)


@clause("K_D")
def diameter_coefficient(D: Inch) -> Pure:
    """Reduction term of a dowel thinner than 1/4 in, for every yield mode (12.3.1, Table 12.3.1B, footnote 1)."""
    return where(D <= 0.17, 2.2, 10 * D + 0.5)


@clause("K_theta")
def angle_coefficient(theta_g: Degree) -> Pure:
    """What the greatest angle of load to grain, 0 to 90, adds to the reduction term (12.3.1, Table 12.3.1B)."""
    return 1 + 0.25 * (theta_g / 90)


@clause("R_d")
def reduction_term(k_mode: Pure, K_theta: Pure) -> Pure:
    """Reduction term of one yield mode for dowels of 1/4 in to 1 in (12.3.1, Table 12.3.1B)."""
    return k_mode * K_theta


@clause("R_e")
def bearing_ratio(F_em: Psi, F_es: Psi) -> Pure:
    """Dowel bearing strength of the main over that of the side member (12.3.1)."""
    return F_em / F_es


@clause("R_t")
def length_ratio(l_m: Inch, l_s: Inch) -> Pure:
    """Dowel bearing length in the main over that in the side member (12.3.1)."""
    return l_m / l_s


@clause("k_II")
def coefficient_ii(R_e: Pure, R_t: Pure) -> Pure:
    """Coefficient k_1 of yield mode II (12.3.1, Table 12.3.1A)."""
    return (sqrt(R_e + 2 * R_e**2 * (1 + R_t + R_t**2) + R_t**2 * R_e**3) - R_e * (1 + R_t)) / (1 + R_e)


@clause("k_III_m")
def coefficient_iii_m(R_e: Pure, F_yb: Psi, D: Inch, F_em: Psi, l_m: Inch) -> Pure:
    """Coefficient k_2 of yield mode III_m (12.3.1, Table 12.3.1A)."""
    return -1 + sqrt(2 * (1 + R_e) + 2 * F_yb * (1 + 2 * R_e) * D**2 / (3 * F_em * l_m**2))


@clause("k_III_s")
def coefficient_iii_s(R_e: Pure, F_yb: Psi, D: Inch, F_em: Psi, l_s: Inch) -> Pure:
    """Coefficient k_3 of yield mode III_s (12.3.1, Table 12.3.1A)."""
    return -1 + sqrt(2 * (1 + R_e) / R_e + 2 * F_yb * (2 + R_e) * D**2 / (3 * F_em * l_s**2))


@clause("Z_I_m")
def yield_i_m(D: Inch, l_m: Inch, F_em: Psi, R_d: Pure) -> Lb:
    """Mode I_m, single and double shear: the main member crushes (12.3.1, Eq. 12.3-1 and 12.3-7)."""
    return D * l_m * F_em / R_d


@clause("Z_I_s")
def yield_i_s(D: Inch, l_s: Inch, F_es: Psi, R_d: Pure) -> Lb:
    """Mode I_s, single shear: the side member crushes (12.3.1, Eq. 12.3-2)."""
    return D * l_s * F_es / R_d


@clause("Z_II")
def yield_ii(k_II: Pure, D: Inch, l_s: Inch, F_es: Psi, R_d: Pure) -> Lb:
    """Mode II, single shear: the dowel turns stiffly (12.3.1, Eq. 12.3-3)."""
    return k_II * D * l_s * F_es / R_d


@clause("Z_III_m")
def yield_iii_m(k_III_m: Pure, D: Inch, l_m: Inch, F_em: Psi, R_e: Pure, R_d: Pure) -> Lb:
    """Mode III_m, single shear: one hinge, the main member crushes (12.3.1, Eq. 12.3-4)."""
    return k_III_m * D * l_m * F_em / ((1 + 2 * R_e) * R_d)


@clause("Z_III_s")
def yield_iii_s(k_III_s: Pure, D: Inch, l_s: Inch, F_em: Psi, R_e: Pure, R_d: Pure) -> Lb:
    """Mode III_s, single shear: one hinge, the side member crushes (12.3.1, Eq. 12.3-5)."""
    return k_III_s * D * l_s * F_em / ((2 + R_e) * R_d)


@clause("Z_IV")
def yield_iv(D: Inch, F_em: Psi, F_yb: Psi, R_e: Pure, R_d: Pure) -> Lb:
    """Mode IV, single shear: two hinges (12.3.1, Eq. 12.3-6)."""
    return D**2 / R_d * sqrt(2 * F_em * F_yb / (3 * (1 + R_e)))


@clause("Z_I_s")
def yield_i_s_double(D: Inch, l_s: Inch, F_es: Psi, R_d: Pure) -> Lb:
    """Mode I_s, double shear (12.3.1, Eq. 12.3-8)."""
    return 2 * D * l_s * F_es / R_d


@clause("Z_III_s")
def yield_iii_s_double(k_III_s: Pure, D: Inch, l_s: Inch, F_em: Psi, R_e: Pure, R_d: Pure) -> Lb:
    """Mode III_s, double shear (12.3.1, Eq. 12.3-9)."""
    return 2 * k_III_s * D * l_s * F_em / ((2 + R_e) * R_d)


@clause("Z_IV")
def yield_iv_double(D: Inch, F_em: Psi, F_yb: Psi, R_e: Pure, R_d: Pure) -> Lb:
    """Mode IV, double shear (12.3.1, Eq. 12.3-10)."""
    return 2 * D**2 / R_d * sqrt(2 * F_em * F_yb / (3 * (1 + R_e)))


@clause("Z")
def lateral_single(Z_I_m: Lb, Z_I_s: Lb, Z_II: Lb, Z_III_m: Lb, Z_III_s: Lb, Z_IV: Lb) -> Lb:
    """Reference lateral value of one dowel in single shear: the least mode (12.3.1)."""
    return least(Z_I_m, least(Z_I_s, least(Z_II, least(Z_III_m, least(Z_III_s, Z_IV)))))


@clause("Z")
def lateral_double(Z_I_m: Lb, Z_I_s: Lb, Z_III_s: Lb, Z_IV: Lb) -> Lb:
    """Reference lateral value of one dowel in double shear: the least mode (12.3.1)."""
    return least(Z_I_m, least(Z_I_s, least(Z_III_s, Z_IV)))


@clause("k_pen")
def penetration(p: Inch, D: Inch) -> Pure:
    """Share of a nail's tabulated value for a penetration p of 6 D to 10 D; less counts none (Table 12N, footnote 3).

    Applies to the printed values of Tables 12N to 12R; the yield equations with the l_m there is need none.
    """
    return least(1.0, p / (10 * D))


@clause("Z")
def lateral_short(Z: Lb, k_pen: Pure) -> Lb:
    """Tabulated lateral value of a nail, less its share for short penetration (Table 12N, footnote 3)."""
    return Z * k_pen


@clause("l_m")
def nail_bearing_length(p: Inch, D: Inch) -> Inch:
    """Dowel bearing length of a nail in the member that holds its point: its tip counts from 10 D up (12.3.5.3).

    The tip is taken as 2 D long. Applies: penetration p of 6 D or more, tip included.
    """
    return where(p >= 10 * D, p, p - 2 * D)


@clause("p")
def nail_penetration(l_nail: Inch, b_ply: Inch) -> Inch:
    """How far a nail reaches beyond the first ply that it is driven through, tip included (12.1.6.5)."""
    return most(l_nail, b_ply) - b_ply


@clause("l_m")
def bearing_within_ply(l_m: Inch, b_ply: Inch) -> Inch:
    """Dowel bearing length in the ply beyond the joint: no more than its thickness (12.3.5)."""
    return least(l_m, b_ply)


@clause("p_min")
def penetration_minimum(D: Inch) -> Inch:
    """Least penetration of a nail into the member that holds its point, tip included (12.1.6.5)."""
    return 6 * D


@clause("Z_adj")
def lateral(Z: Lb, C_D: Pure, C_M: Pure, C_t: Pure, C_g: Pure, C_Delta: Pure, C_eg: Pure, C_di: Pure, C_tn: Pure) -> Lb:
    """Adjusted lateral value of one dowel (11.3, Table 11.3.1)."""
    return Z * C_D * C_M * C_t * C_g * C_Delta * C_eg * C_di * C_tn


@clause("Z_group")
def lateral_group(n_f: Pure, Z_adj: Lb) -> Lb:
    """Lateral value of a group of like dowels that slip together (11.2.2)."""
    return n_f * Z_adj


@clause("w_Z")
def lateral_line(Z_group: Lb, o_f: Foot) -> Plf:
    """Lateral value of fasteners at a spacing, per length of the joint (11.2.2)."""
    return Z_group / o_f


@clause("d_rows")
def depth_for_rows(n_f: Pure, x_edge: Inch, x_rows: Inch) -> Inch:
    """Depth that fasteners one above the other need, with the distance to both edges (geometry)."""
    return 2 * x_edge + (n_f - 1) * x_rows
