"""Which deflection limits apply to the beam, and the beam's movement in inches beside the usual yardsticks."""

from collections.abc import Iterator

from beamcheck.checks.beam import BeamDesign, creep, movement
from beamcheck.standards import nds_2018 as nds
from beamcheck.survey.model import Survey
from beamcheck.tables import Row, lookup
from beamcheck.takedown.sources import LOAD_WORDS
from beamcheck.trace import Schedule, Value


def deflection_rows(survey: Survey) -> tuple[Row, ...]:
    """Rows of the deflection tables that apply to what the beam carries and to the finishes on it."""
    floors = any(item.kind == "floor" for item in survey.carried)
    rows = []
    if floors:
        rows.append(lookup("irc_2021/deflection", member="floors"))
    ceiling = {"plaster": "ceilings, plaster or stucco", "gypsum": "ceilings, gypsum board"}.get(
        survey.beam.ceiling_below
    )
    if ceiling and not (floors and ceiling.endswith("gypsum board")):
        rows.append(lookup("irc_2021/deflection", member=ceiling))
    if not rows:
        rows.append(lookup("irc_2021/deflection", member="all other structural members"))
    rows.append(lookup("ibc_2021/deflection", member="floor member", load="D+L"))
    if floors and survey.beam.floor_above == "stone":
        rows.append(lookup("practice/deflection", member="floor under stone"))
    strictest = {(row.text("load"), row.number("n")): row for row in reversed(rows)}
    return tuple(row for row in rows if row in strictest.values())


def yardsticks(design: BeamDesign) -> Schedule:
    """Inches by which each bay moves: when the shoring goes, under live load, and in the long run."""
    rows = tuple(row for number in range(len(design.loaded.line.bays)) for row in _movements(design, number))
    return Schedule("beam.movement", "How far it moves, in inches", ("bay", "when", "down"), rows)


def _movements(design: BeamDesign, number: int) -> Iterator[tuple[str | Value, ...]]:
    label = design.loaded.line.bays[number].label
    drop = movement(design, {"D": 1.0}, number)
    yield label, "when the temporary support is let go (dead load)", drop
    for name in design.loaded.transient:
        yield label, f"down and up again under {LOAD_WORDS[name]} load", movement(design, {name: 1.0}, number)
    nothing = movement(design, {}, number)
    total = nds.total_deflection(K_cr=creep(design), delta_LT=drop, delta_ST=nothing)
    yield label, "after years, with creep (dead load)", total
