"""The yard's beams laid over one arrangement of posts, and every check of each."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beamcheck import units
from beamcheck.beam.many import Floats
from beamcheck.catalogue.members import Member
from beamcheck.catalogue.reading import read_member
from beamcheck.checks.beam import Seat
from beamcheck.errors import Fault, InputError
from beamcheck.explore.ratios import Worked, worked
from beamcheck.explore.stock import Batch
from beamcheck.explore.swept import Swept, ground
from beamcheck.standards import fit, statics
from beamcheck.standards import nds_2018 as nds
from beamcheck.study.layout import Layout, lay_out
from beamcheck.study.materials import own_weight
from beamcheck.study.types import Study
from beamcheck.survey.model import Survey
from beamcheck.takedown.carried import all_sources
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import EDITIONS
from beamcheck.trace import Taken, Value, taken

MOST_ARRANGEMENTS = 60
_SIDE_BY_SIDE = Taken("one of many beams, side by side")


class Trial(NamedTuple):
    """One batch over one arrangement of posts.

    checks: by key; weight: of the whole beam, piece: of one ply as it is carried in, both in lb; unfit: why a beam
    cannot sit on these posts, by its number in the batch.
    """

    layout: Layout
    batch: Batch
    checks: dict[str, Worked]
    weight: Floats
    piece: Floats
    unfit: dict[int, str]


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


def trials(survey: Survey, batches: tuple[Batch, ...]) -> Iterator[Trial]:
    """Every batch over one arrangement. Raises InputError where the take-down is not complete."""
    layout = lay_out(survey, read_member(survey.beam.member, "beam.member"))
    sources, missing = all_sources(survey.carried, survey.site, layout.reach)
    if missing:
        raise InputError([Fault(item.key, item.need, "options need the whole take-down") for item in missing])
    present = frozenset(source.load_type for source in sources) | {"D"}
    solved = ground(layout.line, sources, combinations(EDITIONS[survey.site.loads], present))
    weights = [own_weight(batch.member) for batch in batches]
    swept = Swept(
        solved,
        np.concatenate([_lanes(weight.to("lb/in"), batch) for weight, batch in zip(weights, batches, strict=True)]),
        np.concatenate([_lanes(batch.member.d.to("in"), batch) for batch in batches]),
    )
    begin = 0
    for weight, batch in zip(weights, batches, strict=True):
        some = slice(begin, begin + len(batch.texts))
        begin = some.stop
        seated, unfit = _seated(survey, layout, batch)
        checks = worked(survey, batch.member, seated, swept.part(some), len(batch.texts))
        piece = fit.piece_weight(w_self=ply_weight(batch.member), l_haul=_haul(survey, seated))
        whole = fit.piece_weight(w_self=weight, l_haul=_haul(survey, seated))
        yield Trial(seated, batch, checks, _lanes(whole.number, batch), _lanes(piece.number, batch), unfit)


def ply_weight(member: Member) -> Value:
    """Weight of one piece per foot: of a ply, or of a steel shape."""
    if member.density is None:
        return own_weight(member)
    return statics.self_weight(gamma=member.density, A=nds.area(b=member.b_ply, d=member.d))


def whole_piece(study: Study) -> Value:
    """Weight of one piece of a study's beam as it is carried in."""
    layout = lay_out(study.survey, study.beam)
    return fit.piece_weight(w_self=ply_weight(study.beam), l_haul=_haul(study.survey, layout))


def headroom(survey: Survey, d: Value) -> Value | None:
    """Height left under a dropped beam of that depth, less finish where the survey tells it; None under a flush one."""
    if survey.beam.position == "flush":
        return None
    none = taken("t_wrap", 0.0, "the survey has no section [room]", unit="in")
    wrap, added = (survey.room.beam_wrap, survey.room.floor_added) if survey.room is not None else (none, none)
    return fit.headroom(h_ceiling=survey.wall.ceiling_height, h_added=added, d=d, t_wrap=wrap)


def _haul(survey: Survey, layout: Layout) -> Value:
    """Length of a piece as it is carried in: as ordered, else over the whole of its end bearings."""
    if survey.room is not None and survey.room.piece_length is not None:
        return survey.room.piece_length
    return fit.piece_length(l=layout.length, b_a=layout.posts[0].b, b_b=layout.posts[-1].b)


def _lanes(number: Floats | float, batch: Batch) -> Floats:
    return np.broadcast_to(np.asarray(number, dtype=np.float64), (len(batch.texts),))


def _seated(survey: Survey, layout: Layout, batch: Batch) -> tuple[Layout, dict[int, str]]:
    """The layout with the seats of every beam, and why some cannot sit: beams of one breadth sit alike."""
    groups: dict[tuple[float, float], list[int]] = {}
    breadths = _lanes(batch.member.b_ply.number, batch)
    for number, key in enumerate(zip(batch.plies.tolist(), breadths.tolist(), strict=True)):
        groups.setdefault(key, []).append(number)
    unfit: dict[int, str] = {}
    found: list[tuple[NDArray[np.intp], tuple[Seat, ...]]] = []
    for (plies, breadth), beams in groups.items():
        try:
            seats = lay_out(survey, _one(batch.member, int(plies), breadth)).seats
        except InputError as error:
            unfit |= dict.fromkeys(beams, error.faults[0].what)
            continue
        found.append((np.array(beams), seats))
    seats = tuple(_merged([(beams, seats[n]) for beams, seats in found], batch) for n in range(len(layout.seats)))
    return replace(layout, seats=seats), unfit


def _one(member: Member, plies: int, breadth: float) -> Member:
    """A beam of so many plies, for its seats: depth and grade do not matter to them."""
    b_ply = Value("b", breadth, "in", _SIDE_BY_SIDE)
    return replace(member, plies=plies, b=replace(b_ply, number=plies * breadth), b_ply=b_ply)


def _merged(parts: list[tuple[NDArray[np.intp], Seat]], batch: Batch) -> Seat:
    """One seat whose breadth is an array; not a number where the seat of a beam is not known."""
    known = [(beams, seat) for beams, seat in parts if seat.length is not None and seat.breadth is not None]
    if not known:
        return Seat(None, None)
    breadths = np.full(len(batch.texts), np.nan)
    for beams, seat in known:
        assert seat.breadth is not None
        breadths[beams] = seat.breadth.to("in")
    first = known[0][1]
    return replace(first, breadth=Value("b", breadths, "in", _SIDE_BY_SIDE))


def stations_of(layout: Layout) -> str:
    """Stations of the posts in words."""
    return ", ".join(units.format_length(float(station.to("in"))) for station in layout.stations)
