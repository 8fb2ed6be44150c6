"""Laws of the printed formula: read back by the rules of school, it is the clause, however it is written."""

from __future__ import annotations

import importlib
import itertools
import math
import operator
import pkgutil
import random
import re
import tempfile
import xml.etree.ElementTree as ET
from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import Any

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from beamcheck import maths, standards
from beamcheck.trace import Clause, Taken, Value
from beamcheck.views.expressions import Cases, Expr, Minus, Name, Number
from beamcheck.views.formula import formula, line, mathml, sides, typst
from beamcheck.views.mathml import MathmlPen
from beamcheck.views.recording import Recorder
from beamcheck.views.typesetting import LinePen
from beamcheck.views.typst_maths import TypstPen, quoted

MATHML = "{http://www.w3.org/1998/Math/MathML}"
POINTS, ENOUGH = 80, 20
RANGES: Mapping[str, tuple[float, float]] = MappingProxyType({
    "1": (0.05, 8.0), "in": (0.05, 200.0), "ft": (4.0, 40.0), "deg": (5.0, 75.0), "psi": (50.0, 2500.0),
    "lb": (100.0, 9000.0), "lb*in": (1e4, 4e5), "lb*in^3": (1e8, 1e10), "ft^2": (20.0, 900.0),
    "psf": (5.0, 80.0), "plf": (50.0, 900.0), "pcf": (20.0, 150.0),
})  # fmt: skip
FUNCTIONS: Mapping[str, Callable[..., float]] = MappingProxyType({
    "sqrt": math.sqrt, "min": min, "max": max, "erfc": math.erfc,
    "cos": lambda degrees: math.cos(math.radians(degrees)),
    "tan": lambda degrees: math.tan(math.radians(degrees)),
})  # fmt: skip


def found_clauses() -> Iterator[Clause]:
    """Every clause under beamcheck.standards, each once."""
    seen: set[int] = set()
    for module in pkgutil.walk_packages(standards.__path__, f"{standards.__name__}."):
        for held in vars(importlib.import_module(module.name)).values():
            if isinstance(held, Clause) and id(held) not in seen:
                seen.add(id(held))
                yield held


CLAUSES = {clause.key: clause for clause in sorted(found_clauses(), key=lambda clause: clause.key)}
every_clause = pytest.mark.parametrize("clause", CLAUSES.values(), ids=CLAUSES.keys())


def points(clause: Clause) -> Iterator[tuple[dict[str, float], float]]:
    """Inputs at random, and what the clause makes of them, where it makes a real number."""
    chance = random.Random(clause.key)  # noqa: S311  a fixed seed, nothing secret
    counted = 0
    for _ in range(POINTS):
        # spread over sizes, so that thresholds of cases lie on both sides
        spans = {name: map(math.log, RANGES.get(unit, (1.0, 100.0))) for name, unit in clause.parameters}
        numbers = {name: math.exp(chance.uniform(*span)) for name, span in spans.items()}
        try:
            expected = clause.fn(*numbers.values())
        except (ValueError, ZeroDivisionError, OverflowError):
            continue
        if isinstance(expected, float) and math.isfinite(expected):
            counted += 1
            yield numbers, expected
    assert counted >= ENOUGH, f"only {counted} points lie in the domain of {clause.key}"


def close(actual: float, expected: float, numbers: Mapping[str, float]) -> bool:
    """Alike but for rounding; differences of like terms may lose digits of the terms' size."""
    return math.isclose(actual, expected, rel_tol=1e-9, abs_tol=1e-12 * max(1.0, *map(abs, numbers.values())))


def inputs(clause: Clause, numbers: Mapping[str, float]) -> dict[str, Value]:
    """Values for a clause, each in the unit of its parameter."""
    return {name: Value(name, numbers[name], unit, Taken("")) for name, unit in clause.parameters}


@every_clause
def test_the_tree_is_the_clause(clause: Clause) -> None:
    """The recorded formula gives the clause's own figure at random points."""
    for numbers, expected in points(clause):
        assert close(formula(clause).at(numbers), expected, numbers), numbers


TOKEN = re.compile(r"\d{1,3}(?:,\d{3})+|\d+\.?\d*|\w+|<=|>=|\*\*|[^\w\s]")
SPELLED = MappingProxyType({"×": "*", "^": "**", "≤": "<=", "≥": ">=", "−": "-", "{": "(", "}": ")", ";": "else"})


def arithmetic(text: str) -> str:
    """Printed maths as code: a gap between two operands multiplies, braces hold cases."""
    code: list[str] = []
    for token in TOKEN.findall(text):
        word = SPELLED.get(token, token.replace(",", "") if token[0].isdigit() else token)
        operand = word[0].isalnum() and word not in ("if", "else", "otherwise")
        before = code[-1] if code else "("
        ends = (before[0].isalnum() and before not in ("if", "else", *FUNCTIONS)) or before == ")"
        if ends and (operand or word == "("):
            code.append("*")
        if word != "otherwise":
            code.append(word)
    return " ".join(code)


class PlainLine(LinePen):
    """The line with names as code has them."""

    def name(self, node: Name) -> str:
        return node.name


class PlainMathml(MathmlPen):
    """MathML with names as code has them."""

    def name(self, node: Name) -> str:
        return f"<mi>{node.name}</mi>"


def read(element: ET.Element) -> str:
    """MathML as the line would have it."""
    parts = [read(child) for child in element]
    match element.tag:
        case "mfrac":
            return f"(({parts[0]})/({parts[1]}))"
        case "msup":
            return f"({parts[0]}^({parts[1]}))"
        case "msqrt":
            return f"sqrt({' '.join(parts)})"
        case "mtable":
            return "; ".join(parts) + "}"
        case "mrow" | "mtr" | "mtd":
            return " ".join(parts)
        case "mi" | "mn" | "mo" | "mtext":
            return (element.text or "").replace("\u2061", "").replace("\u2062", " ")
    raise AssertionError(f"no rule for {element.tag}")


class PlainTypst(TypstPen):
    """Typst maths with names as code has them."""

    def name(self, node: Name) -> str:
        return node.name


TYPST = (
    (r"(\bthin)?\\/(thin\b)?", "/"), (r"\b(thin|times)\b", "*"), (r"\blr\(\(", "(("), ("π", "pi"), (", t: ", ", "),
    (' & quad "otherwise"', ", True"), (' & quad "if "', ","),
    (r'class\("unary", -\)', "-"), (r'op\("(\w+)"\) ', r"\1"),
)  # fmt: skip
READ_TYPST: Mapping[str, Callable[..., float]] = MappingProxyType({
    **FUNCTIONS, "frac": lambda top, bottom: top / bottom, "attach": pow, "display": float,
    "cases": lambda *parts: next(one for one, holds in zip(parts[::2], parts[1::2], strict=True) if holds),
})  # fmt: skip


def typst_arithmetic(text: str) -> str:
    """Typst maths as code."""
    for typst_way, code_way in TYPST:
        text = re.sub(typst_way, code_way, text)
    return re.sub(r'"([\d.,]+)"', lambda found: found[1].replace(",", ""), text.replace('"pi"', "pi"))


READERS: Mapping[str, Callable[[Expr], str]] = MappingProxyType({
    "line": lambda tree: arithmetic(tree.drawn(PlainLine(flat=True))),
    "mathml": lambda tree: arithmetic(read(ET.fromstring(tree.drawn(PlainMathml())))),  # noqa: S314  our own text
    "typst": lambda tree: typst_arithmetic(tree.drawn(PlainTypst())),
})  # fmt: skip


def work_out(code: str, numbers: Mapping[str, float]) -> float:
    """What a written formula comes to."""
    return eval(code, {**READ_TYPST, "π": math.pi, "pi": math.pi, **numbers})  # noqa: S307  our own text


@every_clause
@pytest.mark.parametrize("way", READERS)
def test_what_is_printed_worked_out_is_the_clause(way: str, clause: Clause) -> None:
    """Whoever works out the line, the page or the PDF by the rules of school gets the clause's own figure."""
    code = READERS[way](formula(clause))
    for numbers, expected in points(clause):
        assert close(work_out(code, numbers), expected, numbers), (code, numbers)


LETTERS = MappingProxyType({"p": 1.7, "q": 0.6, "r": -2.3})


def real_power(one: Any, other: Any) -> Any:
    """A power, unless it leaves the real numbers."""
    made = one**other
    if isinstance(made, complex):
        raise ValueError(made)  # noqa: TRY004  the figure is at fault, not its type
    return made


OPERATIONS: Mapping[str, Callable[..., Any]] = MappingProxyType({
    "+": operator.add, "-": operator.sub, "*": operator.mul, "/": operator.truediv, "**": real_power,
    "least": maths.least, "most": maths.most, "where": lambda one, other: maths.where(one < other, other, one * 2),
    "-1": lambda one, _: -one, "root": lambda one, _: maths.sqrt(one),
})  # fmt: skip
SKETCHES = st.recursive(
    st.sampled_from([*LETTERS, 2, 3.0, 1.25, -0.5, 1 / 3]),
    lambda inside: st.tuples(st.sampled_from([*OPERATIONS]), inside, inside),
    max_leaves=8,
)


def worked(sketch: Any, letters: Mapping[str, Any]) -> Any:
    """The sketch of a formula, worked out with floats or with recorders, as a clause would."""
    if isinstance(sketch, tuple):
        operation, one, other = sketch
        return OPERATIONS[operation](worked(one, letters), worked(other, letters))
    return letters.get(sketch, sketch)


def in_figures(node: Expr) -> Expr:
    """A letter's figure, which may be negative."""
    if not isinstance(node, Name):
        return node
    shown = Number(abs(LETTERS[node.name]), f"{abs(LETTERS[node.name])}")
    return Minus(shown) if LETTERS[node.name] < 0 else shown


@settings(deadline=None)
@given(SKETCHES)
@example(("-", "p", ("-", "q", "r")))
@example(("-", ("-1", "p", "q"), ("-1", "r", "q")))
@example(("**", ("**", "p", "q"), ("/", "q", "r")))
def test_any_formula_keeps_its_meaning(sketch: Any) -> None:
    """Whatever a clause may do, the tree, all ways of writing it, and its figures give what floats give."""
    try:
        expected = worked(sketch, LETTERS)
    except (ArithmeticError, ValueError):  # roots and powers of negative figures, division by nothing
        assume(False)
    assume(abs(expected) < 1e12)
    recorded = worked(sketch, {letter: Recorder(Name(letter)) for letter in LETTERS})
    assume(isinstance(recorded, Recorder))
    tree = recorded.tree
    found = [work_out(READERS[way](tree), LETTERS) for way in READERS]
    found += tree.at(LETTERS), work_out(READERS["line"](tree.rebuilt(in_figures)), {})
    assert found == pytest.approx([expected] * 5, rel=1e-6, abs=1e-6)


@every_clause
def test_every_case_is_reached(clause: Clause) -> None:
    """The points above lie in every case of a formula, so that none is printed unproved."""
    choices: list[Cases] = []

    def noted(node: Expr) -> Expr:
        if isinstance(node, Cases):
            choices.append(node)
        return node

    formula(clause).rebuilt(noted)
    for choice in choices:
        reached = {choice.taken(numbers) for numbers, _ in points(clause)}
        assert reached == {*(then for then, _ in choice.rows), choice.otherwise}


@every_clause
def test_the_figures_give_the_result(clause: Clause) -> None:
    """The step in figures, which holds only the case that applies, gives the result that stands behind it."""
    for numbers, expected in itertools.islice(points(clause), 5):
        shown = sides(clause, inputs(clause, numbers))
        assert all(close(side.at({}), expected, numbers) for side in shown[2:])


@every_clause
def test_the_mathml_is_xml_that_carries_the_line(clause: Clause) -> None:
    """The element is well-formed, and its text for those who cannot see it is the line."""
    numbers, _ = next(points(clause))
    for values in ((), inputs(clause, numbers)):
        element = ET.fromstring(mathml(clause, values))  # noqa: S314  our own text
        assert element.tag == f"{MATHML}math"
        assert element.get("alttext") == line(clause, values)


def test_every_formula_compiles_in_typst() -> None:
    """All formulas, in symbols and in figures, make one accessible PDF in which no glyph is missing."""
    compiler = pytest.importorskip("typst")
    source = ["#set document(title: [formulas], date: none)\n"]
    for clause in CLAUSES.values():
        values = inputs(clause, next(points(clause))[0])
        spoken = quoted(line(clause, values))
        source.append(f"#math.equation(block: true, alt: {spoken}, $ {typst(clause, values)} $)\n")
    with tempfile.TemporaryDirectory() as empty:
        made = compiler.compile(
            {"main.typ": "".join(source).encode()}, root=empty, ignore_system_fonts=True, pdf_standards="ua-1"
        )
    assert made.startswith(b"%PDF")
