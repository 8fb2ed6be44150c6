"""The sentences that stand on every output, and how figures are written."""

import math
from collections.abc import Callable
from typing import TYPE_CHECKING

from beamcheck import units
from beamcheck.trace import Check, Solved, Value, standing
from beamcheck.views.figures import quantity, step

if TYPE_CHECKING:
    from beamcheck.study.types import Study

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


def headline(study: "Study") -> str:
    """The result in a line: the worst word first, and of how many links each is so that is not within or close."""
    counts = {word: len(links) for word, links in study.by_word.items() if word not in ("within", "close")}
    first = next(iter(counts), "")
    told = [f"{word} in {count}{_links(count) if word == first else ''}" for word, count in counts.items()]
    if study.settled not in counts:
        told.append(f"the others {study.settled}" if told else study.settled)
    return ", ".join(told)


def _links(count: int) -> str:
    return " link" if count == 1 else " links"


def ratio(check: Check) -> str:
    """Utilisation, rounded up so that nothing over 1.00 ever shows as 1.00."""
    return _FAR if check.instead else rounded_up(float(check.ratio))


def in_words(check: Check, write: Callable[[Value, str], str], dimensions: str) -> str:
    """Demand and limit in a sentence, written by a function for figures; words for a demand without a size."""
    demand = f"it {check.instead}" if check.instead else f"demand {write(check.demand, dimensions)}"
    return f"{demand}, limit {write(check.limit, dimensions)}"


def rounded_up(number: float) -> str:
    """A utilisation to two decimals, upwards; far beyond ten it is said in words."""
    if not math.isfinite(number) or number > 999:
        return _FAR
    hundredths = math.ceil(number * 100 - 1e-9)
    return f"{max(hundredths, 101 if number > 1 else 0) / 100:.2f}"


def bar(number: float, width: int = 20) -> str:
    """A bar whose pattern, not its colour, tells the word: ░ within, ▒ close, █ over; | stands at 1.00."""
    full = round(min(max(number * (width - 4), 0), width))  # an endless utilisation fills the bar
    mark = {"within": "░", "close": "▒", "over": "█"}[standing(number)]
    drawn = (mark * full).ljust(width)
    return f"{drawn[: width - 4]}|{drawn[width - 4 :]}"


def figure(value: Value, dimensions: str = "feet") -> str:
    """A value with its unit as the trade writes it: longer lengths in feet and inches, all else as in formulas.

    dimensions: "feet" or "metric", as the survey wants its lengths.
    """
    number = float(value.number)
    if value.name in SHARES:
        return percent(number)
    if value.unit in ("in", "ft") and dimensions == "metric":
        inches = float(value.to("in"))
        return moved(inches, dimensions) if value.name in MOVEMENTS else station(inches, dimensions)
    if value.unit == "in" and abs(number) >= _A_TAPE_READS_FEET and value.name not in _INCHES:
        return units.format_length(number)
    return quantity(number, value.unit)


def percent(share: float) -> str:
    """A share in hundredths, to the tenth of one: 5 %, 170.8 %."""
    return f"{units.format_quantity(100 * share, '1', 1).removesuffix('.0')} %"


def last_figure(value: Value, way: int, dimensions: str = "feet") -> Value:
    """The value rounded to a figure as it is written, up (way 1) or down (-1), never to the nearest."""
    unit, least = _written_in(value, dimensions)
    steps = float(value.to(unit)) / least
    near = round(steps)
    if abs(steps - near) > _SAME:
        near = math.ceil(steps) if way > 0 else math.floor(steps)
    return Value(value.name, units.convert(near * least, unit, value.unit), value.unit, value.origin)


def _written_in(value: Value, dimensions: str) -> tuple[str, float]:
    """The unit in which ``figure`` writes a value, and the step between two figures of it."""
    number = float(value.number)
    if value.unit in ("in", "ft") and dimensions == "metric":
        small = _NOTHING < abs(float(value.to("in"))) < _TINY
        return "mm", (0.01 if small else 0.1) if value.name in MOVEMENTS else 1.0
    if value.unit == "in" and abs(number) >= _A_TAPE_READS_FEET and value.name not in _INCHES:
        return "in", 1 / 16
    return value.unit, step(number, value.unit)


def station(inches: float, dimensions: str) -> str:
    """A length or a distance along the beam: feet, inches and sixteenths, or millimetres."""
    return units.format_length_as(dimensions, inches)


def moved(inches: float, dimensions: str) -> str:
    """A movement, to the hundredth of an inch or the tenth of a millimetre; a very small one to one digit more."""
    small = _NOTHING < abs(inches) < _TINY
    if dimensions == "metric":
        return units.format_length_metric(inches, digits=2 if small else 1)
    return units.format_quantity(inches, "in", 3 if small else 2)


def under(check: Check, dimensions: str) -> str:
    """Combination, pattern and station that govern a check, or the bay."""
    return placed(check.when, check.station if check.when else None, dimensions)


def solved(origin: Solved, dimensions: str) -> str:
    """How the beam line found a figure, and where."""
    return placed(origin.method, origin.at, dimensions)


def placed(words: str, at: float | None, dimensions: str) -> str:
    """Words, and a station along the beam line where there is one."""
    return words if at is None else f"{words}, at {station(at, dimensions)}"


MOVEMENTS = ("delta", "delta_b", "delta_s", "delta_T", "delta_lim", "Delta_D")
"""Figures that are movements, by name."""

SHARES = ("r_rise",)
"""Figures that are shares of something, by name, and are read in hundredths."""

_INCHES = (*MOVEMENTS, "l_e")
_A_TAPE_READS_FEET = 24.0
_FAR = "> 999"
_SAME = 1e-6  # of a step: what a solved figure may be off
_TINY = 0.05
_NOTHING = 0.0005
