# ruff: noqa: D102  what each method does is said once, in Pen
"""A formula as Typst maths. Every text goes in as a quoted string, so none can be read as markup."""

from collections.abc import Sequence

from beamcheck.views.expressions import Name, Number
from beamcheck.views.symbols import symbol
from beamcheck.views.typesetting import AT_LEAST, AT_MOST, Pen

_SIGNS = {AT_MOST: "<=", AT_LEAST: ">="}


class TypstPen(Pen):
    """Writes nodes as Typst maths source."""

    plus, minus, times, beside = "+", "-", "times", "thin"

    def number(self, node: Number) -> str:
        gap = "" if node.unit in ("", "°") else "\u00a0"
        return quoted(f"{node.text}{gap}{node.unit}")

    def name(self, node: Name) -> str:
        shown = symbol(node.name)
        return shown.typst or quoted(shown.text)

    def fraction(self, top: str, bottom: str) -> str:
        return f"frac({top}, {bottom})"

    def slashed(self, top: str, bottom: str, *, wide: bool) -> str:
        return f"{top} thin\\/thin {bottom}" if wide else f"{top}\\/{bottom}"

    def raised(self, base: str, exponent: str) -> str:
        return f"attach({base}, t: {exponent})"

    def root(self, inside: str) -> str:
        return f"sqrt({inside})"

    def call(self, function: str, inputs: Sequence[str]) -> str:
        return f"op({quoted(function)}) {self.fenced(', '.join(inputs))}"

    def braced(self, rows: Sequence[tuple[str, str]], otherwise: str) -> str:
        listed = [f'display({then}) & quad "if " {condition}' for then, condition in rows]
        listed.append(f'display({otherwise}) & quad "otherwise"')
        return f"cases({', '.join(listed)})"

    def fenced(self, inside: str) -> str:
        return f"lr(({inside}))"

    def row(self, parts: Sequence[str]) -> str:
        # typst keeps a gap beside a string that holds more than digits: there must be none behind a first minus
        return " ".join(filter(None, parts)).replace(f'{self.opposite} "', f'{self.opposite}"')

    def sign(self, text: str) -> str:
        return _SIGNS.get(text, text)

    @property
    def opposite(self) -> str:
        return 'class("unary", -)'


def equation(sides: Sequence[str], *, broken: bool) -> str:
    """Source between the dollars. broken: a line of its own for each equals sign after the first."""
    if not broken:
        return " = ".join(sides)
    return f"{sides[0]} &= " + " \\\n&= ".join(sides[1:])


def quoted(text: str) -> str:
    """Typst string."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
