"""Figures' names as symbols with their subscripts, and where a figure comes from, for the printed sheet."""

import re

from markupsafe import Markup

from beamcheck.trace import Given, Looked, Solved, Taken, Value
from beamcheck.views.symbols import symbol
from beamcheck.views.words import solved


def symbol_markup(name: str) -> Markup:
    """A figure's symbol with its subscript."""
    parts = symbol(name)
    base = Markup("<i>{}</i>").format(f"{parts.base}{parts.mark}".replace("_", " "))
    return base + Markup("<sub>{}</sub>").format(parts.subscript) if parts.subscript else base


def source(value: Value, dimensions: str) -> str:
    """Where a figure that no clause made comes from, in one line."""
    match value.origin:
        case Given() as origin:
            stand_in = ", a stand-in" if origin.default is not None else ""
            return f"{origin.where}: {origin.text}, {origin.trust}{stand_in}"
        case Looked() as origin:
            flag = ", from memory" if origin.seen == "memory" else ""
            return f"{origin.reference}: {origin.row.label}{flag}"
        case Taken() as origin:
            return f"{origin.reason}; {origin.place}" if origin.place else origin.reason
        case Solved() as origin:
            return f"beam line: {solved(origin, dimensions)}"
    return ""


def with_symbols(words: str) -> Markup:
    """Words in which the names of figures are printed as their symbols, and squares raised."""
    parts = re.split(r"([A-Za-z]+(?:_[A-Za-z0-9]+)+)", words.replace("^2", "²"))
    return Markup("").join(
        symbol_markup(part) if number % 2 and symbol(part).typst else part for number, part in enumerate(parts)
    )
