"""Steel members as they are checked, against sums done by hand; and how their trade text is read."""

import math
import re
from pathlib import Path

import pytest

import beamcheck
from beamcheck import tables
from beamcheck.beam.model import Line
from beamcheck.catalogue.steel import is_w_shape, read_steel
from beamcheck.checks.beam import BeamDesign, Seat
from beamcheck.checks.lines import load_line
from beamcheck.checks.post import AxialCase
from beamcheck.checks.steel import check_steel_beam
from beamcheck.checks.steel_post import SteelPostDesign, check_steel_post
from beamcheck.checks.wood import Bracing, Conditions
from beamcheck.errors import InputError
from beamcheck.study.chain import study
from beamcheck.study.registers import assumed
from beamcheck.survey.reader import read_text
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import Source
from beamcheck.trace import Check, Computed, Note, Refer, Value, taken

HELD = Bracing(None)

D, L, SPAN = 300.0, 900.0, 192.0  # plf, plf, in
w = (D + L) / 12
FLOORS = (
    tables.lookup("irc_2021/deflection", member="floors"),
    tables.lookup("ibc_2021/deflection", member="floor member", load="D+L"),
)


def inches(name: str, number: float) -> Value:
    """A length for a test."""
    return taken(name, number, "a figure for a test", unit="in")


def design(
    text: str = "W8x18 A992",
    line: Line | None = None,
    bracing: Bracing = HELD,
    bottom: Bracing = HELD,
    post_above: float = 0.0,
) -> BeamDesign:
    """A W shape under 300 + 900 plf, each seat 3-1/2 in long and broad."""
    member = read_steel(text, "beam.member")
    assert member is not None
    line = line or Line((0.0, SPAN))
    rows = [Source(kind, kind, kind, w=taken("w", load, "", unit="plf")) for kind, load in (("D", D), ("L", L))]
    if post_above:
        rows.append(Source("c", "post", "L", P=taken("P", post_above, "", unit="lb"), station=inches("x", SPAN / 2)))
    spans = tuple(inches("l", bay.length) for bay in line.bays)
    loaded = load_line(line, spans, tuple(rows), combinations("asce7_16", frozenset({"D", "L"})))
    seats = tuple(Seat(inches("l_b", 3.5), inches("b_seat", 3.5)) for _ in line.supports)
    return BeamDesign(member, loaded, seats, bracing, bottom, "dropped", Conditions(), FLOORS)


def checks(found: BeamDesign) -> dict[str, Check]:
    """The checks of a beam by their keys."""
    return {item.key: item for item in check_steel_beam(found) if isinstance(item, Check)}


def omegas(value: Value) -> list[float]:
    """Safety factors that a limit took."""
    assert isinstance(value.origin, Computed)
    return [float(one.number) for name, one in value.origin.inputs if name == "Omega"]


def test_simple_span_against_a_hand_sum() -> None:
    """A held W8x18 under a uniform load: M, V and R of a simple span beside F_y Z/1.67, 0.6 F_y d t_w/1.5 and J10."""
    found = checks(design())
    bending, shear = found["beam.bending_sagging"], found["beam.shear"]
    assert bending.demand.number == pytest.approx(w * SPAN**2 / 8)
    assert bending.limit.to("kip*ft") == pytest.approx(42.4, abs=0.05)
    assert shear.demand.number == pytest.approx(w * SPAN / 2)
    assert shear.limit.to("kip") == pytest.approx(37.4, abs=0.05)
    yielding, crippling = found["beam.web_yielding[1]"], found["beam.web_crippling[2]"]
    assert yielding.demand.number == crippling.demand.number == pytest.approx(w * SPAN / 2)
    assert yielding.limit.number == pytest.approx(50_000 * 0.23 * (2.5 * 0.63 + 3.5) / 1.5)
    share = 4 * 3.5 / 8.14 - 0.2
    root = math.sqrt(29e6 * 50_000 * 0.33 / 0.23)
    assert crippling.limit.number == pytest.approx(0.4 * 0.23**2 * (1 + share * (0.23 / 0.33) ** 1.5) * root / 2)
    assert found["beam.flange"].demand.number == pytest.approx(5.25 / 0.66)


def test_bottom_flange_is_the_bearing_plate() -> None:
    """On a seat 3-1/2 in broad the flange bends beyond the fillet; its moment is half the pressure times the square."""
    found = checks(design())["beam.flange[1]"]
    reach, pressure = 3.5 / 2 - 0.63, w * SPAN / 2 / 3.5**2
    assert found.limit.number == 0.33
    assert found.demand.number**2 == pytest.approx(pressure * reach**2 / 2 * 4 * 1.67 / 50_000)


def test_deflection_against_a_hand_sum() -> None:
    """5 w l^4/384 E I of the live load, and of all load without creep, beside l/360 and l/240."""
    found = checks(design())
    live, total = found["beam.deflection_live_L360"], found["beam.deflection_total_L240"]
    EI = 29e6 * 61.9
    assert live.demand.number == pytest.approx(5 * L / 12 * SPAN**4 / 384 / EI)
    assert total.demand.number == pytest.approx(5 * w * SPAN**4 / 384 / EI)
    assert (live.limit.number, total.limit.number) == (pytest.approx(SPAN / 360), pytest.approx(SPAN / 240))


def test_unbraced_length_lowers_the_moment() -> None:
    """Up to L_p the beam holds its plastic moment; free over the whole span of 16 ft it buckles while elastic."""
    held = checks(design())["beam.bending_sagging"].limit.number
    near = checks(design(bracing=Bracing(inches("l_u", 52.0))))["beam.bending_sagging"].limit.number
    free = checks(design(bracing=Bracing(inches("l_u", SPAN))))["beam.bending_sagging"].limit
    assert near == held
    ratio, torsion = SPAN / 1.43, 0.172 / (15.2 * 7.81)
    stress = math.pi**2 * 29e6 / ratio**2 * math.sqrt(1 + 0.078 * torsion * ratio**2)
    assert free.number == pytest.approx(stress * 15.2 / 1.67)
    assert free.number < held


def test_two_spans_hog_with_the_bottom_flange_free() -> None:
    """Over the middle post the bottom flange is the one that may buckle, with its own unbraced length."""
    line = Line((0.0, SPAN, 2 * SPAN))
    found = checks(design(line=line, bottom=Bracing(inches("l_u", SPAN))))
    assert found["beam.bending_hogging"].demand.number == pytest.approx(w * SPAN**2 / 8)
    assert found["beam.bending_hogging"].limit.number < found["beam.bending_sagging"].limit.number
    assert found["beam.bending_sagging"].demand.number > 9 / 128 * w * SPAN**2  # live load on one span alone
    inside, end = (found[f"beam.web_yielding[{post}]"].limit.number for post in (2, 1))
    assert inside - end == pytest.approx(50_000 * 0.23 * 2.5 * 0.63 / 1.5)
    assert found["beam.web_crippling[2]"].limit.number > 1.5 * found["beam.web_crippling[1]"].limit.number


def test_thin_web_takes_the_greater_safety_factor() -> None:
    """W12x14 at 50 ksi: V_n over 1.67; at 36 ksi its web is stocky and takes 1.50."""
    assert omegas(checks(design("W12x14 A992"))["beam.shear"].limit) == [1.67]
    assert omegas(checks(design("W12x14 A36"))["beam.shear"].limit) == [1.50]


def test_noncompact_flange_lowers_the_moment() -> None:
    """W8x10 at 50 ksi holds 21.9 kip*ft, and not the 22.1 of its plastic moment."""
    found = checks(design("W8x10 A992"))
    assert found["beam.bending_sagging"].limit.to("kip*ft") == pytest.approx(21.9, abs=0.05)
    assert found["beam.flange"].word == "within"


def test_point_load_on_top_is_referred() -> None:
    """Under a post that stands on the beam sidesway and compression buckling of the web are the engineer's to judge."""
    stops = [[item.key for item in check_steel_beam(one) if isinstance(item, Refer)] for one in _with_and_without()]
    assert stops == [[], ["beam.points"]]
    notes = [item.text for item in check_steel_beam(_with_and_without()[1]) if isinstance(item, Note)]
    assert len(notes) == 1
    assert "ASSUMED: the foot of post counts as an edge" in notes[0]


def _with_and_without() -> tuple[BeamDesign, BeamDesign]:
    return design(), design(post_above=2000.0)


ROOT = math.sqrt(29e6 * 50_000 * 0.33 / 0.23)  # sqrt(E F_y t_f/t_w) of a W8x18


def under(*standing: tuple[str, float, float | None, dict[str, float]]) -> dict[str, tuple[float, float]]:
    """Demand and limit under things of a name, a station, a length of the foot and loads by type, by key."""
    member = read_steel("W8x18 A992", "beam.member")
    assert member is not None
    rows = [
        Source(
            "c",
            name,
            kind,
            P=taken("P", P, "", unit="lb"),
            station=inches("x", at),
            foot=None if l_b is None else inches("l_b", l_b),
        )
        for name, at, l_b, loads in standing
        for kind, P in loads.items()
    ]
    present = frozenset(row.load_type for row in rows) | {"D"}
    loaded = load_line(Line((0.0, SPAN)), (inches("l", SPAN),), tuple(rows), combinations("asce7_16", present))
    one = BeamDesign(member, loaded, (), HELD, HELD, "dropped", Conditions(), FLOORS)
    found = [item for item in check_steel_beam(one) if isinstance(item, Check) and ".point[" in item.key]
    return {item.key: (float(item.demand.number), float(item.limit.number)) for item in found}


def test_web_under_a_post_against_a_hand_sum() -> None:
    """J10.2, J10.3 (AISC 360-16): D + L on a W8x18 at midspan, its foot 3.5 in long, or without a length."""
    for l_b in (3.5, None):
        found = under(("post", SPAN / 2, l_b, {"D": 2000.0, "L": 3000.0}))
        length = l_b or 0.0
        yielding = 50_000 * 0.23 * (5 * 0.63 + length) / 1.5
        crippling = 0.8 * 0.23**2 * (1 + 3 * length / 8.14 * (0.23 / 0.33) ** 1.5) * ROOT / 2
        assert found["beam.point[1].web_yielding"] == pytest.approx((5000.0, yielding))
        assert found["beam.point[1].web_crippling"] == pytest.approx((5000.0, crippling))


def test_web_under_a_post_near_the_end_takes_less() -> None:
    """Within d of the end of the beam the force spreads one way, 2.5 k; within d/2 crippling has 0.40."""
    (yielding, crippling) = under(("post", 3.0, 0.0, {"D": 1000.0})).values()
    assert yielding[1] == pytest.approx(50_000 * 0.23 * 2.5 * 0.63 / 1.5)
    assert crippling[1] == pytest.approx(0.4 * 0.23**2 * ROOT / 2)


@pytest.mark.parametrize(("apart", "both"), [(11.6, True), (11.7, False)])
def test_posts_nearer_than_the_depth_press_together(apart: float, both: bool) -> None:
    """Feet of 3.5 in less than d = 8.14 in apart count together, each on its own foot; what lifts eases nothing."""
    lifting = ("tie", SPAN / 2, 3.5, {"D": -400.0})
    found = under(("a", 90.0, 3.5, {"D": 2000.0}), ("b", 90.0 + apart, 3.5, {"L": 700.0}), lifting)
    assert found["beam.point[1].web_yielding"][0] == (2700.0 if both else 2000.0)
    assert found["beam.point[2].web_yielding"][0] == (2700.0 if both else 700.0)


def test_what_only_lifts_presses_nothing() -> None:
    """A tie that pulls the beam up is no load on its web."""
    assert under(("tie", 90.0, None, {"D": -400.0})) == {}


def test_far_end_that_lifts_is_a_stop() -> None:
    """A short span beside a long one lifts under live load on the long one alone."""
    stops = [item for item in check_steel_beam(design(line=Line((0.0, 48.0, 240.0)))) if isinstance(item, Refer)]
    assert [stop.key for stop in stops] == ["beam.uplift[1]"]


def post(text: str, height: float, load: float) -> dict[str, object]:
    """Checks and stops of a steel post under half of its load and under all of it, by their keys."""
    member = read_steel(text, "post[1].member")
    assert member is not None
    one = taken("C_D", 1.0, "")
    cases = tuple(AxialCase(taken("P", P, "", unit="lb"), one, when) for P, when in ((load / 2, "D"), (load, "D + L")))
    found = check_steel_post(SteelPostDesign("post[1]", member, inches("h", height), cases))
    return {item.key: item for item in found if isinstance(item, Check | Refer)}


def test_pipe_post_against_a_hand_sum() -> None:
    """Pipe 3 standard, 8 ft, F_y 35 ksi: Kl/r 82, F_cr 0.658^(F_y/F_e) F_y, P_n over 1.67."""
    found = post("Pipe 3STD", 96.0, 12_000.0)
    column = found["post[1].column"]
    assert isinstance(column, Check)
    euler = math.pi**2 * 29e6 / (96 / 1.17) ** 2
    assert column.limit.number == pytest.approx(0.658 ** (35_000 / euler) * 35_000 * 2.07 / 1.67)
    assert (column.demand.number, column.when, column.word) == (12_000.0, "D + L", "within")
    slender = found["post[1].slenderness"]
    assert isinstance(slender, Check)
    assert slender.ratio == pytest.approx(96 / 1.17 / 200)


def test_slender_wall_is_a_stop_and_no_figure() -> None:
    """A tube whose wall buckles first gets no allowable load: E3 does not hold for it."""
    found = post("HSS6X6X1/8", 96.0, 12_000.0)
    assert isinstance(found["post[1].column"], Refer)
    wall = found["post[1].wall"]
    assert isinstance(wall, Check)
    assert wall.word == "over"


@pytest.mark.parametrize(
    ("text", "size", "grade", "F_y"),
    [
        ("W8x18", "W8X18", "A36", 36),
        ("w 8 × 18 a992", "W8X18", "A992", 50),
        ("W6x8.5 A992", "W6X8.5", "A992", 50),
        ("Pipe 3STD", "Pipe 3STD", "A53 Gr.B", 35),
        ("pipe 3-1/2 xs", "Pipe 3-1/2XS", "A53 Gr.B", 35),
        ("HSS3X3X1/4", "HSS3X3X1/4", "A500 Gr.B", 46),
        ("hss 3-1/2 x 3-1/2 x 3/16 A500 grade C", "HSS3-1/2X3-1/2X3/16", "A500 Gr.C", 50),
    ],
)
def test_steel_is_read_as_the_yard_names_it(text: str, size: str, grade: str, F_y: float) -> None:
    """Case and spaces do not matter; where no steel is named the weakest of the shape's own stands in."""
    member = read_steel(text, "beam.member")
    assert member is not None
    assert (member.size, member.grade, member["F_y"].number) == (size, grade, F_y)
    assert is_w_shape(member) == size.startswith("W")


def test_a_steel_that_stands_in_is_said() -> None:
    """W8x18 without a steel carries a remark; named, it carries none."""
    loose, named = read_steel("W8x18", "x"), read_steel("W8x18 A36", "x")
    assert loose is not None
    assert named is not None
    assert loose.remarks
    assert not named.remarks


@pytest.mark.parametrize("text", ["2-ply 2x10 Douglas Fir-Larch No.2", "Western Cedars 6x6", "6x6 Hem-Fir No.1", ""])
def test_what_is_not_steel_is_left_to_others(text: str) -> None:
    """Wood is None here, not an error."""
    assert read_steel(text, "beam.member") is None


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("W8x99", "sections/steel_w"),
        ("W12x1", "sections/steel_w"),
        ("HSS3x3x1/44", "sections/steel_posts"),
        ("W8x18 A500", "A36"),
        ("Pipe 3STD oak", "A53"),
    ],
)
def test_unknown_steel_is_refused_with_what_would_do(text: str, part: str) -> None:
    """A shape or a steel that no table has raises, naming the place, the table and the nearest."""
    with pytest.raises(InputError, match=part) as error:
        read_steel(text, "beam.member")
    assert error.value.faults[0].where == "beam.member"


def test_every_listed_shape_is_read_back() -> None:
    """Each row of both tables is found by its own name and by no shorter one."""
    for table in ("sections/steel_w", "sections/steel_posts"):
        for row in tables.load(table).rows:
            member = read_steel(row.text("shape").lower(), "x")
            assert member is not None
            assert member.size == row.text("shape")


def test_a_foot_that_nobody_measured_is_told_as_assumed() -> None:
    """A strut on a steel beam: its foot stands in as an edge, and is listed; on wood nothing asks for it."""
    demo = Path(beamcheck.__file__).parent / "survey" / "demo.toml"
    text = demo.read_text(encoding="utf-8")
    steel = re.sub(r'(\[beam\]\nmember = )"[^"]+"', r'\1"W8X13 A992"', text)
    assert steel != text
    found = [{entry.where: entry.text for entry in assumed(study(read_text(one.encode())))} for one in (text, steel)]
    assert ["carried[3].foot_length" in entries for entries in found] == [False, True]
    assert found[1]["carried[3].foot_length"] == "0 in"
