"""Draw in SVG: the plain subset that browsers and the printed page show alike, in black, white and one grey.

Lettering is one monospaced face, so the width of every label is known before it is set and none runs into another.
No colour, no style sheet, no marker, no pattern: arrowheads are polygons and hatching is lines.
"""

from collections.abc import Iterable, Sequence
from enum import StrEnum
from functools import lru_cache
from html import escape

LETTER = 13.0
"""Height of the lettering; smaller does not read once the page is printed."""

ADVANCE = 0.602
"""Width of one letter as a share of its height."""

GREY = "#b4b4b4"
PALE = "#e6e6e6"
_FACE = "'DejaVu Sans Mono', 'Liberation Mono', Menlo, Consolas, monospace"

Place = tuple[float, float]


class Anchor(StrEnum):
    """Which end of a label stands at its place."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


def figure(width: float, height: float, title: str, description: str, parts: Iterable[str]) -> str:
    """A whole drawing; title and description are what a screen reader says."""
    size = f'viewBox="0 0 {_n(width)} {_n(height)}" width="{_n(width)}" height="{_n(height)}"'
    told = f"<title>{_text(title)}</title><desc>{_text(description)}</desc>"
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size} role="img">{told}{"".join(parts)}</svg>'


def line(start: Place, end: Place, width: float = 1.0, dash: str = "") -> str:
    """A straight stroke; dash as SVG writes it, such as "4 3"."""
    ends = f'x1="{_n(start[0])}" y1="{_n(start[1])}" x2="{_n(end[0])}" y2="{_n(end[1])}"'
    return f"<line {ends} {_stroke(width, dash)}/>"


def box(corner: Place, size: Place, fill: str = "none", width: float = 1.0, dash: str = "") -> str:
    """A rectangle from its upper left corner; a width of zero leaves the edge out."""
    edge = _stroke(width, dash) if width else 'stroke="none"'
    at = f'x="{_n(corner[0])}" y="{_n(corner[1])}" width="{_n(size[0])}" height="{_n(size[1])}"'
    return f'<rect {at} fill="{fill}" {edge}/>'


def polygon(corners: Sequence[Place], fill: str = "#000", width: float = 0.0) -> str:
    """A closed shape."""
    edge = _stroke(width, "") if width else 'stroke="none"'
    return f'<polygon points="{_points(corners)}" fill="{fill}" {edge}/>'


def polyline(places: Sequence[Place], width: float = 1.0, dash: str = "") -> str:
    """An open run of straight strokes."""
    return f'<polyline points="{_points(places)}" fill="none" {_stroke(width, dash)}/>'


def curve(
    start: Place, bends: Iterable[tuple[Place, Place, Place]], width: float = 1.0, dash: str = "", fill: str = "none"
) -> str:
    """A run of cubic Bezier pieces: each has its two control points and its end."""
    run = "".join(f" C {_pair(a)} {_pair(b)} {_pair(end)}" for a, b, end in bends)
    edge = _stroke(width, dash) if width else 'stroke="none"'
    return f'<path d="M {_pair(start)}{run}" fill="{fill}" {edge}/>'


def label(at: Place, words: str, anchor: Anchor = Anchor.START, *, bold: bool = False) -> str:
    """A line of lettering on its base line."""
    weight = ' font-weight="bold"' if bold else ""
    face = f'font-family="{_FACE}" font-size="{_n(LETTER)}" fill="#000" text-anchor="{anchor}"{weight}'
    return f'<text x="{_n(at[0])}" y="{_n(at[1])}" {face}>{_text(words)}</text>'


def backed(at: Place, words: str, anchor: Anchor = Anchor.START, *, bold: bool = False) -> str:
    """A label on a white ground, for lettering that crosses lines."""
    wide = width_of(words)
    left = at[0] - {Anchor.START: 0.0, Anchor.MIDDLE: wide / 2, Anchor.END: wide}[anchor]
    ground = box((left - 2, at[1] - LETTER * 0.85), (wide + 4, LETTER * 1.15), "#fff", 0)
    return ground + label(at, words, anchor, bold=bold)


def width_of(words: str) -> float:
    """How wide a label comes out."""
    return len(words) * LETTER * ADVANCE


def fitted(words: str, width: float) -> str:
    """The words, cut with a mark where they are wider than the room there is."""
    most = max(int(width / (LETTER * ADVANCE)), 1)
    return words if len(words) <= most else f"{words[: most - 1].rstrip()}…"


def arrow(start: Place, tip: Place, width: float = 1.2) -> str:
    """A straight stroke with a head at its tip."""
    return line(start, tip, width) + head(start, tip)


def head(start: Place, tip: Place, size: float = 7.0) -> str:
    """An arrowhead alone, for the end of a stroke from ``start``."""
    across, up = tip[0] - start[0], tip[1] - start[1]
    length = (across * across + up * up) ** 0.5 or 1.0
    x, y = across / length * size, up / length * size
    return polygon(
        (tip, (tip[0] - x - y * 0.35, tip[1] - y + x * 0.35), (tip[0] - x + y * 0.35, tip[1] - y - x * 0.35))
    )


def across(y: float, left: float, right: float, words: str) -> str:
    """A dimension line from left to right, its words over the middle; beside it where there is no room."""
    parts = [line((left, y), (right, y), 0.7)]
    parts += [_tick(x, y) for x in (left, right)]
    if width_of(words) + 8 <= right - left:
        parts.append(backed(((left + right) / 2, y + LETTER * 0.36), words, Anchor.MIDDLE))
    else:
        parts.append(backed((right + 7, y + LETTER * 0.36), words))
    return "".join(parts)


def dimension_run(y: float, run: Sequence[tuple[Place, str]]) -> list[str]:
    """Dimension lines end to end; where one has no room for its words, all stand below, on two rows by turns."""
    if all(width_of(words) + 8 <= right - left for (left, right), words in run):
        return [across(y, left, right, words) for (left, right), words in run]
    parts = []
    for number, ((left, right), words) in enumerate(run):
        parts += [line((left, y), (right, y), 0.7), _tick(left, y), _tick(right, y)]
        parts.append(label(((left + right) / 2, y + LETTER * (1.3 if number % 2 == 0 else 2.3)), words, Anchor.MIDDLE))
    return parts


def upright(x: float, top: float, bottom: float, words: str, anchor: Anchor = Anchor.START) -> str:
    """A dimension line from top to bottom, its words beside it: to the right, or to the left for Anchor.END.

    Feet and inches stand under each other, so that the longest fraction needs little room.
    """
    gap = -8 if anchor is Anchor.END else 8
    parts = [line((x, top), (x, bottom), 0.7), _tick(x, top), _tick(x, bottom)]
    feet, ft, inches = words.partition(" ft ")
    rows = (f"{feet} ft", inches) if ft else (words,)
    base = (top + bottom) / 2 + LETTER * (0.36 if len(rows) == 1 else -0.2)
    parts += [label((x + gap, base + row * LETTER * 1.15), text, anchor) for row, text in enumerate(rows)]
    return "".join(parts)


@lru_cache(maxsize=256)
def hatched(corner: Place, size: Place, gap: float = 7.0, width: float = 0.7) -> str:
    """A rectangle filled with slanting lines, its edge drawn."""
    (left, top), (wide, high) = corner, size
    parts = []
    offset = gap
    while offset < wide + high:
        x_low, y_low = (left + offset, top) if offset <= wide else (left + wide, top + offset - wide)
        x_high, y_high = (left, top + offset) if offset <= high else (left + offset - high, top + high)
        parts.append(line((x_low, y_low), (x_high, y_high), width))
        offset += gap
    return "".join((*parts, box(corner, size)))


def scale_bar(corner: Place, scale: float, *, metric: bool) -> str:
    """A bar of 3 ft or 1 m; scale: units of paper per inch."""
    inches, words = (1000 / 25.4, "1 m") if metric else (36.0, "3 ft")
    (x, y), half = corner, inches * scale / 2
    halves = box((x, y), (half, 5), "#000") + box((x + half, y), (half, 5), "#fff")
    return halves + label((x + 2 * half + 6, y + 8), f"{words}, to scale")


@lru_cache(maxsize=256)
def utilisation(number: float, word: str, told: str) -> str:
    """A bar whose pattern tells the word: grey within, hatched close, black over, dashed where there is no figure.

    The tick stands at 1.00; the bar ends at 1.25, and what is more runs to the end.
    """
    wide, high, most = 150.0, 13.0, 1.25
    full = min(max(number, 0.0), most) / most * wide
    bar = {
        "within": box((0.5, 3), (full, high - 5), GREY),
        "close": hatched((0.5, 3), (full, high - 5), 4.0, 0.9),
        "over": box((0.5, 3), (full, high - 5), "#000"),
    }.get(word, box((0.5, 3), (wide - 1, high - 5), "none", 0.8, "3 3"))
    tick = line((wide / most, 0), (wide / most, high), 1.6) if word in ("within", "close", "over") else ""
    rail = line((0.5, high - 2), (wide, high - 2), 0.5)
    return figure(wide + 1, high + 1, told, "Bar from 0 to 1.25; the tick stands at 1.00.", (rail, bar, tick))


def _tick(x: float, y: float) -> str:
    return line((x - 3.5, y + 3.5), (x + 3.5, y - 3.5), 1.2)


def _stroke(width: float, dash: str) -> str:
    return f'stroke="#000" stroke-width="{_n(width)}"' + (f' stroke-dasharray="{dash}"' if dash else "")


def _points(places: Iterable[Place]) -> str:
    return " ".join(f"{_n(x)},{_n(y)}" for x, y in places)


def _pair(place: Place) -> str:
    return f"{_n(place[0])} {_n(place[1])}"


def _text(words: str) -> str:
    return escape(words, quote=False)


def _n(number: float) -> str:
    """Hundredths of a unit, without trailing noise or a minus zero."""
    shown = f"{number:z.2f}".rstrip("0").rstrip(".")
    return shown or "0"
