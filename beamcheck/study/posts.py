"""Each post's own links: the seat of the beam on it, the post, its foot, and what it comes down on."""

from typing import NamedTuple

from beamcheck.catalogue.members import Kind, Member
from beamcheck.checks.fastening import fastening, fits, needs_fastening
from beamcheck.checks.lines import Loaded
from beamcheck.checks.post import PostDesign, foot_load
from beamcheck.checks.seat import across_grain_check
from beamcheck.checks.settlement import settlement
from beamcheck.checks.wood import wet_plate
from beamcheck.errors import Fault, InputError
from beamcheck.study.designs import axial_cases, post_design, shortest_seat
from beamcheck.study.footing import Footing, stands_on
from beamcheck.study.ground import Ground
from beamcheck.study.layout import Layout
from beamcheck.study.materials import check_any_post
from beamcheck.study.seat_sheet import SeatAsked, seat_items
from beamcheck.study.stops import joints, question
from beamcheck.study.types import Link, of_member, sheet
from beamcheck.survey.model import Post, Survey
from beamcheck.trace import Check, Item, Missing, Note, Schedule, Value

_PRESSED = ("plate", "seat_plate_upper", "seat_plate_lower", "girder_crushing")


class Above(NamedTuple):
    """The survey, its beam, and the solved line over the posts."""

    survey: Survey
    beam: Member
    layout: Layout
    loaded: Loaded


def post_links(above: Above, number: int, found: tuple[Item, ...], land: Ground) -> list[Link]:
    """The links of a post, by its number from 0. found: the checks of the beam, among them those over this post."""
    post, member = above.survey.posts[number], above.layout.posts[number]
    key, name = f"post[{number + 1}]", f"post {number + 1}"
    design = post_design(above.survey, number, above.layout, axial_cases(above.loaded, number))
    seat_at = above.layout.seats[number]
    shortest = None if seat_at.length is None else shortest_seat(number, above.layout)
    seat = seat_items(SeatAsked(number, post, above.beam, seat_at, design, shortest), found)
    checks = check_any_post(design)
    foot = [item for item in checks if _key(item).endswith((".plate", ".end_grain"))]
    body = [item for item in checks if item not in foot]
    foot += _steel_foot(post, design)
    below = stands_on(Footing(number, post, member, land, foot_value(design)))
    pressed = [item for item in (*seat, *foot, *below) if isinstance(item, Check) and _is_pressed(item, number)]
    gaps = [item for item in (*seat, *foot, *below) if isinstance(item, Missing)]
    foot += _unknown_settlement(key, post) if gaps else settlement(key, pressed, post.gap)
    notes = (Note(text) for text in (*member.remarks, post.note) if text)
    return [
        Link(f"{key}.seat", f"Seat on {name}", sheet(f"{key}.seat", f"Seat of the beam on {name}", *seat)),
        of_member(key, f"Post {number + 1}", member, *body, *_joined(post, design), *notes),
        Link(f"{key}.foot", f"Foot of {name}", sheet(f"{key}.foot", f"Foot of {name}", *foot)),
        Link(f"{key}.below", f"Below {name}", sheet(f"{key}.below", f"Below {name}", *below)),
    ]


def foot_value(design: PostDesign) -> Value:
    """The greatest load at the foot of a post, its own weight included."""
    greatest = max(design.cases, key=lambda case: float(case.P.number))
    return foot_load(design.member, design.height, greatest.P)


def _joined(post: Post, design: PostDesign) -> list[Item]:
    """What makes the post one piece and holds it at both ends."""
    parts: list[Item] = []
    if design.member.kind is Kind.STEEL:
        parts.append(question(f"{design.key}.steel", "steel post"))
    elif needs_fastening(design):
        if post.fastener and not fits(design.fastening, post.fastener):
            what = f"{post.fastener!r} does not go with plies that are {design.fastening}"
            raise InputError([Fault(f"{post.where}.fastener", what, f"mend it or {post.where}.fastening")])
        parts += fastening(design, post.fastener)
        parts.append(question(f"{design.key}.plies", "plies of post"))
    cells = tuple((row.text("where"), row.text("holds")) for row in joints(post))
    if cells:
        parts.append(Schedule(f"{design.key}.joints", "What both ends need to be held", ("joint", "needs"), cells))
    return parts


def _steel_foot(post: Post, design: PostDesign) -> list[Item]:
    """Crushing of a wood plate under the base plate of a steel post."""
    if design.member.kind is not Kind.STEEL or design.plate is None:
        return []
    key = f"{design.key}.plate"
    if post.base_length is None or post.base_breadth is None:
        need = f"measure the steel plate under the post: {post.where}.base_length and base_breadth"
        return [Missing(key, "Plate crushing under the post", need)]
    sides, C_M = (post.base_breadth, post.base_length), wet_plate(design.at)
    return [across_grain_check(key, "Plate crushing under the post", foot_value(design), sides, design.plate, C_M)]


def _unknown_settlement(key: str, post: Post) -> list[Item]:
    """Where a layer is not known, how far the stack goes down is not either."""
    if post.gap is None:
        return []
    need = "a layer between beam and ground is not known: see what is not shown of the seat, the foot and below"
    return [Missing(f"{key}.settlement", "Settlement of the layers beside the gap", need)]


def _is_pressed(check: Check, number: int) -> bool:
    """Whether a check is of a layer that is pressed across the grain."""
    return check.key == f"beam.bearing[{number + 1}]" or check.key.rpartition(".")[2] in _PRESSED


def _key(item: Item) -> str:
    return getattr(item, "key", "")
