"""Text with a unit <-> number, and conversion between the few units the inside uses.

The trade units are a plain table; any other unit is read by pint, imported only then and given
only the unit, never the user's whole text: its expression parser takes feet-and-inches for a sum.
"""

import math
import re
from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType
from typing import TYPE_CHECKING, overload

from beamcheck.trade_units import CUSTOMARY, FOLDED, MARKS, METRIC, TRADE_UNITS, WORDS

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray


class UnitFault(ValueError):
    """A text that is no quantity of the dimension asked for; `wanted` says what would do."""

    def __init__(self, fault: str, wanted: str) -> None:
        super().__init__(fault)
        self.wanted = wanted


class Dimension(StrEnum):
    """What a quantity measures; each has one base unit inside (see `base_unit`)."""

    LENGTH = "length"
    AREA = "area"
    SECTION_MODULUS = "section modulus"
    INERTIA = "moment of inertia"
    FORCE = "force"
    MOMENT = "moment"
    LINE_LOAD = "line load"
    AREA_LOAD = "area load"
    STRESS = "stress"
    STIFFNESS = "bending stiffness"
    DENSITY = "weight density"
    ANGLE = "angle"
    NUMBER = "plain number"


# dimension: (base unit, unit to suggest for a bare number, whole example)
_ASKED: Mapping[Dimension, tuple[str, str, str]] = MappingProxyType({
    Dimension.LENGTH: ("in", "ft", "14 ft 6 in"), Dimension.AREA: ("in^2", "in^2", "16.5 in^2"),
    Dimension.SECTION_MODULUS: ("in^3", "in^3", "73.83 in^3"),
    Dimension.INERTIA: ("in^4", "in^4", "415.3 in^4"), Dimension.FORCE: ("lb", "lb", "3,200 lb"),
    Dimension.MOMENT: ("lb*in", "lb*ft", "4,000 lb*ft"), Dimension.LINE_LOAD: ("lb/in", "plf", "120 plf"),
    Dimension.AREA_LOAD: ("psf", "psf", "40 psf"), Dimension.STRESS: ("psi", "psi", "900 psi"),
    Dimension.STIFFNESS: ("lb*in^2", "lb*in^2", "600,000,000 lb*in^2"),
    Dimension.DENSITY: ("pcf", "pcf", "32 pcf"), Dimension.ANGLE: ("deg", "deg", "6:12"),
    Dimension.NUMBER: ("1", "", "0.9"),
})  # fmt: skip

_LONGEST = 60
_DECIMAL = r"[0-9]{1,3}(?:,[0-9]{3})+(?:\.[0-9]+)?|[0-9]+(?:\.[0-9]*)?|\.[0-9]+"
_AMOUNT = rf"(?:[0-9]+(?:-\s?|\s+))?[0-9]+/[0-9]+|{_DECIMAL}"
# patterns stay text: re compiles and keeps those that a run needs
_PLAIN = rf"([-+]?)\s*({_AMOUNT})(?![0-9.,/])\s*(.*)"
_FEET_INCHES = (
    rf"(?i)([-+]?)\s*({_AMOUNT})\s*(?:'|ft\.?|foot|feet)\s*[-,]?\s*({_AMOUNT})\s*(?:\"|in\.?|inch|inches)?"
)
_PITCH = rf"(?i)({_AMOUNT})\s*(:|/|in|on)\s*({_DECIMAL})"
_UNUSUAL = r"[A-Za-z]+(?:\^[2-4])?(?:[*/][A-Za-z]+(?:\^[2-4])?){0,3}"


def base_unit(dimension: Dimension) -> str:
    """Name of the unit in which `parse` gives this dimension."""
    return _ASKED[dimension][0]


def parse_length(text: str, *, minimum: float = 0.0) -> float:
    """Inches of a trade or metric length: 13'-6 1/2", 14 ft 6 in, 6-3/8", 4.12 m.

    Raises: UnitFault, as `parse` does.
    """
    return parse(text, Dimension.LENGTH, minimum=minimum)


def parse(text: str, dimension: Dimension, *, minimum: float = 0.0, maximum: float = math.inf) -> float:
    """Number in the base unit of the dimension; an angle may be a roof pitch (6:12, 6 in 12).

    `minimum` and `maximum` are in the base unit; where a sign has a meaning give -math.inf.
    Raises: UnitFault for any text that is not clearly such a quantity inside them.
    """
    clean = _plain_text(text, dimension)
    if dimension is Dimension.LENGTH and (found := re.fullmatch(_FEET_INCHES, clean)):
        number = _feet_inches(clean, *found.groups())
    elif dimension is Dimension.ANGLE and (found := re.fullmatch(_PITCH, clean)):
        number = _pitch(clean, *found.groups())
    else:
        number = _single(clean, dimension, (minimum, maximum))
    if not minimum <= number <= maximum:
        from beamcheck.units.limits import outside

        raise outside(clean, number, dimension, minimum, maximum)
    return number + 0.0  # no minus zero


def wanted(dimension: Dimension) -> str:
    """What would do, for a message."""
    return f'write {article(dimension)} such as "{_ASKED[dimension][2]}"'


def article(dimension: Dimension) -> str:
    """The dimension in a sentence: a length, an area."""
    return f"{'an' if dimension.startswith('a') else 'a'} {dimension}"


def _plain_text(text: str, dimension: Dimension) -> str:
    """The text in plain quotes, dashes and fractions; refuses what no tape or form would show."""
    if len(text) > _LONGEST:
        fault = f"{text[:20]!a}... is {len(text)} characters long, more than {_LONGEST}"
        raise UnitFault(fault, wanted(dimension))
    clean = text.translate(MARKS).replace("''", '"').strip(" ")
    if not clean.isprintable():
        raise UnitFault(f"{text!a} has a character that does not print", wanted(dimension))
    if not clean:
        raise UnitFault("nothing is written", wanted(dimension))
    return clean


def usual_unit(dimension: Dimension) -> str:
    """Name of the unit in which the trade mostly writes this dimension."""
    return _ASKED[dimension][1] or base_unit(dimension)


def _feet_inches(clean: str, sign: str, feet_text: str, inches_text: str) -> float:
    feet, inches = _amount(feet_text), _amount(inches_text)
    if not feet.is_integer():
        raise UnitFault(f'"{clean}" has a part of a foot and inches too', 'write "13.5 ft" or "13 ft 6 in"')
    if inches >= 12:
        fault = f'"{clean}" has {inches:g} inches after feet; 12 inches are a foot'
        raise UnitFault(fault, 'write inches below 12 after feet, or inches alone, such as "174 in"')
    return math.copysign(feet * 12 + inches, -1 if sign == "-" else 1)


def _pitch(clean: str, rise: str, sign: str, run_text: str) -> float:
    run = _amount(run_text)
    if run == 0 or (sign == "/" and run != 12):  # "1/2 pitch" is rise over the whole span: not guessed at
        raise UnitFault(f'"{clean}" is not a pitch in 12', 'write the rise in 12, such as "6:12"')
    return math.degrees(math.atan(_amount(rise) / run))


def _amount(text: str) -> float:
    """Number of 6, 6.375, 3,200, 3/8, 6-3/8 or 6 3/8, matched before."""
    head, slash, below = text.partition("/")
    if not slash:
        return float(head.replace(",", ""))
    *whole, above = re.split(r"[-\s]+", head)
    if int(above) >= int(below):  # 0/0 and n/0 as well; 61/2 is more often 6-1/2 than 30.5
        raise UnitFault(f'"{text}" is not a fraction below one', 'write a part of an inch such as "6-1/2 in"')
    return float(whole[0] if whole else 0) + int(above) / int(below)


def _single(clean: str, dimension: Dimension, limits: tuple[float, float]) -> float:
    """One number and one unit."""
    found = re.fullmatch(_PLAIN, clean)
    if found is None:
        dot = "; a comma parts thousands, a point parts decimals" if "," in clean else ""
        raise UnitFault(f'"{clean}" is not {article(dimension)}', wanted(dimension) + dot)
    sign, digits, written = found.groups()
    number = _amount(digits) * (-1 if sign == "-" else 1)
    if not written and dimension is not Dimension.NUMBER:
        from beamcheck.units.limits import with_unit

        raise UnitFault(f"{clean} has no unit", with_unit(clean, number, dimension, *limits))
    spelled = _spelled(written)
    name = FOLDED.get(spelled.lower())
    if "," in digits and name not in CUSTOMARY:
        fault = f'"{clean}" has a comma, which some countries write for the decimal point'
        raise UnitFault(fault, f'write "{clean.replace(",", "")}" or "{clean.replace(",", ".")}"')
    if name is None:
        return number * _unusual_factor(written, spelled, dimension)
    if TRADE_UNITS[name][0] != TRADE_UNITS[base_unit(dimension)][0]:
        raise UnitFault(f'"{clean}" is not {article(dimension)}', wanted(dimension))
    return convert(number, name, base_unit(dimension))


def _spelled(unit: str) -> str:
    """The unit as the table spells it: words short, powers with ^, products with *."""
    short = WORDS.get(unit.lower(), unit)
    if short.lower() in FOLDED:
        return short
    text = re.sub(r"([A-Za-z])\.", r"\1", unit).replace("**", "^")
    text = re.sub(r"\s+per\s+", "/", text)
    text = re.sub(r"\bsq(?:uare)?\s+([A-Za-z]+)", r"\1^2", text)
    text = re.sub(r"\bcu(?:bic)?\s+([A-Za-z]+)", r"\1^3", text)
    text = re.sub(r"[A-Za-z]+", lambda word: WORDS.get(word[0].lower(), word[0]), text)
    text = re.sub(r"([A-Za-z])([0-9])", r"\1^\2", text)
    text = re.sub(r"\s*([*/])\s*", r"\1", text)
    return re.sub(r"(?<=[A-Za-z0-9])[\s-]+(?=[A-Za-z])", "*", text)


def _unusual_factor(written: str, unit: str, dimension: Dimension) -> float:
    """Base units in one of a unit outside the table, by pint; neither angles nor plain numbers."""
    unknown = UnitFault(f'"{written}" is not a unit of {dimension} known here', wanted(dimension))
    if dimension in (Dimension.ANGLE, Dimension.NUMBER) or not re.fullmatch(_UNUSUAL, unit):
        raise unknown
    from beamcheck.units.by_pint import read_by_pint

    factor, weight = read_by_pint(unit, base_unit(dimension))
    if weight:
        fault = f'"{written}" is a mass, not {article(dimension)}'
        raise UnitFault(fault, f'write it with N or kN, or with lb: "{_ASKED[dimension][2]}"')
    if not factor:
        raise unknown
    return factor


@overload
def convert(number: float, from_unit: str, to_unit: str) -> float: ...
@overload
def convert(number: "NDArray[np.float64]", from_unit: str, to_unit: str) -> "NDArray[np.float64]": ...
def convert(
    number: "float | NDArray[np.float64]", from_unit: str, to_unit: str
) -> "float | NDArray[np.float64]":
    """The same quantity in another unit of the table; psf and psi are one dimension.

    Raises: UnitFault for a name outside TRADE_UNITS or of another dimension.
    """
    if from_unit == to_unit and from_unit in TRADE_UNITS:
        return number
    for name in (from_unit, to_unit):
        if name not in TRADE_UNITS:
            raise UnitFault(f'"{name}" is not a unit known here', f"use one of {', '.join(TRADE_UNITS)}")
    from_base, from_up, from_down = TRADE_UNITS[from_unit]
    to_base, to_up, to_down = TRADE_UNITS[to_unit]
    if from_base != to_base:
        raise UnitFault(f"{from_unit} does not convert to {to_unit}", f"use a unit like {from_base}")
    up, down = from_up * to_down, from_down * to_up
    # a whole ratio leaves no rounding behind
    if up % down == 0:
        return number * (up / down)
    return number / (down / up) if down % up == 0 else number * up / down


def format_length(inches: float, *, step: int = 16) -> str:
    """Feet, inches and a fraction to the nearest 1/step inch, half away from zero: 13 ft 6-1/2 in.

    Raises: UnitFault if not finite, or if step is not positive.
    """
    if not math.isfinite(inches) or step < 1:
        raise UnitFault(f"{inches} in, to 1/{step} in, is no length to print", "give a finite number")
    parts = math.floor(abs(inches) * step + 0.5)
    whole, above = divmod(parts, step)
    feet, rest = divmod(whole, 12)
    common = math.gcd(above, step)
    fraction = f"{above // common}/{step // common}" if above else ""
    lead = "" if fraction and not rest and not feet else f"{rest}{'-' if fraction else ''}"
    sign = "-" if inches < 0 and parts else ""
    return f"{sign}{f'{feet} ft ' if feet else ''}{lead}{fraction} in"


def format_length_metric(inches: float, *, digits: int = 0) -> str:
    """Millimetres, as metric drawings are dimensioned: 4120 mm."""
    return format_quantity(convert(inches, "in", "mm"), "mm", digits)


def format_length_as(dimensions: str, inches: float) -> str:
    """A length in the survey's dimensions: "metric", or feet and inches."""
    return format_length_metric(inches) if dimensions == "metric" else format_length(inches)


def format_quantity(number: float, unit: str, digits: int) -> str:
    """Number with `digits` decimals and its unit; thousands commas for customary units only."""
    comma = "" if unit in METRIC else ","
    shown = f"{number:z{comma}.{digits}f}"
    if unit in ("1", ""):
        return shown
    return f"{shown}{'' if unit == '%' else ' '}{unit}"
