"""Pipe and square tube off their centre by another road: strips, the listed shapes, exact beam columns, a hand sum."""

import math
import sys
from pathlib import Path

import pytest

from beamcheck import tables
from beamcheck.catalogue.steel import read_steel
from beamcheck.checks.post import AxialCase
from beamcheck.checks.steel_post import SteelPostDesign, check_steel_post
from beamcheck.standards import aisc360_16 as aisc
from beamcheck.study import registers
from beamcheck.tables import Row
from beamcheck.trace import Check, Value, ancestry, items, taken

sys.path.insert(0, str(Path(__file__).parent))

from changed_houses import studied

E = 29e6
POSTS = tables.load("sections/steel_posts").rows
STRIPS = 20_000


def posts() -> pytest.MarkDecorator:
    """Run a test for each pipe and tube of the table."""
    return pytest.mark.parametrize("shape", POSTS, ids=lambda row: row.text("shape"))


def width(shape: Row, y: float) -> float:
    """Breadth of steel at a height y above the middle of a pipe, or of a tube with corners of 2 t and t."""
    b, t = shape.number("width"), shape.number("t_des")
    if shape.text("shape").startswith("Pipe"):
        outer, inner = (2 * math.sqrt(max(0.0, r**2 - y**2)) for r in (b / 2, b / 2 - t))
        return outer - inner

    def across(half: float, corner: float) -> float:
        if y >= half:
            return 0.0
        into = max(0.0, y - (half - corner))
        return 2 * (half - corner + math.sqrt(corner**2 - into**2))

    return across(b / 2, 2 * t) - across(b / 2 - t, t)


def summed(shape: Row, power: int) -> float:
    """Sum over strips of breadth times height to a power, both halves."""
    h = shape.number("width") / 2 / STRIPS
    return sum(2 * h * width(shape, (k + 0.5) * h) * ((k + 0.5) * h) ** power for k in range(STRIPS))


@posts()
def test_the_strips_are_the_listed_shape(shape: Row) -> None:
    """Area and moment of inertia of the strips are those of the table, to what its rounded figures leave."""
    assert summed(shape, 0) == pytest.approx(shape.number("A"), rel=0.012)
    assert summed(shape, 2) == pytest.approx(shape.number("I_x"), rel=0.012)


@posts()
def test_plastic_modulus_is_twice_the_first_moment_of_half_the_section(shape: Row) -> None:
    """Z of a doubly symmetric shape is the sum of its strips times their distance from the middle."""
    b, t = shape.number("width"), shape.number("t_des")
    pipe = shape.text("shape").startswith("Pipe")
    clause = aisc.plastic_modulus_round if pipe else aisc.plastic_modulus_square
    assert clause.fn(b, t) == pytest.approx(summed(shape, 1), rel=5e-4)
    assert 1.1 < clause.fn(b, t) / shape.number("S_x") < 1.6


# AISC Steel Construction Manual, Tables 1-12 and 1-14: Z of some shapes, in^3. From memory
PRINTED = {
    "Pipe 3STD": "2.19", "Pipe 3-1/2STD": "3.03", "Pipe 4STD": "4.05", "Pipe 3XS": "2.91", "Pipe 4XS": "5.53",
    "HSS3X3X1/4": "2.48", "HSS3X3X3/8": "3.25", "HSS4X4X1/8": "2.56", "HSS4X4X1/4": "4.69", "HSS6X6X3/8": "15.8",
}  # fmt: skip


@pytest.mark.parametrize("size", PRINTED)
def test_plastic_modulus_is_that_of_the_manual(size: str) -> None:
    """To half a digit and one more: the manual's walls and radii are rounded too."""
    shape = tables.lookup("sections/steel_posts", shape=size)
    clause = aisc.plastic_modulus_round if size.startswith("Pipe") else aisc.plastic_modulus_square
    step = 10.0 ** -len(PRINTED[size].partition(".")[2])
    assert clause.fn(shape.number("width"), shape.number("t_des")) == pytest.approx(float(PRINTED[size]), abs=step)


def test_walls_that_are_not_compact_lose_moment_from_their_limit_on() -> None:
    """A tube keeps M_p up to 1.12 sqrt(E/F_y) and falls to about F_y S at 1.40; a pipe meets M_p at 0.07 E/F_y."""
    F_y, S = 46_000.0, 10.0
    M_p = 1.2 * F_y * S
    root = math.sqrt(E / F_y)
    assert aisc.moment_of_tube.fn(M_p, F_y, S, 1.0 * root, E) == M_p
    assert aisc.moment_of_tube.fn(M_p, F_y, S, 1.12 * root, E) == pytest.approx(M_p, rel=1e-3)
    assert aisc.moment_of_tube.fn(M_p, F_y, S, 1.40 * root, E) == pytest.approx(F_y * S, rel=1e-3)
    seam = 0.07 * E / F_y
    assert aisc.moment_of_pipe.fn(M_p, F_y, S, seam, E) == M_p
    assert aisc.moment_of_pipe.fn(2 * F_y * S, F_y, S, seam * 1.5, E) == pytest.approx(1.2 * F_y * S)


@pytest.mark.parametrize("share", [0.05, 0.3, 0.5, 0.8, 0.95])
def test_the_amplifier_is_never_less_than_the_exact_beam_column(share: float) -> None:
    """A post bent at one end holds at most M/sin(kL) anywhere (theory of elasticity); with C_m = 1 the rule gives more.

    kL = pi sqrt(P/P_e); up to half of pi the moment is greatest at the end itself.
    """
    kL = math.pi * math.sqrt(share)
    exact = 1.0 if kL <= math.pi / 2 else 1 / math.sin(kL)
    rule = aisc.amplifier.fn(1.0, 1.0, share * 1000.0, 1000.0)
    assert rule >= exact
    assert rule == pytest.approx(1 / (1 - share))


def test_a_load_beyond_eulers_has_no_end() -> None:
    """At P_e1 over alpha and above the moment grows beyond any limit, and so does the interaction."""
    B_1 = aisc.amplifier.fn(1.0, 1.6, 70_000.0, 100_000.0)
    M_r = aisc.eccentric_moment.fn(B_1, 70_000.0, 0.5)
    assert aisc.combined.fn(70_000.0, 80_000.0, M_r, 50_000.0) > 1e5


def test_both_branches_of_the_interaction_meet() -> None:
    """At a fifth of the axial strength H1-1a is 0.2 + 8/9 m and H1-1b 0.1 + m: one where the post is full."""
    below, above = (aisc.combined.fn(share, 1.0, 0.9, 1.0) for share in (0.2 - 1e-12, 0.2))
    assert (below, above) == (pytest.approx(1.0), pytest.approx(1.0))
    assert aisc.combined.fn(0.6, 1.0, 0.45, 1.0) == pytest.approx(1.0)
    assert aisc.combined.fn(0.1, 1.0, 0.5, 1.0) == pytest.approx(0.55)
    assert aisc.combined.fn(0.7, 1.0, 0.0, 1.0) == 0.7


def found(text: str, height: float, load: float, e: float | None) -> Check:
    """The check of a post with its load off centre."""
    member = read_steel(text, "post[1].member")
    assert member is not None
    case = AxialCase(taken("P", load, "", unit="lb"), taken("C_D", 1.0, ""), "D + L")
    seat: Value | None = None if e is None else taken("e", e, "", unit="in")
    made = check_steel_post(SteelPostDesign("post[1]", member, taken("h", height, "", unit="in"), (case,), seat))
    return next(item for item in made if isinstance(item, Check) and item.key == "post[1].eccentric")


def test_pipe_off_centre_against_a_hand_sum() -> None:
    """Pipe 3 standard, 8 ft, 12 kip 1 in off centre, every step by hand.

    F_e = 42.5 ksi, P_n/1.67 = 30.7 kip; Z = 2.19, M_n/1.67 = 45.9 kip*in; P_e1 = 88.5 kip, B_1 = 1.277.
    """
    F_e = math.pi**2 * E / (96 / 1.17) ** 2
    P_c = 0.658 ** (35_000 / F_e) * 35_000 * 2.07 / 1.67
    M_c = 35_000 * (3.5**3 - (3.5 - 0.402) ** 3) / 6 / 1.67
    M_r = 12_000 * 1.0 / (1 - 1.6 * 12_000 / (math.pi**2 * E * 2.85 / 96**2))
    check = found("Pipe 3STD", 96.0, 12_000.0, 1.0)
    assert float(check.ratio) == pytest.approx(12_000 / P_c + 8 / 9 * M_r / M_c)
    assert float(check.ratio) == pytest.approx(0.39 + 8 / 9 * 1.277 * 12 / 45.9, abs=0.005)


def test_a_seat_that_nobody_measured_is_a_sixth_of_the_side_off_centre() -> None:
    """The register's share stands in, as for posts of wood; measured on the axis, the load is the column's alone."""
    assumed, told = found("HSS4X4X1/4", 120.0, 20_000.0, None), found("HSS4X4X1/4", 120.0, 20_000.0, 4 / 6)
    assert float(assumed.ratio) == pytest.approx(float(told.ratio))
    on_axis = found("HSS4X4X1/4", 120.0, 20_000.0, 0.0)
    assert float(on_axis.ratio) < float(assumed.ratio)
    slender = 120 / 1.52
    P_c = 0.658 ** (46_000 / (math.pi**2 * E / slender**2)) * 46_000 * 3.37 / 1.67
    assert float(on_axis.ratio) == pytest.approx(20_000 / P_c)


def slope() -> float:
    """How fast a tube loses moment as its wall grows more slender, where F_y, E and M_p are 1 and S is nothing."""
    low, high = (aisc.moment_of_tube.fn(1.0, 1.0, 0.0, slender, 1.0) for slender in (2.0, 3.0))
    return low - high


FACTORS = {
    ("F7", "noncompact slope"): slope(),
    ("F7", "noncompact start"): aisc.moment_of_tube.fn(1.0, 1.0, 0.0, 2.0, 1.0) - 1 + 2 * slope(),
    ("F8", "noncompact wall"): aisc.moment_of_pipe.fn(1e9, 1.0, 1.0, 1.0, 1.0) - 1,
    ("H1", "share of bending"): aisc.combined.fn(1.0, 1.0, 1.0, 1.0) - 1,
    ("Appendix 8", "C_m"): aisc.amplifier.fn(1.0, 1.6, 0.0, 1.0),
}


@pytest.mark.parametrize(("clause", "item"), FACTORS, ids=lambda text: text)
def test_constants_are_those_of_the_table(clause: str, item: str) -> None:
    """A coefficient that the clause holds and the table lists is one and the same."""
    row = tables.lookup("aisc360_16/factors", clause=clause, item=item)
    assert FACTORS[clause, item] == pytest.approx(row.number("value"), rel=1e-6)


def test_seams_are_those_of_the_table() -> None:
    """A pipe begins to lose moment at the listed E/F_y, and H1-1a begins at the listed share of the axial strength."""
    compact = tables.lookup("aisc360_16/factors", clause="F8", item="compact wall").number("value")
    low, high = (aisc.moment_of_pipe.fn(1e3, 1.0, 1e-9, compact * (1 + d), 1.0) for d in (-1e-9, 1e-9))
    assert (low, high < 1e3) == (1e3, True)
    seam = tables.lookup("aisc360_16/factors", clause="H1", item="seam").number("value")
    low, high = (aisc.combined.fn(seam * (1 + d), 1.0, 0.0, 1.0) for d in (-1e-9, 1e-9))
    assert high == pytest.approx(2 * low)


HOUSE = """
[study]
title = "steel"
[wall]
clear_opening = "14 ft"
ceiling_height = "8 ft"
[[carried]]
name = "line"
kind = "line"
dead_line = "150 plf"
live_line = "400 plf"
[beam]
member = "W8x18 A992"
position = "dropped"
top_edge = "not held"
[[post]]
member = "Pipe 3STD"
eccentricity = "1/2 in"
[[post]]
member = "HSS3X3X1/4"
"""


def test_what_is_taken_as_one_is_listed_with_its_reason() -> None:
    """C_b of the beam's lateral buckling and C_m of the posts stand among the factors of 1.0."""
    listed = {value.name: value.origin for value in registers.ones(studied(HOUSE))}
    assert "gradient is not counted" in listed["C_b_ltb"].reason
    assert "the greatest that it may be" in listed["C_m"].reason


def test_the_seats_own_measure_comes_to_the_post() -> None:
    """Of two like ends the measured half inch is what the pipe is bent by; the tube's is a sixth of its side."""
    checks = [item for item in items(studied(HOUSE).sheet) if isinstance(item, Check) and ".eccentric" in item.key]
    told = {check.key: {value.name: value for value in ancestry(check.demand)} for check in checks}
    assert told["post[1].eccentric"]["eccentricity"].to("in") == 0.5
    assert told["post[2].eccentric"]["e"].to("in") == pytest.approx(3 / 6)
