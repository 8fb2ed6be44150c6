"""Thousands of samples of one line whose loads change in size but not in place: each load is solved once."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from beamcheck.beam.chart import breaks
from beamcheck.beam.many import ROOM, Floats, Pieces, all_peaks
from beamcheck.beam.model import Line, Load
from beamcheck.beam.solver import curve
from beamcheck.beam.superpose import Grid, columns, flat, grid
from beamcheck.errors import OutOfRange


class LinePeaks(NamedTuple):
    """The peaks of every sample; shapes (bays or supports, samples). ``shear`` is a size without sign."""

    sagging: Floats
    hogging: Floats
    shear: Floats
    EI_down: Floats
    EI_up: Floats
    reactions: Floats


def sampled(line: Line, loads: Sequence[Load], factors: Floats) -> LinePeaks:
    """Peaks of the line when each load is taken times its factor; ``factors`` has the shape (samples, loads)."""
    if factors.shape[1:] != (len(loads),):
        raise OutOfRange(
            f"factors: {factors.shape[1:]} columns for {len(loads)} loads\n  give one column for each load"
        )
    stations = breaks(line, loads)
    broken = grid(line, stations)
    units = np.array([flat(curve(line, (load,), stations)) for load in loads]).T
    step = max(1, ROOM // len(broken.spans))
    room = np.empty((len(units), min(step, len(factors))))  # one array for all: fresh memory costs more than the sums
    parts = []
    for k in range(0, len(factors), step):
        some = factors[k : k + step].T
        parts.append(_line_peaks(broken, np.matmul(units, some, out=room[:, : some.shape[1]])))
    return LinePeaks(*[np.concatenate(figure, axis=-1) for figure in zip(*parts, strict=True)])


def _line_peaks(broken: Grid, figures: Floats) -> LinePeaks:
    """The peaks of samples whose rows of figures stand side by side."""
    h = np.diff(broken.stations)[:, None]
    found = [all_peaks(Pieces(h[lo:hi], *[figures[at] for at in columns(lo, hi)])) for lo, hi in broken.bays]
    top, low, size, down, up = np.stack(found, axis=1)
    return LinePeaks(top, low, size, down, up, figures[broken.reactions :].copy())
