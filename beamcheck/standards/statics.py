"""Arithmetic of the load path: tributary widths, continuity over a middle support, loads on the slope and on plan."""

from beamcheck.maths import cos, least, most, tan
from beamcheck.trace import Degree, Foot, Ft2, In2, Inch, Lb, LbPerIn, Pcf, Plf, Psf, Pure, clause


@clause("t_w")
def tributary_width(s_a: Foot, s_b: Foot) -> Foot:
    """Half of each span that the wall carries (equilibrium of simple spans)."""
    return (s_a + s_b) / 2


@clause("k_c")
def continuity_factor(s_a: Foot, s_b: Foot) -> Pure:
    """Middle reaction of a joist in one piece over two spans, both loaded, over that of two separate joists.

    Three-moment equation; 1.25 for equal spans. The middle support is taken as rigid.
    """
    return 1 + (s_a**2 - s_a * s_b + s_b**2) / (4 * s_a * s_b)


@clause("w_a")
def far_end_reaction(q_D: Psf, q_L: Psf, s_a: Foot, s_b: Foot) -> Plf:
    """Least reaction at the far end of the shorter span s_a: dead load on both spans, live on the longer one only.

    Three-moment equation, for a strip one foot wide; negative means that the end lifts.
    """
    return q_D * (s_a / 2 - (s_a**2 - s_a * s_b + s_b**2) / (8 * s_a)) - q_L * s_b**3 / (8 * s_a * (s_a + s_b))


@clause("w")
def line_load(q: Psf, t_w: Foot, k_c: Pure) -> Plf:
    """Load per foot of wall from a load per square foot (equilibrium)."""
    return q * t_w * k_c


@clause("w")
def wall_weight(q_w: Psf, h_w: Foot) -> Plf:
    """Load per foot of a wall from its weight per square foot of face (equilibrium)."""
    return q_w * h_w


@clause("q")
def on_plan(q_s: Psf, theta: Degree) -> Psf:
    """Weight along a slope, as a load on its horizontal projection (equilibrium)."""
    return q_s / cos(theta)


@clause("F_r")
def rise_in_twelve(theta: Degree) -> Pure:
    """Rise of a roof in inches per foot of run (geometry)."""
    return 12 * tan(theta)


@clause("w_self")
def self_weight(gamma: Pcf, A: In2) -> Plf:
    """Weight of a member per foot (equilibrium)."""
    return gamma * A / 144


@clause("P")
def point_from_area(q: Psf, A_T: Ft2) -> Lb:
    """Point load from a load per square foot over the area that a strut or post gathers (equilibrium)."""
    return q * A_T


@clause("w_i")
def per_inch(w: Plf) -> LbPerIn:
    """A load per foot as a load per inch, for the beam line (units)."""
    return w / 12


@clause("l")
def design_span(l_clear: Inch, b_a: Inch, b_b: Inch) -> Inch:
    """Design span: clear span and half the bearing at each end (NDS 3.2.1; centre to centre here, never less)."""
    return l_clear + b_a / 2 + b_b / 2


@clause("A_ply")
def seat_area(n: Pure, b_ply: Inch, l_b: Inch) -> In2:
    """Area on which the seated plies of a beam rest (geometry)."""
    return n * b_ply * l_b


@clause("delta_lim")
def deflection_limit(l: Inch, n_l: Pure) -> Inch:
    """Deflection limit as a share of the span (IRC R301.7)."""
    return l / n_l


@clause("h_clear")
def clear_height(h_ceiling: Inch, d: Inch) -> Inch:
    """Height left under a beam that hangs below the ceiling (geometry)."""
    return most(0.0, h_ceiling - d)


@clause("b")
def breadth_of_plies(n: Pure, b_ply: Inch) -> Inch:
    """Breadth of plies that are fastened to act together (geometry)."""
    return n * b_ply


@clause("A_T")
def gathered_area(t_w: Foot, l: Inch) -> Ft2:
    """Area that a member gathers: tributary width times its length (geometry; ASCE 7-16, 4.7)."""
    return t_w * l / 12


@clause("l")
def span_between(x_b: Inch, x_a: Inch) -> Inch:
    """Span between two stations (geometry)."""
    return x_b - x_a


@clause("b_seat")
def shared_breadth(b: Inch, d_post: Inch) -> Inch:
    """Breadth on which a beam and its post meet: the narrower of the two (geometry)."""
    return least(b, d_post)


@clause("e")
def eccentricity_share(r_e: Pure, d: Inch) -> Inch:
    """Accidental eccentricity as a share of a post's side (common practice)."""
    return r_e * d


@clause("P_foot")
def load_at_foot(P: Lb, gamma: Pcf, A: In2, h: Inch) -> Lb:
    """Load at the foot of a post: its load and its own weight (equilibrium)."""
    return P + gamma * A * h / 1728


@clause("Delta")
def plate_crush(u: Pure, s_0: Inch) -> Inch:
    """Settlement of a crushed interface, in proportion to its utilisation (NDS 4.2.6: 0.04 in at full value)."""
    return u * s_0
