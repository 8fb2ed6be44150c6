"""What happens near a bearing: loads at the very edge of the clear distance, short ends of steel, hands that lift."""

import math
from dataclasses import replace

import pytest

from beamcheck import tables
from beamcheck.beam.model import Line
from beamcheck.catalogue.members import Member
from beamcheck.catalogue.reading import read_member
from beamcheck.catalogue.steel import read_steel
from beamcheck.checks.beam import BeamDesign, Seat, check_beam, uplift
from beamcheck.checks.lines import load_line
from beamcheck.checks.steel import check_steel_beam
from beamcheck.checks.steel_web import over_bearing
from beamcheck.checks.wood import Bracing, Conditions
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import Source
from beamcheck.trace import Check, Refer, Value, taken

HELD = Bracing(None)

FLOORS = (tables.lookup("irc_2021/deflection", member="floors"),)


def figure(name: str, number: float, unit: str) -> Value:
    """A figure for a test."""
    return taken(name, number, "a figure for a test", unit=unit)


def point(P: float, station: float, load_type: str = "L") -> Source:
    """A force on the beam."""
    return Source("c", "post", load_type, P=figure("P", P, "lb"), station=figure("x", station, "in"))


def design(member: Member, line: Line, sources: tuple[Source, ...], seat: float = 3.5) -> BeamDesign:
    """A dropped beam, held sideways, on seats of one length."""
    spans = tuple(figure("l", bay.length, "in") for bay in line.bays)
    loaded = load_line(line, spans, sources, combinations("asce7_16", frozenset({"D", "L"})))
    seats = tuple(Seat(figure("l_b", seat, "in"), figure("b_seat", 3.5, "in")) for _ in line.supports)
    return BeamDesign(member, loaded, seats, HELD, HELD, "dropped", Conditions(), FLOORS)


def shear(found: BeamDesign) -> float:
    """The shear (lb) of the governing check, out of its stress 3 V / (2 b d)."""
    (check,) = (item for item in check_beam(found) if isinstance(item, Check) and item.key == "beam.shear")
    return float(check.demand.number) * 2 * float(found.member.b.number) * float(found.member.d.number) / 3


TIMBER = read_member("4x12 Douglas Fir-Larch No.2", "beam.member")
DEPTH, HALF, P = 11.25, 1.75, 4000.0


@pytest.mark.parametrize("share", [0.25, 0.5, 1.0])
@pytest.mark.parametrize("line", [Line((0.0, 160.0)), Line((0.0, 160.0), 6.0, 6.0)])
def test_a_load_within_a_depth_counts_by_its_distance(share: float, line: Line) -> None:
    """A load x off the face of the bearing counts as x/d of itself, in full just at d (NDS 2018 3.4.3.1)."""
    for station in (HALF + share * DEPTH, 160.0 - HALF - share * DEPTH):
        assert shear(design(TIMBER, line, (point(P, station),))) == pytest.approx(share * P)


@pytest.mark.parametrize("station", [0.25, 1.0, HALF])
def test_a_load_over_the_bearing_does_not_count(station: float) -> None:
    """What stands over the bearing itself goes straight down: nothing of it is left at d."""
    found = design(TIMBER, Line((0.0, 160.0)), (point(P, station),))
    (face,) = (face for face in found.loaded.faces(1) if (face.support, face.side) == (0, "right"))
    assert found.loaded.shear_beyond(face, HALF, DEPTH).number == pytest.approx(0.0, abs=1e-6)


def test_a_load_beyond_the_depth_counts_by_statics() -> None:
    """An inch beyond d the load brings its whole reaction P (l - x)/l."""
    x = HALF + DEPTH + 1.0
    assert shear(design(TIMBER, Line((0.0, 160.0)), (point(P, x),))) == pytest.approx(P * (160.0 - x) / 160.0)


def test_a_load_on_the_next_bay_is_not_near() -> None:
    """Half an inch past the middle of a post a load is the next bay's: in this one it counts as on the face itself."""
    line = Line((0.0, 40.0, 200.0))
    beyond = design(TIMBER, line, (point(P, 40.5),), seat=0.25)
    faces = [face for face in beyond.loaded.faces(1) if (face.support, face.side) == (1, "left")]
    for face in faces:
        there = beyond.loaded.shear_beyond(face, 0.125, DEPTH)
        assert there.number == pytest.approx(face.V.number, rel=1e-9)
    assert faces


@pytest.mark.parametrize("short", [2 * (HALF + DEPTH) - 0.5, 2 * (HALF + DEPTH)])
def test_a_bay_too_short_for_the_distance_is_read_at_its_face(short: float) -> None:
    """Where half the bearing and d take up half of the bay, the shear is that of the face: P (l - x)/l."""
    assert shear(design(TIMBER, Line((0.0, short)), (point(P, 5.0),))) == pytest.approx(P * (short - 5.0) / short)


W8 = read_steel("W8x18 A992", "beam.member")


def web(end: float) -> tuple[float, float]:
    """Allowable reactions by yielding and by crippling of the web, the beam running on past its bearing by so much."""
    assert W8 is not None
    found = design(W8, Line((0.0, 192.0), end, end), (point(1000.0, 96.0),))
    l_b = figure("l_b", 3.5, "in")
    limits = [tuple(limit.number for limit in over_bearing(found, n, l_b)) for n in (0, 1)]
    assert limits[0] == pytest.approx(limits[1])
    return float(limits[0][0]), float(limits[0][1])


@pytest.mark.parametrize(
    ("end", "k_times", "share"),
    [(0.0, 2.5, 0.4), (4.0, 2.5, 0.4), (4.14, 2.5, 0.8), (7.0, 2.5, 0.8), (8.0, 2.5, 0.8), (8.2, 5.0, 0.8)],
)
def test_the_web_holds_more_away_from_the_end(end: float, k_times: float, share: float) -> None:
    """J10.2 spreads by 5 k beyond d from the end, else 2.5 k; J10.3 has 0.80 from d/2 on, else 0.40 (AISC 360-16)."""
    yielding, crippling = web(end)
    assert yielding == pytest.approx(50_000 * 0.23 * (k_times * 0.63 + 3.5) / 1.5)
    root = math.sqrt(29e6 * 50_000 * 0.33 / 0.23)
    spread = 4 * 3.5 / 8.14 - 0.2 if share == 0.4 else 3 * 3.5 / 8.14
    assert crippling == pytest.approx(share * 0.23**2 * (1 + spread * (0.23 / 0.33) ** 1.5) * root / 2)


@pytest.mark.parametrize(("pull", "stops"), [(-0.4, 0), (-0.9, 0), (-1.1, 1), (-40.0, 1)])
def test_a_hand_that_lifts_is_no_stop(pull: float, stops: int) -> None:
    """Less than a pound of uplift at a bearing is rounding; more is asked about, at that bearing alone."""
    lifted = design(TIMBER, Line((0.0, 160.0)), (point(0.0, 80.0, "D"), point(2 * pull, 80.0)))
    found = [item.key for item in uplift(lifted) if isinstance(item, Refer)]
    assert found == ["beam.uplift[1]", "beam.uplift[2]"][: 2 * stops]


def test_a_light_push_is_no_uplift() -> None:
    """A bearing that is pressed by half a pound is pressed."""
    assert uplift(design(TIMBER, Line((0.0, 160.0)), (point(1.0, 80.0, "D"), point(0.0, 80.0)))) == []


@pytest.mark.parametrize(
    ("near", "station", "counted"), [(500.0, 5.0, 0.0), (1000.0, 10.0, 0.0), (9000.0, 10.0, 8.25 / 11.25)]
)
def test_a_far_load_that_lifts_the_end_is_eased_by_a_near_one_only_where_that_governs(
    near: float, station: float, counted: float
) -> None:
    """A load in the middle of the far of two equal spans lifts the end by 3/32; a small near one is left out."""
    line = Line((0.0, 160.0, 320.0))
    found = design(TIMBER, line, (point(10_000.0, 240.0, "D"), point(near, station, "D")))
    (face,) = (face for face in found.loaded.faces(0) if (face.support, face.side) == (0, "right"))
    there = found.loaded.shear_beyond(face, HALF, DEPTH)
    assert there.number == pytest.approx(abs(counted * near - 3 / 32 * 10_000))


def test_just_at_the_bounds_the_web_counts_as_the_standard_says() -> None:
    """Just d from the end is not more than d (J10.2); just d/2 is d/2 or more (J10.3)."""
    assert W8 is not None
    l_b = figure("l_b", 3.5, "in")
    at_d, at_half = (design(W8, Line((0.0, 192.0), end, 50.0), (point(1000.0, 96.0),)) for end in (8.14, 8.14 / 2))
    assert over_bearing(at_d, 0, l_b)[0].number == pytest.approx(50_000 * 0.23 * (2.5 * 0.63 + 3.5) / 1.5)
    assert over_bearing(at_half, 0, l_b)[1].number == over_bearing(at_d, 0, l_b)[1].number
    assert over_bearing(at_d, 1, l_b)[0].number == pytest.approx(50_000 * 0.23 * (5 * 0.63 + 3.5) / 1.5)


@pytest.mark.parametrize(("least", "times"), [(-0.5, 1.0), (0.0, 0.5), (0.5, 0.5)])
def test_where_anything_presses_up_shear_is_read_anywhere(least: float, times: float) -> None:
    """The rule of the depth is for loads that press down (3.4.3.1): half a pound up, and the face's shear counts."""
    x = HALF + 0.5 * DEPTH
    loads = (point(P, x, "D"), point(least, 80.0, "D"))
    full = P * (160 - x) / 160 if times == 1 else P * times
    assert shear(design(TIMBER, Line((0.0, 160.0)), loads)) == pytest.approx(full + least / 2)


def test_live_load_within_the_depth_is_left_off_where_it_would_ease() -> None:
    """People on the first 10 in alone lift the shear at d: under D + L it is that of dead load, 5 lb/in x (80 - d)."""
    w, w_L = figure("w", 60.0, "plf"), figure("w", 1200.0, "plf")
    near = Source("c", "corner", "L", w=w_L, start=figure("x_a", 0.0, "in"), end=figure("x_b", 10.0, "in"))
    found = design(TIMBER, Line((0.0, 160.0)), (Source("c", "floor", "D", w=w), near))
    (face,) = (face for face in found.loaded.faces(1) if (face.support, face.side) == (0, "right"))
    assert face.V.number == pytest.approx(5 * 80 + 1000 * 155 / 160)
    assert found.loaded.shear_beyond(face, HALF, DEPTH).number == pytest.approx(5 * (80 - HALF - DEPTH))


@pytest.mark.parametrize(("length", "breadth"), [(None, 3.5), (3.5, None), (None, None)])
def test_a_seat_half_known_is_no_bearing_to_check(length: float | None, breadth: float | None) -> None:
    """Crushing needs both sides of the seat; what is not known is not guessed, for wood and for steel."""
    sides = [None if side is None else figure("l_b", side, "in") for side in (length, breadth)]
    for member, check in ((TIMBER, check_beam), (W8, check_steel_beam)):
        assert member is not None
        whole = design(member, Line((0.0, 160.0)), (point(P, 80.0),))
        found = check(replace(whole, seats=(Seat(*sides), whole.seats[1])))
        keys = {item.key for item in found if isinstance(item, Check)}
        assert {key for key in keys if key.endswith("[1]")} == set()
        assert {key for key in keys if "[2]" in key}
