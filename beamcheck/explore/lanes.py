"""One beam in thousands of lanes whose loads and stations all differ: ``Demands`` in arrays over the lanes."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beamcheck.beam.many import Floats, deflection_peaks, force_peaks, moment_rise
from beamcheck.beam.model import Line
from beamcheck.beam.moved import Points, Spreads
from beamcheck.beam.patterns import Mask, masks
from beamcheck.checks.demands import Face, Moment, Way
from beamcheck.checks.lines import clear_shear
from beamcheck.explore.between_zeros import between_zeros
from beamcheck.explore.rows import EVERYWHERE, Rows
from beamcheck.takedown.sources import LOAD_TYPES, Combination, Source
from beamcheck.trace import Num, Solved, Value, either

_HOGS = -1e-6
_SHORTEST = 1e-3  # in: a line load that a lane would turn round keeps this length


Lit = NDArray[np.bool_]
"""In which lanes something holds."""


class _Laid(NamedTuple):
    """A source laid out: its load type, its size in every lane, and the number of the shape that it has."""

    load_type: str
    size: Num
    shape: int


class _Case(NamedTuple):
    """A combination: factors by type, rows that are always there, and rows of each bay that may be left."""

    factors: dict[str, float]
    always: Floats
    live: dict[int, Floats]


class _Single(NamedTuple):
    """Worst of one load type alone, by bay: EI y down and up, and the moment that bends it by shear."""

    down: list[Floats]
    up: list[Floats]
    rise: list[Floats]


class Lanes:
    """A line in many lanes: the likely line, the ends of its bays in every lane, sources of arrays or numbers.

    Stations that a lane would put off the beam are kept on it. shear_bends: whether deflection has a part by shear, so
    that moments of each load type are asked for.
    """

    def __init__(
        self,
        line: Line,
        cuts: tuple[Floats, ...],
        sources: tuple[Source, ...],
        combinations: tuple[Combination, ...],
        *,
        shear_bends: bool,
    ) -> None:
        self.line = line
        self.sources = sources
        self.combinations = combinations
        self.inputs: tuple[tuple[str, Value], ...] = ()
        self._shapes, self._laid = _lay(sources, cuts)
        self._rows = Rows(tuple(bay.kind for bay in line.bays), cuts, self._shapes)
        self._units: dict[tuple[int, int], Floats] = {}
        self._sums: dict[tuple[str, int], Floats | None] = {}
        self._types = ("D", *self.transient)
        self._moments_of_types = shear_bends
        self._cases = [self._case({name: float(g.number) for name, g in c.factors.items()}) for c in combinations]
        self._moments = [self._greatest(case) for case in self._cases]
        self._single = {name: self._alone(name) for name in self._types}

    @property
    def transient(self) -> tuple[str, ...]:
        """The load types that act and are not dead load."""
        present = {laid.load_type for laid in self._laid}
        return tuple(name for name in LOAD_TYPES if name != "D" and name in present)

    @property
    def hogs(self) -> bool:
        """Whether any lane hogs anywhere in any case."""
        return any(bool((low < _HOGS).any()) for _, low, _ in self._moments)

    def moment(self, number: int, way: Way) -> Moment:
        """Greatest moment of a combination over its patterns and bays."""
        top, low, _ = self._moments[number]

        def l_0() -> Value:
            sign = 1.0 if way == "sagging" else -1.0
            best, length = np.full(top.shape, -np.inf), np.zeros(top.shape)
            for rows in self._patterns(self._cases[number]):
                peak, between = between_zeros(*self._rows.whole(rows), sign)
                length = np.where(peak > best, between, length)
                best = np.maximum(best, peak)
            return self._value("l_0", length, "in", number)

        M = top if way == "sagging" else -low
        return Moment(self._value("M", np.abs(M), "lb*in", number), l_0, self.combinations[number].name)

    def faces(self, number: int) -> Iterable[Face]:
        """Shear on each face of each support that has beam on that side."""
        for side in ("left", "right"):
            for support in range(len(self._rows.posts)):
                found = self._extremes(number, support, side)
                if found is not None:
                    V = np.maximum(np.abs(found[0]), np.abs(found[1]))
                    shear = self._value("V", V, "lb", number)
                    face = Face(number, support, "left" if side == "left" else "right", shear, "")
                    yield face._replace(when=self.combinations[number].name)

    def shear(self, number: int) -> tuple[Value, str]:
        """Shear of the greatest size anywhere under a combination."""
        return self._value("V", self._moments[number][2], "lb", number), self.combinations[number].name

    def shear_beyond(self, face: Face, half: Num, d: Num) -> Value:
        """Shear half a bearing and a depth off the support, if the bay is long enough, else on the face itself."""
        bay = self._rows.bay_beside(face.support, face.side)
        found = self._extremes(face.number, face.support, face.side)
        assert bay is not None and found is not None
        case, sign = self._cases[face.number], 1.0 if face.side == "right" else -1.0
        length = self._rows.cuts[bay + 1] - self._rows.cuts[bay]
        reach = np.minimum(half + d, length)
        support = self._rows.posts[face.support]
        up = found[0] >= -found[1]
        carried = {
            other: np.where(up, push > 0.0, push < 0.0)
            for other, rows in case.live.items()
            if (push := self._rows.face(rows, face.support, face.side)) is not None
        }
        tried = [self._clear(face, bay, (support, sign, reach), (half, d), carried)]
        if bay in carried:  # on its own bay a load may count one way on the face, another at the cut
            tried.append(self._clear(face, bay, (support, sign, reach), (half, d), carried | {bay: ~carried[bay]}))
        V, P = tried[0]
        for V_other, P_other in tried[1:]:
            worse = np.maximum(V_other + P_other, -V_other) > np.maximum(V + P, -V)
            V, P = np.where(worse, V_other, V), np.where(worse, P_other, P)
        V_d, P_d = self._value("V_d", V, "lb", face.number), self._value("P_d", P, "lb", face.number)
        return either(2 * (half + d) >= length, face.V, clear_shear(V_d, P_d))

    def _clear(
        self, face: Face, bay: int, at: tuple[Floats, float, Floats], reach: tuple[Num, Num], carried: dict[int, Lit]
    ) -> tuple[Floats, Floats]:
        """Shear at the cut, positive to the bearing, and the near point loads at x/d, under what the bays carry."""
        case, (support, sign, far), (half, d) = self._cases[face.number], at, reach
        cut = support + sign * far
        V = self._rows.shear_at(case.always, bay, cut, face.side)
        for other, there in carried.items():
            V = V + np.where(there, self._rows.shear_at(case.live[other], bay, cut, face.side), 0.0)
        P = np.zeros(V.shape)
        for load, share, there, unit in self._near(case, carried, at):
            V = V - np.where(there, load * self._rows.shear_at(unit, bay, cut, face.side), 0.0)
            P = P + np.where(there, np.abs(load) * np.maximum(share - half, 0.0) / d, 0.0)
        return sign * V, P

    def _near(
        self, case: _Case, carried: dict[int, Lit], at: tuple[Floats, float, Floats]
    ) -> Iterator[tuple[Num, Floats, Lit, Floats]]:
        """Point loads nearer to a support than the cut: size, way from the support, in which lanes, and unit rows."""
        support, sign, reach = at
        for load_type, size, number in self._laid:
            shape, factor = self._shapes[number], case.factors.get(load_type, 0.0)
            if not isinstance(shape, Points) or not factor:
                continue
            off = sign * (shape.station - support)
            near = (off >= 0.0) & (off < reach)
            if not np.any(near):
                continue
            if load_type == "D":
                yield factor * size, off, near, self._unit(number, EVERYWHERE)
                continue
            for bay, there in carried.items():
                yield factor * size, off, near & there & self._in_bay(shape, bay), self._unit(number, bay)

    def _in_bay(self, shape: Points, bay: int) -> Lit:
        """In which lanes a point goes with a bay: over a support with the one on its left."""
        start, end = self._rows.cuts[bay], self._rows.cuts[bay + 1]
        inside: Lit = ((shape.station > start) | (bay == 0)) & (shape.station <= end)
        return inside

    def push(self, number: int, support: int, name: str = "R") -> tuple[Value, str]:
        """Greatest reaction of a combination over its patterns."""
        R = np.maximum(self._reactions(number, support)[0], 0.0)
        return self._value(name, R, "lb", number), self.combinations[number].name

    def greatest_push(self, support: int) -> tuple[Value, str]:
        """Greatest reaction over all combinations."""
        R = np.max([self._reactions(number, support)[0] for number in range(len(self._cases))], axis=0)
        return Value("R", np.maximum(R, 0.0), "lb", Solved("the worst combination", ())), ""

    def lift(self, support: int) -> tuple[Value, str]:
        """Least reaction over all combinations: below zero the beam lifts."""
        R = np.min([self._reactions(number, support)[1] for number in range(len(self._cases))], axis=0)
        return Value("R", R, "lb", Solved("the worst combination", ())), ""

    def moved(self, factors: dict[str, float], bay: int) -> tuple[Value, Value]:
        """EI y and M of a bay under load types alone, each with its worst pattern, summed; an overhang either way."""
        shape = self._rows.cuts[0].shape
        EI_y, M = np.zeros(shape), np.zeros(shape)
        overhangs = self.line.bays[bay].kind != "span"
        for name, factor in factors.items():
            single = self._single[name]
            down, up = single.down[bay], single.up[bay]
            EI_y += factor * (np.maximum(down, -up) if overhangs else np.maximum(down, 0.0))
            M += factor * single.rise[bay]
        case = Solved(f"load types alone, {self.line.bays[bay].label}", ())
        return Value("Y", EI_y, "lb*in^3", case), Value("M", M, "lb*in", case)

    def reach(self, bay: int) -> Value:
        """The length that deflection limits go by: the span, or twice an overhang."""
        length = self._rows.cuts[bay + 1] - self._rows.cuts[bay]
        here = self.line.bays[bay]
        return Value("l", length * (1 if here.kind == "span" else 2), "in", Solved(here.label, ()))

    def _unit(self, shape: int, bay: int) -> Floats:
        if (shape, bay) not in self._units:
            self._units[shape, bay] = self._rows.unit(self._shapes[shape], bay)
        return self._units[shape, bay]

    def _sum(self, load_type: str, bay: int) -> Floats | None:
        """Rows of one load type, all of it or what lies in one bay; None where no lane has any there."""
        if (load_type, bay) not in self._sums:
            sizes: dict[int, Num] = {}
            for laid in self._laid:
                if laid.load_type == load_type and self._rows.reaches(self._shapes[laid.shape], bay):
                    sizes[laid.shape] = sizes.get(laid.shape, 0.0) + laid.size
            rows = [size * self._unit(shape, bay) for shape, size in sizes.items()]
            self._sums[load_type, bay] = sum(rows[1:], rows[0]) if rows else None
        return self._sums[load_type, bay]

    def _live(self, load_type: str) -> dict[int, Floats]:
        """Rows of one transient load type by the bay in which it lies."""
        bays = range(len(self.line.bays))
        return {bay: rows for bay in bays if (rows := self._sum(load_type, bay)) is not None}

    def _case(self, factors: dict[str, float]) -> _Case:
        dead = self._sum("D", EVERYWHERE)
        assert dead is not None
        always = factors.get("D", 0.0) * dead[self._rows.forces]
        live: dict[int, Floats] = {}
        for name in self.transient:
            for bay, rows in self._live(name).items() if factors.get(name) else ():
                added = factors[name] * rows[self._rows.forces]
                live[bay] = live[bay] + added if bay in live else added
        return _Case(factors, always, live)

    def _patterns(self, case: _Case) -> Iterator[Floats]:
        solved: dict[Mask, Floats] = {(): case.always}
        yield case.always
        for mask in masks(tuple(case.live))[1:]:
            solved[mask] = solved[mask[:-1]] + case.live[mask[-1]]
            yield solved[mask]

    def _greatest(self, case: _Case) -> tuple[Floats, Floats, Floats]:
        """Greatest and least moment and greatest size of shear over all patterns and bays."""
        found = [
            force_peaks(self._rows.of_bay(rows, bay))
            for rows in self._patterns(case)
            for bay in range(len(self.line.bays))
        ]
        top, low, size = zip(*found, strict=True)
        return np.max(top, axis=0), np.min(low, axis=0), np.max(size, axis=0)

    def _alone(self, name: str) -> _Single:
        bays = range(len(self.line.bays))
        if name == "D":
            dead = self._sum("D", EVERYWHERE)
            parts = {} if dead is None else {EVERYWHERE: dead}
        else:
            parts = self._live(name)
        down_only = all(np.all(laid.size >= 0.0) for laid in self._laid if laid.load_type == name)
        nothing = [np.zeros(self._rows.cuts[0].shape) for _ in bays]
        single = _Single(list(nothing), list(nothing), [self._rise(parts, bay) for bay in bays])
        for mask in masks(tuple(parts))[1:]:
            rows = sum((parts[bay] for bay in mask[1:]), parts[mask[0]])
            for bay in bays:
                pieces = self._rows.of_bay(rows, bay)
                if down_only and name != "D" and not _worst(mask, tuple(parts), bay):
                    continue
                down, up = deflection_peaks(pieces)
                single.down[bay] = np.maximum(single.down[bay], down)
                single.up[bay] = np.minimum(single.up[bay], up)
        return single

    def _rise(self, parts: dict[int, Floats], bay: int) -> Floats:
        """The greatest moment of a bay beside those at its ends; of an overhang the greatest there is."""
        rows = parts.get(bay, parts.get(EVERYWHERE))
        if rows is None or not self._moments_of_types:
            return np.zeros(self._rows.cuts[0].shape)
        pieces = self._rows.of_bay(rows, bay)
        if self.line.bays[bay].kind == "span":
            return moment_rise(pieces)
        top, low, _ = force_peaks(pieces)
        return np.maximum(top, -low)

    def _extremes(self, number: int, support: int, side: str) -> tuple[Floats, Floats] | None:
        case = self._cases[number]
        base = self._rows.face(case.always, support, side)
        if base is None:
            return None
        pushes = [push for rows in case.live.values() if (push := self._rows.face(rows, support, side)) is not None]
        high = sum((np.maximum(push, 0.0) for push in pushes), base)
        low = sum((np.minimum(push, 0.0) for push in pushes), base)
        return high, low

    def _reactions(self, number: int, support: int) -> tuple[Floats, Floats]:
        case = self._cases[number]
        base = self._rows.reaction(case.always, support)
        pushes = [self._rows.reaction(rows, support) for rows in case.live.values()]
        most = sum((np.maximum(push, 0.0) for push in pushes), base)
        least = sum((np.minimum(push, 0.0) for push in pushes), base)
        return most, least

    def _value(self, name: str, number: Floats, unit: str, combination: int) -> Value:
        return Value(name, number, unit, Solved(self.combinations[combination].name, ()))


def _worst(mask: Mask, loaded: Mask, bay: int) -> bool:
    """Whether a pattern of loads that all press down is the worst for the deflection of a bay, down or up.

    A load presses its own bay down, lifts the next, presses the one after that: each bay all over.
    """
    down = tuple(other for other in loaded if (other - bay) % 2 == 0)
    up = tuple(other for other in loaded if (other - bay) % 2)
    return mask in (down, up)


def _lay(sources: tuple[Source, ...], cuts: tuple[Floats, ...]) -> tuple[list[Points | Spreads], list[_Laid]]:
    """The distinct shapes of the sources at unit size, and what each source puts on which of them."""
    shapes: list[Points | Spreads] = []
    numbers: dict[tuple[int, int], int] = {}
    laid: list[_Laid] = []
    for source in sources:
        key = (id(source.station), 0) if source.P is not None else (id(source.start), id(source.end))
        if key not in numbers:
            numbers[key] = len(shapes)
            shapes.append(_shape(source, cuts))
        load = source.P.to("lb") if source.P is not None else source.w.to("lb/in") if source.w is not None else 0.0
        laid.append(_Laid(source.load_type, load, numbers[key]))
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
