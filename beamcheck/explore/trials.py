"""The yard's beams laid over one arrangement of posts, and every check of each."""

from bisect import bisect_right
from itertools import pairwise, product
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from beamcheck import units
from beamcheck.beam.many import Floats
from beamcheck.catalogue.members import Member
from beamcheck.catalogue.reading import read_member
from beamcheck.checks.beam import Seat
from beamcheck.errors import Fault, InputError
from beamcheck.explore.ratios import Worked, of_beam, of_post, reduced
from beamcheck.explore.stock import Batch
from beamcheck.explore.swept import Swept, ground
from beamcheck.frozen import replace
from beamcheck.standards import fit, statics
from beamcheck.standards import nds_2018 as nds
from beamcheck.study.designs import axial_cases, beam_design, post_design
from beamcheck.study.layout import Layout, lay_out
from beamcheck.study.materials import own_weight
from beamcheck.study.seats import seat_of, unknown_seat
from beamcheck.survey.model import Survey
from beamcheck.takedown.carried import all_sources
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import EDITIONS
from beamcheck.trace import Taken, Value

if TYPE_CHECKING:
    from beamcheck.study.types import Study

MOST_ARRANGEMENTS = 60
_SIDE_BY_SIDE = Taken("one of many beams, side by side")


class Trial(NamedTuple):
    """All batches over one arrangement of posts; beams count through the batches, one after the other.

    of_beam: checks of the beam and its bearings by key, one dictionary a batch, whose first beam is ``starts``;
    of_posts: checks of seats and posts over all beams. weight: of the whole beam, piece: of one ply as it is carried
    in, both in lb; unfit: why a beam cannot sit on these posts, by its number.
    """

    layout: Layout
    starts: tuple[int, ...]
    of_beam: tuple[dict[str, Worked], ...]
    of_posts: dict[str, Worked]
    weight: Floats
    piece: Floats
    unfit: dict[int, str]

    def batch_of(self, beam: int) -> tuple[int, int]:
        """The batch that holds a beam, and its number there."""
        batch = bisect_right(self.starts, beam) - 1
        return batch, beam - self.starts[batch]


def arrangements(survey: Survey) -> tuple[Survey, ...]:
    """The survey with its posts at each of the stations to be tried. Raises InputError where there are too many."""
    choices = []
    for number, post in enumerate(survey.posts):
        inner = 0 < number < len(survey.posts) - 1
        if post.try_stations and not inner:
            what = "the end posts stand at the ends of the opening"
            raise InputError([Fault(f"{post.where}.try_stations", what, "give stations to try to posts between them")])
        choices.append(((post.station,) if post.station is not None else ()) + post.try_stations or (None,))
    count = int(np.prod([len(choice) for choice in choices]))
    if count > MOST_ARRANGEMENTS:
        what = f"make {count} arrangements of posts"
        raise InputError([Fault("post", what, f"at most {MOST_ARRANGEMENTS} are tried: leave some stations out")])
    return tuple(
        replace(
            survey,
            posts=tuple(replace(post, station=at) for post, at in zip(survey.posts, stations, strict=True)),
        )
        for stations in product(*choices)
    )


def at_tried_station(survey: Survey, arranged: Survey, error: InputError) -> InputError:
    """An error of an arrangement at the key that made it: that of the stations to try, if a post stands at one."""
    pairs = zip(survey.posts, arranged.posts, strict=True)
    moved = {post.where: post.station for own, post in pairs if post.station not in (own.station, None)}
    if not moved:
        return error
    stations = [units.format_length_as(survey.about.dimensions, float(at.to("in"))) for at in moved.values()]
    at = " and ".join(f"{where} at {station}" for where, station in zip(moved, stations, strict=True))
    mend = "leave that station out, or write one that fits"
    return InputError([Fault(f"{next(iter(moved))}.try_stations", f"{at}: {one.what}", mend) for one in error.faults])


def tried(survey: Survey, batches: tuple[Batch, ...]) -> Trial:
    """Every batch over one arrangement. Raises InputError where the take-down is not complete."""
    layout = lay_out(survey, read_member(survey.beam.member, "beam.member"))
    sources, missing = all_sources(survey.carried, survey.site, layout.reach)
    if missing:
        raise InputError([Fault(item.key, item.need, "options need the whole take-down") for item in missing])
    present = frozenset(source.load_type for source in sources) | {"D"}
    solved = ground(layout.line, sources, combinations(EDITIONS[survey.site.loads], present))
    weights = [own_weight(batch.member) for batch in batches]
    pairs = list(zip(weights, batches, strict=True))
    swept = Swept(
        solved,
        np.concatenate([_lanes(weight.to("lb/in"), batch) for weight, batch in pairs]),
        np.concatenate([_lanes(batch.member.d.to("in"), batch) for batch in batches]),
    )
    haul = _haul(survey, layout)
    whole = [fit.piece_weight(w_self=weight, l_haul=haul) for weight in weights]
    piece = [fit.piece_weight(w_self=ply_weight(batch.member), l_haul=haul) for batch in batches]
    seated, unfit = _seated(survey, layout, batches)
    starts = tuple(np.cumsum([0, *(len(batch.texts) for batch in batches)]).tolist())
    return Trial(
        seated,
        starts[:-1],
        tuple(
            _worked_beams(survey, batch, seated, swept.part(slice(begin, end)), slice(begin, end))
            for batch, (begin, end) in zip(batches, pairwise(starts), strict=True)
        ),
        _worked_posts(survey, batches[0].member, seated, swept, starts[-1]),
        np.concatenate([_lanes(one.number, batch) for one, batch in zip(whole, batches, strict=True)]),
        np.concatenate([_lanes(one.number, batch) for one, batch in zip(piece, batches, strict=True)]),
        unfit,
    )


def _worked_beams(survey: Survey, batch: Batch, seated: Layout, loaded: Swept, beams: slice) -> dict[str, Worked]:
    layout = replace(seated, seats=tuple(_of_some(seat, beams) for seat in seated.seats))
    return reduced(of_beam(beam_design(survey, batch.member, layout, loaded)), len(batch.texts))


def _of_some(seat: Seat, beams: slice) -> Seat:
    if seat.breadth is None:
        return seat
    return replace(seat, breadth=replace(seat.breadth, number=seat.breadth.number[beams]))


def _worked_posts(survey: Survey, member: Member, seated: Layout, loaded: Swept, count: int) -> dict[str, Worked]:
    checks = (
        check
        for number in range(len(seated.posts))
        for check in of_post(
            survey, member, seated, number, post_design(survey, number, seated, axial_cases(loaded, number))
        )
    )
    return reduced(checks, count)


def ply_weight(member: Member) -> Value:
    """Weight of one piece per foot: of a ply, or of a steel shape."""
    if member.density is None:
        return own_weight(member)
    return statics.self_weight(gamma=member.density, A=nds.area(b=member.b_ply, d=member.d))


def whole_piece(study: "Study") -> Value:
    """Weight of one piece of a study's beam as it is carried in."""
    layout = lay_out(study.survey, study.beam)
    return fit.piece_weight(w_self=ply_weight(study.beam), l_haul=_haul(study.survey, layout))


def _haul(survey: Survey, layout: Layout) -> Value:
    """Length of a piece as it is carried in: as ordered, else over the whole of its end bearings."""
    if survey.room is not None and survey.room.piece_length is not None:
        return survey.room.piece_length
    return fit.piece_length(l=layout.length, b_a=layout.posts[0].b, b_b=layout.posts[-1].b)


def _lanes(number: Floats | float, batch: Batch) -> Floats:
    return np.broadcast_to(np.asarray(number, dtype=np.float64), (len(batch.texts),))


def _seated(survey: Survey, layout: Layout, batches: tuple[Batch, ...]) -> tuple[Layout, dict[int, str]]:
    """The layout with the seats of every beam, and why some cannot sit: beams of one breadth sit alike."""
    plies = np.concatenate([batch.plies for batch in batches]).tolist()
    breadths = np.concatenate([_lanes(batch.member.b_ply.number, batch) for batch in batches]).tolist()
    groups: dict[tuple[float, float], list[int]] = {}
    for number, key in enumerate(zip(plies, breadths, strict=True)):
        groups.setdefault(key, []).append(number)
    unfit: dict[int, str] = {}
    needs: dict[tuple[int, int], str] = {}  # what would show the seat of a beam on a post
    found: list[tuple[list[int], list[Seat]]] = []
    for (count, breadth), beams in groups.items():
        beam = _one(batches[0].member, int(count), breadth)
        try:
            found.append((beams, [_seat(survey, layout, beam, number) for number in range(len(layout.posts))]))
        except InputError as error:
            unfit |= dict.fromkeys(beams, error.faults[0].what)
            continue
        needs |= {
            (n, at): missing.need
            for n, post in enumerate(survey.posts)
            if (missing := unknown_seat(post.where, beam, layout.posts[n], post))
            for at in beams
        }
    known = {n for _, seats in found for n, seat in enumerate(seats) if seat.length is not None}
    unfit |= {at: f"not known how: {need}" for (n, at), need in needs.items() if n in known}  # else the list says so
    seats = [_merged([(beams, seats[n]) for beams, seats in found], len(plies)) for n in range(len(layout.posts))]
    return replace(layout, seats=tuple(seats)), unfit


def _seat(survey: Survey, layout: Layout, beam: Member, number: int) -> Seat:
    return seat_of(beam, layout.posts[number], survey.posts[number], layout.seats[number].end)


def _one(member: Member, plies: int, breadth: float) -> Member:
    """A beam of so many plies, for its seats: depth and grade do not matter to them."""
    b_ply = Value("b", breadth, "in", _SIDE_BY_SIDE)
    return replace(member, plies=plies, b=replace(b_ply, number=plies * breadth), b_ply=b_ply)


def _merged(parts: list[tuple[list[int], Seat]], count: int) -> Seat:
    """One seat whose breadth and offset are arrays; the breadth not a number where the seat of a beam is not known."""
    known = [(beams, seat) for beams, seat in parts if seat.length is not None and seat.breadth is not None]
    if not known:
        return Seat(None, None)
    breadths, offs = np.full(count, np.nan), np.zeros(count)
    for beams, seat in known:
        assert seat.breadth is not None
        breadths[beams] = seat.breadth.to("in")
        offs[beams] = 0.0 if seat.off is None else seat.off.to("in")
    off = Value("e", offs, "in", _SIDE_BY_SIDE) if offs.any() else None
    return replace(known[0][1], breadth=Value("b", breadths, "in", _SIDE_BY_SIDE), off=off)
