"""From loads to events: what changes along the beam, station by station, bay by bay."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from math import isfinite
from typing import NamedTuple

from beamcheck.beam.model import NEAR, Line, Load, Point, Settlement, Spread, inch
from beamcheck.errors import OutOfRange

Event = tuple[float, float, float, float, int]
"""At a station: a force, a step of the line load, one of its slope; spread loads that start, less those that end."""


class Chart(NamedTuple):
    """Loads laid out on the beam, one entry a bay: bay i runs from ``cuts[i]`` to ``cuts[i + 1]``.

    ``force`` and ``moment`` are the resultant of the bay's loads and its moment about the start of the bay. By support:
    ``over`` is the force right over it, which bends nothing, ``drop`` is EI times its settlement.
    """

    cuts: list[float]
    first_span: int
    events: list[list[Event]]
    force: list[float]
    moment: list[float]
    over: list[float]
    drop: list[float]


def chart(line: Line, loads: Iterable[Load], more: Sequence[float] = ()) -> Chart:  # noqa: C901  (as quick as can be)
    """Lay the loads out on the beam, with ``more`` stations as events of their own.

    Raises OutOfRange if a load lies off the beam or has no length.
    """
    laid = _blank(line)
    cuts, _, events, force, moment, over, _ = laid
    supports, start, second, end = line.supports, cuts[0], cuts[1], cuts[-1]
    here, lump, turn = events[0], 0.0, 0.0  # sums of the first bay, which mostly is the only one
    for load in loads:
        if isinstance(load, Point):
            station, P = load
            if not start <= station <= end:
                station = _on_beam("point load", station, line)
            if station in supports:
                over[supports.index(station)] += P
            elif station <= second:
                here.append((station, P, 0.0, 0.0, 0))
                lump += P
                turn += P * (station - start)
            else:
                i = bisect_left(cuts, station) - 1
                events[i].append((station, P, 0.0, 0.0, 0))
                force[i] += P
                moment[i] += P * (station - cuts[i])
        elif isinstance(load, Spread):
            left, right, first, last = load if start <= load[0] < load[1] <= end else _spread_on(load, line)
            if right <= second:
                P, M = _lay(here, start, (left, right, first, last))
                lump += P
                turn += M
            else:
                _cut(laid, left, right, first, last)
        else:
            _sink(load, laid.drop)
    force[0] += lump
    moment[0] += turn
    for station in more:
        i = min(max(bisect_left(cuts, station) - 1, 0), len(events) - 1)
        events[i].append((station, 0.0, 0.0, 0.0, 0))
    return laid


def _blank(line: Line) -> Chart:
    supports = line.supports
    cuts = [*supports]
    hang = 0
    if line.left_overhang and line.start < cuts[0]:
        cuts.insert(0, line.start)
        hang = 1
    if line.right_overhang and line.end > cuts[-1]:
        cuts.append(line.end)
    posts, bays = [0.0] * len(supports), [0.0] * (len(cuts) - 1)
    events: list[list[Event]] = [[]] if len(bays) == 1 else [[] for _ in bays]
    return tuple.__new__(Chart, (cuts, hang, events, bays, bays[:], posts, posts[:]))  # half the time of a call by name


def breaks(line: Line, loads: Iterable[Load]) -> list[float]:
    """The stations between the ends of the beam where any of the loads starts, ends or stands."""
    start, end = line.start, line.end
    stations = set()
    for load in loads:
        if isinstance(load, Point):
            stations.add(load.station)
        elif isinstance(load, Spread):
            stations.update((load.start, load.end))
    return sorted(station for station in stations if start < station < end)


def _lay(events: list[Event], origin: float, stretch: tuple[float, float, float, float]) -> tuple[float, float]:
    """Put a spread load that lies within one bay there; its resultant, and the moment of that about the origin."""
    start, end, first, last = stretch
    run = end - start
    slope = (last - first) / run if first != last else 0.0
    events += ((start, 0.0, first, slope, 1), (end, 0.0, -last, -slope, -1))
    lump = 0.5 * run * (first + last)
    return lump, lump * (0.5 * (start + end) - origin) + slope * run * run * run / 12.0


def _cut(laid: Chart, start: float, end: float, first: float, last: float) -> None:
    """Put a spread load that may cross supports into its bays."""
    cuts, _, events, force, moment, _, _ = laid
    slope = (last - first) / (end - start)
    for i, left in enumerate(cuts[:-1]):
        right = cuts[i + 1]
        if left < end and start < right:
            begin = first + slope * (left - start) if left > start else first
            finish = last - slope * (end - right) if right < end else last
            lump, turn = _lay(events[i], left, (max(start, left), min(end, right), begin, finish))
            force[i] += lump
            moment[i] += turn


def _sink(load: Settlement, drop: list[float]) -> None:
    if not 0 <= load.support < len(drop):
        msg = (
            f"settlement: the beam has no support number {load.support}\n"
            f"  count the {len(drop)} supports from 0, from the left"
        )
        raise OutOfRange(msg)
    drop[load.support] += load.EI_drop


def unreadable(loads: Iterable[Load]) -> OutOfRange:
    """The complaint about the load that is not a number."""
    for load in loads:
        if isinstance(load, Point) and not isfinite(load.force):
            return OutOfRange(f"point load at {inch(load.station)}: a force of {load.force} lb\n  give a finite force")
        if isinstance(load, Spread) and not isfinite(load.first + load.last):
            return OutOfRange(
                f"line load from {inch(load.start)} to {inch(load.end)}: {load.first} to {load.last} lb/in\n"
                "  give finite line loads"
            )
        if isinstance(load, Settlement) and not isfinite(load.EI_drop):
            return OutOfRange(f"settlement: EI_drop = {load.EI_drop}\n  give EI times the drop, in lb*in^3")
    return OutOfRange("loads: their sum is not a number\n  give loads and stations of the size of a house")


def _spread_on(load: Spread, line: Line) -> Spread:
    where = f"line load from {inch(load.start)} to {inch(load.end)}"
    if not load.start < load.end:
        raise OutOfRange(f"{where}: has no length\n  let it end right of its start, or give a point load")
    return Spread(_on_beam(where, load.start, line), _on_beam(where, load.end, line), load.first, load.last)


def _on_beam(what: str, station: float, line: Line) -> float:
    """The station, brought back onto the beam if it is off by rounding only."""
    start, end = line.start, line.end
    slack = NEAR * (end - start)
    if not start - slack <= station:
        raise OutOfRange(
            f"{what}: station {inch(station)} is before the start of the beam at {inch(start)}\n"
            "  move the load, or give the beam a left overhang"
        )
    if not station <= end + slack:
        raise OutOfRange(
            f"{what}: station {inch(station)} is beyond the end of the beam at {inch(end)}\n"
            "  move the load, or give the beam a right overhang"
        )
    return min(max(station, start), end)
