"""One beam on a simple span from figures typed on the command line: the same checks as in a whole study."""

from beamcheck import units
from beamcheck.beam.model import Line
from beamcheck.catalogue.members import Member
from beamcheck.checks.beam import BeamDesign, Seat
from beamcheck.checks.lines import Loaded, load_line
from beamcheck.checks.wood import Bracing, Conditions
from beamcheck.frozen import dataclass
from beamcheck.study.materials import as_beam, check_any_beam, own_weight
from beamcheck.study.yardsticks import yardsticks
from beamcheck.tables import lookup
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import EDITIONS, Source
from beamcheck.trace import Item, Note, Sheet, Value


@dataclass(frozen=True, slots=True, eq=False)
class BeamAsked:
    """Options of one beam. unbraced: None if the top edge is held all along; bearing: None if it was not given."""

    edition: str
    unbraced: Value | None
    bearing: Value | None
    position: str
    at: Conditions


def beam_sheet(member: Member, span: Value, sources: tuple[Source, ...], asked: BeamAsked) -> Sheet:
    """A simple span with its checks. Raises InputError for a member that is no beam."""
    loaded = _loaded(as_beam(member, "--member"), span, sources, asked.edition)
    points = any(source.P is not None for source in sources)
    full = asked.unbraced is not None and abs(float(asked.unbraced.number) - float(span.number)) < 1e-6
    bracing = Bracing(asked.unbraced, "uniform" if full and not points else "any other")
    seat = Seat(asked.bearing, member.b)
    limits = (
        lookup("irc_2021/deflection", member="floors"),
        lookup("ibc_2021/deflection", member="floor member", load="D+L"),
    )
    design = BeamDesign(member, loaded, (seat, seat), bracing, Bracing(span), asked.position, asked.at, limits)
    parts: list[Item] = [*check_any_beam(design), *yardsticks(design)]
    if asked.bearing is None:
        parts += [
            loaded.greatest_push(support)[0].named(f"reaction at the {end} bearing")
            for support, end in enumerate(("left", "right"))
        ]
        parts.append(Note("Bearing is not checked: give --bearing, the length of beam that rests on each post."))
    parts += [Note(remark) for remark in member.remarks]
    return Sheet("beam", f"Beam: {member.text}, span {units.format_length(float(span.number))}", tuple(parts))


def _loaded(member: Member, span: Value, sources: tuple[Source, ...], edition: str) -> Loaded:
    sources = (*sources, Source("--member", "the beam itself", "D", w=own_weight(member)))
    present = frozenset(source.load_type for source in sources)
    line = Line((0.0, float(span.number)))
    return load_line(line, (span,), sources, combinations(EDITIONS[edition], present))
