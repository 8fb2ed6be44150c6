"""Columns, solid and built-up, centric and eccentric (3.6 to 3.9, 15.3, 15.4)."""

from beamcheck.maths import most, sqrt
from beamcheck.trace import In2, Inch, Lb, Psi, Pure, clause


@clause("f_c")
def compression_stress(P: Lb, A: In2) -> Psi:
    """Compression parallel to grain on the net section (3.6.3)."""
    return P / A


@clause("l_e")
def column_length(K_e: Pure, l: Inch) -> Inch:
    """Effective column length (3.7.1.2; Appendix G)."""
    return K_e * l


@clause("s_c")
def column_slenderness(l_e: Inch, d: Inch) -> Pure:
    """Slenderness of a column about one axis (3.7.1.3); at most 50, 75 while being built (3.7.1.4)."""
    return l_e / d


@clause("F_cE")
def critical_compression(E_min_adj: Psi, s_c: Pure) -> Psi:
    """Critical buckling value for compression about one axis (3.7.1.5)."""
    return 0.822 * E_min_adj / s_c**2


@clause("F_c_star")
def compression_star(F_c: Psi, C_D: Pure, C_M: Pure, C_t: Pure, C_F: Pure, C_i: Pure) -> Psi:
    """Compression value with every factor but C_P (3.7.1.5; Tables 4.3.1, 5.3.1, 8.3.1)."""
    return F_c * C_D * C_M * C_t * C_F * C_i


@clause("C_P")
def column_stability(F_cE: Psi, F_c_star: Psi, c: Pure) -> Pure:
    """Column stability factor of a solid column (3.7.1.5, Eq. 3.7-1)."""
    return (1 + F_cE / F_c_star) / (2 * c) - sqrt(((1 + F_cE / F_c_star) / (2 * c)) ** 2 - F_cE / F_c_star / c)


@clause("C_P")
def column_stability_built_up(F_cE: Psi, F_c_star: Psi, c: Pure, K_f: Pure) -> Pure:
    """Column stability factor of a built-up column about one axis (15.3.2, Eq. 15.3-1).

    K_f below 1.0 applies to the axis parallel to the joints between plies only.
    """
    return K_f * (
        (1 + F_cE / F_c_star) / (2 * c) - sqrt(((1 + F_cE / F_c_star) / (2 * c)) ** 2 - F_cE / F_c_star / c)
    )


@clause("F_c_adj")
def compression(F_c_star: Psi, C_P: Pure) -> Psi:
    """Adjusted compression value parallel to grain (3.6, 3.7; Table 4.3.1)."""
    return F_c_star * C_P


@clause("k_1")
def amplifier_strong(f_c: Psi, F_cE1: Psi) -> Pure:
    """What axial load leaves of the strong axis (3.9.2); f_c at or above F_cE1 is refused by its own check."""
    return most(0.000001, 1 - f_c / F_cE1)


@clause("k_2")
def amplifier_weak(f_c: Psi, F_cE2: Psi, f_b1: Psi, F_bE: Psi) -> Pure:
    """What axial load and strong-axis bending leave of the weak axis (3.9.2)."""
    return most(0.000001, 1 - f_c / F_cE2 - (f_b1 / F_bE) ** 2)


@clause("u_c")
def bending_and_compression(
    f_c: Psi, F_c_adj: Psi, f_b1: Psi, F_b1_adj: Psi, k_1: Pure, f_b2: Psi, F_b2_adj: Psi, k_2: Pure
) -> Pure:
    """Interaction of axial compression and bending about both axes (3.9.2, Eq. 3.9-3)."""
    return (f_c / F_c_adj) ** 2 + f_b1 / (F_b1_adj * k_1) + f_b2 / (F_b2_adj * k_2)


@clause("u_t")
def bending_and_tension(f_t: Psi, F_t_adj: Psi, f_b: Psi, F_b_star: Psi) -> Pure:
    """Interaction of axial tension and bending (3.9.1, Eq. 3.9-1)."""
    return f_t / F_t_adj + f_b / F_b_star


@clause("f_b1")
def eccentric_bending_strong(f_c: Psi, e_1: Inch, d_1: Inch) -> Psi:
    """Bending stress of an end load e_1 off the strong axis of a rectangle (15.4.1; textbook)."""
    return f_c * (6 * e_1 / d_1)


@clause("f_b2")
def eccentric_bending_weak(f_c: Psi, e_2: Inch, d_2: Inch) -> Psi:
    """Bending stress of an end load e_2 off the weak axis of a rectangle (15.4.1; textbook)."""
    return f_c * (6 * e_2 / d_2)


@clause("u_e")
def eccentric_compression(
    f_c: Psi,
    F_c_adj: Psi,
    f_b1: Psi,
    F_cE1: Psi,
    F_b1_adj: Psi,
    k_1: Pure,
    f_b2: Psi,
    F_cE2: Psi,
    F_bE: Psi,
    F_b2_adj: Psi,
    k_2: Pure,
) -> Pure:
    """Interaction for an eccentric end load without side load (15.4.1, Eq. 15.4-1).

    f_b1 and f_b2 are the end-moment stresses of the eccentric load about the strong and the weak axis.
    """
    return (
        (f_c / F_c_adj) ** 2
        + f_b1 * (1 + 0.234 * f_c / F_cE1) / (F_b1_adj * k_1)
        + f_b2 * (1 + 0.234 * f_c / F_cE2 + 0.234 * (f_b1 / F_bE) ** 2) / (F_b2_adj * k_2)
    )


@clause("u_e")
def eccentric_compression_one_axis(
    f_c: Psi, F_c_adj: Psi, f_b1: Psi, F_cE1: Psi, F_b1_adj: Psi, k_1: Pure
) -> Pure:
    """Interaction for an end load off one axis only, without side load (15.4.1, Eq. 15.4-1 with its other terms nil).

    f_b1, F_cE1, F_b1_adj and k_1 are of the axis about which the load bends the post.
    """
    return (f_c / F_c_adj) ** 2 + f_b1 * (1 + 0.234 * f_c / F_cE1) / (F_b1_adj * k_1)


@clause("x_fast")
def distance_by_diameter(k_D: Pure, D: Inch) -> Inch:
    """Distance of the fasteners between plies that goes by their diameter (12.1.6.6, 12.5.1, 15.3.3, 15.3.4)."""
    return k_D * D


@clause("x_fast")
def distance_by_ply(k_ply: Pure, b_ply: Inch) -> Inch:
    """Distance of the fasteners of a built-up column that goes by the thinnest ply (15.3.3, 15.3.4)."""
    return k_ply * b_ply


@clause("l_nail")
def nail_length_needed(n: Pure, k_last: Pure, b_ply: Inch) -> Inch:
    """Length of a nail that goes through all plies but the last, and that share into the last (15.3.3.1)."""
    return (n - 1 + k_last) * b_ply
