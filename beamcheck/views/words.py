"""The sentences that stand on every output, and how figures are written."""

from typing import Any

from beamcheck import units
from beamcheck.trace import Check, Given, Looked, Value, standing

STATUS = "STUDY AID, PREPARED BY THE OWNER, FOR AN INDEPENDENT CHECK. NOT FOR CONSTRUCTION."

CAUTIONS = (
    "This is a study aid to take to a licensed engineer and the building department. It decides nothing: "
    "their judgement and the local building code come before every figure here.",
    "Do not cut, buy, load or take down anything on the strength of it.",
    "Nothing may be opened before what stands above is on temporary support that someone qualified has designed.",
    "Walls hide wires, gas, water and vents; old paint and plaster may hold lead and asbestos: have them looked for.",
    "Wherever something was not known, a cautious figure stands in and is listed as assumed. "
    "What is hidden may be worse than what was assumed.",
)

SHORT_CAUTION = (
    "Study aid for a licensed engineer and the building department. It decides nothing; do not build from it."
)


def ratio(check: Check) -> str:
    """Utilisation, rounded up so that nothing over 1.00 ever shows as 1.00."""
    return rounded_up(float(check.ratio))


def rounded_up(number: float) -> str:
    """A utilisation to two decimals, upwards; far beyond ten it is said in words."""
    import math

    if not math.isfinite(number) or number > 999:
        return "> 999"
    return f"{math.ceil(number * 100 - 1e-9) / 100:.2f}"


def bar(number: float, width: int = 20) -> str:
    """A bar whose pattern, not its colour, tells the word: ░ within, ▒ close, █ over; | stands at 1.00."""
    full = min(max(round(number * (width - 4)), 0), width)
    mark = {"within": "░", "close": "▒", "over": "█"}[standing(number)]
    drawn = (mark * full).ljust(width)
    return f"{drawn[: width - 4]}|{drawn[width - 4 :]}"


def figure(value: Value, dimensions: str = "feet") -> str:
    """A value with its unit as the trade writes it."""
    number = value.number
    if value.unit == "in" and abs(number) >= 24 and value.name not in _INCHES:
        return units.format_length_metric(number) if dimensions == "metric" else units.format_length(number)
    return (
        units.format_quantity(float(number), _shown_unit(value), digits(value)) if value.unit != "1" else plain(number)
    )


_INCHES = ("delta", "delta_b", "delta_s", "delta_T", "delta_lim", "l_e")


def digits(value: Value) -> int:
    """Decimals that a figure is good for, by its unit and size."""
    size = abs(float(value.number))
    return {"in": 3, "ft": 2, "psf": 1, "plf": 1, "pcf": 0, "deg": 1, "in^2": 2, "in^3": 2, "in^4": 1}.get(
        value.unit, 0 if size >= 100 else 1
    )


def plain(number: Any) -> str:
    """A bare number to three decimals, without trailing noise."""
    return f"{float(number):.3f}" if abs(float(number)) < 100 else f"{float(number):,.1f}"


def _shown_unit(value: Value) -> str:
    return value.unit


def known(value: Value) -> str:
    """How a leaf is known, in one word or a short line."""
    if isinstance(value.origin, Given):
        return str(value.origin.trust)
    if isinstance(value.origin, Looked):
        return "from memory" if value.origin.seen == "memory" else "table"
    return ""
