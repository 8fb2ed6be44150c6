"""Samples by the thousand, more than are worked on at a time: each is the line solved by itself."""

import numpy as np
import pytest

from beamcheck.beam.many import ROOM, Floats
from beamcheck.beam.model import Line, Point, Spread
from beamcheck.beam.moved import Points, Spreads, moved
from beamcheck.beam.samples import LinePeaks, sampled
from beamcheck.beam.solver import solve
from beamcheck.beam.superpose import scaled
from beamcheck.errors import OutOfRange

LINE = Line((0.0, 120.0, 200.0), 10.0, 20.0)
LOADS = (Spread(-10.0, 220.0, 8.0, 8.0), Point(40.0, 900.0), Point(150.0, 400.0), Spread(100.0, 170.0, 5.0, 25.0))


def same(found: LinePeaks, k: int, line: Line, loads: list[Point | Spread]) -> None:
    """Hold one sample to the line solved by itself."""
    response = solve(line, loads)
    assert list(found.reactions[:, k]) == pytest.approx(list(response.reactions), rel=1e-9, abs=1e-6)
    for bay in range(len(line.bays)):
        peaks = response.peaks(bay)
        for name in ("sagging", "hogging", "EI_down", "EI_up"):
            figure = float(getattr(found, name)[bay, k])
            assert figure == pytest.approx(getattr(peaks, name).value, rel=1e-8, abs=1e-3), name


def spots(count: int) -> list[int]:
    """The first and last sample, and some between."""
    return sorted({0, 1, count // 3, count // 2, 3 * count // 4, count - 2, count - 1})


def test_every_one_of_many_sizes_is_solved() -> None:
    """Thousands of sizes of the loads come back one for one, in their order."""
    count = ROOM // 2
    factors: Floats = np.random.default_rng(5).uniform(-0.5, 1.5, (count, len(LOADS)))
    found = sampled(LINE, LOADS, factors)
    assert found.sagging.shape == (4, count)
    for k in spots(count):
        loads = [scaled(load, f) for load, f in zip(LOADS, factors[k], strict=True)]
        same(found, k, LINE, [load for load in loads if isinstance(load, Point | Spread)])


def test_every_one_of_many_places_is_solved() -> None:
    """Thousands of places of a post and a force, among figures that are one number or one for all."""
    count = ROOM // 2
    chance = np.random.default_rng(6)
    middle, station = chance.uniform(90.0, 130.0, count), chance.uniform(-5.0, 205.0, count)
    loads = [Spreads(-10.0, np.array([220.0]), 8.0, 8.0), Points(station, np.array([900.0])), Points(150.0, 400.0)]
    found = moved([0.0, middle, np.array([200.0])], loads, 10.0, np.array([20.0]))
    assert found.reactions.shape == (3, count)
    for k in spots(count):
        line = Line((0.0, float(middle[k]), 200.0), 10.0, 20.0)
        own = [Spread(-10.0, 220.0, 8.0, 8.0), Point(float(station[k]), 900.0), Point(150.0, 400.0)]
        same(found, k, line, own)


@pytest.mark.parametrize(("left", "right"), [(0.0, -5.0), (-5.0, 0.0), (np.array([1.0, -1.0]), 0.0)])
def test_an_overhang_below_nothing_is_refused(left: Floats | float, right: Floats | float) -> None:
    """An overhang that points inward in any sample is no beam."""
    with pytest.raises(OutOfRange, match="overhang"):
        moved([0.0, 100.0, 200.0], [Points(50.0, 10.0)], left, right)
