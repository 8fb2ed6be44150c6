"""Exact forces and deflections of a prismatic beam line, by three-moment equations and piecewise polynomials.

Each bay is integrated from its left end by itself, a span as if simply supported; the moments over the supports
follow from the three-moment equations (Clapeyron; e.g. Hicks, Handbook of Civil Engineering Calculations, 2nd ed.,
p. 1.62), and the bay that they bend is laid over it. With x from the start of a piece, g the slope of its line load:

    q = q0 + g x      V' = -q      M' = V      EI theta' = -M      EI y' = EI theta

Nothing is sampled: peaks are ends of pieces or roots (module ``peaks``).
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import isfinite

from beamcheck.beam.chart import Chart, chart, unreadable
from beamcheck.beam.model import Line, Load
from beamcheck.beam.peaks import BarePiece, Curve
from beamcheck.beam.response import Response

_new = tuple.__new__  # half the time of a call by name

_State = tuple[float, float, float, float]
"""V, M, EI theta, EI y at one station."""


def solve(line: Line, loads: Iterable[Load]) -> Response:
    """Forces and deflections of the line under all the loads at once.

    Raises OutOfRange if a load lies off the beam, has no length, or is not a number.
    """
    laid = tuple(loads)
    return _new(Response, (line, laid, curve(line, laid)))


def curve(line: Line, loads: Sequence[Load], more: Sequence[float] = ()) -> Curve:
    """The bare solution; ``more`` adds stations to break at, so that several curves share theirs."""
    laid = chart(line, loads, more)
    found = _simple_span(laid) if len(laid.events) == 1 else _many_bays(laid)
    if not isfinite(sum(found.reactions)):
        raise unreadable(loads)
    return found


def _simple_span(laid: Chart) -> Curve:
    """One span on two supports: only its slope at the left is left to find."""
    (start, end), (drop, end_drop), (over, end_over) = laid.cuts, laid.drop, laid.over
    length, force = end - start, laid.force[0]
    R = force - laid.moment[0] / length
    bay = _integrate(laid, 0, (R, 0.0, 0.0, drop))
    t = turn = (end_drop - bay[-1][-1]) / length
    y = drop
    pieces: list[BarePiece] = []
    for x, stop, m, _, _, q, g, v, w, n, u, z in bay:
        turned, moved = u + turn, z + turn * (stop - start)
        pieces.append((x, stop, m, t, y, q, g, v, w, n, turned, moved))
        t, y = turned, moved
    x, _, m, t, y, q, g, v, w, _, u, _ = pieces[-1]
    pieces[-1] = x, end, m, t, y, q, g, v, w, 0.0, u, end_drop
    return _new(Curve, (pieces, [0, len(pieces)], (over + R, end_over + force - R)))


def _many_bays(laid: Chart) -> Curve:
    """Spans and overhangs: each by itself, and over it what makes moments balance and slopes run through."""
    cuts, first_span, over = laid.cuts, laid.first_span, laid.over
    after = first_span + len(over) - 1
    bays = []
    for i, (force, moment) in enumerate(zip(laid.force, laid.moment, strict=True)):
        if i >= after:
            start = (force, -moment, 0.0, 0.0)
        elif i >= first_span:
            start = (force - moment / (cuts[i + 1] - cuts[i]), 0.0, 0.0, 0.0)
        else:
            start = (0.0, 0.0, 0.0, 0.0)
        bays.append(_integrate(laid, i, start))
    pieces: list[BarePiece] = []
    begins = []
    for i, state in enumerate(_bent(laid, [bay[-1] for bay in bays])):
        begins.append(len(pieces))
        _lay_over(pieces, bays[i], state)
    begins.append(len(pieces))
    x, end, m, t, y, q, g, v, w, _, u, z = pieces[-1]
    pieces[-1] = x, end, m, t, y, q, g, v, w, 0.0, u, z if after < len(bays) else laid.drop[-1]
    at = begins[first_span : after + 1]
    reactions = [
        force + (pieces[k][7] if k < len(pieces) else 0.0) - (pieces[k - 1][8] if k else 0.0)
        for k, force in zip(at, over, strict=True)
    ]
    return _new(Curve, (pieces, at, reactions))


def _integrate(laid: Chart, i: int, start: _State) -> list[BarePiece]:
    """The pieces of bay ``i``, which starts with the given state."""
    pieces: list[BarePiece] = []
    v, m, t, y = start
    x, q, g, live = laid.cuts[i], 0.0, 0.0, 0
    last = (laid.cuts[i + 1], 0.0, 0.0, 0.0, 0)
    for end, force, step, tilt, more in sorted([*laid.events[i], last]):
        if end > x:
            h = end - x
            fall = h * q
            w = v - fall
            n = m + h * (v - 0.5 * fall)
            u = t - h * (m + h * (0.5 * v - (1 / 6) * fall))
            z = y + h * (t - h * (0.5 * m + h * ((1 / 6) * v - (1 / 24) * fall)))
            if g:
                part = h * h * g
                w -= 0.5 * part
                part *= h
                n -= (1 / 6) * part
                part *= h
                u += (1 / 24) * part
                z += (1 / 120) * part * h
            pieces.append((x, end, m, t, y, q, g, v, w, n, u, z))
            x, v, m, t, y = end, w, n, u, z
            if g:
                q += g * h
        v -= force
        if more:
            q += step
            g += tilt
            live += more
            if not live:  # what is left is rounding
                q = g = 0.0
    return pieces


def _bent(laid: Chart, ends: list[BarePiece]) -> list[_State]:
    """The start of what must be laid over each bay so that moments are in balance and slopes run through."""
    cuts, drop, first = laid.cuts, laid.drop, laid.first_span
    spans = len(drop) - 1
    lengths = [cuts[i + 1] - cuts[i] for i in range(first, first + spans)]
    turns = []
    for j, length in enumerate(lengths):
        *_, t, y = ends[first + j]
        tilt = (drop[j + 1] - drop[j] - y) / length
        turns.append((tilt, t + tilt))
    moments = [0.0] * (spans + 1)
    if first:
        moments[0] = ends[0][9]
    if len(ends) > first + spans:
        moments[-1] = -laid.moment[-1]
    if spans > 1:
        _support_moments(moments, turns, lengths)
    bent = [
        ((b - a) / length, a, tilt + (a + a + b) * length * (1 / 6), y)
        for a, b, y, length, (tilt, _) in zip(moments, moments[1:], drop, lengths, turns, strict=False)
    ]
    if first:
        *_, t, y = ends[0]
        tip = bent[0][2] - t
        bent.insert(0, (0.0, 0.0, tip, drop[0] - y - tip * (cuts[1] - cuts[0])))
    if len(ends) > first + spans:
        bent.append((0.0, 0.0, turns[-1][1] - (moments[-2] + 2.0 * moments[-1]) * lengths[-1] * (1 / 6), drop[-1]))
    return bent


def _support_moments(moments: list[float], turns: list[tuple[float, float]], lengths: list[float]) -> None:
    """Fill in the moments over the inner supports, the outer two being known: the slope must run through.

    ``turns`` are EI theta at both ends of each span as if simply supported. The equations are solved directly.
    """
    last = len(lengths) - 1
    pivots, rests = [], []
    pivot, rest = 0.0, 0.0
    for i in range(last):
        carry = lengths[i] / pivot if i else 0.0
        outer = 0.0 if i else lengths[0] * moments[0]
        rest = 6.0 * (turns[i][1] - turns[i + 1][0]) - outer - carry * rest
        pivot = 2.0 * (lengths[i] + lengths[i + 1]) - carry * lengths[i]
        pivots.append(pivot)
        rests.append(rest)
    for i in range(last, 0, -1):
        moments[i] = (rests[i - 1] - lengths[i] * moments[i + 1]) / pivots[i - 1]


def _lay_over(pieces: list[BarePiece], bay: list[BarePiece], start: _State) -> None:
    """Add the unloaded beam that starts so to the pieces of a bay, and these to all ``pieces``, without a gap."""
    v, m, t, y = start
    origin = bay[0][0]
    M, T, Y = bay[0][2] + m, bay[0][3] + t, bay[0][4] + y
    if pieces:
        pieces[-1] = (*pieces[-1][:9], M, T, Y)
    for x, end, _, _, _, q, g, V, W, N, U, Z in bay:
        s = end - origin
        n = N + m + s * v
        u = U + t - s * (m + 0.5 * s * v)
        z = Z + y + s * (t - s * (0.5 * m + (1 / 6) * s * v))
        pieces.append((x, end, M, T, Y, q, g, V + v, W + v, n, u, z))
        M, T, Y = n, u, z
