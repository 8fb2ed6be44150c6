"""What stands on a pad by hand: its weight, and the section where the pad bends. Weights: ASCE 7, from memory."""

import sys
from importlib.resources import files
from pathlib import Path

import pytest

from beamcheck.study import registers
from beamcheck.study.types import Study
from beamcheck.trace import Check, Missing, Schedule, Value, items

sys.path.insert(0, str(Path(__file__).parent))

from changed_houses import studied

DEMO = files("beamcheck.survey").joinpath("demo.toml").read_text(encoding="utf-8")
MATERIAL, HEIGHT = 'pier_material = "block"\n', 'pier_height = "3 ft"\n'


def made(*changes: tuple[str, str]) -> Study:
    """The demonstration with some of its text changed."""
    return studied(DEMO, *changes)


def pier(found: Study) -> float:
    """Weight of the pier on the pad, lb."""
    return next(
        float(item.number) for item in items(found.sheet) if isinstance(item, Value) and "pier on the pad" in item.title
    )


def check(found: Study, key: str) -> Check:
    """One check of the pad."""
    return next(item for item in items(found.sheet) if isinstance(item, Check) and item.key == f"pad[1].{key}")


def test_a_pier_of_filled_blocks_weighs_on_the_soil() -> None:
    """8 x 16 in, 3 ft high: 2.667 cubic feet at 140 pcf are 373 lb; 4,862 + 373 = 5,235 lb size the pad: 1.969 ft."""
    found = made()
    assert pier(found) == pytest.approx(8 * 16 / 144 * 3 * 140)
    sized = next(item for item in items(found.sheet) if isinstance(item, Value) and "side of a square" in item.title)
    assert float(sized.to("ft")) == pytest.approx((5235 / (1500 - 150)) ** 0.5, abs=0.0005)


def test_a_pier_that_nobody_measured_is_high_and_of_stone() -> None:
    """Left out, height and material lean to the heavy side, stand among the assumptions, and only add load."""
    found = made((MATERIAL, ""), (HEIGHT, ""))
    assert pier(found) == pytest.approx(8 * 16 / 144 * 8 * 165)
    assumed = {entry.where for entry in registers.assumed(found)}
    assert {"pad[1].pier_material", "pad[1].pier_height"} <= assumed
    assert float(check(found, "flexure").ratio) > float(check(made(), "flexure").ratio)


def test_under_blocks_the_pad_bends_from_half_way_under_concrete_from_the_face() -> None:
    """23.63 in square, 7,422 lb factored: l_v 9.816 in and 15,131 lb in; from a concrete pier's face 7.8 in less so."""
    block = check(made(), "flexure")
    side = (5235 / 1350) ** 0.5 * 12
    assert float(block.demand.number) == pytest.approx(7422 / side / 2 * ((side - 8 / 2) / 2) ** 2, rel=2e-4)
    face = check(made((MATERIAL, 'pier_material = "concrete"\n')), "flexure")
    grown = (5235 + 8 * 16 / 144 * 3 * 10) ** 0.5 / 1350**0.5 * 12
    P_u = 7422 + 1.2 * 8 * 16 / 144 * 3 * 10
    assert float(face.demand.number) == pytest.approx(P_u / grown / 2 * ((grown - 8) / 2) ** 2, rel=2e-4)


def test_a_pier_of_unknown_sides_leaves_the_pad_not_shown() -> None:
    """What weighs nobody knows how much is no load of nothing: the pad is neither sized nor checked on the soil."""
    found = made(('pier_length = "8 in"\n', ""))
    keys = {item.key for item in items(found.sheet) if isinstance(item, Check | Missing)}
    assert "pad[1].pier" in keys
    assert not keys & {"pad[1].soil", "pad[1].flexure"}


def test_a_post_on_its_pad_has_no_pier_between() -> None:
    """Without a pier nothing is added, nothing is assumed of one, and no weight of one arrives."""
    on_pad = ('stands_on = { value = "pier", trust = "stated"', 'stands_on = { value = "pad", trust = "stated"')
    found = made(on_pad, (MATERIAL, ""), (HEIGHT, ""))
    assert not [item for item in items(found.sheet) if isinstance(item, Value) and "pier on the pad" in item.title]
    assert not [entry for entry in registers.assumed(found) if ".pier_" in entry.where]


def test_the_pier_is_put_in_and_arrives() -> None:
    """The balance names the pier's 373 lb on both sides, and both sums are the same."""
    table = next(item for item in items(made().sheet) if isinstance(item, Schedule) and item.key == "soil.balance")
    rows = {str(row[0]): row[1] for row in table.rows}
    assert [row[0] for row in table.rows].count("pier under post 2, its weight") == 2
    put_in, arrives = rows["all that is put in"], rows["all that arrives"]
    assert isinstance(put_in, Value) and isinstance(arrives, Value)
    assert float(put_in.number) == pytest.approx(float(arrives.number))
