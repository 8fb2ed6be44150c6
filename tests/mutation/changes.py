"""The changes of the modules whose tests are judged: cosmic-ray's operators, wherever they find something to change."""

import ast
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).parents[2]
PARTS = ("standards", "takedown", "beam", "checks")

BINARY = (
    *("Add_Sub", "Add_Mul", "Sub_Add", "Sub_Mul", "Mul_Div", "Mul_Add", "Div_Mul", "Div_Sub", "Pow_Mul", "Mod_Mul"),
    *("FloorDiv_Div", "BitAnd_BitOr", "BitOr_BitAnd"),
)
COMPARED = (
    *("Lt_LtE", "Lt_GtE", "LtE_Lt", "LtE_Gt", "Gt_GtE", "Gt_LtE", "GtE_Gt", "GtE_Lt", "Eq_NotEq", "NotEq_Eq"),
    *("Is_IsNot", "IsNot_Is"),
)
OTHERS = (
    *("ReplaceUnaryOperator_USub_UAdd", "ReplaceUnaryOperator_Delete_Not", "AddNot", "ReplaceTrueWithFalse"),
    *("ReplaceFalseWithTrue", "ReplaceAndWithOr", "ReplaceOrWithAnd", "ReplaceBreakWithContinue"),
    *("ReplaceContinueWithBreak", "NumberReplacer", "ZeroIterationForLoop"),
)
OPERATORS = (
    *(f"core/ReplaceBinaryOperator_{name}" for name in BINARY),
    *(f"core/ReplaceComparisonOperator_{name}" for name in COMPARED),
    *(f"core/{name}" for name in OTHERS),
)


NOTHING = "nothing"  # an operator that changes nothing, to see that the tests pass where they are run


class Change(NamedTuple):
    """One change of one module: which operator, its how-manieth occurrence, and where it stands."""

    part: str
    path: str
    operator: str
    occurrence: int
    line: int
    last: int
    end: tuple[int, int]


def left_alone(source: str) -> list[tuple[tuple[int, int], tuple[int, int]]]:
    """Spans of a module that are no sums: type hints, decorators, raised messages, and what only type checkers run."""
    spans: list[ast.AST | None] = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            spans += node.decorator_list
        if isinstance(node, ast.FunctionDef):
            spans += [node.returns, *(one.annotation for one in ast.walk(node) if isinstance(one, ast.arg))]
        if isinstance(node, ast.AnnAssign):
            spans.append(node.annotation)
        if isinstance(node, ast.Raise | ast.Assert | ast.Import | ast.ImportFrom | ast.JoinedStr):
            spans.append(node)
        if isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING":
            spans.append(node)
    return [((n.lineno, n.col_offset), (n.end_lineno, n.end_col_offset)) for n in spans if n is not None]


def changes() -> list[Change]:
    """Every change of the modules whose tests are judged."""
    from cosmic_ray.ast import ast_nodes, get_ast
    from cosmic_ray.plugins import get_operator

    found: list[Change] = []
    for part in PARTS:
        for path in sorted((ROOT / "beamcheck" / part).rglob("*.py")):
            source = path.read_text(encoding="utf-8")
            spared, tree = left_alone(source), get_ast(source)
            for name in OPERATORS:
                operator, count = get_operator(name)(), 0
                for node in ast_nodes(tree):
                    for start, end in operator.mutation_positions(node):
                        if not any(low <= start < high for low, high in spared):
                            spot = str(path.relative_to(ROOT))
                            found.append(Change(part, spot, name, count, start[0], end[0], end))
                        count += 1
    return found


def texts(change: Change) -> tuple[str, str]:
    """The module as it is, and as it is after the change."""
    from cosmic_ray.mutating import mutate_code
    from cosmic_ray.plugins import get_operator

    source = (ROOT / change.path).read_text(encoding="utf-8")
    if change.operator == NOTHING:
        return source, source
    return source, mutate_code(source, get_operator(change.operator)(), change.occurrence) or source
