"""A unit outside the table, read by pint, which is imported here only."""

import re
from functools import cache
from typing import Any

import pint

_SANE = (1e-4, 1e7)  # an unusual unit outside this range of base units is a slip ("nm" for "mm")
_SI = frozenset({"meter", "newton", "pascal"})  # the names that may bear a prefix


def read_by_pint(unit: str, base: str) -> tuple[float, bool]:
    """Base units in one of the unit, 0 if it is none of that dimension; and whether it is a mass for a force."""
    registry = _registry()
    try:
        factor, weight = _factor(registry, _as_force(unit), _as_force(base))
    except (AttributeError, ValueError, TypeError):  # undefined, badly spelled, logarithmic, with an offset
        return 0.0, False
    slip = not _SANE[0] <= factor <= _SANE[1] or any(_odd_prefix(registry, word) for word in unit.split("*"))
    return (0.0 if slip else factor), weight


def _factor(registry: "pint.UnitRegistry[Any]", unit: str, base: str) -> tuple[float, bool]:
    read, wanted = registry.parse_units(unit), registry.parse_units(base)
    one = registry.Quantity(1.0, read)
    if one.is_compatible_with(wanted):
        return float(one.to(wanted).magnitude), False
    weighed = registry.Quantity(1.0, read * registry.parse_units("standard_gravity"))
    return 0.0, bool(weighed.is_compatible_with(wanted))


def _odd_prefix(registry: "pint.UnitRegistry[Any]", words: str) -> bool:
    """Whether a prefix stands before a customary unit ("cft"): a slip, though pint reads it."""
    readings = (registry.parse_unit_name(word) for word in re.findall("[A-Za-z]+", words))
    return any(prefix and name not in _SI for reading in readings for prefix, name, _ in reading[:1])


def _as_force(unit: str) -> str:
    """Our unit in pint's words, where lb is a mass."""
    longhand = {"psf": "lb/ft^2", "pcf": "lb/ft^3"}.get(unit, unit)
    return re.sub(r"\blb\b", "lbf", longhand)


@cache
def _registry() -> "pint.UnitRegistry[Any]":
    return pint.UnitRegistry()
