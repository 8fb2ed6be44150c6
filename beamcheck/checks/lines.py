"""A beam line under its take-down: sources laid on the line, the envelope, and its peaks as Values."""

from collections.abc import Iterable
from dataclasses import dataclass

from beamcheck import units
from beamcheck.beam.envelope import Combination as Case
from beamcheck.beam.envelope import Envelope, Governing, envelope
from beamcheck.beam.model import Line, Point, Spread
from beamcheck.beam.patterns import Mask
from beamcheck.beam.response import Response
from beamcheck.beam.solver import solve
from beamcheck.checks.demands import Face, Moment, Way
from beamcheck.errors import Fault, InputError
from beamcheck.standards import nds_2018 as nds
from beamcheck.takedown.sources import LOAD_TYPES, Combination, Source
from beamcheck.trace import Num, Solved, Value

_SLACK = 1e-6
_HOGS = -1e-6
_NO_SHEAR = 1e-9


@dataclass(frozen=True, slots=True, eq=False)
class Loaded:
    """A line with its sources and combinations, solved for strength and, load type by load type, for deflection.

    spans: one Value a span; inputs: what the solver was told, for tracing.
    """

    line: Line
    sources: tuple[Source, ...]
    combinations: tuple[Combination, ...]
    strength: Envelope
    single: Envelope
    inputs: tuple[tuple[str, Value], ...]

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
            response = self.strength.response(governing.combination, governing.mask)
            length = response.length_between_zero_moments(governing.station)
            return Value("l_0", length, "in", Solved(case, self.inputs))

        return Moment(self.peak("M", governing, "lb*in"), l_0, case)

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
        near = self.shear_at_depth(governing, face.support, face.side, float(half + d), float(d))
        return face.V if near is None else nds.shear_within_depth(V_d=near[0], P_d=near[1])

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
        case = f"{governing.combination}{pattern(self.line, governing.mask)}"
        return Value("R", governing.value, "lb", Solved(case, self.inputs)), case

    def moved(self, factors: dict[str, float], bay: int) -> tuple[Value, Value]:
        """EI y and M of a bay under load types alone, each with its worst pattern, summed; an overhang either way."""
        EI_y, M = 0.0, 0.0
        names = []
        overhangs = self.line.bays[bay].kind != "span"
        for name, factor in factors.items():
            peaks = self.single.under(f"{name} alone")
            down, up = peaks.EI_down[bay].value, peaks.EI_up[bay].value
            EI_y += factor * (max(down, -up) if overhangs else max(down, 0.0))
            M += factor * (max(peaks.sagging[bay].value, 0.0) + max(-peaks.hogging[bay].value, 0.0))
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
        response = self._of(governing)
        residual = max(abs(response.residual.force), abs(response.residual.moment))
        return Value(name, abs(governing.value), unit, Solved(when(self.line, governing), self.inputs, residual))

    def shear_at_depth(
        self, governing: Governing, support: int, face: str, reach: float, d: float
    ) -> tuple[Value, Value] | None:
        """Shear at ``reach`` from a support, and the near point loads at x/d of their size; None if the bay is too short.

        face: the side of the support, "left" or "right"; reach: half the bearing and the depth d.
        """
        station = self.line.supports[support]
        sign = 1 if face == "right" else -1
        cut = station + sign * reach
        bay = next((bay for bay in self.line.bays if bay.start < station + sign * _SLACK < bay.end), None)
        if bay is None or 2 * reach >= bay.length:
            return None
        response = self._of(governing)
        edge = station + sign * (reach - d)
        near = [
            load for load in response.loads if isinstance(load, Point) and 0 <= sign * (load.station - station) < reach
        ]
        far = [load for load in response.loads if load not in near]
        V = abs(solve(self.line, far).shear(cut, "left" if face == "left" else "right"))
        P = sum(abs(load.force) * max(0.0, sign * (load.station - edge)) / d for load in near)
        method = when(self.line, governing)
        return (
            Value(
                "V_d",
                V,
                "lb",
                Solved(f"{method}; {units.format_length(reach)} from the bearing's centre", self.inputs),
            ),
            Value("P_d", P, "lb", Solved(f"{method}; point loads nearer than that, at x/d", self.inputs)),
        )

    def _of(self, governing: Governing) -> Response:
        for solved in (self.strength, self.single):
            if governing.combination in {case.name for case in solved.combinations}:
                return solved.response(governing.combination, governing.mask)
        raise KeyError(governing.combination)


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
    return Loaded(line, sources, combinations, strength, single, inputs)


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


def _pushing(governing: Governing) -> Governing:
    """A reaction as a push: nothing where the beam only lifts, which is a stop of its own."""
    return governing._replace(value=max(0.0, governing.value))


def when(line: Line, governing: Governing) -> str:
    """Combination, pattern and station of a governing figure, in words."""
    return f"{governing.combination}{pattern(line, governing.mask)}, at {units.format_length(governing.station)}"


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
