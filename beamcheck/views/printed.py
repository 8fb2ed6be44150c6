"""Figures as the printed sheet writes them: lengths as the trade does, loads by the foot, areas by the square foot."""

from beamcheck import units
from beamcheck.trace import Value
from beamcheck.views.figures import figure, quantity
from beamcheck.views.words import MOVEMENTS, SHARES, moved, percent, station

_SHORT = 24.0
_SMALL = 144.0
_BY_THE_FOOT = {"lb/in": "plf", "lb*in": "lb*ft"}


def shown(value: Value, dimensions: str = "feet") -> str:
    """A figure with its unit."""
    if value.unit in ("in", "ft"):
        return length(value, dimensions)
    if value.name in SHARES:
        return percent(float(value.number))
    if value.unit == "in^2" and float(value.number) >= _SMALL:
        return quantity(float(value.to("ft^2")), "ft^2")
    unit = _BY_THE_FOOT.get(value.unit, value.unit)
    return quantity(float(value.to(unit)), unit)


def length(value: Value, dimensions: str = "feet") -> str:
    """A length: feet, inches and sixteenths, or millimetres; decimal inches for a movement or what is no sixteenth."""
    inches = float(value.to("in"))
    if value.name in MOVEMENTS:
        return moved(inches, dimensions)
    if abs(inches) < _SHORT and dimensions != "metric":
        return f"{_sixteenths(inches)} in" if _on_tape(inches) else quantity(inches, "in")
    return station(inches, dimensions)


def bare(value: Value, unit: str) -> str:
    """The number alone, in a unit that the head of its column names."""
    return figure(float(value.to(unit)), unit)


def whole(value: Value, unit: str) -> str:
    """The number alone, without decimals, for a drawing."""
    return f"{float(value.to(unit)):,.0f}"


def _on_tape(inches: float) -> bool:
    return abs(inches * 16 - round(inches * 16)) < 1e-6


def _sixteenths(inches: float) -> str:
    whole = int(inches)
    part = units.format_length(inches - whole).removesuffix(" in")
    return str(whole) if part == "0" else f"{whole}-{part}" if whole else part
