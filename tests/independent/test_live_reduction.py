"""Live load reduced by area (ASCE 7, 4.7.2): hand sums, its bounds, and where it does not reach."""

import math
from dataclasses import replace

import numpy as np
import pytest

from beamcheck.explore.chain_lanes import chain_lanes
from beamcheck.explore.inputs import with_numbers
from beamcheck.standards import statics
from beamcheck.study.chain import study
from beamcheck.study.find import find
from beamcheck.survey.reader import read_text
from beamcheck.trace import Check, Note, Schedule, Value, items

HOUSE = """
[study]
title = "a test"
[site]
loads = "{loads}"
[wall]
clear_opening = "{opening}"
ceiling_height = "8 ft"
[beam]
member = "4-ply 1-3/4x18 LVL"
position = "{position}"
{beam}
[[post]]
member = "6x6 Douglas Fir-Larch No.1"
stands_on = "pier"
{middle}
[[post]]
member = "6x6 Douglas Fir-Larch No.1"
stands_on = "pier"
[[carried]]
name = "hall"
kind = "floor"
span_a = "{a}"
span_b = "{b}"
continuity = "lapped"
spacing = "16 in"
dead = "12 psf"
live_reduction = "{reduction}"
{more}
"""
PLAIN = {
    "loads": "ASCE 7-16", "opening": "24 ft", "position": "dropped", "beam": "", "middle": "",
    "a": "20 ft", "b": "16 ft", "reduction": "by area", "more": "",
}  # fmt: skip
MIDDLE = '[[post]]\nmember = "6x6 Douglas Fir-Larch No.1"\nstands_on = "pier"\nstation = "{at}"\n'


def made(**given: str):
    """The study of a house with one wide floor."""
    return study(read_text(HOUSE.format(**PLAIN | given).encode()))


def live(found) -> float:
    """Live load of the floor in the take-down, psf."""
    row = find(found, "takedown.table[2]")
    assert isinstance(row, Value)
    return float(dict(row.inputs)["q"].number)


def by_hand(L_o: float, t_w: float, bay: float, floor: float = 0.5) -> float:
    """L_o (0.25 + 15/sqrt(2 A_T)), feet."""
    return L_o * max(floor, min(1.0, 0.25 + 15 / math.sqrt(2 * t_w * bay)))


SPAN = 24 + 5.5 / 12


@pytest.mark.parametrize("loads", ["ASCE 7-16", "ASCE 7-22"])
def test_one_span_by_hand(loads: str) -> None:
    """Joists of 20 and 16 ft on a beam of 24 ft 5-1/2 in: 40 psf become 40 (0.25 + 15/sqrt(2 x 18 x 24.458))."""
    assert live(made(loads=loads)) == pytest.approx(by_hand(40, 18, SPAN))
    assert by_hand(40, 18, SPAN) == pytest.approx(30.22, abs=0.005)


@pytest.mark.parametrize("reduction", ["none", "unknown"])
def test_nothing_is_reduced_that_was_not_asked_for(reduction: str) -> None:
    """The live load stands unless the survey asks for its reduction, and then nothing is told of one."""
    found = made(reduction=reduction)
    assert live(found) == 40.0
    assert not [item for item in items(found.sheet) if isinstance(item, Schedule) and item.key == "takedown.reduced"]


def test_a_small_area_is_not_reduced() -> None:
    """Below 400 ft2 of influence area, K_LL A_T, the live load stays whole."""
    assert live(made(opening="12 ft", a="16 ft", b="16 ft")) == 40.0
    assert 2 * 16 * 12.46 < 400


def test_never_below_half() -> None:
    """However wide the floor, half of the live load stays."""
    assert live(made(opening="60 ft", a="50 ft", b="50 ft")) == 20.0


def test_a_heavy_live_load_stays() -> None:
    """Above 100 psf nothing is reduced (4.7.3); at 100 psf it still is."""
    assert live(made(more='live = "100.5 psf"')) == 100.5
    assert live(made(more='live = "100 psf"')) == pytest.approx(by_hand(100, 18, SPAN))


def test_the_shortest_bay_counts() -> None:
    """On two spans and an overhang the area is that of the shortest of them, for the whole line."""
    assert live(made(middle=MIDDLE.format(at="14 ft"))) == 40.0
    wide = {"a": "45 ft", "b": "45 ft"}
    assert live(made(**wide, middle=MIDDLE.format(at="14 ft"))) == pytest.approx(by_hand(40, 45, SPAN - 14))
    beam = 'overhang_left = "6 ft"'
    assert live(made(**wide, beam=beam)) == pytest.approx(by_hand(40, 45, 6))


@pytest.mark.parametrize(
    ("start", "end", "piece"), [("2 ft", "20 ft", 6.0), ("15 ft", "23 ft", 8.0), ("0 ft", "14 ft", 14.0)]
)
def test_a_part_of_the_beam_counts_as_far_as_it_reaches(start: str, end: str, piece: float) -> None:
    """A floor over part of the line counts with its shortest piece in one bay; bays that it does not reach are none."""
    more = f'from = "{start}"\nto = "{end}"'
    found = made(a="45 ft", b="45 ft", middle=MIDDLE.format(at="14 ft"), more=more)
    assert live(found) == pytest.approx(by_hand(40, 45, piece))


def test_a_stretch_lies_in_one_bay_as_far_as_both_reach() -> None:
    """From 24 to 240 in of the line, a bay from 168 to 300 in has 72 in of it, and one from 300 in on has nothing."""
    assert statics.stretch_in_bay.fn(24.0, 240.0, 168.0, 300.0) == 72.0
    assert statics.stretch_in_bay.fn(24.0, 240.0, 0.0, 168.0) == 144.0
    assert statics.stretch_in_bay.fn(24.0, 240.0, 300.0, 400.0) == 0.0


def test_what_it_changes_is_told() -> None:
    """The take-down shows the live load before and after, in psf and in plf, and the question to the department."""
    found = made()
    table = next(item for item in items(found.sheet) if isinstance(item, Schedule) and item.key == "takedown.reduced")
    name, before, K_LL, A_T, after, w_before, w_after = table.rows[0]
    assert name == "hall"
    assert [cell.number for cell in (before, K_LL, A_T, w_before)] == pytest.approx([40, 2, 18 * SPAN, 720])
    assert (after.number, w_after.number) == pytest.approx((by_hand(40, 18, SPAN), 18 * by_hand(40, 18, SPAN)))
    assert [item for item in items(found.sheet) if isinstance(item, Note) and "building department" in item.text]


def test_a_heavy_load_is_told_to_be_kept() -> None:
    """Where nothing is reduced for the size of the load, the table says so in place of the factor."""
    found = made(more='live = "125 psf"')
    table = next(item for item in items(found.sheet) if isinstance(item, Schedule) and item.key == "takedown.reduced")
    assert table.rows[0][2] == "not reduced: a heavy live load"
    assert table.rows[0][1].number == table.rows[0][4].number == 125


def test_a_hanger_keeps_the_full_load() -> None:
    """One joist gathers little: its hanger is given the live load before reduction."""
    loads = [
        {item.title: item.number for item in items(made(position="flush", reduction=way).sheet)
         if isinstance(item, Value) and "hanger" in item.title}
        for way in ("by area", "none")
    ]  # fmt: skip
    assert loads[0] == loads[1]
    assert len(loads[0]) == 2


def test_lanes_with_a_reduction_are_studies() -> None:
    """Spans and extents drawn anew side by side give in every lane what a study of those figures gives."""
    found = made(a="45 ft", b="45 ft", middle=MIDDLE.format(at="14 ft"), more='from = "2 ft"\nto = "20 ft"')
    found = study(replace(found.survey, beam=replace(found.survey.beam, top_edge="held")))
    numbers = {
        "carried[1].from": np.array([24.0, 100.0, 24.0, 175.0]),
        "carried[1].to": np.array([240.0, 280.0, 165.0, 200.0]),
        "carried[1].span_a": np.array([540.0, 300.0, 540.0, 540.0]),
        "post[2].station": np.array([168.0, 160.0, 170.0, 150.0]),
    }
    lanes = chain_lanes(found, numbers, 4)
    for lane in range(4):
        anew = {where: float(figures[lane]) for where, figures in numbers.items()}
        one = study(with_numbers(found.survey, anew))
        for item in items(one.sheet):
            if isinstance(item, Check) and item.key in lanes and item.key.startswith("beam.b"):
                assert item.ratio == pytest.approx(lanes[item.key].ratio[lane], rel=1e-9), (item.key, lane)
