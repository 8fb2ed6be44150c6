"""How a figure's name is printed: its row in symbols.csv, taken apart for typesetting."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from beamcheck.tables import Row, load

_SIMPLE = re.compile(r"(?P<base>[^\W\d_]+|\(.+\))(?P<mark>[′″*]?)(?:_(?P<subscript>.+))?")
_LETTERS = r"(?:[A-Za-z]+|[^\W\d_A-Za-z])"
_RUNS = re.compile(rf"{_LETTERS}(?:_{_LETTERS})?|[0-9]+|[^\w\s]")


@dataclass(frozen=True, slots=True)
class Symbol:
    """text: as the line has it; typst: as typst's maths has it, blank if unknown.

    base, mark, subscript: the parts of the text. base is the whole text where it is no letter with a subscript.
    """

    text: str
    typst: str
    base: str
    mark: str = ""
    subscript: str = ""

    @property
    def whole(self) -> bool:
        """Whether it stands as one thing, so that it can be raised to a power without brackets."""
        return self.mark != "*" and (len(runs(self.base)) == 1 or self.base.startswith("("))


def symbol(name: str) -> Symbol:
    """Look up the symbol of a name; a name that the table has not got stands for itself."""
    row = _rows().get(name)
    return parsed(name, "") if row is None else parsed(row.text("symbol"), row.text("typst"))


@cache
def _rows() -> Mapping[str, Row]:
    return {row.text("name"): row for row in load("symbols").rows}


def parsed(text: str, typst: str) -> Symbol:
    """Take a printed symbol apart: base, prime or star, subscript."""
    found = _SIMPLE.fullmatch(text)
    if found is None:
        return Symbol(text, typst, text)
    return Symbol(text, typst, found["base"], found["mark"], found["subscript"] or "")


def runs(text: str) -> tuple[str, ...]:
    """Words, Greek letters, numbers and signs of a base or a subscript, apart: b1 is b and 1."""
    return tuple(_RUNS.findall(text)) or (text,)
