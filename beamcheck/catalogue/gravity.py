"""Specific gravity of a member's wood: how hard dowels bear in it."""

from beamcheck.catalogue.members import Member
from beamcheck.tables import lookup
from beamcheck.trace import Looked, Value, looked


def specific_gravity(member: Member) -> Value:
    """G by species, or by product for glued wood; of unknown wood the lowest."""
    if "G" in member.figures:
        return member.figures["G"]
    assert member.density is not None and isinstance(member.density.origin, Looked)
    row = member.density.origin.row
    if row.has("G"):
        return looked(row, "G")
    return looked(lookup("scl_generic/dowel_gravity", material=row.text("material")), "G")
