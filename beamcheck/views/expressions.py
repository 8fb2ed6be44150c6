# ruff: noqa: D102  what each method does is said once, in Expr
"""A formula as a small tree: what a clause does, in the order in which its source does it.

Pure data with four questions to every node: its value, its leaves swapped, its look, how tightly it binds.
"""

import math
import operator
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, ClassVar, cast

if TYPE_CHECKING:
    from beamcheck.views.typesetting import Pen

Swap = Callable[["Expr"], "Expr"]

LOOSE, TERM, QUOTIENT, FACTOR, POWER, ATOM = range(6)
HOLDS: Mapping[str, Callable[[float, float], bool]] = MappingProxyType({
    "<": operator.lt, "<=": operator.le, ">": operator.gt, ">=": operator.ge,
})  # fmt: skip
FUNCTIONS: Mapping[str, Callable[..., float]] = MappingProxyType({
    "min": min,
    "max": max,
    "erfc": math.erfc,
    "cos": lambda degrees: math.cos(math.radians(degrees)),
    "tan": lambda degrees: math.tan(math.radians(degrees)),
})  # fmt: skip


class Expr:
    """Anything that stands for a number. ``rank`` tells how tightly it binds, so where brackets go."""

    __slots__ = ()
    rank: ClassVar[int] = ATOM

    def at(self, numbers: Mapping[str, float]) -> float:
        """Its value with numbers for the names."""
        raise NotImplementedError

    def rebuilt(self, swap: Swap) -> "Expr":
        """Put every node through ``swap``, leaves first."""
        raise NotImplementedError

    def drawn(self, pen: "Pen") -> str:
        """Have the pen write it."""
        raise NotImplementedError


@dataclass(frozen=True, slots=True)
class Number(Expr):
    """A figure, never negative, and how it is written; ``unit`` is printed behind it where it has one."""

    value: float
    text: str
    unit: str = ""

    def at(self, numbers: Mapping[str, float]) -> float:  # noqa: ARG002  a figure needs none
        return self.value

    def rebuilt(self, swap: Swap) -> Expr:
        return swap(self)

    def drawn(self, pen: "Pen") -> str:
        return pen.number(self)


@dataclass(frozen=True, slots=True)
class Name(Expr):
    """A figure by its name in the table of symbols."""

    name: str

    def at(self, numbers: Mapping[str, float]) -> float:
        return numbers[self.name]

    def rebuilt(self, swap: Swap) -> Expr:
        return swap(self)

    def drawn(self, pen: "Pen") -> str:
        return pen.name(self)


@dataclass(frozen=True, slots=True)
class Minus(Expr):
    """The opposite of an expression; among the terms of a sum it is a subtraction."""

    of: Expr
    rank: ClassVar[int] = TERM

    def at(self, numbers: Mapping[str, float]) -> float:
        return -self.of.at(numbers)

    def rebuilt(self, swap: Swap) -> Expr:
        return swap(Minus(self.of.rebuilt(swap)))

    def drawn(self, pen: "Pen") -> str:
        return pen.total((self,))


@dataclass(frozen=True, slots=True)
class Sum(Expr):
    """Terms in the order of the source."""

    terms: tuple[Expr, ...]
    rank: ClassVar[int] = TERM

    def at(self, numbers: Mapping[str, float]) -> float:
        return sum(term.at(numbers) for term in self.terms)

    def rebuilt(self, swap: Swap) -> Expr:
        return swap(Sum(tuple(term.rebuilt(swap) for term in self.terms)))

    def drawn(self, pen: "Pen") -> str:
        return pen.total(self.terms)


@dataclass(frozen=True, slots=True)
class Product(Expr):
    """Factors in the order of the source."""

    factors: tuple[Expr, ...]
    rank: ClassVar[int] = FACTOR

    def at(self, numbers: Mapping[str, float]) -> float:
        return math.prod(factor.at(numbers) for factor in self.factors)

    def rebuilt(self, swap: Swap) -> Expr:
        return swap(Product(tuple(factor.rebuilt(swap) for factor in self.factors)))

    def drawn(self, pen: "Pen") -> str:
        return pen.product(self.factors)


@dataclass(frozen=True, slots=True)
class Quotient(Expr):
    """A fraction."""

    top: Expr
    bottom: Expr
    rank: ClassVar[int] = QUOTIENT

    def at(self, numbers: Mapping[str, float]) -> float:
        return self.top.at(numbers) / self.bottom.at(numbers)

    def rebuilt(self, swap: Swap) -> Expr:
        return swap(Quotient(self.top.rebuilt(swap), self.bottom.rebuilt(swap)))

    def drawn(self, pen: "Pen") -> str:
        return pen.quotient(self)


@dataclass(frozen=True, slots=True)
class Power(Expr):
    """A base and its exponent."""

    base: Expr
    exponent: Expr
    rank: ClassVar[int] = POWER

    def at(self, numbers: Mapping[str, float]) -> float:
        return cast("float", self.base.at(numbers) ** self.exponent.at(numbers))

    def rebuilt(self, swap: Swap) -> Expr:
        return swap(Power(self.base.rebuilt(swap), self.exponent.rebuilt(swap)))

    def drawn(self, pen: "Pen") -> str:
        return pen.power(self)


@dataclass(frozen=True, slots=True)
class Root(Expr):
    """A square root."""

    of: Expr

    def at(self, numbers: Mapping[str, float]) -> float:
        return math.sqrt(self.of.at(numbers))

    def rebuilt(self, swap: Swap) -> Expr:
        return swap(Root(self.of.rebuilt(swap)))

    def drawn(self, pen: "Pen") -> str:
        return pen.root(self.of.drawn(pen))


@dataclass(frozen=True, slots=True)
class Call(Expr):
    """A function by name: min, max, or one of an angle in degrees."""

    function: str
    inputs: tuple[Expr, ...]

    def at(self, numbers: Mapping[str, float]) -> float:
        return FUNCTIONS[self.function](*(one.at(numbers) for one in self.inputs))

    def rebuilt(self, swap: Swap) -> Expr:
        return swap(Call(self.function, tuple(one.rebuilt(swap) for one in self.inputs)))

    def drawn(self, pen: "Pen") -> str:
        return pen.call(self.function, tuple(pen.within(one, TERM) for one in self.inputs))


@dataclass(frozen=True, slots=True)
class Relation:
    """A condition: two expressions and <, <=, > or >= between them."""

    sign: str
    left: Expr
    right: Expr

    def holds(self, numbers: Mapping[str, float]) -> bool:
        """Whether it is so with numbers for the names."""
        return HOLDS[self.sign](self.left.at(numbers), self.right.at(numbers))

    def rebuilt(self, swap: Swap) -> "Relation":
        """Swap what it compares."""
        return Relation(self.sign, self.left.rebuilt(swap), self.right.rebuilt(swap))


@dataclass(frozen=True, slots=True)
class Cases(Expr):
    """The expression of the first row whose condition holds, else the last one."""

    rows: tuple[tuple[Expr, Relation], ...]
    otherwise: Expr
    rank: ClassVar[int] = LOOSE

    def taken(self, numbers: Mapping[str, float]) -> Expr:
        """Expression that applies with numbers for the names."""
        return next((then for then, condition in self.rows if condition.holds(numbers)), self.otherwise)

    def at(self, numbers: Mapping[str, float]) -> float:
        return self.taken(numbers).at(numbers)

    def rebuilt(self, swap: Swap) -> Expr:
        rows = tuple((then.rebuilt(swap), condition.rebuilt(swap)) for then, condition in self.rows)
        return swap(Cases(rows, self.otherwise.rebuilt(swap)))

    def drawn(self, pen: "Pen") -> str:
        return pen.cases(self)
