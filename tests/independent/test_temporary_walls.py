"""What temporary walls hold, by the three-moment equation and by hand: unequal spans and distances, one side only."""

from itertools import product

import pytest

from beamcheck.checks.shoring_loads import TemporaryWall, Work, temporary_walls
from beamcheck.survey.around import Temporary
from beamcheck.survey.model import Carried, Site
from beamcheck.takedown.sources import Reach
from beamcheck.trace import Solved, Value, taken

DEAD, LIVE = 12.0, 40.0


def figure(name: str, number: float, unit: str) -> Value:
    """A figure for a test."""
    return taken(name, number, "a figure for a test", unit=unit)


SITE = Site("ASCE 7-16", None, "sheltered B", "unheated", "other", figure("q_allow", 1500.0, "psf"))
ENDS = figure("x_a", 0.0, "in"), figure("x_b", 160.0, "in")
REACH = Reach(figure("l", 160.0, "in"), ENDS[0], (ENDS,))


def floor(continuity: str, feet: tuple[float, float]) -> Carried:
    """Joists of two spans (ft) over the wall."""
    nothing = dict.fromkeys(Carried.__dataclass_fields__)
    told = {
        "where": "carried[1]",
        "name": "floor",
        "kind": "floor",
        "use": "other rooms",
        "continuity": continuity,
        "span_a": figure("s_a", feet[0] * 12, "in"),
        "span_b": figure("s_b", feet[1] * 12, "in"),
        "dead": figure("q_D", DEAD, "psf"),
    }
    return Carried(**{**nothing, **told})


def under(floors: tuple[Carried, ...], sides: str, inches: tuple[float, float]) -> list[TemporaryWall]:
    """Temporary walls at two distances (in) under floors."""
    blank = dict.fromkeys(Temporary.__dataclass_fields__)
    told = {
        "sides": sides,
        "rooms_above": "in use",
        "snow": "counted",
        "set_back_a": figure("a_set", inches[0], "in"),
        "set_back_b": figure("a_set", inches[1], "in"),
    }
    return list(temporary_walls(Work(floors, SITE, Temporary(**{**blank, **told}), REACH)))


def held(continuity: str, sides: str, feet: tuple[float, float], inches: tuple[float, float]) -> list[TemporaryWall]:
    """Temporary walls at two distances (in) under a floor of two spans (ft)."""
    return under((floor(continuity, feet),), sides, inches)


def line(wall: TemporaryWall, load_type: str) -> float:
    """Load of one type on a temporary wall, plf."""
    return sum(float(row.w.number) for row in wall.rows if row.load_type == load_type and row.w is not None)


def first_inner_reaction(spans: tuple[float, float, float], loads: tuple[float, float, float]) -> float:
    """Reaction at the second of four supports, each span under its own uniform load: the three-moment equation."""
    (a, b, c), (u, v, w) = spans, loads
    left, right = -(u * a**3 + v * b**3) / 4, -(v * b**3 + w * c**3) / 4
    both = 4 * (a + b) * (b + c) - b**2
    near, far = (2 * (b + c) * left - b * right) / both, (2 * (a + b) * right - b * left) / both
    return (u * a + v * b) / 2 - near / a + (far - near) / b


@pytest.mark.parametrize("feet", [(12.0, 12.0), (14.0, 9.0), (10.0, 15.5)])
@pytest.mark.parametrize("inches", [(30.0, 30.0), (18.0, 40.0), (48.0, 20.0)])
def test_joists_in_one_piece_over_two_temporary_walls(feet: tuple[float, float], inches: tuple[float, float]) -> None:
    """A joist over four supports presses on an inner one as the three moments say, live load where it is worst."""
    near, far = inches[0] / 12, inches[1] / 12
    spans = (feet[0] - near, near + far, feet[1] - far)
    walls = held("one piece", "both", feet, inches)
    assert [wall.side for wall in walls] == ["A", "B"]
    for wall, way in zip(walls, (spans, spans[::-1]), strict=True):
        assert line(wall, "D") == pytest.approx(DEAD * first_inner_reaction(way, (1.0, 1.0, 1.0)))
        worst = max(first_inner_reaction(way, loaded) for loaded in product((0.0, 1.0), repeat=3))
        assert line(wall, "L") == pytest.approx(LIVE * worst)


@pytest.mark.parametrize("continuity", ["one piece", "unknown", "lapped", "butted"])
@pytest.mark.parametrize("side", ["A", "B", "both"])
def test_joists_of_one_side_end_at_the_old_wall(continuity: str, side: str) -> None:
    """Joists of 12 ft on one side alone overhang the wall 2 ft off: 12 x 12 x 12/20 = 86.4 plf, however told."""
    for feet, named in (((12.0, 0.0), "A"), ((0.0, 12.0), "B")):
        walls = held(continuity, side, feet, (24.0, 24.0))
        assert [wall.side for wall in walls] == ([named] if side in (named, "both") else [])
        for wall in walls:
            assert line(wall, "D") == pytest.approx(86.4)
            assert line(wall, "L") == pytest.approx(86.4 * LIVE / DEAD)


@pytest.mark.parametrize(("side", "feet"), [("A", (12.0, 9.0)), ("B", (9.0, 12.0))])
def test_one_temporary_wall_holds_lapped_joists_of_both_sides(side: str, feet: tuple[float, float]) -> None:
    """12 ft joists that overhang 2 ft and 9 ft joists that run 2 ft on: 12 x (12 x 6 / 10 + 11 / 2) = 152.4 plf."""
    (wall,) = held("lapped", side, feet, (24.0, 24.0))
    assert line(wall, "D") == pytest.approx(152.4)
    (unknown,) = held("unknown", side, feet, (24.0, 24.0))
    assert line(unknown, "D") >= 152.4


def test_each_temporary_wall_has_its_own_side_and_distance() -> None:
    """Lapped joists of 12 and 9 ft, walls 2 and 1 ft off: 12 x 12 x 12 / 20 and 12 x 9 x 9 / 16 plf."""
    a, b = held("lapped", "both", (12.0, 9.0), (24.0, 12.0))
    assert (line(a, "D"), line(b, "D")) == (pytest.approx(86.4), pytest.approx(60.75))


@pytest.mark.parametrize("continuity", ["one piece", "unknown", "lapped"])
def test_joists_of_one_side_are_no_row_of_the_other(continuity: str) -> None:
    """Of two floors, one on each side, each wall has the rows of its own: 12 x 12 x 12/20 and 12 x 9 x 9/14 plf."""
    floors = (floor(continuity, (12.0, 0.0)), floor(continuity, (0.0, 9.0)))
    for wall, dead in zip(under(floors, "both", (24.0, 24.0)), (86.4, 12 * 81 / 14), strict=True):
        assert [row.load_type for row in wall.rows] == ["D", "L"]
        assert line(wall, "D") == pytest.approx(dead)


@pytest.mark.parametrize("continuity", ["one piece", "unknown", "lapped"])
def test_the_only_wall_holds_what_ends_over_the_other_side_too(continuity: str) -> None:
    """Joists of 9 ft on the far side alone run on to the only wall 2 ft off, however told: 12 x 11/2 plf more."""
    floors = (floor("lapped", (12.0, 0.0)), floor(continuity, (0.0, 9.0)))
    (wall,) = under(floors, "A", (24.0, 24.0))
    assert line(wall, "D") == pytest.approx(86.4 + 66.0)


def test_a_temporary_wall_opens_to_the_spans_it_was_solved_for() -> None:
    """Behind the load of joists in one piece stand the load, both spans and both distances."""
    (row, _) = held("one piece", "both", (12.0, 9.0), (24.0, 18.0))[1].rows
    assert row.w is not None and isinstance(row.w.origin, Solved)
    found = [(name, float(value.number)) for name, value in row.w.origin.inputs]
    assert found == [("q", DEAD), ("s", 108.0), ("s_b", 144.0), ("a_set", 18.0), ("a_set", 24.0)]
    assert row.w.origin.residual is not None and abs(row.w.origin.residual) < 1e-9
