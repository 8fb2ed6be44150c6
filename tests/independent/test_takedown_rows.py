"""Rows of the take-down one by one: joists of one side, parts of the beam, loads given outright, roofs by warmth."""

from itertools import pairwise

import numpy as np
import pytest

from beamcheck.survey.model import Carried, Site
from beamcheck.takedown.carried import sources
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.extent import shortest_stretch
from beamcheck.takedown.snow import roof_snow
from beamcheck.takedown.sources import Reach
from beamcheck.trace import Value, taken


def figure(name: str, number: float, unit: str) -> Value:
    """A figure for a test."""
    return taken(name, number, "a figure for a test", unit=unit)


def site(warmth: str = "heated", surface: str = "other", snow: float = 50.0) -> Site:
    """A partly exposed place with so much snow on the ground."""
    p_g, q_allow = figure("p_g", snow, "psf"), figure("q_allow", 1500.0, "psf")
    return Site("ASCE 7-16", p_g, "partly exposed", warmth, surface, q_allow)


ENDS = figure("x_a", -12.0, "in"), figure("x_b", 168.0, "in")
BEAM = Reach(figure("l", 180.0, "in"), ENDS[0], (ENDS,))


def rows(kind: str, beam: Reach = BEAM, **told: Value | str | None) -> dict[str, float]:
    """The rows of one item by load type: plf, or lb."""
    nothing = dict.fromkeys(Carried.__dataclass_fields__)
    item = Carried(**{**nothing, "where": "carried[1]", "name": kind, "kind": kind, **told})
    found = {}
    for row in sources(item, site(), beam):
        load = row.w or row.P
        assert load is not None
        found[row.load_type] = float(load.number)
    return found


@pytest.mark.parametrize("continuity", ["one piece", "unknown", "lapped"])
@pytest.mark.parametrize("feet", [(14.0, 0.0), (0.0, 14.0)])
def test_joists_of_one_side_bring_half_of_their_load(continuity: str, feet: tuple[float, float]) -> None:
    """Joists that only one side has cannot run through: 14 ft bring 7 ft of 12 + 40 psf, whatever is said of them."""
    spans = {"span_a": figure("s_a", feet[0], "ft"), "span_b": figure("s_b", feet[1], "ft")}
    found = rows("floor", use="other rooms", continuity=continuity, dead=figure("q_D", 12.0, "psf"), **spans)
    assert found == {"D": pytest.approx(12 * 7), "L": pytest.approx(40 * 7)}


@pytest.mark.parametrize(
    ("start", "end", "feet"), [(None, None, 15.0), (24.0, None, 12.0), (None, 132.0, 12.0), (24.0, 132.0, 9.0)]
)
def test_a_roof_over_a_part_of_the_beam_gathers_that_part(start: float | None, end: float | None, feet: float) -> None:
    """20 psf x (1.2 - 0.001 A), at least 12 (ASCE 7-16 4.8.2): 40 ft on half of 9 to 15 ft, as an end post gathers."""
    spans = {"span_a": figure("s_a", 40.0, "ft"), "span_b": figure("s_b", 40.0, "ft")}
    extent = {"start": start and figure("x_a", start, "in"), "end": end and figure("x_b", end, "in")}
    found = rows("roof", dead=figure("q_D", 15.0, "psf"), pitch=figure("theta", 0.0, "deg"), **spans, **extent)
    assert found["Lr"] == pytest.approx(20 * min(1.0, 1.2 - 0.001 * 40 * feet / 2) * 40)
    assert found["D"] == pytest.approx(15 * 40)


@pytest.mark.parametrize(
    ("stations", "psf"),
    [
        ((0.0, 1200.0), 12.0),  # 23.6 ft on half of 100 ft: 1180 ft2, the least there is
        ((0.0, 600.0, 1200.0), 12.2),  # on half of 50 ft: 590 ft2
        ((0.0, 300.0, 1200.0), 18.1),  # on half of the shorter bay, 25 ft: 295 ft2
        ((0.0, 100.0, 194.0, 283.5), 20.0),  # three bays of 7.5 to 8.3 ft: 88 ft2, never reduced
    ],
)
def test_roof_live_load_goes_by_half_of_the_shortest_bay(stations: tuple[float, ...], psf: float) -> None:
    """A beam gathers one bay, and an end post half of it: R_1 of that, whatever lies on the bays beside (4.8.2)."""
    posts = [figure("x", station, "in") for station in stations]
    beam = Reach(figure("l", stations[-1], "in"), posts[0], tuple(pairwise(posts)))
    spans = {"span_a": figure("s_a", 23.6, "ft"), "span_b": figure("s_b", 23.6, "ft")}
    found = rows("roof", beam, dead=figure("q_D", 15.0, "psf"), pitch=figure("theta", 0.0, "deg"), **spans)
    assert found["Lr"] == pytest.approx(psf * 23.6)


POINTS = {"D": "dead_load", "L": "live_load", "Lr": "roof_live_load", "S": "snow_load"}
LINES = {"D": "dead_line", "L": "live_line", "Lr": "roof_live_line", "S": "snow_line"}


@pytest.mark.parametrize(("kind", "names", "unit"), [("point", POINTS, "lb"), ("line", LINES, "plf")])
@pytest.mark.parametrize("types", [("D",), ("L", "S"), ("D", "L", "Lr", "S"), ("Lr",)])
def test_loads_given_outright_stay_what_they_are(
    kind: str, names: dict[str, str], unit: str, types: tuple[str, ...]
) -> None:
    """A load told by its type comes down as that type, and no other row comes with it."""
    loads = {one: 100.0 * number for number, one in enumerate(types, 1)}
    assert rows(kind, **{names[one]: figure("w", load, unit) for one, load in loads.items()}) == loads


SLOPE_FACTORS = {  # ASCE 7-16 Figure 7.4-1: full up to, and the run to nothing at 70 degrees
    ("heated", "other"): (30.0, 40.0),
    ("heated", "slippery"): (5.0, 65.0),
    ("cold ventilated", "other"): (37.5, 32.5),
    ("cold ventilated", "slippery"): (10.0, 60.0),
    ("unheated", "other"): (45.0, 25.0),
    ("unheated", "slippery"): (15.0, 55.0),
}
THERMAL = {"heated": 1.0, "cold ventilated": 1.1, "unheated": 1.2}


@pytest.mark.parametrize("angle", [20.0, 36.0, 42.0, 60.0, 75.0])
@pytest.mark.parametrize(("warmth", "surface"), SLOPE_FACTORS)
def test_snow_slides_off_by_warmth_and_surface(warmth: str, surface: str, angle: float) -> None:
    """0.7 C_t p_g of snow, full up to an angle and straight to nothing at 70 degrees (Eq. 7.3-1, Figure 7.4-1)."""
    full, run = SLOPE_FACTORS[warmth, surface]
    C_s = min(1.0, max(0.0, 1 - (angle - full) / run))
    found = roof_snow(site(warmth, surface), figure("theta", angle, "deg"))
    assert found.number == pytest.approx(C_s * 0.7 * THERMAL[warmth] * 50)


@pytest.mark.parametrize(
    ("angle", "snow", "psf"), [(14.9, 20.0, 20.0), (15.0, 20.0, 14.0), (0.0, 40.0, 28.0), (5.0, 10.0, 10.0)]
)
def test_the_least_snow_is_of_low_slopes(angle: float, snow: float, psf: float) -> None:
    """Below 15 degrees the ground snow up to 20 psf is the least; from 15 degrees on there is none (7.3.4)."""
    assert roof_snow(site(snow=snow), figure("theta", angle, "deg")).number == pytest.approx(psf)


@pytest.mark.parametrize(
    ("present", "names"),
    [
        ({"D"}, {"D"}),
        ({"L"}, {"D", "D + L"}),
        ({"D", "S"}, {"D", "D + S"}),
        ({"D", "L", "S"}, {"D", "D + L", "D + S", "D + 0.75 L + 0.75 S"}),
    ],
)
def test_a_combination_needs_every_load_that_it_names(present: set[str], names: set[str]) -> None:
    """None borrows the short duration of a load that does not act; dead load always does (ASCE 7-16 2.4.1)."""
    found = {one.name: float(one.C_D.number) for one in combinations("asce7_16", frozenset(present))}
    assert {name for name in found if "0.6" not in name} == names
    assert found["D"] == 0.9
    later = {name: C_D for name, C_D in found.items() if name != "D" and "0.6" not in name}
    assert later == {name: 1.15 if "S" in name else 1.0 for name in later}


@pytest.mark.parametrize(
    ("start", "end", "shortest"),
    [
        ([0.0, 0.0], [50.0, 180.0], [50.0, 80.0]),
        ([120.0, 0.0], [180.0, 180.0], [60.0, 80.0]),
        ([20.0, 5.0], [90.0, 130.0], [70.0, 30.0]),
    ],
)
def test_the_shortest_piece_is_found_for_each_of_many_beams(
    start: list[float], end: list[float], shortest: list[float]
) -> None:
    """On bays of 100 and 80 in a bay that the load does not reach in one beam counts in another that it does."""
    posts = [figure("x", station, "in") for station in (0.0, 100.0, 180.0)]
    beam = Reach(figure("l", 180.0, "in"), posts[0], ((posts[0], posts[1]), (posts[1], posts[2])))
    ends = {"start": np.array(start), "end": np.array(end)}
    for picked, expected in ((slice(None), shortest), *((number, shortest[number]) for number in (0, 1))):
        extent = {name: Value("x", figures[picked], "in", posts[0].origin) for name, figures in ends.items()}
        nothing = dict.fromkeys(Carried.__dataclass_fields__)
        found = shortest_stretch(Carried(**{**nothing, "where": "carried[1]", "kind": "floor", **extent}), beam)
        assert np.asarray(found.number) == pytest.approx(np.asarray(expected))
