"""What must fit: headroom, pieces carried in, gaps beside posts, holes in the beam. None of it is about strength."""

from beamcheck.catalogue.members import Kind, Member
from beamcheck.frozen import dataclass
from beamcheck.standards import fit, irc_2021
from beamcheck.standards import nds_2018 as nds
from beamcheck.standards.statics import self_weight
from beamcheck.survey.around import Hole, Neighbour, Room
from beamcheck.tables import lookup
from beamcheck.trace import Check, Item, Missing, Schedule, Value, looked

_SAWN = (Kind.DIMENSION, Kind.TIMBER)


@dataclass(frozen=True, slots=True, eq=False)
class Drilled:
    """Where a hole lies: from the left bearing of its span, and that span."""

    hole: Hole
    key: str
    x_hole: Value
    l: Value


def headroom(h_clear: Value) -> list[Item]:
    """The height under the beam beside the heights that a room and a way through are asked to have."""
    room = looked(lookup("irc_2021/headroom", rule="habitable room"), "h", "h_least")
    through = looked(lookup("practice/headroom", rule="way through"), "h", "h_least")
    return [
        h_clear,
        Check("room.headroom_room", "Headroom as a room", room, h_clear),
        Check("room.headroom_through", "Headroom as a way through", through, h_clear),
    ]


def pieces(member: Member, l_piece: Value) -> list[Item]:
    """Length and weight of one ply, and of all, as they are carried in."""
    ply = (
        member["W"]
        if member.density is None
        else self_weight(gamma=member.density, A=nds.area(b=member.b_ply, d=member.d))
    )
    rows: list[tuple[str | Value, ...]] = [
        (
            f"one of {member.plies}" if member.plies > 1 else "one piece",
            l_piece,
            fit.piece_weight(w_self=ply, l_haul=l_piece),
        )
    ]
    if member.plies > 1 and member.density is not None:
        whole = self_weight(gamma=member.density, A=nds.area(b=member.b, d=member.d))
        rows.append(("all together", l_piece, fit.piece_weight(w_self=whole, l_haul=l_piece)))
    return [Schedule("room.pieces", "Pieces of the beam", ("piece", "length", "weight"), tuple(rows))]


def carried_in(room: Room, member: Member, l_piece: Value) -> list[Item]:
    """Whether a piece comes through the doorway: straight on where that is long enough, else round the corner."""
    piece = "One ply" if member.plies > 1 else "The beam"
    title, key = f"{piece} carried in", "room.carried_in"
    if room.straight_run is not None and float(room.straight_run.to("in")) >= float(l_piece.to("in")):
        return [Check(key, f"{title}, straight on", l_piece, room.straight_run)]
    ways = [width for width in (room.door_width, room.turn_width) if width is not None]
    if not ways:
        return [] if room.straight_run is None else [Check(key, f"{title}, straight on", l_piece, room.straight_run)]
    narrow = min(ways, key=lambda width: float(width.to("in")))
    if float(member.b_ply.to("in")) >= float(narrow.to("in")):
        return [Check(key, f"{piece} on edge in the narrowest way", member.b_ply, narrow)]
    if room.door_width is None or room.turn_width is None:
        need = "the clear widths of the doorway and of the hall or room where a piece must turn"
        return [Missing(key, title, f"{need}; in the survey: room.door_width and turn_width")]
    l_turn = fit.turning_length(w_door=room.door_width, w_turn=room.turn_width, t_piece=member.b_ply)
    return [Check(key, f"{title}, turned square at the doorway, level and on edge", l_piece, l_turn)]


def gap(neighbour: Neighbour, height: Value) -> list[Item]:
    """What is left of the gap beside a post as drawn, at worst, as is likely, and the chance that it closes."""
    g_left = fit.gap_left(g_plan=neighbour.gap, t_wrap=neighbour.wrap, t_plate=neighbour.plate_projection)
    parts = {
        "t_plumb": _lean(neighbour.height or height),
        "t_set": deviation("setting out", "t_set"),
        "t_post": deviation("post size", "t_post"),
        "t_face": deviation("finish", "t_face"),
        "t_next": deviation("neighbour", "t_next"),
    }
    t_rss = fit.likely_stack(**parts)
    sigma = looked(lookup("practice/tolerances", item="sigma"), "factor", "k_sigma")
    chance = fit.chance_of_closing(g_left=g_left, t_rss=t_rss, k_sigma=sigma)
    name = neighbour.name
    return [
        g_left.named(f"gap left beside {name}, all as drawn"),
        fit.worst_stack(**parts).named(f"deviations beside {name}, all one way"),
        chance.named(f"chance that the gap beside {name} closes"),
        Check(f"{neighbour.where}.gap", f"Gap beside {name}: likely deviations in the gap left", t_rss, g_left),
    ]


def deviation(item: str, name: str) -> Value:
    """Greatest deviation of one kind, either way."""
    return looked(lookup("practice/tolerances", item=item), "amount", name)


def _lean(height: Value) -> Value:
    row = lookup("practice/tolerances", item="plumb")
    return fit.out_of_plumb(t_lean=looked(row, "amount", "t_lean"), l_lean=looked(row, "over", "l_lean"), h=height)


def drilled(at: Drilled, member: Member) -> list[Item]:
    """A hole beside the middle of depth and span, and, in sawn lumber, beside the code's limits of size and edge."""
    items = [_middle_of_span(at)]
    if at.hole.from_top is None:
        need = "how far its centre lies below the beam's top edge"
        return [*items, Missing(f"{at.key}.from_top", f"Hole for {at.hole.name}", need)]
    items.append(_middle_of_depth(at, member, at.hole.from_top))
    if member.kind in _SAWN:
        items += _by_code(at, member, at.hole.from_top)
    return items


def _middle_of_depth(at: Drilled, member: Member, y_hole: Value) -> Item:
    k_mid = looked(lookup("practice/holes", rule="middle of the depth"), "share", "k_mid")
    reach = fit.hole_off_middle(y_hole=y_hole, d=member.d, D_hole=at.hole.diameter)
    limit = fit.half_of_middle(k_mid=k_mid, d=member.d)
    return Check(f"{at.key}.depth", f"Hole for {at.hole.name}: within the middle third of the depth", reach, limit)


def _middle_of_span(at: Drilled) -> Item:
    k_mid = looked(lookup("practice/holes", rule="middle of the span"), "share", "k_mid")
    off = fit.hole_off_midspan(x_hole=at.x_hole, l=at.l)
    limit = fit.half_of_middle_span(k_mid=k_mid, l=at.l)
    return Check(f"{at.key}.span", f"Hole for {at.hole.name}: within the middle third of the span", off, limit)


def _by_code(at: Drilled, member: Member, y_hole: Value) -> list[Item]:
    share = looked(lookup("irc_2021/notch_hole", member="joist or beam", cut="hole diameter"), "fraction", "k_cut")
    edge = looked(lookup("irc_2021/hole_edge", member="joist or beam"), "distance", "e_hole")
    left = irc_2021.wood_beside_hole(d=member.d, y_hole=y_hole, D_hole=at.hole.diameter)
    most = irc_2021.hole_diameter(k_cut=share, d=member.d)
    name = f"Hole for {at.hole.name}"
    return [
        Check(f"{at.key}.diameter", f"{name}: diameter", at.hole.diameter, most),
        Check(f"{at.key}.edge", f"{name}: wood asked for at the edge", edge, left),
    ]


def hung(hole: Hole, key: str) -> list[Item]:
    """What hangs at a hole, beside what an outlet box is made to carry."""
    if hole.hangs is None:
        return []
    most = looked(lookup("practice/holes", rule="lamp on an outlet box"), "weight", "W_thing")
    return [Check(f"{key}.hangs", f"What hangs at {hole.name}, on an outlet box", hole.hangs, most)]
