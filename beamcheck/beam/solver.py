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
from beamcheck.beam.peaks import Curve
from beamcheck.beam.response import Response

_State = tuple[float, float, float, float]
"""V, M, EI theta, EI y at one station."""


def solve(line: Line, loads: Iterable[Load]) -> Response:
    """Forces and deflections of the line under all the loads at once.

    Raises OutOfRange if a load lies off the beam, has no length, or is not a number.
    """
    laid = tuple(loads)
    return tuple.__new__(Response, (line, laid, curve(line, laid)))  # half the time of a call by name, here and below


def curve(line: Line, loads: Sequence[Load], more: Sequence[float] = ()) -> Curve:
    """The bare solution; ``more`` adds stations to break at, so that several curves share theirs."""
    laid = chart(line, loads, more)
    written = tuple.__new__(Curve, ([], [], [], [], [], [], [], [], [], []))
    if len(laid.events) == 1:
        _simple_span(laid, written)
    else:
        _many_bays(laid, written)
    if not isfinite(sum(written.reactions)):
        raise unreadable(loads)
    return written


def blank_curve(line: Line, more: Sequence[float]) -> Curve:
    """The line without load, broken at ``more`` stations."""
    stations = sorted({line.start, *line.supports, *more, line.end})
    n = len(stations) - 1
    pieces, nodes = [0.0] * n, [0.0] * (n + 1)
    at = [stations.index(support) for support in line.supports]
    return Curve(stations, at, pieces, pieces, pieces, pieces, nodes, nodes, nodes, [0.0] * len(at))


def _simple_span(laid: Chart, written: Curve) -> None:
    """One span on two supports: only its slope at the left is left to find."""
    stations, at, _, _, _, _, M, T, Y, reactions = written
    (start, end), (drop, end_drop), (over, end_over) = laid.cuts, laid.drop, laid.over
    length, force = end - start, laid.force[0]
    R = force - laid.moment[0] / length
    _, _, t, y = _integrate(laid, written, 0, (R, 0.0, 0.0, 0.0))
    turn = (end_drop - drop - y) / length
    for k, station in enumerate(stations):
        T[k] += turn
        Y[k] += drop + turn * (station - start)
    at += (0, len(stations))
    stations.append(end)
    M.append(0.0)
    T.append(t + turn)
    Y.append(end_drop)
    reactions += (over + R, end_over + force - R)


def _many_bays(laid: Chart, written: Curve) -> None:
    """Spans and overhangs: each by itself, and over it what makes moments balance and slopes run through."""
    first_span, after = laid.first_span, laid.first_span + len(laid.drop) - 1
    begins, ends = [], []
    for i in range(len(laid.events)):
        force, moment = laid.force[i], laid.moment[i]
        if i >= after:
            start = (force, -moment, 0.0, 0.0)
        elif i >= first_span:
            start = (force - moment / (laid.cuts[i + 1] - laid.cuts[i]), 0.0, 0.0, 0.0)
        else:
            start = (0.0, 0.0, 0.0, 0.0)
        begins.append(len(written.stations))
        ends.append(_integrate(laid, written, i, start))
    begins.append(len(written.stations))
    bent = _bent(laid, ends)
    for i, state in enumerate(bent):
        _lay_over(written, begins[i], begins[i + 1], laid.cuts[i], state)
    _close(laid, written, begins, ends[-1], bent[-1])


def _integrate(laid: Chart, written: Curve, i: int, start: _State) -> _State:
    """Write the pieces of bay ``i``, which starts with the given state; return the state at its end."""
    stations, _, q0, slope, V0, V1, M, T, Y, _ = written
    v, m, t, y = start
    x, q, g, live = laid.cuts[i], 0.0, 0.0, 0
    last = (laid.cuts[i + 1], 0.0, 0.0, 0.0, 0)
    for end, force, step, tilt, more in sorted([*laid.events[i], last]):
        if end > x:
            stations.append(x)
            q0.append(q)
            slope.append(g)
            V0.append(v)
            M.append(m)
            T.append(t)
            Y.append(y)
            h = end - x
            fall = h * q
            a, b = h * fall, h * v
            if g:
                c, d = h * h * g, h * h * h * g
                y += h * (t - h * (0.5 * m + (1 / 6) * b - (1 / 24) * a - (1 / 120) * d))
                t -= h * (m + 0.5 * b - (1 / 6) * a - (1 / 24) * d)
                m += b - 0.5 * a - (1 / 6) * d
                v -= fall + 0.5 * c
                q += g * h
            else:
                y += h * (t - h * (0.5 * m + (1 / 6) * b - (1 / 24) * a))
                t -= h * (m + 0.5 * b - (1 / 6) * a)
                m += b - 0.5 * a
                v -= fall
            V1.append(v)
            x = end
        v -= force
        q += step
        g += tilt
        live += more
        if not live:
            q = g = 0.0
    return v, m, t, y


def _bent(laid: Chart, ends: list[_State]) -> list[_State]:
    """The start of what must be laid over each bay so that moments are in balance and slopes run through."""
    cuts, drop, first = laid.cuts, laid.drop, laid.first_span
    spans = len(drop) - 1
    lengths = [cuts[i + 1] - cuts[i] for i in range(first, first + spans)]
    turns = []
    for j, length in enumerate(lengths):
        _, _, t, y = ends[first + j]
        tilt = (drop[j + 1] - drop[j] - y) / length
        turns.append((tilt, t + tilt))
    moments = [0.0] * (spans + 1)
    if first:
        moments[0] = ends[0][1]
    if len(ends) > first + spans:
        moments[-1] = -laid.moment[-1]
    if spans > 1:
        _support_moments(moments, turns, lengths)
    bent = [
        ((b - a) / length, a, tilt + (a + a + b) * length * (1 / 6), y)
        for a, b, y, length, (tilt, _) in zip(moments, moments[1:], drop, lengths, turns, strict=False)
    ]
    if first:
        tip = bent[0][2] - ends[0][2]
        bent.insert(0, (0.0, 0.0, tip, drop[0] - ends[0][3] - tip * (cuts[1] - cuts[0])))
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


def _lay_over(written: Curve, lo: int, hi: int, origin: float, start: _State) -> None:
    """Add the unloaded beam that starts so at ``origin`` to the pieces from number ``lo`` to ``hi``."""
    stations, _, _, _, V0, V1, M, T, Y, _ = written
    v, m, t, y = start
    if v == m == 0.0:
        for k in range(lo, hi):
            T[k] += t
            Y[k] += y + t * (stations[k] - origin)
        return
    for k in range(lo, hi):
        x = stations[k] - origin
        V0[k] += v
        V1[k] += v
        M[k] += m + v * x
        T[k] += t - x * (m + 0.5 * x * v)
        Y[k] += y + x * (t - x * (0.5 * m + (1 / 6) * x * v))


def _close(laid: Chart, written: Curve, begins: list[int], end: _State, bent: _State) -> None:
    """Write the end of the beam, where M is zero, and the reactions."""
    stations, at, _, _, V0, V1, M, T, Y, reactions = written
    v, m, t, y = bent
    length = laid.cuts[-1] - laid.cuts[-2]
    stations.append(laid.cuts[-1])
    M.append(0.0)
    T.append(end[2] + t - length * (m + 0.5 * length * v))
    Y.append(end[3] + y + length * t if len(begins) > laid.first_span + len(laid.drop) else laid.drop[-1])
    for k, force in zip(begins[laid.first_span :], laid.over, strict=False):
        at.append(k)
        reactions.append(force + (V0[k] if k < len(V0) else 0.0) - (V1[k - 1] if k else 0.0))
