"""A survey, as ``tomllib`` gives it, to the utilisation of every link of the chain by key."""

from . import plies, steel, wood_beam, wood_post
from . import seat as seats
from .below import below
from .cases import Cases
from .entries import length, told, word
from .lumber import member
from .printed_tables import figure
from .stiffness import Line
from .takedown import NotShown, combinations, edition_of, loads_of


def read(text):
    """A member of wood or steel."""
    return steel.shape(text) if steel.names(text) else member(text)


def utilisations(survey):
    """Every utilisation by key; the joints of a flush beam alone where the take-down cannot be shown."""
    beam, entries = read(told(survey["beam"], "member")), survey["post"]
    posts = [read(told(entry, "member")) for entry in entries]
    line = _line(survey, entries, posts)
    try:
        loads = [
            load
            for item in survey["carried"]
            for load in loads_of(item, survey.get("site", {}), line.start, line.end, line.bays)
        ]
    except NotShown:  # what hangs on its faces is known all the same
        return plies.check(survey, beam, line, moisture_of(survey))
    loads.append(("D", (line.start, line.end, own_weight(beam))))
    cases = Cases(line, loads)
    combos = combinations(edition_of(survey.get("site", {})), {kind for kind, _ in loads})
    rests = [seats.seat(beam, post, entry) for post, entry in zip(posts, entries, strict=True)]
    given = {**_beam_given(survey, line, loads, rests), "points": _points(survey, line)}
    check = steel.check_beam if beam["kind"] == "steel" else wood_beam.check
    found = check(beam, cases, combos, given) | plies.check(survey, beam, line, moisture_of(survey))
    pushed = [wood_beam.pushes(cases, factors) for factors, _ in combos]
    for k, post in enumerate(posts):
        found |= _post(survey, k, post, rests[k], [(R[k], C_D) for R, (_, C_D) in zip(pushed, combos, strict=True)])
    found |= below(survey, cases, combos, posts, heights(survey))
    _settlements(found, survey, posts)
    return found


def own_weight(beam):
    """Pounds per inch."""
    return beam["W"] if beam["kind"] == "steel" else beam["density"] / 1728 * beam["b"] * beam["d"]


def heights(survey):
    """Height of each post."""
    ceiling = length(survey["wall"], "ceiling_height")
    return [length(entry, "height", ceiling) for entry in survey["post"]]


def _line(survey, entries, posts):
    whole = length(survey["wall"], "clear_opening") + (posts[0]["b"] + posts[-1]["b"]) / 2
    stations = [0.0, *(length(entry, "station") for entry in entries[1:-1]), length(entries[-1], "station", whole)]
    left, right = (length(survey["beam"], f"overhang_{side}", 0.0) for side in ("left", "right"))
    return Line(stations, left, right)


def moisture_of(survey):
    """Dry or wet, for the beam and all that it stands on."""
    return word(survey["beam"], "moisture", "moisture")


def _beam_given(survey, line, loads, rests):
    entry = survey["beam"]
    held = word(entry, "top_edge", "top_edge") == "held"
    told_length = length(entry, "unbraced_length")
    longest = max(b - a for k, (a, b) in enumerate(line.bays) if line.is_span(k))
    spread = all(b is not None and (a, b) == (line.start, line.end) for _, (a, b, _) in loads)
    last = len(rests) - 1
    return {
        "key": "beam",
        "moisture": moisture_of(survey),
        "share": told(entry, "plies_share") == "yes",
        "position": told(entry, "position"),
        "top": None if held else (told_length or longest),
        "uniform": spread and len(line.bays) == 1 and not told_length,
        "seats": [(*seat, k in (0, last)) for k, seat in enumerate(rests)],
        "limits": _limits(survey),
        "notch": _notch(entry),
    }


def _points(survey, line):
    """Station, length of the foot and forces by type of each strut and point that stands on the beam."""
    found = []
    for item in survey["carried"]:
        if item["kind"] in ("strut", "point"):
            parts = loads_of(item, survey.get("site", {}), line.start, line.end)
            forces = [(kind, P) for kind, (_, _, P) in parts]
            found.append((length(item, "station"), length(item, "foot_length", 0.0), forces))
    return found


def _notch(entry):
    """From below or not, depth, reach; None if the ends are whole."""
    below, above = length(entry, "end_notch_bottom"), length(entry, "end_notch_top")
    if below is None and above is None:
        return None
    return above is None, below or above, length(entry, "end_notch_reach")


def _limits(survey):
    """Live and total limits as span over n: IRC R301.7, IBC 1604.3, and stone's own."""
    floors = any(item["kind"] == "floor" for item in survey["carried"])
    entry, found = survey["beam"], set()
    if floors:
        found.add(("live", figure("irc_2021/deflection", "n", member="floors")))
    ceiling = word(entry, "ceiling_below", "ceiling_finish")
    if ceiling == "plaster":
        found.add(("live", figure("irc_2021/deflection", "n", member="ceilings, plaster or stucco")))
    elif ceiling == "gypsum" and not floors:
        found.add(("live", figure("irc_2021/deflection", "n", member="ceilings, gypsum board")))
    if not found:
        found.add(("live", figure("irc_2021/deflection", "n", member="all other structural members")))
    found.add(("total", figure("ibc_2021/deflection", "n", member="floor member", load="D+L")))
    if floors and word(entry, "floor_above", "floor_finish") == "stone":
        found.add(("live", figure("practice/deflection", "n", member="floor under stone")))
    return found


def _post(survey, k, post, rests, cases):
    entry, key, moisture = survey["post"][k], f"post[{k + 1}]", moisture_of(survey)
    height = heights(survey)[k]
    species = word(entry, "plate", "plate_species")
    plate = None if species == "none" else seats.plate_adj(seats.weakest_plate(species), moisture)
    found = {}
    forced = seats.forced(read(told(survey["beam"], "member")), post, entry, rests[1])
    if None not in rests:
        found |= seats.check(post, entry, rests, {"key": key, "cases": cases, "plate": plate, "moisture": moisture})
    if post["kind"] == "steel":
        e = length(entry, "eccentricity")
        found |= steel.check_post(post, key, height, cases, max(post["d"] / 6 if e is None else e, forced))
        base = length(entry, "base_length"), length(entry, "base_breadth")
        if plate is not None and None not in base:
            P = wood_post.foot(post, height, max(P for P, _ in cases))
            found[f"{key}.plate"] = P / (base[0] * base[1]) / plate
        return found
    held, fastening = word(entry, "held", "post_held"), word(entry, "fastening", "post_fastening")
    given = {
        "key": key,
        "height": height,
        "held": held,
        "fastening": fastening,
        "e": seats.eccentricity(post, entry, rests[1]),
        "forced": forced,
        "plate": plate,
        "cases": cases,
        "moisture": moisture,
    }
    found |= wood_post.check(post, given)
    fastener = told(entry, "fastener")
    if post["plies"] > 1 and held == "free" and fastening == "nailed" and fastener:
        nail = figure("nds_2018/column_fasteners", "length", fastener=fastener)
        share = figure("nds_2018/built_up_columns", "lower", fastener="nail", rule="penetration into last ply")
        found[f"{key}.nail"] = (post["plies"] - 1 + share) * post["b_ply"] / nail
    return found


def _settlements(found, survey, posts):
    """Each layer goes down by 0.04 in at its full value across the grain (4.2.6); their sum beside the gap.

    Not shown where any layer between the beam and the ground is not known.
    """
    full = figure("nds_2018/bearing_deformation", "deformation", deformation="0.04")
    for k, entry in enumerate(survey["post"]):
        gap, key = length(entry, "gap"), f"post[{k + 1}]"
        layers = [f"beam.bearing[{k + 1}]"]
        layers += [f"{key}.{name}" for name in ("plate", "seat_plate_upper", "seat_plate_lower", "girder_crushing")]
        shares = [found[layer] for layer in layers if layer in found]
        if gap is not None and shares and _all_layers_known(survey, k, posts[k], found):
            found[f"{key}.settlement"] = full * sum(shares) / gap if gap else float("inf")


def _all_layers_known(survey, k, post, found):
    """Seat, foot and what is below: what fills the floor, and the girder or pad under it."""
    entry, name = survey["post"][k], f"post {k + 1}"
    if f"post[{k + 1}].bearing_length" not in found:
        return False
    if told(entry, "seat") == "steel plate" and length(entry, "seat_thickness") is None:
        return False
    if post["kind"] == "steel" and told(entry, "plate") != "none" and f"post[{k + 1}].plate" not in found:
        return False
    on = told(entry, "stands_on")
    if on in ("girder", "joists", "wall below") and told(entry, "blocking") not in ("full area", "post runs through"):
        return False
    if on == "girder":
        return any(name in _names(girder) for girder in survey.get("girder", []))
    if on in ("pad", "pier"):
        return any(told(pad, "under") == name for pad in survey.get("pad", []))
    return on is not None


def _names(girder):
    return [part.strip() for part in (told(girder, "posts") or "").split(",")]
