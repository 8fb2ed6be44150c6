"""Thousands of lines at once whose supports and loads stand in different places: posts moved, loads uncertain.

The road of ``solver`` with one array for each figure; samples along the last axis. Within a bay all stations are
clipped to the bay and sorted, so that samples may have their loads in any order; pieces of no length do no harm.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from beamcheck.beam.many import Floats, Pieces, deflection_peaks, force_peaks
from beamcheck.beam.samples import LinePeaks
from beamcheck.errors import OutOfRange

_6, _24, _120 = 1.0 / 6.0, 1.0 / 24.0, 1.0 / 120.0

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


class _State(NamedTuple):
    """V, M, EI theta, EI y of every sample at one station."""

    V: Floats
    M: Floats
    T: Floats
    Y: Floats


class _Bay(NamedTuple):
    """A bay of every sample integrated by itself: its pieces, its loads' sum and moment about its start."""

    start: Floats
    stations: Floats
    q: Floats
    g: Floats
    V: Floats
    force: Floats
    moment: Floats


def moved(
    supports: Sequence[Numbers],
    loads: Sequence[Points | Spreads],
    left_overhang: Numbers = 0.0,
    right_overhang: Numbers = 0.0,
) -> LinePeaks:
    """Peaks and reactions of every sample, bay by bay; an overhang that is 0.0 for all is no bay.

    Raises OutOfRange if in any sample supports are not in order or a load lies off the beam.
    """
    figures = [*supports, left_overhang, right_overhang, *(figure for load in loads for figure in load)]
    samples = np.broadcast_shapes(*[np.shape(figure) for figure in figures]) or (1,)
