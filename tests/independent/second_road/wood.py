"""NDS 2018 adjusted design values of a member: the reference value times its factors, C_t = C_i = 1.0 in a house."""

from math import inf, sqrt

from .printed_tables import figure


def wet(member, prop, moisture):
    """C_M of a property; 1.0 where the value with C_F is low enough (Supplement, Tables 4A and 4B)."""
    if moisture == "dry":
        return 1.0
    line = member["wet"]
    limit = line.get(f"{prop}_threshold") or ""
    sized = {"F_b": "C_F_b", "F_c": "C_F_c"}.get(prop)
    if limit and sized and member[prop] * member[sized] <= float(limit):
        return 1.0
    return float(line[prop])


def repetitive(member, share):
    """C_r of a beam of three plies or more, where it is asked for (4.3.9, 8.3.7)."""
    product = {"dimension": "dimension", "composite": "scl"}.get(member["kind"])
    if not share or product is None or member["plies"] < 3:
        return 1.0
    return figure("nds_2018/repetitive", "C_r", product=product)


def E_adj(member, moisture):
    """E' for deflections."""
    return member["E"] * wet(member, "E", moisture)


def E_min_adj(member, moisture):
    """E_min' for buckling."""
    return member["E_min"] * wet(member, "E_min", moisture)


def effective_length(l_u, d, uniform):
    """Table 3.3.3: a single span under a uniform load, or footnote 1 for what is not listed."""
    if l_u / d < 7:
        return 2.06 * l_u
    if uniform or l_u / d <= 14.3:
        return 1.63 * l_u + 3 * d
    return 1.84 * l_u


def bending(member, C_D, moisture, *, l_u=None, uniform=False, l_0=252.0, F_b=None, share=False, C_fu=1.0, b=None):
    """F_b' and R_B over 50 (None where C_L is 1.0 by rule).

    l_u: None where the compression edge is held all along; l_0: between points of zero moment.
    """
    b, d = b or member["b"], member["d"]
    F_b = F_b or member["F_b"]
    star = F_b * C_D * wet(member, "F_b", moisture) * repetitive(member, share)
    C_V = inf
    if member["kind"] == "composite":
        d_0, m = member["C_V_depth"]
        C_V = (d_0 / d) ** m
        if member["C_V_most"]:
            C_V = min(C_V, member["C_V_most"])
        star *= max(1.0, C_V)  # 8.3.6: above 1.0 it acts together with C_L, below it does not
        C_V = min(1.0, C_V)
    elif member["kind"] == "glulam":
        # 5.3.6: the width of the widest piece, at most 10.75 in
        C_V = min(1.0, (21 * 12 / l_0 * 12 / d * 5.125 / min(member["b_ply"], 10.75)) ** (1 / member["x"]))
    elif member["kind"] == "timber":
        star *= min(1.0, (12 / d) ** (1 / 9))
    else:
        star *= member["C_F_b"]
    C_L, slender = 1.0, None
    if l_u is not None and d > b:
        R_B = sqrt(effective_length(l_u, d, uniform) * d / b**2)
        ratio = 1.20 * E_min_adj(member, moisture) / R_B**2 / star
        half = (1 + ratio) / 1.9
        C_L = half - sqrt(half**2 - ratio / 0.95)
        slender = R_B / 50
    if member["kind"] in ("glulam", "composite"):
        return star * min(C_L, C_V), slender
    return star * C_L * C_fu, slender


def shear(member, C_D, moisture):
    """F_v'."""
    return member["F_v"] * C_D * wet(member, "F_v", moisture)


def across_grain(member, moisture, C_b=1.0):
    """F_c_perp', without load duration."""
    return member["F_c_perp"] * wet(member, "F_c_perp", moisture) * C_b


def compression_star(member, C_D, moisture):
    """F_c*: every factor but C_P."""
    return member["F_c"] * C_D * wet(member, "F_c", moisture) * member["C_F_c"]
