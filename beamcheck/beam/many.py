"""The peaks of many pieces at once: the formulas of ``peaks`` on numpy arrays.

Roots are clamped to their pieces, so that no candidate can exceed the true peak and no division makes a NaN.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


_6, _24, _120 = 1.0 / 6.0, 1.0 / 24.0, 1.0 / 120.0


class Pieces(NamedTuple):
    """Pieces of many cases, all of one shape (..., pieces) or broadcast to it; M1, T1, Y1, V1 stand at their ends."""

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
    """Greatest M, least M and greatest size of V over the last axis."""
    top, low = np.maximum(p.M, p.M1), np.minimum(p.M, p.M1)
    size = np.maximum(abs(p.V), abs(p.V1))
    for x in _zero_shears(p):
        value = p.M + x * (p.V - x * (0.5 * p.q + _6 * x * p.g))
        top, low = np.maximum(top, value), np.minimum(low, value)
    if p.g.any():
        x = _clamped(-p.q, p.g, p.h)
        size = np.maximum(size, abs(p.V - x * (p.q + 0.5 * x * p.g)))
    return top.max(-1), low.min(-1), size.max(-1)


def deflection_peaks(p: Pieces) -> tuple[Floats, Floats]:
    """Greatest and least EI y over the last axis."""
    down, up = np.maximum(p.Y, p.Y1), np.minimum(p.Y, p.Y1)
    full = Pieces(*[np.broadcast_to(column, down.shape) for column in p])
    a, T_a = np.zeros(down.shape), full.T
    for b in (*_zero_moments(full), full.h):
        T_b = full.T1 if b is full.h else full.T - b * (full.M + b * (0.5 * full.V - b * (_6 * full.q + b * _24 * full.g)))
        turns = T_a * T_b < 0.0
        if turns.any():
            h, q, g, V, _, M, _, T, _, Y, _ = [column[turns] for column in full]
            x = _root((T, -M, -0.5 * V, _6 * q, _24 * g), a[turns], b[turns])
            value = Y + x * (T - x * (0.5 * M + x * (_6 * V - x * (_24 * q + _120 * x * g))))
            down[turns] = np.maximum(down[turns], value)
            up[turns] = np.minimum(up[turns], value)
        a, T_a = b, T_b
    return down.max(-1), up.min(-1)


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


def _zero_shears(p: Pieces) -> list[Floats]:
    if p.g.any():
        return _quadratic(p.V, p.q, p.g, p.h)
    return [_clamped(p.V, p.q, p.h)]


def _zero_moments(p: Pieces) -> list[Floats]:
    """Where M may change sign, in order and clamped to the piece."""
    if not p.g.any():
        return _quadratic(p.M, -p.V, p.q, p.h)
    found = []
    a, f_a = np.zeros(p.h.shape), p.M
    for b in [*_zero_shears(p), p.h]:
        f_b = p.M + b * (p.V - b * (0.5 * p.q + _6 * b * p.g))
        turns = f_a * f_b < 0.0
        x = b.copy()
        if turns.any():
            _, q, g, V, _, M, *_ = [column[turns] for column in p]
            x[turns] = _root((M, V, -0.5 * q, -_6 * g, 0.0 * g), a[turns], b[turns])
        found.append(x)
        a, f_a = b, f_b
    return found


_Quartic = tuple[Floats, Floats, Floats, Floats, Floats]


def _root(quartic: _Quartic, left: Floats, right: Floats) -> Floats:
    """Find the one root between two stations of opposite sign, by Newton's steps; the stubborn ones by halving."""
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
    a, b, c, d, e = (column[rough] for column in quartic)
    x[rough] = _halved((a, b, c, d, e), left[rough], right[rough])
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
