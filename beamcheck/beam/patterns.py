"""Live load may leave any bay empty: loads cut into bays, and the masks of bays that carry them."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from itertools import combinations

from beamcheck.beam.model import NEAR, Bay, Load, Point, Spread

Mask = tuple[int, ...]
"""The bays that carry transient load, by number from the left, as ``Line.bays`` lists them."""


@lru_cache(maxsize=32)
def masks(bays: tuple[int, ...]) -> tuple[Mask, ...]:
    """Every choice of the given bays, from none to all."""
    return tuple(mask for size in range(len(bays) + 1) for mask in combinations(bays, size))


def by_bay(loads: Iterable[Load], bays: tuple[Bay, ...]) -> list[list[Load]]:
    """The loads of each bay, spread loads being cut at the supports; a point over a support goes to the left bay.

    A settlement is no load of a bay and is left out.
    """
    parts: list[list[Load]] = [[] for _ in bays]
    slack = NEAR * (bays[-1].end - bays[0].start)
    for load in loads:
        if isinstance(load, Point):
            number = next((i for i, bay in enumerate(bays) if load.station <= bay.end + slack), len(bays) - 1)
            parts[number].append(load)
        elif isinstance(load, Spread):
            for part, bay in zip(parts, bays, strict=True):
                piece = _cut(load, bay.start, bay.end, slack)
                if piece:
                    part.append(piece)
    return parts


def _cut(load: Spread, start: float, end: float, slack: float) -> Spread | None:
    """The stretch of a spread load that lies between two stations."""
    left, right = max(load.start, start), min(load.end, end)
    if right - left <= slack:
        return None
    slope = (load.last - load.first) / (load.end - load.start)
    first = load.first + slope * (left - load.start) if left > load.start else load.first
    last = load.last - slope * (load.end - right) if right < load.end else load.last
    return Spread(left, right, first, last)
