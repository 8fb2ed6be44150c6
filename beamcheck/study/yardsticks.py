"""The beam's movement in inches, as the people who live under it will see it."""

from beamcheck.catalogue.members import Kind
from beamcheck.checks.beam import BeamDesign
from beamcheck.study.materials import movements
from beamcheck.trace import Item, Schedule, Value

_Row = tuple[str | Value, ...]


def yardsticks(design: BeamDesign) -> tuple[Item, ...]:
    """Inches by which each bay moves: when the shoring goes, under live load, in the long run, and by drying."""
    bays = [bay.label for bay in design.loaded.line.bays]
    rows: list[_Row] = [(bay, *moved) for number, bay in enumerate(bays) for moved in movements(design, number)]
    dried, told = _dried(design, bays)
    return (Schedule(f"{design.key}.movement", "How far it moves", ("bay", "when", "down"), (*rows, *dried)), *told)


def _dried(design: BeamDesign, bays: list[str]) -> tuple[list[_Row], tuple[Item, ...]]:
    """What a sawn beam loses of its depth, the same in every bay, and what that leans on; glued ones are made dry."""
    if design.member.kind not in (Kind.DIMENSION, Kind.TIMBER) or design.at.moisture == "wet":
        return [], ()
    from beamcheck.checks.drying import assumed, depth_lost

    lost = depth_lost(design)
    return [(bay, *lost) for bay in bays], (assumed(design),)
