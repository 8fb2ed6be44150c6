"""Shear on the faces of supports and a depth away from them, for thousands of beams that differ in weight and depth.

At a section the shear is a straight line in the beam's weight, and the worst pattern on a face is the sum of all that
push it one way; so beams of one depth share all but their weight.
"""

from collections.abc import Mapping, Sequence
from copy import copy
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beamcheck.beam.envelope import Combination, Envelope
from beamcheck.beam.many import Floats, distinct
from beamcheck.beam.model import Bay, Load, Point
from beamcheck.beam.patterns import by_bay
from beamcheck.beam.superpose import EVERYWHERE, alone, columns, own_weight

_JUST = 1e-6


class _Force(NamedTuple):
    """A point load of the line: its type, the bay of its pattern (or EVERYWHERE), itself, the line under it."""

    load_type: str
    bay: int
    load: Point
    figures: Floats


class Shared(NamedTuple):
    """One combination: factors, what always lies on the line, and what each bay may add, as rows of figures."""

    factors: Mapping[str, float]
    always: Floats
    live: Mapping[int, Floats]


class _Extremes(NamedTuple):
    """Greatest and least shear on a face, by beam, and the bays that push it up and down."""

    high: Floats
    low: Floats
    pushers: tuple[int, ...]
    pullers: tuple[int, ...]


class _Cut(NamedTuple):
    """Where shear is read, by depth: numbers of the pieces, ways into them, reach from the support and its side."""

    piece: NDArray[np.intp]
    way: Floats
    reach: Floats
    support: float
    sign: float


class Clear(NamedTuple):
    """Shear off a bearing under far loads, positive to the bearing, what near ones add, and the bay; by beam."""

    V_d: Floats
    P_d: Floats
    bay: Bay


class Faces:
    """Shears of a line under beams of the given weights (lb/in) and depths (in); the loads hold no beam's weight."""

    def __init__(self, envelope: Envelope, loads: Mapping[str, Sequence[Load]], weight: Floats, depth: Floats) -> None:
        self._line = envelope.line
        self._weight = weight
        self._grid = envelope.units.grid
        self._stations = np.array(self._grid.stations)
        self._sections = self._grid.sections
        self._depths, self._back = distinct(depth)
        self._beams = slice(None)
        self._found: dict[tuple[int, int, str, float], Clear | None] = {}
        self._cases = [shared(envelope, combination) for combination in envelope.combinations]
        self._own = np.array(own_weight(self._line, self._grid))
        self._forces = [
            _Force(name, bay, load, self._alone(load))
            for name, part in loads.items()
            for bay, load in _points(name, part, self._line.bays)
        ]

    def part(self, beams: slice) -> "Faces":
        """The same line under some of the beams."""
        some = copy(self)
        some._beams = beams  # noqa: SLF001  a part is built by the whole
        return some

    def size(self, number: int, support: int, side: str) -> Floats | None:
        """Greatest size of the shear on one face under a combination; None where the beam ends there."""
        index = self._index(support, side)
        if index is None:
            return None
        found = self._extremes(number, index)
        return np.maximum(np.abs(found.high), np.abs(found.low))[self._beams]

    def clear(self, number: int, support: int, side: str, half: float) -> Clear | None:
        """Shear at half a bearing and a depth from the support, of the pattern that is worst on its face."""
        key = number, support, side, half
        if key not in self._found:  # for all beams at once, whichever part asks first
            self._found[key] = self._all_clear(number, support, side, half)
        found = self._found[key]
        return found and Clear(found.V_d[self._beams], found.P_d[self._beams], found.bay)

    def _all_clear(self, number: int, support: int, side: str, half: float) -> Clear | None:
        index = self._index(support, side)
        station = self._line.supports[support]
        sign = 1.0 if side == "right" else -1.0
        bay = next((bay for bay in self._line.bays if bay.start < station + sign * _JUST < bay.end), None)
        if index is None or bay is None:
            return None
        found = self._extremes(number, index)
        reach = np.minimum(half + self._depths, bay.length)
        cut = self._cut(station, sign, reach)
        here = self._line.bays.index(bay)
        V, P = self._clear(number, cut, found, (found.pushers, found.pullers))
        if here in self._cases[number].live:  # on its own bay a load may count one way on the face, another at the cut
            ways = _without(found.pushers, here), _without(found.pullers, here)
            V_other, P_other = self._clear(number, cut, found, ways)
            worse = np.maximum(V_other + P_other, -V_other) > np.maximum(V + P, -V)
            V, P = np.where(worse, V_other, V), np.where(worse, P_other, P)
        return Clear(V, P, bay)

    def _clear(
        self, number: int, cut: _Cut, face: _Extremes, ways: tuple[tuple[int, ...], tuple[int, ...]]
    ) -> tuple[Floats, Floats]:
        """Shear to the bearing and near point loads: of the first pattern where the face goes up, else the other."""
        up = face.high >= -face.low
        (V_up, P_up), (V_down, P_down) = (self._under(number, bays, cut) for bays in ways)
        own = self._cases[number].factors.get("D", 0.0) * self._shear(self._own, cut)
        V = np.where(up, V_up[self._back], V_down[self._back]) + own[self._back] * self._weight
        return cut.sign * V, np.where(up, P_up[self._back], P_down[self._back])

    def _under(self, number: int, bays: tuple[int, ...], cut: _Cut) -> tuple[Floats, Floats]:
        """Shear at the cuts under the far loads of a pattern, and the near point loads at x/d; by depth."""
        case = self._cases[number]
        V = self._shear(case.always, cut) + sum((self._shear(case.live[bay], cut) for bay in bays), np.zeros(1))
        P = np.zeros(V.shape)
        for force in self._forces:
            factor = case.factors.get(force.load_type, 0.0)
            off = cut.sign * (force.load.station - cut.support)
            if not factor or off < 0.0 or force.bay not in (EVERYWHERE, *bays):
                continue
            near = off < cut.reach
            V = V - np.where(near, factor * self._shear(force.figures, cut), 0.0)
            share = np.maximum(off - (cut.reach - self._depths), 0.0) / self._depths
            P = P + np.where(near, np.abs(factor * force.load.force) * share, 0.0)
        return V, P

    def _cut(self, support: float, sign: float, reach: Floats) -> _Cut:
        station = support + sign * reach
        found = np.searchsorted(self._stations, station, "right" if sign > 0 else "left") - 1
        piece = np.clip(found, 0, len(self._stations) - 2)
        return _Cut(piece, station - self._stations[piece], reach, support, sign)

    def _shear(self, figures: Floats, cut: _Cut) -> Floats:
        """The shear of one curve at the cuts."""
        q, slope, V = [figures[at] for at in columns(0, len(self._grid.spans))[:3]]
        k, x = cut.piece, cut.way
        shear: Floats = V[k] - x * (q[k] + 0.5 * x * slope[k])
        return shear

    def _index(self, support: int, side: str) -> int | None:
        """Where the shear on a face stands in a row of figures."""
        section = self._sections[support]
        return section.left if side == "left" else section.right

    def _extremes(self, number: int, index: int) -> _Extremes:
        case = self._cases[number]
        base = case.always[index] + case.factors.get("D", 0.0) * self._own[index] * self._weight
        pushes = {bay: float(figures[index]) for bay, figures in case.live.items()}
        up = {bay: push for bay, push in pushes.items() if push > 0.0}
        down = {bay: push for bay, push in pushes.items() if push < 0.0}
        return _Extremes(base + sum(up.values()), base + sum(down.values()), tuple(up), tuple(down))

    def _alone(self, load: Load) -> Floats:
        return np.array(alone(self._line, load, self._grid))


def _without(bays: tuple[int, ...], other: int) -> tuple[int, ...]:
    """Some bays with one put in if it is not among them, else left out."""
    return tuple(bay for bay in bays if bay != other) if other in bays else (*bays, other)


def shared(envelope: Envelope, combination: Combination) -> Shared:
    """Put the solved parts of a combination together, bay by bay."""
    rows: dict[int, Floats] = {}
    for load_type, factor in combination.factors.items():
        for unit in envelope.units.by_type.get(load_type, ()) if factor else ():
            row = factor * np.array(unit.figures)
            rows[unit.bay] = rows[unit.bay] + row if unit.bay in rows else row
    always = rows.pop(EVERYWHERE, np.zeros(len(envelope.units.nothing)))
    return Shared(combination.factors, always, dict(sorted(rows.items())))


def _points(name: str, part: Sequence[Load], bays: tuple[Bay, ...]) -> list[tuple[int, Point]]:
    """The point loads of one type with the bays that their patterns go by; dead load is in every pattern."""
    if name == "D":
        return [(EVERYWHERE, load) for load in part if isinstance(load, Point)]
    return [(bay, load) for bay, some in enumerate(by_bay(part, bays)) for load in some if isinstance(load, Point)]
