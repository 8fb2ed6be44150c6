"""What stands in where the survey is silent and no figure of the tree says so: grades, a wall's thickness, a notch."""

from collections.abc import Iterator
from typing import NamedTuple

from beamcheck import units
from beamcheck.catalogue.members import Kind, Member
from beamcheck.catalogue.reading import read_member
from beamcheck.catalogue.sawn import unstamped
from beamcheck.errors import InputError
from beamcheck.survey.model import Survey
from beamcheck.tables import Row, lookup

_GRADES = {Kind.DIMENSION: "species_grade", Kind.TIMBER: "species_grade_timber"}


class StandIn(NamedTuple):
    """A key of the survey, the row of the register of cautious defaults that tells about it, and what stands in."""

    where: str
    row: Row
    value: str


def stand_ins(survey: Survey) -> Iterator[StandIn]:
    """Everything that stands in beside figures and words, each only where the study leans on it."""
    yield from _grades(survey)
    yield from _width(survey)
    if reach_assumed(survey):
        yield _by_row("beam.end_notch_reach", "end_notch_reach")


def reach_assumed(survey: Survey) -> bool:
    """Whether the beam is notched from above, and nobody says how far in; a cut steel beam is not checked there."""
    beam = survey.beam
    if beam.end_notch_top is None or beam.end_notch_reach is not None:
        return False
    return read_member(beam.member, "beam.member").kind is not Kind.STEEL


def notch_reach() -> Row:
    """What stands in for the reach of a notch."""
    return _row("end_notch_reach")


def wall_thickness(survey: Survey) -> float:
    """Thickness of the wall that goes, in: as measured, or what stands in for it."""
    if survey.wall.thickness is not None:
        return float(survey.wall.thickness.to("in"))
    return units.parse(_row("wall_thickness").text("value"), units.Dimension.LENGTH)


def apart_at_most() -> float:
    """How far spans and wall together may differ from the width of the house, in, before they contradict it."""
    return units.parse(_row("house_width_apart").text("value").removeprefix("within "), units.Dimension.LENGTH)


def members(survey: Survey) -> Iterator[tuple[str, str]]:
    """Every member that the survey names, by key path."""
    yield "beam.member", survey.beam.member
    yield from ((f"{post.where}.member", post.member) for post in survey.posts)
    yield from ((f"{girder.where}.member", girder.member) for girder in survey.girders)
    if survey.temporary is not None:
        yield "temporary.stud", survey.temporary.stud
        yield "temporary.top_plate", survey.temporary.top_plate
    yield from ((f"{heavy.where}.joist", heavy.joist) for heavy in survey.heavy)


def _grades(survey: Survey) -> Iterator[StandIn]:
    """Members of sawn lumber whose species is not known, with the grade that is told or stands in."""
    for where, text in members(survey):
        member = _unstamped(text, where)
        item = None if member is None else _GRADES.get(member.kind)
        if member is not None and item is not None:
            yield StandIn(where, _row(item), member.grade)


def _unstamped(text: str, where: str) -> Member | None:
    """A member whose species is not known; None for another, and for what no part of the study could read."""
    if not unstamped(text):
        return None
    try:
        return read_member(text, where)
    except InputError:
        return None


def _width(survey: Survey) -> Iterator[StandIn]:
    """What the comparison with the width of the house leans on."""
    if survey.wall.house_width is None:
        return
    if survey.wall.thickness is None:
        yield _by_row("wall.thickness", "wall_thickness")
    yield _by_row("wall.house_width", "house_width_apart")


def _by_row(where: str, item: str) -> StandIn:
    row = _row(item)
    return StandIn(where, row, row.text("value"))


def _row(item: str) -> Row:
    return lookup("practice/defaults", item=item)
