"""A beam notched over its end bearings: hand sums of NDS 3.4.3.2, the limits of 4.4.3, and what must not change."""

import sys
from pathlib import Path

import pytest

from beamcheck.errors import InputError
from beamcheck.standards import nds_2018 as nds
from beamcheck.study.types import Study
from beamcheck.trace import Check, Note, Refer, items

sys.path.insert(0, str(Path(__file__).parent))

from changed_houses import studied

TEXT = """
[study]
title = "notched"
[wall]
clear_opening = "11 ft 6-1/2 in"
ceiling_height = "8 ft"
[[carried]]
name = "line"
kind = "line"
dead_line = "100 plf"
live_line = "300 plf"
[beam]
member = "4x12 Douglas Fir-Larch No.2"
position = "dropped"
moisture = "dry"
NOTCH
[[post]]
member = "6x6 Douglas Fir-Larch No.1"
seat = "cap"
[[post]]
member = "6x6 Douglas Fir-Larch No.1"
seat = "cap"
"""
D, B = 11.25, 3.5


def made(notch: str, *changes: tuple[str, str]) -> Study:
    """The study of the house with its beam notched, and some of its text changed."""
    return studied(TEXT, ("NOTCH", notch), *changes)


def checks(found: Study) -> dict[str, Check]:
    """Checks of the beam by the last part of their key."""
    return {
        item.key.removeprefix("beam."): item
        for item in items(found.sheet)
        if isinstance(item, Check) and item.key.startswith("beam.")
    }


def test_a_notch_from_below_costs_with_the_cube_of_the_depth_left() -> None:
    """2 in off 11-1/4 of a 4x12 at F_v' 180: 2,626 lb, the printed example, beside half of all the load."""
    check = checks(made('end_notch_bottom = "2 in"'))["shear_notched"]
    assert check.limit.number == pytest.approx(2626, abs=0.5)
    span = 138.5 + 5.5
    w = 400 / 12 + 34 * B * D / 1728
    assert check.demand.number == pytest.approx(w * span / 2)
    assert check.when.startswith("D + L")


@pytest.mark.parametrize(("reach", "depth"), [("0 in", D), ("4 in", D - 2 / 9.25 * 4), ("20 in", 9.25), ("", 9.25)])
def test_a_notch_from_above_costs_by_its_reach(reach: str, depth: float) -> None:
    """What counts is d - (d - d_n)/d_n e; from a reach of d_n on, and where it is not told, the depth that is left."""
    told = f'end_notch_top = "2 in"\nend_notch_reach = "{reach}"' if reach else 'end_notch_top = "2 in"'
    check = checks(made(told))["shear_notched"]
    assert check.limit.number == pytest.approx(2 / 3 * 180 * B * depth)


def test_an_end_may_lose_a_quarter_of_its_depth() -> None:
    """4.4.3: sawn lumber and timbers, from below as from above."""
    for side in ("bottom", "top"):
        assert float(checks(made(f'end_notch_{side} = "2 in"'))["notch"].ratio) == pytest.approx(2 / (D / 4))
    assert checks(made('end_notch_bottom = "3 in"'))["notch"].word == "over"


@pytest.mark.parametrize(
    ("member", "side", "most"),
    [
        ("5-1/8x18 glulam 24F-V4", "bottom", 1.8),
        ("5-1/8x18 glulam 24F-V4", "top", 7.2),
        ("3-1/2x14 LVL", "bottom", 1.4),
        ("3-1/2x14 LVL", "top", 0.0),
    ],
)
def test_glued_wood_is_cut_less_and_asked_about(member: str, side: str, most: float) -> None:
    """5.4.5 and 8.4.1: a tenth of the depth in tension; the product's own report is asked for."""
    found = made(f'end_notch_{side} = "1 in"', ("4x12 Douglas Fir-Larch No.2", member))
    assert checks(found)["notch"].limit.number == pytest.approx(most)
    (asked,) = [item for item in items(found.sheet) if isinstance(item, Refer) and item.key == "beam.notch_asked"]
    assert "report" in asked.ask


def test_the_greatest_notch_of_glulam_is_three_inches() -> None:
    """The lesser of a tenth of the depth and 3 in (5.4.5)."""
    found = made('end_notch_bottom = "1 in"', ("4x12 Douglas Fir-Larch No.2", "6-3/4x36 glulam 24F-V4"))
    assert checks(found)["notch"].limit.number == 3.0


def test_nothing_else_changes() -> None:
    """Bending, deflection, shear away from the end and bearing are those of the whole beam."""
    whole, cut = checks(made("")), checks(made('end_notch_bottom = "1 in"'))
    assert cut.keys() - whole.keys() == {"notch", "shear_notched"}
    assert {key: float(cut[key].ratio) for key in whole} == {key: float(check.ratio) for key, check in whole.items()}


def test_two_notches_and_an_overhang_are_told() -> None:
    """What the rule does not cover, or cannot be, is a fault with its place."""
    with pytest.raises(InputError, match="from both") as error:
        made('end_notch_bottom = "1 in"\nend_notch_top = "1 in"')
    assert error.value.faults[0].where == "beam.end_notch_top"
    with pytest.raises(InputError, match="runs past") as error:
        made('end_notch_bottom = "1 in"\noverhang_left = "6 in"')
    assert error.value.faults[0].where == "beam.end_notch_bottom"
    assert "notch" in checks(made('end_notch_bottom = "1 in"\noverhang_left = "0 in"'))


def test_steel_that_is_coped_is_a_question() -> None:
    """No check of a W shape counts a cut end."""
    found = made('end_notch_bottom = "1 in"', ("4x12 Douglas Fir-Larch No.2", "W8x18"))
    assert "notch" not in checks(found)
    assert "beam.notch_asked" in [item.key for item in items(found.sheet) if isinstance(item, Refer)]


def test_depth_at_a_notch() -> None:
    """What is left of the depth; a notch as deep as the beam leaves next to nothing, and never less."""
    assert nds.depth_at_notch.fn(11.25, 2.0) == 9.25
    assert nds.depth_at_notch.fn(5.0, 6.0) == 0.005
    assert nds.notch_depth.fn(0.25, 12.0) == 3.0


def test_a_reach_that_is_not_told_is_listed_as_assumed() -> None:
    """A notch from above without its reach says what stands in for it; with it, or from below, nothing is assumed."""
    for notch, told in (
        ('end_notch_top = "2 in"', True),
        ('end_notch_top = "2 in"\nend_notch_reach = "3 in"', False),
        ('end_notch_bottom = "2 in"', False),
    ):
        notes = [item.text for item in items(made(notch).sheet) if isinstance(item, Note)]
        assert any(text.startswith("ASSUMED: beam.end_notch_reach") for text in notes) == told
