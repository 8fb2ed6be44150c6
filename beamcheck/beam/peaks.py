"""Greatest and least values over a run of pieces, exact: at ends of pieces or at roots, never on a grid.

Every root is sought inside its piece, so a value found can never exceed the true peak.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import copysign, sqrt
from typing import NamedTuple

BarePiece = tuple[float, float, float, float, float, float, float, float, float, float, float, float]
"""A stretch between changes of load: start, end; M, EI theta, EI y, q, slope of q, V at its start; V, M, EI theta, EI y
at its end. A bare tuple: thousands are made, and a loop takes it apart in one step."""


class Curve(NamedTuple):
    """One solved case: its pieces from left to right; ``at`` numbers those that start (or would) at the supports."""

    pieces: list[BarePiece]
    at: list[int]
    reactions: Sequence[float]


def runs(at: Sequence[int], count: int) -> list[tuple[int, int]]:
    """The numbers of the first piece of each bay and of the one after its last, of ``count`` pieces."""
    cuts = sorted({0, *at, count})
    return list(pairwise(cuts))


Pair = tuple[float, float]
"""A value and its station: what becomes a ``Peak`` on the way out."""


def force_peaks(pieces: Sequence[BarePiece]) -> tuple[Pair, Pair, Pair]:  # noqa: C901, PLR0912
    """Greatest M, least M and V of the greatest size."""
    # one pass and few calls: this and the next are the inner loops of everything
    x, _, top, *_ = pieces[0]
    low = top
    top_x = low_x = shear_x = x
    shear, size = 0.0, -1.0
    for x, end, m, _, _, q, g, v, w, n, _, _ in pieces:
        if v > size or -v > size:
            shear, shear_x, size = v, x, abs(v)
        if w > size or -w > size:
            shear, shear_x, size = w, end, abs(w)
        if not g:
            if v * w < 0.0 and q and 0.0 < (s := v / q) < end - x:
                value = m + 0.5 * s * v
                if value > top:
                    top, top_x = value, x + s
                elif value < low:
                    low, low_x = value, x + s
        else:
            h = end - x
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
    return (top, top_x), (low, low_x), (shear, shear_x)


def deflection_peaks(pieces: Sequence[BarePiece]) -> tuple[Pair, Pair]:  # noqa: C901
    """Greatest and least EI y."""
    down_x, _, _, _, down, *_ = pieces[0]
    up, up_x = down, down_x
    level: Sequence[float]
    for x, end, m, t, y, q, g, v, w, n, u, z in pieces:
        # where M is nowhere negative, theta only falls
        sags = m >= 0.0 <= n and q >= 0.0 and (not g or q + g * (end - x) >= 0.0)
        if t > 0.0 > u if sags else t * u < 0.0 or m * n < 0.0 or v * w < 0.0 or g:
            h = end - x
            if not q and not g:
                level = crossings(t, m, v, h)
            else:
                theta = t, -m, -0.5 * v, (1 / 6) * q, (1 / 24) * g
                if sags:
                    level = (_root(theta, 0.0, h, t * h / (t - u), _LEVEL),)
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
    return (down, down_x), (up, up_x)


def shear_in(piece: BarePiece, x: float) -> float:
    """V of a piece, ``x`` from its start."""
    _, _, _, _, _, q, g, v, *_ = piece
    return v - x * (q + x * g / 2.0)


def moment_in(piece: BarePiece, x: float) -> float:
    """M of a piece, ``x`` from its start."""
    _, _, m, _, _, q, g, v, *_ = piece
    return m + x * (v - x * (q / 2.0 + x * g / 6.0))


def deflection_in(piece: BarePiece, x: float) -> float:
    """EI y of a piece, ``x`` from its start."""
    _, _, m, t, y, q, g, v, *_ = piece
    return y + x * (t - x * (m / 2.0 + x * (v / 6.0 - x * (q / 24.0 + x * g / 120.0))))


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
_LEVEL = 1e-5  # that will do where theta is zero, for EI y is level there


def _sign_changes(quartic: _Quartic, turns: Sequence[float], h: float, narrow: float) -> list[float]:
    """The sign changes of a polynomial between 0 and ``h``: one at most between its turning points."""
    a, b, c, d, e = quartic
    changes = []
    left, above = 0.0, a > 0.0
    for right in (*turns, h):
        before, above = above, a + right * (b + right * (c + right * (d + right * e))) > 0.0
        if before is not above:
            changes.append(_root(quartic, left, right, 0.5 * (left + right), narrow))
        left = right
    return changes


def _root(quartic: _Quartic, left: float, right: float, x: float, narrow: float) -> float:
    """The one root between two stations of opposite sign: Newton's steps from ``x``, kept between them by halving."""
    a, b, c, d, e = quartic
    c_2, d_3, e_4 = 2.0 * c, 3.0 * d, 4.0 * e
    slack = narrow * (right - left)
    falling = a + left * (b + left * (c + left * (d + left * e))) > 0.0
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
