"""Shear of many candidates some way off the supports: a depth away, say, where each has its own depth.

At one section the shear is a straight line in the self-weight, and the worst pattern is the sum of all that push one
way. So a section costs two straight lines a combination, whatever the number of patterns.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from beamcheck.beam.envelope import Envelope, shares
from beamcheck.beam.many import Floats, distinct
from beamcheck.beam.model import Bay
from beamcheck.beam.superpose import Figures, columns, own_weight

_Cut = tuple[NDArray[np.intp], Floats]
"""Numbers of pieces and ways into them."""


def clear_shear(envelope: Envelope, self_weight: Floats, distance: Floats, own_type: str = "D") -> Floats:
    """Greatest size of V at ``distance`` and farther from the supports: shape (combinations, bays, candidates).

    Self-weight as in ``sweep``. Of a force that stands at the very distance the near face counts. A bay shorter than
    twice the distance is cut at its middle. Leaves out a turn of V inside a piece, which needs a line load that runs
    from down to up.
    """
    line, grid = envelope.line, envelope.units.grid
    stations, count = np.array(grid.stations), len(grid.spans)
    own = _rows([own_weight(line, grid)], count)[:, 0]
    ways, back = distinct(np.asarray(distance, dtype=np.float64))
    weight = np.asarray(self_weight, dtype=np.float64)
    loads = []
    for combination in envelope.combinations:
        always, live, _ = shares(envelope.units, combination)
        factor = combination.factors.get(own_type, 0.0)
        loads.append((_rows([always], count)[:, 0], _rows(list(live.values()), count), factor * own))
    size = np.zeros((len(loads), len(line.bays), len(weight)))
    for i, (bay, (lo, hi)) in enumerate(zip(line.bays, grid.bays, strict=True)):
        left, right = _ends(bay, ways)
        first = np.clip(np.searchsorted(stations, left, "left") - 1, lo, hi - 1)
        last = np.clip(np.searchsorted(stations, right, "right") - 1, lo, hi - 1)
        for c, parts in enumerate(loads):
            for piece, station in (first, left), (last, right):
                high, low, more = _lines(parts, (piece, station - stations[piece]))
                size[c, i] = np.maximum(size[c, i], _size((high[back], low[back], more[back]), weight))
            for k in range(lo, hi):
                for end in (k, k + 1):
                    figures = _lines(parts, (np.array([k]), stations[[end]] - stations[k]))
                    between = ((left < stations[end]) & (stations[end] < right))[back]
                    size[c, i] = np.where(between, np.maximum(size[c, i], _size(figures, weight)), size[c, i])
    return size


def _rows(figures: list[Figures], count: int) -> Floats:
    """The line load, its slope and V at the start of each of ``count`` pieces: shape (3, rows, pieces)."""
    return np.array([[row[at] for row in figures] for at in columns(0, count)[:3]]).reshape(3, -1, count)


def _ends(bay: Bay, ways: Floats) -> tuple[Floats, Floats]:
    """Where the stretch that counts starts and ends, for every distance."""
    if bay.kind == "span":
        middle = 0.5 * (bay.start + bay.end)
        return np.minimum(bay.start + ways, middle), np.maximum(bay.end - ways, middle)
    if bay.kind == "right overhang":
        return np.minimum(bay.start + ways, bay.end), np.full(ways.shape, bay.end)
    return np.full(ways.shape, bay.start), np.maximum(bay.end - ways, bay.start)


def _lines(parts: tuple[Floats, Floats, Floats], cut: _Cut) -> tuple[Floats, Floats, Floats]:
    """At each cut: greatest V, least V, and what one unit of self-weight adds."""
    always, live, own = parts
    pushes, base = _shear(live, cut), _shear(always, cut)
    high, low = base + np.maximum(pushes, 0.0).sum(axis=0), base + np.minimum(pushes, 0.0).sum(axis=0)
    return high, low, _shear(own, cut)


def _shear(rows: Floats, cut: _Cut) -> Floats:
    q0, slope, V0 = rows
    piece, x = cut
    shear: Floats = V0[..., piece] - x * (q0[..., piece] + 0.5 * x * slope[..., piece])
    return shear


def _size(figures: tuple[Floats, Floats, Floats], weight: Floats) -> Floats:
    high, low, own = figures
    size: Floats = np.maximum(high + own * weight, -(low + own * weight))
    return size
