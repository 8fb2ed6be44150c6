"""The peaks of many pieces at once: the formulas of ``peaks`` on numpy arrays.

Roots are clamped to their pieces, so that no candidate can exceed the true peak and no division makes a NaN.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


ROOM = 15_000
"""Pieces to evaluate at a time: columns small enough for the cache."""

np.empty(1 << 21)  # 16 MB, never touched and let go at once: from now on the C library keeps freed columns for the next

_3, _6, _24 = 1.0 / 3.0, 1.0 / 6.0, 1.0 / 24.0


class Pieces(NamedTuple):
    """Pieces of many cases, pieces along the first axis; V1, M1, T1, Y1 stand at their ends.

    All have one shape (pieces, ...), but ``h`` may broadcast to it.
    """

    h: Floats
    q: Floats
    g: Floats
    V: Floats
    V1: Floats
    M: Floats
    M1: Floats
    T: Floats
    T1: Floats
    Y: Floats
    Y1: Floats


def all_peaks(p: Pieces) -> Floats:
    """Greatest M, least M, greatest size of V, greatest and least EI y: one row each."""
    return np.stack([*force_peaks(p), *deflection_peaks(p)])


def distinct(figures: Floats) -> tuple[Floats, NDArray[np.intp]]:
    """The figures that differ, in order, and for each one given the number of its own.

    As ``np.unique``, which takes 15 ms for an import when it is first called.
    """
    order = np.argsort(figures, kind="stable")
    sorted_ = figures[order]
    new = np.ones(len(sorted_), dtype=np.bool_)
    new[1:] = sorted_[1:] != sorted_[:-1]
    back = np.empty(len(sorted_), dtype=np.intp)
    back[order] = np.cumsum(new) - 1
    return sorted_[new], back


def moment_rise(p: Pieces) -> Floats:
    """Greatest distance of M from the straight line between its ends, over the pieces of one bay."""
    h = np.broadcast_to(p.h, p.M.shape)
    slope = (p.M1[-1] - p.M[0]) / h.sum(axis=0)
    chord = p.M[0] + slope * np.concatenate([np.zeros((1, *h.shape[1:])), np.cumsum(h, axis=0)])
    V, V1, M, M1 = p.V - slope, p.V1 - slope, p.M - chord[:-1], p.M1 - chord[1:]
    top, low, _ = force_peaks(p._replace(h=h, V=V, V1=V1, M=M, M1=M1))
    return np.maximum(top, -low)


def force_peaks(p: Pieces) -> tuple[Floats, Floats, Floats]:
    """Greatest M, least M and greatest size of V over all pieces."""
    top, low = np.maximum(p.M, p.M1), np.minimum(p.M, p.M1)
    size = np.maximum(abs(p.V), abs(p.V1))
    some, (h, q, g, V, _, M, *_) = _all(p) if len(p.q) == 1 else _chosen(p, _turning(p))
    for x in _zero_shears(V, q, g, h):
        value = M + x * (V - x * (0.5 * q + _6 * x * g))
        _raise(top, some, value)
        _lower(low, some, value)
    if g.any():
        x = _clamped(-q, g, h)
        _raise(size, some, abs(V - x * (q + 0.5 * x * g)))
    return top.max(0), low.min(0), size.max(0)


def deflection_peaks(p: Pieces) -> tuple[Floats, Floats]:
    """Greatest and least EI y over all pieces."""
    down, up = np.maximum(p.Y, p.Y1), np.minimum(p.Y, p.Y1)
    some, few = _all(p) if len(p.q) == 1 else _chosen(p, _levelling(p))
    h, q, g, V, _, M, _, T, T1, Y, _ = few
    quartic = T, -M, -0.5 * V, _6 * q, _24 * g
    a, T_a = np.zeros(h.shape), T
    for b in (*_zero_moments(few), h):
        T_b = T1 if b is h else _value(quartic, b)
        level = np.flatnonzero((T_a > 0.0) != (T_b > 0.0))
        if level.size:
            c_T, c_M, c_V, c_q, c_g = those = _only(quartic, level)
            x = _root(those, a[level], b[level], T_a[level], T_b[level])
            value = Y[level] + x * (c_T + x * (0.5 * c_M + x * (_3 * c_V + x * (0.25 * c_q + 0.2 * x * c_g))))
            _raise(down, some[level], value)
            _lower(up, some[level], value)
        a, T_a = b, T_b
    return down.max(0), up.min(0)


def _turning(p: Pieces) -> NDArray[np.bool_]:
    """Where V changes sign inside the piece, and so M turns."""
    if p.g.any():
        return (p.V * p.V1 < 0.0) | (p.q * (p.q + p.g * p.h) < 0.0)
    return p.V * p.V1 < 0.0


def _levelling(p: Pieces) -> NDArray[np.bool_]:
    """Where theta may change sign: not where M is nowhere negative, unless it does so from end to end."""
    concave = p.q >= 0.0
    if p.g.any():
        concave &= p.q + p.g * p.h >= 0.0
    sagging = concave & (np.minimum(p.M, p.M1) >= 0.0)
    return (p.T * p.T1 < 0.0) | ~sagging & (_turning(p) | (p.M * p.M1 < 0.0))


def _raise(peaks: Floats, some: NDArray[np.intp], value: Floats) -> None:
    row = peaks.reshape(-1)
    row[some] = np.maximum(row[some], value)


def _lower(peaks: Floats, some: NDArray[np.intp], value: Floats) -> None:
    row = peaks.reshape(-1)
    row[some] = np.minimum(row[some], value)


def _chosen(p: Pieces, mask: NDArray[np.bool_]) -> tuple[NDArray[np.intp], Pieces]:
    """The pieces of the mask one after the other, and their numbers as if all had been laid in one row."""
    some = np.flatnonzero(mask)
    h = np.take(p.h, some // (mask.size // len(mask)) if p.h.size == len(mask) else some)
    return some, Pieces(h, *[np.take(column, some) for column in p[1:]])


def _all(p: Pieces) -> tuple[NDArray[np.intp], Pieces]:
    """Every piece, where each bay is one: most turn, and taking all costs less than the choice."""
    h = np.broadcast_to(p.h, p.q.shape).reshape(-1)
    return np.arange(p.q.size), Pieces(h, *[column.reshape(-1) for column in p[1:]])


def _clamped(above: Floats, below: Floats, h: Floats) -> Floats:
    """A quotient, brought into the piece; its start where there is none."""
    shape = np.broadcast_shapes(above.shape, below.shape, h.shape)
    x = np.divide(above, below, out=np.zeros(shape), where=np.broadcast_to(below != 0.0, shape))
    return np.minimum(np.maximum(x, 0.0), h)


def _quadratic(c: Floats, b: Floats, a: Floats, h: Floats) -> list[Floats]:
    """Where c - b x - a x^2/2 is zero, in order and clamped to the piece: two candidates."""
    root = b + np.copysign(np.sqrt(np.maximum(b * b + 2.0 * a * c, 0.0)), b)
    one, other = _clamped(2.0 * c, root, h), _clamped(-root, a, h)
    return [np.minimum(one, other), np.maximum(one, other)]


def _zero_shears(V: Floats, q: Floats, g: Floats, h: Floats) -> list[Floats]:
    """Where V may change sign, in order and clamped to the piece."""
    if g.any():
        return _quadratic(V, q, g, h)
    return [_clamped(V, q, h)]


def _zero_moments(p: Pieces) -> list[Floats]:
    """Where M may change sign, in order and clamped to the piece; all columns of one length."""
    h, q, g, V, _, M, *_ = p
    if not g.any():
        return _quadratic(M, -V, q, h)
    quartic = M, V, -0.5 * q, -_6 * g, np.zeros(g.shape)
    found = []
    a, M_a = np.zeros(h.shape), M
    for b in (*_zero_shears(V, q, g, h), h):
        M_b = _value(quartic, b)
        level = np.flatnonzero((M_a > 0.0) != (M_b > 0.0))
        x = b.copy()
        if level.size:
            x[level] = _root(_only(quartic, level), a[level], b[level], M_a[level], M_b[level])
        found.append(x)
        a, M_a = b, M_b
    return found


_Quartic = tuple[Floats, Floats, Floats, Floats, Floats]


def _only(quartic: _Quartic, level: NDArray[np.intp]) -> _Quartic:
    a, b, c, d, e = quartic
    return a[level], b[level], c[level], d[level], e[level]


def _root(quartic: _Quartic, left: Floats, right: Floats, f_left: Floats, f_right: Floats) -> Floats:
    """Find the one root between two stations of opposite sign, by Newton's steps; the stubborn ones by halving."""
    slack = 1e-8 * (right - left)  # and what is left after such a step is its square
    x = left - f_left * (right - left) / (f_right - f_left)
    with np.errstate(divide="ignore", invalid="ignore"):
        for _ in range(8):
            step = _value(quartic, x) / _rate(quartic, x)
            x = np.minimum(np.maximum(x - step, left), right)
            rough = ~(abs(step) <= slack)
            if not rough.any():
                return x
    level = np.flatnonzero(rough)
    x[level] = _halved(_only(quartic, level), left[level], right[level], f_left[level] > 0.0)
    return x


def _halved(quartic: _Quartic, left: Floats, right: Floats, falling: NDArray[np.bool_]) -> Floats:
    """Find the root by halving alone."""
    for _ in range(55):
        middle = 0.5 * (left + right)
        before = (_value(quartic, middle) > 0.0) == falling
        left, right = np.where(before, middle, left), np.where(before, right, middle)
    return 0.5 * (left + right)


def _value(quartic: _Quartic, x: Floats) -> Floats:
    a, b, c, d, e = quartic
    return a + x * (b + x * (c + x * (d + x * e)))


def _rate(quartic: _Quartic, x: Floats) -> Floats:
    _, b, c, d, e = quartic
    return b + x * (2.0 * c + x * (3.0 * d + x * (4.0 * e)))
