"""What bends a bay by shear is its moment by itself: the rise over the line between the moments at its ends."""

import random
from itertools import pairwise

import numpy as np
import pytest

from beamcheck.beam.many import moment_rise
from beamcheck.beam.model import Line, Load, Point, Spread
from beamcheck.beam.moved import Points, Spreads, bay_alone, bay_stations, bent, laid_over
from beamcheck.beam.solver import solve

SUPPORTS = (0.0, 110.0, 260.0, 330.0)


def drawn(seed: int) -> list[list[Load]]:
    """Loads that lie each within one span: forces, even and sloped line loads, some of which change their sign."""
    dice = random.Random(seed)  # noqa: S311  a repeatable draw
    spans: list[list[Load]] = []
    for a, b in pairwise(SUPPORTS):
        loads: list[Load] = [Spread(a, b, 10.0, 10.0)]
        for _ in range(seed % 3):
            loads.append(Point(dice.uniform(a, b), dice.uniform(-500.0, 900.0)))
            start, end = sorted(dice.uniform(a, b) for _ in range(2))
            loads.append(Spread(start, end, dice.uniform(-20.0, 20.0), dice.uniform(-20.0, 40.0)))
        spans.append(loads)
    return spans


def by_itself(a: float, b: float, loads: list[Load]) -> float:
    """The greatest moment, of either sign, of the span on its two supports alone."""
    peaks = solve(Line((a, b)), loads).peaks()
    return max(abs(peaks.sagging.value), abs(peaks.hogging.value))


@pytest.mark.parametrize("seed", range(12))
def test_the_rise_in_a_bay_is_its_own_moment(seed: int) -> None:
    """Whatever lies on the other spans, a bay's moment rises over its chord by what its own loads make alone."""
    spans = drawn(seed)
    whole = solve(Line(SUPPORTS), [load for loads in spans for load in loads])
    for number, loads in enumerate(spans):
        expected = by_itself(SUPPORTS[number], SUPPORTS[number + 1], loads)
        assert whole.moment_rise(number) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("seed", range(12))
def test_the_rise_of_many_lines_at_once_is_that_of_each(seed: int) -> None:
    """Three lines, their loads once, twice and against their sense, rise by what each makes alone."""
    spans, factors = drawn(seed), np.array([1.0, 2.0, -0.5])
    loads = []
    for load in (load for part in spans for load in part):
        if isinstance(load, Point):
            loads.append(Points(load.station, factors * load.force))
        elif isinstance(load, Spread):
            loads.append(Spreads(load.start, load.end, factors * load.first, factors * load.last))
    cuts = [np.full(3, support) for support in SUPPORTS]
    bays = [bay_alone("span", bay_stations(a, b, loads), loads) for a, b in pairwise(cuts)]
    for number, (bay, states) in enumerate(zip(bays, bent(bays), strict=True)):
        alone = by_itself(SUPPORTS[number], SUPPORTS[number + 1], spans[number])
        found = moment_rise(laid_over(bay, *states))
        assert list(found) == pytest.approx(list(abs(factors) * alone), rel=1e-9)


def test_an_even_load_rises_by_its_textbook_moment() -> None:
    """Between any moments at the ends of a bay it is w l^2/8."""
    whole = solve(Line(SUPPORTS), [Spread(0.0, 330.0, 12.0, 12.0)])
    assert [whole.moment_rise(number) for number in range(3)] == pytest.approx(
        [12 * length**2 / 8 for length in (110, 150, 70)]
    )
