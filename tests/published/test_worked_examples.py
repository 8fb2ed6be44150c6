"""Whole worked examples of other people: loads on the beam line, its peaks through the clauses, figure by figure.

Each figure is held to half of the last digit that its source prints.
"""

from typing import NamedTuple

import pytest

from beamcheck.beam.model import Line, Load, Point, Spread
from beamcheck.beam.response import Response
from beamcheck.beam.solver import solve
from beamcheck.standards import nds_2018 as nds
from beamcheck.standards import statics
from beamcheck.trace import Check, Given, Trust, Value


def given(name: str, number: float, unit: str) -> Value:
    """A figure of the example's text."""
    return Value(name, number, unit, Given("example", Trust.STATED))


def prints(printed: str, number: float) -> None:
    """Hold a number to half of the last printed digit."""
    half = 0.5 * 10.0 ** -len(printed.partition(".")[2])
    assert number == pytest.approx(float(printed), rel=1e-9, abs=half * (1 + 1e-9)), printed


class Simple(NamedTuple):
    """A simple beam of the examples: its size, span and loads."""

    b: Value
    d: Value
    span: float

    def under(self, *loads: Load) -> Response:
        return solve(Line((0.0, self.span)), loads)

    def uniform(self, w: Value) -> Response:
        return self.under(Spread(0.0, self.span, w.to("lb/in"), w.to("lb/in")))

    def deflection(self, beam: Response, E_adj: Value) -> Value:
        Y = given("Y", beam.down(1.0).value, "lb*in^3")
        return nds.bending_deflection(Y=Y, E_adj=E_adj, I=nds.moment_of_inertia(b=self.b, d=self.d))

    def bending(self, beam: Response) -> Value:
        M = given("M", beam.sagging().value, "lb*in")
        return nds.bending_stress(M=M, S=nds.section_modulus(b=self.b, d=self.d))


def ones(*names: str) -> dict[str, Value]:
    """Factors that the example takes as 1.0."""
    return {name: given(name, 1.0, "1") for name in names}


JOIST = Simple(given("b", 1.5, "in"), given("d", 9.25, "in"), 168.0)


def joist_loads() -> tuple[Value, Value, Value]:
    """Self-weight, dead with self-weight, and live load of the joist, in plf."""
    spacing, k_c = given("t_w", 16.0, "in"), given("k_c", 1.0, "1")
    own = statics.self_weight(gamma=given("gamma", 34.0, "pcf"), A=nds.area(b=JOIST.b, d=JOIST.d))
    dead = statics.line_load(q=given("q", 10.0, "psf"), t_w=spacing, k_c=k_c)
    live = statics.line_load(q=given("q", 40.0, "psf"), t_w=spacing, k_c=k_c)
    return own, given("w", dead.number + own.number, "plf"), live


def joist_bending_value(C_D: float) -> Value:
    """Adjusted bending value of the joist for a load duration."""
    factors = ones("C_M", "C_t", "C_i") | {"C_D": given("C_D", C_D, "1"), "C_F": given("C_F", 1.1, "1")}
    star = nds.bending_star(F_b=given("F_b", 900.0, "psi"), C_r=given("C_r", 1.15, "1"), **factors)
    return nds.bending_sawn(F_b_star=star, **ones("C_L", "C_fu"))


# 2x10 No.2 Douglas Fir-Larch joist, 16 in on centre, 14 ft: worked check case of a review log, hand check, 2026
def test_floor_joist_loads_and_bending() -> None:
    """Take-down, moment, stress, value and utilisation of the joist are those of the hand check."""
    own, dead, live = joist_loads()
    total = given("w", dead.number + live.number, "plf")
    prints("13.875", nds.area(b=JOIST.b, d=JOIST.d).number)
    prints("21.39", nds.section_modulus(b=JOIST.b, d=JOIST.d).number)
    prints("98.93", nds.moment_of_inertia(b=JOIST.b, d=JOIST.d).number)
    for printed, w in (("3.276", own), ("16.61", dead), ("53.33", live), ("69.94", total)):
        prints(printed, w.number)
    beam = JOIST.uniform(total)
    prints("1713.6", beam.sagging().value / 12)
    prints("961.3", JOIST.bending(beam).number)
    prints("1138.5", joist_bending_value(1.0).number)
    prints("0.844", Check("", "", JOIST.bending(beam), joist_bending_value(1.0)).ratio)
    prints("228", JOIST.bending(JOIST.uniform(dead)).number)
    prints("1024.7", joist_bending_value(0.9).number)
    prints("0.223", Check("", "", JOIST.bending(JOIST.uniform(dead)), joist_bending_value(0.9)).ratio)


def test_floor_joist_shear_and_bearing() -> None:
    """Shear at d from the centre of the bearing, reaction and bearing stress are those of the hand check."""
    _, dead, live = joist_loads()
    beam = JOIST.uniform(given("w", dead.number + live.number, "plf"))
    cut = given("V_d", beam.shear(JOIST.d.number, "right"), "lb")
    V = nds.shear_within_depth(V_d=cut, P_d=given("P_d", 0.0, "lb"))
    f_v = nds.shear_stress(V=V, b=JOIST.b, d=JOIST.d)
    F_v_adj = nds.shear(F_v=given("F_v", 180.0, "psi"), **ones("C_D", "C_M", "C_t", "C_i"))
    R = given("R", beam.reactions[0], "lb")
    f_c_perp = nds.bearing_stress(R=R, b=JOIST.b, l_b=given("l_b", 3.5, "in"))
    limit = nds.bearing(F_c_perp=given("F_c_perp", 625.0, "psi"), **ones("C_M", "C_t", "C_i", "C_b"))
    prints("435.7", V.number)
    prints("47.1", f_v.number)
    prints("0.262", Check("", "", f_v, F_v_adj).ratio)
    prints("489.6", R.number)
    prints("93.3", f_c_perp.number)
    prints("0.149", Check("", "", f_c_perp, limit).ratio)


def test_floor_joist_deflection() -> None:
    """Live deflection, and total deflection with K_cr on the dead part, are those of the hand check."""
    _, dead, live = joist_loads()
    E_adj = nds.modulus(E=given("E", 1.6e6, "psi"), **ones("C_M", "C_t", "C_i"))
    of_dead, of_live = (JOIST.deflection(JOIST.uniform(w), E_adj) for w in (dead, live))
    total = nds.total_deflection(K_cr=given("K_cr", 1.5, "1"), delta_LT=of_dead, delta_ST=of_live)
    span = given("l", JOIST.span, "in")
    prints("0.091", of_dead.number)
    prints("0.291", of_live.number)
    prints("577", JOIST.span / of_live.number)
    prints("0.624", Check("", "", of_live, statics.deflection_limit(l=span, n_l=given("n_l", 360, "1"))).ratio)
    prints("0.427", total.number)
    prints("0.610", Check("", "", total, statics.deflection_limit(l=span, n_l=given("n_l", 240, "1"))).ratio)


# American Wood Council, Structural Wood Design Examples, 2015/2018 edition, Example E1.2a, pp. 7-10
def test_select_structural_beam_load_and_deflection() -> None:
    """The point load that the moment of 14,849 lb*ft leaves beside 13.9 plf, and its deflection, are those printed."""
    beam = Simple(given("b", 3.5, "in"), given("d", 15.25, "in"), 240.0)
    own = Spread(0.0, 240.0, 13.9 / 12, 13.9 / 12)
    moment_of_one_pound = beam.under(Point(120.0, 1.0)).sagging().value
    P = (14849 * 12 - beam.under(own).sagging().value) / moment_of_one_pound
    prints("2831", P)
    deflection = beam.deflection(beam.under(own, Point(120.0, P)), given("E_adj", 1.9e6, "psi"))
    prints("0.44", deflection.number)
    prints("545", 240.0 / deflection.number)


# Peurifoy & Oberlender, Formwork for Concrete Structures, 4th ed., Example 5-6, p. 102 (its 1143.5 lb takes 0.153
# for 11/72 and is left out)
def test_shore_beam_shear() -> None:
    """4x6 of 6 ft under 450 plf: shear at the support, and shear stress at d from it, are those printed."""
    beam = Simple(given("b", 3.5, "in"), given("d", 5.5, "in"), 72.0)
    solved = beam.uniform(given("w", 450.0, "plf"))
    prints("1350", solved.shear(0.0, "right"))
    V = given("V", solved.shear(5.5, "right"), "lb")
    prints("89.1", nds.shear_stress(V=V, b=beam.b, d=beam.d).number)


# Benoit, Legrand, Tastet, Calcul des structures en bois (2008), Example 2.3.1, six digits of a second program
@pytest.mark.parametrize(("kilonewtons", "millimetres"), [(0.75, "7.50105"), (1.0, "10.00140")])
def test_metric_joist_bends_and_shears(kilonewtons: float, millimetres: str) -> None:
    """75 x 200 mm of 4.5 m, E 11,000 and G 690 MPa: deflection by bending and shear together, in millimetres."""
    joist = Simple(given("b", 75.0, "mm"), given("d", 200.0, "mm"), 4500 / 25.4)
    solved = joist.uniform(given("w", kilonewtons, "kN/m"))
    M = given("M", solved.sagging().value, "lb*in")
    sixteen_G = given("E_adj", 16 * 690.0, "MPa")
    delta = nds.deflection(
        delta_b=joist.deflection(solved, given("E_adj", 11_000.0, "MPa")),
        delta_s=nds.shear_deflection(M=M, E_adj=sixteen_G, b=joist.b, d=joist.d),
    )
    prints(millimetres, delta.to("mm"))
