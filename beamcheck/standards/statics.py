"""Arithmetic of the load path: tributary widths, continuity over a middle support, loads on the slope and on plan."""

from beamcheck.maths import cos, least, most, tan
from beamcheck.trace import Degree, Foot, Ft2, In2, Inch, Lb, LbIn3, Pcf, Plf, Psf, Psi, Pure, clause


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


@clause("q_layer")
def sheet_weight(q_0: Psf, t_layer: Inch, t_0: Inch) -> Psf:
    """Weight of a layer that its table gives for another thickness (proportion)."""
    return q_0 * t_layer / t_0


@clause("q_layer")
def slab_weight(gamma: Pcf, t_layer: Inch) -> Psf:
    """Weight of a layer of one material by its thickness (equilibrium)."""
    return gamma * t_layer / 12


@clause("q_layer")
def framing_weight(gamma: Pcf, b: Inch, d: Inch, o_j: Foot) -> Psf:
    """Weight of joists, rafters or studs, spread over the area that they frame (equilibrium)."""
    return gamma * b * d / (144 * o_j)


@clause("q_sum")
def layer_added(q_above: Psf, q_layer: Psf) -> Psf:
    """Weight of the layers above and one more (equilibrium)."""
    return q_above + q_layer


@clause("q_D")
def assembly_weight(k_asm: Pure, q_sum: Psf) -> Psf:
    """Weight of an assembly: the sum of its layers, and by how much the whole may differ from it (proportion)."""
    return k_asm * q_sum


@clause("l")
def stretch_in_bay(x_a: Inch, x_b: Inch, x_1: Inch, x_2: Inch) -> Inch:
    """Length within one bay of what lies from x_a to x_b on the beam, nothing if it lies elsewhere (geometry)."""
    return most(0.0, least(x_b, x_2) - most(x_a, x_1))


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


@clause("P_sum")
def factored_point(g_load: Pure, P: Lb) -> Lb:
    """Point load of one type in a combination (equilibrium)."""
    return g_load * P


@clause("P_sum")
def point_added(P_sum: Lb, g_load: Pure, P: Lb) -> Lb:
    """Point loads of a combination at one place, and one more (equilibrium)."""
    return P_sum + g_load * P


@clause("l")
def design_span(l_clear: Inch, b_a: Inch, b_b: Inch) -> Inch:
    """Design span: clear span and half the bearing at each end (NDS 3.2.1; centre to centre here, never less)."""
    return l_clear + b_a / 2 + b_b / 2


@clause("delta_lim")
def deflection_limit(l: Inch, n_l: Pure) -> Inch:
    """Deflection limit as a share of the span (IRC R301.7)."""
    return l / n_l


@clause("b")
def breadth_of_plies(n: Pure, b_ply: Inch) -> Inch:
    """Breadth of plies that are fastened to act together (geometry)."""
    return n * b_ply


@clause("w_x")
def crossing_load(w_c: Plf, n: Pure) -> Plf:
    """What crosses the first joint of n plies that share a load on one face alike (equilibrium)."""
    return w_c * (n - 1) / n


@clause("A_T")
def gathered_area(t_w: Foot, l: Inch) -> Ft2:
    """Area that a member gathers: tributary width times its length (geometry; ASCE 7-16, 4.7)."""
    return t_w * l / 12


@clause("l")
def half_of_bay(l: Inch) -> Inch:
    """Half of the shortest bay that is loaded: what an end post gathers of it, the least of any member (geometry)."""
    return l / 2


@clause("l")
def span_between(x_b: Inch, x_a: Inch) -> Inch:
    """Span between two stations (geometry)."""
    return x_b - x_a


@clause("b_seat")
def shared_breadth(b: Inch, d_post: Inch) -> Inch:
    """Breadth on which a beam and its post meet: the narrower of the two (geometry)."""
    return least(b, d_post)


@clause("b_seat")
def lapped_breadth(b: Inch, d_post: Inch, e: Inch) -> Inch:
    """Breadth on which a beam and its post meet where their centres are e apart (geometry)."""
    return least(least(b, d_post), (b + d_post) / 2 - e)


@clause("e")
def eccentricity_of_plies(n: Pure, b_ply: Inch, d_post: Inch) -> Inch:
    """Least offset of a beam of which n plies lie whole on a post and one side has a ply more beside it (geometry)."""
    return most(0.0, (n + 1) * b_ply - d_post) / 2


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


@clause("P_foot")
def shape_load_at_foot(P: Lb, W: Plf, h: Inch) -> Lb:
    """Load at the foot of a steel post: its load and its own weight (equilibrium)."""
    return P + W * h / 12


@clause("Delta_stack")
def stack_settlement(Delta_above: Inch, Delta: Inch) -> Inch:
    """Settlement of a stack of crushed interfaces: those above and one more (geometry)."""
    return Delta_above + Delta


@clause("u")
def crush_share(f_c_perp: Psi, F_c_perp_adj: Psi) -> Pure:
    """How far an interface is used across the grain (proportion)."""
    return f_c_perp / F_c_perp_adj


@clause("b_seat")
def notch_seat(b: Inch, d_cut: Inch) -> Inch:
    """Breadth of beam that rests in a notch cut d_cut into the post (geometry)."""
    return least(b, d_cut)


@clause("t_tongue")
def tongue(d_post: Inch, d_cut: Inch) -> Inch:
    """What stands beside the beam above a notch (geometry)."""
    return most(d_post, d_cut) - d_cut


@clause("e")
def eccentricity_in_notch(d_post: Inch, b_seat: Inch) -> Inch:
    """How far off the post's centre a seat at one of its faces is (geometry)."""
    return (d_post - b_seat) / 2


@clause("e_kern")
def kern(d_post: Inch) -> Inch:
    """Eccentricity beyond which part of a rectangular post's foot unloads (textbook)."""
    return d_post / 6


@clause("x_near")
def near_pier(d: Inch) -> Inch:
    """Half the depth of a girder: a post farther than that from a pier bends it (common practice)."""
    return d / 2


@clause("r_rise")
def rise(P_after: Lb, P_before: Lb) -> Pure:
    """By what share the load of a member rises (proportion)."""
    return P_after / P_before - 1


@clause("k_joist")
def continuity_lost(Y_cut: LbIn3, Y_through: LbIn3) -> Pure:
    """Deflection of a joist that is cut over the beam, over that of the joist in one piece (proportion)."""
    return Y_cut / Y_through


@clause("P_hanger")
def hanger_load(q_D: Psf, q_L: Psf, o_j: Foot, s_j: Foot) -> Lb:
    """Load that one joist of span s_j brings to its hanger (equilibrium of simple spans)."""
    return (q_D + q_L) * o_j * s_j / 2


@clause("T_tie")
def tie_force(q: Psf, q_t: Psf, o_j: Foot, l_roof: Foot, theta: Degree) -> Lb:
    """Pull in a tie at the feet of two rafters under a ridge board, loads on plan (equilibrium)."""
    return (q + q_t) * o_j * l_roof / (4 * tan(theta))


@clause("q_net")
def soil_left(q_allow: Psf, gamma: Pcf, h_cast: Inch) -> Psf:
    """What the weight of a pad leaves of the soil's allowable bearing (equilibrium)."""
    return q_allow - gamma * h_cast / 12


@clause("W_pad")
def pad_weight(gamma: Pcf, A_pad: Ft2, h_cast: Inch) -> Lb:
    """Weight of a pad (equilibrium)."""
    return gamma * A_pad * h_cast / 12


@clause("P_soil")
def load_on_soil(P: Lb, W_pad: Lb) -> Lb:
    """What comes down on the soil: the load and the pad (equilibrium)."""
    return P + W_pad
