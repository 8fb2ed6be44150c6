# ruff: noqa: D102  what each method does is said once, in Pen
"""A formula as MathML: strict XML that a browser sets without a script."""

from collections.abc import Sequence
from html import escape

from beamcheck.views.expressions import Name, Number
from beamcheck.views.symbols import runs, symbol
from beamcheck.views.typesetting import Pen

_APPLY, _MULTIPLY = "<mo>\u2061</mo>", '<mo lspace="0" rspace="0.17em">\u2062</mo>'
STYLE = """\
math { font-family: "Cambria Math", "STIX Two Math", "STIX Math", "Latin Modern Math", math }
mtable.left > mtr > mtd { text-align: left; padding: 0.2em 0.5em 0.2em 0 }
"""


class MathmlPen(Pen):
    """Writes nodes as MathML elements, one element for each node."""

    plus, minus, times, beside = "<mo>+</mo>", "<mo>\u2212</mo>", "<mo>\u00d7</mo>", _MULTIPLY

    def number(self, node: Number) -> str:
        figure = _figure(node.text)
        if not node.unit:
            return figure
        gap = "" if node.unit == "°" else "\u00a0"
        return f"<mrow>{figure}<mtext>{gap}{escape(node.unit)}</mtext></mrow>"

    def name(self, node: Name) -> str:
        return symbol_element(node.name)

    def fraction(self, top: str, bottom: str) -> str:
        return f"<mfrac>{top}{bottom}</mfrac>"

    def slashed(self, top: str, bottom: str, *, wide: bool) -> str:
        gap = "0.2em" if wide else "0"
        return f'<mrow>{top}<mo lspace="{gap}" rspace="{gap}">/</mo>{bottom}</mrow>'

    def raised(self, base: str, exponent: str) -> str:
        return f"<msup>{base}{exponent}</msup>"

    def root(self, inside: str) -> str:
        return f"<msqrt>{inside}</msqrt>"

    def call(self, function: str, inputs: Sequence[str]) -> str:
        listed = "<mo>,</mo>".join(inputs)
        return f"<mrow><mi>{escape(function)}</mi>{_APPLY}{self.fenced(listed)}</mrow>"

    def braced(self, rows: Sequence[tuple[str, str]], otherwise: str) -> str:
        given = "<mtext>if\u00a0</mtext>"
        listed = [_cells(then, f"<mrow>{given}{condition}</mrow>") for then, condition in rows]
        listed.append(_cells(otherwise, "<mtext>otherwise</mtext>"))
        return f"<mrow><mo>{{</mo>{_table(listed)}</mrow>"

    def fenced(self, inside: str) -> str:
        return f"<mrow><mo>(</mo>{inside}<mo>)</mo></mrow>"

    def row(self, parts: Sequence[str]) -> str:
        return f"<mrow>{''.join(parts)}</mrow>" if len(parts) > 1 else parts[0]

    def sign(self, text: str) -> str:
        return f"<mo>{escape(text)}</mo>"


def equation(sides: Sequence[str], spoken: str, *, broken: bool) -> str:
    """Whole ``math`` element.

    spoken: the line, read aloud instead; broken: a row of its own for each equals sign after the first.
    """
    equal = [f"<mo>=</mo>{side}" for side in sides[1:]]
    if broken:
        rows = [_cells(sides[0], f"<mrow>{equal[0]}</mrow>")]
        rows += [_cells("<mrow/>", f"<mrow>{one}</mrow>") for one in equal[1:]]
        inside = _table(rows)
    else:
        inside = f"<mrow>{sides[0]}{''.join(equal)}</mrow>"
    return (
        f'<math xmlns="http://www.w3.org/1998/Math/MathML" displaystyle="true" alttext="{escape(spoken)}">'
        f"{inside}</math>"
    )


def symbol_element(name: str) -> str:
    """Symbol by its name; the prime stands on the base, where no font makes it vanish."""
    shown = symbol(name)
    base = _runs(shown.base)
    if shown.mark and shown.mark != "*":
        base = f'<mrow>{base}<mo lspace="0" rspace="0">{shown.mark}</mo></mrow>'
    subscript = _runs(shown.subscript) if shown.subscript else ""
    if shown.mark == "*":
        kind = "msubsup" if subscript else "msup"
        return f"<{kind}>{base}{subscript}<mo>*</mo></{kind}>"
    return f"<msub>{base}{subscript}</msub>" if subscript else base


def _runs(text: str) -> str:
    parts = [_part(part) for part in runs(text)]
    return f"<mrow>{''.join(parts)}</mrow>" if len(parts) > 1 else parts[0]


def _part(text: str) -> str:
    if text[0].isdecimal():
        return f"<mn>{text}</mn>"
    if "_" in text:
        return f"<msub>{''.join(_part(part) for part in text.split('_'))}</msub>"
    return f"<mi>{text}</mi>" if text[0].isalpha() else f'<mo lspace="0" rspace="0">{escape(text)}</mo>'


def _figure(text: str) -> str:
    return f"<mn>{text}</mn>" if text[0].isdigit() else f"<mi>{escape(text)}</mi>"


def _table(rows: Sequence[str]) -> str:
    return f'<mtable class="left" displaystyle="true" columnalign="left">{"".join(rows)}</mtable>'


def _cells(*cells: str) -> str:
    return f"<mtr>{''.join(f'<mtd>{cell}</mtd>' for cell in cells)}</mtr>"
