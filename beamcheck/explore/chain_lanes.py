"""A study's whole chain of beam, seats and posts in many lanes at once, each with figures of its own."""

from collections.abc import Mapping
from itertools import pairwise

import numpy as np

from beamcheck.beam.many import Floats
from beamcheck.catalogue.members import Kind, Member
from beamcheck.checks.beam import Seat
from beamcheck.errors import Fault, InputError
from beamcheck.explore.inputs import replayed, with_numbers
from beamcheck.explore.lanes import Lanes
from beamcheck.explore.ratios import Worked, worked
from beamcheck.frozen import replace
from beamcheck.study.layout import Layout, lay_out
from beamcheck.study.materials import own_weight
from beamcheck.study.seats import seat_in_lanes
from beamcheck.study.types import Study
from beamcheck.survey.model import Post, Survey
from beamcheck.takedown.carried import all_sources
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import EDITIONS, Reach, Source
from beamcheck.trace import Num, Taken, Value

_APART = 1.0  # in: posts that a lane would put closer, or the wrong way round, are kept so far apart


def chain_lanes(study: Study, numbers: Mapping[str, Floats], lanes: int) -> dict[str, Worked]:
    """The utilisations of beam, seats and posts by check, with the given figures in place of the survey's.

    numbers: by key path, in the unit that each is kept in, shape (lanes,). What is chosen among (the worse of two
    snow loads, the longer span) is chosen lane by lane; words and members stay as they are. Raises InputError where
    the take-down is not complete.
    """
    survey = with_numbers(study.survey, numbers)
    likely = lay_out(study.survey, study.beam)
    layout, cuts = _moved(study, survey, likely, numbers, lanes)
    ends = [Value("x_a", cut, "in", Taken("end of a bay")) for cut in cuts]
    reach = Reach(layout.length, ends[0], tuple(pairwise(ends)))
    rows, missing = all_sources(survey.carried, survey.site, reach)
    if missing:
        raise InputError([Fault(item.key, item.need, "chances need the whole take-down") for item in missing])
    sources = (*rows, Source("beam", "the beam itself", "D", w=own_weight(study.beam)))
    present = frozenset(source.load_type for source in sources)
    cases = combinations(EDITIONS[survey.site.loads], present)
    loaded = Lanes(likely.line, cuts, sources, cases, shear_bends=study.beam.kind is Kind.COMPOSITE)
    return worked(survey, study.beam, layout, loaded, lanes)


def _moved(
    study: Study, survey: Survey, likely: Layout, numbers: Mapping[str, Num], lanes: int
) -> tuple[Layout, tuple[Floats, ...]]:
    """The layout with its figures computed anew, and the ends of its bays in every lane."""
    posts: list[Floats] = []
    stations: list[Value] = []
    for station in likely.stations:
        anew = replayed(station, numbers)
        at = np.broadcast_to(np.asarray(anew.to("in"), dtype=np.float64), (lanes,))
        posts.append(np.maximum(at, posts[-1] + _APART) if posts else at)
        stations.append(anew)
    cuts = list(posts)
    if likely.line.left_overhang and survey.beam.overhang_left is not None:
        cuts.insert(0, posts[0] - survey.beam.overhang_left.to("in"))
    if likely.line.right_overhang and survey.beam.overhang_right is not None:
        cuts.append(posts[-1] + survey.beam.overhang_right.to("in"))
    length = Value("l", cuts[-1] - cuts[0], "in", Taken("length of the beam, overhangs and all"))
    spans = tuple(replayed(span, numbers) for span in likely.spans)
    seats = tuple(
        _seat(seat, study.beam, member, post, numbers)
        for seat, member, post in zip(likely.seats, likely.posts, survey.posts, strict=True)
    )
    return replace(likely, spans=spans, stations=tuple(stations), seats=seats, length=length), tuple(cuts)


def _seat(seat: Seat, beam: Member, member: Member, post: Post, numbers: Mapping[str, Num]) -> Seat:
    if seat.length is None or seat.breadth is None:
        return seat
    anew = replace(
        seat,
        length=replayed(seat.length, numbers),
        breadth=replayed(seat.breadth, numbers),
        off=None if seat.off is None else replayed(seat.off, numbers),
    )
    moved = any(f"{post.where}.{key}" in numbers for key in ("eccentricity", "seat_breadth"))
    return seat_in_lanes(anew, beam, member, post) if moved and beam.plies > 1 and post.seat != "notch" else anew
