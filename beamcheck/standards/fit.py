"""Geometry of what must fit: headroom, pieces round a corner, gaps beside a post, holes, and things on a floor."""

from beamcheck.maths import erfc, most, sqrt
from beamcheck.trace import Foot, Ft2, Inch, Lb, Plf, Psf, Pure, clause


@clause("h_clear")
def headroom(h_ceiling: Inch, h_added: Inch, d: Inch, t_wrap: Inch) -> Inch:
    """Height from the floor to the finish under a beam that hangs below the ceiling (geometry)."""
    return h_ceiling - h_added - d - t_wrap


@clause("l_piece")
def piece_length(l: Inch, b_a: Inch, b_b: Inch) -> Inch:
    """Length of a beam that covers the whole of its end bearings (geometry)."""
    return l + (b_a + b_b) / 2


@clause("W_piece")
def piece_weight(w_self: Plf, l_haul: Foot) -> Lb:
    """Weight of one piece as it is carried in (equilibrium)."""
    return w_self * l_haul


@clause("l_turn")
def turning_length(w_door: Inch, w_turn: Inch, t_piece: Inch) -> Inch:
    """Longest piece that turns a square corner between two ways of these clear widths, level and on edge (geometry).

    The ladder in the corner, each way narrowed by the piece's thickness: never longer than the exact answer for a
    piece of that thickness. A doorway is taken as a way of its own width; what lifting one end might gain is left out.
    """
    return ((w_door - t_piece) ** (2 / 3) + (w_turn - t_piece) ** (2 / 3)) ** (3 / 2)


@clause("g_left")
def gap_left(g_plan: Inch, t_wrap: Inch, t_plate: Inch) -> Inch:
    """What is left of a gap after finish and plates have taken theirs, were all built as drawn (geometry)."""
    return g_plan - t_wrap - t_plate


@clause("t_plumb")
def out_of_plumb(t_lean: Inch, l_lean: Inch, h: Inch) -> Inch:
    """How far a post may lean over its height, if it may lean t_lean in l_lean (geometry)."""
    return t_lean * h / l_lean


@clause("t_worst")
def worst_stack(t_plumb: Inch, t_set: Inch, t_post: Inch, t_face: Inch, t_next: Inch) -> Inch:
    """All deviations at their greatest and all one way (geometry)."""
    return t_plumb + t_set + t_post + t_face + t_next


@clause("t_rss")
def likely_stack(t_plumb: Inch, t_set: Inch, t_post: Inch, t_face: Inch, t_next: Inch) -> Inch:
    """Root of the sum of the squares: deviations that know nothing of each other (sum of variances)."""
    return sqrt(t_plumb**2 + t_set**2 + t_post**2 + t_face**2 + t_next**2)


@clause("p_close")
def chance_of_closing(g_left: Inch, t_rss: Inch, k_sigma: Pure) -> Pure:
    """Chance that the gap closes, if each deviation stands k_sigma standard deviations out (normal distribution)."""
    return erfc(k_sigma * g_left / sqrt(2 * t_rss**2)) / 2


@clause("e_mid")
def hole_off_middle(y_hole: Inch, d: Inch, D_hole: Inch) -> Inch:
    """How far the rim of a hole reaches from the middle of the depth (geometry)."""
    return most(y_hole - d / 2, d / 2 - y_hole) + D_hole / 2


@clause("e_third")
def half_of_middle(k_mid: Pure, d: Inch) -> Inch:
    """Half of the middle part of a depth (geometry)."""
    return k_mid * d / 2


@clause("x_mid")
def hole_off_midspan(x_hole: Inch, l: Inch) -> Inch:
    """How far a hole lies from the middle of its span; x_hole from the span's left bearing (geometry)."""
    return most(x_hole - l / 2, l / 2 - x_hole)


@clause("x_third")
def half_of_middle_span(k_mid: Pure, l: Inch) -> Inch:
    """Half of the middle part of a span (geometry)."""
    return k_mid * l / 2


@clause("W_thing")
def weight_with_top(W_below: Lb, q_D: Psf, A_top: Ft2) -> Lb:
    """Weight of a heavy thing and of the top that lies on it (equilibrium)."""
    return W_below + q_D * A_top


@clause("q_base")
def footprint_pressure(W_thing: Lb, l_base: Foot, b_base: Foot) -> Psf:
    """Weight over the area it stands on (equilibrium)."""
    return W_thing / (l_base * b_base)


@clause("P_one")
def share_of_one_joist(W_thing: Lb, k_one: Pure) -> Lb:
    """What one joist takes of a thing that stands on several (equilibrium)."""
    return W_thing * k_one


@clause("P_one")
def leg_load(W_thing: Lb, n_legs: Pure) -> Lb:
    """Weight on one leg of a thing that stands evenly on all of them (equilibrium)."""
    return W_thing / n_legs


@clause("w")
def spread_along(P_one: Lb, l_base: Foot) -> Plf:
    """A joist's share as a load along the base that stands on it (equilibrium)."""
    return P_one / l_base


@clause("l_stay")
def lengths_together(l_stay: Inch, l_more: Inch) -> Inch:
    """Length of several walls that run one way (geometry)."""
    return l_stay + l_more


@clause("k_lost")
def share_lost(l_lost: Inch, l_stay: Inch) -> Pure:
    """Length of wall lost, of all there was in its direction (geometry)."""
    return l_lost / (l_lost + l_stay)
