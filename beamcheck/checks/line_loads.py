"""Loads per foot of a line that is short of being a beam, under every combination: a temporary wall, a beam's face."""

from collections.abc import Callable
from typing import Protocol

from beamcheck.checks.post import AxialCase
from beamcheck.standards import shoring
from beamcheck.takedown.sources import LOAD_TYPES, LOAD_WORDS, Combination, Source
from beamcheck.trace import Value, taken


class Laden(Protocol):
    """A line that rows of the take-down lie on: a temporary wall, or one face of a beam."""

    @property
    def rows(self) -> tuple[Source, ...]:
        """What lies on it, in load per length."""
        ...


def per_foot(line: Laden, combination: Combination) -> Value:
    """Load per foot of a line under one combination."""
    return shoring.combined(**inputs_by_type(combination, "w", lambda name: by_type(line, name)))


def inputs_by_type(combination: Combination, symbol: str, load: Callable[[str], Value]) -> dict[str, Value]:
    """What a clause that sums load types is given: of each its factor, and its load under the symbol, by name."""
    inputs: dict[str, Value] = {}
    for name in LOAD_TYPES:
        nothing = taken(f"g_{name}", 0.0, f"no {LOAD_WORDS[name]} load in this combination")
        inputs[f"g_{name}"] = combination.factors.get(name, nothing)
        inputs[f"{symbol}_{name}"] = load(name)
    return inputs


def by_type(line: Laden, name: str) -> Value:
    """Load of one type per foot of a line, all rows together."""
    found = [source.w for source in line.rows if source.load_type == name and source.w is not None]
    if not found:
        return taken(f"w_{name}", 0.0, f"no {LOAD_WORDS[name]} load is counted on it", unit="plf")
    total = found[0]
    for more in found[1:]:
        total = shoring.added(w_1=total, w_2=more)
    return total


def line_cases(line: Laden, combinations: tuple[Combination, ...]) -> tuple[AxialCase, ...]:
    """Load per foot under every combination, with its duration factor."""
    return tuple(AxialCase(per_foot(line, one), one.C_D, one.name) for one in combinations)
