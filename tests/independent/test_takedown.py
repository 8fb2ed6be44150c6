"""The take-down of whole surveys against hand sums and against other people's printed figures."""

import pytest

from beamcheck.study.chain import study
from beamcheck.survey.reader import read_text
from beamcheck.trace import Schedule, Value, items

HEAD = """
[study]
title = "a test"
[site]
loads = "{loads}"
ground_snow = "{snow}"
exposure = "partly exposed"
roof_warmth = "{warmth}"
[wall]
clear_opening = "{opening}"
ceiling_height = "8 ft"
[beam]
member = "3-ply 1-3/4x14 LVL"
position = "dropped"
top_edge = "held"
{beam}
[[post]]
member = "4x6 Douglas Fir-Larch No.2"
held = "in wall"
stands_on = "pier"
[[post]]
member = "4x6 Douglas Fir-Larch No.2"
held = "in wall"
stands_on = "pier"
"""


def made(carried: str, loads="ASCE 7-16", snow="30 psf", warmth="heated", opening="13 ft 6 in", beam=""):
    """Study a small house with what it carries."""
    text = HEAD.format(loads=loads, snow=snow, warmth=warmth, opening=opening, beam=beam) + carried
    return study(read_text(text.encode()))


def plf(study) -> dict[tuple[str, str], float]:
    """Take-down rows by what and load: plf or lb."""
    table = next(item for item in items(study.sheet) if isinstance(item, Schedule) and item.key == "takedown.table")
    column = table.heads.index("plf or lb")
    return {(row[0], row[1]): row[column].number for row in table.rows}


FLOOR = """
[[carried]]
name = "floor"
kind = "floor"
span_a = "{a}"
span_b = "{b}"
continuity = "{continuity}"
use = "other rooms"
dead = "{dead}"
"""


def test_lapped_joists_give_half_of_each_span() -> None:
    """Joists of 14 and 10 ft, 70 psf in all: 840 plf of girder (US Army course EN5156, para. 1-6, Figure 1-12)."""
    rows = plf(made(FLOOR.format(a="14 ft", b="10 ft", continuity="lapped", dead="30 psf")))
    assert rows["floor", "dead"] + rows["floor", "live"] == pytest.approx(840)


def test_living_room_girder() -> None:
    """Joists of 10 ft each side at 40 psf: 33.3 lb/in (Journal of Light Construction, simple beam sizing)."""
    rows = plf(made(FLOOR.format(a="10 ft", b="10 ft", continuity="butted", dead="0 psf")))
    assert round(rows["floor", "live"] / 12, 1) == 33.3


@pytest.mark.parametrize(
    ("b", "factor"), [("12 ft", 1.25), ("15 ft", 1.2625), ("18 ft", 1.29166667), ("24 ft", 1.375), ("30 ft", 1.475)]
)
@pytest.mark.parametrize("continuity", ["one piece", "unknown"])
def test_joists_in_one_piece_press_harder(b: str, factor: float, continuity: str) -> None:
    """Equal spans 1.25; 1:1.25, 1:1.5, 1:2 and 1:2.5 by the three-moment equation (textbook); unknown is the same."""
    whole = made(FLOOR.format(a="12 ft", b=b, continuity=continuity, dead="10 psf"))
    t_w = (12 + float(b.split(maxsplit=1)[0])) / 2
    assert plf(whole)["floor", "dead"] == pytest.approx(10 * t_w * factor)


def test_the_short_end_of_very_unequal_spans_lifts_and_is_asked_about() -> None:
    """Beyond about 1:2.3 dead load alone lifts the short end; with live load on the long span sooner (textbook)."""
    stops = {stop.key for stop in made(FLOOR.format(a="6 ft", b="15 ft", continuity="one piece", dead="10 psf")).stops}
    assert "takedown.carried[1].lift" in stops
    even = made(FLOOR.format(a="12 ft", b="12 ft", continuity="one piece", dead="40 psf")).stops
    assert "takedown.carried[1].lift" not in {stop.key for stop in even}


ROOF = """
[[carried]]
name = "roof"
kind = "roof"
span_a = "12 ft"
span_b = "12 ft"
pitch = "{pitch}"
dead = "15 psf"
"""


def test_flat_roof_snow_and_live() -> None:
    """Ground snow 30 psf, all factors 1.0, flat: 21 psf by Eq. 7.3-1, above the least 20; roof live 20 R1."""
    rows = plf(made(ROOF.format(pitch="0:12")))
    assert rows["roof", "snow"] == pytest.approx(21.0 * 12)
    area = 12 * (162 + 3.5) / 12
    assert rows["roof", "roof live"] == pytest.approx(20 * min(1, 1.2 - 0.001 * area) * 12)
    assert rows["roof", "dead"] == pytest.approx(15 * 12)


def test_sloped_roof_snow_of_a_printed_calculation() -> None:
    """At 40 degrees on a warm roof C_s is 0.75: 22.5 of 30 psf (Lake Kegonsa House calculations, ridge beam)."""
    rows = plf(made(ROOF.format(pitch="40 deg"), snow="42.857142857 psf"))
    assert rows["roof", "snow"] == pytest.approx(22.5 * 12)


def test_low_slopes_hold_the_least_snow() -> None:
    """Ground snow 20 psf on a 1:12 roof: 14 psf by the formula, 20 psf by 7.3.4."""
    assert plf(made(ROOF.format(pitch="1:12"), snow="20 psf"))["roof", "snow"] == pytest.approx(20 * 12)
    assert plf(made(ROOF.format(pitch="4:12"), snow="20 psf"))["roof", "snow"] == pytest.approx(14 * 12)


def test_editions_differ_by_factor_not_by_take_down_alone() -> None:
    """In 7-22 the ground snow is at strength level and its combinations take 0.7 and 0.525 of it (2.4.1)."""
    names = {c.name for c in made(ROOF.format(pitch="6:12"), loads="ASCE 7-22").loaded.combinations}
    assert "D + 0.7 S" in names
    assert "D + S" in {c.name for c in made(ROOF.format(pitch="6:12")).loaded.combinations}


def test_combinations_only_of_loads_that_act() -> None:
    """Without a roof there is no combination with snow or roof live, so none borrows their duration."""
    names = [
        c.name for c in made(FLOOR.format(a="12 ft", b="12 ft", continuity="lapped", dead="10 psf")).loaded.combinations
    ]
    assert names == ["D", "D + L"]


def test_reactions_are_all_that_was_put_in() -> None:
    """Under D + L the two reactions are the plf of the table times the beam's length (statics)."""
    whole = made(FLOOR.format(a="12 ft", b="9 ft", continuity="lapped", dead="10 psf"))
    per_foot = sum(plf(whole).values())
    peaks = whole.loaded.strength.under("D + L")
    assert sum(g.value for g in peaks.most_reaction) == pytest.approx(per_foot * (162 + 3.5) / 12, rel=1e-12)


def test_every_row_opens_to_an_entry_of_the_survey() -> None:
    """Each figure of the take-down rests on entries of the survey or on rows of tables, never on nothing."""
    from beamcheck.trace import Given, Looked, Taken, ancestry

    whole = made(FLOOR.format(a="12 ft", b="9 ft", continuity="lapped", dead="10 psf") + ROOF.format(pitch="6:12"))
    table = next(item for item in items(whole.sheet) if isinstance(item, Schedule) and item.key == "takedown.table")
    for row in table.rows:
        for cell in row:
            if isinstance(cell, Value):
                leaves = [value for value in ancestry(cell) if not value.inputs]
                assert leaves
                assert all(isinstance(leaf.origin, Given | Looked | Taken) for leaf in leaves)
