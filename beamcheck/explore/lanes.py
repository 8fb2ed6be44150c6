"""One beam in thousands of lanes whose loads and stations all differ: ``Demands`` in arrays over the lanes."""

from collections.abc import Iterable, Iterator

import numpy as np

from beamcheck.beam.many import Floats
from beamcheck.beam.model import Line
from beamcheck.beam.moved import Points
from beamcheck.checks.demands import Face, Moment, Way
from beamcheck.checks.lines import clear_shear
from beamcheck.explore.between_zeros import between_zeros, longest
from beamcheck.explore.cases import Case, Cases, Lit
from beamcheck.explore.rows import EVERYWHERE
from beamcheck.takedown.sources import Combination, Source
from beamcheck.trace import Num, Solved, Value, either

_HOGS = -1e-6


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
        kinds = tuple(bay.kind for bay in line.bays)
        self._of = Cases(kinds, cuts, sources, shear_bends=shear_bends)
        self._cases = [self._of.case({name: float(g.number) for name, g in c.factors.items()}) for c in combinations]
        self._moments = [self._of.greatest(case) for case in self._cases]
        self._single = {name: self._of.alone(name) for name in ("D", *self.transient)}

    @property
    def transient(self) -> tuple[str, ...]:
        """The load types that act and are not dead load."""
        return self._of.transient

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
            for rows in self._of.patterns(self._cases[number]):
                peak, between = between_zeros(*self._of.rows.whole(rows), sign)
                best, length = longest(best, length, peak, between)
            return self._value("l_0", length, "in", number)

        M = top if way == "sagging" else -low
        return Moment(self._value("M", np.abs(M), "lb*in", number), l_0, self.combinations[number].name)

    def faces(self, number: int) -> Iterable[Face]:
        """Shear on each face of each support that has beam on that side."""
        for side in ("left", "right"):
            for support in range(len(self._of.rows.posts)):
                found = self._of.extremes(self._cases[number], support, side)
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
        bay = self._of.rows.bay_beside(face.support, face.side)
        found = self._of.extremes(self._cases[face.number], face.support, face.side)
        assert bay is not None and found is not None
        case, sign = self._cases[face.number], 1.0 if face.side == "right" else -1.0
        length = self._of.rows.cuts[bay + 1] - self._of.rows.cuts[bay]
        reach = np.minimum(half + d, length)
        support = self._of.rows.posts[face.support]
        up = found[0] >= -found[1]
        carried = {
            other: np.where(up, push > 0.0, push < 0.0)
            for other, rows in case.live.items()
            if (push := self._of.rows.face(rows, face.support, face.side)) is not None
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
        V = self._of.rows.shear_at(case.always, bay, cut, face.side)
        for other, there in carried.items():
            V = V + np.where(there, self._of.rows.shear_at(case.live[other], bay, cut, face.side), 0.0)
        P = np.zeros(V.shape)
        for load, share, there, unit in self._near(case, carried, at):
            V = V - np.where(there, load * self._of.rows.shear_at(unit, bay, cut, face.side), 0.0)
            P = P + np.where(there, np.abs(load) * np.maximum(share - half, 0.0) / d, 0.0)
        return sign * V, P

    def _near(
        self, case: Case, carried: dict[int, Lit], at: tuple[Floats, float, Floats]
    ) -> Iterator[tuple[Num, Floats, Lit, Floats]]:
        """Point loads nearer to a support than the cut: size, way from the support, in which lanes, and unit rows."""
        support, sign, reach = at
        for load_type, size, number in self._of.laid:
            shape, factor = self._of.shapes[number], case.factors.get(load_type, 0.0)
            if not isinstance(shape, Points) or not factor:
                continue
            off = sign * (shape.station - support)
            near = (off >= 0.0) & (off < reach)
            if not np.any(near):
                continue
            if load_type == "D":
                yield factor * size, off, near, self._of.unit(number, EVERYWHERE)
                continue
            for bay, there in carried.items():
                yield factor * size, off, near & there & self._of.in_bay(shape, bay), self._of.unit(number, bay)

    def push(self, number: int, support: int, name: str = "R") -> tuple[Value, str]:
        """Greatest reaction of a combination over its patterns."""
        R = np.maximum(self._of.reactions(self._cases[number], support)[0], 0.0)
        return self._value(name, R, "lb", number), self.combinations[number].name

    def greatest_push(self, support: int) -> tuple[Value, str]:
        """Greatest reaction over all combinations."""
        R = np.max([self._of.reactions(self._cases[number], support)[0] for number in range(len(self._cases))], axis=0)
        return Value("R", np.maximum(R, 0.0), "lb", Solved("the worst combination", ())), ""

    def lift(self, support: int) -> tuple[Value, str]:
        """Least reaction over all combinations: below zero the beam lifts."""
        R = np.min([self._of.reactions(self._cases[number], support)[1] for number in range(len(self._cases))], axis=0)
        return Value("R", R, "lb", Solved("the worst combination", ())), ""

    def moved(self, factors: dict[str, float], bay: int) -> tuple[Value, Value]:
        """EI y and M of a bay under load types alone, each with its worst pattern, summed; an overhang either way."""
        shape = self._of.rows.cuts[0].shape
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
        length = self._of.rows.cuts[bay + 1] - self._of.rows.cuts[bay]
        here = self.line.bays[bay]
        return Value("l", length * (1 if here.kind == "span" else 2), "in", Solved(here.label, ()))

    def _value(self, name: str, number: Floats, unit: str, combination: int) -> Value:
        return Value(name, number, unit, Solved(self.combinations[combination].name, ()))
