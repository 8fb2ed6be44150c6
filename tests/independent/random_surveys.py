"""Surveys at random, as TOML text: members of every kind, one to three spans, overhangs, seats, girders, pads."""

from itertools import pairwise

from random_members import SIXTEENTHS, Dice, beam_member, post_member
from second_road.house import read
from second_road.printed_tables import rows

KINDS = ("floor", "ceiling", "roof", "strut", "wall above", "point", "line")
WEIGHTS = (5, 2, 2, 2, 2, 3, 2)


def tape(dice, inches):
    """A length as text, in feet and inches, in inches or in metres."""
    way = dice.one(("tape", "in", "m"), (8, 2, 1))
    if way == "in":
        return f"{inches:g} in" if float(f"{inches:g}") == inches else f"{inches!r} in"
    if way == "m":
        return f"{inches * 0.0254:.6f} m"
    return signed(inches)


def signed(inches):
    """Feet, inches and sixteenths, left of the first bearing with a minus."""
    return f"-{tape_up(-inches)}" if inches < 0 else tape_up(inches)


def tape_up(inches):
    """Feet, inches and sixteenths of a length that is a whole number of them."""
    parts = round(inches * SIXTEENTHS)
    feet, rest = divmod(parts, 12 * SIXTEENTHS)
    whole, part = divmod(rest, SIXTEENTHS)
    text = f"{whole}-{part}/16" if part and whole else f"{part}/16" if part else f"{whole}"
    return f"{feet} ft {text} in" if feet else f"{text} in"


def maybe(dice, share, lines, key, value):
    """Write an entry now and then; sometimes as a table that says how it is known."""
    if not dice.chance(share):
        return
    if dice.chance(0.1):
        lines.append(f'{key} = {{ value = "{value}", trust = "measured", note = "seen twice" }}')
    elif dice.chance(0.04):
        lines.append(f'{key} = "unknown"')
    else:
        lines.append(f'{key} = "{value}"')


def survey(seed):
    """The text of one survey."""
    dice = Dice(seed)
    lines = ['[study]\ntitle = "a house at random"', *_site(dice)]
    opening = dice.inches(40, 264)
    lines += ["[wall]", f'clear_opening = "{tape(dice, opening)}"']
    lines.append(f'ceiling_height = "{tape(dice, dice.inches(80, 126))}"')
    members = [post_member(dice) for _ in range(dice.one((2, 3, 4), (5, 3, 2)))]
    whole = opening + sum(read(members[k])["b"] for k in (0, -1)) / 2
    stations = _stations(dice, whole, len(members))
    overhangs = [dice.inches(6, 60) if dice.chance(0.2) else 0.0 for _ in range(2)]
    beam = beam_member(dice)
    lines += _beam(dice, beam, overhangs)
    other = Dice(f"plies and notches of {seed}")  # dice of their own: the rest of a house is as it was without them
    lines += _joined(other, read(beam)) + ([] if any(overhangs) else _notched(other))
    ends = (-overhangs[0], int(whole * SIXTEENTHS) / SIXTEENTHS + overhangs[1])
    for number in range(dice.one((1, 2, 3, 4), (2, 4, 3, 1))):
        item = layered(Dice(f"layers {seed} {number}"), _carried(dice, number, ends, stations))
        lines += footed(Dice(f"feet {seed} {number}"), wide_roof(Dice(f"roofs {seed} {number}"), item))
    lines += _posts(dice, members, stations, read(beam))
    return "\n".join(lines) + "\n"


def _stations(dice, whole, count):
    """Stations of the posts, whose spans are two feet at least where there is room."""
    least = min(24.0, whole / (2 * count))
    while True:
        inner = sorted(dice.inches(least, whole - least) for _ in range(count - 2))
        marks = [0.0, *inner, whole]
        if all(b - a >= least for a, b in pairwise(marks)):
            return marks


def _site(dice):
    lines = ["[site]"]
    maybe(dice, 0.8, lines, "loads", dice.one(("ASCE 7-16", "ASCE 7-22")))
    lines.append('ground_snow = "unknown"' if dice.chance(0.02) else f'ground_snow = "{dice.load(0, 80, "psf")}"')
    words = {
        "exposure": ("fully exposed", "partly exposed", "sheltered B", "sheltered C"),
        "roof_warmth": ("heated", "cold ventilated", "unheated", "below freezing"),
        "roof_surface": ("slippery", "other"),
    }
    for key, choices in words.items():
        maybe(dice, 0.7, lines, key, dice.one(choices))
    maybe(dice, 0.5, lines, "soil_bearing", dice.one(("1000 psf", "1,500 psf", "2000 psf", "3000 psf", "100 kPa")))
    return lines


def _beam(dice, member, overhangs):
    lines = ["[beam]", f'member = "{member}"', f'position = "{dice.one(("dropped", "flush"))}"']
    maybe(dice, 0.8, lines, "top_edge", dice.one(("held", "not held")))
    maybe(dice, 0.3, lines, "unbraced_length", tape(dice, dice.inches(12, 120)))
    for side, out in zip(("left", "right"), overhangs, strict=True):
        if out:
            lines.append(f'overhang_{side} = "{tape_up(out)}"')
    maybe(dice, 0.5, lines, "moisture", dice.one(("dry", "wet"), (3, 2)))
    maybe(dice, 0.5, lines, "plies_share", dice.one(("yes", "no")))
    maybe(dice, 0.8, lines, "ceiling_below", dice.one(("plaster", "gypsum", "none")))
    maybe(dice, 0.6, lines, "floor_above", dice.one(("wood or carpet", "tile", "stone", "none")))
    return lines


def _notched(dice):
    """A notch at both ends, from below or from above."""
    if dice.chance(0.7):
        return []
    side = dice.one(("bottom", "top"))
    lines = [f'end_notch_{side} = "{tape_up(dice.inches(0.25, 4))}"']
    if side == "top":
        maybe(dice, 0.6, lines, "end_notch_reach", tape_up(dice.inches(0, 8)))
    return lines


def _joined(dice, beam):
    """Nails or bolts between the plies, seldom with something left out; of no account under a dropped beam."""
    if beam["plies"] == 1 or dice.chance(0.15):
        return []
    nails = ("10d common", "12d common", "16d common", "20d common", "40d common", "12d sinker", "16d sinker")
    fastener = dice.one((*nails, "1/2 in bolt", "3/4 in bolt"))
    lines = [f'plies_joined_by = "{fastener}"']
    maybe(dice, 0.97, lines, "fastener_rows", dice.one(("1", "2", "3", "4")))
    maybe(dice, 0.97, lines, "fastener_spacing", tape_up(dice.inches(2, 24)))
    return lines


def _carried(dice, number, ends, stations):
    kind = dice.one(KINDS, WEIGHTS)
    lines = ["[[carried]]", f'name = "{kind} {number + 1}"', f'kind = "{kind}"']
    start, end = ends
    if kind in ("strut", "point"):
        at = dice.one(stations[:-1]) if dice.chance(0.1) else dice.inches(start, end)
        lines.append(f'station = "{signed(at)}"')
    elif dice.chance(0.3):
        a, b = sorted(dice.inches(start, end) for _ in range(2))
        if b - a > 1:
            lines += [f'from = "{signed(a)}"', f'to = "{signed(b)}"']
    return lines + _WHAT[kind](dice, kind)


def layered(dice, lines):
    """The same item, now and then with its layers in place of its weight, and a floor's live load by area."""
    kind = lines[2].split('"')[1]
    if kind == "floor" and dice.chance(0.4):
        lines.append(f'live_reduction = "{dice.one(("by area", "none"), (4, 1))}"')
        wide = [f'span_{side} = "{tape_up(dice.inches(200, 600))}"' for side in "ab"]
        lines = [*(line for line in lines if not line.startswith("span_")), *wide]
    if kind in ("point", "line") or dice.chance(0.6):
        return lines
    told = ", ".join(_layer(dice, kind) for _ in range(dice.roll.randint(1, 5)))
    kept = [line for line in lines if not line.startswith(("dead ", "weight "))]
    return [*kept, f'layers = "{told}"' if dice.chance(0.8) else f'layers = {{ value = "{told}", trust = "seen" }}']


def wide_roof(dice, lines):
    """The same item, a roof now and then so wide that its live load is reduced by area."""
    if lines[2] != 'kind = "roof"' or dice.chance(0.5):
        return lines
    wide = [f'span_{side} = "{tape_up(dice.inches(400, 600))}"' for side in "ab"]
    return [*(line for line in lines if not line.startswith("span_")), *wide]


def footed(dice, lines):
    """The same item, and now and then how long it stands along the beam."""
    kind = lines[2].split('"')[1]
    told = kind in ("strut", "point") and dice.chance(0.5)
    return [*lines, f'foot_length = "{tape_up(dice.inches(0, 9))}"'] if told else lines


def _layer(dice, kind):
    way = dice.roll.randint(1, 5)
    if way == 1:
        size = dice.one(("2x4", "2x6", "2x8", "2x10", "2x12", "4x8", "full 2x10", "1-3/4x9-1/2"))
        species = dice.one(("", " Douglas Fir-Larch", " SPF", " HF", " Southern Pine", " LVL"))
        return f"{size} at {dice.one(('12 in', '16 in', '24 in', '19-1/4 in'))}{species}"
    if way == 2:
        return f"something {dice.load(0, 20, 'psf')}"
    thickness = dice.one(("1/2 in", "3/4 in", "0.625 in", "1-1/4 in", "3 cm"))
    if way == 3:
        stuff = [r["material"] for r in rows("practice/densities") if not r["G"]]
        return f"{dice.one(stuff)} {thickness}"
    walls = ("wall", "partition") if kind == "wall above" else ()
    weights = [r for table in ("asce7_16/dead_loads", "practice/dead_loads") for r in rows(table)]
    found = dice.one([r for r in weights if r["group"] not in ("wall", "partition") or r["group"] in walls])
    short = [r["alias"] for r in rows("practice/layer_names") if r["item"] == found["item"]]
    name = dice.one(short) if short and dice.chance(0.5) else found["item"]
    return f"{name} {thickness}" if found["per"] else name


def _joists(dice, kind):
    spans = [dice.inches(24, 216), 0.0 if dice.chance(0.15) else dice.inches(24, 216)]
    lines = [f'span_{side} = "{tape(dice, span)}"' for side, span in zip("ab", spans, strict=True)]
    maybe(dice, 0.8, lines, "continuity", dice.one(("lapped", "butted", "one piece", "unknown")))
    attic = ("attic without storage", "attic with limited storage", "attic with fixed stair")
    maybe(dice, 0.7, lines, "use", dice.one(("sleeping rooms", "other rooms") if kind == "floor" else attic))
    maybe(dice, 0.6, lines, "dead", dice.load(4, 40, "psf"))
    maybe(dice, 0.2, lines, "live", dice.load(0, 60, "psf"))
    return lines


def _roof(dice, kind):
    pitch = dice.one((f"{dice.roll.randint(0, 16)}:12", f"{dice.roll.uniform(0, 74):.2f} deg"), (4, 1))
    lines = [f'pitch = "{pitch}"']
    if kind == "roof":
        lines += [f'span_{side} = "{tape(dice, dice.inches(48, 240))}"' for side in "ab"]
    else:
        lines.append(f'area = "{dice.roll.randint(4, 300)} ft^2"')
    maybe(dice, 0.6, lines, "dead", dice.load(5, 30, "psf"))
    return lines


def _wall_above(dice, kind):
    lines = []
    maybe(dice, 0.7, lines, "height", tape(dice, dice.inches(12, 130)))
    maybe(dice, 0.7, lines, "weight", dice.load(4, 40, "psf"))
    return lines


def _by_hand(dice, kind):
    end, unit, most = ("load", "lb", 4000) if kind == "point" else ("line", "plf", 400)
    lines = []
    for key in ("dead", "live", "roof_live", "snow"):
        low = -most / 4 if key == "dead" and dice.chance(0.06) else 0
        if dice.chance(0.6):
            lines.append(f'{key}_{end} = "{dice.load(low, most, unit)}"')
    return lines or [f'dead_{end} = "100 {unit}"']


_WHAT = {
    "floor": _joists,
    "ceiling": _joists,
    "roof": _roof,
    "strut": _roof,
    "wall above": _wall_above,
    "point": _by_hand,
    "line": _by_hand,
}


def _posts(dice, members, stations, beam):
    posts, girder, pads = [], [], []
    for number, member in enumerate(members, 1):
        post, last = read(member), number == len(members)
        lines = ["[[post]]", f'member = "{member}"']
        if not last and number > 1:
            lines.append(f'station = "{tape_up(stations[number - 1])}"')
        elif last and dice.chance(0.2):
            lines.append(f'station = "{tape_up(stations[-1])}"')
        maybe(dice, 0.5, lines, "height", tape(dice, dice.inches(60, 126)))
        lines += _held(dice, post)
        lines += _seat(dice, beam, post)
        on = dice.one(("girder", "pad", "pier", "slab", "joists", "unknown"), (3, 3, 2, 1, 1, 1))
        lines.append(f'stands_on = "{on}"')
        maybe(dice, 0.7, lines, "blocking", dice.one(("full area", "post runs through", "none")))
        if post["kind"] == "steel" and dice.chance(0.8):
            lines += ['base_length = "6 in"', f'base_breadth = "{dice.one(("6 in", "8 in"))}"']
        posts += lines
        if on == "girder" and dice.chance(0.8):
            girder.append(number)
        if on in ("pad", "pier") and dice.chance(0.8):
            pads.append((number, on))
    return posts + (_girder(dice, girder) if girder else []) + [line for pad in pads for line in _pad(dice, *pad)]


def _held(dice, post):
    lines = []
    maybe(dice, 0.8, lines, "held", dice.one(("free", "in wall")))
    fastening = dice.one(("nailed", "bolted", "not fastened"))
    maybe(dice, 0.8, lines, "fastening", fastening)
    if fastening == "nailed" and 'fastening = "nailed"' in lines:
        maybe(dice, 0.5, lines, "fastener", dice.one(("16d common", "30d common", "60d common")))
    maybe(dice, 0.5, lines, "eccentricity", tape_up(dice.inches(0, 1.5)))
    plates = ("Hem-Fir", "Douglas Fir-Larch", "Spruce-Pine-Fir", "Southern Pine", "none")
    maybe(dice, 0.7, lines, "plate", dice.one(plates))
    maybe(dice, 0.4, lines, "gap", dice.one(("1/16 in", "1/8 in", "1/2 in")))
    return lines


def _seat(dice, beam, post):
    kind = dice.one(("cap", "notch", "stud pack", "wood plate", "steel plate", "unknown", ""), (5, 2, 2, 3, 3, 1, 1))
    if post["kind"] == "steel" and kind != "unknown":
        kind = "steel plate"
    lines = [f'seat = "{kind}"'] if kind else []
    if kind == "steel plate":
        if dice.chance(0.9):
            lines += [f'seat_length = "{tape_up(dice.inches(3, 9))}"', f'seat_breadth = "{tape_up(dice.inches(2, 8))}"']
        maybe(dice, 0.6, lines, "seat_thickness", dice.one(("1/4 in", "3/8 in", "1/2 in", "1 in")))
    elif dice.chance(0.3):
        most = int(post["b"] * SIXTEENTHS) / SIXTEENTHS
        lines.append(f'seat_length = "{tape_up(dice.inches(min(0.5, most), most))}"')
    if kind == "notch":
        cut = int(post["d"] * dice.roll.uniform(0.4, 0.95) * SIXTEENTHS) / SIXTEENTHS
        lines.append(f'notch_depth = "{tape_up(cut)}"')
        whole = min(beam["plies"], int(cut / beam["b_ply"]))
        if beam["plies"] > 1 and whole >= 1:
            lines.append(f'seated_plies = "{dice.roll.randint(1, whole)}"')
    return lines


def _girder(dice, on_it):
    reach = dice.inches(120, 240)
    piers = sorted({0.0, *(dice.inches(30, reach - 30) for _ in range(dice.one((0, 1, 2)))), reach})
    piers = [piers[0], *(b for a, b in pairwise(piers) if b - a > 12)]
    member = dice.one((beam_member(dice), "3-ply 2x10 Douglas Fir-Larch No.2", "6x8 unknown"))
    lines = ["[[girder]]", 'name = "cellar girder"', f'member = "{member}"']
    lines.append(f'supports = "{", ".join(tape_up(pier) for pier in piers)}"')
    lines.append(f'posts = "{", ".join(f"post {number}" for number in on_it)}"')
    places = sorted(dice.inches(0, piers[-1]) for _ in on_it)
    lines.append(f'post_stations = "{", ".join(tape_up(place) for place in places)}"')
    maybe(dice, 0.7, lines, "bearing_length", tape_up(dice.inches(1.5, 8)))
    maybe(dice, 0.6, lines, "position", dice.one(("dropped", "flush")))
    maybe(dice, 0.6, lines, "top_edge", dice.one(("held", "not held")))
    maybe(dice, 0.4, lines, "moisture", dice.one(("dry", "wet")))
    if dice.chance(0.8):
        lines += [f'span_{side} = "{tape(dice, dice.inches(48, 200))}"' for side in "ab"]
    maybe(dice, 0.6, lines, "continuity", dice.one(("lapped", "one piece")))
    maybe(dice, 0.5, lines, "dead", dice.load(5, 25, "psf"))
    for key in ("dead", "live", "snow"):
        maybe(dice, 0.3, lines, f"{key}_line", dice.load(10, 200, "plf"))
    return lines


def _pad(dice, number, on):
    state = dice.one(("new", "existing"))
    lines = ["[[pad]]", f'under = "post {number}"', f'state = "{state}"']
    side = dice.inches(14, 48)
    if state == "existing" or dice.chance(0.6):
        lines += [f'length = "{tape_up(side)}"', f'breadth = "{tape_up(side + dice.inches(0, 8))}"']
    if state == "existing" or dice.chance(0.6):
        lines.append(f'thickness = "{tape_up(dice.inches(6, 20))}"')
    if state == "existing":
        maybe(dice, 0.7, lines, "strength", dice.one(("2000 psi", "2,500 psi", "3000 psi")))
    if on == "pier" and dice.chance(0.8):
        lines += ['pier_length = "8 in"', f'pier_breadth = "{dice.one(("8 in", "12 in"))}"']
        maybe(dice, 0.7, lines, "pier_height", tape_up(dice.inches(4, 60)))
        maybe(dice, 0.7, lines, "pier_material", dice.one(("block", "brick", "stone", "concrete", "wood", "steel")))
    return lines
