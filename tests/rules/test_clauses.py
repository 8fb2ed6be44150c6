"""Laws of the clauses: one row each, symbols as listed, units that balance, one function for all four readings."""

import ast
import importlib
import inspect
import math
import pkgutil
import random
import textwrap
import tomllib
from collections import Counter
from functools import cache
from pathlib import Path

import numpy as np
import pint
import pytest
import sympy

from beamcheck import maths, standards, tables
from beamcheck.standards import clauses
from beamcheck.trace import Clause, Taken, Value
from beamcheck.trade_units import TRADE_UNITS
from beamcheck.units import UnitFault, convert

ALL = clauses()
DECREE = tomllib.loads((Path(__file__).parent / "units_by_decree.toml").read_text(encoding="utf-8"))
BY_DECREE = {key: reason for group in DECREE.values() for key, reason in group.items()}

# our units in pint's words, where lb is a mass
PINT = {
    "1": "dimensionless",
    "deg": "degree",
    "in": "inch",
    "ft": "foot",
    "in^2": "inch**2",
    "in^3": "inch**3",
    "in^4": "inch**4",
    "ft^2": "foot**2",
    "lb": "force_pound",
    "lb/in": "force_pound/inch",
    "plf": "force_pound/foot",
    "psf": "force_pound/foot**2",
    "psi": "force_pound/inch**2",
    "pcf": "force_pound/foot**3",
    "lb*in": "force_pound*inch",
    "lb*in^3": "force_pound*inch**3",
}
# what a figure of each unit may be in a house; drawn even on a logarithmic scale
RANGES = {
    "1": (0.3, 2.0),
    "deg": (5.0, 60.0),
    "in": (1.0, 200.0),
    "ft": (4.0, 20.0),
    "in^2": (2.0, 150.0),
    "in^3": (5.0, 300.0),
    "in^4": (10.0, 3000.0),
    "ft^2": (10.0, 900.0),
    "lb": (200.0, 20_000.0),
    "lb/in": (5.0, 200.0),
    "plf": (50.0, 2000.0),
    "psf": (5.0, 100.0),
    "psi": (50.0, 5000.0),
    "pcf": (20.0, 60.0),
    "lb*in": (1e3, 5e5),
    "lb*in^3": (1e6, 1e10),
}
# names whose figures keep to a narrower range, so that the clause has an answer at all
NARROW = {"c": (0.6, 0.95), "t_piece": (0.25, 1.0)}
POINTS, ENOUGH = 50, 30
ALLOWED = (
    ast.FunctionDef, ast.arguments, ast.arg, ast.Return, ast.Expr, ast.Constant, ast.Name, ast.Load,
    ast.BinOp, ast.UnaryOp, ast.operator, ast.unaryop, ast.Compare, ast.cmpop, ast.Call,
)  # fmt: skip
READ_ALIKE = {name for name, function in vars(maths).items() if inspect.isfunction(function) and name[0] != "_"}


def points(clause: Clause) -> list[list[float]]:
    """Seeded random inputs at which the bare function has a real answer."""
    dice = random.Random(clause.key)  # noqa: S311  a reproducible draw
    spans = [NARROW.get(name) or RANGES[unit] for name, unit in clause.parameters]
    drawn = [[math.exp(dice.uniform(math.log(a), math.log(b))) for a, b in spans] for _ in range(POINTS)]
    return [point for point in drawn if answer(clause, point) is not None]


def answer(clause: Clause, point: list[float]) -> float | None:
    """The bare function's answer, or None outside its domain."""
    try:
        number = clause.fn(*point)
    except (ValueError, ZeroDivisionError, OverflowError):
        return None
    return number if not isinstance(number, complex) and math.isfinite(number) else None


@cache
def registry() -> "pint.UnitRegistry[float]":
    """One registry for all tests: making it is slow."""
    return pint.UnitRegistry()


def each() -> pytest.MarkDecorator:
    """Run a test for each clause, named by its key."""
    return pytest.mark.parametrize("clause", ALL, ids=lambda clause: clause.key)


def walked() -> list[Clause]:
    """Every clause of every module under beamcheck.standards, whether a document re-exports it or not."""
    names = (found.name for found in pkgutil.walk_packages(standards.__path__, "beamcheck.standards."))
    members = (member for name in names for member in vars(importlib.import_module(name)).values())
    return list({id(member): member for member in members if isinstance(member, Clause)}.values())


def test_there_is_one_row_for_each_clause_and_one_clause_for_each_row() -> None:
    """Functions of the standards and rows of clauses.csv stand one to one."""
    functions = Counter(clause.key for clause in walked())
    rows = Counter(row.text("clause") for row in tables.load("clauses").rows)
    assert [key for key, count in functions.items() if count > 1] == [], "two functions with one key"
    assert rows.keys() - functions.keys() == set(), "rows without a function"
    assert functions.keys() - rows.keys() == set(), "functions without a row"


def test_every_clause_is_in_the_list_of_clauses() -> None:
    """The program's own list of clauses leaves none out, so that the rules and the reference see them all."""
    assert sorted(clause.key for clause in walked()) == [clause.key for clause in ALL]


@each()
def test_place_stands_in_the_docstring(clause: Clause) -> None:
    """The place that is printed under a figure is the one its function names."""
    assert clause.row.text("place") in " ".join((clause.fn.__doc__ or "").split())
    assert clause.row.text("place") and clause.row.text("title")


@each()
def test_document_is_a_listed_source(clause: Clause) -> None:
    """A clause rests on a document that sources.csv lists; a textbook has no edition."""
    edition = clause.row.text("edition") or "any"
    assert tables.lookup("sources", document=clause.row.text("document"), edition=edition).has("title")


@each()
def test_names_and_units_are_those_of_the_symbols(clause: Clause) -> None:
    """A parameter or result has one name, one meaning and one unit throughout: those of symbols.csv."""
    listed = {row.text("name"): row.text("unit") for row in tables.load("symbols").rows}
    used = dict((*clause.parameters, (clause.gives, clause.unit)))
    assert used == {name: listed.get(name, "not in symbols.csv") for name in used}


def balance(clause: Clause) -> str:
    """What is wrong with the clause's units when it is called with quantities; empty if they balance."""
    units = registry()
    point = next(point for point in points(clause) if answer(clause, point))
    given = [units.Quantity(number, PINT[unit]) for number, (_, unit) in zip(point, clause.parameters, strict=True)]
    try:
        found = units.Quantity(clause.fn(*given)).to(PINT[clause.unit]).magnitude
    except (pint.DimensionalityError, ValueError) as fault:  # the latter where a quantity meets a bare number
        return str(fault)
    wanted = answer(clause, point)
    return "" if found == pytest.approx(wanted, rel=1e-9) else f"{found} with units, {wanted} without"


@each()
def test_units_balance(clause: Clause) -> None:
    """Called with quantities a clause gives its declared unit and the same figure, or is listed with the reason."""
    fault = balance(clause)
    if clause.key in BY_DECREE:
        assert fault, "balances: take it off units_by_decree.toml"
    else:
        assert not fault


def test_units_by_decree_have_a_clause_and_a_reason() -> None:
    """The list of exceptions holds clauses that exist, each with its reason."""
    assert BY_DECREE.keys() <= {clause.key for clause in ALL}
    assert all(len(reason.split()) >= 4 for reason in BY_DECREE.values())


@each()
def test_printed_formula_is_the_function(clause: Clause) -> None:
    """The formula that symbols make of a clause, evaluated, equals the clause at random points."""
    names = [name for name, _ in clause.parameters]
    symbols = [sympy.Symbol(name, positive=True) for name in names]
    formula = sympy.lambdify(symbols, clause.fn(*symbols), modules="math")
    drawn = points(clause)
    assert len(drawn) >= ENOUGH
    for point in drawn:
        assert formula(*point) == pytest.approx(clause.fn(*point), rel=1e-9, abs=1e-12)


@each()
def test_arrays_equal_numbers(clause: Clause) -> None:
    """A clause called with arrays gives, element by element, what it gives called with numbers."""
    drawn = points(clause)
    found = clause.fn(*(np.array(column) for column in zip(*drawn, strict=True)))
    assert found.shape == (len(drawn),)
    assert found == pytest.approx(np.array([clause.fn(*point) for point in drawn]), rel=1e-12)


@each()
def test_one_array_among_numbers_is_enough(clause: Clause) -> None:
    """A sweep over any one input alone equals the clause called with each of its figures."""
    drawn = points(clause)
    for which in range(len(clause.parameters)):
        column = [[*drawn[0][:which], point[which], *drawn[0][which + 1 :]] for point in drawn]
        usable = [point for point in column if answer(clause, point) is not None]
        inputs: list[object] = list(drawn[0])
        inputs[which] = np.array([point[which] for point in usable])
        wanted = np.array([clause.fn(*point) for point in usable])
        assert np.broadcast_to(clause.fn(*inputs), wanted.shape) == pytest.approx(wanted, rel=1e-12)


def value(name: str, number: float, unit: str) -> Value:
    """A figure that nobody has measured."""
    return Value(name, number, unit, Taken("a figure for a test"))


@each()
def test_a_figure_in_another_unit_is_converted(clause: Clause) -> None:
    """A Value in another unit of the same dimension changes nothing in the result, its unit or its inputs."""
    point = points(clause)[0]
    given = {name: value(name, x, unit) for x, (name, unit) in zip(point, clause.parameters, strict=True)}
    for name, unit in clause.parameters:
        if unit not in TRADE_UNITS:
            continue
        for other in (other for other, (base, _, _) in TRADE_UNITS.items() if base == TRADE_UNITS[unit][0]):
            moved = value(name, convert(given[name].number, unit, other), other)
            result = clause(**{**given, name: moved})
            assert result.number == pytest.approx(clause.fn(*point), rel=1e-9)
            assert (result.name, result.unit) == (clause.gives, clause.unit)
            assert dict(result.inputs)[name] is moved


@each()
def test_a_figure_of_another_dimension_is_refused(clause: Clause) -> None:
    """A Value of another dimension raises instead of giving a figure."""
    point = points(clause)[0]
    given = {name: value(name, x, unit) for x, (name, unit) in zip(point, clause.parameters, strict=True)}
    for name, unit in clause.parameters:
        wrong = "psi" if unit == "in" else "in"
        if TRADE_UNITS.get(unit, ("",))[0] == TRADE_UNITS[wrong][0]:
            wrong = "lb"
        with pytest.raises(UnitFault):
            clause(**{**given, name: value(name, 1.0, wrong)})


@each()
def test_a_missing_or_strange_input_is_refused(clause: Clause) -> None:
    """A clause takes exactly its parameters."""
    given = {name: value(name, 1.0, unit) for name, unit in clause.parameters}
    with pytest.raises(TypeError):
        clause(**given, nobody=value("nobody", 1.0, "1"))
    with pytest.raises(KeyError):
        clause(**{name: given[name] for name, _ in clause.parameters[1:]})


@each()
def test_body_is_arithmetic_alone(clause: Clause) -> None:
    """A clause holds no if, no loop, no look-up and no call but those that read alike for all four kinds of figure."""
    tree = ast.parse(textwrap.dedent(inspect.getsource(clause.fn)))
    function = tree.body[0]
    assert isinstance(function, ast.FunctionDef)
    function.decorator_list, function.returns = [], None
    for argument in function.args.args:
        argument.annotation = None
    nodes = list(ast.walk(function))
    assert [type(node).__name__ for node in nodes if not isinstance(node, ALLOWED)] == []
    calls = [ast.unparse(node.func) for node in nodes if isinstance(node, ast.Call)]
    assert set(calls) <= READ_ALIKE
    assert len(function.body) == 2, "a docstring and one line of arithmetic"
