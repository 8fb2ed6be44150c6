"""Thousands of candidate members on one line: the envelope is solved once, self-weight and EI differ.

A case is M(x) = M_loads(x) + w M_self(x): at every section a straight line in the self-weight w. So each greatest value
over x is a convex function of w, and lies below its chord between the lightest and the heaviest candidate. A case whose
chord stays below what another case reaches can nowhere govern, and is left out there; nothing is estimated.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beamcheck.beam.envelope import Envelope, cases, shares
from beamcheck.beam.many import Floats, Pieces, deflection_peaks, force_peaks
from beamcheck.beam.model import Spread
from beamcheck.beam.peaks import Curve, runs
from beamcheck.beam.solver import curve
from beamcheck.beam.superpose import flat

ROOM = 1 << 16
"""Pieces evaluated at a time: keeps the columns small enough for the cache."""

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

    ``figures`` has the shape (cases, columns), ``own`` (columns,); ``factor`` on the self-weight and the number of the
    ``combination`` have the shape (cases,).
    """

    blank: Curve
    figures: Floats
    own: Floats
    factor: Floats
    combination: _Whole


def sweep(envelope: Envelope, self_weight: Floats, EI: Floats, own_type: str = "D") -> SweepPeaks:
    """Find the peaks of the envelope for candidates with their own self-weight (lb/in) and EI, both of shape (n,).

    The self-weight lies on the whole line and takes the factors of ``own_type``; the loads must not hold it already.
    """
    weights, back = np.unique(np.asarray(self_weight, dtype=np.float64), return_inverse=True)
    every = _cases(envelope, own_type)
    bays = runs(every.blank)
    forces = np.stack([_governing(every, weights, _forces, bay) for bay in bays], axis=2)[..., back]
    sunk = np.stack([_governing(every, weights, _deflections, bay) for bay in bays], axis=2)[..., back] / EI
    most, least = _reactions(envelope, every, weights, own_type)
    return SweepPeaks(forces[0], -forces[1], forces[2], sunk[0], -sunk[1], most[..., back], least[..., back])


def _cases(envelope: Envelope, own_type: str) -> _Cases:
    line, blank = envelope.line, envelope.units.blank
    rows: list[list[float]] = []
    factors: list[float] = []
    numbers: list[int] = []
    for number, combination in enumerate(envelope.combinations):
        patterns = cases(*shares(envelope.units, combination)).values()
        rows += patterns
        factors += [combination.factors.get(own_type, 0.0)] * len(patterns)
        numbers += [number] * len(patterns)
    own = flat(curve(line, (Spread(line.start, line.end, 1.0, 1.0),), blank.stations[1:-1]))
    return _Cases(blank, np.array(rows), np.array(own), np.array(factors), np.array(numbers))


_Peaks = Callable[[Pieces], Floats]


def _forces(pieces: Pieces) -> Floats:
    top, low, size = force_peaks(pieces)
    return np.stack([top, -low, size])


def _deflections(pieces: Pieces) -> Floats:
    down, up = deflection_peaks(pieces)
    return np.stack([down, -up])


def _evaluated(every: _Cases, peaks: _Peaks, bay: tuple[int, int], case: _Whole, weight: Floats) -> Floats:
    """The peaks of one bay for rows of (case, self-weight): shape (figures, rows)."""
    lo, hi = bay
    n = len(every.blank.q0)
    h = np.diff(every.blank.stations)[lo:hi]
    begins = [column * n + lo for column in (0, 1, 2, 3, 4)]
    begins += [begins[4] + 1, begins[4] + n + 1, begins[4] + n + 2, begins[4] + 2 * n + 2, begins[4] + 2 * n + 3]
    rows = max(1, ROOM // (hi - lo))
    parts = []
    for start in range(0, len(case), rows):
        j = case[start : start + rows]
        own = (every.factor[j] * weight[start : start + rows])[:, None]
        columns = [every.figures[j, b : b + hi - lo] + own * every.own[b : b + hi - lo] for b in begins]
        parts.append(peaks(Pieces(h, *columns)))
    return np.concatenate(parts, axis=1)


def _governing(every: _Cases, weights: Floats, peaks: _Peaks, bay: tuple[int, int]) -> Floats:
    """The greatest of each figure over the patterns of each combination: shape (figures, combinations, weights)."""
    count, span = len(every.factor), weights[[0, -1]]
    ends = _evaluated(every, peaks, bay, np.repeat(np.arange(count), 2), np.tile(span, count))
    ends = ends.reshape(len(ends), count, 2)
    best = np.full((len(ends), int(every.combination[-1]) + 1, len(weights)), -np.inf)
    winners = _winners(every, ends)
    everywhere = np.arange(len(weights))
    _raise(best, every, weights, peaks, bay, [(j, everywhere) for j in winners])
    share = (weights - span[0]) / (span[1] - span[0] or 1.0)
    rest = []
    for j in set(range(count)) - winners:
        chord = ends[:, j, :1] + (ends[:, j, 1:] - ends[:, j, :1]) * share
        may = np.nonzero((chord > best[:, every.combination[j]]).any(axis=0))[0]
        if len(may):
            rest.append((j, may))
    _raise(best, every, weights, peaks, bay, rest)
    return best


def _winners(every: _Cases, ends: Floats) -> set[int]:
    """The cases that govern a figure of their combination for the lightest or the heaviest candidate."""
    winners = set()
    for number in range(int(every.combination[-1]) + 1):
        cases_of = np.nonzero(every.combination == number)[0]
        winners.update(cases_of[ends[:, cases_of].argmax(axis=1)].ravel().tolist())
    return winners


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
    values = _evaluated(every, peaks, bay, case, weights[np.concatenate([at for _, at in tried])])
    begin = 0
    for j, at in tried:
        number = every.combination[j]
        best[:, number, at] = np.maximum(best[:, number, at], values[:, begin : begin + len(at)])
        begin += len(at)


def _reactions(envelope: Envelope, every: _Cases, weights: Floats, own_type: str) -> tuple[Floats, Floats]:
    """Greatest and least reactions, shape (combinations, supports, weights): they are straight lines in the weight."""
    first = 7 * len(every.blank.q0) + 3
    most, least = [], []
    for combination in envelope.combinations:
        always, live = shares(envelope.units, combination)
        pushes = np.array([figures[first:] for figures in live.values()]).reshape(-1, len(always) - first)
        own = combination.factors.get(own_type, 0.0) * np.outer(every.own[first:], weights)
        base = np.array(always[first:])
        most.append(own + (base + np.maximum(pushes, 0.0).sum(axis=0))[:, None])
        least.append(own + (base + np.minimum(pushes, 0.0).sum(axis=0))[:, None])
    return np.stack(most), np.stack(least)
