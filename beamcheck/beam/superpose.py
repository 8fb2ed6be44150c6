"""One curve for each load type and bay, and their sums."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from beamcheck.beam.chart import breaks
from beamcheck.beam.model import Line, Load, Point, Settlement, Spread
from beamcheck.beam.patterns import by_bay
from beamcheck.beam.peaks import BarePiece, Curve, runs
from beamcheck.beam.solver import curve

EVERYWHERE = -1
"""Stands for a bay where a load lies on the whole line in every pattern."""


Figures = tuple[float, ...]
"""What adds up under superposition, in one row: M, EI theta, EI y, q, slope of q, V at the start, V at the end of each
piece; M, EI theta, EI y at the end of the line; the reactions. So ten figures from ``STRIDE * k`` on tell piece k."""

STRIDE = 7
_END = 3


class Section(NamedTuple):
    """A support: its station, and where V on its left, V on its right and its reaction stand in a row of figures."""

    station: float
    left: int | None
    right: int | None
    reaction: int


class Grid(NamedTuple):
    """Where the pieces of a line start and end, and which of them start at the supports, as ``Curve.at`` says."""

    spans: list[tuple[float, float]]
    at: list[int]

    @property
    def stations(self) -> list[float]:
        """Ends of the pieces, from the start of the line to its end."""
        return [self.spans[0][0], *[end for _, end in self.spans]]

    @property
    def bays(self) -> list[tuple[int, int]]:
        """The numbers of the first piece of each bay and of the one after its last."""
        return runs(self.at, len(self.spans))

    @property
    def reactions(self) -> int:
        """Where the reactions begin in a row of figures."""
        return STRIDE * len(self.spans) + _END

    @property
    def sections(self) -> list[Section]:
        """The supports, from the left."""
        stations, last = self.stations, len(self.spans)
        return [
            Section(
                stations[k], STRIDE * k - 1 if k else None, STRIDE * k + 5 if k < last else None, self.reactions + i
            )
            for i, k in enumerate(self.at)
        ]


def grid(line: Line, inner: Sequence[float]) -> Grid:
    """The line broken at its supports and at ``inner`` stations."""
    stations = sorted({line.start, *line.supports, *inner, line.end})
    return Grid(list(pairwise(stations)), [stations.index(support) for support in line.supports])


class Unit(NamedTuple):
    """One load type on one bay (or EVERYWHERE), at factor one, solved.

    ``pushes`` says for each bay whether this load bends all of it down (1), all of it up (-1), or neither (0).
    """

    bay: int
    loads: tuple[Load, ...]
    figures: Figures
    pushes: tuple[int, ...]


class Units(NamedTuple):
    """The solved parts of a line; all break at the stations of ``grid``."""

    grid: Grid
    by_type: Mapping[str, tuple[Unit, ...]]

    @property
    def nothing(self) -> Figures:
        """The figures of the unloaded line."""
        return (0.0,) * (self.grid.reactions + len(self.grid.at))


def units(line: Line, loads: Mapping[str, Sequence[Load]], permanent: Collection[str]) -> Units:
    """Solve each load type that is not permanent bay by bay, the others (and settlements) whole."""
    bays = line.bays
    stations = breaks(line, [load for part in loads.values() for load in part])
    broken = grid(line, stations)
    solved: dict[str, tuple[Unit, ...]] = {}
    for type_, part in loads.items():
        whole = [load for load in part if type_ in permanent or isinstance(load, Settlement)]
        parts = [(EVERYWHERE, whole)]
        if type_ not in permanent:
            parts += enumerate(by_bay(part, bays))
        solved[type_] = tuple(
            [
                Unit(bay, tuple(some), flat(curve(line, some, stations)), _pushes(some, bay, len(bays)))
                for bay, some in parts
                if some
            ]
        )
    return Units(broken, solved)


def _pushes(loads: Sequence[Load], bay: int, bays: int) -> tuple[int, ...]:
    """Say which bays the loads of one bay bend: down the bay itself and every second from it, up those between.

    For away from the load each moment over a support is less than half the one before, of the other sign.
    """
    if bay == EVERYWHERE:
        return ()
    forces = [force for load in loads for force in load[1 if isinstance(load, Point) else 2 :]]
    way = 1 if min(forces) >= 0.0 else -1 if max(forces) <= 0.0 else 0
    return tuple([-way if (i - bay) % 2 else way for i in range(bays)])


def flat(curve: Curve) -> Figures:
    """Every figure of a curve that adds up under superposition, in one row."""
    row: list[float] = []
    for piece in curve.pieces:
        row += piece[2:9]
    return (*row, *curve.pieces[-1][9:], *curve.reactions)


def alone(line: Line, load: Load, broken: Grid) -> Figures:
    """The line under one load, broken as the grid is."""
    return flat(curve(line, (load,), broken.stations[1:-1]))


def own_weight(line: Line, broken: Grid) -> Figures:
    """The line under a weight of its own of 1 lb/in, overhangs and all."""
    return alone(line, Spread(line.start, line.end, 1.0, 1.0), broken)


def columns(lo: int, hi: int) -> tuple[slice, ...]:
    """Where q, slope, V, V1, M, M1, T, T1, Y, Y1 of the pieces from ``lo`` to ``hi`` stand in a row: see ``Pieces``."""
    return tuple([slice(STRIDE * lo + k, STRIDE * (hi - 1) + k + 1, STRIDE) for k in (3, 4, 5, 6, 0, 7, 1, 8, 2, 9)])


def rolled(broken: Grid, figures: Figures) -> list[BarePiece]:
    """The pieces whose ``flat`` row is given."""
    begins = range(0, STRIDE * len(broken.spans), STRIDE)
    return [span + figures[k : k + 10] for span, k in zip(broken.spans, begins, strict=True)]  # type: ignore[misc]


def added(figures: Figures, factor: float, unit: Unit) -> Figures:
    """A row plus a unit's row times a factor."""
    return tuple([a + factor * b for a, b in zip(figures, unit.figures, strict=True)])


def multiplied(factor: float, unit: Unit) -> Figures:
    """A unit's row times a factor; the row itself where that is one."""
    return unit.figures if factor == 1.0 else tuple([factor * b for b in unit.figures])


def scaled(load: Load, factor: float) -> Load:
    """The load times a factor."""
    if isinstance(load, Point):
        return Point(load.station, factor * load.force)
    if isinstance(load, Spread):
        return Spread(load.start, load.end, factor * load.first, factor * load.last)
    return Settlement(load.support, factor * load.EI_drop)
