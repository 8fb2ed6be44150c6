"""Combinations of one edition of ASCE 7: of allowable stress, with C_D of the shortest load, and of strength."""

from beamcheck.tables import load, lookup
from beamcheck.takedown.sources import LOAD_TYPES, Combination
from beamcheck.trace import Value, looked


def combinations(edition: str, present: frozenset[str]) -> tuple[Combination, ...]:
    """Combinations whose every load type is present, so that none borrows the duration of a load that is not there.

    edition: folder of the tables, asce7_16 or asce7_22; present: load types that act at all.
    """
    chosen = []
    for row in load(f"{edition}/combinations").rows:
        factors = {name: looked(row, name, f"g_{name}") for name in LOAD_TYPES if row.number(name) != 0}
        if not factors.keys() - {"D"} <= present:
            continue
        duration = lookup("nds_2018/duration", load=row.text("shortest"))
        chosen.append(Combination(_name(factors), factors, looked(duration, "C_D")))
    return tuple(chosen)


def strength_combinations(edition: str, present: frozenset[str]) -> tuple[Combination, ...]:
    """Strength combinations with the load types that are there, each with its time effect in the place of C_D.

    A type that does not act is left out of a combination that holds it; what is then said twice counts once.
    """
    found: dict[str, Combination] = {}
    for row in load(f"{edition}/strength").rows:
        factors = {name: looked(row, name, f"g_{name}") for name in LOAD_TYPES if row.number(name) and name in present}
        time = looked(lookup("nds_2018/lrfd_time", combination=row.text("time")), "lambda", "lambda_t")
        found.setdefault(_name(factors), Combination(_name(factors), factors, time))
    return tuple(found.values())


def _name(factors: dict[str, Value]) -> str:
    return " + ".join(name if g.number == 1 else f"{g.number:g} {name}" for name, g in factors.items())
