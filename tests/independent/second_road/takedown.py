"""What comes down on the beam: loads by type on their stretch of it, and the combinations that they may act in."""

import math

from . import layers
from .entries import by_register, length, live_load, register, told, word
from .printed_tables import figure, row, rows

FOLDERS = {"ASCE 7-16": "asce7_16", "ASCE 7-22": "asce7_22"}
SNOW_UNKNOWN = "ground snow is not known"


class NotShown(Exception):
    """Something that the take-down cannot do without is not known."""


def loads_of(item, site, start, end, bays=()):
    """Loads of one carried item as (type, (from, to, lb per inch)) or (type, (station, None, lb)).

    bays: both ends of each, for a live load of floor or roof that is reduced by area.
    """
    kind = item["kind"]
    first, last = length(item, "from", start), length(item, "to", end)
    shared = [(max(first, a), min(last, b)) for a, b in bays]
    if kind in ("floor", "ceiling"):
        found = _joists(item, kind)
        if told(item, "live_reduction") == "by area":
            found["L"] *= kept(item, edition_of(site), shared)
        return [(name, (first, last, w)) for name, w in found.items()]
    if kind == "roof":
        half = (length(item, "span_a") + length(item, "span_b")) / 2
        area = half * min(y - x for x, y in shared if y > x) / 144 / 2  # an end post gathers half of its bay
        return [(name, (first, last, q / 144 * half)) for name, q in roof(item, "roof_dead", site, area).items()]
    if kind == "strut":
        area = length(item, "area")
        at = length(item, "station")
        return [(name, (at, None, q * area)) for name, q in roof(item, "strut_dead", site, area).items()]
    if kind == "wall above":
        q = weighed(item, "weight", "wall_above_weight")
        height = by_register(item, "height", "wall_above_height")
        return [("D", (first, last, q / 144 * height))]
    keys = {"D": "dead", "L": "live", "Lr": "roof_live", "S": "snow"}
    if kind == "point":
        sizes = {name: length(item, f"{key}_load") for name, key in keys.items()}
        return [(name, (length(item, "station"), None, P)) for name, P in sizes.items() if P is not None]
    sizes = {name: length(item, f"{key}_line") for name, key in keys.items()}
    return [(name, (first, last, w)) for name, w in sizes.items() if w is not None]


def _joists(item, kind):
    """Half of each span, times the greater share that a joist in one piece puts on its middle support."""
    a, b = length(item, "span_a"), length(item, "span_b")
    continuity = told(item, "continuity")
    factor = 1.0
    if continuity not in ("lapped", "butted") and a > 0 and b > 0:
        # wL(a, b) of a two-span beam: the moment over the middle is w(a^3 + b^3)/(8(a + b))
        moment = (a**3 + b**3) / (8 * (a + b))
        factor = ((a + b) / 2 + moment / a + moment / b) / ((a + b) / 2)
    width = factor * (a + b) / 2 / 144
    dead = weighed(item, "dead", f"{kind}_dead")
    live = length(item, "live")
    if live is None:
        live = live_load(word(item, "use", f"{kind}_use"))
    return {"D": dead * width, "L": live * width}


def weighed(item, key, stand_in):
    """Weight per square foot by its layers, else as told, else as the register has it."""
    found = layers.weight(item)
    return by_register(item, key, stand_in) if found is None else found


def kept(item, edition, pieces):
    """Share of its live load that a floor keeps (ASCE 7 4.7.2, 4.7.3), by the smallest piece of it in one bay."""
    rule = row(f"{FOLDERS[edition]}/live_reduction", member="interior beam")
    L_o = length(item, "live")
    if L_o is None:
        L_o = live_load(word(item, "use", "floor_use"))
    half = (length(item, "span_a") + length(item, "span_b")) / 2
    influence = 2 * half * min(b - a for a, b in pieces if b > a) / 144
    if L_o > float(rule["live_most"]) or influence < float(rule["area_least"]):
        return 1.0
    share = float(rule["base"]) + float(rule["coefficient"]) * influence**-0.5
    return min(1.0, max(share, float(rule["one_floor"])))


def roof(item, dead_item, site, area):
    """Dead, live and snow load of a roof on the horizontal, psf."""
    theta = length(item, "pitch")
    dead = weighed(item, "dead", dead_item) / math.cos(math.radians(theta))
    return {"D": dead, "Lr": roof_live(theta, area), "S": roof_snow(theta, site)}


def roof_live(theta, area):
    """ASCE 7 4.8.2: 20 psf, less for a large area and a steep slope, never less than 12."""
    rule = row("asce7_16/live_roof", rule="ordinary roof")
    R_1 = 1.0 if area <= 200 else 0.6 if area >= 600 else 1.2 - 0.001 * area
    rise = 12 * math.tan(math.radians(theta))
    R_2 = 1.0 if rise <= 4 else 0.6 if rise >= 12 else 1.2 - 0.05 * rise
    return max(float(rule["L_r_least"]), float(rule["L_o"]) * R_1 * R_2)


def roof_snow(theta, site):
    """ASCE 7 7.3 and 7.4: balanced snow, and the least snow on a low slope."""
    ground = length(site, "ground_snow")
    if ground is None:
        raise NotShown(SNOW_UNKNOWN)
    folder = FOLDERS[word(site, "loads", "loads_edition")]
    C_e = figure(f"{folder}/snow", "factor", item=f"C_e {word(site, 'exposure', 'exposure')}")
    C_t = figure(f"{folder}/snow", "factor", item=f"C_t {word(site, 'roof_warmth', 'roof_warmth')}")
    flat = 0.7 * C_e * C_t * ground  # I_s = 1.0 of dwellings
    thermal = "C_t<=1.0" if C_t <= 1.0 else "C_t=1.1" if C_t <= 1.1 else "C_t>=1.2"
    line = row(f"{folder}/snow_slope", thermal=thermal, surface=word(site, "roof_surface", "roof_surface"))
    full, none = float(line["full_to"]), float(line["zero_at"])
    C_s = 1.0 if theta <= full else 0.0 if theta >= none else (none - theta) / (none - full)
    least_rule = {"asce7_16": {"rule": "all risk categories"}, "asce7_22": {"risk_category": "II"}}[folder]
    least = row(f"{folder}/snow_minimum", **least_rule)
    balanced = C_s * flat
    if theta < float(least["slope_limit"]):
        return max(balanced, min(float(least["p_m_max"]), ground))
    return balanced


def combinations(edition, present):
    """(factors, C_D, name) of the combinations whose loads all act; C_D is that of the shortest of them."""
    found = []
    for r in rows(f"{FOLDERS[edition]}/combinations"):
        factors = {name: float(r[name]) for name in ("D", "L", "Lr", "S") if float(r[name])}
        if all(name == "D" or name in present for name in factors):
            found.append((factors, figure("nds_2018/duration", "C_D", load=r["shortest"])))
    return found


def edition_of(site):
    """The edition that the loads belong to."""
    return word(site, "loads", "loads_edition")


__all__ = ["NotShown", "combinations", "edition_of", "loads_of", "register", "roof_live", "roof_snow"]
