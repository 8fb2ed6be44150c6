"""A beam line under its take-down: sources laid on the line, the envelope, and its peaks as Values."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from beamcheck import units
from beamcheck.beam.envelope import Combination as Case
from beamcheck.beam.envelope import Envelope, Governing, envelope
from beamcheck.beam.model import NEAR, Line, Point, Side, Spread
from beamcheck.beam.patterns import Mask
from beamcheck.beam.response import Response
from beamcheck.beam.solver import solve
from beamcheck.checks.demands import Face, Moment, Way
from beamcheck.errors import Fault, InputError
from beamcheck.frozen import dataclass
from beamcheck.standards import nds_2018 as nds
from beamcheck.takedown.sources import LOAD_TYPES, Combination, Source
from beamcheck.trace import Num, Solved, Value, either

_SLACK = 1e-6
_HOGS = -1e-6
_NO_SHEAR = 1e-9


class _Off(NamedTuple):
    """A cut off a bearing: the support, the side of it, half the bearing and the depth d, and d alone."""

    support: int
    side: Side
    reach: float
    d: float

    @property
    def sign(self) -> int:
        """Which way the cut lies off the support."""
        return 1 if self.side == "right" else -1


@dataclass(frozen=True, slots=True, eq=False)
class Loaded:
    """A line with its sources and combinations, solved for strength and, load type by load type, for deflection.

    rises: by load type and bay, what bends the bay by shear; inputs: what the solver was told, for tracing;
    solved: the cases that were asked for, each with its equilibrium error.
    """

    line: Line
    sources: tuple[Source, ...]
    combinations: tuple[Combination, ...]
    strength: Envelope
    single: Envelope
    rises: dict[tuple[str, int], float]
    inputs: tuple[tuple[str, Value], ...]
    solved: dict[tuple[str, Mask], tuple[Response, float]]

    @property
    def transient(self) -> tuple[str, ...]:
        """The load types that act and are not dead load."""
        present = {source.load_type for source in self.sources}
        return tuple(name for name in LOAD_TYPES if name != "D" and name in present)

    @property
    def hogs(self) -> bool:
        """Whether any case bends the line the other way anywhere."""
        return any(governing.value < _HOGS for peaks in self.strength.peaks for governing in peaks.hogging)

    def moment(self, number: int, way: Way) -> Moment:
        """Greatest moment of a combination over its patterns."""
        peaks = self.strength.peaks[number]
        if way == "sagging":
            governing = max(peaks.sagging, key=lambda governing: governing.value)
        else:
            governing = min(peaks.hogging, key=lambda governing: governing.value)
        case = when(self.line, governing)

        def l_0() -> Value:
            origin = Solved(case, self.inputs, at=governing.station)
            return Value("l_0", self._between_zeros(governing), "in", origin)

        return Moment(self.peak("M", governing, "lb*in"), l_0, case)

    def _between_zeros(self, governing: Governing) -> float:
        """Length between points of zero moment beside a peak: the longest of all patterns that make the same peak.

        What lies on other bays does not change the moment over the support of an overhang, but how far it reaches.
        """
        station, slack = governing.station, NEAR * abs(governing.value)
        masks = self.strength.under(governing.combination).masks
        found = (self.strength.response(governing.combination, mask) for mask in {governing.mask, *masks})
        return max(
            response.length_between_zero_moments(station)
            for response in found
            if abs(response.moment(station) - governing.value) <= slack
        )

    def faces(self, number: int) -> Iterable[Face]:
        """Shear on each face of each support under a combination; faces without shear are left out."""
        peaks = self.strength.peaks[number]
        for side, faces in (("left", peaks.shear_left), ("right", peaks.shear_right)):
            for support, governing in enumerate(faces):
                if abs(governing.value) >= _NO_SHEAR:
                    V = self.peak("V", governing, "lb")
                    yield Face(number, support, "left" if side == "left" else "right", V, when(self.line, governing))

    def shear(self, number: int) -> tuple[Value, str]:
        """Shear of the greatest size anywhere under a combination, and its case in words."""
        governing = max(self.strength.peaks[number].shear, key=lambda governing: abs(governing.value))
        return self.peak("V", governing, "lb"), when(self.line, governing)

    def shear_beyond(self, face: Face, half: Num, d: Num) -> Value:
        """Shear half a bearing and a depth off the support, if the bay is long enough, else on the face itself."""
        peaks = self.strength.peaks[face.number]
        governing = (peaks.shear_left if face.side == "left" else peaks.shear_right)[face.support]
        off = _Off(face.support, face.side, float(half + d), float(d))
        found = [clear_shear(*near) for near in self._off_bearing(governing, off)]
        return max(found, key=lambda V: float(V.number), default=face.V)

    def push(self, number: int, support: int, name: str = "R") -> tuple[Value, str]:
        """Greatest reaction of a combination over its patterns, and its case in words."""
        governing = self.strength.peaks[number].most_reaction[support]
        return self.peak(name, _pushing(governing), "lb"), when(self.line, governing)

    def greatest_push(self, support: int) -> tuple[Value, str]:
        """Greatest reaction over all combinations."""
        governing = max((peaks.most_reaction[support] for peaks in self.strength.peaks), key=lambda g: g.value)
        return self.peak("R", _pushing(governing), "lb"), when(self.line, governing)

    def lift(self, support: int) -> tuple[Value, str]:
        """Least reaction over all combinations, with its sign, its combination and pattern."""
        governing = min((peaks.least_reaction[support] for peaks in self.strength.peaks), key=lambda g: g.value)
        case = when(self.line, governing)
        return Value("R", governing.value, "lb", Solved(case, self.inputs)), case

    def moved(self, factors: dict[str, float], bay: int) -> tuple[Value, Value]:
        """EI y and M of a bay under load types alone, each with its worst pattern, summed; an overhang either way."""
        EI_y, M = 0.0, 0.0
        names = []
        overhangs = self.line.bays[bay].kind != "span"
        acting = {source.load_type for source in self.sources}
        for name, factor in factors.items():
            if name not in acting:  # as under a thing as long as its joists, beside which nobody stands
                continue
            peaks = self.single.under(f"{name} alone")
            down, up = peaks.EI_down[bay].value, peaks.EI_up[bay].value
            EI_y += factor * (max(down, -up) if overhangs else max(down, 0.0))
            M += factor * self.rises[name, bay]
            names.append(name if factor == 1 else f"{factor:g} {name}")
        case = Solved(f"{' + '.join(names) or 'nothing'} alone, {self.line.bays[bay].label}", self.inputs)
        return Value("Y", EI_y, "lb*in^3", case), Value("M", M, "lb*in", case)

    def reach(self, bay: int) -> Value:
        """The length that deflection limits go by: the span, or twice an overhang."""
        _, kind, start, end = self.line.bays[bay]
        label = self.line.bays[bay].label
        length, what = (end - start, label) if kind == "span" else (2 * (end - start), f"twice the {label}")
        return Value("l", length, "in", Solved(what, self.inputs))

    def peak(self, name: str, governing: Governing, unit: str) -> Value:
        """A peak of the envelope as a Value that knows its combination, pattern and equilibrium error."""
        _, residual = self._of(governing)
        origin = Solved(when(self.line, governing), self.inputs, residual, governing.station)
        return Value(name, abs(governing.value), unit, origin)

    def _off_bearing(self, governing: Governing, off: _Off) -> Iterator[tuple[Value, Value]]:
        """Shear off a bearing, and the near point loads at x/d of their size; none if the bay is too short.

        The shear is positive where it goes to the support, as that of the near loads does. What lies on other bays
        counts there as on the face, so of all patterns only that with the bay itself otherwise need be tried too.
        """
        station, sign = self.line.supports[off.support], off.sign
        bays = self.line.bays
        own = next((n for n, bay in enumerate(bays) if bay.start < station + sign * _SLACK < bay.end), None)
        if own is None or 2 * off.reach >= bays[own].length:
            return
        yield self._cut(governing, off)
        if any(own in mask for mask in self.strength.under(governing.combination).masks):
            yield self._cut(governing._replace(mask=tuple(sorted({*governing.mask} ^ {own}))), off)

    def _cut(self, case: Governing, off: _Off) -> tuple[Value, Value]:
        response, _ = self._of(case)
        station, sign = self.line.supports[off.support], off.sign
        loads = (load for load in response.loads if isinstance(load, Point))
        near = [load for load in loads if 0 <= sign * (load.station - station) <= off.reach]
        cut, side = station + sign * off.reach, off.side
        V = response.shear(cut, side) - (solve(self.line, near).shear(cut, side) if near else 0.0)
        edge = station + sign * (off.reach - off.d)
        P = sum(abs(load.force) * max(0.0, sign * (load.station - edge)) / off.d for load in near)
        told = when(self.line, case)
        at_depth = Solved(f"half the bearing and a depth d off the bearing, {told}", self.inputs, at=station)
        at_share = Solved(f"point loads nearer than that, at x/d of their size, {told}", self.inputs, at=station)
        return Value("V_d", sign * V, "lb", at_depth), Value("P_d", P, "lb", at_share)

    def _of(self, governing: Governing) -> tuple[Response, float]:
        """The case that governs and its equilibrium error, solved once for all that rests on it."""
        key = governing.combination, governing.mask
        if key not in self.solved:
            strength = governing.combination in {case.name for case in self.strength.combinations}
            response = (self.strength if strength else self.single).response(*key)
            self.solved[key] = response, max(map(abs, response.residual))
        return self.solved[key]


def load_line(
    line: Line, spans: tuple[Value, ...], sources: tuple[Source, ...], combinations: tuple[Combination, ...]
) -> Loaded:
    """Lay the sources on the line and solve it. Raises InputError for a source that lies off the beam."""
    loads = laid(sources, line)
    strength = envelope(
        line,
        loads,
        [Case(c.name, {name: float(g.number) for name, g in c.factors.items()}) for c in combinations],
    )
    single = envelope(line, loads, [Case(f"{name} alone", {name: 1.0}) for name in loads])
    inputs = tuple((f"l_{number + 1}", span) for number, span in enumerate(spans))
    inputs += tuple(
        (f"{source.load_type} of {source.name}", value)
        for source in sources
        for value in (source.w or source.P, source.start, source.end, source.station)
        if value is not None
    )
    return Loaded(line, sources, combinations, strength, single, _rises(single), inputs, {})


def _rises(single: Envelope) -> dict[tuple[str, int], float]:
    """The greatest moment of each bay under each load type on it, beside those at its ends: of it alone, so to say.

    What lies on other bays bends a bay by its ends only, and that is no matter of shear. Of an overhang it is the
    moment over its support.
    """
    found = {}
    for case, peaks in zip(single.combinations, single.peaks, strict=True):
        whole = single.response(case.name, tuple(range(len(single.line.bays))))
        for number, bay in enumerate(single.line.bays):
            most = max(abs(peaks.sagging[number].value), abs(peaks.hogging[number].value))
            rise = whole.moment_rise(number) if bay.kind == "span" and len(single.line.bays) > 1 else most
            found[case.name.removesuffix(" alone"), number] = rise
    return found


def laid(sources: tuple[Source, ...], line: Line) -> dict[str, list[Spread | Point]]:
    """The sources as loads by type, stations from the centre of the left bearing, lb and in."""
    loads: dict[str, list[Spread | Point]] = {}
    for source in sources:
        if source.P is not None:
            station = _on_beam(source.station, line, line.start, f"{source.where}.station")
            load: Spread | Point = Point(station, source.P.to("lb"))
        else:
            assert source.w is not None
            start = _on_beam(source.start, line, line.start, f"{source.where}.from")
            end = _on_beam(source.end, line, line.end, f"{source.where}.to")
            if end - start < _SLACK:
                what = f"begins at {units.format_length(start)} and ends at {units.format_length(end)}"
                raise InputError([Fault(source.where, what, "from must lie before to")])
            w = source.w.to("lb/in")
            load = Spread(start, end, w, w)
        loads.setdefault(source.load_type, []).append(load)
    return loads


def clear_shear(V_d: Value, P_d: Value) -> Value:
    """Shear at a depth from a bearing; where the far loads' goes the other way, the near loads may only lessen it."""
    turned = Value("V", -V_d.number, V_d.unit, V_d.origin)
    return either(V_d.number + P_d.number >= -V_d.number, nds.shear_within_depth(V_d=V_d, P_d=P_d), turned)


def _pushing(governing: Governing) -> Governing:
    """A reaction as a push: nothing where the beam only lifts, which is a stop of its own."""
    return governing._replace(value=max(0.0, governing.value))


def when(line: Line, governing: Governing) -> str:
    """Combination and pattern of a governing figure, in words."""
    return f"{governing.combination}{pattern(line, governing.mask)}"


def pattern(line: Line, mask: Mask) -> str:
    """Which bays carry live load, in words; nothing where there is but one bay or all carry it."""
    if len(line.bays) == 1 or len(mask) == len(line.bays):
        return ""
    if not mask:
        return ", no live load"
    return f", live on {' and '.join(line.bays[bay].label for bay in mask)}"


def _on_beam(value: Value | None, line: Line, default: float, where: str) -> float:
    if value is None:
        return default
    station = float(value.to("in"))
    if not line.start - _SLACK <= station <= line.end + _SLACK:
        ends = f"{units.format_length(line.start)} to {units.format_length(line.end)}"
        raise InputError(
            [
                Fault(
                    where,
                    f"{units.format_length(station)} is off the beam, which runs from {ends}",
                    "measure from the centre of the left bearing",
                )
            ]
        )
    return min(max(station, line.start), line.end)
