"""The calculation behind a check, clause by clause, each line typeset from the clause itself."""

from collections.abc import Callable, Iterable
from html import escape
from typing import NamedTuple

from markupsafe import Markup

from beamcheck.study.types import Study
from beamcheck.study.working import Leaf, identity, leaves, steps
from beamcheck.trace import Check, Clause, Computed, Item, Schedule, Taken, Value, items
from beamcheck.views import formula
from beamcheck.views.figures import quantity
from beamcheck.views.marked import source, symbol_markup
from beamcheck.views.printed import shown
from beamcheck.views.words import in_words, ratio, under

Inputs = tuple[tuple[str, Value], ...]
Typeset = Callable[[Clause, Inputs], str]
"""Writes one clause with its inputs as a ``math`` element."""


class Step(NamedTuple):
    """One clause line: what it is, where it stands, the formula, and whether the rule is from memory."""

    title: str
    reference: str
    formula: Markup
    memory: bool


class GoesIn(NamedTuple):
    """A figure that goes in: symbol, figure in the clause's unit, and where it comes from."""

    symbol: Markup
    figure: str
    source: str


class Calculation(NamedTuple):
    """The lines that lead to a result; ``above`` counts lines that an earlier calculation has printed."""

    title: str
    result: str
    steps: tuple[Step, ...]
    leaves: tuple[GoesIn, ...]
    above: int


class Wanted(NamedTuple):
    """What a calculation is to lead to: its title, the result in words, and its figures."""

    title: str
    result: str
    roots: tuple[Value, ...]


def page_maths(clause: Clause, inputs: Inputs) -> str:
    """The formula as MathML, for the page."""
    return formula.mathml(clause, inputs)


def paper_maths(clause: Clause, inputs: Inputs) -> str:
    """The formula as a ``math`` element that holds Typst's maths for the PDF, in one line and broken into several."""
    line, broken = (escape(text(clause, inputs)) for text in (formula.line, formula.typst))
    return f'<math alttext="{line}" data-broken="{broken}">{escape(formula.typst_line(clause, inputs))}</math>'


def calculations(wanted: Iterable[Wanted], typeset: Typeset, dimensions: str) -> tuple[Calculation, ...]:
    """Calculations in their order; a line that stands in one is not printed again in the next."""
    done: set[tuple[object, ...]] = set()
    found = []
    for one in wanted:
        lines = steps(one.roots)
        new = [value for value in lines if identity(value) not in done]
        inputs = [leaf for leaf in leaves(one.roots) if (leaf.name, *identity(leaf.value)) not in done]
        done.update(identity(value) for value in new)
        done.update((leaf.name, *identity(leaf.value)) for leaf in inputs)
        printed = tuple(_step(value, typeset) for value in new)
        goes_in = tuple(_goes_in(leaf, dimensions) for leaf in inputs if not _is_one(leaf.value))
        found.append(Calculation(one.title, one.result, printed, goes_in, len(lines) - len(new)))
    return tuple(found)


def governing(study: Study) -> tuple[Wanted, ...]:
    """The check that governs the whole chain and, if the beam's own is close or over too, that one."""
    dimensions = study.survey.about.dimensions
    beam = next((link.governing for link in study.links if link.key == "beam"), None)
    second = beam if beam is not None and beam.word != "within" else None
    chosen = dict.fromkeys(check for check in (study.governing, second) if check is not None)
    found = []
    for check in chosen:
        link = next(link for link in study.links if link.governing is check)
        found.append(_wanted(check, f"{link.name}: {check.title}", dimensions))
    return tuple(found)


def every(study: Study) -> tuple[tuple[str, tuple[Wanted, ...]], ...]:
    """All checks by link, and the figures of links that have none, for the calculation book."""
    dimensions = study.survey.about.dimensions
    found = []
    for link in study.links:
        wanted = [_wanted(item, item.title, dimensions) for item in items(link.sheet) if isinstance(item, Check)]
        if not wanted:
            figures = (cell for item in items(link.sheet) for cell in _figures(item))
            roots = tuple(cell for cell in figures if isinstance(cell.origin, Computed))
            wanted = [Wanted("", "", roots)] if roots else []
        if wanted:
            found.append((link.title, tuple(wanted)))
    return tuple(found)


def _wanted(check: Check, title: str, dimensions: str) -> Wanted:
    case = f"; under {under(check, dimensions)}" if check.when else ""
    sentence = in_words(check, shown, dimensions)
    result = f"{sentence[0].upper()}{sentence[1:]}{case}."
    return Wanted(f"{title}: {ratio(check)}, {check.word}", result, (check.demand, check.limit))


def _figures(item: Item) -> tuple[Value, ...]:
    if isinstance(item, Schedule):
        return tuple(cell for row in item.rows for cell in row if isinstance(cell, Value))
    return (item,) if isinstance(item, Value) else ()


def _step(value: Value, typeset: Typeset) -> Step:
    assert isinstance(value.origin, Computed)
    clause = value.origin.clause
    printed = Markup(typeset(clause, value.origin.inputs))  # noqa: S704  made by our own printer, which escapes
    return Step(clause.row.text("title"), clause.reference, printed, clause.row.seen == "memory")


def _goes_in(leaf: Leaf, dimensions: str) -> GoesIn:
    figure = quantity(float(leaf.value.to(leaf.unit)), leaf.unit)
    return GoesIn(symbol_markup(leaf.name), figure, source(leaf.value, dimensions))


def _is_one(value: Value) -> bool:
    """A factor of 1.0 set by a rule stands in the list of those."""
    return isinstance(value.origin, Taken) and value.unit == "1" and float(value.number) == 1
