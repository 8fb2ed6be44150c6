# ruff: noqa: D102  what each method does is said once, in Pen
"""What every way of writing a formula shares: where brackets go, and where a multiplication shows its sign.

A ``Pen`` says how one kind of document writes a piece; ``LinePen`` is the plain line for terminals and for reading
aloud.
"""

from abc import ABC, abstractmethod
from collections.abc import Sequence
from itertools import pairwise

from beamcheck.views.expressions import (
    ATOM,
    FACTOR,
    POWER,
    QUOTIENT,
    TERM,
    Cases,
    Expr,
    Minus,
    Name,
    Number,
    Power,
    Product,
    Quotient,
    Relation,
)
from beamcheck.views.symbols import symbol

MINUS, TIMES, AT_MOST, AT_LEAST = "\u2212", "\u00d7", "\u2264", "\u2265"
SIGNS = {"<=": AT_MOST, ">=": AT_LEAST}


class Pen(ABC):
    """Writes the nodes of a tree as text of one kind.

    Fractions stand upright, one part above the other; within a fraction or an exponent, and wherever a pen is made
    ``flat``, they lie on the line with a slash, as standards print them.
    """

    plus, minus, times, beside = "+", MINUS, TIMES, " "

    def __init__(self, *, flat: bool = False) -> None:
        self.flat = flat
        self.inner: Pen = self if flat else type(self)(flat=True)

    @abstractmethod
    def number(self, node: Number) -> str:
        """Write a figure and its unit."""

    @abstractmethod
    def name(self, node: Name) -> str:
        """Write a symbol."""

    @abstractmethod
    def fraction(self, top: str, bottom: str) -> str:
        """Set one part over the other."""

    @abstractmethod
    def slashed(self, top: str, bottom: str, *, wide: bool) -> str:
        """Set one part behind the other with a slash; wide: the first one holds gaps of its own."""

    @abstractmethod
    def raised(self, base: str, exponent: str) -> str:
        """Set an exponent on its base."""

    @abstractmethod
    def root(self, inside: str) -> str:
        """Write a square root."""

    @abstractmethod
    def call(self, function: str, inputs: Sequence[str]) -> str:
        """Write a function with its inputs."""

    @abstractmethod
    def braced(self, rows: Sequence[tuple[str, str]], otherwise: str) -> str:
        """Write cases: each row's expression and its condition, and what holds otherwise."""

    @abstractmethod
    def fenced(self, inside: str) -> str:
        """Put in brackets."""

    @abstractmethod
    def row(self, parts: Sequence[str]) -> str:
        """Set parts side by side."""

    @abstractmethod
    def sign(self, text: str) -> str:
        """Write the sign between two parts that are compared."""

    def within(self, node: Expr, rank: int) -> str:
        """Write the node, in brackets if it binds more loosely than its place asks for."""
        drawn = node.drawn(self)
        return drawn if node.rank >= rank else self.fenced(drawn)

    def total(self, terms: Sequence[Expr]) -> str:
        """Write terms with plus and minus between them."""
        parts: list[str] = []
        for place, term in enumerate(terms):
            if isinstance(term, Minus):
                parts += self.minus if place else self.opposite, self.within(term.of, QUOTIENT)
            elif place:
                parts += self.plus, self.within(term, QUOTIENT)
            else:
                parts.append(self.within(term, TERM))
        return self.row(parts)

    @property
    def opposite(self) -> str:
        """Minus before a first term."""
        return self.minus

    def product(self, factors: Sequence[Expr]) -> str:
        """Write factors; a sign between them only where two figures would run together, or where all are figures."""
        plain = not any(_names(factor) for factor in factors)
        rank = FACTOR if self.flat else QUOTIENT
        parts = [self.within(factors[0], rank)]
        for left, right in pairwise(factors):
            parts.append(self.times if plain or _runs_together(left, right) else self.beside)
            parts.append(self.within(right, rank))
        return self.row(parts)

    def quotient(self, node: Quotient) -> str:
        """Write a fraction; only a flat one needs brackets round its parts."""
        if self.flat:
            top, bottom = self.within(node.top, FACTOR), self.within(node.bottom, POWER)
            return self.slashed(top, bottom, wide=isinstance(node.top, Product))
        return self.fraction(self.inner.within(node.top, TERM), self.inner.within(node.bottom, TERM))

    def power(self, node: Power) -> str:
        """Write a power; the exponent needs no brackets where it stands raised."""
        return self.raised(self.base(node.base), self.inner.within(node.exponent, TERM))

    def base(self, base: Expr) -> str:
        """Write the base of a power, in brackets where the exponent would seem to belong to a part of it."""
        simple = base.rank >= ATOM and not (isinstance(base, Name) and not symbol(base.name).whole)
        return base.drawn(self) if simple else self.fenced(base.drawn(self))

    def cases(self, node: Cases) -> str:
        """Write rows of expression and condition."""
        rows = [(then.drawn(self), self.inner.relation(condition)) for then, condition in node.rows]
        return self.braced(rows, node.otherwise.drawn(self))

    def relation(self, node: Relation) -> str:
        """Write a condition."""
        signs = self.sign(SIGNS.get(node.sign, node.sign))
        return self.row([node.left.drawn(self), signs, node.right.drawn(self)])


class LinePen(Pen):
    """The formula in one line of text."""

    plus, minus, times = " + ", " - ", f" {TIMES} "

    def number(self, node: Number) -> str:
        return node.text + (node.unit if node.unit in ("", "°") else f" {node.unit}")

    def name(self, node: Name) -> str:
        return symbol(node.name).text

    def fraction(self, top: str, bottom: str) -> str:
        return self.slashed(top, bottom, wide=False)

    def slashed(self, top: str, bottom: str, *, wide: bool) -> str:
        return f"{top} / {bottom}" if wide else f"{top}/{bottom}"

    def raised(self, base: str, exponent: str) -> str:
        return f"{base}^{exponent}"

    def root(self, inside: str) -> str:
        return f"sqrt({inside})"

    def call(self, function: str, inputs: Sequence[str]) -> str:
        return f"{function}({', '.join(inputs)})"

    def braced(self, rows: Sequence[tuple[str, str]], otherwise: str) -> str:
        listed = [f"{then} if {condition}" for then, condition in rows]
        return f"{{{'; '.join([*listed, f'{otherwise} otherwise'])}}}"

    def fenced(self, inside: str) -> str:
        return f"({inside})"

    def row(self, parts: Sequence[str]) -> str:
        return "".join(parts)

    def sign(self, text: str) -> str:
        return f" {text} "

    @property
    def opposite(self) -> str:
        return "-"

    def within(self, node: Expr, rank: int) -> str:
        return node.drawn(self) if isinstance(node, Cases) else super().within(node, rank)

    def power(self, node: Power) -> str:
        return self.raised(self.base(node.base), self.within(node.exponent, ATOM))


def _names(node: Expr) -> bool:
    """Whether a name stands anywhere in it."""
    found: list[Expr] = []

    def kept(part: Expr) -> Expr:
        if isinstance(part, Name):
            found.append(part)
        return part

    node.rebuilt(kept)
    return bool(found)


def _runs_together(left: Expr, right: Expr) -> bool:
    """Whether two neighbours need a sign: 3 by 4, and 2 by 1/3, which would read as a mixed number."""
    first = right.base if isinstance(right, Power) else right
    return isinstance(first, Number) or (isinstance(left, Number) and isinstance(right, Quotient))
