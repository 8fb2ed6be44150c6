"""International Residential Code, 2021 edition: limits of cuts, and sums of its footing rules. Live loads are a table.

The shares of the depth come from ``irc_2021/notch_hole``. They hold for sawn lumber only: cuts in engineered members
are a matter of the product's own report (R502.8.2), and no table gives a limit for holes in headers.
"""

from beamcheck.maths import least, most
from beamcheck.trace import Inch, Pure, clause


@clause("d_notch")
def notch_depth(k_cut: Pure, d: Inch) -> Inch:
    """Greatest depth of a notch at the end or in the outer thirds of a joist or beam (R502.8.1)."""
    return k_cut * d


@clause("l_notch")
def notch_length(k_cut: Pure, d: Inch) -> Inch:
    """Greatest length of a notch along a joist or beam (R502.8.1)."""
    return k_cut * d


@clause("d_hole")
def hole_diameter(k_cut: Pure, d: Inch) -> Inch:
    """Greatest diameter of a hole in a joist or beam (R502.8.1)."""
    return k_cut * d


@clause("d_notch")
def stud_notch_depth(k_cut: Pure, d: Inch) -> Inch:
    """Greatest depth of a notch in a stud of depth d (R602.6)."""
    return k_cut * d


@clause("d_hole")
def stud_hole_diameter(k_cut: Pure, d: Inch) -> Inch:
    """Greatest diameter of a hole in a stud of depth d (R602.6)."""
    return k_cut * d


@clause("e_hole")
def wood_beside_hole(d: Inch, y_hole: Inch, D_hole: Inch) -> Inch:
    """Wood left between a hole and the nearer edge; y_hole from the upper edge to its centre (R502.8.1, R602.6)."""
    return least(y_hole, d - y_hole) - D_hole / 2


@clause("l_proj")
def footing_projection(b_foot: Inch, c_wall: Inch) -> Inch:
    """Projection of a footing beyond what stands on its middle; 2 in to its thickness if plain (R403.1.1)."""
    return (most(b_foot, c_wall) - c_wall) / 2


@clause("h_cast")
def thickness_for_projection(l_proj: Inch, h_thin: Inch) -> Inch:
    """Thickness of a plain footing that its projection asks for, and never less than the least (R403.1.1)."""
    return most(l_proj, h_thin)
