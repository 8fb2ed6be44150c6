"""How far a stack of layers settles: each interface that is pressed across the grain goes down in proportion."""

from collections.abc import Iterable

from beamcheck.standards import statics
from beamcheck.tables import lookup
from beamcheck.trace import Check, Item, Schedule, Value, looked

_HEADS = ("layer", "share of its value across the grain", "goes down")


def settlement(key: str, crushed: Iterable[Check], gap: Value | None) -> tuple[Item, ...]:
    """Settlement of the interfaces between beam and ground, summed, beside the gap that may close, if one is given.

    crushed: the checks of the layers that are pressed across the grain, from the top.
    """
    s_0 = looked(lookup("nds_2018/bearing_deformation", deformation="0.04"), "deformation", "s_0")
    rows: list[tuple[str | Value, ...]] = []
    total: Value | None = None
    for check in crushed:
        u = statics.crush_share(f_c_perp=check.demand, F_c_perp_adj=check.limit)
        Delta = statics.plate_crush(u=u, s_0=s_0)
        total = Delta if total is None else statics.stack_settlement(Delta_above=total, Delta=Delta)
        rows.append((check.title, u, Delta))
    if total is None:
        return ()
    total = total.named("settlement of the layers, wood crushing only")
    table = Schedule(f"{key}.layers", "How far the layers go down", _HEADS, tuple(rows))
    if gap is None:
        return (table, total)
    return (table, Check(f"{key}.settlement", "Settlement of the layers beside the gap", total, gap))
