"""Wood Handbook (FPL-GTR-190, 2010): how wood shrinks as it dries."""

from beamcheck.trace import Inch, Pure, clause


@clause("Delta_D")
def shrinkage(D_I: Inch, M_I: Pure, M_F: Pure, M_fs: Pure, S_T: Pure) -> Inch:
    """Loss of a dimension across the grain as wood dries (Eq. 13-3, with the loss as a positive figure).

    Applies below the fiber saturation point, also outside the 6 % to 14 % of Eq. 13-2. Along the growth rings, so the
    greater of both ways across the grain. An average of clear wood, in proportion to moisture.
    """
    return D_I * (M_I - M_F) / (M_fs / S_T - M_fs + M_I)
