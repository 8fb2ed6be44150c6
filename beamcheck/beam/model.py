"""What the beam solver is told: one straight beam, its supports, its loads; and the sign convention.

Stations run to the right along the beam, in inches from any origin (the left bearing is the usual one).
Loads and deflections are positive downward, reactions positive upward, sagging moment positive.
The shear V is the sum of the upward forces left of the cut; so a simple span starts with V > 0.
Units: lb, in; line loads lb/in, moments lb*in, EI lb*in^2. The beam is prismatic and bends only (no shear term).
"""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise
from math import isfinite
from typing import Literal, NamedTuple

from beamcheck.errors import OutOfRange
from beamcheck.frozen import dataclass

Side = Literal["left", "right"]
"""The face of a cut on which a shear is read where it jumps: just left or just right of the station."""

BayKind = Literal["left overhang", "span", "right overhang"]

NEAR = 1e-9
"""Stations closer than this share of the beam's length are the same station (rounding of fractions of an inch)."""


class Point(NamedTuple):
    """A force at one station."""

    station: float
    force: float


class Spread(NamedTuple):
    """A line load that runs straight from ``first`` at ``start`` to ``last`` at ``end``: uniform, partial, triangle."""

    start: float
    end: float
    first: float
    last: float


class Settlement(NamedTuple):
    """A support that goes down by itself; ``EI_drop`` is its way down times EI (lb*in^3), as deflections are kept."""

    support: int
    EI_drop: float


Load = Point | Spread | Settlement


class Peak(NamedTuple):
    """A greatest or least value, with its sign, and the station where it stands."""

    value: float
    station: float


class Bay(NamedTuple):
    """A stretch of the beam between neighbouring supports, or beyond the last one: what a live load may skip."""

    label: str
    kind: BayKind
    start: float
    end: float

    @property
    def length(self) -> float:
        """From end to end."""
        return self.end - self.start


@dataclass(frozen=True, slots=True, eq=False)
class Line:
    """A straight beam on two or more supports, with or without overhangs.

    Raises OutOfRange if the supports cannot hold it: fewer than two, not in order, or without a span between.
    """

    supports: tuple[float, ...]
    left_overhang: float = 0.0
    right_overhang: float = 0.0

    def __post_init__(self) -> None:
        supports = self.supports
        if len(supports) < 2 or not isfinite(supports[0] + supports[-1]):
            raise OutOfRange(_not_held(supports))
        shortest = NEAR * (supports[-1] - supports[0])
        before = supports[0]
        for support in supports[1:]:
            if not (support > before and support - before >= shortest):
                raise OutOfRange(_no_span(supports, before, support))
            before = support
        if not (0.0 <= self.left_overhang < 1e9 and 0.0 <= self.right_overhang < 1e9):
            raise OutOfRange(_bad_overhang(self.left_overhang, self.right_overhang))

    @property
    def start(self) -> float:
        """Station of the left end."""
        return self.supports[0] - self.left_overhang

    @property
    def end(self) -> float:
        """Station of the right end."""
        return self.supports[-1] + self.right_overhang

    @property
    def bays(self) -> tuple[Bay, ...]:
        """Left overhang, spans, right overhang, from the left; masks of live load count them from 0."""
        return _bays(self)


@lru_cache(maxsize=16)
def _bays(line: Line) -> tuple[Bay, ...]:
    """The bays of a line, which every figure of a study asks for."""
    supports = line.supports
    bays = [Bay(f"span {i + 1}", "span", a, b) for i, (a, b) in enumerate(pairwise(supports))]
    start, end = line.start, line.end
    if start < supports[0]:
        bays.insert(0, Bay("left overhang", "left overhang", start, supports[0]))
    if end > supports[-1]:
        bays.append(Bay("right overhang", "right overhang", supports[-1], end))
    return tuple(bays)


def inch(length: float) -> str:
    """A station as messages print it: enough digits to see the slip, no trailing zeros."""
    return f"{length:.10g} in"


def _not_held(supports: tuple[float, ...]) -> str:
    if not supports:
        return "beam line: has no support\n  give the stations of at least two supports"
    if len(supports) == 1:
        return f"beam line: has one support, at {inch(supports[0])}, and would tip about it\n  give a second support"
    return (
        f"beam line: a support stands at {supports[0]!r} or {supports[-1]!r}, not a length\n  give stations in inches"
    )


def _no_span(supports: tuple[float, ...], left: float, right: float) -> str:
    stations = ", ".join(inch(support) for support in supports)
    fault = "no span between" if left <= right else "supports out of order:"
    return (
        f"beam line: {fault} {inch(left)} and {inch(right)} (supports at {stations})\n"
        "  give each support once, from left to right"
    )


def _bad_overhang(left: float, right: float) -> str:
    return f"beam line: overhangs of {inch(left)} and {inch(right)}\n  give lengths of zero or more"
