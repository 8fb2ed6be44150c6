"""The beam's movement in inches, as the people who live under it will see it."""

from collections.abc import Iterator

from beamcheck.checks.beam import BeamDesign, creep, movement
from beamcheck.standards import nds_2018 as nds
from beamcheck.takedown.sources import LOAD_WORDS
from beamcheck.trace import Schedule, Value


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
