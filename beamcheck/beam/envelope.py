"""Load types, combinations and live load patterns on one line: what governs, where, and under which pattern.

Moments of a prismatic line do not depend on EI, so one curve per load type and bay is enough; every case is their sum.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from beamcheck.beam.model import Line, Load
from beamcheck.beam.patterns import Mask, masks
from beamcheck.beam.peaks import Curve, run_peaks, runs
from beamcheck.beam.response import Response
from beamcheck.beam.superpose import EVERYWHERE, Units, added, multiplied, rolled, scaled, units
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
    rows: dict[int, list[float]] = {}
    for type_, factor in combination.factors.items():
        for unit in parts.by_type.get(type_, ()) if factor else ():
            row = rows.get(unit.bay)
            rows[unit.bay] = multiplied(factor, unit) if row is None else added(row, factor, unit)
    always = rows.pop(EVERYWHERE, parts.nothing)
    return always, dict(sorted(rows.items()))


def cases(always: list[float], live: Mapping[int, list[float]]) -> dict[Mask, list[float]]:
    """The figures of each pattern; patterns that differ only in bays without transient load come once."""
    solved: dict[Mask, list[float]] = {(): always}
    for mask in masks(tuple(live))[1:]:
        solved[mask] = [a + b for a, b in zip(solved[mask[:-1]], live[mask[-1]], strict=True)]
    return solved


def _governing(parts: Units, combination: Combination) -> CombinationPeaks:
    always, live = shares(parts, combination)
    solved = cases(always, live)
    tried, name = tuple(solved), combination.name
    curves = [rolled(parts.blank, figures) for figures in solved.values()]
    bays = [_worst(curves, tried, name, lo, hi) for lo, hi in runs(parts.blank)]
    supports = [_at_support(parts.blank, i, name, always, live) for i in range(len(parts.blank.at))]
    return CombinationPeaks(name, tried, *zip(*bays, strict=True), *zip(*supports, strict=True))


def _worst(curves: list[Curve], tried: tuple[Mask, ...], name: str, lo: int, hi: int) -> tuple[Governing, ...]:
    """Choose the worst patterns of one bay: sagging, hogging, shear, down, up."""
    top, low, shear, down, up = run_peaks(curves[0], lo, hi)
    t = l = s = d = u = 0
    for k in range(1, len(curves)):
        peaks = run_peaks(curves[k], lo, hi)
        if peaks[0][0] > top[0]:
            top, t = peaks[0], k
        if peaks[1][0] < low[0]:
            low, l = peaks[1], k
        if abs(peaks[2][0]) > abs(shear[0]):
            shear, s = peaks[2], k
        if peaks[3][0] > down[0]:
            down, d = peaks[3], k
        if peaks[4][0] < up[0]:
            up, u = peaks[4], k
    return (
        Governing(*top, name, tried[t]),
        Governing(*low, name, tried[l]),
        Governing(*shear, name, tried[s]),
        Governing(*down, name, tried[d]),
        Governing(*up, name, tried[u]),
    )


def _at_support(
    blank: Curve, i: int, name: str, always: list[float], live: Mapping[int, list[float]]
) -> tuple[Governing, ...]:
    """Find the shear left and right of a support, and its greatest and least reaction.

    At one section the worst pattern is the sum of all that push one way: none need be tried.
    """
    n, k = len(blank.q0), blank.at[i]
    station = blank.stations[k]
    left = _size(always, live, 3 * n + k - 1) if k else (0.0, ())
    right = _size(always, live, 2 * n + k) if k < n else (0.0, ())
    most, least = _extremes(always, live, 7 * n + 3 + i)
    return (
        Governing(left[0], station, name, left[1]),
        Governing(right[0], station, name, right[1]),
        Governing(most[0], station, name, most[1]),
        Governing(least[0], station, name, least[1]),
    )


def _size(always: list[float], live: Mapping[int, list[float]], index: int) -> tuple[float, Mask]:
    high, low = _extremes(always, live, index)
    return high if high[0] >= -low[0] else low


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
