"""Laws of bare figures in formulas: their digits and their units."""

from __future__ import annotations

import math

import pytest

from beamcheck.views.figures import figure, quantity, unit_text


@pytest.mark.parametrize(
    ("number", "unit", "printed"),
    [
        (1942.95, "psi", "1,943"), (62.54, "psi", "62.5"), (99.96, "psi", "100"), (1162.5, "psi", "1,163"),
        (0.04, "psi", "0.0"), (-0.04, "lb", "0.0"), (0.0, "lb", "0"), (-1943.2, "lb", "-1,943"),
        (5.5, "in", "5.5"), (11.875, "in", "11.875"), (163.0, "in", "163"), (0.34712, "in", "0.347"),
        (0.00041, "in", "0.00041"), (123.388, "in^3", "123.39"), (31.640625, "in^3", "31.64"),
        (1.0, "1", "1.0"), (1.15, "1", "1.15"), (0.9, "1", "0.9"), (0.90004, "1", "0.900"),
        (1.0004, "1", "1.0004"), (0.99996, "1", "0.99996"), (360.0, "1", "360"), (24.6861, "1", "24.69"),
        (2300.0, "1", "2,300"), (0.000001, "1", "0.000001"), (40.00000000000001, "psf", "40"),
        (math.inf, "1", "∞"), (-math.inf, "1", "-∞"), (math.nan, "psi", "undefined"),
    ],
)  # fmt: skip
def test_digits_follow_unit_and_size(number: float, unit: str, printed: str) -> None:
    """A figure has the digits its unit deserves; no "-0", no dust, and nothing but 1 shows as 1.000."""
    assert figure(number, unit) == printed


def test_units_are_printed_as_units() -> None:
    """lb*in^3 is how code has it; print has dots and raised figures."""
    assert unit_text("lb*in^3") == "lb·in³"
    assert quantity(18.4, "deg") == "18.4°"
    assert quantity(1943.0, "psi") == "1,943 psi"
    assert quantity(0.5, "1") == "0.5"
