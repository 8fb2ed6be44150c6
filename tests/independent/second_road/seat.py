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
        return rests, _bears(beam, breadth, length(entry, "eccentricity"))
    if post["kind"] == "steel":
        return None, None
    if kind == "notch":
        cut, count = length(entry, "notch_depth"), told(entry, "seated_plies")
        if cut is None or (beam["plies"] > 1 and count is None):
            return None, None
        breadth = int(count) * beam["b_ply"] if beam["plies"] > 1 else min(beam["b"], cut)
    else:
        breadth = _bears(beam, post["d"], length(entry, "eccentricity"))
    return post["b"] if rests is None else rests, breadth


def _lies(beam, side, at):
    """Of a beam whose middle lies at a distance from that of what bears it: plies borne whole, breadth borne in all."""
    n = beam["plies"]
    ply = beam["b"] / n
    starts = [at - beam["b"] / 2 + k * ply for k in range(n)]
    on = [min(start + ply, side / 2) - max(start, -side / 2) for start in starts]
    return sum(one > ply - 1e-9 for one in on), sum(max(0.0, one) for one in on)


def _bears(beam, side, off):
    """Breadth that counts: of whole plies, one at least; where nobody measured, as the beam lies for most of them."""
    if off is None:
        return _best(beam, side)[0]
    whole, all_of_it = _lies(beam, side, off)
    if whole == beam["plies"] or beam["plies"] == 1:
        return all_of_it
    return min(max(1, whole) * beam["b"] / beam["plies"], all_of_it)


def _best(beam, side):
    """Breadth and how far off centre, of the place nearest to the centre at which most plies are borne whole."""
    n, ply = beam["plies"], beam["b"] / beam["plies"]
    if n == 1:
        return min(beam["b"], side), 0.0
    places = {0.0, *(abs(k * ply - beam["b"] / 2 + way * side / 2) for k in range(n + 1) for way in (-1, 1))}
    most = max(_lies(beam, side, at)[0] for at in places)
    if most == 0:  # not even one whole ply: as one that hangs over on both sides, and the rest beside it
        return min(ply, side), (max(0.0, 2 * ply - side) / 2 if (n - 1) % 2 else 0.0)
    near = min(at for at in places if _lies(beam, side, at)[0] == most)
    return most * ply, near


def eccentricity(post, entry, breadth):
    """How far off centre the load is told to be; on a notch at least as far as its seat."""
    e = length(entry, "eccentricity")
    if told(entry, "seat") != "notch" or breadth is None:
        return e
    return max(e or 0.0, (post["d"] - breadth) / 2)


def forced(beam, post, entry, breadth):
    """How far off centre the plies that are counted put the beam, across it; nothing where it was measured."""
    if breadth is None or told(entry, "seat") == "notch" or length(entry, "eccentricity") is not None:
        return 0.0
    side = length(entry, "seat_breadth") if told(entry, "seat") == "steel plate" else post["d"]
    return _best(beam, side)[1]


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
