"""Bending members: sections, bending, shear, stiffness (chapters 3 to 5 and 8)."""

from beamcheck.maths import least, most, sqrt, where
from beamcheck.trace import In2, In3, In4, Inch, Lb, LbIn, LbIn3, Psi, Pure, clause


@clause("A")
def area(b: Inch, d: Inch) -> In2:
    """Area of a rectangle (3.1.2; textbook)."""
    return b * d


@clause("S")
def section_modulus(b: Inch, d: Inch) -> In3:
    """Section modulus of a rectangle about the axis across its depth (3.3.2.1; textbook)."""
    return b * d**2 / 6


@clause("I")
def moment_of_inertia(b: Inch, d: Inch) -> In4:
    """Moment of inertia of a rectangle about the axis across its depth (3.3.2.1; textbook)."""
    return b * d**3 / 12


@clause("f_b")
def bending_stress(M: LbIn, S: In3) -> Psi:
    """Greatest bending stress of a straight beam bent about one axis (3.3.2, Eq. 3.3-1)."""
    return M / S


@clause("l_e")
def effective_length(l_u: Inch, d: Inch, k_short: Pure, k_long: Pure, k_depth: Pure) -> Inch:
    """Effective length of a bending member for a load case that Table 3.3.3 lists (3.3.3.5)."""
    return where(l_u / d < 7, k_short * l_u, k_long * l_u + k_depth * d)


@clause("l_e")
def effective_length_unlisted(l_u: Inch, d: Inch) -> Inch:
    """Effective length for any load case that Table 3.3.3 does not list (Table 3.3.3, footnote 1)."""
    return where(l_u / d < 7, 2.06 * l_u, where(l_u / d <= 14.3, 1.63 * l_u + 3 * d, 1.84 * l_u))


@clause("R_B")
def slenderness_ratio(l_e: Inch, d: Inch, b: Inch) -> Pure:
    """Slenderness ratio of a bending member (3.3.3.6, Eq. 3.3-5); R_B is not to exceed 50 (3.3.3.7)."""
    return sqrt(l_e * d / b**2)


@clause("F_bE")
def critical_bending(E_min_adj: Psi, R_B: Pure) -> Psi:
    """Critical buckling value for bending members (3.3.3.8)."""
    return 1.20 * E_min_adj / R_B**2


@clause("C_L")
def beam_stability(F_bE: Psi, F_b_star: Psi) -> Pure:
    """Beam stability factor (3.3.3.8, Eq. 3.3-6)."""
    return (1 + F_bE / F_b_star) / 1.9 - sqrt(((1 + F_bE / F_b_star) / 1.9) ** 2 - F_bE / F_b_star / 0.95)


@clause("C_V")
def volume_glulam(l_0: Inch, d: Inch, b: Inch, x: Pure) -> Pure:
    """Volume factor of glulam loaded on its narrow face (5.3.6, Eq. 5.3-1).

    l_0 is the length between points of zero moment; b the width of the widest piece, at most 10.75 in.
    """
    return least(1.0, (252 / l_0) ** (1 / x) * (12 / d) ** (1 / x) * (5.125 / b) ** (1 / x))


@clause("C_V")
def volume_scl(d: Inch, d_0: Inch, m: Pure, C_V_most: Pure) -> Pure:
    """Volume (depth) factor of structural composite lumber (8.3.6): the product's own rule (d_0/d)^m up to a cap."""
    return least(C_V_most, (d_0 / d) ** m)


@clause("C_F")
def size_timber(d: Inch) -> Pure:
    """Size factor of timbers deeper than 12 in (4.3.6.2; Supplement Table 4D)."""
    return least(1.0, (12 / d) ** (1 / 9))


@clause("F_b_star")
def bending_star(F_b: Psi, C_D: Pure, C_M: Pure, C_t: Pure, C_F: Pure, C_i: Pure, C_r: Pure) -> Psi:
    """Bending value with every factor but C_L, C_fu and C_V (3.3.3.8; Tables 4.3.1, 5.3.1, 8.3.1)."""
    return F_b * C_D * C_M * C_t * C_F * C_i * C_r


@clause("F_b_star")
def bending_star_scl(F_b: Psi, C_D: Pure, C_M: Pure, C_t: Pure, C_r: Pure, C_V: Pure) -> Psi:
    """Bending value of composite lumber for C_L: holds C_V where C_V is above 1.0 (3.3.3.8; Table 8.3.1)."""
    return F_b * C_D * C_M * C_t * C_r * most(1.0, C_V)


@clause("F_b_adj")
def bending_sawn(F_b_star: Psi, C_L: Pure, C_fu: Pure) -> Psi:
    """Adjusted bending value of sawn lumber (4.3, Table 4.3.1)."""
    return F_b_star * C_L * C_fu


@clause("F_b_adj")
def bending_glued(F_b_star: Psi, C_L: Pure, C_V: Pure) -> Psi:
    """Adjusted bending value of glulam and composite lumber: the lesser of C_L and C_V applies (5.3.6, 8.3.6)."""
    return F_b_star * least(C_L, C_V)


@clause("u")
def bending_share(f_b: Psi, F_b_adj: Psi) -> Pure:
    """How far a member is used in bending (3.3.1)."""
    return f_b / F_b_adj


@clause("f_v")
def shear_stress(V: Lb, b: Inch, d: Inch) -> Psi:
    """Greatest shear stress parallel to grain in a rectangle (3.4.2, Eq. 3.4-2)."""
    return 3 * V / (2 * b * d)


@clause("F_v_adj")
def shear(F_v: Psi, C_D: Pure, C_M: Pure, C_t: Pure, C_i: Pure) -> Psi:
    """Adjusted shear value (Tables 4.3.1, 5.3.1, 8.3.1)."""
    return F_v * C_D * C_M * C_t * C_i


@clause("V")
def shear_within_depth(V_d: Lb, P_d: Lb) -> Lb:
    """Shear at a depth from the support face, with the point loads nearer than that at x/d of their size (3.4.3.1).

    Applies: full bearing on one face and the load on the opposite face. Note: each near load is counted with its
    whole x/d share on the near support, a little on the safe side of its statics.
    """
    return V_d + P_d


@clause("E_adj")
def modulus(E: Psi, C_M: Pure, C_t: Pure, C_i: Pure) -> Psi:
    """Adjusted modulus of elasticity (Tables 4.3.1, 5.3.1, 8.3.1)."""
    return E * C_M * C_t * C_i


@clause("E_min_adj")
def modulus_min(E_min: Psi, C_M: Pure, C_t: Pure, C_i: Pure) -> Psi:
    """Adjusted modulus for beam and column stability (Tables 4.3.1, 5.3.1, 8.3.1)."""
    return E_min * C_M * C_t * C_i


@clause("E_min")
def modulus_min_reference(E: Psi, COV_E: Pure, k_E: Pure) -> Psi:
    """Reference modulus for stability from the mean modulus and its spread (Appendix D, Eq. D-4)."""
    return E * (1 - 1.645 * COV_E) * k_E / 1.66


@clause("C_T")
def buckling_stiffness(l_e: Inch, E: Psi, K_M: Pure, K_T: Pure) -> Pure:
    """Buckling stiffness factor of a sheathed 2x4 truss chord (4.4.2, Eq. 4.4-1); l_e at most 96 in."""
    return 1 + K_M * least(l_e, 96.0) / (K_T * E)


@clause("delta_b")
def bending_deflection(Y: LbIn3, E_adj: Psi, I: In4) -> Inch:
    """Deflection by bending, from the beam line's deflection times EI (3.5.1; textbook)."""
    return Y / (E_adj * I)


@clause("delta_s")
def shear_deflection(M: LbIn, E_adj: Psi, b: Inch, d: Inch) -> Inch:
    """Deflection by shear where E is free of it: 1.2 M/(G A) with G = E/16, exact for a simple span (3.5.1)."""
    return 1.2 * M / (E_adj / 16 * b * d)


@clause("delta")
def deflection(delta_b: Inch, delta_s: Inch) -> Inch:
    """Deflection by bending and shear (sum of the two parts); on the safe side where the peaks lie apart."""
    return delta_b + delta_s


@clause("delta_T")
def total_deflection(K_cr: Pure, delta_LT: Inch, delta_ST: Inch) -> Inch:
    """Total deflection: the long-term part creeps, the short-term part does not (3.5.2, Eq. 3.5-1)."""
    return K_cr * delta_LT + delta_ST
