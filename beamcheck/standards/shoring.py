"""Equilibrium of joists and plates on temporary walls that stand beside the wall that goes."""

from beamcheck.trace import Foot, In3, Inch, Lb, LbIn, Plf, Psf, Pure, clause


@clause("k_set")
def set_back_factor(s: Foot, a_set: Foot) -> Pure:
    """How much harder a joist presses on a temporary wall that stands a_set short of the joist's end.

    Equilibrium of moments about the joist's far end; the joist runs on to the old wall, loaded all along.
    """
    return s / (s - a_set)


@clause("w_t")
def joists_of_one_side(q: Psf, s: Foot, k_set: Pure) -> Plf:
    """Load per foot of a temporary wall from the joists of its own side (equilibrium)."""
    return q * s / 2 * k_set


@clause("w_t")
def joists_of_other_side(q: Psf, s: Foot, a_set: Foot) -> Plf:
    """Load per foot of the only temporary wall from joists that run past the old wall to it (equilibrium)."""
    return q * (s + a_set) / 2


@clause("w_t")
def wall_line_on_side(w: Plf, k_share: Pure, k_set: Pure) -> Plf:
    """Load per foot of a temporary wall from what stands on the ends of its joists (equilibrium)."""
    return w * k_share * k_set


@clause("P_t")
def point_on_side(P: Lb, k_share: Pure, k_set: Pure) -> Lb:
    """Load on a temporary wall from a point load on the ends of its joists (equilibrium)."""
    return P * k_share * k_set


@clause("w_t")
def added(w_1: Plf, w_2: Plf) -> Plf:
    """Two line loads of one kind on one wall (equilibrium)."""
    return w_1 + w_2


@clause("w_c")
def combined(g_D: Pure, w_D: Plf, g_L: Pure, w_L: Plf, g_Lr: Pure, w_Lr: Plf, g_S: Pure, w_S: Plf) -> Plf:
    """Line load under one combination, each kind of load with its factor (equilibrium)."""
    return g_D * w_D + g_L * w_L + g_Lr * w_Lr + g_S * w_S


@clause("P_s")
def load_at_spacing(w_c: Plf, s_o: Foot) -> Lb:
    """Load that one stud, post or joist takes or brings, at its spacing (equilibrium)."""
    return w_c * s_o


@clause("P_t")
def added_points(P_a: Lb, P_b: Lb) -> Lb:
    """Two point loads of one kind that come down close together (equilibrium)."""
    return P_a + P_b


@clause("P_s")
def load_under_points(
    P_s: Lb, g_D: Pure, P_D: Lb, g_L: Pure, P_L: Lb, g_Lr: Pure, P_Lr: Lb, g_S: Pure, P_S: Lb
) -> Lb:
    """Load of one stud or joist with the whole of the point loads over it, each with its factor (equilibrium)."""
    return P_s + g_D * P_D + g_L * P_L + g_Lr * P_Lr + g_S * P_S


@clause("M")
def plate_moment(P_s: Lb, s_stud: Inch) -> LbIn:
    """Moment of a top plate between two studs with a joist in the middle, counted as a simple span (textbook)."""
    return P_s * s_stud / 4


@clause("S")
def stacked_section_modulus(n: Pure, b: Inch, d: Inch) -> In3:
    """Section modulus of plies laid flat one on the other, each bending by itself; d of one ply (textbook)."""
    return n * b * d**2 / 6


@clause("h")
def height_between(h: Inch) -> Inch:
    """Free height of a stud that is held sideways at its middle (geometry)."""
    return h / 2


@clause("l_reach")
def reach_needed(a_set: Foot, b_plate: Foot) -> Foot:
    """How far a joist must run past the old wall to rest on the whole of a temporary wall's plate (geometry)."""
    return a_set + b_plate / 2
