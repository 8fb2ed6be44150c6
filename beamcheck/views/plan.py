"""Plan to scale: which way the joists run, their spans on both sides of the wall, and how they pass over it."""

from textwrap import wrap

from beamcheck.study.types import Study
from beamcheck.survey.model import Carried
from beamcheck.trace import Value
from beamcheck.views import drawing
from beamcheck.views.drawing import ADVANCE, LETTER
from beamcheck.views.elevation import STUB
from beamcheck.views.printed import length

_HIGH = 150.0
_GAP = 5.0
MOST_NAMED = 4


def plan(study: Study, width: float = 264.0) -> str:
    """Wall and beam from above, with the joists of the first item that spans on to them; the others in words."""
    spanned = [item for item in study.survey.carried if item.span_a is not None and item.span_b is not None]
    start, end = study.posts[0].station - STUB, study.posts[-1].station + STUB
    spanned.sort(key=lambda item: item.kind == "roof")
    span_a, span_b = _spans(spanned)
    scale = min((width - 110) / (end - start), _HIGH / max(span_a + span_b, 60.0))
    wall_y, left = 28 + max(span_a * scale, 14), 6.0
    right = left + (end - start) * scale
    bottom = wall_y + max(span_b * scale, 14)
    metric = study.survey.about.dimensions == "metric"
    parts = [drawing.label((6, LETTER), "Plan", bold=True), drawing.scale_bar((50, 5), scale, metric=metric)]
    if spanned:
        parts += _joists(spanned[0], (left, right), (wall_y - span_a * scale, wall_y, wall_y + span_b * scale))
        parts += _sides(study, spanned[0], right + 10, (wall_y - span_a * scale, wall_y, wall_y + span_b * scale))
    parts += _wall(study, left - start * scale, wall_y, scale, (left, right))
    words = [text for item in spanned[:MOST_NAMED] for text in _words(study, item, width)]
    if len(spanned) > MOST_NAMED:
        words.append(f"and {len(spanned) - MOST_NAMED} more in the survey")
    words = words or ["no joists or rafters in the survey"]
    parts += [drawing.label((6, bottom + 20 + 16 * row), text) for row, text in enumerate(words)]
    return drawing.figure(width, bottom + 24 + 16 * len(words), "Plan", _told(spanned), parts)


def _spans(spanned: list[Carried]) -> tuple[float, float]:
    if not spanned:
        return 0.0, 0.0
    return _inches(spanned[0].span_a), _inches(spanned[0].span_b)


def _joists(item: Carried, sides: tuple[float, float], levels: tuple[float, float, float]) -> list[str]:
    """Joists from far support to far support: in one piece, end to end, side by side, or not known over the wall."""
    (left, right), (top, wall, bottom) = sides, levels
    parts = [drawing.line((left, level), (right, level), 0.7, "7 4") for level in (top, bottom) if level != wall]
    across, count = right - left, 9
    for number in range(count):
        x = left + across * (number + 0.5) / count
        match item.continuity:
            case "one piece":
                parts.append(drawing.line((x, top), (x, bottom), 0.9))
            case "lapped":
                parts += [
                    drawing.line((x - 1.6, top), (x - 1.6, wall + _GAP), 0.9),
                    drawing.line((x + 1.6, wall - _GAP), (x + 1.6, bottom), 0.9),
                ]
            case _:
                parts += [
                    drawing.line((x, top), (x, wall - _GAP - 3), 0.9),
                    drawing.line((x, wall + _GAP + 3), (x, bottom), 0.9),
                ]
    if item.continuity == "unknown":
        parts.append(drawing.backed((left, wall - _GAP - 4), "over the wall: not seen"))
    return parts


def _sides(study: Study, item: Carried, x: float, levels: tuple[float, float, float]) -> list[str]:
    top, wall, bottom = levels
    parts = []
    for side, high, low, span in (("A", top, wall, item.span_a), ("B", wall, bottom, item.span_b)):
        if span is not None and low > high:
            parts.append(drawing.upright(x, high, low, _length(study, span)))
            parts.append(drawing.label((x + 8, (high + low) / 2 - 1.4 * LETTER), f"side {side}", bold=True))
    return parts


def _wall(study: Study, x_zero: float, y: float, scale: float, sides: tuple[float, float]) -> list[str]:
    """What stays of the wall, hatched; the beam, and the posts in black."""
    posts = [(placed.station, float(placed.member.b.to("in"))) for placed in study.posts]
    first, last = x_zero + posts[0][0] * scale, x_zero + posts[-1][0] * scale
    parts = [
        drawing.hatched((sides[0], y - 3), (first - sides[0], 6), 4, 0.6),
        drawing.hatched((last, y - 3), (sides[1] - last, 6), 4, 0.6),
    ]
    parts.append(drawing.box((first, y - 3), (last - first, 6), drawing.GREY, 1.0))
    for station, side in posts:
        wide = max(side * scale, 5)
        parts.append(drawing.box((x_zero + station * scale - wide / 2, y - 4.5), (wide, 9), "#000"))
    return parts


def _words(study: Study, item: Carried, width: float) -> list[str]:
    """How an item passes over the wall and its spans, on two lines, its name cut short where it must be."""
    assert item.span_a is not None and item.span_b is not None
    over = {"unknown": "over the wall not seen,", "": "", "one piece": "in one piece,"}
    way = over.get(item.continuity, f"{item.continuity},")
    spans = f"A\u00a0{_unbroken(study, item.span_a)}, B\u00a0{_unbroken(study, item.span_b)}"
    letters = int((width - 8) / (LETTER * ADVANCE))
    name = drawing.fitted(item.name, (letters - 10) * LETTER * ADVANCE)
    return wrap(" ".join(filter(None, (f"{name}:", way, spans))), letters)


def _unbroken(study: Study, value: Value) -> str:
    return _length(study, value).replace(" ", "\u00a0")


def _told(spanned: list[Carried]) -> str:
    if not spanned:
        return "Wall and beam from above; nothing in the survey spans on to them."
    ways = "; ".join(f"{item.name}: {item.continuity or 'rafters'}" for item in spanned)
    return f"Wall and beam from above, to scale; joists drawn square to the wall show direction, not spacing. {ways}."


def _inches(value: Value | None) -> float:
    return float(value.to("in")) if value is not None else 0.0


def _length(study: Study, value: Value) -> str:
    return length(value, study.survey.about.dimensions)
