"""One beam line under thousands of beams that differ in weight and stiffness: ``Demands`` in arrays over the beams.

What lies on the line is solved once; each beam adds its own weight.
"""

from collections.abc import Iterable, Mapping, Sequence
from copy import copy
from typing import NamedTuple

import numpy as np

from beamcheck.beam.envelope import Combination as Case
from beamcheck.beam.envelope import Envelope, envelope
from beamcheck.beam.many import Floats, Pieces, distinct, moment_rise
from beamcheck.beam.model import Line, Load
from beamcheck.beam.patterns import masks
from beamcheck.beam.superpose import columns, own_weight
from beamcheck.beam.sweep import SweepPeaks, sweep
from beamcheck.checks.demands import Face, Moment, Way
from beamcheck.checks.lines import clear_shear, laid
from beamcheck.explore.between_zeros import between_zeros, longest
from beamcheck.explore.faces import Faces, shared
from beamcheck.takedown.sources import LOAD_TYPES, Combination, Source
from beamcheck.trace import Num, Solved, Value, either

_HOGS = -1e-6


class Ground(NamedTuple):
    """A line and what lies on it but the beam itself, solved for strength and for each load type alone.

    types: the load types that act, dead load first, as ``single`` has them.
    """

    line: Line
    sources: tuple[Source, ...]
    combinations: tuple[Combination, ...]
    loads: Mapping[str, Sequence[Load]]
    types: tuple[str, ...]
    strength: Envelope
    single: Envelope


def ground(line: Line, sources: tuple[Source, ...], combinations: tuple[Combination, ...]) -> Ground:
    """Solve the line. Raises InputError for a source that lies off the beam."""
    loads = laid(sources, line)
    types = ("D", *(name for name in LOAD_TYPES if name != "D" and name in loads))
    named = [Case(c.name, {name: float(g.number) for name, g in c.factors.items()}) for c in combinations]
    single = envelope(line, loads, [Case(f"{name} alone", {name: 1.0}) for name in types])
    return Ground(line, sources, combinations, loads, types, envelope(line, loads, named), single)


class Swept:
    """A solved line under beams of the given weights (lb/in) and depths (in), both of shape (beams,)."""

    def __init__(self, ground: Ground, weight: Floats, depth: Floats) -> None:
        self._ground = ground
        self._weight = weight
        self._peaks = sweep(ground.strength, weight, np.ones(1))
        self._single = sweep(ground.single, weight, np.ones(1))
        self._faces = Faces(ground.strength, ground.loads, weight, depth)

    def part(self, beams: slice) -> "Swept":
        """Some of the beams."""
        some = copy(self)
        some._weight = self._weight[beams]  # noqa: SLF001  a part is built by the whole
        some._peaks = SweepPeaks(*[figure[..., beams] for figure in self._peaks])  # noqa: SLF001
        some._single = SweepPeaks(*[figure[..., beams] for figure in self._single])  # noqa: SLF001
        some._faces = self._faces.part(beams)  # noqa: SLF001
        return some

    @property
    def line(self) -> Line:
        """Supports and bays, the same for all beams."""
        return self._ground.line

    @property
    def sources(self) -> tuple[Source, ...]:
        """What lies on the line but the beam itself."""
        return self._ground.sources

    @property
    def combinations(self) -> tuple[Combination, ...]:
        """Allowable-stress combinations of the load types that act."""
        return self._ground.combinations

    @property
    def inputs(self) -> tuple[tuple[str, Value], ...]:
        """Nothing: arrays are not traced to their leaves; the study of one beam is."""
        return ()

    @property
    def transient(self) -> tuple[str, ...]:
        """The load types that act and are not dead load."""
        return self._ground.types[1:]

    @property
    def hogs(self) -> bool:
        """Whether any beam hogs anywhere in any case."""
        return bool((self._peaks.hogging < _HOGS).any())

    def moment(self, number: int, way: Way) -> Moment:
        """Greatest moment of a combination over its patterns and bays."""
        M = self._peaks.sagging[number].max(axis=0) if way == "sagging" else -self._peaks.hogging[number].min(axis=0)

        def l_0() -> Value:
            return self._value("l_0", _lengths(self._ground.strength, number, self._weight, way), "in", number)

        return Moment(self._value("M", np.abs(M), "lb*in", number), l_0, self.combinations[number].name)

    def faces(self, number: int) -> Iterable[Face]:
        """Shear on each face of each support that has beam on that side."""
        for side in ("left", "right"):
            for support in range(len(self.line.supports)):
                V = self._faces.size(number, support, side)
                if V is not None:
                    shear = self._value("V", V, "lb", number)
                    face = Face(number, support, "left" if side == "left" else "right", shear, "")
                    yield face._replace(when=self.combinations[number].name)

    def shear(self, number: int) -> tuple[Value, str]:
        """Shear of the greatest size anywhere under a combination."""
        V = self._peaks.shear[number].max(axis=0)
        return self._value("V", V, "lb", number), self.combinations[number].name

    def shear_beyond(self, face: Face, half: Num, d: Num) -> Value:
        """Shear half a bearing and a depth off the support, if the bay is long enough, else on the face itself."""
        found = self._faces.clear(face.number, face.support, face.side, float(half))
        if found is None:
            return face.V
        V_d, P_d = (self._value(name, V, "lb", face.number) for name, V in (("V_d", found.V_d), ("P_d", found.P_d)))
        V = clear_shear(V_d, P_d)
        return either(2 * (half + d) >= found.bay.length, face.V, V)

    def push(self, number: int, support: int, name: str = "R") -> tuple[Value, str]:
        """Greatest reaction of a combination over its patterns."""
        R = np.maximum(self._peaks.most_reaction[number, support], 0.0)
        return self._value(name, R, "lb", number), self.combinations[number].name

    def greatest_push(self, support: int) -> tuple[Value, str]:
        """Greatest reaction over all combinations."""
        R = np.maximum(self._peaks.most_reaction[:, support].max(axis=0), 0.0)
        return Value("R", R, "lb", Solved("the worst combination", ())), ""

    def lift(self, support: int) -> tuple[Value, str]:
        """Least reaction over all combinations: below zero the beam lifts."""
        R = self._peaks.least_reaction[:, support].min(axis=0)
        return Value("R", R, "lb", Solved("the worst combination", ())), ""

    def moved(self, factors: dict[str, float], bay: int) -> tuple[Value, Value]:
        """EI y and M of a bay under load types alone, each with its worst pattern, summed; an overhang either way."""
        EI_y, M = np.zeros(self._weight.shape), np.zeros(self._weight.shape)
        overhangs = self.line.bays[bay].kind != "span"
        for name, factor in factors.items():
            at = self._ground.types.index(name), bay
            down, up = self._single.down[at], self._single.up[at]
            EI_y += factor * (np.maximum(down, -up) if overhangs else np.maximum(down, 0.0))
            M += factor * self._rise(name, bay)
        case = Solved(f"load types alone, {self.line.bays[bay].label}", ())
        return Value("Y", EI_y, "lb*in^3", case), Value("M", M, "lb*in", case)

    def _rise(self, name: str, bay: int) -> Floats:
        """The moment that bends a bay by shear under one load type: beside those at its ends, or of an overhang."""
        at = self._ground.types.index(name), bay
        if self.line.bays[bay].kind == "span" and len(self.line.bays) > 1:
            return _rises(self._ground.single, at, self._weight)
        rise: Floats = np.maximum(self._single.sagging[at], -self._single.hogging[at])
        return rise

    def reach(self, bay: int) -> Value:
        """The length that deflection limits go by: the span, or twice an overhang."""
        here = self.line.bays[bay]
        return Value("l", here.length * (1 if here.kind == "span" else 2), "in", Solved(here.label, ()))

    def _value(self, name: str, number: Floats, unit: str, combination: int) -> Value:
        return Value(name, number, unit, Solved(self.combinations[combination].name, ()))


def _rises(single: Envelope, at: tuple[int, int], weight: Floats) -> Floats:
    """The greatest moment of a bay beside those at its ends under one load type, by beam."""
    line, grid, combination = single.line, single.units.grid, single.combinations[at[0]]
    weights, back = distinct(weight)
    own = np.array(own_weight(line, grid))
    case = shared(single, combination)
    figures = case.always + sum(case.live.values(), np.zeros(len(own)))
    rows = figures[:, None] + combination.factors.get("D", 0.0) * own[:, None] * weights
    lo, hi = grid.bays[at[1]]
    h = np.diff(np.array(grid.stations))[lo:hi, None]
    pieces = Pieces(h, *[rows[here] for here in columns(lo, hi)])
    return moment_rise(pieces)[back]


def _lengths(strength: Envelope, number: int, weight: Floats, way: Way) -> Floats:
    """Length between points of zero moment beside the greatest moment of a combination, by beam."""
    line, grid, combination = strength.line, strength.units.grid, strength.combinations[number]
    weights, back = distinct(weight)
    own = np.array(own_weight(line, grid))
    n = len(grid.spans)
    shape = (n, len(weights))
    stations = np.broadcast_to(np.array(grid.stations)[:, None], (n + 1, len(weights)))
    best, length = np.full(len(weights), -np.inf), np.zeros(len(weights))
    case = shared(strength, combination)
    for mask in masks(tuple(case.live)):
        figures = sum((case.live[bay] for bay in mask), case.always)
        rows = figures[:, None] + combination.factors.get("D", 0.0) * own[:, None] * weights
        pieces = Pieces(np.diff(stations, axis=0), *[rows[here].reshape(shape) for here in columns(0, n)])
        peak, between = between_zeros(pieces, stations, 1.0 if way == "sagging" else -1.0)
        best, length = longest(best, length, peak, between)
    return length[back]
