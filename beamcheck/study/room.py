"""The rest of the room: headroom, pieces carried in, gaps beside posts, holes in the beam."""

from beamcheck import units
from beamcheck.catalogue.members import Kind, Member
from beamcheck.checks import fit as checks
from beamcheck.checks.fit import Drilled
from beamcheck.errors import Fault, InputError
from beamcheck.standards import fit, statics
from beamcheck.study.layout import Layout
from beamcheck.study.stops import question
from beamcheck.study.types import sheet
from beamcheck.survey.around import Hole, Neighbour, Room
from beamcheck.survey.model import Survey
from beamcheck.trace import Item, Note, Sheet, Value, taken

_SAWN = (Kind.DIMENSION, Kind.TIMBER)


def room_sheet(survey: Survey, member: Member, layout: Layout) -> Sheet:
    """What must fit in the room. Raises InputError for a post that is not there or a hole off the beam."""
    parts: list[Item] = []
    if survey.room is not None:
        parts += _height(survey, survey.room, member)
        length = _piece_length(survey.room, layout)
        parts += checks.pieces(member, length)
        parts += checks.carried_in(survey.room, member, length)
    for neighbour in survey.neighbours:
        parts += checks.gap(neighbour, _height_of_post(survey, neighbour))
    for number, hole in enumerate(survey.holes, 1):
        parts += _hole(hole, f"hole[{number}]", member, layout)
    return sheet("room", "The rest of the room", *parts)


def _height(survey: Survey, room: Room, member: Member) -> list[Item]:
    if survey.beam.position == "flush":
        return [
            Note("The beam lies within the joists: headroom stays that of the ceiling, if it is no deeper than they.")
        ]
    h_clear = fit.headroom(
        h_ceiling=survey.wall.ceiling_height, h_added=room.floor_added, d=member.d, t_wrap=room.beam_wrap
    )
    return [*checks.headroom(h_clear.named("headroom under the finished beam")), question("room.headroom", "headroom")]


def _piece_length(room: Room, layout: Layout) -> Value:
    if room.piece_length is not None:
        return room.piece_length
    left, right = layout.posts[0], layout.posts[-1]
    return fit.piece_length(l=layout.length, b_a=left.b, b_b=right.b)


def _height_of_post(survey: Survey, neighbour: Neighbour) -> Value:
    number = float(neighbour.post.number)
    if not number.is_integer() or number > len(survey.posts):
        mend = f"the posts are numbered 1 to {len(survey.posts)} from the left"
        raise InputError([Fault(f"{neighbour.where}.post", f"there is no post {number:g}", mend)])
    return survey.height_of(int(number) - 1)


def _hole(hole: Hole, key: str, member: Member, layout: Layout) -> list[Item]:
    _fits(hole, member, layout)
    station = float(hole.station.to("in"))
    kind = (
        question(f"{key}.engineered", "hole engineered")
        if member.kind not in _SAWN
        else question(f"{key}.hole", "hole")
    )
    found: list[Item] = []
    spans = [bay for bay in layout.line.bays if bay.kind == "span"]
    number = next((number for number, bay in enumerate(spans) if bay.start <= station <= bay.end), None)
    if number is not None and member.kind is not Kind.STEEL:
        start = taken("x_a", spans[number].start, "left bearing of the span in which it lies", unit="in")
        x_hole = statics.span_between(x_b=hole.station, x_a=start)
        found += checks.drilled(Drilled(hole, key, x_hole, layout.spans[number]), member)
    return [*found, *checks.hung(hole, key), kind]


def _fits(hole: Hole, member: Member, layout: Layout) -> None:
    """Raise InputError for a hole that is not in the beam."""
    line, faults = layout.line, []
    station, depth, radius = (float(value.to("in")) for value in (hole.station, member.d, hole.diameter))
    radius /= 2
    if not line.start <= station <= line.end:
        ends = f"{units.format_length(line.start)} to {units.format_length(line.end)}"
        what = f"{units.format_length(station)} is off the beam, which runs from {ends}"
        faults.append(Fault(f"{hole.where}.station", what, "measure from the centre of the left bearing"))
    below = hole.from_top
    if below is not None and not radius < float(below.to("in")) < depth - radius:
        what = (
            f"a hole of {units.format_length(2 * radius)} there is not within the depth of {units.format_length(depth)}"
        )
        faults.append(Fault(f"{hole.where}.from_top", what, "measure from the beam's top edge to the hole's centre"))
    if faults:
        raise InputError(faults)
