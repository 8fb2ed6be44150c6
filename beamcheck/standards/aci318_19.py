"""ACI 318-19, chapter 14: a pad of plain (unreinforced) concrete under one post, cast on soil.

Strength design: loads are factored, resistances carry phi. Soil pressure is a matter of service loads. The pad is
a rectangle loaded at its middle; l lies along the cantilever that is looked at, b across it. The square root of
f_c_prime is taken of its figure in psi and gives psi, by the document's decree.
"""

from beamcheck.maths import least, most, sqrt
from beamcheck.trace import Foot, Ft2, In2, In3, Inch, Lb, LbIn, Psf, Psi, Pure, clause


@clause("A_pad")
def pad_area(b_pad: Foot, l_pad: Foot) -> Ft2:
    """Area of a pad on plan (geometry)."""
    return b_pad * l_pad


@clause("A_pad")
def pad_area_needed(P: Lb, q_allow: Psf) -> Ft2:
    """Area of pad that keeps the soil at its allowable bearing under service loads (13.3.1.1)."""
    return P / q_allow


@clause("b_pad")
def pad_side(A_pad: Ft2) -> Foot:
    """Side of a square pad of that area (geometry)."""
    return sqrt(A_pad)


@clause("q_soil")
def soil_pressure(P: Lb, A_pad: Ft2) -> Psf:
    """Pressure on the soil under service loads, taken as even (13.3.1.1)."""
    return P / A_pad


@clause("h_pad")
def effective_thickness(h_cast: Inch) -> Inch:
    """Thickness that counts where the pad is cast on soil: 2 in less than cast (14.5.1.7)."""
    return most(2.0, h_cast) - 2


@clause("q_u")
def factored_pressure(P_u: Lb, b: Inch, l: Inch) -> Psi:
    """Even pressure of the soil on the pad under the factored load (13.2.6)."""
    return P_u / (b * l)


@clause("c_col")
def column_width_on_plate(c_post: Inch, c_plate: Inch) -> Inch:
    """Width that a post on a steel plate counts for in bending: half way to the edge (Table 14.4.3.2.1)."""
    return (c_post + c_plate) / 2


@clause("c_col")
def column_width_of_masonry(c_wall: Inch) -> Inch:
    """Width that a masonry pier counts for: half way from its centre to its face (Table 14.4.3.2.1)."""
    return c_wall / 2


@clause("l_v")
def cantilever(l: Inch, c_col: Inch) -> Inch:
    """Projection of the pad beyond the section where its moment is counted (Table 14.4.3.2.1)."""
    return (most(l, c_col) - c_col) / 2


@clause("M_u")
def factored_moment(q_u: Psi, b: Inch, l_v: Inch) -> LbIn:
    """Moment of the soil's pressure at that section (14.4.3.2.1)."""
    return q_u * b * l_v**2 / 2


@clause("S")
def section_modulus(b: Inch, h_pad: Inch) -> In3:
    """Elastic section modulus of the pad across the cantilever (14.5.2)."""
    return b * h_pad**2 / 6


@clause("M_n")
def nominal_moment(lambda_c: Pure, f_c_prime: Psi, S: In3) -> LbIn:
    """Nominal moment of plain concrete, the lower of its tension and compression edges (14.5.2.1, Eq. 14.5.2.1a, b)."""
    return least(5 * lambda_c * sqrt(f_c_prime) * S, 0.85 * f_c_prime * S)


@clause("phi_M_n")
def design_moment(phi: Pure, M_n: LbIn) -> LbIn:
    """Design moment (14.5.1.1, 21.2.1)."""
    return phi * M_n


@clause("V_u1")
def one_way_shear(q_u: Psi, b: Inch, l_v: Inch, h_pad: Inch) -> Lb:
    """Factored shear across the whole width, at a thickness from that section (14.4.3.3.1, 14.5.5)."""
    return q_u * b * (most(l_v, h_pad) - h_pad)


@clause("V_n1")
def nominal_one_way_shear(lambda_c: Pure, f_c_prime: Psi, b: Inch, h_pad: Inch) -> Lb:
    """Nominal shear of plain concrete across the whole width (14.5.5.1, Table 14.5.5.1(a))."""
    return 4 / 3 * lambda_c * sqrt(f_c_prime) * b * h_pad


@clause("b_o")
def punching_perimeter(c_1: Inch, c_2: Inch, h_pad: Inch) -> Inch:
    """Perimeter of the rectangle half a thickness outside that section (14.4.3.4.1)."""
    return 2 * (c_1 + h_pad) + 2 * (c_2 + h_pad)


@clause("V_u2")
def two_way_shear(q_u: Psi, b: Inch, l: Inch, c_1: Inch, c_2: Inch, h_pad: Inch) -> Lb:
    """Factored shear through the punching perimeter: the pressure outside it (14.4.3.4.1, 14.5.5)."""
    return q_u * (most(b * l, (c_1 + h_pad) * (c_2 + h_pad)) - (c_1 + h_pad) * (c_2 + h_pad))


@clause("V_n2")
def nominal_two_way_shear(lambda_c: Pure, f_c_prime: Psi, beta: Pure, b_o: Inch, h_pad: Inch) -> Lb:
    """Nominal punching shear; beta long to short side of the column (14.5.5.1, Table 14.5.5.1(b), (c))."""
    return least(1 + 2 / beta, 2.0) * (4 / 3) * lambda_c * sqrt(f_c_prime) * b_o * h_pad


@clause("phi_V_n")
def design_shear(phi: Pure, V_n: Lb) -> Lb:
    """Design shear (14.5.1.1, 21.2.1)."""
    return phi * V_n


@clause("B_n")
def nominal_bearing(f_c_prime: Psi, A_1: In2, A_2: In2) -> Lb:
    """Nominal bearing of a post or plate of area A_1; A_2 the like area around it (14.5.6.1, Table 14.5.6.1)."""
    return 0.85 * f_c_prime * A_1 * least(2.0, sqrt(A_2 / A_1))


@clause("phi_B_n")
def design_bearing(phi: Pure, B_n: Lb) -> Lb:
    """Design bearing (14.5.1.1, 21.2.1)."""
    return phi * B_n


@clause("beta")
def column_ratio(c_1: Inch, c_2: Inch) -> Pure:
    """Long to short side of what stands on the pad (14.5.5.1)."""
    return most(c_1, c_2) / least(c_1, c_2)
