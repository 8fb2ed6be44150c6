"""The peaks of many pieces at once: the formulas of ``peaks`` on numpy arrays.

Roots are clamped to their pieces, so that no candidate can exceed the true peak and no division makes a NaN.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


ROOM = 1 << 14
"""Pieces to evaluate at a time: columns small enough for the cache."""

_6, _24, _120 = 1.0 / 6.0, 1.0 / 24.0, 1.0 / 120.0


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


def force_peaks(p: Pieces) -> tuple[Floats, Floats, Floats]:
    """Greatest M, least M and greatest size of V over all pieces."""
    top, low = np.maximum(p.M, p.M1), np.minimum(p.M, p.M1)
    size = np.maximum(abs(p.V), abs(p.V1))
    turning = p.V * p.V1 < 0.0
    if p.g.any():
        turning |= p.q * (p.q + p.g * p.h) < 0.0
    h, q, g, V, _, M, *_ = _where(p, turning)
    for x in _zero_shears(V, q, g, h):
        value = M + x * (V - x * (0.5 * q + _6 * x * g))
        top[turning] = np.maximum(top[turning], value)
        low[turning] = np.minimum(low[turning], value)
    if g.any():
        x = _clamped(-q, g, h)
        size[turning] = np.maximum(size[turning], abs(V - x * (q + 0.5 * x * g)))
    return top.max(0), low.min(0), size.max(0)


def deflection_peaks(p: Pieces) -> tuple[Floats, Floats]:
    """Greatest and least EI y over all pieces."""
    down, up = np.maximum(p.Y, p.Y1), np.minimum(p.Y, p.Y1)
    turning = (p.T * p.T1 < 0.0) | (p.M * p.M1 < 0.0) | (p.V * p.V1 < 0.0)
    if p.g.any():
        turning |= p.q * (p.q + p.g * p.h) < 0.0
    some = _where(p, turning)
    h, q, g, V, _, M, _, T, T1, Y, _ = some
    quartic = T, -M, -0.5 * V, _6 * q, _24 * g
    most, least = down[turning], up[turning]
    a, T_a = np.zeros(h.shape), T
    for b in (*_zero_moments(some), h):
        T_b = T1 if b is h else _value(quartic, b)
        level = np.flatnonzero(T_a * T_b < 0.0)
        x = _root(_only(quartic, level), a[level], b[level])
        bend = _6 * V[level] - x * (_24 * q[level] + _120 * x * g[level])
        value = Y[level] + x * (T[level] - x * (0.5 * M[level] + x * bend))
        most[level] = np.maximum(most[level], value)
        least[level] = np.minimum(least[level], value)
        a, T_a = b, T_b
    down[turning], up[turning] = most, least
    return down.max(0), up.min(0)


def _where(p: Pieces, mask: NDArray[np.bool_]) -> Pieces:
    """The chosen pieces, one after the other."""
    return Pieces(np.broadcast_to(p.h, mask.shape)[mask], *[column[mask] for column in p[1:]])


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
        level = np.flatnonzero(M_a * M_b < 0.0)
        x = b.copy()
        x[level] = _root(_only(quartic, level), a[level], b[level])
        found.append(x)
        a, M_a = b, M_b
    return found


_Quartic = tuple[Floats, Floats, Floats, Floats, Floats]


def _only(quartic: _Quartic, level: NDArray[np.intp]) -> _Quartic:
    a, b, c, d, e = quartic
    return a[level], b[level], c[level], d[level], e[level]


def _root(quartic: _Quartic, left: Floats, right: Floats) -> Floats:
    """Find the one root between two stations of opposite sign, by Newton's steps; the stubborn ones by halving."""
    if not left.size:
        return left
    slack = 1e-8 * (right - left)
    f_left = _value(quartic, left)
    x = left - f_left * (right - left) / (_value(quartic, right) - f_left)
    with np.errstate(divide="ignore", invalid="ignore"):
        for _ in range(8):
            step = _value(quartic, x) / _rate(quartic, x)
            x = np.minimum(np.maximum(x - step, left), right)
            rough = ~(abs(step) <= slack)
            if not rough.any():
                return x
    level = np.flatnonzero(rough)
    x[level] = _halved(_only(quartic, level), left[level], right[level])
    return x


def _halved(quartic: _Quartic, left: Floats, right: Floats) -> Floats:
    """Find the root by halving alone."""
    falling = _value(quartic, left) > 0.0
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
