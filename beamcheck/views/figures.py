"""How bare numbers are written in a formula: digits by unit and size, thousands commas, printed units."""

import math
from collections.abc import Mapping
from types import MappingProxyType

from beamcheck.units import format_quantity

# decimals from a size upwards, the greatest first
_FORCE = ((100.0, 0), (0.0, 1))
_DECIMALS: Mapping[str, tuple[tuple[float, int], ...]] = MappingProxyType({
    "psi": _FORCE, "lb": _FORCE, "lb*in": _FORCE, "lb*in^3": _FORCE, "lb/in": ((0.0, 2),), "plf": ((0.0, 1),),
    "psf": ((1.0, 1), (0.0, 2)), "pcf": ((0.0, 1),), "deg": ((0.0, 2),), "ft": ((0.0, 3),), "in": ((0.0, 3),),
    "in^2": ((0.0, 2),), "in^3": ((0.0, 2),), "in^4": ((0.0, 1),), "ft^2": ((0.0, 1),),
    "1": ((1000.0, 0), (100.0, 1), (10.0, 2), (0.0, 3)),
})  # fmt: skip
_OTHER = ((1000.0, 0), (100.0, 1), (10.0, 2), (0.0, 3))
_PRINTED = str.maketrans({"*": "·", "2": "²", "3": "³", "4": "⁴", "6": "⁶", "^": None})
_DUST = 1e-9
_ROUNDS_TO_ONE = 0.0005


def figure(number: float, unit: str) -> str:
    """Write the number alone, with the digits that its unit and size deserve; never "-0".

    Zeros that only fill are dropped where the number is exact: 0.9 stays 0.9, a computed 0.90004 shows 0.900.
    A factor that is not 1 never shows as 1.000; digits are added until it does not.
    """
    number = float(number)
    if not math.isfinite(number):
        return "undefined" if math.isnan(number) else ("∞" if number > 0 else "-∞")
    decimals = _decimals(number, unit)
    # halves go away from zero, whatever dust a conversion left
    shown = format_quantity(number * (1 + 1e-12), "1", decimals)
    if decimals and math.isclose(float(shown.replace(",", "")), number, rel_tol=_DUST, abs_tol=_DUST):
        shown = shown.rstrip("0").rstrip(".")
    return "1.0" if (shown, unit) == ("1", "1") else shown


def step(number: float, unit: str) -> float:
    """The least by which two figures of this size differ as they are written."""
    return float(10.0 ** -_decimals(float(number), unit))


def unit_text(unit: str) -> str:
    """Write the unit as print has it: lb·in, in³, °; nothing for a bare number."""
    return {"1": "", "deg": "°"}.get(unit, unit.translate(_PRINTED))


def quantity(number: float, unit: str) -> str:
    """Write the number and its unit."""
    printed = unit_text(unit)
    return f"{figure(number, unit)}{'' if printed in ('', '°') else ' '}{printed}"


def _decimals(number: float, unit: str) -> int:
    size = abs(number)
    steps = _DECIMALS.get(unit, _OTHER)
    decimals = next(decimals for least, decimals in steps if size >= least)
    if decimals < 3:
        # 99.96 psi is about to show as 100.0
        return next(above for least, above in steps if round(size, decimals) >= least)
    beside = abs(number - 1) if unit == "1" and abs(number - 1) < _ROUNDS_TO_ONE else size
    if beside < _DUST:
        return decimals
    return max(decimals, 1 - math.floor(math.log10(beside)))
