"""Laws of the printed formula: it is the clause, in every way of writing it."""

from __future__ import annotations

import importlib
import itertools
import math
import pkgutil
import random
import re
import tempfile
import xml.etree.ElementTree as ET
from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType

import pytest

from beamcheck import standards
from beamcheck.trace import Clause, Taken, Value
from beamcheck.views import symbols
from beamcheck.views.expressions import Cases, Expr, Minus, Name, Number
from beamcheck.views.figures import figure, quantity, unit_text
from beamcheck.views.formula import formula, line, mathml, sides, typst
from beamcheck.views.mathml import MathmlPen, symbol_element
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
    "sqrt": math.sqrt,
    "min": min,
    "max": max,
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


def inputs(clause: Clause, **numbers: float) -> dict[str, Value]:
    """Values for a clause, each in the unit of its parameter."""
    units = dict(clause.parameters)
    return {name: Value(name, number, units[name], Taken("")) for name, number in numbers.items()}


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


def assert_reads_as(clause: Clause, text: str) -> None:
    """The text, worked out, is the clause."""
    code = compile(text, clause.key, "eval")
    for numbers, expected in points(clause):
        actual = eval(code, {**FUNCTIONS, "π": math.pi, **numbers})  # noqa: S307  our own text
        assert close(actual, expected, numbers), (text, numbers)


class PlainLine(LinePen):
    """The line with names as code has them."""

    def name(self, node: Name) -> str:
        return node.name


@every_clause
def test_the_line_worked_out_is_the_clause(clause: Clause) -> None:
    """Whoever works out the printed line by the rules of school gets the clause's figure: no bracket is missing."""
    assert_reads_as(clause, arithmetic(formula(clause).drawn(PlainLine(flat=True))))


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


@every_clause
def test_the_mathml_worked_out_is_the_clause(clause: Clause) -> None:
    """What the page shows, read element by element, gives the clause's figure."""
    element = ET.fromstring(formula(clause).drawn(PlainMathml()))  # noqa: S314  our own text
    assert_reads_as(clause, arithmetic(read(element)))


class PlainTypst(TypstPen):
    """Typst maths with names as code has them."""

    def name(self, node: Name) -> str:
        return node.name


def cases(*parts: float) -> float:
    """What Typst lays out as cases: figure, condition, figure, condition, ..."""
    return next(figure for figure, holds in zip(parts[::2], parts[1::2], strict=True) if holds)


TYPST = (
    (r"thin \/ thin", "/"), (r"\/", "/"), ("thin", "*"), ("times", "*"), ("lr((", "(("), ("π", "pi"),
    (' & quad "otherwise"', ", True"), (' & quad "if "', ","), ('class("unary", -)', "-"), (", t: ", ", "),
)  # fmt: skip
READ_TYPST: Mapping[str, Callable[..., float]] = MappingProxyType({
    **FUNCTIONS, "cases": cases, "frac": lambda top, bottom: top / bottom, "attach": pow, "display": float,
})  # fmt: skip


@every_clause
def test_the_typst_worked_out_is_the_clause(clause: Clause) -> None:
    """What the PDF shows, read call by call, gives the clause's figure."""
    text = formula(clause).drawn(PlainTypst())
    for typst_way, code_way in TYPST:
        text = text.replace(typst_way, code_way)
    text = re.sub(r'op\("(\w+)"\) ', r"\1", text)
    text = re.sub(r'"([\d.,]+)"', lambda found: found[1].replace(",", ""), text.replace('"pi"', "pi"))
    code = compile(text, clause.key, "eval")
    for numbers, expected in points(clause):
        actual = eval(code, {**READ_TYPST, "pi": math.pi, **numbers})  # noqa: S307  our own text
        assert close(actual, expected, numbers), (text, numbers)


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
def test_figures_of_either_sign_keep_their_meaning(clause: Clause) -> None:
    """A line in figures, some of them negative, works out to what it stands for: a sign is never misread."""
    chance = random.Random(clause.key)  # noqa: S311  a fixed seed, nothing secret

    def in_figures(node: Expr) -> Expr:
        if not isinstance(node, Name):
            return node
        number = round(chance.uniform(0.5, 9.0), 3)
        return chance.choice((Number(number, f"{number}"), Minus(Number(number, f"{number}"))))

    counted = 0
    for _ in range(POINTS):
        tree = formula(clause).rebuilt(in_figures)
        try:
            expected = tree.at({})
        except (ValueError, ZeroDivisionError, TypeError):  # roots and powers of negative figures
            continue
        if isinstance(expected, float):
            counted += 1
            actual = eval(arithmetic(tree.drawn(LinePen(flat=True))), {**FUNCTIONS, "π": math.pi})  # noqa: S307
            assert close(actual, expected, {"": 1000.0}), tree.drawn(LinePen(flat=True))
    assert counted


@every_clause
def test_the_figures_give_the_result(clause: Clause) -> None:
    """The step in figures, which holds only the case that applies, gives the result that stands behind it."""
    for numbers, expected in itertools.islice(points(clause), 5):
        shown = sides(clause, inputs(clause, **numbers))
        assert all(close(side.at({}), expected, numbers) for side in shown[2:])


@every_clause
def test_the_mathml_is_xml_that_carries_the_line(clause: Clause) -> None:
    """The element is well-formed, and its text for those who cannot see it is the line."""
    numbers, _ = next(points(clause))
    for given in ((), inputs(clause, **numbers)):
        element = ET.fromstring(mathml(clause, given))  # noqa: S314  our own text
        assert element.tag == f"{MATHML}math"
        assert element.get("alttext") == line(clause, given)


def test_every_formula_compiles_in_typst() -> None:
    """All formulas, in symbols and in figures, make one accessible PDF in which no glyph is missing."""
    compiler = pytest.importorskip("typst")
    source = ["#set document(title: [formulas], date: none)\n"]
    for clause in CLAUSES.values():
        given = inputs(clause, **next(points(clause))[0])
        spoken = quoted(line(clause, given))
        source.append(f"#math.equation(block: true, alt: {spoken}, $ {typst(clause, given)} $)\n")
    with tempfile.TemporaryDirectory() as empty:
        made = compiler.compile(
            {"main.typ": "".join(source).encode()}, root=empty, ignore_system_fonts=True, pdf_standards="ua-1"
        )
    assert made.startswith(b"%PDF")


PINNED = MappingProxyType({
    "nds_2018.bending_stress": "f_b = M/S",
    "nds_2018.shear_stress": "f_v = 3 V / (2 b d)",
    "nds_2018.section_modulus": "S = b d^2 / 6",
    "nds_2018.critical_bending": "F_bE = 1.20 E′_min / R_B^2",
    "nds_2018.slenderness_ratio": "R_B = sqrt(ℓ_e d / b^2)",
    "nds_2018.beam_stability":
        "C_L = (1 + F_bE/F*_b)/1.9 - sqrt(((1 + F_bE/F*_b)/1.9)^2 - (F_bE/F*_b)/0.95)",
    "nds_2018.effective_length_unlisted":
        "ℓ_e = {2.06 ℓ_u if ℓ_u/d < 7; 1.63 ℓ_u + 3 d if ℓ_u/d ≤ 14.3; 1.84 ℓ_u otherwise}",
    "nds_2018.bending_glued": "F′_b = F*_b min(C_L, C_V)",
    "nds_2018.size_timber": "C_F = min(1.0, (12/d)^(1/9))",
    "nds_2018.volume_glulam": "C_V = min(1.0, (252/ℓ_0)^(1/x) (12/d)^(1/x) (5.125/b)^(1/x))",
    "nds_2018.notched_tension_shear": "V′_r = (2/3) F′_v b d_n (d_n/d)^2",
    "nds_2018.column_stability":
        "C_P = (1 + F_cE/F*_c)/(2 c) - sqrt(((1 + F_cE/F*_c)/(2 c))^2 - (F_cE/F*_c)/c)",
    "nds_2018.bending_and_compression": "u_c = (f_c/F′_c)^2 + f_b1/(F′_b1 k_1) + f_b2/(F′_b2 k_2)",
    "nds_2018.bearing_at_angle": "F′_θ = F*_c F′_c⊥ / (F*_c sin²θ + F′_c⊥ cos²θ)",
    "statics.continuity_factor": "k_c = 1 + (s_A^2 - s_A s_B + s_B^2)/(4 s_A s_B)",
    "statics.on_plan": "q = q_s/cos(θ)",
    "asce7_16.roof_live_area": "R_1 = min(1.0, max(0.6, 1.2 - 0.001 A_T))",
})  # fmt: skip


@pytest.mark.parametrize(("key", "printed"), PINNED.items(), ids=PINNED.keys())
def test_the_line_looks_like_the_document(key: str, printed: str) -> None:
    """Terms, factors and figures stand in the order and the spelling of the clause, which are the document's."""
    assert line(CLAUSES[key]) == printed


FIGURES = (
    ("nds_2018.bending_stress", {"M": 239760.0, "S": 123.4}, "f_b = M/S = 239,760/123.4 = 1,943 psi"),
    ("nds_2018.bending_stress", {"M": -5000.0, "S": 31.640625}, "f_b = M/S = (-5,000)/31.64 = -158 psi"),
    ("nds_2018.shear_stress", {"V": 4500.0, "b": 3.5, "d": 11.25},
     "f_v = 3 V / (2 b d) = 3 × 4,500 / (2 × 3.5 × 11.25) = 171 psi"),
    ("nds_2018.effective_length_unlisted", {"l_u": 96.0, "d": 11.25},
     ("ℓ_e = {2.06 ℓ_u if ℓ_u/d < 7; 1.63 ℓ_u + 3 d if ℓ_u/d ≤ 14.3; 1.84 ℓ_u otherwise}"
      " = 1.63 × 96 + 3 × 11.25 = 190.23 in")),
    ("nds_2018.bearing_area", {"l_b": 7.25}, "C_b = {(ℓ_b + 0.375)/ℓ_b if ℓ_b < 6; 1.0 otherwise} = 1.0"),
    ("nds_2018.size_timber", {"d": 13.5}, "C_F = min(1.0, (12/d)^(1/9)) = min(1.0, (12/13.5)^(1/9)) = 0.987"),
    ("statics.on_plan", {"q_s": 15.0, "theta": 26.565}, "q = q_s/cos(θ) = 15/cos(26.57°) = 16.8 psf"),
)  # fmt: skip


@pytest.mark.parametrize(("key", "numbers", "printed"), FIGURES)
def test_figures_stand_for_their_symbols(key: str, numbers: dict[str, float], printed: str) -> None:
    """Each figure stands where its symbol stood, then the result with its unit."""
    assert line(CLAUSES[key], inputs(CLAUSES[key], **numbers)) == printed


def test_a_figure_is_shown_in_the_unit_the_clause_computes_with() -> None:
    """A moment in kip*ft is shown in lb*in, since that is what was divided."""
    given = {"M": Value("M", 20.0, "kip*ft", Taken("")), "S": Value("S", 123.4, "in^3", Taken(""))}
    assert line(CLAUSES["nds_2018.bending_stress"], given).startswith("f_b = M/S = 240,000/123.4 = ")


def test_the_inputs_of_a_computed_value_will_do() -> None:
    """A value that a clause made carries all that its formula needs."""
    clause = CLAUSES["nds_2018.bending_stress"]
    made = clause(**inputs(clause, M=239760.0, S=123.4))
    assert line(clause, made.inputs) == line(clause, dict(made.inputs))


def test_the_prime_stands_on_the_base() -> None:
    """A raised prime nearly vanishes in fonts without maths, and F prime would read F."""
    prime = '<mrow><mi>F</mi><mo lspace="0" rspace="0">′</mo></mrow>'
    assert symbol_element("F_b_adj") == f"<msub>{prime}<mi>b</mi></msub>"
    assert symbol_element("F_b_star") == "<msubsup><mi>F</mi><mi>b</mi><mo>*</mo></msubsup>"
    assert symbol_element("F_bE") == "<msub><mi>F</mi><mi>bE</mi></msub>"
    assert symbol_element("F_c_perp").endswith('<mrow><mi>c</mi><mo lspace="0" rspace="0">⊥</mo></mrow></msub>')


def test_a_name_without_a_symbol_stands_for_itself() -> None:
    """A name that the table has not got is printed as it is, and cannot be read as markup."""
    assert symbols.symbol("no_such_name").text == "no_such_name"
    assert TypstPen().name(Name('"]#read("x')) == '"\\"]#read(\\"x"'
    assert "<x>" not in symbol_element("<x>")


def test_a_clause_may_not_branch_on_a_figure() -> None:
    """A formula with only one of two branches would be a false one, so the recorder refuses."""
    with pytest.raises(TypeError, match="where"):
        bool(Recorder(Name("x")) > 1)


@pytest.mark.parametrize(
    ("number", "unit", "printed"),
    [
        (1942.95, "psi", "1,943"), (62.54, "psi", "62.5"), (99.96, "psi", "100"), (1162.5, "psi", "1,163"),
        (0.04, "psi", "0.0"), (-0.04, "lb", "0.0"), (0.0, "lb", "0"), (-1943.2, "lb", "-1,943"),
        (5.5, "in", "5.5"), (11.875, "in", "11.875"), (163.0, "in", "163"), (0.34712, "in", "0.347"),
        (0.00041, "in", "0.00041"), (123.388, "in^3", "123.39"), (31.640625, "in^3", "31.64"),
        (1.0, "1", "1.0"), (1.15, "1", "1.15"), (0.9, "1", "0.9"), (0.90004, "1", "0.900"),
        (1.0004, "1", "1.0004"), (0.99996, "1", "0.99996"), (360.0, "1", "360"), (24.6861, "1", "24.69"),
        (2300.0, "1", "2,300"), (0.000001, "1", "0.000001"), (40.00000000000001, "psf", "40"),
        (math.inf, "1", "∞"), (-math.inf, "1", "-∞"), (math.nan, "psi", "undefined"),
    ],
)  # fmt: skip
def test_digits_follow_unit_and_size(number: float, unit: str, printed: str) -> None:
    """A figure has the digits its unit deserves; no "-0", no dust, and nothing but 1 shows as 1.000."""
    assert figure(number, unit) == printed


def test_units_are_printed_as_units() -> None:
    """lb*in^3 is how code has it; print has dots and raised figures."""
    assert unit_text("lb*in^3") == "lb·in³"
    assert quantity(18.4, "deg") == "18.4°"
    assert quantity(1943.0, "psi") == "1,943 psi"
    assert quantity(0.5, "1") == "0.5"
