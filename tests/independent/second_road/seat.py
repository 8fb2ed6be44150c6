"""How the beam sits on a post, and utilisations of what lies under it: NDS 3.10, 4.2.6, IRC R502.6."""

from math import sqrt

from . import wood
from .entries import length, told
from .printed_tables import figure, row, rows
from .wood_beam import worst

UNKNOWN = ("", "unknown")


def weakest_plate(species):
    """F_c_perp of the lowest grade of a species."""
    found = [r for name in ("sawn_4a", "sawn_4b") for r in rows(f"nds_2018/{name}") if r["species"] == species]
    return min(float(r["F_c_perp"]) for r in found)


def plate_adj(F_c_perp, moisture):
    """F_c_perp' of a plate of dimension lumber that may end at the load."""
    return F_c_perp * (1.0 if moisture == "dry" else figure("nds_2018/wet_service", "F_c_perp", product="dimension"))


def seat(beam, post, entry):
    """(length, breadth) of the seat; None for each that is not known."""
    kind = told(entry, "seat") or ""
    if kind in UNKNOWN:
        return None, None
    rests = length(entry, "seat_length")
    if kind == "steel plate":
        breadth = length(entry, "seat_breadth")
        if rests is None or breadth is None:
            return None, None
        return rests, min(beam["b"], breadth)
    if post["kind"] == "steel":
        return None, None
    if kind == "notch":
        cut, count = length(entry, "notch_depth"), told(entry, "seated_plies")
        if cut is None or (beam["plies"] > 1 and count is None):
            return None, None
        breadth = int(count) * beam["b_ply"] if beam["plies"] > 1 else min(beam["b"], cut)
    elif beam["plies"] > 1 and _whole(beam, post["d"]) < beam["plies"]:
        breadth = _whole(beam, post["d"]) * beam["b_ply"]
    else:
        breadth = min(beam["b"], post["d"])
    return post["b"] if rests is None else rests, breadth


def _whole(beam, side):
    """Plies that lie on a side with their whole thickness; one at least, crushed or not."""
    return min(beam["plies"], max(1, int((side + 1e-9) / beam["b_ply"])))


def eccentricity(post, entry, breadth):
    """How far off centre the load is told to be; on a notch at least as far as its seat."""
    e = length(entry, "eccentricity")
    if told(entry, "seat") != "notch" or breadth is None:
        return e
    return max(e or 0.0, (post["d"] - breadth) / 2)


def check(post, entry, rests, given):
    """Utilisations of the layers under the beam. given: key, cases as (P, C_D), plate (F_c_perp' or None), moisture."""
    found, key, kind = {}, given["key"], told(entry, "seat")
    l_b, breadth = rests
    found[f"{key}.bearing_length"] = figure("irc_2021/bearing_minimum", "length", on="wood or metal") / l_b
    across = length(entry, "seat_breadth")
    for P, C_D in given["cases"]:
        if kind == "wood plate" and given["plate"] is not None:
            worst(found, f"{key}.seat_plate_upper", P / (breadth * l_b) / given["plate"])
            worst(found, f"{key}.seat_plate_lower", P / (post["b"] * post["d"]) / given["plate"])
        if post["kind"] == "steel":
            continue
        star = wood.compression_star(post, C_D, given["moisture"])
        area, limit = breadth * l_b, 0.75 * star
        if kind in ("wood plate", "steel plate"):
            area = min(l_b, post["b"]) * min(across or post["d"], post["d"])
            limit = star if kind == "steel plate" else limit  # 3.10.1.3
        worst(found, f"{key}.seat_end_grain", P / area / limit)
    if kind == "steel plate" and length(entry, "seat_thickness") is not None:
        P = max(P for P, _ in given["cases"])
        reach = max(0.0, (l_b - post["b"]) / 2, (across - post["d"]) / 2)
        F_y = 1000 * float(row("aisc360_16/materials", steel="A36")["F_y"])
        Omega = figure("aisc360_16/factors", "value", clause="F1", item="Omega")
        # elastic-plastic strip: f_p c^2/2 <= F_y t^2/4 / Omega
        t = sqrt(2 * Omega * P / (breadth * l_b) * reach**2 / F_y)
        found[f"{key}.seat_plate_thickness"] = t / length(entry, "seat_thickness")
    return found
