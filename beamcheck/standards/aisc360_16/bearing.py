"""Webs over bearings, bearing plates, bearing on concrete (J8, J10; Part 14 of the manual)."""

from beamcheck.maths import least, most, sqrt, where
from beamcheck.trace import In2, Inch, Lb, Psi, Pure, clause


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


@clause("l_c")
def plate_cantilever(c_plate: Inch, c_post: Inch) -> Inch:
    """Cantilever of a bearing plate beyond the post under it (Part 14)."""
    return (most(c_plate, c_post) - c_post) / 2
