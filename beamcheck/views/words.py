"""The sentences that stand on every output, and how figures are written."""

import math

from beamcheck import units
from beamcheck.trace import Check, Value, standing
from beamcheck.views.figures import quantity

STATUS = "STUDY AID, PREPARED BY THE OWNER, FOR AN INDEPENDENT CHECK. NOT FOR CONSTRUCTION."

CAUTIONS = (
    (
        "This is a study aid to take to a licensed engineer and the building department. It decides nothing: "
        "their judgement and the local building code come before every figure here."
    ),
    "Do not cut, buy, load or take down anything on the strength of it.",
    "Nothing may be opened before what stands above is on temporary support that someone qualified has designed.",
    "Walls hide wires, gas, water and vents; old paint and plaster may hold lead and asbestos: have them looked for.",
    (
        "Wherever something was not known, a cautious figure stands in and is listed as assumed. "
        "What is hidden may be worse than what was assumed."
    ),
)

SHORT_CAUTION = (
    "Study aid for a licensed engineer and the building department. It decides nothing; do not build from it."
)


def ratio(check: Check) -> str:
    """Utilisation, rounded up so that nothing over 1.00 ever shows as 1.00."""
    return rounded_up(float(check.ratio))


def rounded_up(number: float) -> str:
    """A utilisation to two decimals, upwards; far beyond ten it is said in words."""
    if not math.isfinite(number) or number > 999:
        return "> 999"
    hundredths = math.ceil(number * 100 - 1e-9)
    return f"{max(hundredths, 101 if number > 1 else 0) / 100:.2f}"


def bar(number: float, width: int = 20) -> str:
    """A bar whose pattern, not its colour, tells the word: ░ within, ▒ close, █ over; | stands at 1.00."""
    full = round(min(max(number * (width - 4), 0), width))  # an endless utilisation fills the bar
    mark = {"within": "░", "close": "▒", "over": "█"}[standing(number)]
    drawn = (mark * full).ljust(width)
    return f"{drawn[: width - 4]}|{drawn[width - 4 :]}"


def figure(value: Value) -> str:
    """A value with its unit as the trade writes it: longer lengths in feet and inches, all else as in formulas."""
    if value.unit == "in" and abs(value.number) >= _A_TAPE_READS_FEET and value.name not in _INCHES:
        return units.format_length(value.number)
    return quantity(float(value.number), value.unit)


_A_TAPE_READS_FEET = 24.0
_INCHES = ("delta", "delta_b", "delta_s", "delta_T", "delta_lim", "l_e")
