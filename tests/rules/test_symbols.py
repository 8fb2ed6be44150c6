"""Laws of the symbols: a figure that the program makes without a clause has a listed name and that name's unit too."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

import beamcheck
from beamcheck import tables
from beamcheck.standards import clauses
from beamcheck.trade_units import TRADE_UNITS

PACKAGE = Path(beamcheck.__file__).parent
SYMBOLS = {row.text("name"): row for row in tables.load("symbols").rows}
# where in a call the name and the unit stand: position or keyword; None where the unit comes from a table
MAKERS: dict[str, tuple[int, int | None]] = {
    "Value": (0, 2),
    "taken": (0, 4),
    "as_one": (0, None),
    "looked": (2, None),
    "peak": (0, 2),
}


class Made(NamedTuple):
    """A figure made in the code: where, its name as a pattern, its unit if it is written there."""

    where: str
    pattern: str
    unit: str | None


def pattern(node: ast.expr) -> str | None:
    """A text, or a text with holes, as a pattern; None for anything that is not written out."""
    match node:
        case ast.Constant(value=str(text)):
            return re.escape(text)
        case ast.JoinedStr(values=parts):
            return "".join(pattern(part) or r"\w+" for part in parts)
    return None


def made(tree: ast.AST, where: str) -> Iterator[Made]:
    """The figures that a module makes under a name that is written out."""
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call):
            continue
        maker = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
        if maker not in MAKERS:
            continue
        at_name, at_unit = MAKERS[maker]
        name = node.args[at_name] if len(node.args) > at_name else node.args[-1]
        unit = next((word.value for word in node.keywords if word.arg == "unit"), None)
        if unit is None and at_unit is not None and len(node.args) > at_unit:
            unit = node.args[at_unit]
        written = unit.value if isinstance(unit, ast.Constant) else None
        if found := pattern(name):
            pure = unit is None and maker in {"taken", "as_one"}
            yield Made(f"{where}:{node.lineno}", found, "1" if pure else written)


def everything_made() -> list[Made]:
    """The figures that all modules of the program make."""
    found: list[Made] = []
    for path in sorted(PACKAGE.rglob("*.py")):
        found += made(ast.parse(path.read_text(encoding="utf-8")), path.relative_to(PACKAGE).as_posix())
    return found


def words() -> set[str]:
    """Every text that stands in the program's code."""
    trees = (ast.parse(path.read_text(encoding="utf-8")) for path in PACKAGE.rglob("*.py"))
    nodes = (node for tree in trees for node in ast.walk(tree) if isinstance(node, ast.Constant))
    return {node.value for node in nodes if isinstance(node.value, str)}


MADE = everything_made()


@pytest.mark.parametrize("figure", MADE, ids=lambda figure: f"{figure.where} {figure.pattern}")
def test_a_figure_made_in_the_code_is_a_listed_symbol(figure: Made) -> None:
    """A figure looked up, taken or solved bears a name of symbols.csv and that name's unit."""
    names = [name for name in SYMBOLS if re.fullmatch(figure.pattern, name)]
    assert names, "its name is not in symbols.csv"
    assert figure.unit is None or figure.unit in {SYMBOLS[name].text("unit") for name in names}


def test_every_listed_symbol_is_in_use() -> None:
    """A row of symbols.csv is the name of an input or a result of a clause, or stands in the code."""
    used = words() | {clause.gives for clause in clauses()}
    used |= {name for clause in clauses() for name, _ in clause.parameters}
    idle = [name for name in SYMBOLS.keys() - used if not any(re.fullmatch(m.pattern, name) for m in MADE)]
    assert idle == []


def test_units_of_symbols_are_known() -> None:
    """A symbol's unit is one that figures are converted in, or the beam line's deflection times stiffness."""
    assert {row.text("unit") for row in SYMBOLS.values()} <= TRADE_UNITS.keys() | {"lb*in^3"}


@pytest.mark.parametrize("name", SYMBOLS)
def test_a_symbol_says_what_it_means(name: str) -> None:
    """A symbol has its printed form, its typeset form and a meaning of at least a word."""
    row = SYMBOLS[name]
    assert row.has("symbol")
    assert row.has("typst")
    assert row.has("meaning")


def test_no_two_names_have_one_meaning() -> None:
    """One meaning stands in one row only."""
    meanings = [row.text("meaning") for row in SYMBOLS.values()]
    assert sorted(meaning for meaning in set(meanings) if meanings.count(meaning) > 1) == []
