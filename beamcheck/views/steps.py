"""The calculation behind a check, clause by clause, each line typeset from the clause itself."""

from collections.abc import Callable, Iterable
from html import escape
from typing import NamedTuple

from markupsafe import Markup

from beamcheck.study.registers import identity, leaves, steps
from beamcheck.study.types import Study
from beamcheck.trace import Check, Clause, Computed, Taken, Value, items
from beamcheck.views import formula
from beamcheck.views.contents import source, symbol_markup
from beamcheck.views.printed import shown
from beamcheck.views.words import ratio

Inputs = tuple[tuple[str, Value], ...]
Typeset = Callable[[Clause, Inputs], str]
"""Writes one clause with its inputs as a ``math`` element."""


class Step(NamedTuple):
    """One clause line: what it is, where it stands, the formula, and whether the rule is from memory."""

    title: str
    reference: str
    formula: Markup
    memory: bool


class Leaf(NamedTuple):
    """A figure that goes in: symbol, figure and where it comes from."""

    symbol: Markup
    figure: str
    source: str


class Calculation(NamedTuple):
    """A check with the lines that lead to it; ``above`` counts lines that an earlier calculation has printed."""

    title: str
    when: str
    demand: str
    limit: str
    ratio: str
    word: str
    steps: tuple[Step, ...]
    leaves: tuple[Leaf, ...]
    above: int


def page_maths(clause: Clause, inputs: Inputs) -> str:
    """The formula as MathML, for the page."""
    return formula.mathml(clause, inputs)


def paper_maths(clause: Clause, inputs: Inputs) -> str:
    """The formula as a ``math`` element that holds Typst's maths, for the PDF."""
    line = escape(formula.line(clause, inputs))
    return f'<math alttext="{line}">{escape(formula.typst(clause, inputs))}</math>'


def calculations(checks: Iterable[Check], typeset: Typeset, dimensions: str) -> tuple[Calculation, ...]:
    """The calculations of checks, in their order; a line that stands in one is not printed again in the next."""
    done: set[tuple[object, ...]] = set()
    found = []
    for check in checks:
        lines = steps(check)
        new = [value for value in lines if identity(value) not in done]
        inputs = [pair for pair in leaves(check) if (pair[0], *identity(pair[1])) not in done]
        done.update(identity(value) for value in new)
        done.update((name, *identity(value)) for name, value in inputs)
        found.append(
            Calculation(
                check.title,
                check.when,
                shown(check.demand, dimensions),
                shown(check.limit, dimensions),
                ratio(check),
                check.word,
                tuple(_step(value, typeset) for value in new),
                tuple(_leaf(name, value, dimensions) for name, value in inputs if not _is_one(value)),
                len(lines) - len(new),
            )
        )
    return tuple(found)


def governing(study: Study) -> tuple[Check, ...]:
    """The check that governs the whole chain and, if the beam's own is close or over too, that one."""
    beam = next((link.governing for link in study.links if link.key == "beam"), None)
    second = beam if beam is not None and beam.word != "within" else None
    return tuple(check for check in dict.fromkeys((study.governing, second)) if check is not None)


def every(study: Study) -> tuple[tuple[str, tuple[Check, ...]], ...]:
    """All checks by link, for the calculation book."""
    links = ((link.title, tuple(item for item in items(link.sheet) if isinstance(item, Check))) for link in study.links)
    return tuple((title, checks) for title, checks in links if checks)


def _step(value: Value, typeset: Typeset) -> Step:
    assert isinstance(value.origin, Computed)  # noqa: S101  steps hold no other
    clause = value.origin.clause
    formula_ = Markup(typeset(clause, value.origin.inputs))  # noqa: S704  made by our own printer, which escapes
    return Step(clause.row.text("title"), clause.reference, formula_, clause.row.seen == "memory")


def _leaf(name: str, value: Value, dimensions: str) -> Leaf:
    return Leaf(symbol_markup(name), shown(value, dimensions), source(value))


def _is_one(value: Value) -> bool:
    """A factor of 1.0 set by a rule stands in the list of those."""
    return isinstance(value.origin, Taken) and value.unit == "1" and float(value.number) == 1
