"""Greatest and least values over a run of pieces, exact: at ends of pieces or at roots, never on a grid.

Every root is sought inside its piece, so a value found can never exceed the true peak.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import copysign, sqrt
from typing import NamedTuple


class Curve(NamedTuple):
    """Piecewise polynomials of one solved case: n + 1 stations, n pieces between them.

    ``at`` numbers the stations of the supports; q0, slope, V0 (at its start) and V1 (at its end) belong to pieces;
    M, T = EI theta and Y = EI y to stations.
    """

    stations: list[float]
    at: list[int]
    q0: list[float]
    slope: list[float]
    V0: list[float]
    V1: list[float]
    M: list[float]
    T: list[float]
    Y: list[float]
    reactions: list[float]


def runs(curve: Curve) -> list[tuple[int, int]]:
    """The numbers of the stations at which each bay starts and ends."""
    cuts = sorted({0, *curve.at, len(curve.q0)})
    return list(pairwise(cuts))


Pair = tuple[float, float]
"""A value and its station: what becomes a ``Peak`` on the way out."""


def force_peaks(curve: Curve, lo: int, hi: int) -> tuple[Pair, Pair, Pair]:  # noqa: C901, PLR0912
    """Greatest M, least M and V of the greatest size, from station number ``lo`` to ``hi``."""
    # one pass and few calls: this and the next are the inner loops of everything
    stations, _, q0, slope, V0, V1, M, _, _, _ = curve
    x = stations[lo]
    m = top = low = M[lo]
    top_x = low_x = shear_x = x
    shear, size = 0.0, -1.0
    for k in range(lo, hi):
        v, w, n, end = V0[k], V1[k], M[k + 1], stations[k + 1]
        if v > size or -v > size:
            shear, shear_x, size = v, x, abs(v)
        if w > size or -w > size:
            shear, shear_x, size = w, end, abs(w)
        if not slope[k]:
            if v * w < 0.0 and (q := q0[k]) and 0.0 < (s := v / q) < end - x:
                value = m + 0.5 * s * v
                if value > top:
                    top, top_x = value, x + s
                elif value < low:
                    low, low_x = value, x + s
        else:
            q, g, h = q0[k], slope[k], end - x
            if v * w < 0.0 or q * (q + g * h) < 0.0:
                for s in crossings(v, q, g, h):
                    value = m + s * (v - s * (0.5 * q + (1 / 6) * s * g))
                    if value > top:
                        top, top_x = value, x + s
                    elif value < low:
                        low, low_x = value, x + s
                if q * (q + g * h) < 0.0 and abs(v + 0.5 * q * q / g) > size:
                    shear, shear_x = v + 0.5 * q * q / g, x - q / g
                    size = abs(shear)
        if n > top:
            top, top_x = n, end
        elif n < low:
            low, low_x = n, end
        x, m = end, n
    return (top, top_x), (low, low_x), (shear, shear_x)


def deflection_peaks(curve: Curve, lo: int, hi: int) -> tuple[Pair, Pair]:  # noqa: C901
    """Greatest and least EI y, from station number ``lo`` to ``hi``."""
    stations, _, q0, slope, V0, V1, M, T, Y, _ = curve
    m, t, y = M[lo], T[lo], Y[lo]
    down = up = y
    down_x = up_x = stations[lo]
    for k in range(lo, hi):
        n, u, z = M[k + 1], T[k + 1], Y[k + 1]
        x, v, q, g, end = stations[k], V0[k], q0[k], slope[k], stations[k + 1]
        h = end - x
        if t * u < 0.0 or m * n < 0.0 or v * V1[k] < 0.0 or (g and q * (q + g * h) < 0.0):
            level: Sequence[float]
            theta = t, -m, -0.5 * v, (1 / 6) * q, (1 / 24) * g
            if not q and not g:
                level = crossings(t, m, v, h)
            elif m >= 0.0 <= n and q >= 0.0 <= q + g * h:  # M is nowhere negative between: theta only falls
                level = (_root(theta, (0.0, h), (t, u), _LEVEL),) if t > 0.0 > u else ()
            else:
                level = _sign_changes(theta, bends(m, v, q, g, h) if g else crossings(m, -v, q, h), h, _LEVEL)
            for s in level:
                value = y + s * (t - s * (0.5 * m + s * ((1 / 6) * v - s * ((1 / 24) * q + (1 / 120) * s * g))))
                if value > down:
                    down, down_x = value, x + s
                elif value < up:
                    up, up_x = value, x + s
        if z > down:
            down, down_x = z, end
        elif z < up:
            up, up_x = z, end
        m, t, y = n, u, z
    return (down, down_x), (up, up_x)


def shear_at(curve: Curve, k: int, x: float) -> float:
    """V in piece ``k``, ``x`` from its start."""
    return curve.V0[k] - x * (curve.q0[k] + x * curve.slope[k] / 2.0)


def moment_at(curve: Curve, k: int, x: float) -> float:
    """M in piece ``k``, ``x`` from its start."""
    return curve.M[k] + x * (curve.V0[k] - x * (curve.q0[k] / 2.0 + x * curve.slope[k] / 6.0))


def deflection_at(curve: Curve, k: int, x: float) -> float:
    """EI y in piece ``k``, ``x`` from its start."""
    bend = curve.V0[k] / 6.0 - x * (curve.q0[k] / 24.0 + x * curve.slope[k] / 120.0)
    return curve.Y[k] + x * (curve.T[k] - x * (curve.M[k] / 2.0 + x * bend))


def crossings(c: float, b: float, a: float, h: float) -> Sequence[float]:
    """Where c - b x - a x^2/2 is zero between 0 and ``h``, in order."""
    if not a:
        one = c / b if b else 0.0
        return (one,) if 0.0 < one < h else ()
    square = b * b + 2.0 * a * c
    if square < 0.0:
        return ()
    root = b + copysign(sqrt(square), b)
    if not root:
        return ()
    one, other = 2.0 * c / root, -root / a
    if one > other:
        one, other = other, one
    if 0.0 < one < h:
        return (one, other) if other < h else (one,)
    return (other,) if 0.0 < other < h else ()


def bends(m: float, v: float, q: float, g: float, h: float) -> Sequence[float]:
    """Where M changes sign in a piece that starts with these figures; three at most."""
    if not g:
        return crossings(m, -v, q, h)
    return _sign_changes((m, v, -0.5 * q, -(1 / 6) * g, 0.0), crossings(v, q, g, h), h, _NARROW)


_Quartic = tuple[float, float, float, float, float]
_NARROW = 1e-8  # share of a stretch: what is left after a last step of that size is its square
_LEVEL = 1e-6  # that will do where theta is zero, for EI y is level there


def _sign_changes(quartic: _Quartic, turns: Sequence[float], h: float, narrow: float) -> list[float]:
    """The sign changes of a polynomial between 0 and ``h``: one at most between its turning points."""
    a, b, c, d, e = quartic
    changes = []
    left, f_left = 0.0, a
    for right in (*turns, h):
        f_right = a + right * (b + right * (c + right * (d + right * e)))
        if (f_left > 0.0) != (f_right > 0.0):
            changes.append(_root(quartic, (left, right), (f_left, f_right), narrow))
        left, f_left = right, f_right
    return changes


def _root(quartic: _Quartic, ends: Pair, at_ends: Pair, narrow: float) -> float:
    """The one root between two stations of opposite sign: Newton's steps, kept between them by halving."""
    a, b, c, d, e = quartic
    (left, right), (f_left, f_right) = ends, at_ends
    c_2, d_3, e_4 = 2.0 * c, 3.0 * d, 4.0 * e
    slack = narrow * (right - left)
    falling = f_left > 0.0
    x = left - f_left * (right - left) / (f_right - f_left)
    for _ in range(100):
        value = a + x * (b + x * (c + x * (d + x * e)))
        rate = b + x * (c_2 + x * (d_3 + x * e_4))
        if (value > 0.0) is falling:
            left = x
        else:
            right = x
        step = value / rate if rate else right - left
        x -= step
        if -slack <= step <= slack:
            return min(max(x, left), right)
        if not left < x < right:
            x = 0.5 * (left + right)
    return x
