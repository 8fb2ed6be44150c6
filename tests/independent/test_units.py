"""Units: factors against pint, conversion, and printing that reads back."""

import math
import re
import subprocess
import sys

import numpy as np
import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from beamcheck.trade_units import TRADE_UNITS
from beamcheck.units import (
    UnitFault,
    convert,
    format_length,
    format_length_metric,
    format_quantity,
    parse_length,
)

# our bases in pint's words, written out here and not taken from the module
PINT_BASES = {
    "in": "inch",
    "in^2": "inch**2",
    "in^3": "inch**3",
    "in^4": "inch**4",
    "lb*in^2": "force_pound*inch**2",
    "lb": "force_pound",
    "lb*in": "force_pound*inch",
    "lb/in": "force_pound/inch",
    "psi": "force_pound/inch**2",
    "pcf": "force_pound/foot**3",
    "deg": "degree",
    "1": "dimensionless",
}
PINT_UNITS = {
    "sf": "foot**2",
    "lb/sf": "force_pound/foot**2",
    "plf": "force_pound/foot",
    "klf": "kip/foot",
    "psf": "force_pound/foot**2",
    "ksf": "kip/foot**2",
    "pcf": "force_pound/foot**3",
    "kg/m^3": "kilogram*standard_gravity/meter**3",
    "%": "percent",
    "1": "dimensionless",
}


@pytest.fixture(scope="module")
def registry() -> "pint.UnitRegistry[float]":
    """Pint itself, once."""
    return pint.UnitRegistry()


@pytest.mark.parametrize("unit", TRADE_UNITS)
def test_every_trade_unit_agrees_with_pint(unit: str, registry: "pint.UnitRegistry[float]") -> None:
    """Each factor of the trade table equals pint's, which comes from its own definitions."""
    long = {"lb": "force_pound", "kgf": "force_kilogram"}
    spelled = PINT_UNITS.get(unit) or re.sub("[A-Za-z]+", lambda word: long.get(word[0], word[0]), unit)
    base = TRADE_UNITS[unit][0]
    theirs = registry.Quantity(1.0, registry.parse_units(spelled)).to(PINT_BASES[base]).magnitude
    assert math.isclose(convert(1.0, unit, base), theirs, rel_tol=1e-12)


@given(st.integers(min_value=-(10**6), max_value=10**6))
def test_a_printed_length_reads_back_exactly(sixteenths: int) -> None:
    """Formatting and reading are inverse on every multiple of 1/16 in."""
    inches = sixteenths / 16
    assert parse_length(format_length(inches), minimum=-math.inf) == inches


@given(st.floats(min_value=-(10**5), max_value=10**5), st.sampled_from([1, 2, 4, 8, 16, 32, 64]))
def test_a_printed_length_is_the_nearest(inches: float, step: int) -> None:
    """Formatting moves a length by no more than half a step."""
    back = parse_length(format_length(inches, step=step), minimum=-math.inf)
    assert abs(back - inches) <= 0.5 / step + 1e-9


@pytest.mark.parametrize(
    ("inches", "printed"),
    [
        (162.5, "13 ft 6-1/2 in"),
        (168, "14 ft 0 in"),
        (12.375, "1 ft 0-3/8 in"),
        (6.375, "6-3/8 in"),
        (0.5, "1/2 in"),
        (0, "0 in"),
        (-0.01, "0 in"),
        (11.99, "1 ft 0 in"),
        (-15.5, "-1 ft 3-1/2 in"),
    ],
)
def test_a_length_prints_as_the_trade_writes_it(inches: float, printed: str) -> None:
    """Feet only from 12 in on, the fraction in lowest terms, no minus before zero."""
    assert format_length(inches) == printed


def test_a_length_that_is_no_number_is_not_printed() -> None:
    """Nothing that is not finite prints as a length."""
    for inches in (math.nan, math.inf, -math.inf):
        with pytest.raises(UnitFault, match="no length to print"):
            format_length(inches)
    with pytest.raises(UnitFault, match="no length to print"):
        format_length(1.0, step=0)


def test_quantities_print_with_their_unit() -> None:
    """Digits after the point are those asked for; commas only where the reader accepts them."""
    assert format_quantity(3200.4, "lb", 0) == "3,200 lb"
    assert format_quantity(-0.04, "in", 1) == "0.0 in"
    assert format_quantity(1.255, "1", 1) == "1.3"
    assert format_quantity(19, "%", 0) == "19%"
    assert format_quantity(14234.3, "N", 1) == "14234.3 N"
    assert format_length_metric(162.5) == "4128 mm"
    assert format_length_metric(162.5, digits=1) == "4127.5 mm"


def test_conversion_has_no_dust_between_customary_units() -> None:
    """A whole ratio of units leaves whole numbers whole, there and back."""
    for whole in range(1, 2000):
        assert convert(convert(float(whole), "psf", "psi"), "psi", "psf") == whole
        assert convert(convert(float(whole), "plf", "lb/in"), "lb/in", "plf") == whole
        assert convert(float(whole), "lb*ft", "lb*in") == whole * 12


@given(st.floats(min_value=1e-6, max_value=1e9))
def test_two_names_of_one_unit_leave_the_number_alone(number: float) -> None:
    """A unit and its synonym differ by nothing, not even by the last place."""
    for name, synonym in [("psf", "lb/ft^2"), ("plf", "lb/ft"), ("kPa", "kN/m^2"), ("kip*ft", "ft*kip")]:
        assert convert(number, name, synonym) == number


@given(st.floats(min_value=1e-6, max_value=1e9))
def test_a_whole_ratio_is_one_multiplication(number: float) -> None:
    """Where one unit is a whole number of the other, nothing is rounded but that product or quotient."""
    for large, small, ratio in [("ksf", "psf", 1000), ("klf", "plf", 1000), ("psi", "psf", 144)]:
        assert convert(number, large, small) == number * ratio
        assert convert(number, small, large) == number / ratio


def test_an_array_converts_as_its_numbers_do() -> None:
    """Conversion of an array is conversion of each of its numbers."""
    loads = np.array([10.0, 40.0, 62.4])
    for to_unit in ("psf", "psi", "kPa", "ksf"):
        assert list(convert(loads, "psf", to_unit)) == [convert(float(load), "psf", to_unit) for load in loads]


def test_conversion_refuses_another_dimension_and_an_unknown_name() -> None:
    """Only two known names of one dimension convert, even when both names are the same."""
    for from_unit, to_unit, fault in [
        ("lb", "in", "lb does not convert to in"),
        ("stone", "lb", '"stone" is not a unit known here'),
        ("stone", "stone", '"stone" is not a unit known here'),
    ]:
        with pytest.raises(UnitFault, match=fault):
            convert(1.0, from_unit, to_unit)


def test_trade_units_need_neither_pint_nor_numpy() -> None:
    """Reading, converting and printing in the trade's units imports no heavy library."""
    code = (
        "import sys; from beamcheck import units as u; u.parse_length('13 ft 6-1/2 in'); "
        "u.parse('100 lbs/foot', u.Dimension.LINE_LOAD); u.parse('5 kN', u.Dimension.FORCE); "
        "u.format_length(u.convert(1.0, 'm', 'in')); print(sorted({'pint', 'numpy'} & set(sys.modules)))"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"
