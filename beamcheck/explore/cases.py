"""The cases of a line in many lanes: every load by itself, load types, combinations, and their worst patterns."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beamcheck.beam.many import Floats, deflection_peaks, force_peaks, moment_rise
from beamcheck.beam.model import BayKind
from beamcheck.beam.moved import Points, Spreads
from beamcheck.beam.patterns import Mask, masks
from beamcheck.explore.rows import EVERYWHERE, Rows
from beamcheck.takedown.sources import LOAD_TYPES, Source
from beamcheck.trace import Num, Value

_SHORTEST = 1e-3  # in: a line load that a lane would turn round keeps this length


Lit = NDArray[np.bool_]
"""In which lanes something holds."""


class Laid(NamedTuple):
    """A source laid out: its load type, its size in every lane, and the number of the shape that it has."""

    load_type: str
    size: Num
    shape: int


class Case(NamedTuple):
    """A combination: factors by type, rows that are always there, and rows of each bay that may be left."""

    factors: dict[str, float]
    always: Floats
    live: dict[int, Floats]


class Single(NamedTuple):
    """Worst of one load type alone, by bay: EI y down and up, and the moment that bends it by shear."""

    down: list[Floats]
    up: list[Floats]
    rise: list[Floats]


class Cases:
    """The bays of a line and all that lies on it, at sizes and stations that differ from lane to lane.

    shear_bends: whether deflection has a part by shear, so that moments of each load type are asked for.
    """

    def __init__(
        self, kinds: tuple[BayKind, ...], cuts: tuple[Floats, ...], sources: tuple[Source, ...], *, shear_bends: bool
    ) -> None:
        self.shapes, self.laid = _lay(sources, cuts)
        self.rows = Rows(kinds, cuts, self.shapes)
        self._units: dict[tuple[int, int], Floats] = {}
        self._sums: dict[tuple[str, int], Floats | None] = {}
        self._shear_bends = shear_bends

    @property
    def transient(self) -> tuple[str, ...]:
        """The load types that act and are not dead load."""
        present = {laid.load_type for laid in self.laid}
        return tuple(name for name in LOAD_TYPES if name != "D" and name in present)

    def unit(self, shape: int, bay: int) -> Floats:
        """The line under one load at unit size, or under the part of it that lies in one bay."""
        if (shape, bay) not in self._units:
            self._units[shape, bay] = self.rows.unit(self.shapes[shape], bay)
        return self._units[shape, bay]

    def _sum(self, load_type: str, bay: int) -> Floats | None:
        """Rows of one load type, all of it or what lies in one bay; None where no lane has any there."""
        if (load_type, bay) not in self._sums:
            sizes: dict[int, Num] = {}
            for laid in self.laid:
                if laid.load_type == load_type and self.rows.reaches(self.shapes[laid.shape], bay):
                    sizes[laid.shape] = sizes.get(laid.shape, 0.0) + laid.size
            rows = [size * self.unit(shape, bay) for shape, size in sizes.items()]
            self._sums[load_type, bay] = sum(rows[1:], rows[0]) if rows else None
        return self._sums[load_type, bay]

    def _live(self, load_type: str) -> dict[int, Floats]:
        """Rows of one transient load type by the bay in which it lies."""
        bays = range(len(self.rows.kinds))
        return {bay: rows for bay in bays if (rows := self._sum(load_type, bay)) is not None}

    def case(self, factors: dict[str, float]) -> Case:
        """One combination of load types with their factors."""
        dead = self._sum("D", EVERYWHERE)
        assert dead is not None
        always = factors.get("D", 0.0) * dead[self.rows.forces]
        live: dict[int, Floats] = {}
        for name in self.transient:
            for bay, rows in self._live(name).items() if factors.get(name) else ():
                added = factors[name] * rows[self.rows.forces]
                live[bay] = live[bay] + added if bay in live else added
        return Case(factors, always, live)

    def patterns(self, case: Case) -> Iterator[Floats]:
        """The rows of every choice of bays that carry transient load."""
        solved: dict[Mask, Floats] = {(): case.always}
        yield case.always
        for mask in masks(tuple(case.live))[1:]:
            solved[mask] = solved[mask[:-1]] + case.live[mask[-1]]
            yield solved[mask]

    def greatest(self, case: Case) -> tuple[Floats, Floats, Floats]:
        """Greatest and least moment and greatest size of shear over all patterns and bays."""
        found = [
            force_peaks(self.rows.of_bay(rows, bay))
            for rows in self.patterns(case)
            for bay in range(len(self.rows.kinds))
        ]
        top, low, size = zip(*found, strict=True)
        return np.max(top, axis=0), np.min(low, axis=0), np.max(size, axis=0)

    def alone(self, name: str) -> Single:
        """The worst patterns of one load type alone."""
        bays = range(len(self.rows.kinds))
        if name == "D":
            dead = self._sum("D", EVERYWHERE)
            parts = {} if dead is None else {EVERYWHERE: dead}
        else:
            parts = self._live(name)
        down_only = all(np.all(laid.size >= 0.0) for laid in self.laid if laid.load_type == name)
        nothing = [np.zeros(self.rows.cuts[0].shape) for _ in bays]
        single = Single(list(nothing), list(nothing), [self._rise(parts, bay) for bay in bays])
        for mask in masks(tuple(parts))[1:]:
            rows = sum((parts[bay] for bay in mask[1:]), parts[mask[0]])
            for bay in bays:
                pieces = self.rows.of_bay(rows, bay)
                if down_only and name != "D" and not _worst(mask, tuple(parts), bay):
                    continue
                down, up = deflection_peaks(pieces)
                single.down[bay] = np.maximum(single.down[bay], down)
                single.up[bay] = np.minimum(single.up[bay], up)
        return single

    def _rise(self, parts: dict[int, Floats], bay: int) -> Floats:
        """The greatest moment of a bay beside those at its ends; of an overhang the greatest there is."""
        rows = parts.get(bay, parts.get(EVERYWHERE))
        if rows is None or not self._shear_bends:
            return np.zeros(self.rows.cuts[0].shape)
        pieces = self.rows.of_bay(rows, bay)
        if self.rows.kinds[bay] == "span":
            return moment_rise(pieces)
        top, low, _ = force_peaks(pieces)
        return np.maximum(top, -low)

    def in_bay(self, shape: Points, bay: int) -> Lit:
        """In which lanes a point goes with a bay: over a support with the one on its left."""
        start, end = self.rows.cuts[bay], self.rows.cuts[bay + 1]
        inside: Lit = ((shape.station > start) | (bay == 0)) & (shape.station <= end)
        return inside

    def extremes(self, case: Case, support: int, side: str) -> tuple[Floats, Floats] | None:
        """Greatest and least shear on a face over the patterns of a combination; None where the beam ends there."""
        base = self.rows.face(case.always, support, side)
        if base is None:
            return None
        pushes = [push for rows in case.live.values() if (push := self.rows.face(rows, support, side)) is not None]
        return _summed(base, pushes)

    def reactions(self, case: Case, support: int) -> tuple[Floats, Floats]:
        """Greatest and least reaction over the patterns of a combination."""
        pushes = [self.rows.reaction(rows, support) for rows in case.live.values()]
        return _summed(self.rows.reaction(case.always, support), pushes)


def _summed(base: Floats, pushes: list[Floats]) -> tuple[Floats, Floats]:
    """The base with all that pushes it up, and with all that pushes it down."""
    high = sum((np.maximum(push, 0.0) for push in pushes), base)
    low = sum((np.minimum(push, 0.0) for push in pushes), base)
    return high, low


def _worst(mask: Mask, loaded: Mask, bay: int) -> bool:
    """Whether a pattern of loads that all press down is the worst for the deflection of a bay, down or up.

    A load presses its own bay down, lifts the next, presses the one after that: each bay all over.
    """
    down = tuple(other for other in loaded if (other - bay) % 2 == 0)
    up = tuple(other for other in loaded if (other - bay) % 2)
    return mask in (down, up)


def _lay(sources: tuple[Source, ...], cuts: tuple[Floats, ...]) -> tuple[list[Points | Spreads], list[Laid]]:
    """The distinct shapes of the sources at unit size, and what each source puts on which of them."""
    shapes: list[Points | Spreads] = []
    numbers: dict[tuple[int, int], int] = {}
    laid: list[Laid] = []
    for source in sources:
        key = (id(source.station), 0) if source.P is not None else (id(source.start), id(source.end))
        if key not in numbers:
            numbers[key] = len(shapes)
            shapes.append(_shape(source, cuts))
        load = source.P.to("lb") if source.P is not None else source.w.to("lb/in") if source.w is not None else 0.0
        laid.append(Laid(source.load_type, load, numbers[key]))
    return shapes, laid


def _shape(source: Source, cuts: tuple[Floats, ...]) -> Points | Spreads:
    def kept(value: Value) -> Floats:
        return np.clip(np.broadcast_to(np.asarray(value.to("in"), dtype=np.float64), cuts[0].shape), cuts[0], cuts[-1])

    if source.P is not None:
        assert source.station is not None
        return Points(kept(source.station), 1.0)
    start = cuts[0] if source.start is None else np.minimum(kept(source.start), cuts[-1] - _SHORTEST)
    end = cuts[-1] if source.end is None else np.maximum(kept(source.end), start + _SHORTEST)
    return Spreads(start, end, 1.0, 1.0)
