"""What a piece needs on its way in, by the drawing: straight on, on edge, round the corner, or not known."""

import pytest

from beamcheck.catalogue.reading import read_member
from beamcheck.checks.fit import carried_in, pieces
from beamcheck.survey.around import Room
from beamcheck.trace import Check, Missing, Schedule, Value, taken

BEAM = read_member("3-ply 1-3/4x14 LVL", "beam.member")
LENGTH = taken("l_piece", 168.0, "a figure for a test", unit="in")


def width(number: float | None) -> Value | None:
    """A width of the house, if it was measured."""
    return None if number is None else taken("w", number, "a figure for a test", unit="in")


def way_in(door: float | None, turn: float | None, straight: float | None) -> list[Check | Missing]:
    """What is said of a 14 ft ply on its way in."""
    nothing = taken("w", 0.0, "none", unit="in")
    room = Room(nothing, nothing, None, width(door), width(turn), width(straight))
    found = carried_in(room, BEAM, LENGTH)
    return [item for item in found if isinstance(item, Check | Missing)]


@pytest.mark.parametrize(("door", "turn"), [(30.0, None), (None, 40.0)])
def test_a_corner_of_which_one_side_is_known_is_asked_about(door: float | None, turn: float | None) -> None:
    """One of the two widths does not tell how long a piece turns the corner: the other is asked for, nothing judged."""
    (item,) = way_in(door, turn, None)
    assert isinstance(item, Missing)


def test_nothing_known_of_the_way_says_nothing() -> None:
    """Where no width was measured there is nothing to check."""
    assert way_in(None, None, None) == []


@pytest.mark.parametrize(("straight", "judged"), [(168.0, 168.0), (200.0, 200.0), (167.0, 167.0)])
def test_a_straight_way_is_judged_by_its_length(straight: float, judged: float) -> None:
    """A piece 168 in long comes in straight on where the run is as long, whatever the corner; it is over where not."""
    (item,) = way_in(None, None, straight)
    assert isinstance(item, Check)
    assert (item.demand.number, item.limit.number) == (168.0, judged)


def test_a_run_just_as_long_needs_no_corner() -> None:
    """A straight run of just the piece's length is enough, though the corner beside it is narrow."""
    (item,) = way_in(20.0, 20.0, 168.0)
    assert isinstance(item, Check)
    assert (item.limit.number, float(item.ratio)) == (168.0, 1.0)


def test_a_ply_as_thick_as_the_way_stays_outside() -> None:
    """A ply 1-3/4 in thick on edge in a way 1-3/4 in wide is judged by its thickness; a wider one by the corner."""
    (tight,) = way_in(1.75, 40.0, None)
    assert isinstance(tight, Check)
    assert (tight.demand.number, tight.limit.number) == (1.75, 1.75)
    (corner,) = way_in(30.0, 40.0, None)
    assert isinstance(corner, Check)
    assert corner.demand.number == 168.0


@pytest.mark.parametrize(
    ("text", "rows"),
    [("2-ply 1-3/4x14 LVL", 2), ("3-ply 2x10 Spruce-Pine-Fir No.2", 2), ("4x12 Douglas Fir-Larch No.2", 1)],
)
def test_plies_are_told_one_by_one_and_together(text: str, rows: int) -> None:
    """A built-up beam is carried ply by ply, its weight in all is that of its plies; a single piece has one row."""
    member = read_member(text, "beam.member")
    (table,) = pieces(member, LENGTH)
    assert isinstance(table, Schedule)
    weights = [row[2].number for row in table.rows if isinstance(row[2], Value)]
    assert len(weights) == rows
    assert weights[-1] == pytest.approx(member.plies * weights[0])
    assert str(table.rows[0][0]) == (f"one of {member.plies}" if rows == 2 else "one piece")
