"""What the repetitive-member factor changes: bending with it beside bending without it, by the same clauses."""

from collections.abc import Iterator

from beamcheck.checks.beam import BeamDesign, bendings, governing
from beamcheck.checks.wood import repetitive
from beamcheck.frozen import replace
from beamcheck.standards import nds_2018 as nds
from beamcheck.trace import Check, Item, Schedule, Value

_HEADS = ("check", "C_r", "utilisation", "under")


def without_sharing(design: BeamDesign) -> tuple[Item, ...]:
    """A schedule of bending with the factor and without it; nothing where it was asked for in vain."""
    alone = replace(design, at=replace(design.at, sharing="no"))
    C_r = repetitive(design.member, design.at)
    if C_r.number == 1:
        return ()
    one = repetitive(alone.member, alone.at)
    rows = tuple(
        row
        for check, bare in zip(governing(_bent(design)), governing(_bent(alone)), strict=True)
        for row in (_row(check, C_r), _row(bare, one))
    )
    return (Schedule(f"{design.key}.sharing", "What the repetitive-member factor changes", _HEADS, rows),)


def _bent(design: BeamDesign) -> Iterator[Check]:
    return (check for check in bendings(design) if check.key.startswith(f"{design.key}.bending"))


def _row(check: Check, C_r: Value) -> tuple[str | Value, ...]:
    return check.title, C_r, nds.bending_share(f_b=check.demand, F_b_adj=check.limit), check.when
