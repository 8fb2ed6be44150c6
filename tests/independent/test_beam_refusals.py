"""What is no beam, or no load on it, is refused with a sentence that names it; and what merely rounds is not."""

import math
import subprocess
import sys

import numpy as np
import pytest

from beamcheck.beam.envelope import Combination, envelope
from beamcheck.beam.model import Line, Point, Settlement, Spread
from beamcheck.beam.moved import Points, Spreads, moved
from beamcheck.beam.samples import sampled
from beamcheck.beam.solver import solve
from beamcheck.errors import OutOfRange

SIMPLE = Line((0.0, 174.0))


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: Line(()), "has no support"),
        (lambda: Line((12.0,)), "one support, at 12 in, and would tip"),
        (lambda: Line((0.0, 90.0, 90.0)), "no span between 90 in and 90 in"),
        (lambda: Line((0.0, 90.0, 60.0)), "out of order: 90 in and 60 in"),
        (lambda: Line((0.0, math.nan)), "0.0 or nan, not a length"),
        (lambda: Line((0.0, math.nan, 90.0)), "out of order: 0 in and nan in"),
        (lambda: Line((0.0, 90.0, 90.00000001)), "no span between 90 in and 90.00000001 in"),
        (lambda: Line((0.0, math.inf)), "not a length"),
        (lambda: Line((0.0, 90.0), -1.0), "overhangs of -1 in and 0 in"),
        (lambda: Line((0.0, 90.0), 0.0, math.nan), "overhangs of 0 in and nan in"),
        (lambda: solve(SIMPLE, [Point(190.0, 1.0)]), "station 190 in is beyond the end of the beam at 174 in"),
        (lambda: solve(SIMPLE, [Point(-3.5, 1.0)]), "station -3.5 in is before the start of the beam at 0 in"),
        (lambda: solve(SIMPLE, [Point(math.nan, 1.0)]), "station nan in"),
        (lambda: solve(SIMPLE, [Spread(0.0, 180.0, 1.0, 1.0)]), "station 180 in is beyond the end"),
        (lambda: solve(SIMPLE, [Spread(-9.0, 80.0, 1.0, 1.0)]), "station -9 in is before the start"),
        (lambda: solve(SIMPLE, [Spread(20.0, 20.0, 1.0, 1.0)]), "from 20 in to 20 in: has no length"),
        (lambda: solve(SIMPLE, [Spread(30.0, 20.0, 1.0, 1.0)]), "from 30 in to 20 in: has no length"),
        (lambda: solve(SIMPLE, [Point(20.0, math.nan)]), "point load at 20 in: a force of nan lb"),
        (lambda: solve(SIMPLE, [Spread(0.0, 20.0, math.inf, 1.0)]), "from 0 in to 20 in: inf to 1.0 lb/in"),
        (lambda: solve(SIMPLE, [Settlement(2, 1.0)]), "no support number 2"),
        (lambda: solve(SIMPLE, [Settlement(-1, 1.0)]), "no support number -1"),
        (lambda: solve(Line((0.0, 9.0, 20.0)), [Settlement(0, math.nan)]), "EI_drop = nan"),
        (lambda: solve(SIMPLE, []).moment(175.0), "station 175 in: the beam runs from 0 in to 174 in"),
        (lambda: solve(SIMPLE, []).shear(-1.0, "left"), "station -1 in"),
        (lambda: solve(SIMPLE, []).peaks(1), "bay 1: the beam has 1 bays"),
        (lambda: envelope(SIMPLE, {}, [Combination("D", {"D": 1.0})]).under("L"), "'L': not in this envelope"),
        (lambda: envelope(SIMPLE, {}, [Combination("D", {"D": 1.0})]).response("D", (3,)), "has 1 bays"),
        (lambda: envelope(Line(tuple(map(float, range(10)))), {}, []), "9 bays, patterns are tried for 8"),
        (lambda: sampled(SIMPLE, [Point(3.0, 1.0)], np.ones((4, 2))), "for 1 loads"),
        (lambda: moved([0.0, np.array([9.0, 0.0])], []), "supports are out of order"),
        (lambda: moved([0.0], []), "supports are out of order or fewer than two"),
        (lambda: moved([0.0, 9.0], [], left_overhang=-1.0), "an overhang is less than zero"),
        (lambda: moved([0.0, 9.0], [Points(np.array([1.0, 9.5]), 1.0)]), "off the beam in some"),
        (lambda: moved([0.0, 9.0], [Spreads(1.0, np.array([2.0, 1.0]), 1.0, 1.0)]), "no length in some"),
    ],
)
def test_refused_with_a_sentence(make, says):
    """The message says what is wrong with the value in it, and on its second line what would do."""
    with pytest.raises(OutOfRange) as refused:
        make()
    assert says in str(refused.value)
    assert str(refused.value).count("\n  ") == 1


def test_rounding_is_no_reason_to_refuse():
    """A load that lies off the beam by rounding alone is taken to its end."""
    over = math.nextafter(174.0, 200.0)
    assert solve(SIMPLE, [Point(over, 100.0)]).reactions == (0.0, 100.0)
    assert solve(SIMPLE, [Spread(-1e-9, over, 2.0, 2.0)]).reactions == pytest.approx((174.0, 174.0))


def test_an_overhang_shorter_than_rounding_is_none():
    """An overhang that moves no station is no bay, and changes nothing."""
    line = Line((100.0, 200.0), 1e-17, 1e-17)
    assert [bay.label for bay in line.bays] == ["span 1"]
    assert solve(line, [Spread(100.0, 200.0, 1.0, 1.0)]).peaks(0).sagging == (1250.0, 150.0)


def test_an_unloaded_line_rests():
    """Without load nothing bends, and nothing fails."""
    response = solve(Line((0.0, 100.0, 200.0), 10.0, 10.0), [])
    assert response.reactions == (0.0, 0.0, 0.0)
    assert all(peak.value == 0.0 for peak in response.peaks())
    assert response.residual == (0.0, 0.0)
    empty = envelope(Line((0.0, 100.0)), {"D": []}, [Combination("D", {"D": 1.0})])
    assert empty.under("D").sagging[0].value == 0.0
    assert empty.response("D", ()).reactions == (0.0, 0.0)
    assert len(empty.response("D", ()).pieces) == 1


def test_a_force_over_a_support_goes_straight_down():
    """It is felt by that support alone and bends nothing."""
    response = solve(Line((0.0, 100.0, 200.0)), [Point(100.0, 700.0), Point(0.0, 50.0)])
    assert response.reactions == (50.0, 700.0, 0.0)
    assert response.sagging().value == response.hogging().value == 0.0


def test_one_beam_loads_no_numpy():
    """The path of one beam imports neither numpy nor sympy nor pint: start-up stays short."""
    code = (
        "import sys, beamcheck.beam.envelope, beamcheck.beam.solver\n"
        "print([name for name in ('numpy', 'sympy', 'pint', 'fractions', 'decimal') if name in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
