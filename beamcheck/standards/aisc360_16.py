"""AISC 360-16, allowable strength design: W shapes in bending and shear, their bearings, pipe and square tube as posts.

Doubly symmetric rolled shapes only. Every allowable figure is a nominal one over its safety factor Omega, which
comes from the table. Strengths are forces and moments, so demands are compared as such, not as stresses.
"""

from math import pi

from beamcheck.maths import least, most, sqrt, where
from beamcheck.trace import In2, In3, In4, Inch, Lb, LbIn, LbIn3, Psi, Pure, clause


@clause("M_p")
def plastic_moment(F_y: Psi, Z_x: In3) -> LbIn:
    """Plastic moment, the limit of yielding about the strong axis (F2.1, Eq. F2-1)."""
    return F_y * Z_x


@clause("L_p")
def length_for_yielding(r_y: Inch, E: Psi, F_y: Psi) -> Inch:
    """Unbraced length up to which the plastic moment is reached (F2.2, Eq. F2-5)."""
    return 1.76 * r_y * sqrt(E / F_y)


@clause("L_r_beam")
def length_for_inelastic(r_ts: Inch, E: Psi, F_y: Psi, J: In4, S_x: In3, h_o: Inch) -> Inch:
    """Unbraced length above which the beam buckles while still elastic (F2.2, Eq. F2-6).

    Applies: doubly symmetric shapes, c = 1. Note: its rounded constants leave a hair's step to Eq. F2-3 at L_r.
    """
    return (
        1.95
        * r_ts
        * (E / (0.7 * F_y))
        * sqrt(J / (S_x * h_o) + sqrt((J / (S_x * h_o)) ** 2 + 6.76 * (0.7 * F_y / E) ** 2))
    )


@clause("C_b_ltb")
def moment_gradient(M_max: LbIn, M_A: LbIn, M_B: LbIn, M_C: LbIn) -> Pure:
    """Lateral-torsional buckling modification factor of one unbraced length (F1, Eq. F1-1).

    Sizes of the greatest moment and of those at the quarter, middle and three-quarter points. Note: 1.0 may always
    be taken instead; neither form counts a load that hangs on a top edge free to sway.
    """
    return 12.5 * M_max / (2.5 * M_max + 3 * M_A + 4 * M_B + 3 * M_C)


@clause("F_cr_b")
def lateral_critical_stress(C_b_ltb: Pure, E: Psi, L_b: Inch, r_ts: Inch, J: In4, S_x: In3, h_o: Inch) -> Psi:
    """Stress at which the beam buckles sideways while elastic, c = 1 (F2.2, Eq. F2-4)."""
    return C_b_ltb * E * (pi / (L_b / r_ts)) ** 2 * sqrt(1 + 0.078 * (J / (S_x * h_o)) * (L_b / r_ts) ** 2)


@clause("M_LTB")
def lateral_buckling(
    M_p: LbIn, C_b_ltb: Pure, F_y: Psi, S_x: In3, L_b: Inch, L_p: Inch, L_r_beam: Inch, F_cr_b: Psi
) -> LbIn:
    """Nominal moment by lateral-torsional buckling, never above the plastic moment (F2.2, Eq. F2-2 and F2-3)."""
    return where(
        L_b <= L_p,
        M_p,
        where(
            L_b <= L_r_beam,
            least(M_p, C_b_ltb * (M_p - (M_p - 0.7 * F_y * S_x) * ((L_b - L_p) / (L_r_beam - L_p)))),
            least(M_p, F_cr_b * S_x),
        ),
    )


@clause("lambda_f")
def flange_slenderness(b_f: Inch, t_f: Inch) -> Pure:
    """Width to thickness of half the flange (B4.1b, Table B4.1b case 10)."""
    return b_f / (2 * t_f)


@clause("lambda_pf")
def flange_compact(E: Psi, F_y: Psi) -> Pure:
    """Flange slenderness up to which the flange is compact (Table B4.1b, case 10)."""
    return 0.38 * sqrt(E / F_y)


@clause("lambda_rf")
def flange_noncompact(E: Psi, F_y: Psi) -> Pure:
    """Flange slenderness up to which the flange is not slender, the end of Eq. F3-1 (Table B4.1b, case 10)."""
    return 1.0 * sqrt(E / F_y)


@clause("M_FLB")
def flange_buckling(M_p: LbIn, F_y: Psi, S_x: In3, lambda_f: Pure, lambda_pf: Pure, lambda_rf: Pure) -> LbIn:
    """Nominal moment by local buckling of a compact or noncompact flange (F3.2, Eq. F3-1).

    Leaves out: slender flanges (Eq. F3-2), which no listed W shape has; lambda_f above lambda_rf has its own check.
    """
    return where(
        lambda_f <= lambda_pf,
        M_p,
        M_p - (M_p - 0.7 * F_y * S_x) * ((lambda_f - lambda_pf) / (lambda_rf - lambda_pf)),
    )


@clause("M_n")
def nominal_moment(M_LTB: LbIn, M_FLB: LbIn) -> LbIn:
    """Nominal moment, the lower of the limit states (F2, F3)."""
    return least(M_LTB, M_FLB)


@clause("M_allow")
def allowable_moment(M_n: LbIn, Omega: Pure) -> LbIn:
    """Allowable moment (B3.2, Eq. B3-2; F1)."""
    return M_n / Omega


@clause("lambda_w_lim")
def stocky_web(E: Psi, F_y: Psi) -> Pure:
    """Web slenderness h/t_w up to which a rolled web takes the lower safety factor in shear (G2.1(a))."""
    return 2.24 * sqrt(E / F_y)


@clause("C_v1")
def web_shear_factor(h_tw: Pure, k_v: Pure, E: Psi, F_y: Psi) -> Pure:
    """Web shear strength coefficient without stiffeners (G2.1, Eq. G2-2 to G2-4)."""
    return least(1.0, 1.10 * sqrt(k_v * E / F_y) / h_tw)


@clause("V_n")
def nominal_shear(F_y: Psi, d: Inch, t_web: Inch, C_v1: Pure) -> Lb:
    """Nominal shear of the web, its area taken over the whole depth (G2.1, Eq. G2-1)."""
    return 0.6 * F_y * d * t_web * C_v1


@clause("V_allow")
def allowable_shear(V_n: Lb, Omega: Pure) -> Lb:
    """Allowable shear (B3.2, Eq. B3-2; G1)."""
    return V_n / Omega


@clause("R_n")
def web_yielding_inside(F_y: Psi, t_web: Inch, k_des: Inch, l_b: Inch) -> Lb:
    """Local yielding of the web over a bearing farther than d from the member's end (J10.2, Eq. J10-2)."""
    return F_y * t_web * (5 * k_des + l_b)


@clause("R_n")
def web_yielding_end(F_y: Psi, t_web: Inch, k_des: Inch, l_b: Inch) -> Lb:
    """Local yielding of the web over a bearing within d of the member's end (J10.2, Eq. J10-3)."""
    return F_y * t_web * (2.5 * k_des + l_b)


@clause("R_n")
def web_crippling_inside(F_y: Psi, E: Psi, d: Inch, t_web: Inch, t_f: Inch, l_b: Inch) -> Lb:
    """Local crippling of the web over a bearing d/2 or more from the member's end (J10.3, Eq. J10-4)."""
    return 0.80 * t_web**2 * (1 + 3 * (l_b / d) * (t_web / t_f) ** 1.5) * sqrt(E * F_y * t_f / t_web)


@clause("R_n")
def web_crippling_end(F_y: Psi, E: Psi, d: Inch, t_web: Inch, t_f: Inch, l_b: Inch) -> Lb:
    """Local crippling of the web over a bearing nearer than d/2 to the member's end (J10.3, Eq. J10-5a and J10-5b)."""
    return (
        0.40
        * t_web**2
        * (1 + where(l_b / d <= 0.2, 3 * (l_b / d), 4 * (l_b / d) - 0.2) * (t_web / t_f) ** 1.5)
        * sqrt(E * F_y * t_f / t_web)
    )


@clause("R_allow")
def allowable_bearing(R_n: Lb, Omega: Pure) -> Lb:
    """Allowable reaction of one limit state of the web (B3.2, Eq. B3-2; J10)."""
    return R_n / Omega


@clause("f_p")
def bearing_pressure(R: Lb, b: Inch, l_b: Inch) -> Psi:
    """Pressure under a bearing, taken as even (Part 14)."""
    return R / (b * l_b)


@clause("l_c")
def bearing_cantilever(b: Inch, k_des: Inch) -> Inch:
    """Cantilever of a plate or flange of breadth b beyond the fillet of the web (Part 14)."""
    return most(b / 2, k_des) - k_des


@clause("t_p")
def bearing_plate_thickness(l_c: Inch, f_p: Psi, F_y: Psi, Omega: Pure) -> Inch:
    """Thickness at which a cantilever under even pressure reaches its plastic moment over Omega (Part 14)."""
    return l_c * sqrt(2 * f_p * Omega / F_y)


@clause("P_p")
def bearing_on_concrete(f_c_prime: Psi, A_1: In2, A_2: In2) -> Lb:
    """Nominal bearing of steel on concrete; A_2 the like area of the support around A_1 (J8, Eq. J8-1 and J8-2)."""
    return 0.85 * f_c_prime * A_1 * least(2.0, sqrt(A_2 / A_1))


@clause("P_p_allow")
def allowable_on_concrete(P_p: Lb, Omega: Pure) -> Lb:
    """Allowable bearing of steel on concrete (J8)."""
    return P_p / Omega


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


@clause("delta_b")
def deflection(Y: LbIn3, E: Psi, I_x: In4) -> Inch:
    """Deflection by bending, from the beam line's deflection times EI (L3). Leaves out: shear deflection."""
    return Y / (E * I_x)


@clause("delta_T")
def total_deflection(delta_LT: Inch, delta_ST: Inch) -> Inch:
    """Total deflection; steel does not creep (L3)."""
    return delta_LT + delta_ST


@clause("l_c")
def plate_cantilever(c_plate: Inch, c_post: Inch) -> Inch:
    """Cantilever of a bearing plate beyond the post under it (Part 14)."""
    return (most(c_plate, c_post) - c_post) / 2
