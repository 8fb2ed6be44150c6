"""Walks of a figure away from where it is likely to be, each up to the last place at which there is a study."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np

from beamcheck.beam.many import Floats, distinct
from beamcheck.explore.groups import Group, looks
from beamcheck.explore.inputs import Ranged, Stop

_HALVINGS = 14


class Walk(NamedTuple):
    """One figure: its range as far as there are studies, the places of its looks, and each target there.

    lines: the worst utilisation of each target at each place, shape (targets, places); not a number where it has none.
    """

    ranged: Ranged
    places: Floats
    lines: Floats

    @property
    def middle(self) -> int:
        """The place of the likely figure."""
        return int(np.argmin(np.abs(self.places - self.ranged.likely)))

    def ways(self) -> tuple[range, range]:
        """The places outwards from the likely figure, itself the first: upwards and downwards."""
        return range(self.middle, len(self.places)), range(self.middle, -1, -1)


class _Gap(NamedTuple):
    """A target of a figure that is there at one place and not at the next."""

    figure: int
    target: int
    there: float
    gone: float


def walks(group: Group, grids: Sequence[Floats]) -> tuple[Walk, ...]:
    """Each figure of a group over its grid, with the last place of each target on either side put in."""
    begun = _walked(group, grids, looks(group, grids))
    gaps = _narrowed(group, list(_gaps(begun)))
    if not gaps:
        return begun
    more = [np.array([gap.there for gap in gaps if gap.figure == n], dtype=float) for n in range(len(begun))]
    found = [_with(walk, added) for walk, added in zip(begun, _walked(group, more, looks(group, more)), strict=True)]
    return tuple(_clipped(group, walk, [g for g in gaps if g.figure == n]) for n, walk in enumerate(found))


def _walked(group: Group, grids: Sequence[Floats], lines: Floats) -> tuple[Walk, ...]:
    cuts = np.cumsum([len(grid) for grid in grids])[:-1]
    parts = np.split(lines, cuts, axis=1) if group.ranged else []
    return tuple(Walk(*of) for of in zip(group.ranged, grids, parts, strict=True))


def _with(walk: Walk, added: Walk) -> Walk:
    """A walk with more places in it."""
    places = np.concatenate([walk.places, added.places])
    lines = np.concatenate([walk.lines, added.lines], axis=1)
    order = np.argsort(places, kind="stable")
    order = order[np.diff(places[order], prepend=-np.inf) > 0.0]
    return walk._replace(places=places[order], lines=lines[:, order])


def _gaps(begun: tuple[Walk, ...]) -> Iterator[_Gap]:
    """Where each target is first lost on each way out; one of them where there is no study, so that all are lost."""
    for figure, walk in enumerate(begun):
        there = ~np.isnan(walk.lines)
        for way in walk.ways():
            lost: dict[tuple[int, int], int] = {}
            for target in range(len(there)):
                end = next((k for k in way[1:] if not there[target, k]), None)
                if end is not None and there[target, walk.middle]:
                    lost.setdefault((end, target if there[:, end].any() else -1), target)
            for (end, _), target in lost.items():
                yield _Gap(figure, target, float(walk.places[end - way.step]), float(walk.places[end]))


def _narrowed(group: Group, gaps: list[_Gap]) -> list[_Gap]:
    """The gaps halved, all at once, until as good as nothing is left of them."""
    for _ in range(_HALVINGS if gaps else 0):
        middles = [(gap.there + gap.gone) / 2 for gap in gaps]
        settings = [{group.ranged[gap.figure].where: x} for gap, x in zip(gaps, middles, strict=True)]
        ratios = group.work(settings)
        gaps = [
            gap._replace(there=x)
            if any(ratios[key][n] == ratios[key][n] for key in group.targets[gap.target].checks if key in ratios)
            else gap._replace(gone=x)
            for n, (gap, x) in enumerate(zip(gaps, middles, strict=True))
        ]
    return gaps


def _clipped(group: Group, walk: Walk, gaps: list[_Gap]) -> Walk:
    """The range as far as any target is there, and why it stops short of its own end."""
    one = walk.ranged
    alive = [bool((~np.isnan(column)).any()) for column in walk.lines.T]
    for wanted, way in zip((one.high, one.low), walk.ways(), strict=True):
        end = next((k for k in way[1:] if not alive[k]), None)
        if end is None or (wanted - walk.places[end]) * way.step < 0.0:
            continue
        at = float(walk.places[end - way.step])
        beyond = next((gap.gone for gap in gaps if gap.there == at), float(walk.places[end]))
        stop = Stop(at, group.why({one.where: beyond}) or "none of its links is shown")
        one = one._replace(high=at) if way.step > 0 else one._replace(low=at)
        one = one._replace(stops=(*one.stops, stop))
    return walk._replace(ranged=one)


def grid(one: Ranged, ends: tuple[float, float], steps: int) -> Floats:
    """The range of a figure, and places in even ratios out to the given ends."""
    low, high = min(ends[0], one.low), max(ends[1], one.high)
    share = np.linspace(0.0, 1.0, steps + 1)
    down, up = one.likely * (low / one.likely) ** share, one.likely * (high / one.likely) ** share
    return distinct(np.concatenate([down, [one.low, one.likely, one.high], up]))[0]
