"""The printed formula of a clause, made from the clause: symbols, then figures, then the result.

``line`` is for the terminal and for reading aloud, ``mathml`` for the page, ``typst`` for the PDF; all three are the
same tree in the same order.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from beamcheck.trace import Clause, Value
from beamcheck.views.expressions import Cases, Expr, Minus, Name, Number
from beamcheck.views.figures import figure, unit_text
from beamcheck.views.mathml import MathmlPen
from beamcheck.views.mathml import document as mathml_document
from beamcheck.views.recording import formula
from beamcheck.views.typesetting import LinePen, Pen
from beamcheck.views.typst_maths import TypstPen
from beamcheck.views.typst_maths import rows as typst_rows

Inputs = Mapping[str, Value] | Iterable[tuple[str, Value]]
LONG = 88
