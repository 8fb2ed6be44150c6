"""From posts and opening to the beam line: stations, spans and seats. Raises InputError where they contradict."""

from collections.abc import Iterator
from itertools import pairwise

from beamcheck import units
from beamcheck.beam.model import Line
from beamcheck.catalogue.members import Member
from beamcheck.catalogue.reading import read_member
from beamcheck.checks.beam import Seat
from beamcheck.errors import Fault, InputError
from beamcheck.frozen import dataclass
from beamcheck.standards import statics
from beamcheck.study.materials import as_post
from beamcheck.study.seats import seat_of
from beamcheck.survey.model import Post, Survey
from beamcheck.takedown.sources import Reach
from beamcheck.trace import Value, taken

_APART = 1.0


@dataclass(frozen=True, slots=True, eq=False)
class Layout:
    """The beam line with its spans and seats, and the members of the posts, left to right."""

    line: Line
    spans: tuple[Value, ...]
    stations: tuple[Value, ...]
    seats: tuple[Seat, ...]
    posts: tuple[Member, ...]
    length: Value

    @property
    def reach(self) -> Reach:
        """The beam, overhangs and all."""
        start = taken("x_a", self.line.start, "left end of the beam", unit="in")
        cuts = list(self.stations)
        if self.line.left_overhang:
            cuts.insert(0, start)
        if self.line.right_overhang:
            cuts.append(taken("x_b", self.line.end, "right end of the beam", unit="in"))
        return Reach(self.length, start, tuple(pairwise(cuts)))


def lay_out(survey: Survey, beam: Member) -> Layout:
    """Stations of the posts from the clear opening and the owner's figures, and the line they make."""
    members = _members(survey.posts)
    whole = statics.design_span(l_clear=survey.wall.clear_opening, b_a=members[0].b, b_b=members[-1].b)
    stations = _stations(survey, whole)
    spans = (whole,) if len(stations) == 2 and survey.posts[-1].station is None else _spans(stations)
    line = Line(
        tuple(float(station.to("in")) for station in stations),
        _overhang(survey.beam.overhang_left),
        _overhang(survey.beam.overhang_right),
    )
    seats = tuple(
        seat_of(beam, member, post, "end" if number in (0, len(members) - 1) else "middle")
        for number, (member, post) in enumerate(zip(members, survey.posts, strict=True))
    )
    length = taken("l", line.end - line.start, "length of the beam, overhangs and all", unit="in")
    return Layout(line, spans, stations, seats, members, length)


def _members(posts: tuple[Post, ...]) -> tuple[Member, ...]:
    faults: list[Fault] = []
    members: list[Member] = []
    for post in posts:
        try:
            where = f"{post.where}.member"
            members.append(as_post(read_member(post.member, where), where))
        except InputError as error:
            faults += error.faults
    if faults:
        raise InputError(faults)
    return tuple(members)


def _stations(survey: Survey, whole: Value) -> tuple[Value, ...]:
    first, *inner, last = survey.posts
    faults = [*_ends(first, last, whole), *_between(inner, float(whole.number))]
    if faults:
        raise InputError(faults)
    start = taken("x_a", 0.0, "stations are measured from the centre of the first post", unit="in")
    stations = (post.station for post in inner if post.station is not None)
    return (start, *stations, last.station if last.station is not None else whole)


def _ends(first: Post, last: Post, whole: Value) -> Iterator[Fault]:
    """What is wrong with the stations of the end posts, where they are told."""
    if first.station is not None and float(first.station.number) != 0:
        what = "the first post is where stations are measured from"
        yield Fault(f"{first.where}.station", what, 'leave it out, or write "0 in"')
    if last.station is not None and abs(float(last.station.number) - float(whole.number)) > _APART:
        told, wanted = (units.format_length(float(one.number)) for one in (last.station, whole))
        what = f"{told}, but the clear opening and the end posts put it at {wanted}"
        yield Fault(f"{last.where}.station", what, "mend it, the posts or wall.clear_opening")


def _between(posts: list[Post], end: float) -> Iterator[Fault]:
    """What is wrong with the stations of posts between the ends: each by itself, and beside the one before it."""
    before = 0.0
    for post in posts:
        where = f"{post.where}.station"
        if post.station is None:
            yield Fault(where, "a post between the ends needs a station", 'write it as text, for example "6 ft 9 in"')
            continue
        station = float(post.station.number)
        told = units.format_length(station)
        if not 0 < station < end:
            what = f"{told} is not between the end posts, which stand at 0 in and {units.format_length(end)}"
            yield Fault(where, what, "mend it, or wall.clear_opening; an end post is the first or the last of the list")
            continue
        if station <= before:
            what = f"{told} is not right of the post before it"
            yield Fault(where, what, "list the posts from left to right, inside the opening")
        before = station


def _spans(stations: tuple[Value, ...]) -> tuple[Value, ...]:
    return tuple(statics.span_between(x_b=b, x_a=a) for a, b in pairwise(stations))


def _overhang(value: Value | None) -> float:
    return float(value.to("in")) if value is not None else 0.0
