"""Law of proof: every clause is met by somebody else's figure or by another road, or says why not yet."""

import ast
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from beamcheck import tables
from beamcheck.standards import clauses

TESTS = Path(__file__).parent.parent
PROGRAM = TESTS.parent / "beamcheck"
KEYS = {clause.key for clause in clauses()}
UNCOVERED = tomllib.loads((TESTS / "published" / "uncovered.toml").read_text(encoding="utf-8"))


def in_cases() -> Iterator[str]:
    """Clauses of the published cases; that each step leads to a printed figure is the cases' own law."""
    for path in (TESTS / "published").glob("*.toml"):
        if path.name == "uncovered.toml":
            continue
        table: dict[str, Any] = tomllib.loads(path.read_text(encoding="utf-8"))
        for case in table.get("case", ()):
            yield case["clause"]
        for chain in table.get("chain", ()):
            yield from (step if isinstance(step, str) else step["clause"] for step in chain["steps"])


def in_tests() -> Iterator[str]:
    """Clauses that the modules of published and independent tests name, such as nds.area or statics.on_plan."""
    for folder in ("published", "independent"):
        for path in (TESTS / folder).glob("test_*.py"):
            yield from named(ast.parse(path.read_text(encoding="utf-8")))


def named(tree: ast.Module) -> Iterator[str]:
    """Keys of the clauses that a module names as attributes of an imported document."""
    documents = {
        alias.asname or alias.name: alias.name
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and node.module == "beamcheck.standards"
        for alias in node.names
    }
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name) and node.value.id in documents:
            yield f"{documents[node.value.id]}.{node.attr}"


def test_each_clause_is_proved_or_says_why_not() -> None:
    """A clause has a published case, an independent test, or a line with its reason in published/uncovered.toml."""
    proved = set(in_cases()) | set(in_tests())
    assert sorted(KEYS - proved - UNCOVERED.keys()) == []


def test_nothing_is_called_uncovered_that_is_covered() -> None:
    """The list of clauses without a case holds clauses that exist and have none, each with its reason."""
    assert UNCOVERED.keys() <= KEYS
    assert sorted(UNCOVERED.keys() & (set(in_cases()) | set(in_tests()))) == []
    assert all(len(reason.split()) >= 4 for reason in UNCOVERED.values())


def called() -> set[str]:
    """Clauses that the program names outside the standards themselves."""
    paths = (path for path in PROGRAM.rglob("*.py") if "standards" not in path.relative_to(PROGRAM).parts)
    return {key for path in paths for key in named(ast.parse(path.read_text(encoding="utf-8")))}


def kept() -> dict[str, tuple[str, str]]:
    """Clauses that the register of coverage keeps beside the program: the state of its row and why."""
    rows = tables.load("coverage").rows
    return {key: (row.text("state"), row.text("why")) for row in rows for key in row.text("clauses").split()}


def test_each_clause_has_a_caller_or_says_why_it_is_kept() -> None:
    """A clause is called by the program, or a row of the register of coverage keeps it and says why."""
    assert sorted(KEYS - called() - kept().keys()) == []


def test_nothing_is_kept_beside_the_program_that_it_calls() -> None:
    """The register keeps clauses that exist and have no caller, each row with its reason."""
    assert kept().keys() <= KEYS
    assert sorted(kept().keys() & called()) == []
    assert all(len(why.split()) >= 4 and state in ("function only", "done") for state, why in kept().values())


def test_a_named_clause_is_seen() -> None:
    """The search for clauses in tests follows an alias, and takes no other attribute for a clause."""
    text = "from beamcheck.standards import nds_2018 as nds, statics\nnds.area.fn(1, 2)\nstatics.on_plan\nother.area\n"
    assert set(named(ast.parse(text))) == {"nds_2018.area", "statics.on_plan"}
