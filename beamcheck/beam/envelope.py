"""Load types, combinations and live load patterns on one line: what governs, where, and under which pattern.

Moments of a prismatic line do not depend on EI, so one curve per load type and bay is enough; every case is their sum.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from beamcheck.beam.model import Line, Load
from beamcheck.beam.patterns import Mask, masks
from beamcheck.beam.peaks import Curve, Pair, run_peaks, runs
from beamcheck.beam.response import Response
from beamcheck.beam.superpose import EVERYWHERE, Units, added, rolled, scaled, units
from beamcheck.errors import OutOfRange

MOST_BAYS = 8
"""Six spans and two overhangs: 256 patterns a combination."""


class Combination(NamedTuple):
    """Load types with their factors, summed; a type that is not named takes no part."""

    name: str
    factors: Mapping[str, float]


class Governing(NamedTuple):
    """The value that governs, with its sign, its station, and the case that makes it."""

    value: float
    station: float
    combination: str
    mask: Mask


class CombinationPeaks(NamedTuple):
    """What governs under one combination, over all its patterns.

    By bay: ``sagging`` and ``hogging`` (greatest and least moment), ``shear`` (of the greatest size, with its sign),
    ``EI_down`` and ``EI_up`` (greatest and least deflection times EI). By support: shear of the greatest size on its
    left and on its right face, greatest and least reaction (below zero: the beam lifts off).
    """

    combination: str
    masks: tuple[Mask, ...]
    sagging: tuple[Governing, ...]
    hogging: tuple[Governing, ...]
    shear: tuple[Governing, ...]
    EI_down: tuple[Governing, ...]
    EI_up: tuple[Governing, ...]
    shear_left: tuple[Governing, ...]
    shear_right: tuple[Governing, ...]
    most_reaction: tuple[Governing, ...]
    least_reaction: tuple[Governing, ...]


@dataclass(frozen=True, slots=True)
class Envelope:
    """A line under all its combinations and patterns; ``peaks`` has one entry a combination, in the order given."""

    line: Line
    combinations: tuple[Combination, ...]
    units: Units
    peaks: tuple[CombinationPeaks, ...]

    def under(self, combination: str) -> CombinationPeaks:
        """The peaks of the combination of that name."""
        return self.peaks[self._number(combination)]

    def response(self, combination: str, mask: Mask) -> Response:
        """One case of the envelope in full: V and M at any station, diagrams, reactions, residual.

        Raises OutOfRange for a combination or a bay that there is not.
        """
        factors = self.combinations[self._number(combination)].factors
        count = len(self.line.bays)
        if not all(0 <= bay < count for bay in mask):
            raise OutOfRange(f"mask {mask}: the beam has {count} bays\n  count them from 0, from the left")
        parts = [
            (factor, unit)
            for type_, factor in factors.items()
            for unit in self.units.by_type.get(type_, ())
            if unit.bay == EVERYWHERE or unit.bay in mask
        ]
        loads = tuple(scaled(load, factor) for factor, unit in parts for load in unit.loads)
        figures = self.units.nothing
        for factor, unit in parts:
            figures = added(figures, factor, unit)
        return Response(self.line, loads, rolled(self.units.blank, figures))

    def _number(self, combination: str) -> int:
        names = [name for name, _ in self.combinations]
        if combination not in names:
            raise OutOfRange(f"combination {combination!r}: not in this envelope\n  it has {', '.join(names)}")
        return names.index(combination)


def envelope(
    line: Line,
    loads: Mapping[str, Sequence[Load]],
    combinations: Iterable[Combination],
    permanent: Collection[str] = ("D",),
) -> Envelope:
    """Every combination under every pattern of its transient loads.

    Loads of a type in ``permanent`` lie on all bays always. All other types come and go together, bay by bay; a spread
    load is cut at the supports for that. Settlements stay in every pattern. Deflection limits take combinations too.
    Raises OutOfRange if a load lies off the beam or the line has more than MOST_BAYS bays.
    """
    count = len(line.bays)
    if count > MOST_BAYS:
        raise OutOfRange(f"beam line: {count} bays, patterns are tried for {MOST_BAYS} at most\n  split the line")
    named = tuple(Combination(*combination) for combination in combinations)
    parts = units(line, loads, permanent)
    return Envelope(line, named, parts, tuple(_governing(parts, combination) for combination in named))


def shares(parts: Units, combination: Combination) -> tuple[list[float], dict[int, list[float]]]:
    """What a combination puts on the line: the figures that are always there, and those of each bay that may be left."""
    always = parts.nothing
    live: dict[int, list[float]] = {}
    for type_, factor in combination.factors.items():
        for unit in parts.by_type.get(type_, ()) if factor else ():
            if unit.bay == EVERYWHERE:
                always = added(always, factor, unit)
            else:
                live[unit.bay] = added(live.get(unit.bay, parts.nothing), factor, unit)
    return always, dict(sorted(live.items()))


def cases(always: list[float], live: Mapping[int, list[float]]) -> dict[Mask, list[float]]:
    """The figures of each pattern; patterns that differ only in bays without transient load come once."""
    solved: dict[Mask, list[float]] = {}
    for mask in masks(tuple(live)):
        if mask:
            solved[mask] = [a + b for a, b in zip(solved[mask[:-1]], live[mask[-1]], strict=True)]
        else:
            solved[mask] = always
    return solved


def _governing(parts: Units, combination: Combination) -> CombinationPeaks:
    always, live = shares(parts, combination)
    solved = cases(always, live)
    tried, name = tuple(solved), combination.name
    curves = [rolled(parts.blank, figures) for figures in solved.values()]
    columns: list[list[Governing]] = [[], [], [], [], []]
    for lo, hi in runs(parts.blank):
        found = zip(*[run_peaks(curve, lo, hi) for curve in curves], strict=True)
        for column, pairs, choose in zip(columns, found, _CHOICES, strict=True):
            value, station = pair = choose(pairs)
            column.append(Governing(value, station, name, tried[pairs.index(pair)]))
    faces = _at_supports(parts.blank, name, always, live)
    return CombinationPeaks(name, tried, *map(tuple, columns), *map(tuple, faces))


def _largest(pairs: Iterable[Pair]) -> Pair:
    """Choose the pair whose value is of the greatest size."""
    return max(pairs, key=lambda pair: abs(pair[0]))


_CHOICES: tuple[Callable[[Iterable[Pair]], Pair], ...] = (max, min, _largest, max, min)


def _at_supports(
    blank: Curve, name: str, always: list[float], live: Mapping[int, list[float]]
) -> tuple[list[Governing], ...]:
    """Find the shear left and right of each support, and its greatest and least reaction.

    At one section the worst pattern is the sum of all that push one way: none need be tried.
    """
    left: list[Governing] = []
    right: list[Governing] = []
    most: list[Governing] = []
    least: list[Governing] = []
    n = len(blank.q0)
    for i, k in enumerate(blank.at):
        station = blank.stations[k]
        for column, index in (left, 3 * n + k - 1 if k else -1), (right, 2 * n + k if k < n else -1):
            high, low = _extremes(always, live, index) if index >= 0 else _NO_FACE
            value, mask = high if high[0] >= -low[0] else low
            column.append(Governing(value, station, name, mask))
        (high_R, pushers), (low_R, pullers) = _extremes(always, live, 7 * n + 3 + i)
        most.append(Governing(high_R, station, name, pushers))
        least.append(Governing(low_R, station, name, pullers))
    return left, right, most, least


_NO_FACE: tuple[tuple[float, Mask], tuple[float, Mask]] = (0.0, ()), (0.0, ())


def _extremes(
    always: list[float], live: Mapping[int, list[float]], index: int
) -> tuple[tuple[float, Mask], tuple[float, Mask]]:
    """Add up all that push one figure up, and all that push it down, with the bays that do."""
    high = low = always[index]
    pushers: Mask = ()
    pullers: Mask = ()
    for bay, figures in live.items():
        push = figures[index]
        if push > 0.0:
            high += push
            pushers += (bay,)
        elif push < 0.0:
            low += push
            pullers += (bay,)
    return (high, pushers), (low, pullers)
