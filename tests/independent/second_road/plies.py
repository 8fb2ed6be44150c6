"""Fasteners between the plies of a flush beam: NDS 2018 chapter 12, the load of the heavier face, joint by joint."""

from math import sqrt

from .entries import length, live_load, told, word
from .printed_tables import figure, row
from .takedown import combinations, edition_of, weighed
from .wood_beam import worst


def check(survey, beam, line, moisture):
    """Utilisations by key; nothing where the survey does not say how the plies are joined."""
    entry = survey["beam"]
    fastener, count = told(entry, "plies_joined_by"), told(entry, "fastener_rows")
    o_f = length(entry, "fastener_spacing")
    if told(entry, "position") != "flush" or fastener is None or count is None or o_f is None:
        return {}
    bolt, n, rows = fastener.endswith("bolt"), beam["plies"], int(count)
    if bolt and rows > 2:
        return {}
    dowel = _dowel(fastener, bolt)
    D, kind = dowel["D"], "bolt" if bolt else "nail"
    apart = {rule: _least(kind, rule) * D for rule in ("edge distance", "spacing in a row", "spacing between rows")}
    found = {"flush.plies_spacing": apart["spacing in a row"] / o_f}
    room = 2 * apart["edge distance"] + (rows - 1) * apart["spacing between rows"]
    found["flush.plies_rows"] = room / beam["d"]
    reach = 0.0 if bolt else max(0.0, dowel["L"] - beam["b_ply"])
    if not bolt:
        found["flush.plies_reach"] = 6 * D / reach if reach else float("inf")
    if bolt or reach >= 6 * D:
        Z = _bolt(dowel, beam) if bolt else _nail(dowel, beam, reach)
        Z *= 1.0 if moisture == "dry" else 0.7
        for side in "ab":
            for loads in _places(survey, line, side):
                for factors, C_D in combinations(edition_of(survey.get("site", {})), {"D", "L"}):
                    w = sum(factors.get(kind, 0.0) * size for kind, size in loads.items())
                    worst(found, "flush.plies", w * (n - 1) / n / (rows * Z * C_D / o_f))
    return found


def _places(survey, line, side):
    """Loads by type, lb per inch of one face, from each place at which something begins to hang there."""
    hung = []
    for item in survey["carried"]:
        if item["kind"] not in ("floor", "ceiling") or length(item, f"span_{side}") <= 0:
            continue
        half = length(item, f"span_{side}") / 2 / 144
        first, last = length(item, "from", line.start), length(item, "to", line.end)
        live = length(item, "live")
        if live is None:
            live = live_load(word(item, "use", f"{item['kind']}_use"))
        hung.append((first, last, {"D": weighed(item, "dead", f"{item['kind']}_dead") * half, "L": live * half}))
    for start, _, _ in hung:
        there = [loads for first, last, loads in hung if first <= start < last]
        yield {kind: sum(loads[kind] for loads in there) for kind in "DL"}


def _dowel(fastener, bolt):
    if bolt:
        line = row("nds_2018/bolts", size=fastener.removesuffix(" bolt"))
        return {"D": float(line["D"]), "F_yb": float(line["F_yb"])}
    size, family = fastener.split()
    line = row("nds_2018/nails", type=family, size=size)
    return {name: float(line[name]) for name in ("D", "L", "F_yb")}


def _least(kind, rule):
    return figure("nds_2018/dowel_distances", "lower", fastener=kind, rule=rule)


def _nail(dowel, beam, reach):
    """12.3.1 with F_e = 16600 G^1.84; the point counts from 10 D of reach on, in the second ply at the most."""
    D = dowel["D"]
    l_m = min(beam["b_ply"], reach if reach >= 10 * D else reach - 2 * D)
    K_D = 2.2 if D <= 0.17 else 10 * D + 0.5
    return _yield(dowel, (l_m, beam["b_ply"]), 16600 * beam["G"] ** 1.84, [K_D] * 6)


def _bolt(dowel, beam):
    """12.3.1 with both plies across their grain: F_e = 6100 G^1.45/sqrt(D), K_theta = 1.25."""
    F_e = 6100 * beam["G"] ** 1.45 / sqrt(dowel["D"])
    return _yield(dowel, (beam["b_ply"],) * 2, F_e, [5.0, 5.0, 4.5, 4.0, 4.0, 4.0])


def _yield(dowel, lengths, F_e, R):
    """Least of the six modes in single shear, by the balance of bearing and hinges; both members of one wood.

    With q the bearing of the dowel per inch, M its hinge: a dowel that turns stiffly (II), one hinge in the one or the
    other member (III), two hinges (IV).
    """
    q, M = F_e * dowel["D"], dowel["F_yb"] * dowel["D"] ** 3 / 6
    m, s = lengths
    modes = [q * m, q * s]
    modes.append(_root(1 / q, m + s, q * (m**2 + s**2) / 2))
    modes.append(_root(3 / (2 * q), m, q * m**2 / 2 + 2 * M))
    modes.append(_root(3 / (2 * q), s, q * s**2 / 2 + 2 * M))
    modes.append(sqrt(4 * M * q / 2))
    return min(mode / divided for mode, divided in zip(modes, R, strict=True))


def _root(a, b, c):
    """The greater root of a P^2 + b P - c = 0."""
    return (-b + sqrt(b**2 + 4 * a * c)) / (2 * a)
