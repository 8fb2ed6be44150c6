"""Length between the points of zero moment on both sides of the greatest moment, for many lines at once.

As ``Response.length_between_zero_moments`` does for one: roots inside their pieces, and the stations that touch zero.
"""

import numpy as np

from beamcheck.beam.many import Floats, Pieces
from beamcheck.beam.model import NEAR


def between_zeros(pieces: Pieces, stations: Floats, sign: float) -> tuple[Floats, Floats]:
    """Greatest moment of the sign, and the length between the zeros beside it; both of shape (lines,).

    Where no moment is of that sign the length is that of the line, which lowers a value the most.
    pieces: the whole line, shape (pieces, lines), each under a uniform load; stations: one more than there are pieces.
    """
    h, q, _, V, V1, M, M1, *_ = pieces
    start = stations[:-1]
    turn = np.divide(V, q, out=np.zeros(M.shape), where=V * V1 < 0.0)
    turned = np.where(V * V1 < 0.0, M + turn * (V - 0.5 * turn * q), M)
    values = sign * np.stack([M, turned, M1], axis=1).reshape(-1, M.shape[-1])
    places = np.stack([start, start + turn, stations[1:]], axis=1).reshape(values.shape)
    at = values.argmax(axis=0)[None]
    peak, place = np.take_along_axis(values, at, 0)[0], np.take_along_axis(places, at, 0)[0]
    zeros = np.concatenate([_inside(h, q, V, M, start), _touching(M, M1, stations)])
    left = np.where(zeros < place, zeros, -np.inf).max(axis=0)
    right = np.where(zeros >= place, zeros, np.inf).min(axis=0)
    between = np.minimum(right, stations[-1]) - np.maximum(left, stations[0])
    return peak, np.where(between > 0.0, between, stations[-1] - stations[0])


def longest(best: Floats, length: Floats, peak: Floats, between: Floats) -> tuple[Floats, Floats]:
    """The greater peak and its length, line by line; of peaks that are alike the longer length."""
    slack = NEAR * np.abs(peak)
    alike = (peak <= best + slack) & (peak >= best - slack)
    kept = np.where(peak > best, between, length)
    return np.maximum(best, peak), np.where(alike, np.maximum(length, between), kept)


def _inside(h: Floats, q: Floats, V: Floats, M: Floats, start: Floats) -> Floats:
    """Stations inside pieces where M + V x - q x^2/2 is zero; NaN where there is none."""
    root = np.sqrt(np.maximum(V * V + 2.0 * q * M, 0.0))
    sum_ = -V + np.copysign(root, -V)
    found = []
    with np.errstate(divide="ignore", invalid="ignore"):
        for x in (2.0 * M / sum_, np.where(q == 0.0, np.nan, -sum_ / q)):
            real = (x > 0.0) & (x < h) & (V * V + 2.0 * q * M >= 0.0)
            found.append(np.where(real, start + x, np.nan))
    return np.concatenate(found)


def _touching(M: Floats, M1: Floats, stations: Floats) -> Floats:
    """Stations between pieces where the moment is as good as zero; NaN elsewhere."""
    moments = np.concatenate([M, M1[-1:]])
    slack = NEAR * np.abs(moments).max(axis=0)
    return np.where(np.abs(moments) <= slack, stations, np.nan)
