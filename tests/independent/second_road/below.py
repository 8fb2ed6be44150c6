"""Girders under the posts and pads on the soil: the same beam rules, IRC R403.1, ACI 318-19 chapter 14."""

from math import inf, sqrt

from . import steel, wood, wood_beam, wood_post
from .cases import Cases
from .entries import by_register, length, lengths, told, word
from .lumber import member
from .printed_tables import figure, rows
from .stiffness import Line
from .takedown import combinations, edition_of, loads_of

KINDS = ("D", "L", "Lr", "S")


def below(survey, cases, combos, posts, heights):
    """Utilisations by key of every girder, of what presses on it, and of every pad."""
    found, site = {}, survey.get("site", {})
    feet = _brought(cases)
    for coming, post, height in zip(feet, posts, heights, strict=True):
        coming["D"] = wood_post.foot(post, height, coming["D"])
    standing = {f"post {k + 1}": coming for k, coming in enumerate(feet)}
    service = [max(R) for R in zip(*[wood_beam.pushes(cases, factors) for factors, _ in combos], strict=True)]
    at_foot = [wood_post.foot(*of) for of in zip(posts, heights, service, strict=True)]
    for k, girder in enumerate(survey.get("girder", [])):
        found |= _girder(f"girder[{k + 1}]", girder, site, standing)
        _crushing(found, girder, posts, at_foot)
    for k, pad in enumerate(survey.get("pad", [])):
        found |= _pad(f"pad[{k + 1}]", pad, survey, posts, standing)
    return found


def _brought(cases):
    """What each support brings down: of each type the greatest over its patterns; what only lifts brings nothing."""
    kinds = {kind for kind, _, _ in cases.columns}
    every = {
        kind: [cases.summed({kind: 1.0}, pattern)[1] for pattern in cases.patterns({kind: 1.0})]
        for kind in KINDS
        if kind in kinds
    }
    found = []
    for k in range(len(cases.line.supports)):
        most = {kind: max(R[k] for R in of) for kind, of in every.items()}
        found.append({kind: max(0.0, P) for kind, P in most.items()})
    return found


def _read(text):
    return steel.shape(text) if steel.names(text) else member(text)


def _girder(key, girder, site, standing):
    beam, supports = _read(told(girder, "member")), lengths(girder, "supports")
    line = Line(supports)
    lines = any(told(girder, f"{name}_line") for name in ("dead", "live", "roof_live", "snow"))
    loads = [("D", (line.start, line.end, beam["W"] if beam["kind"] == "steel" else _weight(beam)))]
    if None not in (told(girder, "span_a"), told(girder, "span_b")):
        floor = {**girder, "kind": "floor"}
        loads += loads_of(floor, site, line.start, line.end)
    elif not lines:
        for k in range(len(supports)):
            standing.pop(f"{told(girder, 'name')} support {k + 1}", None)
        return {}
    loads += loads_of({**girder, "kind": "line"}, site, line.start, line.end)
    names = [part.strip() for part in (told(girder, "posts") or "").split(",") if part.strip()]
    stations = lengths(girder, "post_stations")
    forces = [[part for part in standing[name].items() if part[1]] for name in names]
    on_it = [(at, 0.0, of) for at, of in zip(stations, forces, strict=True)]
    for name, station in zip(names, stations, strict=True):
        loads += [(kind, (station, None, P)) for kind, P in standing[name].items() if P]
    cases = Cases(line, loads)
    combos = combinations(edition_of(site), {kind for kind, _ in loads})
    for k, coming in enumerate(_brought(cases)):
        standing[f"{told(girder, 'name')} support {k + 1}"] = coming
    l_b, last = length(girder, "bearing_length"), len(supports) - 1
    given = {
        "key": key,
        "moisture": word(girder, "moisture", "moisture"),
        "share": False,
        "position": word(girder, "position", "girder_position"),
        "points": [thing for thing in on_it if thing[2]],
        "top": None if word(girder, "top_edge", "top_edge") == "held" else wood_beam.free_below(line),
        "uniform": False,
        "seats": [(l_b, beam["b"] if l_b is not None else None, k in (0, last)) for k in range(len(supports))],
        "limits": {
            ("live", figure("irc_2021/deflection", "n", member="floors")),
            ("total", figure("ibc_2021/deflection", "n", member="floor member", load="D+L")),
        },
    }
    check = steel.check_beam if beam["kind"] == "steel" else wood_beam.check
    return check(beam, cases, combos, given)


def _weight(beam):
    return beam["density"] / 1728 * beam["b"] * beam["d"]


def _crushing(found, girder, posts, at_foot):
    """Each post on the girder's top, whichever way it is turned: on the smaller area."""
    beam = _read(told(girder, "member"))
    if beam["kind"] == "steel":
        return
    for name in (part.strip() for part in (told(girder, "posts") or "").split(",")):
        k = int(name.removeprefix("post ")) - 1
        post = posts[k]
        area = min(min(post["b"], beam["b"]) * post["d"], min(post["d"], beam["b"]) * post["b"])
        limit = wood.across_grain(beam, word(girder, "moisture", "moisture"))
        found[f"post[{k + 1}].girder_crushing"] = at_foot[k] / area / limit


def _pad(key, pad, survey, posts, standing):
    """A pad as told, or a new one sized by its load: soil, projection, bending, shear, punching, bearing."""
    under = told(pad, "under")
    if under not in standing:
        return {}
    coming, site = dict(standing[under]), survey.get("site", {})
    stands = _stands(pad, under, survey, posts)
    if stands is None:
        return {}
    coming["D"] += stands[2]
    factors = [f for f, _ in combinations(edition_of(site), set(coming))]
    P = max(sum(g * coming[kind] for kind, g in f.items()) for f in factors)
    folder = edition_of(site).lower().replace(" ", "").replace("-", "_")
    P_u = max(sum(float(r[kind]) * size for kind, size in coming.items()) for r in rows(f"{folder}/strength"))
    sizes = _sizes(pad, P, by_register(site, "soil_bearing", "soil_bearing"), stands)
    if sizes is None:
        return {}
    l, b, h, sized = sizes
    found = {}
    if "side" not in sized:
        found[f"{key}.soil"] = (P / (l * b) + _concrete_weight() * h) / (_soil(site) / 144)
    if "thickness" not in sized:
        for name, least in _least().items():
            found[f"{key}.thickness_{name}"] = least / h
    _projections(found, key, (l, b, h), stands, "thickness" in sized)
    f_c = length(pad, "strength", None if told(pad, "state") == "existing" else _footing("f_c"))
    if f_c is not None:
        _concrete(found, key, (l, b, h), stands, (P_u, f_c))
    return found


def _footing(column):
    return figure("irc_2021/footing", column, rule="concrete footing")


def _least():
    """Least thickness by the house code and by the concrete standard."""
    return {
        "irc": _footing("thickness_least"),
        "aci": figure("aci318_19/plain_concrete_sizes", "length", item="least thickness"),
    }


def _concrete_weight():
    return figure("practice/densities", "density", material="concrete") / 1728


def _soil(site):
    return by_register(site, "soil_bearing", "soil_bearing")


def _stands(pad, under, survey, posts):
    """Sides of what stands on the pad, those from whose edges it bends, and its weight if it is a pier.

    It bends from half way to a steel plate's edge, of masonry from half way between the pier's centre and its face.
    """
    if under.startswith("post "):
        k = int(under.removeprefix("post ")) - 1
        entry, post = survey["post"][k], posts[k]
        if told(entry, "stands_on") == "pad":
            base = length(entry, "base_length"), length(entry, "base_breadth")
            if None in base:
                return (post["b"], post["d"]), (post["b"], post["d"]), 0.0
            return base, ((post["b"] + base[0]) / 2, (post["d"] + base[1]) / 2), 0.0
    pier = length(pad, "pier_length"), length(pad, "pier_breadth")
    if None in pier:
        return None
    made_of = word(pad, "pier_material", "pier_material")
    heavy = figure("practice/piers", "density", material=made_of) / 1728
    weight = heavy * pier[0] * pier[1] * by_register(pad, "pier_height", "pier_height")
    masonry = made_of in ("block", "brick", "stone")
    return pier, tuple(side / 4 + side / 4 for side in pier) if masonry else pier, weight


def _sizes(pad, P, q_allow, stands):
    """Sides, thickness and which of them come from the load; None where they are not known."""
    l, b, h = (length(pad, side) for side in ("length", "breadth", "thickness"))
    if None not in (l, b, h):
        return l, b, h, ()
    new = told(pad, "state") == "new"
    if not new or (l is None) != (b is None):
        return None
    if l is not None:
        return l, b, _thick(max(l, b), stands), ("thickness",)
    if h is not None:
        side = _side(P, q_allow, h)
        return None if side is None else (side, side, h, ("side",))
    h = max(_least().values())
    for _ in range(200):
        side = _side(P, q_allow, h)
        if side is None:
            return None
        if abs(_thick(side, stands) - h) < 1e-9:
            return side, side, h, ("side", "thickness")
        h = _thick(side, stands)
    return None


def _side(P, q_allow, h):
    left = q_allow / 144 - _concrete_weight() * h
    return sqrt(P / left) if left > 0 else None


def _thick(side, stands):
    return max(*_least().values(), (side - min(stands[0])) / 2)


def _projections(found, key, sizes, stands, by_load):
    l, b, h = sizes
    for side, c in zip((l, b), stands[0], strict=True):
        out = max(side - c, 0.0) / 2
        wood_beam.worst(found, f"{key}.projection_least", _footing("projection_least") / out if out > 0 else inf)
        if not by_load:
            wood_beam.worst(found, f"{key}.projection", out / h)


def _concrete(found, key, sizes, stands, load):
    """Plain concrete: 14.5.2 bending, 14.5.5 shear from where it bends, 14.5.6 bearing; 2 in lost, cast on soil."""
    l, b, cast = sizes
    P_u, f_c = load
    (bears_1, bears_2), faces, _ = stands
    c_1, c_2 = faces
    h, q = max(cast - 2, 0.0), P_u / (l * b)
    phi = figure("aci318_19/plain_concrete", "factor", item="phi")
    for side, across, face in ((l, b, faces[0]), (b, l, faces[1])):
        out = max(side - face, 0.0) / 2
        M_n = min(5 * sqrt(f_c), 0.85 * f_c) * across * h**2 / 6
        _ratio(found, f"{key}.flexure", q * across * out**2 / 2, phi * M_n)
        _ratio(found, f"{key}.shear", q * across * max(out - h, 0.0), phi * 4 / 3 * sqrt(f_c) * across * h)
    V_n = min(2.0, 1 + 2 * min(c_1, c_2) / max(c_1, c_2)) * 4 / 3 * sqrt(f_c) * 2 * (c_1 + c_2 + 2 * h) * h
    _ratio(found, f"{key}.punching", q * max(l * b - (c_1 + h) * (c_2 + h), 0.0), phi * V_n)
    _ratio(found, f"{key}.bearing", P_u, phi * 0.85 * f_c * bears_1 * bears_2)


def _ratio(found, key, demand, limit):
    wood_beam.worst(found, key, demand / limit if limit > 0 else (inf if demand > 0 else 0.0))
