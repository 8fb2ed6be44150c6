"""ASCE/SEI 7-16: snow on roofs, roof live load, live load reduction. Combinations are a table."""

from beamcheck.maths import least, most, sqrt, where
from beamcheck.trace import Degree, Ft2, Psf, Pure, clause


@clause("p_f")
def flat_roof_snow(C_e: Pure, C_t_snow: Pure, I_s: Pure, p_g: Psf) -> Psf:
    """Snow on a flat roof (7.3, Eq. 7.3-1); ground snow at service level in this edition."""
    return 0.7 * C_e * C_t_snow * I_s * p_g


@clause("C_s")
def roof_slope(theta: Degree, theta_0: Degree, theta_run: Degree) -> Pure:
    """Roof slope factor (7.4, Fig. 7.4-1): 1.0 up to theta_0, then falling to nothing over theta_run."""
    return least(1.0, most(0.0, 1 - (theta - theta_0) / theta_run))


@clause("p_s")
def sloped_roof_snow(C_s: Pure, p_f: Psf) -> Psf:
    """Balanced snow on a sloped roof, on the horizontal projection (7.4, Eq. 7.4-1)."""
    return C_s * p_f


@clause("p_m")
def minimum_snow(I_s: Pure, p_g: Psf, p_m_max: Psf) -> Psf:
    """Least snow on a low-slope roof, a separate uniform case (7.3.4)."""
    return I_s * least(p_m_max, p_g)


@clause("R_1")
def roof_live_area(A_T: Ft2) -> Pure:
    """Roof live load factor for the tributary area (4.8.2, Eq. 4.8-1)."""
    return least(1.0, most(0.6, 1.2 - 0.001 * A_T))


@clause("R_2")
def roof_live_slope(F_r: Pure) -> Pure:
    """Roof live load factor for the rise in inches per foot (4.8.2, Eq. 4.8-1)."""
    return least(1.0, most(0.6, 1.2 - 0.05 * F_r))


@clause("L_r")
def roof_live(L_o: Psf, R_1: Pure, R_2: Pure) -> Psf:
    """Reduced roof live load on the horizontal projection, at least 12 psf (4.8.2, Eq. 4.8-1)."""
    return most(12.0, L_o * R_1 * R_2)


@clause("q_L")
def reduced_live(L_o: Psf, K_LL: Pure, A_T: Ft2, k_floor: Pure) -> Psf:
    """Reduced floor live load (4.7.2, Eq. 4.7-1) where K_LL A_T is 400 ft2 or more; k_floor bounds it from below."""
    return where(K_LL * A_T < 400, L_o, least(L_o, L_o * most(k_floor, 0.25 + 15 / sqrt(most(1.0, K_LL * A_T)))))
