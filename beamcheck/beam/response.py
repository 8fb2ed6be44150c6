"""What a solved beam line answers: reactions, peaks, and any value at any station."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from operator import itemgetter
from typing import NamedTuple

from beamcheck.beam.model import NEAR, Line, Load, Peak, Point, Side, Spread, inch
from beamcheck.beam.peaks import (
    BarePiece,
    Curve,
    bends,
    crossings,
    deflection_in,
    deflection_peaks,
    force_peaks,
    moment_in,
    runs,
    shear_in,
)
from beamcheck.errors import OutOfRange


class Piece(NamedTuple):
    """A stretch on which the line load is one straight line: the state at its start, x measured from there.

    V = V - q0 x - slope x^2/2, and so on down to EI_y (see ``solver``); M is a cubic, one Bezier curve to draw.
    """

    start: float
    end: float
    q0: float
    slope: float
    V: float
    M: float
    EI_theta: float
    EI_y: float


class Peaks(NamedTuple):
    """Greatest and least values of a bay or of the whole line, with their signs.

    ``sagging`` and ``hogging`` are the greatest and the least moment, ``shear`` is that of the greatest size,
    ``EI_down`` and ``EI_up`` the greatest and least deflection times EI.
    """

    sagging: Peak
    hogging: Peak
    shear: Peak
    EI_down: Peak
    EI_up: Peak


class Residual(NamedTuple):
    """What is left of the balance, loads against reactions, as shares of the loads' own size: rounding only."""

    force: float
    moment: float


class Response(NamedTuple):
    """One line under one set of loads. EI enters only where a deflection in inches is asked for.

    ``bay`` counts from the left as ``line.bays`` does; without it a question is put to the whole line.
    """

    line: Line
    loads: tuple[Load, ...]
    curve: Curve

    @property
    def reactions(self) -> tuple[float, ...]:
        """Upward force of each support on the beam; negative where the beam must be held down."""
        return tuple(self.curve.reactions)

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """The polynomials, from left to right, for drawing and for checking by hand."""
        return tuple(Piece(x, end, q, g, V, M, T, Y) for x, end, M, T, Y, q, g, V, *_ in self.curve.pieces)

    def peaks(self, bay: int | None = None) -> Peaks:
        """All the peaks at once: one pass over the pieces."""
        pieces = self.curve.pieces if bay is None else self._bay(bay)
        new = tuple.__new__  # half the time of the calls by name
        top, low, shear = force_peaks(pieces)
        down, up = deflection_peaks(pieces)
        return new(Peaks, (new(Peak, top), new(Peak, low), new(Peak, shear), new(Peak, down), new(Peak, up)))

    def sagging(self, bay: int | None = None) -> Peak:
        """Greatest moment."""
        return self.peaks(bay).sagging

    def hogging(self, bay: int | None = None) -> Peak:
        """Least moment: negative where the top is in tension."""
        return self.peaks(bay).hogging

    def greatest_shear(self, bay: int | None = None) -> Peak:
        """Shear of the greatest size, with its sign."""
        return self.peaks(bay).shear

    def moment_rise(self, bay: int) -> float:
        """Greatest distance of the moment from the straight line between those at the ends of a bay."""
        pieces = self._bay(bay)
        start, _, first, *_ = pieces[0]
        _, stop, *_, last, _, _ = pieces[-1]
        slope = (last - first) / (stop - start)
        greatest = 0.0
        for piece in pieces:
            x, end, _, _, _, q, g, V, *_ = piece
            for s in (0.0, *crossings(V - slope, q, g, end - x)):
                greatest = max(greatest, abs(moment_in(piece, s) - first - slope * (x - start + s)))
        return greatest

    def down(self, EI: float, bay: int | None = None) -> Peak:
        """Greatest downward deflection."""
        value, station = self.peaks(bay).EI_down
        return Peak(value / EI, station)

    def up(self, EI: float, bay: int | None = None) -> Peak:
        """Greatest upward deflection, which is negative; zero where there is none."""
        value, station = self.peaks(bay).EI_up
        return Peak(value / EI, station)

    def moment(self, station: float) -> float:
        """Moment at a station."""
        piece = self._piece(station, "right")
        return moment_in(piece, station - piece[0])

    def shear(self, station: float, side: Side) -> float:
        """Shear just left or just right of the station: they differ by what stands there."""
        piece = self._piece(station, side)
        if station == (self.line.start if side == "left" else self.line.end):
            return 0.0
        return shear_in(piece, station - piece[0])

    def deflection(self, station: float, EI: float) -> float:
        """Deflection at a station, down positive."""
        piece = self._piece(station, "right")
        return deflection_in(piece, station - piece[0]) / EI

    def zero_moments(self) -> tuple[float, ...]:
        """Stations where the moment is zero: free and simply supported ends, and every change of sign between."""
        pieces = self.curve.pieces
        inner: list[float] = []
        moments = [(pieces[0][0], pieces[0][2])]
        for left, right, m, _, _, q, g, v, _, n, _, _ in pieces:
            inner += [left + x for x in bends(m, v, q, g, right - left)]
            moments.append((right, n))
        touch = NEAR * max(abs(M) for _, M in moments)
        ends = [station for station, M in moments if abs(M) <= touch]
        return tuple(sorted({*inner, *ends, self.line.start, self.line.end}))

    def length_between_zero_moments(self, station: float) -> float:
        """Distance between the points of zero moment left and right of the station (of a peak, say)."""
        self._piece(station, "left")
        zeros = self.zero_moments()
        right = min(max(bisect_left(zeros, station), 1), len(zeros) - 1)
        return zeros[right] - zeros[right - 1]

    @property
    def residual(self) -> Residual:
        """Loads against reactions, summed anew: forces, and moments about the first support."""
        about = self.line.supports[0]
        forces = [-R for R in self.reactions]
        arms = [support - about for support in self.line.supports]
        for load in self.loads:
            if isinstance(load, Point):
                forces.append(load.force)
                arms.append(load.station - about)
            elif isinstance(load, Spread):
                third = (load.end - load.start) / 3.0
                forces += [load.first * 1.5 * third, load.last * 1.5 * third]
                arms += [load.start + third - about, load.end - third - about]
        size = sum(map(abs, forces)) or 1.0
        span = self.line.end - self.line.start
        moment = sum(force * arm for force, arm in zip(forces, arms, strict=True))
        return Residual(sum(forces) / size, moment / (size * span))

    def _bay(self, bay: int) -> list[BarePiece]:
        """The pieces of a bay."""
        pieces, at, _ = self.curve
        bays = runs(at, len(pieces))
        if not 0 <= bay < len(bays):
            raise OutOfRange(f"bay {bay}: the beam has {len(bays)} bays\n  count them from 0, from the left")
        lo, hi = bays[bay]
        return pieces[lo:hi]

    def _piece(self, station: float, side: Side) -> BarePiece:
        """The piece that holds a station, the one on the given side where two meet."""
        pieces = self.curve.pieces
        start, end = pieces[0][0], pieces[-1][1]
        if not start <= station <= end:
            raise OutOfRange(
                f"station {inch(station)}: the beam runs from {inch(start)} to {inch(end)}\n"
                "  ask for a station on the beam"
            )
        k = (bisect_right if side == "right" else bisect_left)(pieces, station, key=itemgetter(0)) - 1
        return pieces[max(k, 0)]
