"""A post with its load off centre, by NDS 2018 15.4.1 on paper: which breadth its plies bring against rolling over."""

import math

import pytest

from beamcheck.catalogue.reading import read_member
from beamcheck.checks.post import AxialCase, PostDesign, every_check
from beamcheck.checks.wood import Conditions
from beamcheck.trace import Check, Value, taken

E_MIN, HEIGHT, DEPTH, OFF, LOAD = 580_000.0, 96.0, 5.5, 0.9, 3000.0


def figure(name: str, number: float, unit: str) -> Value:
    """A figure for a test."""
    return taken(name, number, "a figure for a test", unit=unit)


def across(plies: int, held: str, joined: str) -> Check:
    """The check of a post of 2x6 plies for a load off centre across the beam."""
    text = "2x6 Douglas Fir-Larch No.2" if plies == 1 else f"{plies}-ply 2x6 Douglas Fir-Larch No.2"
    case = AxialCase(figure("P", LOAD, "lb"), figure("C_D", 1.0, "1"), "D + L")
    height, e = figure("h", HEIGHT, "in"), figure("e", OFF, "in")
    member = read_member(text, "post[1]")
    design = PostDesign("post[1]", member, height, (case,), held, joined, e, None, Conditions())
    (check,) = (one for one in every_check(design) if one.key.endswith("eccentric") and "across" in one.title)
    return check


def stability(share: float, c: float) -> float:
    """C_P (c 0.8) or C_L (c 0.95) of the share of the critical stress in the value without it."""
    middle = (1 + share) / (2 * c)
    return middle - math.sqrt(middle**2 - share / c)


def expected(plies: int, rolling: float, along: float | None) -> float:
    """Interaction on paper; rolling: the breadth that C_L counts; along: the post's C_P the other way, if it may."""
    f_c = LOAD / (1.5 * plies * DEPTH)
    F_c_star, F_b_star = 1350 * 1.1, 900 * 1.3
    F_cE = 0.822 * E_MIN / (HEIGHT / DEPTH) ** 2
    C_P = min(stability(F_cE / F_c_star, 0.8), along if along is not None else 1.0)
    F_bE = 1.2 * E_MIN * rolling**2 / (1.84 * HEIGHT * DEPTH)
    C_L = stability(F_bE / F_b_star, 0.95) if rolling < DEPTH else 1.0
    f_b = f_c * 6 * OFF / DEPTH
    return (f_c / F_c_star / C_P) ** 2 + f_b * (1 + 0.234 * f_c / F_cE) / (F_b_star * C_L * (1 - f_c / F_cE))


@pytest.mark.parametrize("plies", [2, 3])
def test_loose_plies_roll_each_by_itself(plies: int) -> None:
    """Plies that nothing joins and no wall holds bend with the breadth of one: C_L of 1-1/2 in, C_P of a lone ply."""
    lone = stability(0.822 * E_MIN / (HEIGHT / 1.5) ** 2 / (1350 * 1.1), 0.8)
    assert across(plies, "free", "not fastened").demand.number == pytest.approx(expected(plies, 1.5, lone))


@pytest.mark.parametrize(("plies", "K_f"), [(2, 0.6), (3, 0.6)])
def test_nailed_plies_roll_together(plies: int, K_f: float) -> None:
    """Nailed plies bend with the breadth of all, and buckle along the joints with K_f 0.6 (15.3.2)."""
    slender = HEIGHT / (1.5 * plies)
    along = K_f * stability(0.822 * E_MIN / slender**2 / (1350 * 1.1), 0.8)
    assert across(plies, "free", "nailed").demand.number == pytest.approx(expected(plies, 1.5 * plies, along))


@pytest.mark.parametrize("plies", [1, 2, 3])
def test_a_wall_holds_loose_plies_together(plies: int) -> None:
    """In a wall the plies cannot roll one by one: the breadth of all counts, and buckling across the beam alone."""
    assert across(plies, "in wall", "not fastened").demand.number == pytest.approx(expected(plies, 1.5 * plies, None))
