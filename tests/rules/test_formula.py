"""Laws of the printed formula: order, spelling, brackets and figures are those of the clause."""

from __future__ import annotations

from types import MappingProxyType

import pytest

from beamcheck import maths, tables
from beamcheck.standards import asce7_16, nds_2018, statics
from beamcheck.trace import Clause, Taken, Value
from beamcheck.views import symbols
from beamcheck.views.expressions import Name
from beamcheck.views.formula import line, typst
from beamcheck.views.mathml import symbol_element
from beamcheck.views.recording import Recorder
from beamcheck.views.typesetting import LinePen
from beamcheck.views.typst_maths import TypstPen


def inputs(clause: Clause, **numbers: float) -> dict[str, Value]:
    """Values for a clause, each in the unit of its parameter."""
    units = dict(clause.parameters)
    return {name: Value(name, number, units[name], Taken("")) for name, number in numbers.items()}


PINNED = MappingProxyType({
    nds_2018.bending_stress: "f_b = M/S",
    nds_2018.shear_stress: "f_v = 3 V / (2 b d)",
    nds_2018.section_modulus: "S = b d^2 / 6",
    nds_2018.critical_bending: "F_bE = 1.20 E′_min / R_B^2",
    nds_2018.slenderness_ratio: "R_B = sqrt(ℓ_e d / b^2)",
    nds_2018.beam_stability:
        "C_L = (1 + F_bE/F*_b)/1.9 - sqrt(((1 + F_bE/F*_b)/1.9)^2 - (F_bE/F*_b)/0.95)",
    nds_2018.effective_length_unlisted:
        "ℓ_e = {2.06 ℓ_u if ℓ_u/d < 7; 1.63 ℓ_u + 3 d if ℓ_u/d ≤ 14.3; 1.84 ℓ_u otherwise}",
    nds_2018.bending_glued: "F′_b = F*_b min(C_L, C_V)",
    nds_2018.size_timber: "C_F = min(1.0, (12/d)^(1/9))",
    nds_2018.volume_glulam: "C_V = min(1.0, (252/ℓ_0)^(1/x) (12/d)^(1/x) (5.125/b)^(1/x))",
    nds_2018.notched_tension_shear: "V′_r = (2/3) F′_v b d_n (d_n/d)^2",
    nds_2018.column_stability:
        "C_P = (1 + F_cE/F*_c)/(2 c) - sqrt(((1 + F_cE/F*_c)/(2 c))^2 - (F_cE/F*_c)/c)",
    nds_2018.bending_and_compression: "u_c = (f_c/F′_c)^2 + f_b1/(F′_b1 k_1) + f_b2/(F′_b2 k_2)",
    nds_2018.bearing_at_angle: "F′_θ = F*_c F′_c⊥ / (F*_c sin²θ + F′_c⊥ cos²θ)",
    statics.continuity_factor: "k_c = 1 + (s_A^2 - s_A s_B + s_B^2)/(4 s_A s_B)",
    statics.on_plan: "q = q_s/cos(θ)",
    asce7_16.roof_live_area: "R_1 = min(1.0, max(0.6, 1.2 - 0.001 A_T))",
})  # fmt: skip


@pytest.mark.parametrize(("clause", "printed"), PINNED.items(), ids=[clause.key for clause in PINNED])
def test_the_line_looks_like_the_document(clause: Clause, printed: str) -> None:
    """Terms, factors and figures stand in the order and the spelling of the clause, which are the document's."""
    assert line(clause) == printed


FIGURES = (
    (nds_2018.bending_stress, {"M": 239760.0, "S": 123.4}, "f_b = M/S = 239,760/123.4 = 1,943 psi"),
    (nds_2018.bending_stress, {"M": -5000.0, "S": 31.640625}, "f_b = M/S = (-5,000)/31.64 = -158 psi"),
    (nds_2018.shear_stress, {"V": 4500.0, "b": 3.5, "d": 11.25},
     "f_v = 3 V / (2 b d) = 3 × 4,500 / (2 × 3.5 × 11.25) = 171 psi"),
    (nds_2018.effective_length_unlisted, {"l_u": 96.0, "d": 11.25},
     ("ℓ_e = {2.06 ℓ_u if ℓ_u/d < 7; 1.63 ℓ_u + 3 d if ℓ_u/d ≤ 14.3; 1.84 ℓ_u otherwise}"
      " = 1.63 × 96 + 3 × 11.25 = 190.23 in")),
    (nds_2018.bearing_area, {"l_b": 7.25}, "C_b = {(ℓ_b + 0.375)/ℓ_b if ℓ_b < 6; 1.0 otherwise} = 1.0"),
    (nds_2018.size_timber, {"d": 13.5}, "C_F = min(1.0, (12/d)^(1/9)) = min(1.0, (12/13.5)^(1/9)) = 0.987"),
    (nds_2018.eccentric_bending_strong, {"f_c": 812.0, "e_1": 1.2, "d_1": 5.5},
     "f_b1 = f_c (6 e_1 / d_1) = 812 × (6 × 1.2 / 5.5) = 1,063 psi"),
    (nds_2018.modulus_min_reference, {"E": 1.6e6, "COV_E": 0.25, "k_E": 1.03},
     ("E_min = E (1 - 1.645 COV_E) k_E / 1.66"
      " = 1,600,000 × (1 - 1.645 × 0.25) × 1.03 / 1.66 = 584,494 psi")),
    (statics.on_plan, {"q_s": 15.0, "theta": 26.565}, "q = q_s/cos(θ) = 15/cos(26.57°) = 16.8 psf"),
)  # fmt: skip


@pytest.mark.parametrize(("clause", "numbers", "printed"), FIGURES)
def test_figures_stand_for_their_symbols(clause: Clause, numbers: dict[str, float], printed: str) -> None:
    """Each figure stands where its symbol stood, then the result with its unit."""
    assert line(clause, inputs(clause, **numbers)) == printed


P, Q, R = (Recorder(Name(letter)) for letter in "pqr")
WRITTEN = (
    (P * 3.0, "p × 3"), (3.0 * P, "3 p"), (P * Q, "p q"), (P * (Q * R), "p q r"), (1 / 3 * P, "(1/3) p"),
    (2 * (P / Q), "2 × (p/q)"), (R * (P / Q), "r (p/q)"), (P / Q * R, "(p/q) r"), (P * Q / R, "p q / r"),
    (P / Q / R, "(p/q)/r"), (P / (Q / R), "p/(q/r)"), (P / (Q * R), "p/(q r)"), ((P + Q) / R, "(p + q)/r"),
    (P - (Q - R), "p - (q - r)"), (P + (Q - R), "p + q - r"), (P + -Q, "p - q"), (-P - Q, "-p - q"),
    (2 - P, "2 - p"), (-(P + Q), "-(p + q)"), (P * -Q, "p (-q)"), (-(P**2), "-p^2"), ((-P) ** 2, "(-p)^2"),
    ((P + 2) ** 2, "(p + 2)^2"), (2**P, "2^p"), (P ** (1 / Q), "p^(1/q)"), ((P**Q) ** R, "(p^q)^r"),
    (maths.sqrt(P + Q) / R, "sqrt(p + q)/r"), (maths.least(Q, P), "min(q, p)"),
    (maths.most(maths.most(R, 1.25), P), "max(r, 1.25, p)"), (maths.least(1.5, P), "min(1.5, p)"),
    (maths.where(P < 2, Q, maths.where(P >= R, P, R + 1)), "{q if p < 2; p if p ≥ r; r + 1 otherwise}"),
    (maths.where(P < 2, Q, R) * P + 1, "{q if p < 2; r otherwise} p + 1"), (12 * maths.tan(P), "12 tan(p)"),
)  # fmt: skip


@pytest.mark.parametrize(("recorded", "printed"), WRITTEN, ids=[printed for _, printed in WRITTEN])
def test_signs_and_brackets_stand_where_they_are_needed(recorded: Recorder, printed: str) -> None:
    """No bracket or multiplication sign is missing, none is idle, and the order is the source's."""
    assert recorded.tree.drawn(LinePen(flat=True)) == printed


def test_fractions_within_fractions_lie_on_the_line() -> None:
    """As the standard prints them: small upright fractions are hard to read on paper."""
    assert 'frac("1" + F_"bE"\\/F_b^*, "1.9")' in typst(nds_2018.beam_stability)


def test_a_figure_is_shown_in_the_unit_the_clause_computes_with() -> None:
    """A moment in kip*ft is shown in lb*in, since that is what was divided."""
    values = {"M": Value("M", 20.0, "kip*ft", Taken("")), "S": Value("S", 123.4, "in^3", Taken(""))}
    assert line(nds_2018.bending_stress, values).startswith("f_b = M/S = 240,000/123.4 = ")


def test_the_inputs_of_a_computed_value_will_do() -> None:
    """A value that a clause made carries all that its formula needs."""
    clause = nds_2018.bending_stress
    made = clause(**inputs(clause, M=239760.0, S=123.4))
    assert line(clause, made.inputs) == line(clause, dict(made.inputs))


def test_the_prime_stands_on_the_base() -> None:
    """A raised prime nearly vanishes in fonts without maths, and F prime would read F."""
    prime = '<mrow><mi>F</mi><mo lspace="0" rspace="0">′</mo></mrow>'
    assert symbol_element("F_b_adj") == f"<msub>{prime}<mi>b</mi></msub>"
    assert symbol_element("F_b_star") == "<msubsup><mi>F</mi><mi>b</mi><mo>*</mo></msubsup>"
    assert symbol_element("F_bE") == "<msub><mi>F</mi><mi>bE</mi></msub>"
    assert symbols.parsed("(L_c/r)_lim", "").base == "(L_c/r)"
    assert symbol_element("F_c_perp").endswith('<mrow><mi>c</mi><mo lspace="0" rspace="0">⊥</mo></mrow></msub>')


def test_a_name_without_a_symbol_stands_for_itself() -> None:
    """A name that the table has not got is printed as it is, and cannot be read as markup."""
    assert symbols.symbol("no_such_name").text == "no_such_name"
    assert TypstPen().name(Name('"]#read("x')) == '"\\"]#read(\\"x"'
    assert "<x>" not in symbol_element("<x>")


def test_the_table_of_symbols_holds_no_code() -> None:
    """Its Typst cells go into the source as they are, so none may leave maths: no hash, dollar or escape."""
    cells = tables.column("symbols", "typst")
    assert cells
    assert [cell for cell in cells if set(cell.replace("\\/", "")) & set("#$\\;")] == []


def test_a_clause_may_not_branch_on_a_figure() -> None:
    """A formula with only one of two branches would be a false one, so the recorder refuses."""
    with pytest.raises(TypeError, match="where"):
        bool(Recorder(Name("x")) > 1)
