"""The working behind a figure: its clause lines in order, and the figures that go into them."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from beamcheck.trace import Computed, Given, Looked, Solved, Taken, Value


class Leaf(NamedTuple):
    """A figure that goes into a clause: the name and the unit under which it goes in."""

    name: str
    unit: str
    value: Value


def steps(roots: Iterable[Value]) -> tuple[Value, ...]:
    """The clause lines that lead to figures, inputs before what they make, each once.

    What the beam line solved is a leaf: its lines are those of the take-down.
    """
    found: dict[tuple[object, ...], Value] = {}
    for root in roots:
        for leaf in _upwards(Leaf(root.name, root.unit, root)):
            if isinstance(leaf.value.origin, Computed):
                found.setdefault(identity(leaf.value), leaf.value)
    return tuple(found.values())


def leaves(roots: Iterable[Value]) -> tuple[Leaf, ...]:
    """The figures that go into those lines: given, looked up, taken or solved, each once."""
    found: dict[tuple[object, ...], Leaf] = {}
    for root in roots:
        for leaf in _upwards(Leaf(root.name, root.unit, root)):
            if not isinstance(leaf.value.origin, Computed):
                found.setdefault((leaf.name, *identity(leaf.value)), leaf)
    return tuple(found.values())


def identity(value: Value) -> tuple[object, ...]:
    """What makes two values the same line of a calculation, though they were made twice."""
    origin = value.origin
    match origin:
        case Computed():
            return ("clause", origin.clause.key, *(float(parent.number) for _, parent in origin.inputs))
        case Looked():
            return ("table", value.name, origin.row.table.name, origin.row.line, origin.column)
        case Given():
            return ("given", value.name, origin.where)
        case Solved():
            return ("solved", value.name, origin.method, float(value.number))
        case Taken():
            return ("taken", value.name, origin.reason, float(value.number))


def _upwards(leaf: Leaf) -> Iterator[Leaf]:
    origin = leaf.value.origin
    if isinstance(origin, Computed):
        units = dict(origin.clause.parameters)
        for name, parent in origin.inputs:
            yield from _upwards(Leaf(name, units[name], parent))
    yield leaf
