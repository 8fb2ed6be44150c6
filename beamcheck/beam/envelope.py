"""Load types, combinations and live load patterns on one line: what governs, where, and under which pattern.

Moments of a prismatic line do not depend on EI, so one curve per load type and bay is enough; every case is their sum.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from operator import add
from typing import NamedTuple

from beamcheck.beam.model import Line, Load
from beamcheck.beam.patterns import Mask, masks
from beamcheck.beam.peaks import BarePiece, Curve, deflection_peaks, force_peaks
from beamcheck.beam.response import Response
from beamcheck.beam.superpose import EVERYWHERE, Figures, Section, Units, added, multiplied, rolled, scaled, units
from beamcheck.errors import OutOfRange
from beamcheck.frozen import dataclass

MOST_BAYS = 8
"""Six spans and two overhangs: 256 patterns a combination."""


_new = tuple.__new__  # takes half the time of a call by name, and there are hundreds of them


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


@dataclass(frozen=True, slots=True, eq=False)
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
        grid = self.units.grid
        return Response(self.line, loads, Curve(rolled(grid, figures), grid.at, figures[grid.reactions :]))

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
    places = parts.grid.bays, parts.grid.sections
    return Envelope(line, named, parts, tuple([_governing(parts, places, combination) for combination in named]))


class Shares(NamedTuple):
    """What a combination puts on the line, as rows of figures: what is always there, and each bay that may be left.

    ``pushes`` says of each live bay, as ``Unit.pushes`` does, which bays it bends down or up all over.
    """

    always: Figures
    live: Mapping[int, Figures]
    pushes: Mapping[int, tuple[int, ...]]


def shares(parts: Units, combination: Combination) -> Shares:
    """Put the parts of a combination together, bay by bay."""
    rows: dict[int, Figures] = {}
    pushes: dict[int, tuple[int, ...]] = {}
    for type_, factor in combination.factors.items():
        for unit in parts.by_type.get(type_, ()) if factor else ():
            row = rows.get(unit.bay)
            rows[unit.bay] = multiplied(factor, unit) if row is None else added(row, factor, unit)
            ways = unit.pushes if factor > 0.0 else tuple([-way for way in unit.pushes])
            before = pushes.get(unit.bay, ways)
            pushes[unit.bay] = ways if ways == before else tuple(map(_agreed, ways, before))
    always = rows.pop(EVERYWHERE, parts.nothing)
    return Shares(always, dict(sorted(rows.items())), pushes)


def _agreed(way: int, other: int) -> int:
    return way if way == other else 0


def cases(shared: Shares) -> dict[Mask, Figures]:
    """The figures of each pattern; patterns that differ only in bays without transient load come once."""
    solved: dict[Mask, Figures] = {(): shared.always}
    for mask in masks(tuple(shared.live))[1:]:
        solved[mask] = tuple(map(add, solved[mask[:-1]], shared.live[mask[-1]]))
    return solved


def _governing(
    parts: Units, places: tuple[list[tuple[int, int]], list[Section]], combination: Combination
) -> CombinationPeaks:
    stretches, sections = places
    shared, name = shares(parts, combination), combination.name
    solved = {mask: rolled(parts.grid, figures) for mask, figures in cases(shared).items()}
    bays = [
        _worst_forces(solved, name, lo, hi) + _worst_deflections(solved, shared, name, i, (lo, hi))
        for i, (lo, hi) in enumerate(stretches)
    ]
    supports = [_at_support(section, name, shared) for section in sections]
    return CombinationPeaks(name, tuple(solved), *zip(*bays, strict=True), *zip(*supports, strict=True))


def _worst_forces(solved: Mapping[Mask, list[BarePiece]], name: str, lo: int, hi: int) -> tuple[Governing, ...]:
    """Try all patterns for the worst moments and shear of one bay."""
    tops: Mask = ()
    lows: Mask = ()
    shears: Mask = ()
    top, low, shear = force_peaks(solved[()][lo:hi])
    for mask, pieces in solved.items():
        most, least, size = force_peaks(pieces[lo:hi]) if mask else (top, low, shear)
        if most[0] > top[0]:
            top, tops = most, mask
        if least[0] < low[0]:
            low, lows = least, mask
        if abs(size[0]) > abs(shear[0]):
            shear, shears = size, mask
    return (
        _new(Governing, (top[0], top[1], name, tops)),
        _new(Governing, (low[0], low[1], name, lows)),
        _new(Governing, (shear[0], shear[1], name, shears)),
    )


def _worst_deflections(
    solved: Mapping[Mask, list[BarePiece]], shared: Shares, name: str, bay: int, run: tuple[int, int]
) -> tuple[Governing, ...]:
    """Try the patterns that may be the worst for the deflection of one bay.

    What bends all of the bay down belongs to the worst pattern downward and to none upward, and the other way round.
    Only loads that do both need be tried with and without.
    """
    downs, ups = _patterns(shared, bay) if shared.live else (_NONE, _NONE)
    here = slice(*run)
    down, found = downs[0], deflection_peaks(solved[downs[0]][here])
    up, lifted = (down, found) if ups == downs else (ups[0], deflection_peaks(solved[ups[0]][here]))
    for mask in downs[1:]:
        tried = deflection_peaks(solved[mask][here])
        if tried[0][0] > found[0][0]:
            down, found = mask, tried
    for mask in ups[1:]:
        tried = deflection_peaks(solved[mask][here])
        if tried[1][0] < lifted[1][0]:
            up, lifted = mask, tried
    (most, at), (least, there) = found[0], lifted[1]
    return _new(Governing, (most, at, name, down)), _new(Governing, (least, there, name, up))


_NONE: list[Mask] = [()]


def _patterns(shared: Shares, bay: int) -> tuple[list[Mask], list[Mask]]:
    """The patterns with all that bends a bay down, and up, with and without what bends it both ways."""
    ways: tuple[list[int], list[int], list[int]] = [], [], []
    for live in shared.live:
        ways[shared.pushes[live][bay]].append(live)
    unsure, down, up = ways
    if not unsure:
        return [tuple(down)], [tuple(up)]
    both = masks(tuple(unsure))
    return [tuple(sorted((*down, *mask))) for mask in both], [tuple(sorted((*up, *mask))) for mask in both]


def _at_support(section: Section, name: str, shared: Shares) -> tuple[Governing, ...]:
    """Find the shear left and right of a support, and its greatest and least reaction.

    At one section the worst pattern is the sum of all that push one way: none need be tried.
    """
    station, at_left, at_right, reaction = section
    left = _NOTHING if at_left is None else _size(shared, at_left)
    right = _NOTHING if at_right is None else _size(shared, at_right)
    most, least = _extremes(shared, reaction)
    return (
        _new(Governing, (left[0], station, name, left[1])),
        _new(Governing, (right[0], station, name, right[1])),
        _new(Governing, (most[0], station, name, most[1])),
        _new(Governing, (least[0], station, name, least[1])),
    )


_NOTHING: tuple[float, Mask] = 0.0, ()


def _size(shared: Shares, index: int) -> tuple[float, Mask]:
    high, low = _extremes(shared, index)
    return high if high[0] >= -low[0] else low


def _extremes(shared: Shares, index: int) -> tuple[tuple[float, Mask], tuple[float, Mask]]:
    """Add up all that push one figure up, and all that push it down, with the bays that do."""
    high = low = shared.always[index]
    if not shared.live:
        return (high, ()), (low, ())
    pushers: Mask = ()
    pullers: Mask = ()
    for bay, figures in shared.live.items():
        push = figures[index]
        if push > 0.0:
            high += push
            pushers += (bay,)
        elif push < 0.0:
            low += push
            pullers += (bay,)
    return (high, pushers), (low, pullers)
