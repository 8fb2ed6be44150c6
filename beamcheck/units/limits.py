"""Limits of a figure as its writer would write them, and the units that bring a bare number inside them.

Only messages ask for this, so `units` imports it where it refuses a text.
"""

import math
import re

from beamcheck import units
from beamcheck.trade_units import FOLDED, METRIC, WORDS
from beamcheck.units import Dimension

_NO_END = 1e6  # base units: a limit beyond it is there for the arithmetic, and no message tells it
_FEET = re.compile(r"(?i)'|f(?:oo|ee)?t\b")
_PARTS = 1000  # metric limits are told to three decimals, rounded to the side that is still allowed
_TRIED = {
    Dimension.LENGTH: (("ft", "in"), ("m", "cm", "mm")),
    Dimension.AREA: (("ft^2", "in^2"), ("m^2",)),
}


def outside(clean: str, number: float, dimension: Dimension, least: float, most: float) -> units.UnitFault:
    """The refusal of a figure outside its limits, which it tells in the writer's own unit."""
    low, high = _limit(clean, dimension, least, up=True), _limit(clean, dimension, most, up=False)
    between = f"{low} to {high}"
    if (least > 0 or number > most) and abs(least) < _NO_END and most < _NO_END:
        return units.UnitFault(f'"{clean}" is outside {between}', f"write {units.article(dimension)} from {between}")
    if number < least:
        return units.UnitFault(f'"{clean}" is less than {low}', f"write {units.article(dimension)} of {low} or more")
    return units.UnitFault(f'"{clean}" is more than {high}', f"write {units.article(dimension)} of {high} or less")


def with_unit(clean: str, number: float, dimension: Dimension, least: float, most: float) -> str:
    """What a bare number may stand for: each likely unit that brings it inside the limits."""
    if dimension is Dimension.ANGLE:
        steep = math.degrees(math.atan(number / 12))
        told = [f'"{clean}:12"'] if "-" not in clean and least <= steep <= most else []
        told += [f'"{clean} deg"'] if least <= number <= most else []
        return f"write {' or '.join(told)}" if told else _inside(dimension, least, most)
    for tried in _TRIED.get(dimension, ((units.usual_unit(dimension),),)):
        fitting = [unit for unit in tried if least <= units.convert(number, unit, units.base_unit(dimension)) <= most]
        if fitting and not ("," in clean and tried[0] in METRIC):
            return f"write {' or '.join(_named(clean, number, unit) for unit in fitting)}"
    return _inside(dimension, least, most)


def _named(clean: str, number: float, unit: str) -> str:
    """The number with its unit, and what that is where it is a decimal part of a foot."""
    told = f'"{clean} {unit}"'
    return f"{told}, which is {units.format_length(number * 12)}," if unit == "ft" and "." in clean else told


def _inside(dimension: Dimension, least: float, most: float) -> str:
    usual = f"1 {units.usual_unit(dimension)}"
    if abs(least) < _NO_END and abs(most) < _NO_END:
        between = f"{_limit(usual, dimension, least, up=True)} to {_limit(usual, dimension, most, up=False)}"
        return f"write {units.article(dimension)} from {between}, with its unit"
    return units.wanted(dimension)


def _limit(clean: str, dimension: Dimension, limit: float, *, up: bool) -> str:
    """One limit in the unit that the text is written in; never rounded to what is no longer allowed."""
    if not math.isfinite(limit):
        return "any"
    if dimension is Dimension.LENGTH and _FEET.search(clean):
        return _feet(limit)
    if dimension is Dimension.ANGLE and re.search(r"[:/]|\d\s*(?:in|on)\b", clean, re.IGNORECASE):
        rise = 12 * math.tan(math.radians(limit))
        return f"{math.ceil(rise) if up else math.floor(rise + 1e-9)}:12"
    unit = _written(clean) or units.usual_unit(dimension)
    number = units.convert(limit, units.base_unit(dimension), unit)
    scaled = number * _PARTS
    whole = math.isclose(scaled, round(scaled), abs_tol=1e-6)
    number = (round(scaled) if whole else math.ceil(scaled) if up else math.floor(scaled)) / _PARTS
    return f"{number:,.10g}{'' if unit == '1' else f' {unit}'}"


def _written(clean: str) -> str:
    """Name of the unit behind a number; nothing if it is none of the table."""
    unit = re.sub(r"^[-+]?[0-9,./ -]*", "", clean)
    return FOLDED.get(WORDS.get(unit.lower(), unit).lower(), "") if unit else ""


def _feet(inches: float) -> str:
    return units.format_length(inches).replace(" ft 0 in", " ft")
