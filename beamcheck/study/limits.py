"""Which deflection limits apply to the beam, and the beam's movement in inches beside the usual yardsticks."""

from beamcheck.checks.beam import BeamDesign, creep, movement
from beamcheck.standards import nds_2018 as nds
from beamcheck.survey.model import Survey
from beamcheck.tables import Row, lookup
from beamcheck.trace import Schedule, Value


def deflection_rows(survey: Survey) -> tuple[Row, ...]:
    """Rows of the deflection tables that apply to what the beam carries and to the finishes on it."""
    floors = any(item.kind == "floor" for item in survey.carried)
    rows = []
    if floors:
        rows.append(lookup("irc_2021/deflection", member="floors"))
    ceiling = {"plaster": "ceilings, plaster or stucco", "gypsum": "ceilings, gypsum board"}.get(survey.beam.ceiling_below)
    if ceiling and not (floors and ceiling.endswith("gypsum board")):
        rows.append(lookup("irc_2021/deflection", member=ceiling))
    if not rows:
        rows.append(lookup("irc_2021/deflection", member="all other structural members"))
    rows.append(lookup("ibc_2021/deflection", member="floor member", load="D+L"))
    if floors and survey.beam.floor_above == "stone":
        rows.append(lookup("practice/deflection", member="floor under stone"))
    return tuple(rows)


def yardsticks(design: BeamDesign) -> Schedule:
    """Inches by which each bay moves: when the shoring goes, under live load, and in the long run."""
    rows: list[tuple[str | Value, ...]] = []
    for number, bay in enumerate(design.loaded.line.bays):
        drop = movement(design, {"D": 1.0}, number)
        rows.append((bay.label, "when the temporary support is let go (dead load)", drop))
        for name in design.loaded.transient:
            rows.append((bay.label, f"up and down under {name}", movement(design, {name: 1.0}, number)))
        nothing = movement(design, {}, number)
        rows.append((bay.label, "after years of creep (dead load)", nds.total_deflection(K_cr=creep(design), delta_LT=drop, delta_ST=nothing)))
    return Schedule("beam.movement", "How far it moves, in inches", ("bay", "when", "down"), tuple(rows))
