"""W shapes on edge and what all shapes share: bending, shear, deflection (chapters F, G and L)."""

from math import pi

from beamcheck.maths import least, sqrt, where
from beamcheck.trace import In3, In4, Inch, Lb, LbIn, LbIn3, Psi, Pure, clause


@clause("M_p")
def plastic_moment(F_y: Psi, Z_x: In3) -> LbIn:
    """Plastic moment, the limit of yielding of W shapes, tubes and pipes (F2.1, F7.1, F8.1, Eq. F2-1)."""
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


@clause("delta_b")
def deflection(Y: LbIn3, E: Psi, I_x: In4) -> Inch:
    """Deflection by bending, from the beam line's deflection times EI (L2). Leaves out: shear deflection."""
    return Y / (E * I_x)


@clause("delta_T")
def total_deflection(delta_LT: Inch, delta_ST: Inch) -> Inch:
    """Total deflection; steel does not creep (L2)."""
    return delta_LT + delta_ST
