"""The beam's movement in inches, as the people who live under it will see it."""

from beamcheck.checks.beam import BeamDesign
from beamcheck.study.materials import movements
from beamcheck.trace import Schedule, Value


def yardsticks(design: BeamDesign) -> Schedule:
    """Inches by which each bay moves: when the shoring goes, under live load, and in the long run."""
    rows: tuple[tuple[str | Value, ...], ...] = tuple(
        (bay.label, when, down)
        for number, bay in enumerate(design.loaded.line.bays)
        for when, down in movements(design, number)
    )
    return Schedule(f"{design.key}.movement", "How far it moves", ("bay", "when", "down"), rows)
