"""Shear, moment and deflection along the beam, one under the other on one axis, with the case that each shows."""

from collections.abc import Iterable
from typing import NamedTuple

from beamcheck.beam.response import Piece, Response
from beamcheck.study.shapes import Shape, deflection_shapes, moment_shapes, shear_shape
from beamcheck.study.types import Study
from beamcheck.views import drawing
from beamcheck.views.drawing import LETTER, PALE, Anchor, Place
from beamcheck.views.words import moved, placed, station

WIDTH = 840.0
_LEFT, _WIDE = 70.0, 700.0
_SAMPLES = 24
_DASHES = ("", "7 4")
_STROKES = ("solid", "dashed")


class Panel(NamedTuple):
    """One diagram: the axis it is drawn on, and units of paper per unit of the figure (down is negative)."""

    axis: float
    scale: float
    start: float
    across: float

    def at(self, place: float, number: float) -> Place:
        """Where a station and a figure come on the paper."""
        return _LEFT + (place - self.start) * self.across, self.axis - number * self.scale


def diagrams(study: Study) -> tuple[str, ...]:
    """The beam with its shear, its moments and its deflections, one drawing each on the same axis.

    Nothing but a sentence where the line was not solved.
    """
    if study.loaded is None:
        words = "Diagrams are not shown: the take-down is not complete."
        return (drawing.figure(WIDTH, 30, "Diagrams", words, [drawing.label((6, 20), words)]),)
    found = []
    for name, top, draw in (("Shear", 60.0, _shear), ("Moment", 0.0, _moment), ("Deflection", 0.0, _deflection)):
        parts, high, told = draw(study, top)
        if parts:
            above = [_beam(study)] if top else []
            found.append(drawing.figure(WIDTH, top + high, name, told, [*above, *parts]))
    return tuple(found)


def _beam(study: Study) -> str:
    """The line with its supports, and where point loads stand."""
    assert study.loaded is not None
    panel = _panel(study, 26, 1.0)
    line = study.loaded.line
    parts = [drawing.line(panel.at(line.start, 0), panel.at(line.end, 0), 4)]
    for number, support in enumerate(line.supports, 1):
        x, y = panel.at(support, 0)
        parts.append(drawing.polygon(((x, y + 2), (x - 8, y + 15), (x + 8, y + 15)), "#fff", 1.2))
        parts.append(drawing.label((x, y + 30), f"post {number}", Anchor.MIDDLE))
    loads = {float(source.station.to("in")) for source in study.loaded.sources if source.station is not None}
    for place in sorted(loads):
        x, y = panel.at(place, 0)
        parts.append(drawing.arrow((x, y - 24), (x, y - 2), 1.4))
        parts.append(drawing.label((x + 6, y - 12), station(place, study.survey.about.dimensions)))
    return "".join(parts)


def _shear(study: Study, y: float) -> tuple[list[str], float, str]:
    shape = shear_shape(study)
    if shape is None:
        return [], 0.0, ""
    pieces = shape.response.pieces
    faces = [shear for piece in pieces for shear in (piece.V, _shear_at(piece, piece.end - piece.start))]
    head, parts = _titled(
        y, "Shear V, lb", "up: the part left of a cut is pushed up", [f"governs: {_case(study, shape)}"]
    )
    panel, high = _framed(study, y + head + 8, faces, 42)
    parts.append(drawing.curve(panel.at(pieces[0].start, 0), _steps(panel, pieces), 1.6, fill=PALE))
    parts.append(_axis(study, panel))
    for place in shape.response.line.supports:
        parts += _face_labels(panel, shape.response, place)
    return parts, head + high + 10, f"Shear, {shape.case}: {abs(shape.peak):,.0f} lb."


def _moment(study: Study, y: float) -> tuple[list[str], float, str]:
    shapes = moment_shapes(study)
    if not shapes:
        return [], 0.0, ""
    sizes = [piece.M for shape in shapes for piece in shape.response.pieces] + [shape.peak for shape in shapes]
    only = len(shapes) == 1
    cases = [f"{'governs' if only else _STROKES[row]}: {_case(study, shape)}" for row, shape in enumerate(shapes)]
    head, parts = _titled(y, "Moment M", "up: sagging, tension below", cases)
    panel, high = _framed(study, y + head + 12, sizes, 44)
    for row, shape in enumerate(shapes):
        first = shape.response.pieces[0]
        bends = [_moment_bend(panel, piece) for piece in shape.response.pieces]
        fill = PALE if row == 0 else "none"
        parts.append(drawing.curve(panel.at(first.start, first.M), bends, 1.6, _DASHES[row], fill))
    parts.append(_axis(study, panel))
    parts += [_peak(panel, shape) for shape in shapes]
    told = " ".join(f"Moment, {shape.name}, {shape.case}: {_moment_text(shape.peak)}." for shape in shapes)
    return parts, head + high + 4 + 16 * any(shape.peak < 0 for shape in shapes), told


def _deflection(study: Study, y: float) -> tuple[list[str], float, str]:
    shapes = deflection_shapes(study)
    if not shapes:
        return [], 0.0, ""
    cases = [f"{_STROKES[row]}, {shape.name}: {_case(study, shape)}" for row, shape in enumerate(shapes)]
    head, parts = _titled(y, "Deflection", "not to the scale of the beam", cases)
    sunk = [-shape.response.deflection(place, 1.0) for shape in shapes for place in _stations(shape.response)]
    panel, high = _framed(study, y + head, sunk, 28)
    for row, shape in enumerate(shapes):
        run = [panel.at(place, -shape.response.deflection(place, 1.0)) for place in _stations(shape.response)]
        parts.append(drawing.polyline(run, 1.6, _DASHES[row]))
    parts.append(_axis(study, panel))
    lowest = panel.at(0, min(sunk))[1]
    moves = [_moved(study, shape) for shape in shapes]
    for row, (shape, down) in enumerate(zip(shapes, moves, strict=True)):
        parts.append(_sunk_label(panel, shape, (row, f"{_STROKES[row]} {down}"), lowest))
    told = " ".join(f"Deflection under {shape.name}: {down}." for shape, down in zip(shapes, moves, strict=True))
    return parts, head + high + 8, told


def _panel(study: Study, axis: float, scale: float) -> Panel:
    assert study.loaded is not None
    line = study.loaded.line
    return Panel(axis, scale, line.start, _WIDE / (line.end - line.start))


def _framed(study: Study, y: float, sizes: list[float], high: float) -> tuple[Panel, float]:
    """The panel whose greatest and least figures fill the height from y down, and the height with a gap below."""
    most, least = max(*sizes, 0.0), min(*sizes, 0.0)
    scale = high / ((most - least) or 1.0)
    return _panel(study, y + most * scale, scale), high + 12


def _titled(y: float, name: str, sign: str, cases: list[str]) -> tuple[float, list[str]]:
    """What is drawn, which way is which, and the cases, each on the line while there is room. Height and parts."""
    left = 6 + drawing.width_of(name) + 12
    parts = [drawing.label((6, y + LETTER), name, bold=True), drawing.label((left, y + LETTER), sign)]
    at, row = left + drawing.width_of(sign) + 24, 0
    for text in cases:
        if at + drawing.width_of(text) >= 834:
            at, row = 6.0, row + 1
        parts.append(drawing.label((at, y + LETTER + 16 * row), drawing.fitted(text, 834 - at)))
        at += drawing.width_of(text) + 24
    return 24 + 16 * row, parts


def _axis(study: Study, panel: Panel) -> str:
    assert study.loaded is not None
    line = study.loaded.line
    ticks = [
        drawing.line((panel.at(s, 0)[0], panel.axis - 4), (panel.at(s, 0)[0], panel.axis + 4), 1.0)
        for s in line.supports
    ]
    return drawing.line(panel.at(line.start, 0), panel.at(line.end, 0), 0.8) + "".join(ticks)


def _steps(panel: Panel, pieces: tuple[Piece, ...]) -> Iterable[tuple[Place, Place, Place]]:
    """Shear from piece to piece, upright where a force stands; begins and ends on the axis."""
    before = panel.at(pieces[0].start, 0)
    for piece in pieces:
        h = piece.end - piece.start
        first, last = piece.V, _shear_at(piece, h)
        yield before, panel.at(piece.start, first), panel.at(piece.start, first)
        yield _bend(panel, piece, (first, last), (-piece.q0, -(piece.q0 + piece.slope * h)))
        before = panel.at(piece.end, last)
    end = panel.at(pieces[-1].end, 0)
    yield before, end, end


def _moment_bend(panel: Panel, piece: Piece) -> tuple[Place, Place, Place]:
    h = piece.end - piece.start
    last = piece.M + piece.V * h - piece.q0 * h**2 / 2 - piece.slope * h**3 / 6
    return _bend(panel, piece, (piece.M, last), (piece.V, _shear_at(piece, h)))


def _bend(
    panel: Panel, piece: Piece, ends: tuple[float, float], slopes: tuple[float, float]
) -> tuple[Place, Place, Place]:
    """The Bezier piece of a cubic with the given ends and slopes: exact, no sampling."""
    third = (piece.end - piece.start) / 3
    first = panel.at(piece.start + third, ends[0] + slopes[0] * third)
    second = panel.at(piece.end - third, ends[1] - slopes[1] * third)
    return first, second, panel.at(piece.end, ends[1])


def _shear_at(piece: Piece, x: float) -> float:
    return piece.V - piece.q0 * x - piece.slope * x**2 / 2


def _stations(response: Response) -> list[float]:
    return [p.start + (p.end - p.start) * k / _SAMPLES for p in response.pieces for k in range(_SAMPLES + 1)]


def _face_labels(panel: Panel, response: Response, place: float) -> list[str]:
    """Shear on both faces of a support: over the curve where it is positive, under it where it is negative."""
    parts = []
    for anchor, gap, shear in (
        (Anchor.END, -4.0, response.shear(place, "left")),
        (Anchor.START, 4.0, response.shear(place, "right")),
    ):
        if abs(shear) >= 1:
            x, y = panel.at(place, shear)
            parts.append(drawing.label((x + gap, y + (-4 if shear > 0 else LETTER)), _signed(shear), anchor))
    return parts


def _case(study: Study, shape: Shape) -> str:
    return placed(shape.case, shape.station, study.survey.about.dimensions)


def _signed(number: float) -> str:
    return f"{number:,.0f}".replace("-", "\u2212")


def _peak(panel: Panel, shape: Shape) -> str:
    words = _moment_text(shape.peak)
    x, y = panel.at(shape.station, shape.peak)
    half = drawing.width_of(words) / 2
    middle = min(max(x, half + 6), 834 - half)
    mark = drawing.line((x, y), (x, panel.axis), 0.6, "2 3")
    return mark + drawing.backed((middle, y - 5 if shape.peak > 0 else y + LETTER + 2), words, Anchor.MIDDLE, bold=True)


def _moment_text(moment: float) -> str:
    return f"{abs(moment):,.0f} lb·in ({abs(moment) / 12:,.0f} lb·ft)"


def _sunk_label(panel: Panel, shape: Shape, told: tuple[int, str], lowest: float) -> str:
    """A mark at the lowest place of a shape; its figure under all of them, to the left for the first, else right."""
    x, y = panel.at(shape.station, -shape.peak)
    anchor, gap = ((Anchor.END, -4.0), (Anchor.START, 4.0))[told[0]]
    mark = drawing.line((x, y - 4), (x, lowest + 6), 0.6, "2 3")
    return mark + drawing.label((x + gap, lowest + LETTER + 4), told[1], anchor, bold=True)


def _moved(study: Study, shape: Shape) -> str:
    assert shape.figure is not None
    return moved(float(shape.figure.number), study.survey.about.dimensions)
