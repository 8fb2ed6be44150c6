"""How much a sawn beam loses of its depth as it dries in a heated house: an estimate beside its movements."""

from beamcheck.checks.beam import BeamDesign
from beamcheck.standards import wood_handbook_2010 as handbook
from beamcheck.tables import Row, lookup
from beamcheck.trace import Note, Value, looked


def depth_lost(design: BeamDesign) -> tuple[str, Value]:
    """From which moisture to which the depth shrinks, and by how much; its size counts as that before drying."""
    before, after = _stand_ins(design)
    lost = handbook.shrinkage(
        D_I=design.member.d,
        M_I=looked(before, "M", "M_I"),
        M_F=looked(after, "M", "M_F"),
        M_fs=looked(_moisture("fiber saturation"), "M", "M_fs"),
        S_T=design.member["S_T"],
    )
    return f"shrinks across its depth as it dries from {before.text('M')} % to {after.text('M')} % (estimate)", lost


def assumed(design: BeamDesign) -> Note:
    """What stands in for the moisture that nobody has measured, and what would change it."""
    told = (
        f"{row.text('M')} % {when}, {row.text('lean')}. What would change it: {row.text('flips')}."
        for when, row in zip(("as it is put in", "in the end"), _stand_ins(design), strict=True)
    )
    return Note(f"ASSUMED: the beam's moisture is not known. {' '.join(told)}")


def _stand_ins(design: BeamDesign) -> tuple[Row, Row]:
    return _moisture(str(design.member.kind)), _moisture("heated house")


def _moisture(state: str) -> Row:
    return lookup("wood_handbook_2010/moisture", state=state)
