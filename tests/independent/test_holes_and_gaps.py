"""Headroom, gaps beside posts and holes in a beam, by hand beside the code's and the trade's limits."""

import math
from statistics import NormalDist

import pytest

from beamcheck.catalogue.reading import read_member
from beamcheck.checks.fit import Drilled, drilled, gap, headroom, hung, pieces
from beamcheck.survey.around import Hole, Neighbour
from beamcheck.trace import Check, Item, Looked, Missing, Schedule, Value, taken


def inches(number: float) -> Value:
    """A length for a test."""
    return taken("x", number, "a figure for a test", unit="in")


def checks(items: list[Item]) -> dict[str, Check]:
    """The checks by the last part of their keys."""
    return {item.key.rpartition(".")[2]: item for item in items if isinstance(item, Check)}


@pytest.mark.parametrize(("clear", "room", "way"), [(84.0, 1.0, 80 / 84), (80.0, 84 / 80, 1.0)])
def test_headroom_is_asked_of_rooms_and_of_ways(clear: float, room: float, way: float) -> None:
    """A room asks 7 ft (IRC R305.1), a way through 6 ft 8 in (common practice, no source)."""
    found = checks(headroom(inches(clear)))
    assert float(found["headroom_room"].ratio) == pytest.approx(room)
    assert float(found["headroom_through"].ratio) == pytest.approx(way)
    sources = [found[key].demand.origin for key in ("headroom_room", "headroom_through")]
    assert [origin.reference for origin in sources if isinstance(origin, Looked)] == [
        "International Residential Code 2021, R305.1",
        "Practice of the building trade 2025, headroom",
    ]


@pytest.mark.parametrize(("height", "leaning"), [(None, 96.0), (36.0, 36.0)])
def test_deviations_beside_a_post_add_up(height: float | None, leaning: float) -> None:
    """1/8 in in 4 ft of lean, 1/8 in of setting out, size, neighbour; 1/16 in of finish: sum, and by squares."""
    neighbour = Neighbour(
        "neighbour[1]", "cabinet", inches(1), inches(1.5), inches(0.5), inches(0.25), height and inches(height)
    )
    items = gap(neighbour, inches(96.0))
    parts = [leaning / 48 / 8, 1 / 8, 1 / 8, 1 / 16, 1 / 8]
    left, worst, chance = (item for item in items if isinstance(item, Value))
    check = checks(items)["gap"]
    assert left.number == check.limit.number == pytest.approx(0.75)
    assert worst.number == pytest.approx(sum(parts))
    assert check.demand.number == pytest.approx(math.hypot(*parts))
    assert chance.number == pytest.approx(NormalDist().cdf(-2 * 0.75 / math.hypot(*parts)), abs=1e-12)


def hole(text: str, from_top: float | None, hangs: float | None = None) -> tuple[list[Item], Hole]:
    """A hole of 1 in, 60 in from the left in a span of 160 in."""
    weight = None if hangs is None else taken("W", hangs, "a figure for a test", unit="lb")
    one = Hole("hole[1]", "lamp", inches(1.0), inches(60.0), None if from_top is None else inches(from_top), weight)
    return drilled(Drilled(one, "hole[1]", inches(60.0), inches(160.0)), read_member(text, "beam.member")), one


def test_a_hole_in_sawn_lumber_has_the_limits_of_the_code() -> None:
    """In 11-1/4 in: a third of it across, 2 in to the edge (IRC R502.8.1); the middle thirds by rule of thumb."""
    found = checks(hole("4x12 Douglas Fir-Larch No.2", 3.0)[0])
    assert (found["diameter"].demand.number, found["diameter"].limit.number) == (1.0, pytest.approx(11.25 / 3))
    assert (found["edge"].demand.number, found["edge"].limit.number) == (2.0, pytest.approx(3.0 - 0.5))
    assert found["depth"].demand.number == pytest.approx(11.25 / 2 - 3 + 0.5)
    assert found["depth"].limit.number == pytest.approx(11.25 / 6)
    assert (found["span"].demand.number, found["span"].limit.number) == (20.0, pytest.approx(160 / 6))


@pytest.mark.parametrize("text", ["6x12 Douglas Fir-Larch No.1", "2-ply 2x12 Douglas Fir-Larch No.2"])
def test_the_codes_holes_are_for_all_sawn_lumber(text: str) -> None:
    """Timbers and built-up joists are sawn lumber too."""
    assert {"diameter", "edge"} <= checks(hole(text, 5.0)[0]).keys()


def test_a_hole_in_a_made_beam_has_only_the_rules_of_thumb() -> None:
    """Cuts in engineered members are their makers' matter (IRC R502.8.2): the code's limits are not shown."""
    assert checks(hole("2-ply 1-3/4x14 LVL", 7.0)[0]).keys() == {"span", "depth"}


def test_a_hole_of_unknown_height_is_asked_about() -> None:
    """Where nobody told how far below the top it lies, only the span is judged and the height is asked for."""
    items, _ = hole("4x12 Douglas Fir-Larch No.2", None)
    assert checks(items).keys() == {"span"}
    assert [type(item) for item in items[1:]] == [Missing]


def test_a_lamp_hangs_on_its_box() -> None:
    """A box carries 50 lb unless it is listed for more (NEC 314.27(A)); what does not hang is not checked."""
    (check,) = hung(hole("4x12 Douglas Fir-Larch No.2", 5.0, hangs=65.0)[1], "hole[1]")
    assert isinstance(check, Check)
    assert (check.demand.number, check.limit.number) == (65.0, 50.0)
    assert hung(hole("4x12 Douglas Fir-Larch No.2", 5.0)[1], "hole[1]") == []


def test_a_steel_beam_is_carried_whole() -> None:
    """A W8x18 of 14 ft weighs 252 lb, by the weight in its name, in one piece."""
    from beamcheck.catalogue.steel import read_steel

    steel = read_steel("W8x18 A992", "beam.member")
    assert steel is not None
    (table,) = pieces(steel, inches(168.0))
    assert isinstance(table, Schedule)
    ((name, _, weight),) = table.rows
    assert (name, isinstance(weight, Value) and weight.number) == ("one piece", pytest.approx(252.0))
