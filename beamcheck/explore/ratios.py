"""The utilisations of one chain, beam and posts, by check: by the same checks as a study, in numbers or in arrays."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beamcheck.beam.many import Floats
from beamcheck.catalogue.members import Kind, Member
from beamcheck.checks import beam as wood_beam
from beamcheck.checks import post as wood_post
from beamcheck.checks.beam import BeamDesign
from beamcheck.checks.demands import Demands
from beamcheck.checks.post import PostDesign
from beamcheck.checks.seat import every_layer
from beamcheck.study.designs import axial_cases, beam_design, post_design, shortest_seat
from beamcheck.study.layout import Layout
from beamcheck.study.seat_sheet import SeatAsked, seat_design
from beamcheck.survey.model import Survey
from beamcheck.trace import Check, Num


class Worked(NamedTuple):
    """One check over many lanes: its utilisation, and the demand of the case that governs each lane, in its unit.

    ``titles`` are those of its cases; ``which`` numbers the one that governs each lane.
    """

    key: str
    titles: tuple[str, ...]
    which: NDArray[np.intp]
    ratio: Floats
    demand: Floats
    unit: str

    def title(self, lane: int) -> str:
        """What the check is called in a lane."""
        return self.titles[int(self.which[lane])]


def worked(survey: Survey, member: Member, layout: Layout, loaded: Demands, lanes: int) -> dict[str, Worked]:
    """Every check of the beam, its seats and its posts, by key, each lane under the case that governs it."""
    return reduced(every_check(survey, member, layout, loaded), lanes)


def every_check(survey: Survey, member: Member, layout: Layout, loaded: Demands) -> Iterator[Check]:
    """Every check of the beam, its seats and its posts under every combination."""
    yield from of_beam(beam_design(survey, member, layout, loaded))
    for number in range(len(layout.posts)):
        design = post_design(survey, number, layout, axial_cases(loaded, number))
        yield from of_post(survey, member, layout, number, design)


def of_beam(design: BeamDesign) -> Iterable[Check]:
    """Every check of a beam of wood or of steel."""
    if design.member.kind is not Kind.STEEL:
        return wood_beam.every_check(design)
    from beamcheck.checks import steel

    return steel.every_check(design)


def of_post(survey: Survey, member: Member, layout: Layout, number: int, design: PostDesign) -> Iterator[Check]:
    """Every check of a post, by its number from 0, and of the seat on it where that is known."""
    seat = layout.seats[number]
    if seat.length is not None and seat.breadth is not None:
        asked = SeatAsked(number, survey.posts[number], member, seat, design, None)
        yield shortest_seat(number, layout)
        yield from every_layer(seat_design(asked))
    if design.member.kind is Kind.STEEL:
        from beamcheck.checks import steel_post

        yield from steel_post.every_check(steel_post.steel_post(design))
    elif wood_post.beyond(design) is None:
        yield from wood_post.every_check(design)


def reduced(checks: Iterable[Check], lanes: int) -> dict[str, Worked]:
    """The worst of each key, lane by lane; the first of equals."""
    found: dict[str, Worked] = {}
    for check in checks:
        ratio = _in_lanes(check.ratio, lanes)
        known = found.get(check.key)
        if known is None:
            demand = _in_lanes(check.demand.number, lanes)
            nothing = np.zeros(lanes, dtype=np.intp)
            found[check.key] = Worked(check.key, (check.title,), nothing, ratio, demand, check.demand.unit)
            continue
        worse = ratio > known.ratio
        if worse.any():
            found[check.key] = _worsened(known, check, ratio, worse)
    return found


def _in_lanes(number: Num, lanes: int) -> Floats:
    figures: Floats = np.asarray(number, dtype=np.float64)
    return figures if figures.shape == (lanes,) else np.broadcast_to(figures, (lanes,))


def _worsened(known: Worked, check: Check, ratio: Floats, worse: NDArray[np.bool_]) -> Worked:
    titles = known.titles if check.title in known.titles else (*known.titles, check.title)
    return known._replace(
        titles=titles,
        which=np.where(worse, titles.index(check.title), known.which) if len(titles) > 1 else known.which,
        ratio=np.where(worse, ratio, known.ratio),
        demand=np.where(worse, check.demand.to(known.unit), known.demand),
    )
