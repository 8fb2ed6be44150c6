"""The second method, load and resistance factors, against plain sums that share no code with it.

Factors: NDS 2018 Tables 2.3.5, 2.3.6, N3; combinations: ASCE 7-16 2.3.1 (from memory); values: NDS Supplement Table 4A.
"""

import sys
from math import sqrt
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent))

from random_surveys import survey as random_survey

from beamcheck.study.chain import study as studied
from beamcheck.survey.reader import read_text
from beamcheck.takedown.combinations import strength_combinations
from beamcheck.trace import Check, Refer, items

HOUSE = """[study]
title = "two methods"
second_method = "LRFD"
[site]
ground_snow = "30 psf"
[wall]
clear_opening = "9 ft"
ceiling_height = "8 ft"
[[carried]]
name = "floor"
kind = "floor"
span_a = "12 ft"
span_b = "11 ft"
continuity = "lapped"
use = "sleeping rooms"
dead = "12 psf"
[beam]
member = "3-ply 2x12 Douglas Fir-Larch No.2"
position = "flush"
top_edge = "held"
[[post]]
member = "2-ply 2x6 Douglas Fir-Larch No.2"
held = "in wall"
plate = "Hem-Fir"
seat = "cap"
eccentricity = "0 in"
[[post]]
member = "2-ply 2x6 Douglas Fir-Larch No.2"
held = "in wall"
plate = "Hem-Fir"
seat = "cap"
eccentricity = "0 in"
"""
K_F = {"F_b": 2.54, "F_v": 2.88, "F_c": 2.40, "F_c_perp": 1.67, "E_min": 1.76}
PHI = {"F_b": 0.85, "F_v": 0.75, "F_c": 0.90, "F_c_perp": 0.90, "E_min": 0.85}
TIME = 0.8


def checks(text: str) -> dict[str, Check]:
    """The checks of a survey by key; of one key the first."""
    found: dict[str, Check] = {}
    for item in items(studied(read_text(text.encode())).sheet):
        if isinstance(item, Check):
            found.setdefault(item.key, item)
    return found


@pytest.fixture(scope="module")
def house() -> dict[str, Check]:
    """A flush beam under one floor, by both methods."""
    return checks(HOUSE)


def test_the_beam_is_what_a_hand_makes_of_it(house) -> None:
    """Moment and shear of 1.2 D + 1.6 L over F_b and F_v with K_F, phi and 0.8; the plies are 1-1/2 x 11-1/4."""
    b, d, span = 4.5, 11.25, 9 * 12 + 3.0
    w = (1.2 * (12 * 11.5 + 34 * b * d / 144) + 1.6 * 30 * 11.5) / 12
    F_b = 900 * 1.0 * K_F["F_b"] * PHI["F_b"] * TIME
    assert float(house["lrfd.beam.bending_sagging"].ratio) == pytest.approx(w * span**2 / 8 / (b * d**2 / 6) / F_b)
    F_v = 180 * K_F["F_v"] * PHI["F_v"] * TIME
    assert float(house["lrfd.beam.shear"].ratio) == pytest.approx(1.5 * w * span / 2 / (b * d) / F_v)


def test_the_post_is_what_a_hand_makes_of_it(house) -> None:
    """F_c' by C_P of the factored F_c* and E_min'; the plate without a time effect.

    F_c 1350 psi, C_F 1.1, E_min 580,000 psi; 0.822 is the standard's rounding of pi^2/12.
    """
    span, height = 9 * 12 + 3.0, 96.0
    w = (1.2 * (12 * 11.5 + 34 * 4.5 * 11.25 / 144) + 1.6 * 30 * 11.5) / 12
    f_c = w * span / 2 / (3.0 * 5.5)
    star = 1350 * 1.1 * K_F["F_c"] * PHI["F_c"] * TIME
    F_cE = 0.822 * 580_000 * K_F["E_min"] * PHI["E_min"] / (height / 5.5) ** 2
    half = (1 + F_cE / star) / 1.6
    C_P = half - sqrt(half**2 - F_cE / star / 0.8)
    assert float(house["lrfd.post[1].column"].ratio) == pytest.approx(f_c / (star * C_P), rel=1e-9)
    foot = f_c + 34 * height / 1728
    F_perp = 405 * K_F["F_c_perp"] * PHI["F_c_perp"]
    assert float(house["lrfd.post[1].plate"].ratio) == pytest.approx(foot / F_perp, rel=1e-9)


def test_both_methods_differ_by_their_factors_alone(house) -> None:
    """Under dead and live load alone one utilisation over the other is the load factors over K_F phi lambda."""
    dead, live = 12 * 11.5 + 34 * 4.5 * 11.25 / 144, 30 * 11.5
    loads = (1.2 * dead + 1.6 * live) / (dead + live)
    for key, prop, time in (("bending_sagging", "F_b", TIME), ("shear", "F_v", TIME), ("bearing[1]", "F_c_perp", 1.0)):
        one, other = house[f"beam.{key}"], house[f"lrfd.beam.{key}"]
        gained = K_F[prop] * PHI[prop] * time
        assert float(other.ratio) == pytest.approx(float(one.ratio) * loads / gained, rel=1e-9)


def test_combinations_are_those_of_the_loads_that_are_there() -> None:
    """ASCE 7-16 2.3.1 without what does not act, each once; dead load alone keeps the shortest time effect, 0.6."""
    names = {one.name: float(one.C_D.number) for one in strength_combinations("asce7_16", frozenset({"D", "L"}))}
    assert names == {"1.4 D": 0.6, "1.2 D + 1.6 L": 0.8, "1.2 D + L": 0.8}
    roofs = [one.name for one in strength_combinations("asce7_16", frozenset({"D", "L", "S"}))]
    assert roofs == ["1.4 D", "1.2 D + 1.6 L", "1.2 D + 1.6 L + 0.5 S", "1.2 D + L", "1.2 D + L + 1.6 S"]
    later = [one.name for one in strength_combinations("asce7_22", frozenset({"D", "S"}))]
    assert later == ["1.4 D", "1.2 D", "1.2 D + 0.3 S", "1.2 D + S"]


@pytest.mark.parametrize("seed", range(12))
def test_the_second_method_leaves_the_first_alone(seed) -> None:
    """Any house has the same checks by the first method whether or not the second is asked for; each has its twin."""
    text = random_survey(seed)
    asked = text.replace("[study]\n", '[study]\nsecond_method = "LRFD"\n', 1)
    one, both = checks(text), checks(asked)
    twins = {key for key in both if key.startswith("lrfd.")}
    assert {key: float(check.ratio) for key, check in both.items() if key not in twins} == {
        key: float(check.ratio) for key, check in one.items()
    }
    for key in twins:
        first, second = both[key.removeprefix("lrfd.")], both[key]
        assert first.title in second.title
        assert 0.4 * float(first.ratio) <= float(second.ratio) <= 1.6 * float(first.ratio), key


def test_one_method_is_shown_where_no_other_is_asked_for() -> None:
    """Without the key there is no second method; what cannot be taken down has none either."""
    plain = HOUSE.replace('second_method = "LRFD"\n', "")
    assert not any(key.startswith("lrfd.") for key in checks(plain))
    roof = '[[carried]]\nname = "roof"\nkind = "roof"\nspan_a = "9 ft"\nspan_b = "9 ft"\npitch = "6:12"\n'
    bare = HOUSE.replace('ground_snow = "30 psf"\n', "").replace("[beam]", f"{roof}[beam]")
    assert not any(key.startswith("lrfd.") for key in checks(bare))


def test_a_post_that_stops_by_the_first_method_stops_by_the_second() -> None:
    """Six plies are beyond the rules of built-up posts by either method: each says so, none leaves the post out."""
    text = HOUSE.replace("2-ply 2x6 Douglas Fir-Larch No.2", "6-ply 2x6 Douglas Fir-Larch No.2", 1)
    stops = {item.key for item in items(studied(read_text(text.encode())).sheet) if isinstance(item, Refer)}
    assert {"post[1].column", "lrfd.post[1].column"} <= stops
