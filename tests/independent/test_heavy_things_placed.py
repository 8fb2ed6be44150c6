"""Heavy things on a joist by statics written out: narrow bases, and odd legs off the middle, either way round."""

import pytest

from beamcheck import tables
from beamcheck.catalogue.reading import read_member
from beamcheck.checks.floor import Standing, check_joist
from beamcheck.takedown.combinations import combinations
from beamcheck.trace import Value, taken

SPAN, SPACING, ALONG, WEIGHT = 144.0, 16.0, 60.0, 900.0
DEAD, LIVE = 12.0 * SPACING / 144, 40.0 * SPACING / 144  # lb/in of one joist
SECTION = 1.5 * 9.25**2 / 6


def figure(name: str, number: float, unit: str) -> Value:
    """A figure for a test."""
    return taken(name, number, "a figure for a test", unit=unit)


def standing(legs: float | None, across: float, station: float | None, along: float = ALONG) -> Standing:
    """A thing on 12 ft joists, its middle at a station."""
    return Standing(
        key="heavy[1]",
        joist=read_member("2x10 Douglas Fir-Larch No.2", "heavy[1].joist"),
        span=figure("l", SPAN, "in"),
        spacing=figure("s_o", SPACING, "in"),
        dead=figure("q_D", 12.0, "psf"),
        live=figure("q_L", 40.0, "psf"),
        weight=figure("W_thing", WEIGHT, "lb"),
        along=figure("l_base", along, "in"),
        across=figure("b_base", across, "in"),
        legs=None if legs is None else figure("n_legs", legs, "1"),
        lasting=True,
        station=None if station is None else figure("x_thing", station, "in"),
        combinations=combinations("asce7_16", frozenset({"D", "L"})),
        finishes=(tables.lookup("irc_2021/deflection", member="floors"),),
    )


def bending(at: Standing) -> float:
    """Bending stress of the joist where it is greatest, psi."""
    return next(float(one.demand.number) for one in check_joist(at) if one.key == "heavy[1].bending_sagging")


def greatest(points: list[tuple[float, float]], w: float) -> float:
    """Greatest moment of a simple span under points (force, place) and w all along, looked for every 1/50 in."""

    def moment(x: float) -> float:
        spread = w * x * (SPAN - x) / 2
        return spread + sum(P * min(x, a) * (SPAN - max(x, a)) / SPAN for P, a in points)

    return max(moment(step / 50) for step in range(int(SPAN * 50)))


@pytest.mark.parametrize("station", [40.0, 55.0, 72.0, 98.0])
def test_three_legs_on_one_joist_may_stand_either_way_round(station: float) -> None:
    """Two of three legs at one end of the thing: the joist is checked with those two at the worse of its two ends."""
    P, first, last = WEIGHT / 3, station - ALONG / 2, station + ALONG / 2
    one_way = greatest([(2 * P, first), (P, last)], DEAD + LIVE)
    other_way = greatest([(P, first), (2 * P, last)], DEAD + LIVE)
    found = bending(standing(3.0, across=12.0, station=station))
    assert found * SECTION == pytest.approx(max(one_way, other_way), rel=1e-5)


@pytest.mark.parametrize(("across", "joists"), [(10.0, 1), (31.9, 1), (32.0, 2), (47.0, 2), (48.0, 3)])
def test_a_base_is_shared_by_the_joists_that_are_sure_to_lie_under_it(across: float, joists: int) -> None:
    """A base that covers one joist for sure puts its whole weight on that one; of 32 in at 16 in two take half each."""
    first = (SPAN - ALONG) / 2
    share, pieces = WEIGHT / joists, 2000
    slices = [(share / pieces, first + ALONG * (n + 0.5) / pieces) for n in range(pieces)]
    own = sum(P * min(SPAN / 2, a) * (SPAN - max(SPAN / 2, a)) / SPAN for P, a in slices)
    walked = LIVE * first**2 / 2  # people beside the base alone: R = w a, and R l/2 - w a (l/2 - a/2)
    found = bending(standing(None, across=across, station=SPAN / 2))
    assert found * SECTION == pytest.approx(DEAD * SPAN**2 / 8 + walked + own, rel=1e-5)


@pytest.mark.parametrize("along", [60.0, 80.0, 100.0, 120.0, 143.0])
def test_legs_press_the_bearing_most_from_just_beside_it(along: float) -> None:
    """Of two lines of legs the first may stand just off the bearing: V = w l/2 + P + P (l - c)/l, at the end itself."""
    at = standing(4.0, across=40.0, station=None, along=along)
    found = next(float(one.demand.number) for one in check_joist(at) if one.key == "heavy[1].shear")
    P = WEIGHT / 4
    V = (DEAD + LIVE) * SPAN / 2 + P + P * (SPAN - along) / SPAN
    assert found * 2 * 1.5 * 9.25 / 3 == pytest.approx(V, rel=1e-3)


def test_two_legs_in_line_stand_on_one_joist() -> None:
    """Both legs of a line, 450 lb each, come down on one joist: M = w l^2/8 + P a, a their way from the end."""
    found = bending(standing(2.0, across=40.0, station=SPAN / 2))
    assert found * SECTION == pytest.approx((DEAD + LIVE) * SPAN**2 / 8 + 450 * (SPAN - ALONG) / 2)


def test_a_thing_as_long_as_its_joists_is_still_judged() -> None:
    """Legs over both supports bring nothing into the joist: what is left is the floor's own w l^2/8."""
    found = bending(standing(4.0, across=40.0, station=None, along=SPAN))
    assert found * SECTION == pytest.approx((DEAD + LIVE) * SPAN**2 / 8)
