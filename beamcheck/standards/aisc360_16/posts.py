"""Pipe and square tube as posts, loaded on their centre or off it (chapters E, F, H and Appendix 8)."""

from math import pi

from beamcheck.maths import least, most, sqrt, where
from beamcheck.trace import In2, In3, In4, Inch, Lb, LbIn, Psi, Pure, clause


@clause("s_r")
def column_slenderness(K: Pure, l: Inch, r: Inch) -> Pure:
    """Slenderness L_c/r of a column (E2)."""
    return K * l / r


@clause("F_e_col")
def elastic_buckling(E: Psi, s_r: Pure) -> Psi:
    """Elastic buckling stress of a column (E3, Eq. E3-4)."""
    return E * (pi / s_r) ** 2


@clause("F_cr_c")
def column_critical_stress(F_y: Psi, E: Psi, s_r: Pure, F_e_col: Psi) -> Psi:
    """Critical stress of a column without slender walls (E3, Eq. E3-2 and E3-3)."""
    return where(s_r <= 4.71 * sqrt(E / F_y), 0.658 ** (F_y / F_e_col) * F_y, 0.877 * F_e_col)


@clause("P_n")
def nominal_compression(F_cr_c: Psi, A: In2) -> Lb:
    """Nominal compression of a column (E3, Eq. E3-1)."""
    return F_cr_c * A


@clause("P_allow")
def allowable_compression(P_n: Lb, Omega: Pure) -> Lb:
    """Allowable compression (B3.2, Eq. B3-2; E1)."""
    return P_n / Omega


@clause("lambda_wall")
def wall_slenderness_square(b: Inch, t_des: Inch) -> Pure:
    """Flat width to thickness of a square tube's wall, corners taken as 1.5 t_des each (B4.1b(d))."""
    return (b - 3 * t_des) / t_des


@clause("lambda_wall")
def wall_slenderness_round(b: Inch, t_des: Inch) -> Pure:
    """Outside diameter to thickness of a pipe (Table B4.1a, case 9)."""
    return b / t_des


@clause("lambda_wall_lim")
def wall_limit_square(E: Psi, F_y: Psi) -> Pure:
    """Wall slenderness of a square tube up to which it does not buckle locally (Table B4.1a, case 6)."""
    return 1.40 * sqrt(E / F_y)


@clause("lambda_wall_lim")
def wall_limit_round(E: Psi, F_y: Psi) -> Pure:
    """Wall slenderness of a pipe up to which it does not buckle locally (Table B4.1a, case 9)."""
    return 0.11 * E / F_y


@clause("Z_x")
def plastic_modulus_round(b: Inch, t_des: Inch) -> In3:
    """Plastic section modulus of a pipe of outside diameter b (textbook)."""
    return (b**3 - (b - 2 * t_des) ** 3) / 6


@clause("Z_x")
def plastic_modulus_square(b: Inch, t_des: Inch) -> In3:
    """Plastic section modulus of a square tube, corners rounded by 2 t_des outside and t_des inside (textbook).

    Note: what the corners lack is 1.5 (4 - pi) b t_des^2 less (58/3 - 6 pi) t_des^3, in six digits.
    """
    return (b**3 - (b - 2 * t_des) ** 3) / 4 - 1.28761 * b * t_des**2 + 0.48378 * t_des**3


@clause("M_n")
def moment_of_tube(M_p: LbIn, F_y: Psi, S_x: In3, lambda_wall: Pure, E: Psi) -> LbIn:
    """Nominal moment of a square tube, its flange compact or noncompact (F7.1 and F7.2, Eq. F7-1 and F7-2).

    Applies: flat width to thickness of the wall up to 1.40 sqrt(E/F_y), which the check of the wall sees to; there
    the web is compact, and a square section does not buckle sideways.
    """
    return least(M_p, M_p - (M_p - F_y * S_x) * (3.57 * lambda_wall * sqrt(F_y / E) - 4.0))


@clause("M_n")
def moment_of_pipe(M_p: LbIn, F_y: Psi, S_x: In3, lambda_wall: Pure, E: Psi) -> LbIn:
    """Nominal moment of a pipe, its wall compact or noncompact (F8.1 and F8.2, Eq. F8-1 and F8-2).

    Applies: diameter to thickness up to 0.31 E/F_y; the check of the wall ends at 0.11 E/F_y.
    """
    return where(lambda_wall <= 0.07 * E / F_y, M_p, least(M_p, (0.021 * E / lambda_wall + F_y) * S_x))


@clause("P_e1")
def euler_load(E: Psi, I_x: In4, l: Inch) -> Lb:
    """Elastic critical load of a post that is held at both ends (Appendix 8, Eq. A-8-5).

    Applies: with the effective length method, so the full stiffness E I counts.
    """
    return E * I_x * (pi / l) ** 2


@clause("B_1")
def amplifier(C_m: Pure, alpha: Pure, P: Lb, P_e1: Lb) -> Pure:
    """What the axial load makes of the moment as the post bends under it (Appendix 8, Eq. A-8-3).

    Note: a load at or above P_e1 over alpha makes it endless, and the interaction with it.
    """
    return most(1.0, C_m / most(0.000001, 1 - alpha * P / P_e1))


@clause("M_r")
def eccentric_moment(B_1: Pure, P: Lb, e: Inch) -> LbIn:
    """Moment of an axial load e off the centre of a post, its second-order part included (Appendix 8, Eq. A-8-1)."""
    return B_1 * P * e


@clause("u_h")
def combined(P: Lb, P_allow: Lb, M_r: LbIn, M_allow: LbIn) -> Pure:
    """Interaction of axial load and bending about one axis (H1.1, Eq. H1-1a and H1-1b)."""
    return where(P / P_allow >= 0.2, P / P_allow + 8 / 9 * (M_r / M_allow), P / P_allow / 2 + M_r / M_allow)
