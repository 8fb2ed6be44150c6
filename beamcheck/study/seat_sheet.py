"""The seat of the beam on one post: what is pressed, how far off centre it lies, and what to ask about it."""

from typing import NamedTuple

from beamcheck.catalogue.members import Kind, Member
from beamcheck.checks.beam import Seat
from beamcheck.checks.post import PostDesign
from beamcheck.checks.seat import SeatDesign, at_less_crush, check_seat
from beamcheck.standards import statics
from beamcheck.study.seats import hanging_plies, unknown_seat
from beamcheck.study.stops import question
from beamcheck.survey.model import Post
from beamcheck.tables import lookup
from beamcheck.trace import Check, Item, Missing, Value, looked


class SeatAsked(NamedTuple):
    """A post by its number from 0, the beam on it, the seat and what the checks of the post are given.

    shortest: the check of the seat's length; None where that is not known.
    """

    number: int
    post: Post
    beam: Member
    seat: Seat
    design: PostDesign
    shortest: Check | None


def seat_items(asked: SeatAsked, found: tuple[Item, ...]) -> list[Item]:
    """The checks of the seat; found: those of the beam, of which the ones over this post stand here."""
    key = asked.design.key
    missing = unknown_seat(key, asked.beam, asked.design.member, asked.post)
    if missing is not None or asked.shortest is None:
        return [missing] if missing is not None else []
    over = [item for item in found if over_post(item, asked.number)]
    parts: list[Item] = [*over, asked.shortest]
    parts += check_seat(seat_design(asked))
    if asked.beam.kind in (Kind.DIMENSION, Kind.TIMBER):  # 4.2.6 is of sawn lumber
        parts += [at_less_crush(item.limit) for item in over if isinstance(item, Check)]
    parts += _notch(asked) if asked.post.seat == "notch" else []
    if hanging_plies(asked.beam, asked.design.member, asked.post):
        parts += _hanging(asked) if asked.post.seat != "notch" else []
        parts.append(question(f"{key}.hanging", "seated plies"))
    return [*parts, *untold_plate(asked.post)]


def untold_plate(post: Post) -> list[Missing]:
    """What is missing of a seat on a steel plate whose thickness is not told."""
    if post.seat != "steel plate" or post.seat_thickness is not None:
        return []
    need = f"measure {post.where}.seat_thickness: how thick it has to be stands among the checks of the seat"
    return [Missing(f"{post.where}.seat_plate", "Thickness of the steel plate", need)]


def over_post(item: Item, number: int) -> bool:
    """Whether an item of the beam's sheet is the check of a bearing over this post, by its number from 0."""
    return isinstance(item, Check) and item.key.endswith(f"[{number + 1}]")


def seat_design(asked: SeatAsked) -> SeatDesign:
    """What the checks of the seat's layers are given."""
    design = asked.design
    return SeatDesign(
        design.key,
        asked.post.seat,
        design.member,
        asked.seat,
        design.cases,
        design.plate,
        design.at,
        asked.post.seat_thickness,
        asked.post.seat_breadth,
    )


def _notch(asked: SeatAsked) -> list[Item]:
    """How far off centre a notched seat lies, what it leaves beside the beam, and the questions that it raises."""
    design, cut = asked.design, asked.post.notch_depth
    assert design.eccentricity is not None and cut is not None
    tongue = statics.tongue(d_post=design.member.d, d_cut=cut)
    parts: list[Item] = [
        *_beside_kern(asked, design.eccentricity.named("how far off the post's centre the seat lies")),
        tongue.named("tongue left beside the beam"),
        question(f"{design.key}.notch", "notch"),
    ]
    wanted = looked(lookup("practice/wanted", item="tongue beside a beam"), "least", "t_tongue_least")
    if float(tongue.number) < float(wanted.number):
        parts.append(wanted.named("what practice wants of a tongue that is bolted through"))
        parts.append(question(f"{design.key}.tongue", "tongue"))
    return parts


def _hanging(asked: SeatAsked) -> list[Item]:
    """How far off centre the beam lies, where not every ply of it is seated; nothing where nobody knows."""
    e = asked.seat.off if asked.design.eccentricity is None else asked.design.eccentricity
    if e is None or float(e.number) == 0:
        return []
    named = e.named("how far off the post's centre the beam lies, so that the plies that are counted rest on it whole")
    return _beside_kern(asked, named) if asked.design.member.kind is not Kind.STEEL else [named]


def _beside_kern(asked: SeatAsked, e: Value) -> list[Item]:
    """An eccentricity beside the edge of the post's kern, and the question that it raises beyond that."""
    edge = statics.kern(d_post=asked.design.member.d)
    parts: list[Item] = [e, edge.named("edge of the kern: beyond it part of the foot unloads")]
    if float(e.to("in")) > float(edge.number) + 1e-9:
        parts.append(question(f"{asked.design.key}.kern", "kern"))
    return parts
