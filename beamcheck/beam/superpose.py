"""One curve for each load type and bay, and their sums."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from itertools import chain
from typing import NamedTuple

from beamcheck.beam.chart import breaks
from beamcheck.beam.model import Line, Load, Point, Settlement, Spread
from beamcheck.beam.patterns import by_bay
from beamcheck.beam.peaks import Curve, deflection_peaks, runs
from beamcheck.beam.solver import blank_curve, curve

EVERYWHERE = -1
"""Stands for a bay where a load lies on the whole line in every pattern."""


class Unit(NamedTuple):
    """One load type on one bay (or EVERYWHERE), at factor one, solved.

    ``figures`` as in ``flat``; ``pushes`` says for each bay whether this load bends all of it down (1), all of it up
    (-1), or neither (0).
    """

    bay: int
    loads: tuple[Load, ...]
    figures: list[float]
    pushes: tuple[int, ...]


class Units(NamedTuple):
    """The solved parts of a line; all curves break at the same stations. ``blank`` is the line without load."""

    blank: Curve
    by_type: Mapping[str, tuple[Unit, ...]]

    @property
    def nothing(self) -> list[float]:
        """The figures of the unloaded line."""
        return [0.0] * sum(map(len, self.blank[2:]))


def units(line: Line, loads: Mapping[str, Sequence[Load]], permanent: Collection[str]) -> Units:
    """Solve each load type that is not permanent bay by bay, the others (and settlements) whole."""
    bays = line.bays
    stations = breaks(line, [load for part in loads.values() for load in part])
    solved: dict[str, tuple[Unit, ...]] = {}
    for type_, part in loads.items():
        whole = [load for load in part if type_ in permanent or isinstance(load, Settlement)]
        parts = [(EVERYWHERE, whole)]
        if type_ not in permanent:
            parts += enumerate(by_bay(part, bays))
        solved[type_] = tuple([_unit(line, bay, some, stations) for bay, some in parts if some])
    return Units(blank_curve(line, stations), solved)


def _unit(line: Line, bay: int, loads: list[Load], stations: list[float]) -> Unit:
    solved = curve(line, loads, stations)
    pushes = []
    for lo, hi in runs(solved) if bay != EVERYWHERE else ():
        (down, _), (up, _) = deflection_peaks(solved, lo, hi)
        pushes.append(1 if up >= 0.0 else -1 if down <= 0.0 else 0)
    return Unit(bay, tuple(loads), flat(solved), tuple(pushes))


def flat(curve: Curve) -> list[float]:
    """Every column of a curve that adds up under superposition, in one row."""
    return list(chain(*curve[2:]))


def columns(n: int) -> tuple[int, ...]:
    """Where q0, slope, V0, V1, and M, T, Y at the start and at the end of the first of ``n`` pieces stand in a row."""
    M, T, Y = 4 * n, 5 * n + 1, 6 * n + 2
    return 0, n, 2 * n, 3 * n, M, M + 1, T, T + 1, Y, Y + 1


def rolled(blank: Curve, figures: list[float]) -> Curve:
    """The curve whose ``flat`` row is given, on the stations of ``blank``."""
    n = len(blank.q0)
    M, T, Y, R = 4 * n, 5 * n + 1, 6 * n + 2, 7 * n + 3
    pieces = figures[:n], figures[n : 2 * n], figures[2 * n : 3 * n], figures[3 * n : M]
    return tuple.__new__(
        Curve, (blank.stations, blank.at, *pieces, figures[M:T], figures[T:Y], figures[Y:R], figures[R:])
    )


def added(figures: list[float], factor: float, unit: Unit) -> list[float]:
    """A row plus a unit's row times a factor."""
    return [a + factor * b for a, b in zip(figures, unit.figures, strict=True)]


def multiplied(factor: float, unit: Unit) -> list[float]:
    """A unit's row times a factor; the row itself where that is one."""
    return unit.figures if factor == 1.0 else [factor * b for b in unit.figures]


def scaled(load: Load, factor: float) -> Load:
    """The load times a factor."""
    if isinstance(load, Point):
        return Point(load.station, factor * load.force)
    if isinstance(load, Spread):
        return Spread(load.start, load.end, factor * load.first, factor * load.last)
    return Settlement(load.support, factor * load.EI_drop)
