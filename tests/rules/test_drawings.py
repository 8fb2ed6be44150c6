"""The drawings: plain, black and white, readable, to scale, and with every label inside its frame."""

import re
import xml.etree.ElementTree as ET
from importlib.resources import files
from pathlib import Path

import pytest

from beamcheck.beam.model import Line, Point, Spread
from beamcheck.beam.solver import solve
from beamcheck.study.chain import study
from beamcheck.survey.reader import read_text
from beamcheck.views import diagrams, drawing, elevation, plan

SURVEYS = {path.stem: path.read_bytes() for path in sorted((Path(__file__).parent / "sheets").glob("*.toml"))}
SURVEYS |= {path.stem: path.read_bytes() for path in sorted((Path(__file__).parents[1] / "houses").glob("*.toml"))}
SURVEYS["demo"] = (files("beamcheck.survey") / "demo.toml").read_bytes()
SVG = "{http://www.w3.org/2000/svg}"
PLAIN = {"svg", "title", "desc", "line", "rect", "polygon", "polyline", "path", "text"}
INKS = {"#000", "#fff", "none", drawing.GREY, drawing.PALE}


@pytest.fixture(scope="module", params=sorted(SURVEYS))
def made(request):
    """Each survey, studied."""
    return study(read_text(SURVEYS[request.param]))


@pytest.fixture(scope="module")
def drawn(made) -> list[ET.Element]:
    """All its drawings."""
    sources = [elevation.before(made), elevation.after(made), plan.plan(made), *diagrams.diagrams(made)]
    sources += [drawing.utilisation(0.5, word, word) for word in ("within", "close", "over", "refer")]
    return [tree_of(source) for source in sources]


def tree_of(source: str) -> ET.Element:
    """A drawing as a tree."""
    return ET.fromstring(source)  # noqa: S314  our own drawing


def test_plain_shapes_in_black_white_and_grey(drawn) -> None:
    """Only shapes that every engine draws alike, only ink that any printer has, and a title and description first."""
    for svg in drawn:
        assert {element.tag.removeprefix(SVG) for element in svg.iter()} <= PLAIN
        inks = {element.get(name) for element in svg.iter() for name in ("fill", "stroke")} - {None}
        assert inks <= INKS
        assert [child.tag.removeprefix(SVG) for child in svg[:2]] == ["title", "desc"]
        assert all(child.text for child in svg[:2])


def test_lettering_is_never_small(drawn) -> None:
    """No letter is lower than 13 units."""
    sizes = [float(text.get("font-size")) for svg in drawn for text in svg.iter(f"{SVG}text")]
    assert sizes
    assert min(sizes) >= 13


def test_every_label_lies_inside_its_drawing(drawn) -> None:
    """No label is cut off by the frame, whatever the survey."""
    for svg in drawn:
        _, _, width, height = map(float, svg.get("viewBox").split())
        for text in svg.iter(f"{SVG}text"):
            x, y, wide = float(text.get("x")), float(text.get("y")), drawing.width_of(text.text)
            left = x - {"start": 0, "middle": wide / 2, "end": wide}[text.get("text-anchor")]
            assert left >= -0.5, text.text
            assert left + wide <= width + 0.5, text.text
            assert 9 <= y <= height, text.text


def test_no_two_labels_overlap(drawn) -> None:
    """Labels of one drawing keep clear of each other."""
    for svg in drawn:
        boxes = []
        for text in svg.iter(f"{SVG}text"):
            x, y, wide = float(text.get("x")), float(text.get("y")), drawing.width_of(text.text)
            left = x - {"start": 0, "middle": wide / 2, "end": wide}[text.get("text-anchor")]
            boxes.append((left, y - 9, left + wide, y, text.text))
        for number, (a, b, c, d, first) in enumerate(boxes):
            for e, f, g, h, second in boxes[number + 1 :]:
                assert c <= e + 1 or g <= a + 1 or d <= f or h <= b, (first, second)


def test_the_opening_is_to_scale(made) -> None:
    """The clear opening on paper is to the ceiling height as in the house, and the scale bar agrees."""
    svg = tree_of(elevation.before(made))
    gone = next(rect for rect in svg.iter(f"{SVG}rect") if rect.get("stroke-dasharray") == "6 4")
    wide, high = float(gone.get("width")), float(gone.get("height"))
    wall = made.survey.wall
    assert wide / high == pytest.approx(wall.clear_opening.number / wall.ceiling_height.number, rel=2e-3)
    half = next(rect for rect in svg.iter(f"{SVG}rect") if rect.get("height") == "5")
    length = 1000 / 25.4 if made.survey.about.dimensions == "metric" else 36
    assert 2 * float(half.get("width")) / length == pytest.approx(high / wall.ceiling_height.number, rel=2e-2)


def test_each_item_is_drawn_with_its_loads(made) -> None:
    """Up to nine carried items stand on the elevation with every load type they bring; more are counted."""
    bands = elevation.carried_bands(made)
    if made.loaded is None:
        assert bands == ()
        return
    names = {source.where for source in made.loaded.sources}
    assert len(bands) == min(len(names), elevation.MOST_BANDS)
    if len(names) <= elevation.MOST_BANDS:
        types = sorted(source.load_type for source in made.loaded.sources)
        assert sorted(re.findall(r"\b(D|Lr|L|S) [\d,]+", " ".join(band.loads for band in bands))) == types


def test_bars_differ_by_pattern() -> None:
    """Within, close, over and no figure are told apart without colour and without reading."""
    within, close, over, none = (
        tree_of(drawing.utilisation(0.95, word, word)) for word in ("within", "close", "over", "refer")
    )
    assert [rect.get("fill") for rect in within.iter(f"{SVG}rect")] == [drawing.GREY]
    assert len(list(close.iter(f"{SVG}line"))) > len(list(within.iter(f"{SVG}line"))) + 5
    assert [rect.get("fill") for rect in over.iter(f"{SVG}rect")] == ["#000"]
    assert [rect.get("stroke-dasharray") for rect in none.iter(f"{SVG}rect")] == ["3 3"]


def test_a_longer_bar_is_a_greater_ratio() -> None:
    """The bar grows with the utilisation up to 1.25, and 0.999 ends left of the tick, 1.001 right of it."""

    def reach(number: float) -> float:
        return float(tree_of(drawing.utilisation(number, "over", "x")).find(f"{SVG}rect").get("width"))

    assert reach(0.2) < reach(0.8) < reach(0.999) < 120 < reach(1.001) < reach(1.2) < reach(3) == reach(1e9)


def test_moment_curve_is_exact() -> None:
    """The Bezier pieces of shear and moment go through the solved line in the middle of every piece."""
    line = Line((0.0, 100.0, 180.0))
    response = solve(line, (Spread(10.0, 150.0, 2.0, 7.0), Point(60.0, 300.0), Point(170.0, 90.0)))
    panel = diagrams.Panel(0.0, 1.0, 0.0, 1.0)
    for piece in response.pieces:
        h = piece.end - piece.start
        middle = piece.start + h / 2
        ends = (piece.V, diagrams._shear_at(piece, h))
        slopes = (-piece.q0, -(piece.q0 + piece.slope * h))
        for start, bend, exact in (
            (piece.M, diagrams._moment_bend(panel, piece), response.moment(middle)),
            (piece.V, diagrams._bend(panel, piece, ends, slopes), response.shear(middle, "right")),
        ):
            (_, a), (_, b), (_, end) = bend
            on_curve = (-panel.at(0, start)[1] - 3 * a - 3 * b - end) / 8
            assert on_curve == pytest.approx(exact, rel=1e-9, abs=1e-6)


@pytest.mark.parametrize(
    ("words", "room", "shown"),
    [("girder", 60.0, "girder"), ("post-tensioned slab", 80.0, "post-tens…"), ("x" * 400, 100.0, "x" * 11 + "…")],
)
def test_labels_are_cut_with_a_mark(words, room, shown) -> None:
    """A label that is wider than its room is cut and marked, never squeezed or run over the edge."""
    assert drawing.fitted(words, room) == shown
    assert drawing.width_of(drawing.fitted(words, room)) <= room
