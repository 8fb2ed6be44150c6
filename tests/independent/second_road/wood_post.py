"""Utilisations of a wood post: NDS 3.6, 3.7, 3.10.1, 15.3 and 15.4."""

from math import inf, sqrt

from . import wood
from .printed_tables import figure
from .wood_beam import worst

PLIES_MOST = 5


def foot(post, height, P):
    """What comes down at the foot: the load and the post's own weight."""
    if post["kind"] == "steel":
        return P + post["W"] * height
    return P + post["density"] / 1728 * post["b"] * post["d"] * height


def check(post, given):
    """Utilisations by key.

    given: key, height, held, fastening, e (None: a sixth of the side), forced (e by the seat, across the beam), plate
    (F_c_perp' or None), cases as (P, C_D), moisture.
    """
    no_weak_axis = post["kind"] == "glulam" and post["F_b_y"] is None and given["held"] != "in wall"
    if post["plies"] > PLIES_MOST or no_weak_axis:
        return {}
    found = {}
    axes = _axes(post, given)
    A, key = post["b"] * post["d"], given["key"]
    for name, _, l_side, _ in axes:
        worst(found, f"{key}.slenderness_{name}", given["height"] / l_side / 50)
    for P, C_D in given["cases"]:
        star = wood.compression_star(post, C_D, given["moisture"])
        f_c = P / A
        F_c_adj = star * min(_stability(post, given, l_side, K_f, star) for _, _, l_side, K_f in axes)
        worst(found, f"{key}.column", f_c / F_c_adj)
        for name, side, l_side, _ in axes:
            worst(found, f"{key}.eccentric", _eccentric(post, given, (name, side, l_side), (f_c, F_c_adj, C_D)))
        P_foot = foot(post, given["height"], P)
        worst(found, f"{key}.end_grain", P_foot / A / (0.75 * star))
        if given["plate"] is not None:
            worst(found, f"{key}.plate", P_foot / A / given["plate"])
    return found


def _axes(post, given):
    """Name, side, side that sets the slenderness, K_f; a wall holds the post along the beam."""
    axes = [("across", post["d"], post["d"], 1.0)]
    if given["held"] != "in wall":
        loose = post["plies"] > 1 and given["fastening"] == "not fastened"
        side = post["b_ply"] if loose else post["b"]
        K_f = 1.0
        if post["plies"] > 1 and not loose:
            K_f = figure("nds_2018/column", "value", item=f"K_f {given['fastening']}")
        axes.append(("along", side, side, K_f))
    return axes


def _euler(post, given, side):
    return 0.822 * wood.E_min_adj(post, given["moisture"]) / (given["height"] / side) ** 2


def _stability(post, given, side, K_f, star):
    """C_P (3.7.1.5, 15.3.2)."""
    ratio, c = _euler(post, given, side) / star, post["c"]
    half = (1 + ratio) / (2 * c)
    return K_f * (half - sqrt(half**2 - ratio / c))


def _eccentric(post, given, axis, load):
    """15.4.1 with the load off one axis: (f_c/F_c')^2 + f_c 6e/d (1 + 0.234 f_c/F_cE) / (F_b' (1 - f_c/F_cE))."""
    name, side, l_side = axis
    f_c, F_c_adj, C_D = load
    F_cE = _euler(post, given, l_side)
    e = side / 6 if given["e"] is None else given["e"]
    if name == "across":
        e = max(e, given["forced"])
    left = 1 - f_c / F_cE
    if e == 0:
        return (f_c / F_c_adj) ** 2
    if left <= 1e-6:
        return inf
    if name == "across":
        loose = post["plies"] > 1 and given["fastening"] == "not fastened" and given["held"] != "in wall"
        b = post["b_ply"] if loose else post["b"]
        F_b_adj, _ = wood.bending(post, C_D, given["moisture"], l_u=given["height"], b=b)
    else:
        F_b_adj = weak_bending(post, C_D, given["moisture"])
    return (f_c / F_c_adj) ** 2 + f_c * (6 * e / side) * (1 + 0.234 * f_c / F_cE) / (F_b_adj * left)


def weak_bending(post, C_D, moisture):
    """F_b' bent about the weak axis: no C_L (3.3.3.1), and no rise by C_fu or by a depth factor is counted on."""
    if post["kind"] == "glulam":
        return post["F_b_y"] * C_D * wood.wet(post, "F_b", moisture)
    plain = post["F_b"] * C_D * wood.wet(post, "F_b", moisture)
    if post["kind"] == "timber":
        return plain * (post["C_fu_wide"] if post["b"] < post["d"] else 1.0) * min(1.0, (12 / post["b"]) ** (1 / 9))
    return plain * (post["C_F_b"] if post["kind"] == "dimension" else 1.0)
