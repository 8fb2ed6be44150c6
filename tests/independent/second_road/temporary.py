"""Temporary walls on both sides, under joists that end at the old wall: utilisations of studs and top plate by key.

The wall is governed by whichever side works a check harder. A point load comes to one stud, and to one joist on the
plate, as a whole; those closer together than studs or joists come to one of them all together.
"""

from . import seat as seats
from . import wood_post
from .entries import by_register, length, live_load, register, told, word
from .lumber import member
from .takedown import combinations, edition_of, loads_of, weighed
from .wood_beam import worst

KINDS = ("D", "L", "Lr", "S")
JOISTED = ("floor", "ceiling")


def utilisations(survey):
    """The worse side of each check, no point load of which stands off the beam."""
    walls = [_held(survey, side) for side in ("a", "b")]
    present = {kind for loads, points in walls for kind in (*loads, *(kind for _, kind, _ in points))}
    combos = combinations(edition_of(survey["site"]), present)
    found = {}
    for loads, points in walls:
        lines = [(sum(factors[kind] * loads.get(kind, 0.0) for kind in factors), C_D) for factors, C_D in combos]
        _studs(found, survey, lines, _grouped(survey, points, combos))
        _plate(found, survey, lines, _grouped(survey, points, combos))
    return found


def _held(survey, side):
    """Pounds per inch by type, and points as (station, type, lb), on the wall of one side."""
    temporary = survey["temporary"]
    back = length(temporary, f"set_back_{side}")
    joisted = [item for item in survey["carried"] if item["kind"] in JOISTED and length(item, f"span_{side}") > 0]
    loads, points = {}, []
    for item in joisted:
        span = length(item, f"span_{side}")
        # the joist turns about its far end: q s times its middle is held at s - back
        lever = span * (span / 2) / (span - back) / 144
        for kind, q in (("D", weighed(item, "dead", f"{item['kind']}_dead")), ("L", _live(item, temporary))):
            loads[kind] = loads.get(kind, 0.0) + q * lever
    shortest = min(length(item, f"span_{side}") for item in joisted)
    tip = shortest / (shortest - back) * (0.5 if told(temporary, "wall_line_loads") == "shared" else 1.0)
    for item in survey["carried"]:
        if item["kind"] in JOISTED:
            continue
        for kind, (first, last, size) in loads_of(item, survey["site"], 0.0, 0.0):
            if kind == "S" and told(temporary, "snow") == "out of season":
                continue
            if last is None:
                points.append((first, kind, size * tip))
            else:
                loads[kind] = loads.get(kind, 0.0) + size * tip
    return loads, points


def _live(item, temporary):
    if item["kind"] == "floor" and told(temporary, "rooms_above") == "empty" and told(temporary, "live"):
        return length(temporary, "live")
    told_live = length(item, "live")
    return live_load(word(item, "use", f"{item['kind']}_use")) if told_live is None else told_live


def _grouped(survey, points, combos):
    """Pounds under each combination, for every stretch as long as the wider spacing that begins at a point."""
    temporary = survey["temporary"]
    wide = max(length(temporary, "stud_spacing"), by_register(temporary, "joist_spacing", "joist_spacing"))
    groups = []
    for first in {at for at, _, _ in points}:
        near = [(kind, P) for at, kind, P in points if 0 <= at - first < wide]
        groups.append([sum(factors.get(kind, 0.0) * P for kind, P in near) for factors, _ in combos])
    return groups


def _soft(survey):
    plate = member(told(survey["temporary"], "top_plate"))
    return min(seats.weakest_plate(register("plate_species")), plate["F_c_perp"])


def _studs(found, survey, lines, groups):
    temporary = survey["temporary"]
    stud, apart = member(told(temporary, "stud")), length(temporary, "stud_spacing")
    pack = told(temporary, "point_stud")
    along = [(w * apart, C_D) for w, C_D in lines]
    pointed = [[(P + more, C_D) for (P, C_D), more in zip(along, group, strict=True)] for group in groups]
    for key, cases in (("temporary.stud", along), *(("temporary.point_stud", cases) for cases in pointed)):
        of_point = key.endswith("point_stud")
        post = member(pack) if of_point and pack else stud
        for name, ratio in _one_stud(survey, post, key, cases).items():
            if pack or not (of_point and "slenderness" in name):
                worst(found, name.replace("_between", "") if of_point else name, ratio)


def _one_stud(survey, stud, key, cases):
    """Across the wall over the whole height; along it too, by halves where a rail holds the studs."""
    height = length(survey["wall"], "ceiling_height")
    given = {"key": key, "height": height, "held": "free", "fastening": "not fastened", "e": None, "cases": cases}
    given |= {"plate": _soft(survey), "moisture": "dry", "forced": 0.0}
    if told(survey["temporary"], "rail") != "yes":
        return wood_post.check(stud, given)
    whole = wood_post.check(stud, given | {"held": "in wall"})
    half = wood_post.check(stud, given | {"key": f"{key}_between", "height": height / 2, "plate": None})
    return whole | {name: u for name, u in half.items() if not name.endswith(("end_grain", "slenderness_across"))}


def _plate(found, survey, lines, groups):
    temporary = survey["temporary"]
    plate, apart = member(told(temporary, "top_plate")), length(temporary, "stud_spacing")
    joists = by_register(temporary, "joist_spacing", "joist_spacing")
    breadth = by_register(temporary, "joist_breadth", "joist_breadth")
    flat = plate["plies"] * plate["d"] * plate["b_ply"] ** 2 / 6
    for name, extra in (("plate", [0.0] * len(lines)), *(("point_plate", group) for group in groups)):
        for (w, C_D), more in zip(lines, extra, strict=True):
            P = w * joists + more
            worst(found, f"temporary.{name}_crushing", P / (breadth * plate["d"]) / _soft(survey))
            over_pack = name == "point_plate" and told(temporary, "point_stud")
            if told(temporary, "studs_under_joists") != "yes" and not over_pack:
                worst(found, f"temporary.{name}_bending", P * apart / 4 / flat / (plate["F_b"] * plate["C_F_b"] * C_D))
                worst(found, f"temporary.{name}_shear", 1.5 * P / (plate["d"] * plate["b"]) / (plate["F_v"] * C_D))
