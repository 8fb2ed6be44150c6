"""Thousands of lines at once whose supports and loads stand in different places: posts moved, loads uncertain.

The road of ``solver`` with one array for each figure, samples along the last axis. Within a bay all stations are
clipped to the bay and sorted, so that samples may have their loads in any order; pieces of no length do no harm.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beamcheck.beam.many import ROOM, Floats, Pieces, all_peaks
from beamcheck.beam.model import BayKind
from beamcheck.beam.samples import LinePeaks
from beamcheck.errors import OutOfRange

_3, _6, _24, _120 = 1.0 / 3.0, 1.0 / 6.0, 1.0 / 24.0, 1.0 / 120.0

Numbers = Floats | float
"""A figure of every sample, shape (samples,), or one number for all."""


class Points(NamedTuple):
    """A force in every sample."""

    station: Numbers
    force: Numbers


class Spreads(NamedTuple):
    """A line load in every sample, straight from ``first`` at ``start`` to ``last`` at ``end``."""

    start: Numbers
    end: Numbers
    first: Numbers
    last: Numbers


class BayAlone(NamedTuple):
    """A bay of every sample by itself, a span as if simply supported; shapes (pieces, samples) and (samples,).

    V at the start of each piece; M, T, Y at all stations; ``moment`` is that of the loads about the start of the bay.
    """

    kind: BayKind
    stations: Floats
    q: Floats
    g: Floats
    V: Floats
    M: Floats
    T: Floats
    Y: Floats
    moment: Floats

    @property
    def length(self) -> Floats:
        """From end to end, in every sample."""
        length: Floats = self.stations[-1] - self.stations[0]
        return length


State = tuple[Floats, Floats, Floats, Floats]
"""V, M, EI theta, EI y of every sample at one station."""


def moved(
    supports: Sequence[Numbers],
    loads: Sequence[Points | Spreads],
    left_overhang: Numbers = 0.0,
    right_overhang: Numbers = 0.0,
) -> LinePeaks:
    """Peaks and reactions of every sample, bay by bay; an overhang that is 0.0 in all samples is no bay.

    Raises OutOfRange if in any sample the supports are out of order, or a load lies off the beam or has no length.
    """
    figures = [*supports, left_overhang, right_overhang, *[figure for load in loads for figure in load]]
    samples = np.broadcast_shapes((1,), *[np.shape(figure) for figure in figures])
    posts = [np.broadcast_to(np.asarray(support, dtype=np.float64), samples) for support in supports]
    cuts = list(posts)
    kinds: list[BayKind] = ["span"] * (len(posts) - 1)
    if np.any(left_overhang):
        cuts, kinds = [posts[0] - left_overhang, *cuts], ["left overhang", *kinds]
    if np.any(right_overhang):
        cuts, kinds = [*cuts, posts[-1] + right_overhang], [*kinds, "right overhang"]
    _refuse(posts, cuts, loads)
    step = max(1, ROOM // (2 * len(loads) + 1))
    parts = []
    for start in range(0, samples[0], step):
        some = slice(start, start + step)
        few = [type(load)(*[_some(figure, some) for figure in load]) for load in loads]
        parts.append(_moved(kinds, [cut[some] for cut in cuts], few))
    return LinePeaks(*[np.concatenate(figure, axis=-1) for figure in zip(*parts, strict=True)])


def _some(figure: Numbers, samples: slice) -> Numbers:
    return figure[samples] if isinstance(figure, np.ndarray) and figure.size > 1 else figure


def _moved(kinds: list[BayKind], cuts: list[Floats], loads: Sequence[Points | Spreads]) -> LinePeaks:
    bays = [
        bay_alone(kind, bay_stations(a, b, loads), loads) for kind, a, b in zip(kinds, cuts, cuts[1:], strict=False)
    ]
    pieces = [laid_over(bay, *states) for bay, states in zip(bays, bent(bays), strict=True)]
    top, low, size, down, up = np.stack([all_peaks(some) for some in pieces], axis=1)
    first_span = int(kinds[0] == "left overhang")
    posts = cuts[first_span : len(cuts) - int(kinds[-1] == "right overhang")]
    return LinePeaks(top, low, size, down, up, _reactions(posts, loads, pieces, first_span))


def _refuse(posts: list[Floats], cuts: list[Floats], loads: Sequence[Points | Spreads]) -> None:
    """Raise OutOfRange for samples that are no beam, or whose loads are not on it."""
    if len(posts) < 2 or any(np.any(~(a < b)) for a, b in pairwise(posts)):
        raise OutOfRange(
            "samples: supports are out of order or fewer than two\n  keep at least two apart, left to right"
        )
    if np.any(cuts[0] > posts[0]) or np.any(cuts[-1] < posts[-1]):
        raise OutOfRange("samples: an overhang is less than zero\n  give lengths of zero or more")
    for load in loads:
        first, last = (load.start, load.end) if isinstance(load, Spreads) else (load.station, load.station)
        if np.any(~(cuts[0] <= first)) or np.any(~(last <= cuts[-1])):
            raise OutOfRange("samples: a load lies off the beam in some of them\n  keep all stations on the beam")
        if isinstance(load, Spreads) and np.any(~(np.asarray(first) < last)):
            raise OutOfRange("samples: a line load has no length in some of them\n  let it end right of its start")


def bay_stations(start: Floats, end: Floats, loads: Sequence[Points | Spreads]) -> Floats:
    """Where something may change within a bay of every sample, in order: shape (stations, samples).

    Stations that no sample has inside the bay, and such as are there already, are left out.
    """
    inner: list[Numbers] = []
    for load in loads:
        for station in load[:2] if isinstance(load, Spreads) else load[:1]:
            inside = np.any((station > start) & (station < end))
            if inside and not any(station is known or np.array_equal(station, known) for known in inner):
                inner.append(station)
    return np.sort(np.stack([start, end, *[np.minimum(np.maximum(x, start), end) for x in inner]]), axis=0)


def bay_alone(kind: BayKind, stations: Floats, loads: Sequence[Points | Spreads]) -> BayAlone:
    """Lay the loads out on one bay of every sample and integrate it; ``stations`` hold all at which they change."""
    start, end = stations[0], stations[-1]
    x, h = stations[:-1], np.diff(stations, axis=0)
    q, g, shed = np.zeros(x.shape), np.zeros(x.shape), np.zeros(x.shape)
    force, moment = np.zeros(start.shape), np.zeros(start.shape)
    for load in loads:
        if isinstance(load, Spreads):
            live = (load.start <= x) & (stations[1:] <= load.end)
            slope = np.subtract(load.last, load.first) / np.subtract(load.end, load.start)
            q += np.where(live, load.first + slope * (x - load.start), 0.0)
            g += np.where(live, slope, 0.0)
            continue
        here = np.where(_within(kind, start, end, load.station), load.force, 0.0)
        shed += np.where(load.station <= x, here, 0.0)
        force += here
        moment += here * (load.station - start)
    lumps = h * (q + 0.5 * h * g)
    shed[1:] += np.cumsum(lumps[:-1], axis=0)
    force += lumps.sum(axis=0)
    moment += (lumps * (x - start) + h * h * (0.5 * q + _3 * h * g)).sum(axis=0)
    V, M = _held(kind, end - start, force, moment)
    V = V - shed
    M = _run(M, h * (V - h * (0.5 * q + _6 * h * g)))
    T = _run(np.zeros(start.shape), -h * (M[:-1] + h * (0.5 * V - h * (_6 * q + _24 * h * g))))
    Y = _run(np.zeros(start.shape), h * (T[:-1] - h * (0.5 * M[:-1] + h * (_6 * V - h * (_24 * q + _120 * h * g)))))
    return BayAlone(kind, stations, q, g, V, M, T, Y, moment)


def _within(kind: BayKind, start: Floats, end: Floats, station: Numbers) -> NDArray[np.bool_]:
    """Where a force bends the bay: between its supports, or up to and with its free end."""
    after = (station > start) | (kind == "left overhang")
    return after & ((station < end) | (kind == "right overhang"))


def _held(kind: BayKind, length: Floats, force: Floats, moment: Floats) -> tuple[Floats, Floats]:
    """V and M at the start of a bay that is by itself."""
    if kind == "span":
        return force - moment / length, np.zeros(force.shape)
    if kind == "right overhang":
        return force, -moment
    return np.zeros(force.shape), np.zeros(force.shape)


def _run(start: Floats, steps: Floats) -> Floats:
    """The figure at all stations: its start and its sums."""
    return np.concatenate([start[None], start + np.cumsum(steps, axis=0)])


def bent(bays: list[BayAlone]) -> list[tuple[State, Floats]]:
    """The start of what is laid over each bay, and M at its end, so that moments balance and slopes run through."""
    spans = [bay for bay in bays if bay.kind == "span"]
    nothing = np.zeros(spans[0].length.shape)
    turns = [(-bay.Y[-1] / bay.length, bay.T[-1] - bay.Y[-1] / bay.length) for bay in spans]
    moments = [nothing] * (len(spans) + 1)
    if bays[0].kind == "left overhang":
        moments[0] = bays[0].M[-1]
    if bays[-1].kind == "right overhang":
        moments[-1] = -bays[-1].moment
    _support_moments(moments, turns, [bay.length for bay in spans])
    laid: list[tuple[State, Floats]] = []
    for bay, a, b, (turn, _) in zip(spans, moments, moments[1:], turns, strict=False):
        laid.append((((b - a) / bay.length, a, turn + (a + a + b) * bay.length * _6, nothing), b))
    if bays[0].kind == "left overhang":
        tip = laid[0][0][2] - bays[0].T[-1]
        laid.insert(0, ((nothing, nothing, tip, -bays[0].Y[-1] - tip * bays[0].length), moments[0]))
    if bays[-1].kind == "right overhang":
        turn = turns[-1][1] - (moments[-2] + 2.0 * moments[-1]) * spans[-1].length * _6
        laid.append(((nothing, nothing, turn, nothing), nothing))
    return laid


def _support_moments(moments: list[Floats], turns: list[tuple[Floats, Floats]], lengths: list[Floats]) -> None:
    """Fill in the moments over the inner supports, as ``solver`` does."""
    pivots: list[Floats] = []
    rests: list[Floats] = []
    for i in range(len(lengths) - 1):
        rest = 6.0 * (turns[i][1] - turns[i + 1][0]) - (0.0 if i else lengths[0] * moments[0])
        pivot = 2.0 * (lengths[i] + lengths[i + 1])
        if i:
            carry = lengths[i] / pivots[-1]
            rest, pivot = rest - carry * rests[-1], pivot - carry * lengths[i]
        pivots.append(pivot)
        rests.append(rest)
    for i in range(len(lengths) - 1, 0, -1):
        moments[i] = (rests[i - 1] - lengths[i] * moments[i + 1]) / pivots[i - 1]


def laid_over(bay: BayAlone, start: State, end_moment: Floats) -> Pieces:
    """The bay with what is laid over it; at its end M and EI y are what the neighbour says, without rounding."""
    v, m, t, y = start
    x = bay.stations - bay.stations[0]
    last = bay.stations == bay.stations[-1]
    V = bay.V + v
    M = np.where(last, end_moment, bay.M + (m + v * x))
    T = bay.T + t - x * (m + 0.5 * x * v)
    Y = bay.Y + y + x * (t - x * (0.5 * m + _6 * x * v))
    if bay.kind != "right overhang":
        Y = np.where(last, 0.0, Y)
    h = np.diff(bay.stations, axis=0)
    V1 = V - h * (bay.q + 0.5 * h * bay.g)
    return Pieces(h, bay.q, bay.g, V, V1, M[:-1], M[1:], T[:-1], T[1:], Y[:-1], Y[1:])


def _reactions(posts: list[Floats], loads: Sequence[Points | Spreads], pieces: list[Pieces], first_span: int) -> Floats:
    """The step of V over each support, and the forces right above it."""
    reactions = []
    for i, post in enumerate(posts, first_span):
        reaction = np.zeros(post.shape)
        for load in loads:
            if isinstance(load, Points):
                reaction += np.where(load.station == post, load.force, 0.0)
        if i < len(pieces):
            reaction += pieces[i].V[0]
        if i:
            reaction -= pieces[i - 1].V1[-1]
        reactions.append(reaction)
    return np.stack(reactions)
