"""Thousands of lines at once for low / likely / high and chance: loads that change in size, or in place as well.

``sampled`` solves each load once and multiplies; ``moved`` lays the loads out anew in every sample, and lets the
supports move too. Both give the peaks bay by bay; the formulas are those of ``solver`` and ``peaks``.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from beamcheck.beam.chart import breaks
from beamcheck.beam.many import ROOM, Floats, Pieces, deflection_peaks, force_peaks
from beamcheck.beam.model import Line, Load
from beamcheck.beam.peaks import Curve, runs
from beamcheck.beam.solver import curve
from beamcheck.beam.superpose import columns, flat
from beamcheck.errors import OutOfRange

_6, _24, _120 = 1.0 / 6.0, 1.0 / 24.0, 1.0 / 120.0


class LinePeaks(NamedTuple):
    """The peaks of every sample; shapes (bays or supports, samples). ``shear`` is a size without sign."""

    sagging: Floats
    hogging: Floats
    shear: Floats
    EI_down: Floats
    EI_up: Floats
    reactions: Floats


class Points(NamedTuple):
    """A force in every sample: station and size of shape (samples,), or one number for all."""

    station: Floats | float
    force: Floats | float


class Spreads(NamedTuple):
    """A line load in every sample, straight from ``first`` to ``last``: shapes (samples,), or one number for all."""

    start: Floats | float
    end: Floats | float
    first: Floats | float
    last: Floats | float


def sampled(line: Line, loads: Sequence[Load], factors: Floats) -> LinePeaks:
    """Peaks of the line when each load is taken times its factor; ``factors`` has the shape (samples, loads)."""
    if factors.shape[1:] != (len(loads),):
        raise OutOfRange(
            f"factors: {factors.shape[1:]} columns for {len(loads)} loads\n  give one column for each load"
        )
    stations = breaks(line, loads)
    blank = curve(line, (), stations)
    units = np.array([flat(curve(line, (load,), stations)) for load in loads]).T
    step = max(1, ROOM // len(blank.q0))
    parts = [_sampled(blank, units, factors[k : k + step].T) for k in range(0, len(factors), step)]
    return LinePeaks(*[np.concatenate(figure, axis=-1) for figure in zip(*parts, strict=True)])


def _sampled(blank: Curve, units: Floats, factors: Floats) -> LinePeaks:
    figures = units @ factors
    n = len(blank.q0)
    h = np.diff(blank.stations)[:, None]
    found = []
    for lo, hi in runs(blank):
        pieces = Pieces(h[lo:hi], *[figures[b + lo : b + hi] for b in columns(n)])
        found.append(_peaks(pieces))
    top, low, size, down, up = np.stack(found, axis=1)
    return LinePeaks(top, low, size, down, up, figures[7 * n + 3 :])


def _peaks(pieces: Pieces) -> Floats:
    return np.stack([*force_peaks(pieces), *deflection_peaks(pieces)])
