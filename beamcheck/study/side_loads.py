"""The plies of a flush beam: what hangs on each face along it, and the fasteners that the survey names for it."""

from collections.abc import Iterator

from beamcheck.catalogue.members import Member
from beamcheck.checks.plies import Face, JoinedPlies, check_plies
from beamcheck.errors import Fault, InputError
from beamcheck.study.designs import conditions
from beamcheck.study.layout import Layout
from beamcheck.survey.model import Survey
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sides import SIDES, hung
from beamcheck.takedown.sources import EDITIONS, Source
from beamcheck.trace import Item, Missing, taken

_KEY = "flush"


def joined_plies(survey: Survey, member: Member, layout: Layout) -> tuple[Item, ...]:
    """The checks of the joints; not shown without rows and spacing. Raises InputError for a beam of one ply."""
    beam = survey.beam
    if member.plies == 1:
        what = f"{member.text} is of one piece: there is nothing to join"
        mend = "leave out plies_joined_by, fastener_rows and fastener_spacing, or write the plies in beam.member"
        raise InputError([Fault("beam.plies_joined_by", what, mend)])
    if not (beam.plies_joined_by and beam.fastener_rows and beam.fastener_spacing is not None):
        need = "name beam.plies_joined_by, and beam.fastener_rows over the depth and fastener_spacing along it"
        return (Missing(f"{_KEY}.plies", "Fasteners between the plies", need),)
    return check_plies(
        JoinedPlies(
            _KEY,
            member,
            tuple(face for side in SIDES for face in _stretches(survey, layout, side)),
            combinations(EDITIONS[survey.site.loads], frozenset({"D", "L"})),
            beam.plies_joined_by,
            taken("n_f", float(beam.fastener_rows), "beam.fastener_rows: rows over the depth"),
            beam.fastener_spacing,
            conditions(survey),
        )
    )


def _stretches(survey: Survey, layout: Layout, side: str) -> Iterator[Face]:
    """One face, from each station at which something begins to hang: the heaviest place is among them."""
    rows = hung(survey.carried, side)
    begins = {_start(row, layout): row.name for row in rows}
    for start, name in begins.items():
        there = tuple(row for row in rows if _start(row, layout) <= start < _end(row, layout))
        place = "" if start <= layout.line.start else f", where {name} begins"
        yield Face(f"side {side}{place}", there)


def _start(row: Source, layout: Layout) -> float:
    return layout.line.start if row.start is None else float(row.start.to("in"))


def _end(row: Source, layout: Layout) -> float:
    return layout.line.end if row.end is None else float(row.end.to("in"))
