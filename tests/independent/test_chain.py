"""Laws of the whole chain: nothing is lost on the way down, more load never helps, and a gap is never a gain."""

import re
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.study.chain import study
from beamcheck.study.types import Study
from beamcheck.survey.reader import read_text
from beamcheck.trace import Check, Missing, Schedule, Value, items

HOUSES = {path.stem: path.read_text() for path in sorted((Path(__file__).parent.parent / "houses").glob("*.toml"))}
POSTS = ("4x4 Douglas Fir-Larch No.2", "6x6 Hem-Fir No.2", "3-ply 2x6 Southern Pine No.2", "Pipe 3STD")
GIRDERS = ("3-ply 2x10 Douglas Fir-Larch No.2", "6x10 Southern Pine No.1", "W8x18 A992")


def made(text: str) -> Study:
    """The study of a survey's text."""
    return study(read_text(text.encode()))


def ratios(found: Study) -> dict[str, float]:
    """Utilisations by key."""
    return {item.key: float(item.ratio) for item in items(found.sheet) if isinstance(item, Check)}


def balance(found: Study) -> Schedule:
    """The table of what is put in and what arrives."""
    return next(item for item in items(found.sheet) if isinstance(item, Schedule) and item.key == "soil.balance")


def row(table: Schedule, name: str) -> dict[str, float]:
    """A row of it as figures by load type."""
    cells = next(cells for cells in table.rows if cells[0] == name)
    pairs = zip(table.heads[1:], cells[1:], strict=True)
    return {head: float(cell.number) for head, cell in pairs if isinstance(cell, Value)}


class Sketch:
    """An invented survey whose figures can be drawn at random; lengths in inches."""

    def __init__(self, draw: st.DrawFn) -> None:
        number = lambda *ends: draw(st.integers(*ends))  # noqa: E731
        self.opening = number(96, 260)
        self.spans = number(60, 200), number(0, 200)
        self.dead, self.live, self.snow = number(5, 40), number(10, 60), number(0, 50)
        self.point, self.at = number(0, 4000), number(0, 90)
        self.middle = draw(st.booleans())
        self.overhang = draw(st.sampled_from((0, 0, 14)))
        self.posts = [draw(st.sampled_from(POSTS)) for _ in range(3)]
        self.girder = draw(st.sampled_from(GIRDERS))
        self.supports = sorted({0, *(number(40, 340) for _ in range(3))})
        self.station = number(0, self.supports[-1])
        self.pad = number(18, 48)

    def text(self, more: float = 1.0) -> str:
        """The survey, its loads times a factor."""
        count = 3 if self.middle else 2
        return "\n".join((self.head(more), *(self.post(number, count) for number in range(count)), self.below(count)))

    def head(self, more: float) -> str:
        span_a, span_b = self.spans
        return f"""
[study]
title = "sketch"
[site]
loads = "ASCE 7-16"
ground_snow = "{self.snow} psf"
[wall]
clear_opening = "{self.opening} in"
ceiling_height = "96 in"
[[carried]]
name = "floor"
kind = "floor"
span_a = "{span_a} in"
span_b = "{span_b} in"
continuity = "lapped"
dead = "{self.dead * more} psf"
live = "{self.live * more} psf"
[[carried]]
name = "strut"
kind = "strut"
station = "{self.at} in"
area = "{30 * more} ft^2"
pitch = "6:12"
dead = "15 psf"
[[carried]]
name = "post above"
kind = "point"
station = "{self.at} in"
dead_load = "{self.point * more} lb"
live_load = "{self.point * more / 2} lb"
[beam]
member = "3-ply 1-3/4x14 LVL"
position = "dropped"
overhang_right = "{self.overhang} in"
"""

    def post(self, number: int, count: int) -> str:
        steel = self.posts[number].startswith("Pipe")
        seat = 'seat = "steel plate"\nseat_length = "5 in"\nseat_breadth = "6 in"\nseat_thickness = "1 in"'
        station = f'station = "{self.opening / 2} in"\n' if 0 < number < count - 1 else ""
        return f"""
[[post]]
member = "{self.posts[number]}"
held = "in wall"
{station}{seat if steel else 'seat = "cap"'}
base_length = "6 in"
base_breadth = "6 in"
blocking = "full area"
stands_on = "{"girder" if number == 0 else "pad"}"
"""

    def below(self, count: int) -> str:
        supports = ", ".join(f"{support} in" for support in self.supports)
        pads = "".join(
            f"""
[[pad]]
under = "post {number}"
state = "new"
length = "{self.pad} in"
breadth = "{self.pad} in"
thickness = "14 in"
"""
            for number in range(2, count + 1)
        )
        return f"""
[[girder]]
name = "girder"
member = "{self.girder}"
supports = "{supports}"
posts = "post 1"
post_stations = "{self.station} in"
bearing_length = "4 in"
span_a = "120 in"
span_b = "96 in"
continuity = "one piece"
dead_line = "40 plf"
snow_line = "20 plf"
{pads}"""


sketches = st.composite(Sketch)()


@settings(max_examples=40, deadline=None)
@given(sketches)
def test_what_is_put_in_arrives_at_the_ground(sketch: Sketch) -> None:
    """Of each load type the sum at the ground is the sum of all that was put on, to one part in 1e9."""
    table = balance(made(sketch.text()))
    put_in, arrives = row(table, "all that is put in"), row(table, "all that arrives")
    assert put_in.keys() == arrives.keys() >= {"dead", "live"}
    for name, load in put_in.items():
        assert arrives[name] == pytest.approx(load, rel=1e-9, abs=1e-6)


@settings(max_examples=40, deadline=None)
@given(sketches)
def test_what_is_put_in_is_the_surveys_own_sum(sketch: Sketch) -> None:
    """The live load put on the beam is psf times width times length, and the point, by a sum of our own."""
    table = balance(made(sketch.text()))
    posts = [3.5 if "4x4" in post else 5.5 if "6x6" in post else 4.5 if "ply" in post else 3.5 for post in sketch.posts]
    last = posts[2] if sketch.middle else posts[1]
    length = sketch.opening + posts[0] / 2 + last / 2 + sketch.overhang
    live = sketch.live * sum(sketch.spans) / 24 * length / 12 + sketch.point / 2
    assert row(table, "on the beam, its weight included")["live"] == pytest.approx(live, rel=1e-9)


@settings(max_examples=25, deadline=None)
@given(sketches, st.floats(1.01, 1.6))
def test_more_load_never_lowers_a_utilisation(sketch: Sketch, more: float) -> None:
    """On one span every check of beam, posts and pads works at least as hard when all gravity loads grow.

    Lines of several spans and overhangs are left out: what loads one bay may relieve another, or lift its end.
    """
    sketch.middle, sketch.overhang = False, 0
    before, after = ratios(made(sketch.text())), ratios(made(sketch.text(more)))
    for key, ratio in before.items():
        if not key.startswith("girder"):
            assert after[key] >= ratio - 1e-9, key


@settings(max_examples=15, deadline=None)
@given(sketches, st.floats(1.01, 1.6))
def test_more_load_never_eases_a_girder_of_one_span(sketch: Sketch, more: float) -> None:
    """On two supports every check of the girder works at least as hard when the post on it brings more."""
    sketch.middle, sketch.overhang, sketch.supports = False, 0, [0, sketch.supports[-1]]
    before, after = ratios(made(sketch.text())), ratios(made(sketch.text(more)))
    found = [key for key in before if key.startswith("girder")]
    assert found
    for key in found:
        assert after[key] >= before[key] - 1e-9, key


LINKS = {
    "stands_on": r"(?m)^stands_on = .*$",
    "seat": r"(?m)^seat = .*$",
    "notch_depth": r"(?m)^notch_depth = .*$",
    "seated_plies": r"(?m)^seated_plies = .*$",
    "seat_length": r"(?m)^seat_length = .*$",
    "seat_breadth": r"(?m)^seat_breadth = .*$",
    "seat_thickness": r"(?m)^seat_thickness = .*$",
    "fastener": r"(?m)^fastener = .*$",
    "blocking": r"(?m)^blocking = .*$",
    "a girder": r"(?ms)^\[\[girder\]\].*?(?=^\[|\Z)",
    "a pad": r"(?ms)^\[\[pad\]\].*?(?=^\[|\Z)",
    "bearing_length": r"(?m)^bearing_length = .*$",
    "span of the girder's joists": r"(?ms)(?<=^moisture = \{ value = \"dry\", trust = \"seen\" \}\n)span_a = [^\n]*$",
    "pier_length": r"(?m)^pier_length = .*$",
    "pad breadth": r"(?m)^breadth = .*$",
}


@pytest.mark.parametrize("house", HOUSES)
@pytest.mark.parametrize("link", LINKS)
def test_taking_a_link_out_shows_a_gap_and_never_a_gain(house: str, link: str) -> None:
    """Each link that is struck out of a survey makes the study not shown, and raises no utilisation's room."""
    text = HOUSES[house]
    before = made(text)
    for match in re.finditer(LINKS[link], text):
        struck = text[: match.start()] + text[match.end() :]
        if link == "a girder":
            struck = re.sub(LINKS["a pad"], "", struck)
        after = made(struck)
        assert "not shown" in after.by_word, match.group()
        known = ratios(before)
        for key, ratio in ratios(after).items():
            if not key.startswith("pad["):  # the pads that stay are numbered anew
                assert ratio >= known.get(key, 0.0) - 1e-9, (match.group(), key)
        assert gaps(after) - gaps(before), match.group()


def gaps(found: Study) -> set[str]:
    """Keys of what is not shown."""
    return {item.key for item in items(found.sheet) if isinstance(item, Missing)}


KEPT = {
    "seat_length": "a seat that is told to be shorter than the post is a fact; left out, the whole side counts",
    "eccentricity": "left out, a sixth of the side stands in",
    "gap": "what may close by so much is a wish, not a strength",
    "dead_line": "a load, not a strength",
    "live": "left out, the table's figure for the use stands in",
    "splices": "a fact that somebody must tell",
    "length": "of a new pad: left out, it is sized",
    "thickness": "of a new pad: left out, it is sized",
}


@pytest.mark.parametrize("house", HOUSES)
def test_striking_out_any_entry_of_the_chain_is_never_a_gain(house: str) -> None:
    """Each entry under a post, girder or pad, struck out, leaves every utilisation as high, or the study not shown."""
    text = HOUSES[house]
    whole = made(text)
    before = ratios(whole)
    sized = "pad[2]" if house == "slab_house" else "none"  # a pad without sides grows with its load
    part = ""
    for line in text.splitlines():
        heading = re.match(r"\[+(\w+)\]", line)
        part = heading[1] if heading else part
        key = line.partition(" = ")[0]
        if heading or not line or line.startswith("#") or part not in ("post", "girder", "pad", "site", "wall", "beam"):
            continue
        if key in KEPT or key in ("member", "name", "supports", "under", "state", "position", "clear_opening"):
            continue
        if key in ("ceiling_height", "post_stations", "posts", "station", "note"):
            continue
        after = made(text.replace(f"{line}\n", "", 1))
        if not gaps(after) - gaps(whole):
            for name, ratio in ratios(after).items():
                if not name.startswith(sized):
                    assert ratio >= before.get(name, 0.0) - 1e-9, (line, name)


def test_the_post_over_a_pier_brings_its_load_to_that_pier() -> None:
    """A post right over a support of the girder loads that support alone: statics."""
    text = HOUSES["long_line"].replace("8 ft 5 in, 18 ft 7 in", "8 ft 2 in, 16 ft 0 in")
    table = balance(made(text))
    assert row(table, "post 1") == pytest.approx(row(balance(made(HOUSES["long_line"])), "post 1"))
    below = [row(table, f"cellar girder support {number}") for number in (1, 4)]
    w_live = 40 * (11 + 9 + 4 / 12) / 2
    first = three_moment_reactions((98.0, 94.0, 90.0), w_live / 12)
    assert below[0]["live"] == pytest.approx(first[0], rel=1e-9)
    assert below[1]["live"] == pytest.approx(first[3], rel=1e-9)


def three_moment_reactions(spans: tuple[float, float, float], w: float) -> tuple[float, float, float, float]:
    """Reactions of a line of three spans under a uniform load, by the three-moment equation written out."""
    a, b, c = spans
    p, q = w * (a**3 + b**3) / 4, w * (b**3 + c**3) / 4
    determinant = 4 * (a + b) * (b + c) - b * b
    B = -(2 * (b + c) * p - b * q) / determinant
    C = -(2 * (a + b) * q - b * p) / determinant
    R1 = w * a / 2 + B / a
    R4 = w * c / 2 + C / c
    R2 = w * (a + b) / 2 - B / a + (C - B) / b
    R3 = w * (b + c) / 2 - C / c + (B - C) / b
    return R1, R2, R3, R4
