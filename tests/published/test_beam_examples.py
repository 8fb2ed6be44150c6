"""Forces and deflections of beams that other people printed, met to half of the last printed digit.

The solver takes any consistent set of units; each example keeps the units of its source. The tolerance follows from
the digits as printed and cannot be chosen.
"""

import pytest

from beamcheck.beam.model import Line, Point, Settlement, Spread
from beamcheck.beam.response import Response
from beamcheck.beam.solver import solve


def agrees(printed: str, value: float) -> bool:
    """Whether a value rounds to the printed digits."""
    decimals = len(printed.partition(".")[2])
    return abs(float(printed) - value) <= 0.5 * 10.0**-decimals * (1.0 + 1e-9)


def full(line: Line, w: float) -> Spread:
    """A uniform load over the whole line."""
    return Spread(line.start, line.end, w, w)


def hicks() -> dict[str, float]:
    """Hicks (ed.), Handbook of Civil Engineering Calculations, 2nd ed., Fig. 43, p. 1.62-1.63; ft, kip."""
    response = solve(
        Line((0.0, 10.0, 25.0)),
        [Spread(0.0, 10.0, 2.0, 2.0), Point(5.0, 6.0), Spread(10.0, 25.0, 3.0, 3.0), Point(19.0, 10.0)],
    )
    left, middle, right = response.reactions
    return {"80.2": -response.moment(10.0), "4.98": left, "52.87": middle, "23.15": right}


def peurifoy_5_1() -> dict[str, float]:
    """Peurifoy & Oberlender, Formwork for Concrete Structures, 4th ed., Example 5-1, p. 95; in, lb."""
    response = solve(Line((0.0, 96.0)), [Point(24.0, 190.0), Point(48.0, 190.0), Point(72.0, 190.0)])
    return {"9120": response.sagging().value}


def peurifoy_5_2() -> dict[str, float]:
    """Peurifoy & Oberlender, the same, Example 5-2, p. 97; in, lb."""
    line = Line((0.0, 108.0))
    return {"18225": solve(line, [full(line, 150.0 / 12.0)]).sagging().value}


def peurifoy_5_3() -> dict[str, float]:
    """Peurifoy & Oberlender, the same, Example 5-3, p. 97: three or more spans of 30 in, 500 plf; in, lb."""
    line = Line((0.0, 30.0, 60.0, 90.0))
    return {"3750": -solve(line, [full(line, 500.0 / 12.0)]).hogging().value}


def mccormac() -> dict[str, float]:
    """McCormac, Design of Reinforced Concrete, formwork, before section 20.10: stringer over 4 ft spans; ft, lb."""
    line = Line((0.0, 4.0, 8.0, 12.0))
    return {"1440": -solve(line, [full(line, 900.0)]).hogging().value}


def gere_5_6_7() -> dict[str, float]:
    """Gere, Mechanics of Materials, 7th ed., solutions, Problem 5.6-7, p. 416; in, lb."""
    line = Line((0.0, 126.0))
    return {"26460": solve(line, [full(line, 120.0 / 144.0 * 16.0)]).sagging().value}


def gere_5_8_9() -> dict[str, float]:
    """Gere, Mechanics of Materials, 6th ed., solutions, Problem 5.8-9, p. 333-334; ft, lb."""
    line = Line((0.0, 9.0))
    first = solve(line, [full(line, 120.0), Point(6.0, 8800.0)])
    second = solve(line, [full(line, 120.0), full(line, 17.3), Point(6.0, 8800.0)])
    left, right = first.reactions
    return {"3473": left, "6407": right, "18680": first.sagging().value, "6485": -second.greatest_shear().value}


def gere_5_10_9() -> dict[str, float]:
    """Gere, Mechanics of Materials, 7th ed., solutions, Problem 5.10-9, p. 462; ft, lb."""
    line = Line((0.0, 12.0), right_overhang=4.0)
    response = solve(line, [full(line, 1200.0), Point(8.0, 3000.0), Point(16.0, 3000.0)])
    left, right = response.reactions
    return {
        "6400": left,
        "18800": right,
        "21600": -response.hogging().value,
        "12800": response.moment(8.0),
        "11000": abs(response.greatest_shear().value),
    }


def cisc_24() -> dict[str, float]:
    """CISC Handbook of Steel Construction, 11th ed., beam diagram 24, p. 5-138: l = 10, a = 3, w = 10."""
    line = Line((0.0, 10.0), right_overhang=3.0)
    response = solve(line, [full(line, 10.0)])
    return {"103.5125": response.sagging().value, "45": -response.hogging().value}


def hibbeler_12_21() -> dict[str, float]:
    """Hibbeler, Mechanics of Materials, Example 12.21: fixed at one end, propped at the other; N, m.

    The fixed end is the middle of two spans that mirror each other.
    """
    response = solve(Line((-3.0, 0.0, 3.0)), [Spread(-3.0, 3.0, 6e3, 6e3), Point(-1.5, 8e3), Point(1.5, 8e3)])
    return {
        "9250": response.reactions[2],
        "16750": response.shear(0.0, "right"),
        "11250": -response.hogging().value,
    }


def aisc_f1_1() -> dict[str, float]:
    """AISC, Design Examples, Example F.1-1: W18x50, 35 ft, live load 0.75 kip/ft; in, kip."""
    line = Line((0.0, 420.0))
    return {"1.09": solve(line, [full(line, 0.75 / 12.0)]).down(29000.0 * 800.0).value}


def awc_e1_2a() -> dict[str, float]:
    """American Wood Council, Structural Wood Design Examples, 2015/2018, Example E1.2a, p. 7-10; in, lb.

    2,831 lb at mid-span of 20 ft, and the beam's own 13.9 plf.
    """
    line = Line((0.0, 240.0))
    response = solve(line, [full(line, 13.9 / 12.0), Point(120.0, 2831.0)])
    return {"0.44": response.down(1.9e6 * 1034.0).value}


EXAMPLES = [
    hicks, peurifoy_5_1, peurifoy_5_2, peurifoy_5_3, mccormac, gere_5_6_7, gere_5_8_9, gere_5_10_9, cisc_24,
    hibbeler_12_21, aisc_f1_1, awc_e1_2a,
]  # fmt: skip


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: example.__name__)
def test_printed_figures(example):
    """Every figure that a source prints comes out to its last printed digit."""
    missed = {printed: value for printed, value in example().items() if not agrees(printed, value)}
    assert missed == {}


def test_a_wrong_figure_is_noticed():
    """A value half a digit and a little off is not taken for the printed one."""
    assert agrees("80.2", 80.2499)
    assert not agrees("80.2", 80.2501)
    assert not agrees("3750", 3750.6)


def test_settled_supports_of_a_simple_span_bend_nothing():
    """On springs a simple span sinks with its supports, and what it adds by bending is the same."""
    EI, line, load = 200e9 * 4.6875e-6, Line((0.0, 3.0)), Point(1.0, 3000.0)
    drops = [R / 45e3 for R in solve(line, [load]).reactions]
    sunk: Response = solve(line, [load, *[Settlement(i, EI * drop) for i, drop in enumerate(drops)]])
    bent = solve(line, [load]).deflection(1.0, EI)
    assert sunk.deflection(1.0, EI) == pytest.approx(bent + drops[0] + (drops[1] - drops[0]) / 3.0, rel=1e-12)
    assert sunk.sagging().value == pytest.approx(2000.0, rel=1e-12)
