"""Entries of a survey as numbers and words, with the register of cautious defaults for what is unknown.

Reads what a tidy survey writes: "13 ft 6-1/2 in", "40 psf", "8:12", "46 ft^2", "1,200 lb", "90 plf", "35 deg".
"""

import math
import re

from .printed_tables import figure, row

_TO_BASE = {
    "in": 1.0,
    "ft": 12.0,
    "mm": 1 / 25.4,
    "m": 1000 / 25.4,
    "psf": 1.0,
    "kPa": 1000 / (4.4482216152605 / 0.3048**2),
    "ft^2": 1.0,
    "lb": 1.0,
    "kip": 1000.0,
    "kN": 1000 / 4.4482216152605,
    "plf": 1 / 12,
    "psi": 1.0,
    "deg": 1.0,
}


def number(text):
    """Inches, psf, square feet, pounds, pounds per inch or degrees, by the unit that the text ends in."""
    text = text.strip()
    pitch = re.fullmatch(r"([\d.]+):([\d.]+)", text)
    if pitch:
        return math.degrees(math.atan2(float(pitch[1]), float(pitch[2])))
    tape = re.fullmatch(r"(-?)(\d+) ft (.+) in", text)
    if tape:
        return (12 * int(tape[2]) + _mixed(tape[3])) * (-1 if tape[1] else 1)
    amount, _, unit = text.rpartition(" ")
    return _mixed(amount) * _TO_BASE[unit]


def _mixed(text):
    """6, 6.25, 1,200, 3/8 or 6-3/8, with a sign."""
    sign, text = (-1, text[1:]) if text.startswith("-") else (1, text)
    whole, _, part = text.rpartition("-")
    if "/" in part:
        above, below = part.split("/")
        return sign * (float(whole or 0) + int(above) / int(below))
    return sign * float(part.replace(",", ""))


def told(table, key):
    """The text of an entry; None where it is left out or unknown."""
    entry = table.get(key)
    if isinstance(entry, dict):
        if entry.get("trust") == "unknown":
            return None
        entry = entry.get("value")
    return None if entry in (None, "unknown") else entry.strip()


def length(table, key, default=None):
    """The figure of an entry in its base unit, else what stands in."""
    text = told(table, key)
    return default if text is None else number(text)


def lengths(table, key):
    """The figures of an entry with commas in it."""
    text = told(table, key)
    return [] if text is None else [number(part) for part in text.split(",")]


def word(table, key, item=""):
    """The word of an entry, else that of the register; nothing without an item."""
    text = told(table, key)
    return text if text is not None else (register(item) if item else "")


def register(item):
    """What the register of cautious defaults says."""
    return row("practice/defaults", item=item)["value"]


def by_register(table, key, item):
    """The figure of an entry, else that of the register."""
    text = told(table, key)
    return number(text if text is not None else register(item))


def live_load(use):
    """Live load of a use, psf."""
    return figure("irc_2021/live_loads", "q", use=use)
