"""Units: texts a carpenter writes, refusals with advice, and no other error for any text."""

import math
import re
from fractions import Fraction

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from beamcheck.trade_units import TRADE_UNITS
from beamcheck.units import Dimension, UnitFault, base_unit, parse, parse_length

LENGTHS = [
    ("13 ft 6-1/2 in", Fraction(325, 2)),
    ("13'-6 1/2\"", Fraction(325, 2)),
    ("13' 6-1/2\"", Fraction(325, 2)),
    ("13' - 6 1/2 in.", Fraction(325, 2)),
    ("13′-6½″", Fraction(325, 2)),
    ("13’–6½”", Fraction(325, 2)),
    ("13 feet, 6 1/2 inches", Fraction(325, 2)),
    ("13FT6-1/2IN", Fraction(325, 2)),
    ("162.5 in", Fraction(325, 2)),
    ("14'6\"", Fraction(174)),
    ("14'6''", Fraction(174)),
    ("14'6", Fraction(174)),
    ("14'-6 3/8\"", Fraction(1395, 8)),
    ("14'", Fraction(168)),
    ("1 foot", Fraction(12)),
    ("0'-0 1/2\"", Fraction(1, 2)),
    ("13.5 ft", Fraction(162)),
    ("13-1/2 ft", Fraction(162)),
    ("1,200 ft", Fraction(14400)),
    ('6-3/8"', Fraction(51, 8)),
    ("6 3/8 in", Fraction(51, 8)),
    ("6⅜ in", Fraction(51, 8)),
    ("⅞”", Fraction(7, 8)),
    ("3⁄4 inch", Fraction(3, 4)),
    (".5 in", Fraction(1, 2)),
    ("4.12 m", Fraction("4.12") / Fraction("0.0254")),
    ("4120 mm", Fraction(4120) / Fraction("25.4")),
    ("41.2 cm", Fraction("41.2") / Fraction("2.54")),
    ("41.2\u00a0CM", Fraction("41.2") / Fraction("2.54")),
    ("4.12 metres", Fraction("4.12") / Fraction("0.0254")),
    ("2 yd", Fraction(72)),  # by pint from here
    ("2 dm", Fraction(200) / Fraction("25.4")),
]

QUANTITIES = [
    ("3,200 lb", Dimension.FORCE, 3200.0),
    ("3.2 kips", Dimension.FORCE, 3200.0),
    ("4448.2216152605 N", Dimension.FORCE, 1000.0),
    ("0.45359237 kgf", Dimension.FORCE, 1.0),
    ("120 plf", Dimension.LINE_LOAD, 10.0),
    ("120 lbs/foot", Dimension.LINE_LOAD, 10.0),
    ("120 pounds per foot", Dimension.LINE_LOAD, 10.0),
    ("0.12 klf", Dimension.LINE_LOAD, 10.0),
    ("360 lb/yd", Dimension.LINE_LOAD, 10.0),  # by pint, where lb alone would be a mass
    ("40 psf", Dimension.AREA_LOAD, 40.0),
    ("40 lb/sq ft", Dimension.AREA_LOAD, 40.0),
    ("40 lb/ft²", Dimension.AREA_LOAD, 40.0),
    ("40 lb per sq. ft.", Dimension.AREA_LOAD, 40.0),
    ("2 psi", Dimension.AREA_LOAD, 288.0),
    ("1440 psf", Dimension.STRESS, 10.0),
    ("1.9 E6 psi", Dimension.STRESS, None),
    ("1.6 ksi", Dimension.STRESS, 1600.0),
    ("32 pcf", Dimension.DENSITY, 32.0),
    ("32 lb/cu ft", Dimension.DENSITY, 32.0),
    ("4,000 ft-lb", Dimension.MOMENT, 48000.0),
    ("4 kip-ft", Dimension.MOMENT, 48000.0),
    ("4,000 lbf·ft", Dimension.MOMENT, 48000.0),
    ("4,000 lb ft", Dimension.MOMENT, 48000.0),
    ("16.5 in^2", Dimension.AREA, 16.5),
    ("16.5 sq in", Dimension.AREA, 16.5),
    ("2 sf", Dimension.AREA, 288.0),
    ("73.83 in^3", Dimension.SECTION_MODULUS, 73.83),
    ("415.3 in4", Dimension.INERTIA, 415.3),
    ("600,000,000 lb*in^2", Dimension.STIFFNESS, 6e8),
    ("45°", Dimension.ANGLE, 45.0),
    ("45 degrees", Dimension.ANGLE, 45.0),
    ("12:12", Dimension.ANGLE, 45.0),
    ("12 in 12", Dimension.ANGLE, 45.0),
    ("12/12", Dimension.ANGLE, 45.0),
    ("6 : 12", Dimension.ANGLE, math.degrees(math.atan2(1, 2))),
    ("4-1/2:12", Dimension.ANGLE, math.degrees(math.atan2(3, 8))),
    ("0.9", Dimension.NUMBER, 0.9),
    ("19 %", Dimension.NUMBER, 0.19),
]

# text, dimension, what the message must hold, what the advice must hold
REFUSALS = [
    ("14.5", Dimension.LENGTH, "14.5 has no unit", 'write "14.5 ft", which is 14 ft 6 in, or "14.5 in"'),
    ("6-3/8", Dimension.LENGTH, "6-3/8 has no unit", 'write "6-3/8 ft" or "6-3/8 in"'),
    ("3200", Dimension.FORCE, "3200 has no unit", 'write "3200 lb"'),
    ("6", Dimension.ANGLE, "6 has no unit", 'write "6:12" or "6 deg"'),
    ("13 ft 12 in", Dimension.LENGTH, "12 inches after feet", "below 12"),
    ("13' 65\"", Dimension.LENGTH, "65 inches after feet", "below 12"),
    ("13.5 ft 6 in", Dimension.LENGTH, "part of a foot", "13 ft 6 in"),
    ("1/0 in", Dimension.LENGTH, '"1/0" is not a fraction below one', "6-1/2 in"),
    ("0/0 in", Dimension.LENGTH, '"0/0" is not a fraction below one', "6-1/2 in"),
    ("61/2 in", Dimension.LENGTH, '"61/2" is not a fraction below one', "6-1/2 in"),
    ("6-8/8 in", Dimension.LENGTH, "not a fraction below one", "6-1/2 in"),
    ("-3 in", Dimension.LENGTH, "less than 0 in", "0 in or more"),
    ("-1 ft 3 in", Dimension.LENGTH, "less than 0 in", "0 in or more"),
    ("-210 plf", Dimension.LINE_LOAD, "less than 0 plf", "0 plf or more"),
    ("-3 m", Dimension.LENGTH, "less than 0 m", "0 m or more"),
    ("36", Dimension.AREA, "36 has no unit", 'write "36 ft^2" or "36 in^2"'),
    ("nan", Dimension.LENGTH, '"nan" is not a length', "14 ft 6 in"),
    ("inf ft", Dimension.LENGTH, "is not a length", "14 ft 6 in"),
    ("1e309 ft", Dimension.LENGTH, "known here", "14 ft 6 in"),
    ("4,12 m", Dimension.LENGTH, "is not a length", "a point parts decimals"),
    ("4,120 m", Dimension.LENGTH, "has a comma", '"4120 m" or "4.120 m"'),
    ("1,200 yd", Dimension.LENGTH, "has a comma", '"1200 yd"'),
    ("12 nm", Dimension.LENGTH, '"nm" is not a unit of length', "14 ft 6 in"),
    ("12 cft", Dimension.LENGTH, '"cft" is not a unit of length', "14 ft 6 in"),
    ("12 kin", Dimension.LENGTH, '"kin" is not a unit of length', "14 ft 6 in"),
    ("14' 6'", Dimension.LENGTH, "is not a unit of length", "14 ft 6 in"),
    ("14 ft 6 cm", Dimension.LENGTH, "is not a unit of length", "14 ft 6 in"),
    ("6 in 12", Dimension.LENGTH, "is not a unit of length", "14 ft 6 in"),
    ("1.2.3 ft", Dimension.LENGTH, "is not a length", "14 ft 6 in"),
    ("((3)) ft", Dimension.LENGTH, "is not a length", "14 ft 6 in"),
    ("3 (ft)", Dimension.LENGTH, "is not a unit of length", "14 ft 6 in"),
    ("12 lb", Dimension.LENGTH, '"12 lb" is not a length', "14 ft 6 in"),
    ("5 degF", Dimension.LENGTH, "is not a unit of length", "14 ft 6 in"),
    ("", Dimension.LENGTH, "nothing is written", "14 ft 6 in"),
    (" ", Dimension.FORCE, "nothing is written", "3,200 lb"),
    ("1" * 61, Dimension.LENGTH, "61 characters long", "14 ft 6 in"),
    ("3\tft", Dimension.LENGTH, r"'3\tft' has a character that does not print", "14 ft 6 in"),
    ("3\u200bft", Dimension.LENGTH, r"'3\u200bft' has a character", "14 ft 6 in"),
    ("80 kg", Dimension.FORCE, '"kg" is a mass', "N or kN, or with lb"),
    ("250 kg/m2", Dimension.AREA_LOAD, '"kg/m2" is a mass, not an area load', "40 psf"),
    ("40 psf", Dimension.LINE_LOAD, "is not a line load", "120 plf"),
    ("1/2", Dimension.ANGLE, "not a pitch in 12", "6:12"),
    ("6:0", Dimension.ANGLE, "not a pitch in 12", "6:12"),
    ("5 1", Dimension.NUMBER, "is not a unit of plain number", "0.9"),
    ("5 ft", Dimension.NUMBER, "is not a plain number", "0.9"),
]


@pytest.mark.parametrize(("text", "inches"), LENGTHS, ids=ascii)
def test_a_trade_or_metric_length_reads_as_its_exact_inches(text: str, inches: Fraction) -> None:
    """A length reads as its exact value, to the last place of a float."""
    assert math.isclose(parse_length(text), float(inches), rel_tol=3e-16)


@pytest.mark.parametrize(("text", "dimension", "wanted"), QUANTITIES, ids=ascii)
def test_a_quantity_reads_in_the_base_unit(text: str, dimension: Dimension, wanted: float | None) -> None:
    """A quantity reads in the base unit of its dimension; None marks one that must be refused."""
    if wanted is None:
        with pytest.raises(UnitFault):
            parse(text, dimension)
    else:
        assert math.isclose(parse(text, dimension), wanted, rel_tol=1e-15)


@pytest.mark.parametrize(("text", "dimension", "fault", "wanted"), REFUSALS, ids=ascii)
def test_a_refusal_says_what_is_wrong_and_what_would_do(
    text: str, dimension: Dimension, fault: str, wanted: str
) -> None:
    """A text that is not clearly a quantity is refused with the fault and with advice."""
    with pytest.raises(UnitFault) as caught:
        parse(text, dimension)
    assert fault in str(caught.value)
    assert wanted in caught.value.wanted


@pytest.mark.parametrize("dimension", Dimension)
def test_a_base_unit_reads_as_itself(dimension: Dimension) -> None:
    """A number in the base unit is not changed at all by reading."""
    unit = "" if base_unit(dimension) == "1" else f" {base_unit(dimension)}"
    assert parse(f"12.7{unit}", dimension) == 12.7
    with pytest.raises(UnitFault):
        parse("12.7 furlong/fortnight", dimension)


def test_a_sign_is_read_where_the_caller_gives_it_a_meaning() -> None:
    """A minus sign covers feet and inches together, and the minimum is inclusive."""
    assert parse_length("-1 ft 3-1/2 in", minimum=-math.inf) == -15.5
    assert parse("−40 psf", Dimension.AREA_LOAD, minimum=-40) == -40.0
    assert math.copysign(1, parse_length("-0 in")) == 1
    with pytest.raises(UnitFault, match="less than 1 in"):
        parse_length("15/16 in", minimum=1)


# text, dimension, least and most in the base unit, what the message must hold, what the advice must hold
LIMITED = [
    ("3.5", Dimension.LENGTH, (1, 24), "no unit", 'write "3.5 in"'),
    ("162", Dimension.LENGTH, (12, 720), "no unit", 'write "162 in"'),
    ("8", Dimension.LENGTH, (60, 240), "no unit", 'write "8 ft"'),
    ("4115", Dimension.LENGTH, (12, 720), "no unit", 'write "4115 mm"'),
    ("99999", Dimension.LENGTH, (1, 24), "no unit", "from 1 in to 2 ft, with its unit"),
    ("130 ft", Dimension.LENGTH, (12, 720), "outside 1 ft to 60 ft", "from 1 ft to 60 ft"),
    ("-13 ft", Dimension.LENGTH, (12, 720), "outside 1 ft to 60 ft", "from 1 ft to 60 ft"),
    ("9 in", Dimension.LENGTH, (12, 720), "outside 12 in to 720 in", "from 12 in to 720 in"),
    ("30 m", Dimension.LENGTH, (12, 720), "outside 0.305 m to 18.288 m", "from 0.305 m"),  # 720 in: 18.288 m exactly
    ("50:12", Dimension.ANGLE, (0, 75), "outside 0:12 to 44:12", "44:12"),  # 12 tan 75 degrees = 44.8
    ("80 deg", Dimension.ANGLE, (0, 75), "outside 0 deg to 75 deg", "75 deg"),
    ("80", Dimension.ANGLE, (0, 75), "no unit", "from 0 deg to 75 deg"),
    ("-25 psf", Dimension.AREA_LOAD, (0, 500), "less than 0 psf", "0 psf or more"),
    ("9 kPa", Dimension.AREA_LOAD, (0, 100), "outside 0 kPa to 4.788 kPa", "4.788 kPa"),  # 1 psf = 47.880 Pa
    ("120 %", Dimension.NUMBER, (0.05, 1), "outside 5 % to 100 %", "100 %"),
    ("7", Dimension.NUMBER, (1, 6), "outside 1 to 6", "from 1 to 6"),
]


@pytest.mark.parametrize(("text", "dimension", "limits", "fault", "wanted"), LIMITED, ids=ascii)
def test_limits_are_told_in_the_writers_unit(text, dimension, limits, fault, wanted) -> None:
    """What is outside its limits is told them as it would be written; a bare number only units that keep to them."""
    with pytest.raises(UnitFault) as caught:
        parse(text, dimension, minimum=limits[0], maximum=limits[1])
    assert fault in str(caught.value)
    assert wanted in caught.value.wanted


@given(
    st.decimals(0, 5000, places=1).map(str),
    st.sampled_from(list(Dimension)),
    st.floats(0, 500),
    st.floats(0, 5000),
)
def test_what_is_suggested_is_taken(text: str, dimension: Dimension, least: float, more: float) -> None:
    """Every text that the advice puts in quotes reads, and within the limits."""
    most = least + more
    try:
        parse(text, dimension, minimum=least, maximum=most)
    except UnitFault as fault:
        advice = fault.wanted
    else:
        return
    if "such as" not in advice:
        for suggested in re.findall(r'"([^"]+)"', advice):
            assert least <= parse(suggested, dimension, minimum=least, maximum=most) <= most


_WORDS = [
    "1",
    "12",
    " 3/8",
    " ft ",
    " in",
    " per ",
    "sq ",
    "feet",
    "kg",
    "yd",
    "ton",
    "degC",
    "dB",
    "nan",
    "inf",
]
_MARKS = "0123456789.,/-+'\"* ^:%()eE½⅜′″’”–°²٣ß\t\x00\ud800"
_PIECES = st.sampled_from([*_MARKS, *_WORDS, *TRADE_UNITS])
_TEXTS = st.one_of(
    st.text(max_size=12),
    st.lists(_PIECES, max_size=8).map("".join),
    st.builds("{} {}".format, st.integers(0, 99), st.text(st.characters(categories=["L"]), max_size=5)),
    st.builds("{} {}".format, st.integers(0, 99), st.text("abcdefgklmnopstuyµ*/^23", max_size=7)),
)


def _read(text: str, dimension: Dimension) -> float | UnitFault:
    try:
        return parse(text, dimension)
    except UnitFault as fault:
        return fault


@settings(max_examples=1500, deadline=None)
@example("1 degC", Dimension.LENGTH)
@example("1 dBm", Dimension.FORCE)
@example("1 if", Dimension.LENGTH)
@example("1 ft^0", Dimension.LENGTH)
@example("1 m/m", Dimension.FORCE)
@example("9" * 57 + " ft", Dimension.LENGTH)
@given(_TEXTS, st.sampled_from(list(Dimension)))
def test_any_text_reads_as_a_finite_number_or_is_refused_with_advice(text: str, dimension: Dimension) -> None:
    """No text whatever raises anything but UnitFault, and what is read is finite and not negative."""
    result = _read(text, dimension)
    if isinstance(result, UnitFault):
        assert str(result).isprintable()
        assert result.wanted.startswith("write ")
    else:
        assert math.isfinite(result)
        assert result >= 0
