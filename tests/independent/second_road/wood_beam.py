"""Utilisations of a wood beam under every combination and pattern, at every bearing: NDS chapters 3 to 5 and 8."""

from math import inf

from . import wood
from .cases import Cases
from .printed_tables import figure
from .stiffness import Line, cut_to


def worst(found, key, ratio):
    """Keep the greatest utilisation of a key."""
    found[key] = max(found.get(key, -inf), ratio)


def check(beam, cases: Cases, combos, given):
    """Utilisations by key.

    given: key, moisture, share, position, top (length free to buckle sideways, None = held), uniform, seats as
    (length or None, breadth, at the end or not), limits as (live or total, n), notch as (from below or not, depth,
    how far it runs past the face or None).
    """
    found = {}
    _bending(found, beam, cases, combos, given)
    _shear(found, beam, cases, combos, given)
    if given.get("notch"):
        _notch(found, beam, cases, combos, given)
    _bearing(found, beam, cases, combos, given)
    _deflection(found, beam, cases, combos, given)
    return found


def free_below(line):
    """The longest stretch of bottom edge between points that hold it: a span, or an overhang."""
    return max(b - a for a, b in line.bays)


def _bending(found, beam, cases, combos, given):
    S = beam["b"] * beam["d"] ** 2 / 6
    limits = {
        "sagging": {"l_u": given["top"], "uniform": given["uniform"], "F_b": beam["F_b"]},
        "hogging": {"l_u": free_below(cases.line), "F_b": beam.get("F_b_neg", beam["F_b"])},
    }
    solved = [
        (C_D, cases.summed(factors, pattern)[0]) for factors, C_D in combos for pattern in cases.patterns(factors)
    ]
    hogs = min(cases.moments(pieces)[1][0] for _, pieces in solved) < -1e-6
    known = {}
    for C_D, pieces in solved:
        for way, M, at in _peaks(cases, pieces, beam["kind"] == "glulam"):
            if way == "hogging" and not hogs:
                continue
            l_0 = _between_zeros(cases, pieces, at) if beam["kind"] == "glulam" else 252.0
            if (way, C_D, l_0) not in known:
                known[way, C_D, l_0] = wood.bending(
                    beam, C_D, given["moisture"], share=given["share"], l_0=l_0, **limits[way]
                )
            F_b_adj, slender = known[way, C_D, l_0]
            worst(found, f"{given['key']}.bending_{way}", abs(M) / S / F_b_adj)
            if slender is not None:
                worst(found, f"{given['key']}.slenderness_{way}", slender)


def _peaks(cases, pieces, in_every_bay):
    """Greatest and least moment of a case; of glulam in every bay, for each has its own length between zeros."""
    if not in_every_bay:
        top, low = cases.moments(pieces)
        return [("sagging", *top), ("hogging", *low)]
    found = []
    for bay in range(len(cases.line.bays)):
        top, low = cases.moments(pieces, cases.pieces_of(bay))
        found += [("sagging", *top), ("hogging", *low)]
    return found


def _between_zeros(cases, pieces, at):
    zeros = cases.zeros(pieces)
    left = max((x for x in zeros if x < at - 1e-9), default=zeros[0])
    right = min((x for x in zeros if x > at + 1e-9), default=zeros[-1])
    if any(abs(x - at) <= 1e-9 for x in zeros):
        return cases.line.end - cases.line.start  # no moment anywhere
    return right - left


def _shear(found, beam, cases, combos, given):
    A = beam["b"] * beam["d"]
    for factors, C_D in combos:
        F_v = wood.shear(beam, C_D, given["moisture"])
        for pattern in cases.patterns(factors):
            V = _greatest_shear(beam, cases, factors, pattern, given)
            worst(found, f"{given['key']}.shear", 1.5 * V / A / F_v)


def _greatest_shear(beam, cases, factors, pattern, given):
    """3.4.3.1: at d from the face of each bearing and beyond, near forces counted with x/d; or everywhere.

    Where any load presses up the shear may be greatest anywhere, and nothing is left out.
    """
    line = cases.line
    pieces, _ = cases.summed(factors, pattern)
    greatest = 0.0
    dropped = given["position"] == "dropped" and all(load[2] >= 0 for _, _, load in cases.columns)
    for bay, (a, b) in enumerate(line.bays):
        left, right = a, b
        for support, side, sign in ((a, "right", 1), (b, "left", -1)):
            if support not in line.supports:
                continue
            seat = given["seats"][line.supports.index(support)][0] or 0.0
            reach = seat / 2 + beam["d"]
            if not dropped or 2 * reach >= b - a:
                greatest = max(greatest, abs(cases.shear(pieces, support, side)))
                continue
            cut = support + sign * reach
            greatest = max(greatest, _at_depth(cases, factors, pattern, (support, sign, cut), beam["d"]))
            left, right = (cut, right) if sign > 0 else (left, cut)
        for k in cases.pieces_of(bay):
            for x, side in ((cases.stations[k], "right"), (cases.stations[k + 1], "left")):
                if left < x < right:
                    greatest = max(greatest, abs(cases.shear(pieces, x, side)))
    return greatest


def _notch(found, beam, cases, combos, given):
    """4.4.3 and 3.4.3.2: a notch over both end bearings, against the shear at the bearing itself."""
    below, cut, reach = given["notch"]
    d, left = beam["d"], max(beam["d"] - given["notch"][1], beam["d"] / 1000)
    if below:
        resists = 2 / 3 * beam["b"] * left**3 / d**2
    else:
        resists = 2 / 3 * beam["b"] * (d - (d - left) * min(left if reach is None else reach, left) / left)
    deepest = _deepest(beam, d, below=below)
    found[f"{given['key']}.notch"] = cut / deepest if deepest else inf
    ends = ((cases.line.supports[0], "right"), (cases.line.supports[-1], "left"))
    for factors, C_D in combos:
        for pattern in cases.patterns(factors):
            pieces, _ = cases.summed(factors, pattern)
            V = max(abs(cases.shear(pieces, station, side)) for station, side in ends)
            worst(found, f"{given['key']}.shear_notched", V / resists / wood.shear(beam, C_D, given["moisture"]))


def _deepest(beam, d, *, below):
    if beam["kind"] == "glulam":
        return min(0.1 * d, 3.0) if below else 0.4 * d
    if beam["kind"] == "composite":
        return 0.1 * d if below else 0.0
    return 0.25 * d


def _at_depth(cases, factors, pattern, where, d):
    support, sign, cut = where
    weights = cases.weights(factors, pattern)
    near, share = set(), 0.0
    for k, (_, _, (x, end, P)) in enumerate(cases.columns):
        if end is None and 0 <= sign * (x - support) <= sign * (cut - support):
            near.add(k)
            face = cut - sign * d
            share += abs(weights[k] * P) * max(0.0, sign * (x - face)) / d
    pieces, _ = cases.summed(factors, pattern, near)
    V = sign * cases.shear(pieces, cut, "left" if sign < 0 else "right")
    return max(V + share, -V)  # near loads go to this bearing: against far shear that does not they only help


def pushes(cases, factors):
    """Greatest push on each support over the patterns of a combination; a support that is only lifted is not pushed."""
    every = [cases.summed(factors, pattern)[1] for pattern in cases.patterns(factors)]
    return [max(0.0, *(R[k] for R in every)) for k in range(len(cases.line.supports))]


def _bearing(found, beam, cases, combos, given):
    most = [max(R) for R in zip(*[pushes(cases, factors) for factors, _ in combos], strict=True)]
    for k, (l_b, breadth, at_end) in enumerate(given["seats"]):
        if l_b is None or breadth is None:
            continue
        C_b = 1.0 if at_end or l_b >= 6 else (l_b + 0.375) / l_b  # 3.10.4
        limit = wood.across_grain(beam, given["moisture"], C_b)
        worst(found, f"{given['key']}.bearing[{k + 1}]", most[k] / (l_b * breadth) / limit)


def _deflection(found, beam, cases, combos, given):
    """Each load type alone with its worst pattern; in the long run K_cr times dead load and the sum of the others."""
    kinds = [name for name in ("L", "Lr", "S") if any(kind == name for kind, _, _ in cases.columns)]
    K_cr = figure(
        "nds_2018/creep",
        "K_cr",
        condition="seasoned lumber, glulam, SCL, I-joists; dry"
        if given["moisture"] == "dry"
        else "unseasoned or wet lumber",
    )
    for bay, (a, b) in enumerate(cases.line.bays):
        span = cases.line.is_span(bay)
        reach = b - a if span else 2 * (b - a)
        down = {name: _moved(beam, cases, name, bay, given["moisture"]) for name in ("D", *kinds)}
        for what, n in given["limits"]:
            key = f"{given['key']}.deflection_{what}_L{n:.0f}"
            if what == "live":
                for name in kinds:
                    worst(found, key, down[name] / (reach / n))
                continue
            for factors, _ in combos:
                passing = sum(factor * down[name] for name, factor in factors.items() if name != "D")
                worst(found, key, (K_cr * down["D"] + passing) / (reach / n))


def _moved(beam, cases, name, bay, moisture):
    """Greatest way down of a bay under one load type (an overhang either way), with shear of composite lumber.

    By shear a bay goes down by 1.2/(G A) times its own moment as if it stood by itself: moments that its neighbours
    put on its ends turn it and shear it evenly, and bring its ends no nearer to each other.
    """
    span = cases.line.is_span(bay)
    Y = 0.0
    for pattern in cases.patterns({name: 1.0}):
        most, least = cases.deflections(cases.summed({name: 1.0}, pattern)[0], bay)
        Y = max(Y, most if span else max(most, -least))
    I = beam["b"] * beam["d"] ** 3 / 12
    E = wood.E_adj(beam, moisture)
    if beam["kind"] != "composite":
        return Y / (E * I)
    return Y / (E * I) + 1.2 * _alone(cases, name, bay) / (E / 16 * beam["b"] * beam["d"])


def _alone(cases, name, bay):
    """Greatest moment of a bay by itself: on simple supports, or sticking out from its support."""
    if not cases.line.is_span(bay):
        everywhere = frozenset(range(len(cases.line.bays)))
        top, low = cases.moments(cases.summed({name: 1.0}, everywhere)[0], cases.pieces_of(bay))
        return max(top[0], -low[0])
    a, b = cases.line.bays[bay]
    loads = [load for kind, _, load in cases.columns if kind == name]
    alone = Cases(Line([0.0, b - a]), [("D", part) for part in cut_to(loads, bay, cases.line)])
    top, low = alone.moments(alone.summed({"D": 1.0}, frozenset())[0])
    return max(top[0], -low[0])
