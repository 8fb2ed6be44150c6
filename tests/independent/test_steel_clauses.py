"""The steel clauses by another road: theory of elastic buckling, seams between branches, other people's lengths."""

import math
from itertools import pairwise

import pytest

from beamcheck import tables
from beamcheck.standards import aisc360_16 as aisc
from beamcheck.tables import Row

E, G = 29e6, 11.2e6
W_SHAPES = tables.load("sections/steel_w").rows
POSTS = tables.load("sections/steel_posts").rows


def shapes() -> pytest.MarkDecorator:
    """Run a test for each W shape of the table."""
    return pytest.mark.parametrize("shape", W_SHAPES, ids=lambda row: row.text("shape"))


def lengths(shape: Row, F_y: float) -> tuple[float, float]:
    """L_p and L_r of a W shape."""
    r_y, r_ts, J, S_x, h_o = (shape.number(name) for name in ("r_y", "r_ts", "J", "S_x", "h_o"))
    return aisc.length_for_yielding.fn(r_y, E, F_y), aisc.length_for_inelastic.fn(r_ts, E, F_y, J, S_x, h_o)


def lateral(shape: Row, F_y: float, L_b: float, C_b: float = 1.0) -> float:
    """M_n of a W shape by yielding and lateral-torsional buckling."""
    r_ts, J, S_x, h_o = (shape.number(name) for name in ("r_ts", "J", "S_x", "h_o"))
    L_p, L_r = lengths(shape, F_y)
    F_cr = aisc.lateral_critical_stress.fn(C_b, E, L_b, r_ts, J, S_x, h_o)
    M_p = aisc.plastic_moment.fn(F_y, shape.number("Z_x"))
    return aisc.lateral_buckling.fn(M_p, C_b, F_y, S_x, L_b, L_p, L_r, F_cr)


@shapes()
@pytest.mark.parametrize("times", [1.0, 1.5, 3.0])
def test_elastic_buckling_is_timoshenkos_moment(shape: Row, times: float) -> None:
    """F_cr S_x is the critical moment of elastic theory, within what the rounded properties of a shape leave."""
    L = times * lengths(shape, 50_000.0)[1]
    I_y, J, C_w, S_x = (shape.number(name) for name in ("I_y", "J", "C_w", "S_x"))
    theory = math.pi / L * math.sqrt(E * I_y * G * J + (math.pi * E / L) ** 2 * I_y * C_w)
    F_cr = aisc.lateral_critical_stress.fn(1.0, E, L, shape.number("r_ts"), J, S_x, shape.number("h_o"))
    assert F_cr * S_x == pytest.approx(theory, rel=0.012)


@shapes()
@pytest.mark.parametrize("F_y", [36_000.0, 50_000.0])
def test_unbraced_length_has_no_step(shape: Row, F_y: float) -> None:
    """Moment falls from M_p at L_p to 0.7 F_y S_x at L_r, where the elastic branch takes over within 0.2 %."""
    L_p, L_r = lengths(shape, F_y)
    M_p, M_r = F_y * shape.number("Z_x"), 0.7 * F_y * shape.number("S_x")
    assert lateral(shape, F_y, L_p) == M_p
    assert lateral(shape, F_y, L_p * (1 + 1e-9)) == pytest.approx(M_p)
    assert lateral(shape, F_y, L_r) == pytest.approx(M_r)
    assert lateral(shape, F_y, L_r * (1 + 1e-9)) == pytest.approx(M_r, rel=2e-3)
    steps = [lateral(shape, F_y, L_p * (1 + 0.05 * step)) for step in range(200)]
    assert all(later < before for before, later in pairwise(steps[1:]))


def test_moment_gradient_never_lifts_the_moment_above_the_plastic_one() -> None:
    """Whatever C_b, M_n is M_p at most; a uniform moment has C_b = 1."""
    shape = W_SHAPES[0]
    L_p, L_r = lengths(shape, 50_000.0)
    for L_b in (L_p * 1.1, (L_p + L_r) / 2, L_r * 1.05):
        assert lateral(shape, 50_000.0, L_b, 3.0) == 50_000.0 * shape.number("Z_x")
    assert aisc.moment_gradient.fn(7.0, 7.0, 7.0, 7.0) == 1.0


@shapes()
def test_noncompact_flanges_are_those_that_the_table_names(shape: Row) -> None:
    """At 50 ksi a flange of the list is compact or not as its row says; slender is none."""
    slenderness = aisc.flange_slenderness.fn(shape.number("b_f"), shape.number("t_f"))
    compact = slenderness <= aisc.flange_compact.fn(E, 50_000.0)
    assert shape.text("flange") == ("compact" if compact else "noncompact")
    assert slenderness < aisc.flange_noncompact.fn(E, 50_000.0)


def test_flange_buckling_runs_from_the_plastic_moment_to_first_yield() -> None:
    """M_n is M_p at lambda_pf, 0.7 F_y S_x at lambda_rf and midway between midway."""
    M_p, F_y, S_x, low, high = 400_000.0, 50_000.0, 7.0, 9.0, 24.0
    M_r = 0.7 * F_y * S_x
    for slenderness, wanted in ((5.0, M_p), (low, M_p), (high, M_r), ((low + high) / 2, (M_p + M_r) / 2)):
        assert aisc.flange_buckling.fn(M_p, F_y, S_x, slenderness, low, high) == pytest.approx(wanted)
    assert aisc.nominal_moment.fn(3.0, 2.0) == 2.0


def test_one_listed_web_takes_the_greater_safety_factor() -> None:
    """Of the shapes to 12 in only the web of W12X14 is not stocky at 50 ksi (AISC 360-16, user note to G2.1)."""
    limit = aisc.stocky_web.fn(E, 50_000.0)
    assert [row.text("shape") for row in W_SHAPES if row.number("h_tw") > limit] == ["W12X14"]


def test_web_shear_factor_is_one_until_the_web_buckles() -> None:
    """C_v1 is 1 up to 1.10 sqrt(k_v E/F_y) and then falls as one over h/t_w."""
    limit = 1.10 * math.sqrt(5.34 * E / 50_000.0)
    assert aisc.web_shear_factor.fn(limit * 0.9, 5.34, E, 50_000.0) == 1.0
    assert aisc.web_shear_factor.fn(limit * 2, 5.34, E, 50_000.0) == pytest.approx(0.5)


def test_web_crippling_has_no_step_and_doubles_away_from_the_end() -> None:
    """Eq. J10-5a and J10-5b meet at l_b/d = 0.2; a short bearing inside the span carries twice the one at the end."""
    shape = (50_000.0, E, 12.2, 0.23, 0.38)
    seam = 0.2 * 12.2
    before, after = (aisc.web_crippling_end.fn(*shape, seam * (1 + sign * 1e-9)) for sign in (-1, 1))
    assert before == pytest.approx(after, rel=1e-6)
    assert aisc.web_crippling_inside.fn(*shape, 2.0) == pytest.approx(2 * aisc.web_crippling_end.fn(*shape, 2.0))


def test_web_crippling_gives_back_the_bearing_length_of_an_example() -> None:
    """W21x68, A992, 9 kip/ft (half dead, half live) on 15 ft 10 in: Eq. J10-5a asks for a bearing 2.59 in long.

    Teaching example of a beam bearing plate, step 3; load and resistance factors, phi 0.75.
    """
    reaction = (1.2 * 4500 + 1.6 * 4500) * (15 + 10 / 12) / 2
    low, high = (0.75 * aisc.web_crippling_end.fn(50_000.0, E, 21.1, 0.43, 0.685, l_b) for l_b in (2.585, 2.595))
    assert low <= reaction <= high


def test_web_yielding_spreads_two_and_a_half_to_one() -> None:
    """A bearing inside spreads through the fillet both ways, at the end one way."""
    F_y, t_w, k, l_b = 36_000.0, 0.26, 0.655, 3.5
    inside, end = aisc.web_yielding_inside.fn(F_y, t_w, k, l_b), aisc.web_yielding_end.fn(F_y, t_w, k, l_b)
    assert inside - end == pytest.approx(2.5 * k * F_y * t_w)
    assert end == pytest.approx(F_y * t_w * (l_b + 2.5 * k))
    assert aisc.allowable_bearing.fn(end, 1.5) == pytest.approx(end / 1.5)


def test_bearing_plate_reaches_its_plastic_moment_over_omega() -> None:
    """At the thickness found, the cantilever's moment is F_y t^2/4 over Omega for each inch of plate."""
    l_c, F_y, omega = aisc.bearing_cantilever.fn(8.0, 1.1), 36_000.0, 1.67
    f_p = aisc.bearing_pressure.fn(20_000.0, 8.0, 5.5)
    t = aisc.bearing_plate_thickness.fn(l_c, f_p, F_y, omega)
    assert f_p * l_c**2 / 2 == pytest.approx(F_y * t**2 / 4 / omega)
    assert aisc.bearing_cantilever.fn(1.0, 1.1) == 0.0


def test_bearing_on_concrete_gains_at_most_twofold() -> None:
    """Confinement counts as the root of the areas' ratio, up to two."""
    plain = aisc.bearing_on_concrete.fn(3000.0, 30.0, 30.0)
    assert plain == pytest.approx(0.85 * 3000 * 30)
    assert aisc.bearing_on_concrete.fn(3000.0, 30.0, 67.5) == pytest.approx(1.5 * plain)
    assert aisc.bearing_on_concrete.fn(3000.0, 30.0, 3000.0) == pytest.approx(2 * plain)
    assert aisc.allowable_on_concrete.fn(plain, 2.31) == pytest.approx(plain / 2.31)


def test_column_curve_meets_at_its_seam_and_goes_to_eulers_load() -> None:
    """Stocky columns yield, slender ones bear 0.877 of Euler's stress, and both rules agree between."""
    F_y = 46_000.0
    seam = 4.71 * math.sqrt(E / F_y)
    stresses = [
        aisc.column_critical_stress.fn(F_y, E, s_r, aisc.elastic_buckling.fn(E, s_r))
        for s_r in (seam * (1 - 1e-9), seam * (1 + 1e-9), 1.0, 190.0)
    ]
    assert stresses[0] == pytest.approx(stresses[1], rel=2e-3)
    assert stresses[2] == pytest.approx(F_y, rel=1e-3)
    assert stresses[3] == pytest.approx(0.877 * math.pi**2 * E / 190.0**2)


def test_walls_that_buckle_first_are_the_thinnest_of_the_broad_tubes() -> None:
    """Of the listed posts three 1/8 in tubes have slender walls at their lower grade, and no pipe has."""
    slender = []
    for row in POSTS:
        b, t, F_y = row.number("width"), row.number("t_des"), row.number("F_y") * 1000
        if row.text("shape").startswith("Pipe"):
            ratio = aisc.wall_slenderness_round.fn(b, t) / aisc.wall_limit_round.fn(E, F_y)
        else:
            ratio = aisc.wall_slenderness_square.fn(b, t) / aisc.wall_limit_square.fn(E, F_y)
        if ratio > 1:
            slender.append(row.text("shape"))
    assert slender == ["HSS4-1/2X4-1/2X1/8", "HSS5X5X1/8", "HSS6X6X1/8"]
    assert aisc.wall_limit_round.fn(E, 35_000.0) == pytest.approx(91.1, abs=0.05)
    assert aisc.wall_limit_square.fn(E, 46_000.0) == pytest.approx(35.2, abs=0.05)


def test_steel_deflects_as_theory_says_and_does_not_creep() -> None:
    """Five w l^4/384 E I of a simple span; dead and live parts add up as they are."""
    w, l, I_x = 100.0, 192.0, 61.9
    delta_b = aisc.deflection.fn(5 * w * l**4 / 384, E, I_x)
    assert delta_b == pytest.approx(5 * w * l**4 / (384 * E * I_x))
    assert aisc.total_deflection.fn(0.25, 0.5) == 0.75


FACTORS = {
    ("F2", "L_p"): aisc.length_for_yielding.fn(1.0, 1.0, 1.0),
    ("F2", "L_r"): aisc.length_for_inelastic.fn(1.0, 0.7, 1.0, 1e12, 1.0, 1.0) / math.sqrt(2e12),
    ("F2", "F_cr inner"): (aisc.lateral_critical_stress.fn(1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0) / math.pi**2) ** 2 - 1,
    ("F3", "lambda_pf"): aisc.flange_compact.fn(1.0, 1.0),
    ("F3", "lambda_rf"): aisc.flange_noncompact.fn(1.0, 1.0),
    ("G2", "stocky web"): aisc.stocky_web.fn(1.0, 1.0),
    ("G2", "C_v1"): aisc.web_shear_factor.fn(2.0, 1.0, 1.0, 1.0) * 2,
    ("G2", "share of F_y"): aisc.nominal_shear.fn(1.0, 1.0, 1.0, 1.0),
    ("J10 yielding", "k, end"): aisc.web_yielding_end.fn(1.0, 1.0, 1.0, 0.0),
    ("J10 yielding", "k, interior"): aisc.web_yielding_inside.fn(1.0, 1.0, 1.0, 0.0),
    ("J10 crippling", "interior"): aisc.web_crippling_inside.fn(1.0, 1.0, 1.0, 1.0, 1.0, 0.0),
    ("J10 crippling", "end"): aisc.web_crippling_end.fn(1.0, 1.0, 1.0, 1.0, 1.0, 0.0),
    ("E3", "base"): aisc.column_critical_stress.fn(1.0, 1e6, 1.0, 1.0),
    ("E3", "elastic"): aisc.column_critical_stress.fn(1.0, 1.0, 10.0, 1.0),
    ("J8", "share of f_c"): aisc.bearing_on_concrete.fn(1.0, 1.0, 1.0),
    ("J8", "area ratio most"): aisc.bearing_on_concrete.fn(1.0, 1.0, 100.0) / 0.85,
}


@pytest.mark.parametrize(("clause", "item"), FACTORS, ids=lambda text: text)
def test_constants_are_those_of_the_table(clause: str, item: str) -> None:
    """A coefficient that the clause holds and the table lists is one and the same."""
    row = tables.lookup("aisc360_16/factors", clause=clause, item=item)
    assert FACTORS[clause, item] == pytest.approx(row.number("value"), rel=1e-5)
