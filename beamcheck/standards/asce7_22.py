"""ASCE/SEI 7-22: where it differs from 7-16. Its ground snow is at strength level; ASD takes 0.7 of the snow."""

from beamcheck.maths import least
from beamcheck.trace import Psf, Pure, clause


@clause("p_f")
def flat_roof_snow(C_e: Pure, C_t_snow: Pure, p_g: Psf) -> Psf:
    """Snow on a flat roof at strength level (7.3, Eq. 7.3-1); the risk category is inside the ground snow."""
    return 0.7 * C_e * C_t_snow * p_g


@clause("p_m")
def minimum_snow(p_g: Psf, p_m_max: Psf) -> Psf:
    """Least snow on a low-slope roof, a separate uniform case (7.3.3)."""
    return least(p_m_max, p_g)
