"""A clause writes its own formula: it is called with recorders instead of numbers.

Their operators note what the clause does, in the order in which it does it, so what is printed is what runs.
Symbolic algebra sorts by rules of its own (even unevaluated, it sorts the arguments of min and max), and the line
would no longer look like the standard's.
"""

import inspect
import io
import math
import tokenize
from collections.abc import Callable, Mapping
from decimal import Decimal
from fractions import Fraction
from functools import cache
from typing import Any, Union

from beamcheck.trace import Clause
from beamcheck.views.expressions import (
    Call,
    Cases,
    Expr,
    Minus,
    Name,
    Number,
    Power,
    Product,
    Quotient,
    Relation,
    Root,
    Sum,
)

Operand = Union["Recorder", float, int]
Spelling = Mapping[tuple[bool, float], str]


class _Asked:
    """``maths`` hands anything but floats and symbols to numpy, and numpy asks its arguments first: here."""

    __slots__ = ()

    def __array_ufunc__(self, ufunc: Any, method: str, *inputs: Any) -> Any:
        return _call(ufunc.__name__.removesuffix(" (vectorized)"), inputs) if method == "__call__" else NotImplemented

    def __array_function__(self, function: Any, _types: Any, inputs: Any, _named: Any) -> Any:
        return _where(*inputs) if function.__name__ == "where" else NotImplemented

    def __bool__(self) -> bool:
        raise TypeError("a clause may not branch on a figure; it takes maths.where")


class Comparison(_Asked):
    """A condition that a clause has written."""

    __slots__ = ("relation",)

    def __init__(self, sign: str, left: Operand, right: Operand) -> None:
        self.relation = Relation(sign, _tree(left), _tree(right))


class Recorder(_Asked):
    """Stands for a number in a clause; ``tree`` is what the clause has done so far."""

    __slots__ = ("tree",)

    def __init__(self, tree: Expr) -> None:
        self.tree = tree

    def __add__(self, other: Operand) -> "Recorder":
        return _sum(self, other)

    def __radd__(self, other: Operand) -> "Recorder":
        return _sum(other, self)

    def __sub__(self, other: Operand) -> "Recorder":
        return _sum(self, Recorder(Minus(_tree(other))))

    def __rsub__(self, other: Operand) -> "Recorder":
        return _sum(other, -self)

    def __mul__(self, other: Operand) -> "Recorder":
        return _product(self, other)

    def __rmul__(self, other: Operand) -> "Recorder":
        return _product(other, self)

    def __truediv__(self, other: Operand) -> "Recorder":
        return Recorder(Quotient(self.tree, _tree(other)))

    def __rtruediv__(self, other: Operand) -> "Recorder":
        return Recorder(Quotient(_tree(other), self.tree))

    def __pow__(self, other: Operand) -> "Recorder":
        return Recorder(Root(self.tree) if other == 0.5 else Power(self.tree, _tree(other)))

    def __rpow__(self, other: Operand) -> "Recorder":
        return Recorder(Power(_tree(other), self.tree))

    def __neg__(self) -> "Recorder":
        return Recorder(Minus(self.tree))

    def __lt__(self, other: Operand) -> Comparison:
        return Comparison("<", self, other)

    def __le__(self, other: Operand) -> Comparison:
        return Comparison("<=", self, other)

    def __gt__(self, other: Operand) -> Comparison:
        return Comparison(">", self, other)

    def __ge__(self, other: Operand) -> Comparison:
        return Comparison(">=", self, other)


@cache
def formula(clause: Clause) -> Expr:
    """Tree of what the clause does, its figures spelled as in its source. Made once per clause."""
    tree = _tree(clause.fn(*(Recorder(Name(name)) for name, _ in clause.parameters)))
    spelling = _spelling(clause.fn)

    def respelled(node: Expr) -> Expr:
        if isinstance(node, Number):
            return Number(node.value, spelling.get((isinstance(node.value, float), node.value), node.text))
        return node

    return tree.rebuilt(respelled)


def _spelling(fn: Callable[..., Any]) -> Spelling:
    """How the source spells its figures, so that 1.20 stays 1.20; nothing where there is no source to read."""
    try:
        source = inspect.getsource(fn)
    except OSError:
        return {}
    found: dict[tuple[bool, float], str] = {}
    for token in tokenize.generate_tokens(io.StringIO(source).readline):
        if token.type == tokenize.NUMBER and "e" not in token.string.lower():
            digits = token.string.replace("_", "")
            found.setdefault(("." in digits, float(digits)), f"{int(digits):,}" if digits.isdecimal() else digits)
    return found


def _tree(operand: Any) -> Expr:
    if isinstance(operand, Recorder):
        return operand.tree
    if not isinstance(operand, float | int):
        raise TypeError(f"a formula cannot show {operand!r}")
    return Minus(_figure(-operand)) if operand < 0 else _figure(abs(operand))


def _figure(number: float) -> Expr:
    """Turn a figure of the source into a tree; 2/3 and the like into fractions, as they were written."""
    if number == math.pi:
        return Number(number, "π")
    near = Fraction(number).limit_denominator(12)
    if near.denominator in (3, 6, 7, 9, 11, 12) and float(near) == number:
        top, bottom = near.numerator, near.denominator
        return Quotient(Number(top, f"{top}"), Number(bottom, f"{bottom}"))
    return Number(number, f"{Decimal(f'{number:.10g}'):,f}")


def _sum(left: Operand, right: Operand) -> Recorder:
    terms = [*_parts(left, Sum), *_parts(right, Sum)]
    return Recorder(Sum(tuple(terms)))


def _product(left: Operand, right: Operand) -> Recorder:
    factors = [*_parts(left, Product), *_parts(right, Product)]
    return Recorder(Product(tuple(factors)))


def _parts(operand: Operand, kind: type[Sum] | type[Product]) -> tuple[Expr, ...]:
    """Terms of a sum or factors of a product: brackets that change nothing are dropped."""
    tree = _tree(operand)
    if isinstance(tree, kind):
        return tree.terms if isinstance(tree, Sum) else tree.factors
    return (tree,)


def _where(condition: Comparison, then: Operand, other: Operand) -> Recorder:
    """Record a choice: the lesser or greater of two if it is that, else cases, with those of the last row."""
    relation, first, second = condition.relation, _tree(then), _tree(other)
    lesser, greater = relation.left, relation.right
    if relation.sign.startswith(">"):
        lesser, greater = greater, lesser
    if (first, second) == (lesser, greater):
        return _extreme("min", first, second)
    if (first, second) == (greater, lesser):
        return _extreme("max", first, second)
    if isinstance(second, Cases):
        return Recorder(Cases(((first, relation), *second.rows), second.otherwise))
    return Recorder(Cases(((first, relation),), second))


def _extreme(function: str, first: Expr, second: Expr) -> Recorder:
    inputs: list[Expr] = []
    for one in (first, second):
        inputs += one.inputs if isinstance(one, Call) and one.function == function else (one,)
    return Recorder(Call(function, tuple(inputs)))


def _call(function: str, inputs: tuple[Operand, ...]) -> Recorder:
    """Record a function that numpy was to call; angles stay in degrees, so their turn to radians is left out."""
    trees = tuple(_tree(one) for one in inputs)
    if function in ("cos", "tan") and isinstance(trees[0], Call) and trees[0].function == "radians":
        trees = trees[0].inputs
    return Recorder(Call(function, trees))
