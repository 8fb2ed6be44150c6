"""The printed formula of a clause, made from the clause: symbols, then figures, then the result.

``line`` is for the terminal and for reading aloud, ``mathml`` for the page, ``typst`` for the PDF: one tree.
"""

from collections.abc import Iterable, Mapping

from beamcheck.trace import Clause, Value
from beamcheck.views import mathml as page
from beamcheck.views import typst_maths as paper
from beamcheck.views.expressions import Cases, Expr, Minus, Name, Number
from beamcheck.views.figures import figure, unit_text
from beamcheck.views.recording import formula
from beamcheck.views.typesetting import LinePen, Pen

Inputs = Mapping[str, Value] | Iterable[tuple[str, Value]]

_LINE, _PAGE, _PAPER = LinePen(flat=True), page.MathmlPen(), paper.TypstPen()
_LONG = 88


def line(clause: Clause, values: Inputs = ()) -> str:
    """f_b = M/S = 239,760/123.4 = 1,943 psi; without values the symbols only.

    values: the clause's inputs, as ``Computed.inputs`` has them; single figures, no arrays over candidates.
    Raises KeyError where one is missing.
    """
    return " = ".join(_drawn(sides(clause, values), _LINE))


def mathml(clause: Clause, values: Inputs = ()) -> str:
    """Line as a ``math`` element, with the line for those who cannot see it."""
    shown = sides(clause, values)
    spoken = " = ".join(_drawn(shown, _LINE))
    return page.equation(_drawn(shown, _PAGE), spoken, broken=_long(spoken, shown))


def typst(clause: Clause, values: Inputs = ()) -> str:
    """Line as Typst maths, to be set between dollars as a block."""
    shown = sides(clause, values)
    spoken = " = ".join(_drawn(shown, _LINE))
    return paper.equation(_drawn(shown, _PAPER), broken=_long(spoken, shown))


def typst_line(clause: Clause, values: Inputs = ()) -> str:
    """The same in one line, however long."""
    drawn = _drawn(sides(clause, values), _PAPER)
    apart = [f"{side} quad" if "cases(" in side else side for side in drawn]  # else the last condition runs on
    return paper.equation(apart, broken=False)


def sides(clause: Clause, values: Inputs = ()) -> tuple[Expr, ...]:
    """Parts between the equals signs: the symbol, the formula, the formula in figures, the result.

    In figures only the case that applies is left. A step that would repeat its neighbour is left out.
    """
    inputs, tree = dict(values), formula(clause)
    if not inputs:
        return (Name(clause.gives), tree)
    numbers = {name: (float(inputs[name].to(unit)), unit) for name, unit in clause.parameters}
    found = float(clause.fn(*(number for number, _ in numbers.values())))
    result = _shown(found, clause.unit, unit_text(clause.unit))

    def in_figures(node: Expr) -> Expr:
        if isinstance(node, Name):
            number, unit = numbers[node.name]
            return _shown(number, unit, "°" if unit == "deg" else "")
        return node.taken({}) if isinstance(node, Cases) else node

    figures = tree.rebuilt(in_figures)
    lone = isinstance(figures.of if isinstance(figures, Minus) else figures, Number)
    return (Name(clause.gives), tree, result) if lone else (Name(clause.gives), tree, figures, result)


def _shown(number: float, unit: str, printed: str) -> Expr:
    """Figure as it is printed that still holds its whole number; a negative one is the opposite of one."""
    text = figure(abs(number), unit)
    shown = Number(abs(number), text, printed)
    return Minus(shown) if number < 0 and text != "0" else shown


def _drawn(shown: tuple[Expr, ...], pen: Pen) -> list[str]:
    return [side.drawn(pen) for side in shown]


def _long(spoken: str, shown: tuple[Expr, ...]) -> bool:
    return len(spoken) > _LONG and len(shown) > 2
