"""Thousands of candidate members on one line: the envelope is solved once, self-weight and EI differ.

A case is M(x) = M_loads(x) + w M_self(x): at every section a straight line in the self-weight w. So each greatest value
over x is a convex function of w, and lies below its chord between the lightest and the heaviest candidate. A case whose
chord stays below what another case reaches can nowhere govern, and is left out there; nothing is estimated.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beamcheck.beam.envelope import Envelope, cases, shares
from beamcheck.beam.many import ROOM, Floats, Pieces, deflection_peaks, distinct, force_peaks
from beamcheck.beam.superpose import Figures, Grid, columns, own_weight

_Whole = NDArray[np.intp]


class SweepPeaks(NamedTuple):
    """What governs each candidate over all patterns; shapes (combinations, bays or supports, candidates).

    ``shear`` is a size without sign; ``down`` and ``up`` are in inches, up being negative or zero.
    """

    sagging: Floats
    hogging: Floats
    shear: Floats
    down: Floats
    up: Floats
    most_reaction: Floats
    least_reaction: Floats


class _Cases(NamedTuple):
    """Every pattern of every combination, and the line under a self-weight of one, as rows of figures.

    ``figures`` has the shape (columns, cases), ``own`` (columns,); ``factor`` on the self-weight and the number of the
    ``combination`` have the shape (cases,).
    """

    grid: Grid
    figures: Floats
    own: Floats
    factor: Floats
    combination: _Whole


def sweep(envelope: Envelope, self_weight: Floats, EI: Floats, own_type: str = "D") -> SweepPeaks:
    """Find the peaks of the envelope for candidates with their own self-weight (lb/in) and EI, both of shape (n,).

    The self-weight lies on the whole line and takes the factors of ``own_type``; the loads must not hold it already.
    """
    weights, back = distinct(np.asarray(self_weight, dtype=np.float64))
    every = _cases(envelope, own_type)
    bays = every.grid.bays
    top, low, shear = np.stack([_governing(every, weights, _forces, bay) for bay in bays], axis=2)
    down, up = np.stack([_governing(every, weights, _deflections, bay) for bay in bays], axis=2)
    most, least = _reactions(envelope, every, weights, own_type)
    top, low, shear, down, up, most, least = [
        np.take(figure, back, axis=-1) for figure in (top, -low, shear, down, -up, most, least)
    ]
    return SweepPeaks(top, low, shear, down / EI, up / EI, most, least)


def _cases(envelope: Envelope, own_type: str) -> _Cases:
    line, grid = envelope.line, envelope.units.grid
    rows: list[Figures] = []
    factors: list[float] = []
    numbers: list[int] = []
    for number, combination in enumerate(envelope.combinations):
        patterns = cases(shares(envelope.units, combination)).values()
        rows += patterns
        factors += [combination.factors.get(own_type, 0.0)] * len(patterns)
        numbers += [number] * len(patterns)
    own = own_weight(line, grid)
    return _Cases(grid, np.array(rows).T, np.array(own), np.array(factors), np.array(numbers))


_Peaks = Callable[[Pieces], Floats]


def _forces(pieces: Pieces) -> Floats:
    top, low, size = force_peaks(pieces)
    return np.stack([top, -low, size])


def _deflections(pieces: Pieces) -> Floats:
    down, up = deflection_peaks(pieces)
    return np.stack([down, -up])


def _evaluated(
    every: _Cases, peaks: _Peaks, bay: tuple[int, int], case: _Whole, weight: Floats
) -> Iterator[tuple[slice, Floats]]:
    """The peaks of one bay where case numbers and self-weights meet by broadcasting, figures first; part by part."""
    lo, hi = bay
    h = np.diff(every.grid.stations)[lo:hi].reshape(-1, *[1] * np.broadcast(case, weight).ndim)
    own = every.factor[case] * weight
    step = max(1, ROOM * len(own) // (own.size * (hi - lo)))
    for start in range(0, len(own), step):
        part = slice(start, start + step)
        some, share = case[part], own[part]
        unit = every.own.reshape(-1, *[1] * share.ndim)
        yield part, peaks(Pieces(h, *[every.figures[at][:, some] + share * unit[at] for at in columns(lo, hi)]))


def _governing(every: _Cases, weights: Floats, peaks: _Peaks, bay: tuple[int, int]) -> Floats:
    """The greatest of each figure over the patterns of each combination: shape (figures, combinations, weights)."""
    numbers = np.arange(len(every.factor))
    parts = _evaluated(every, peaks, bay, numbers[:, None], weights[[0, -1]])
    ends = np.concatenate([values for _, values in parts], axis=1)
    best = np.full((len(ends), int(every.combination[-1]) + 1, len(weights)), -np.inf)
    winners = _winners(every, ends)
    for part, values in _evaluated(every, peaks, bay, winners[:, None], weights):
        for i, j in enumerate(winners[part]):
            reached = best[:, every.combination[j]]
            np.maximum(reached, values[:, i], out=reached)
    share = (weights - weights[0]) / (weights[-1] - weights[0] or 1.0)
    rest = []
    for j in sorted({*numbers.tolist()} - {*winners.tolist()}):
        chord = ends[:, j, :1] + (ends[:, j, 1:] - ends[:, j, :1]) * share
        may = np.nonzero((chord > best[:, every.combination[j]]).any(axis=0))[0]
        if len(may):
            rest.append((int(j), may))
    _raise(best, every, weights, peaks, bay, rest)
    return best


def _winners(every: _Cases, ends: Floats) -> _Whole:
    """The cases that govern a figure of their combination for the lightest or the heaviest candidate."""
    winners: set[int] = set()
    for number in range(int(every.combination[-1]) + 1):
        mine = np.nonzero(every.combination == number)[0]
        winners.update(mine[ends[:, mine].argmax(axis=1)].ravel().tolist())
    return np.array(sorted(winners))


def _raise(
    best: Floats,
    every: _Cases,
    weights: Floats,
    peaks: _Peaks,
    bay: tuple[int, int],
    tried: list[tuple[int, _Whole]],
) -> None:
    """Evaluate cases at some of the weights each, and lift ``best`` to what they reach."""
    if not tried:
        return
    case = np.concatenate([np.full(len(at), j) for j, at in tried])
    where = np.concatenate([at for _, at in tried])
    parts = _evaluated(every, peaks, bay, case, weights[where])
    values = np.concatenate([values for _, values in parts], axis=1)
    begin = 0
    for j, at in tried:
        number = every.combination[j]
        best[:, number, at] = np.maximum(best[:, number, at], values[:, begin : begin + len(at)])
        begin += len(at)


def _reactions(envelope: Envelope, every: _Cases, weights: Floats, own_type: str) -> tuple[Floats, Floats]:
    """Greatest and least reactions, shape (combinations, supports, weights): they are straight lines in the weight."""
    first = every.grid.reactions
    most, least = [], []
    for combination in envelope.combinations:
        always, live, _ = shares(envelope.units, combination)
        pushes = np.array([figures[first:] for figures in live.values()]).reshape(-1, len(always) - first)
        own = combination.factors.get(own_type, 0.0) * np.outer(every.own[first:], weights)
        base = np.array(always[first:])
        most.append(own + (base + np.maximum(pushes, 0.0).sum(axis=0))[:, None])
        least.append(own + (base + np.minimum(pushes, 0.0).sum(axis=0))[:, None])
    return np.stack(most), np.stack(least)
