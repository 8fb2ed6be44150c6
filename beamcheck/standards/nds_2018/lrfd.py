"""Load and resistance factor design: K_F, phi and lambda in the place of C_D (2.3.5 to 2.3.7; Appendix N).

The clauses for C_L, C_P, bending_sawn, bending_glued and compression take these starred values as they take those of
allowable stress design. C_D is never used here; lambda depends on the combination.
"""

from beamcheck.maths import most
from beamcheck.trace import Lb, Psi, Pure, clause


@clause("F_b_star")
def bending_star_lrfd(
    F_b: Psi, C_M: Pure, C_t: Pure, C_F: Pure, C_i: Pure, C_r: Pure, K_F: Pure, phi: Pure, lambda_t: Pure
) -> Psi:
    """Bending value for LRFD with every factor but C_L, C_fu and C_V (3.3.3.8; Tables 4.3.1, 5.3.1)."""
    return F_b * C_M * C_t * C_F * C_i * C_r * K_F * phi * lambda_t


@clause("F_b_star")
def bending_star_scl_lrfd(
    F_b: Psi, C_M: Pure, C_t: Pure, C_r: Pure, C_V: Pure, K_F: Pure, phi: Pure, lambda_t: Pure
) -> Psi:
    """Bending value of composite lumber for LRFD: holds C_V where C_V is above 1.0 (3.3.3.8; Table 8.3.1)."""
    return F_b * C_M * C_t * C_r * most(1.0, C_V) * K_F * phi * lambda_t


@clause("F_v_adj")
def shear_lrfd(F_v: Psi, C_M: Pure, C_t: Pure, C_i: Pure, K_F: Pure, phi: Pure, lambda_t: Pure) -> Psi:
    """Adjusted shear value for LRFD (Tables 4.3.1, 5.3.1, 8.3.1)."""
    return F_v * C_M * C_t * C_i * K_F * phi * lambda_t


@clause("F_c_star")
def compression_star_lrfd(
    F_c: Psi, C_M: Pure, C_t: Pure, C_F: Pure, C_i: Pure, K_F: Pure, phi: Pure, lambda_t: Pure
) -> Psi:
    """Compression value for LRFD with every factor but C_P (3.7.1.5; Tables 4.3.1, 5.3.1, 8.3.1)."""
    return F_c * C_M * C_t * C_F * C_i * K_F * phi * lambda_t


@clause("F_c_perp_adj")
def bearing_lrfd(F_c_perp: Psi, C_M: Pure, C_t: Pure, C_i: Pure, C_b: Pure, K_F: Pure, phi: Pure) -> Psi:
    """Adjusted value across the grain for LRFD; the time effect does not apply (Table 4.3.1)."""
    return F_c_perp * C_M * C_t * C_i * C_b * K_F * phi


@clause("E_min_adj")
def modulus_min_lrfd(E_min: Psi, C_M: Pure, C_t: Pure, C_i: Pure, K_F: Pure, phi: Pure) -> Psi:
    """Adjusted modulus for stability for LRFD; the time effect does not apply (Tables 4.3.1, 5.3.1, 8.3.1)."""
    return E_min * C_M * C_t * C_i * K_F * phi


@clause("Z_adj")
def lateral_lrfd(
    Z: Lb,
    C_M: Pure,
    C_t: Pure,
    C_g: Pure,
    C_Delta: Pure,
    C_eg: Pure,
    C_di: Pure,
    C_tn: Pure,
    K_F: Pure,
    phi: Pure,
    lambda_t: Pure,
) -> Lb:
    """Adjusted lateral value of one dowel for LRFD (11.3, Table 11.3.1)."""
    return Z * C_M * C_t * C_g * C_Delta * C_eg * C_di * C_tn * K_F * phi * lambda_t
