"""The tree that every result is: values with their origins, clauses that make values, checks, stops and sheets.

A ``Value`` has one of five origins: ``Given`` by the owner, ``Looked`` up in a table, ``Taken`` by a rule that
needs no arithmetic (a factor of 1.0 and why), ``Computed`` by a clause, or ``Solved`` by the beam line. Values have
no arithmetic of their own: only clauses make numbers, so every number on a sheet can be opened down to its leaves.
"""

from collections.abc import Callable, Iterator
from enum import StrEnum
from typing import Annotated, Any

from beamcheck import maths, units
from beamcheck.frozen import dataclass
from beamcheck.kept import kept
from beamcheck.tables import Row, cited, lookup

Num = Any
Pure = Annotated[Num, "1"]
Inch = Annotated[Num, "in"]
Foot = Annotated[Num, "ft"]
In2 = Annotated[Num, "in^2"]
In3 = Annotated[Num, "in^3"]
In4 = Annotated[Num, "in^4"]
Ft2 = Annotated[Num, "ft^2"]
Lb = Annotated[Num, "lb"]
LbPerIn = Annotated[Num, "lb/in"]
Plf = Annotated[Num, "plf"]
Psf = Annotated[Num, "psf"]
Psi = Annotated[Num, "psi"]
Pcf = Annotated[Num, "pcf"]
LbIn = Annotated[Num, "lb*in"]
LbIn3 = Annotated[Num, "lb*in^3"]
Degree = Annotated[Num, "deg"]

CLOSE = 0.90
FULL = 1.00


class Trust(StrEnum):
    """How the owner knows a figure. A bare figure is stated, never measured."""

    MEASURED = "measured"
    SEEN = "seen"
    LOOKED_UP = "looked up"
    STATED = "stated"
    ASSUMED = "assumed"
    UNKNOWN = "unknown"


NOT_SEEN = (Trust.ASSUMED, Trust.UNKNOWN)
"""How a figure is known that nobody has looked at."""


@dataclass(frozen=True, slots=True, eq=False)
class Given:
    """Written by the owner, or assumed for want of it.

    where: key path in the survey; text: as written; low, high: the owner's range in the value's unit, if any;
    default: the row of the register of cautious defaults that stands in, if the owner left it unknown.
    """

    where: str
    trust: Trust
    text: str = ""
    note: str = ""
    low: float | None = None
    high: float | None = None
    default: Row | None = None
    inputs = parents = ()


@dataclass(frozen=True, slots=True, eq=False)
class Looked:
    """A figure out of a table: the row and the column."""

    row: Row
    column: str
    inputs = parents = ()

    @property
    def seen(self) -> str:
        """How the figure itself was seen: printed, excerpt, computed or memory."""
        return self.row.seen

    @property
    def reference(self) -> str:
        """Document, edition and place, for printing."""
        return self.row.source


@dataclass(frozen=True, slots=True, eq=False)
class Taken:
    """Set by a rule without arithmetic; the reason and the place of the rule are printed."""

    reason: str
    place: str = ""
    inputs = parents = ()


@dataclass(frozen=True, slots=True, eq=False)
class Computed:
    """Made by a clause from its inputs, ``parents`` in the order of the clause's parameters."""

    clause: "Clause"
    parents: tuple["Value", ...]

    @property
    def inputs(self) -> tuple[tuple[str, "Value"], ...]:
        """Each input by the name of its parameter."""
        return tuple((name, value) for (name, _), value in zip(self.clause.parameters, self.parents, strict=True))


@dataclass(frozen=True, slots=True, eq=False)
class Solved:
    """Made by the beam line: the method, what went in, the equilibrium error left over (lb), and the station (in)."""

    method: str
    inputs: tuple[tuple[str, "Value"], ...]
    residual: float = 0.0
    at: float | None = None

    @property
    def parents(self) -> tuple["Value", ...]:
        """The inputs without their names."""
        return tuple(value for _, value in self.inputs)


Origin = Given | Looked | Taken | Computed | Solved


@dataclass(frozen=True, slots=True, eq=False)
class Value:
    """One figure. ``name`` is its symbol's name in symbols.csv; ``number`` a float, or an array over candidates.

    title: what it is, the same whatever governs; case: the combination under which it is what it is.
    """

    name: str
    number: Num
    unit: str
    origin: Origin
    title: str = ""
    case: str = ""

    def to(self, unit: str) -> Num:
        """The number in another unit. Raises UnitFault where the dimensions differ."""
        return self.number if unit == self.unit else units.convert(self.number, self.unit, unit)

    @property
    def inputs(self) -> tuple[tuple[str, "Value"], ...]:
        """What this value was made from; empty for a leaf."""
        return self.origin.inputs

    @property
    def parents(self) -> tuple["Value", ...]:
        """The values it was made from; empty for a leaf."""
        return self.origin.parents

    @property
    def called(self) -> str:
        """Its title, or its symbol's name, with its case."""
        return f"{self.title or self.name}{', ' if self.case else ''}{self.case}"

    def named(self, title: str, case: str = "") -> "Value":
        """The same value under a title of its own, and the case that governs it."""
        return Value(self.name, self.number, self.unit, self.origin, title, case)


class Clause:
    """A pure function of a document's rule, called with Values. ``fn`` is the bare function.

    Parameters carry their unit in the annotation; a value in another unit is converted, one of another dimension
    refused. Place, title and how it was seen stand in ``tables/clauses.csv`` under the same key.
    """

    __slots__ = ("fn", "gives", "key", "parameters", "unit")

    def __init__(self, fn: Callable[..., Num], gives: str) -> None:
        annotations = fn.__annotations__
        self.key = f"{fn.__module__.split('.')[2]}.{fn.__name__}"
        self.fn = fn
        self.gives = gives
        self.unit: str = annotations["return"].__metadata__[0]
        self.parameters: tuple[tuple[str, str], ...] = tuple(
            (name, annotation.__metadata__[0]) for name, annotation in annotations.items() if name != "return"
        )

    def __call__(self, **inputs: Value) -> Value:
        """Compute, and keep what it was computed from. Raises KeyError for one missing, TypeError for one too many."""
        parents, numbers = [], []
        for name, unit in self.parameters:  # a study calls clauses a thousand times: one loop, no inner functions
            value = inputs[name]
            parents.append(value)
            numbers.append(value.number if value.unit == unit else value.to(unit))
        if len(inputs) != len(parents):
            raise TypeError(f"{self.key} takes {', '.join(name for name, _ in self.parameters)}")
        return Value(self.gives, self.fn(*numbers), self.unit, Computed(self, tuple(parents)))

    @property
    def row(self) -> Row:
        """Its row in clauses.csv: document, edition, place, title, seen."""
        return lookup("clauses", clause=self.key)

    @property
    def reference(self) -> str:
        """Document, edition and place, for printing."""
        row = self.row
        return f"{cited(row.text('document'), row.text('edition'))}, {row.text('place')}"


def clause(gives: str) -> Callable[[Callable[..., Num]], Clause]:
    """Declare a function to be a clause that gives the named figure."""
    return lambda fn: Clause(fn, gives)


@kept(1024)
def looked(row: Row, column: str, name: str = "") -> Value:
    """A figure of a table row as a Value, in the unit that the table's header names."""
    return Value(name or column, row.number(column), row.table.units.get(column, "1"), Looked(row, column))


def taken(name: str, number: float, reason: str, place: str = "", unit: str = "1") -> Value:
    """A figure set by a rule, with its reason."""
    return Value(name, number, unit, Taken(reason, place))


@kept(256)
def as_one(name: str, reason: str, place: str = "") -> Value:
    """A factor that a rule sets to 1.0, with its reason: one and the same wherever that reason holds."""
    return taken(name, 1.0, reason, place)


def either(condition: Any, then: Value, other: Value) -> Value:
    """The one or the other value; by an array of conditions a value of its own, lane by lane."""
    if getattr(condition, "shape", ()) == ():
        return then if condition else other
    number = maths.where(condition, then.number, other.to(then.unit))
    return Value(then.name, number, then.unit, Taken("lane by lane, whichever applies"))


@dataclass(frozen=True, slots=True, eq=False)
class Check:
    """A demand beside its limit. ``key`` is its path; ``when`` names combination and pattern, or the bay.

    ``instead`` is printed for a demand that is far over its limit and has no size of its own.
    """

    key: str
    title: str
    demand: Value
    limit: Value
    when: str = ""
    instead: str = ""

    @property
    def ratio(self) -> Num:
        """Utilisation: demand over limit, unrounded; endless where the limit is nothing."""
        demand, limit = self.demand.to(self.limit.unit), self.limit.number
        if isinstance(limit, float | int):
            return demand / limit if limit > 0 else (float("inf") if demand > 0 else 0.0)
        return demand / limit

    @property
    def station(self) -> float | None:
        """Where on the beam line the demand was found, in; None where no station goes with it."""
        return _station(self.demand)

    @property
    def word(self) -> str:
        """within, close or over."""
        return standing(float(self.ratio))


def _station(value: Value) -> float | None:
    """Station of the first solved figure that a value is computed from; what the line was told is not looked into."""
    if isinstance(value.origin, Solved):
        return value.origin.at
    found = (_station(parent) for parent in value.parents)
    return next((station for station in found if station is not None), None)


def standing(ratio: float) -> str:
    """The word for a utilisation: within up to 0.90, close up to 1.00, over above (and for a figure that is none)."""
    if ratio <= CLOSE:
        return "within"
    return "close" if ratio <= FULL else "over"


@dataclass(frozen=True, slots=True, eq=False)
class Refer:
    """Outside what a study aid may judge: a visible stop with the question for the engineer."""

    key: str
    title: str
    why: str
    ask: str


@dataclass(frozen=True, slots=True, eq=False)
class Missing:
    """A link of the chain, or an input, that is not there: not shown, and what would show it."""

    key: str
    title: str
    need: str


@dataclass(frozen=True, slots=True, eq=False)
class Note:
    """A sentence to be printed where it stands."""

    text: str


@dataclass(frozen=True, slots=True, eq=False)
class Schedule:
    """A table to be printed: heads, and rows whose cells are words or Values."""

    key: str
    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple["str | Value", ...], ...]


@dataclass(frozen=True, slots=True, eq=False)
class Sheet:
    """A titled run of items: the model that every view draws and none computes."""

    key: str
    title: str
    items: tuple["Item", ...]


Item = Value | Check | Refer | Missing | Note | Schedule | Sheet


def items(sheet: Sheet) -> Iterator[Item]:
    """Every item of a sheet and of the sheets within it, in reading order."""
    for item in sheet.items:
        yield item
        if isinstance(item, Sheet):
            yield from items(item)


def values(sheet: Sheet) -> Iterator[Value]:
    """Every value that a sheet rests on, each once, results before their inputs."""
    seen: set[int] = set()
    for item in items(sheet):
        for root in _roots(item):
            if id(root) not in seen:
                yield from ancestry(root, seen)


def ancestry(value: Value, seen: set[int] | None = None) -> Iterator[Value]:
    """A value and all it was made from, each once, results before their inputs."""
    done = set() if seen is None else seen
    stack = [value]
    while stack:
        current = stack.pop()
        if id(current) in done:
            continue
        done.add(id(current))
        yield current
        stack.extend(reversed(current.origin.parents))


def _roots(item: Item) -> tuple[Value, ...]:
    if isinstance(item, Value):
        return (item,)
    if isinstance(item, Check):
        return (item.demand, item.limit)
    if isinstance(item, Schedule):
        return tuple(cell for row in item.rows for cell in row if isinstance(cell, Value))
    return ()
