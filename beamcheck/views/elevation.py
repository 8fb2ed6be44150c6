"""Elevations to scale: the wall as it stands, and the opening with its beam, posts and loads."""

from itertools import groupby
from typing import NamedTuple

from beamcheck.study.types import Placed, Study
from beamcheck.survey.model import Post
from beamcheck.takedown.sources import Source
from beamcheck.trace import Value
from beamcheck.views import drawing
from beamcheck.views.drawing import LETTER, Anchor, Place
from beamcheck.views.printed import length, station, whole

STUB = 18.0
"""Wall drawn beyond the outer posts, in inches."""

MOST_BANDS = 9
_ROW = 19.0
_TOP = 26.0
_ROOM = 104.0


class Frame(NamedTuple):
    """Where the house lies on the paper: x of station 0, y of the floor, and units per inch."""

    x: float
    y: float
    scale: float

    def at(self, station: float, height: float) -> Place:
        """The place of a station and a height over the floor."""
        return self.x + station * self.scale, self.y - height * self.scale


class Band(NamedTuple):
    """One carried item as drawn: its words, and where it acts."""

    words: str
    start: float
    end: float
    point: bool


def before(study: Study, width: float = 264.0) -> str:
    """The wall as it stands: all of it carries."""
    left, right = _ends(study)
    high = float(study.survey.wall.ceiling_height.to("in"))
    scale = min((width - _ROOM - 6) / (right - left), 110 / high)
    frame = Frame(6 - left * scale, 46 + high * scale, scale)
    wide, tall = (right - left) * scale, high * scale
    parts = [
        drawing.label((6, LETTER), "Before", bold=True),
        *(
            drawing.arrow(
                (frame.x + (left + (right - left) * share) * scale, 24),
                (frame.x + (left + (right - left) * share) * scale, 42),
                1.0,
            )
            for share in (0.1, 0.3, 0.5, 0.7, 0.9)
        ),
        drawing.hatched(frame.at(left, high), (wide, tall), 9, 0.6),
        drawing.line(frame.at(left, 0), frame.at(right, 0), 2.4),
        drawing.line(frame.at(left, high), frame.at(right, high), 1.6),
        _going(study, frame, high),
        drawing.upright(
            frame.at(right, 0)[0] + 10, frame.at(0, high)[1], frame.y, _length(study, study.survey.wall.ceiling_height)
        ),
        drawing.backed((frame.x + (left + right) / 2 * scale, frame.y - tall / 2 + 5), "comes out", Anchor.MIDDLE),
        _scale_bar(frame, left, frame.y + 16, study),
    ]
    told = (
        "The wall as it stands, to scale. It carries what lies above it along its whole length; the dashed part goes."
    )
    return drawing.figure(width, frame.y + 36, "Elevation before", told, parts)


def after(study: Study, width: float = 560.0) -> str:
    """The opening with its beam and posts, what they carry, and the dimensions that the study rests on."""
    left, right = _ends(study)
    bands = carried_bands(study)
    wall = study.survey.wall
    high, deep = float(wall.ceiling_height.to("in")), float(study.beam.d.to("in"))
    scale = min((width - 64 - _ROOM) / (right - left), 250 / (high + deep))
    top = high + (deep if study.survey.beam.position == "flush" else 0.0)
    loads_high = _TOP + _ROW * max(len(bands), 1) + 16
    frame = Frame(64 - left * scale, loads_high + top * scale, scale)
    bottom = frame.y + 58 + 20 * (1 + (len(study.loaded.line.bays) > 0 if study.loaded else 0))
    parts = [
        drawing.label((6, LETTER), "After", bold=True),
        *_house(study, frame, left, right, high),
        *_bands(bands, frame, loads_high - 3, width),
        *(() if study.loaded else (drawing.label((64, 40), "loads not shown: the take-down is not complete"),)),
        *_dimensions(study, frame, left, right, high),
        _scale_bar(frame, left, bottom - 8, study),
    ]
    return drawing.figure(width, bottom + 12, "Elevation after", _told(study, bands), parts)


def carried_bands(study: Study) -> tuple[Band, ...]:
    """Each carried item with its loads by type, spread ones first; the take-down table has those beyond the ninth."""
    if study.loaded is None:
        return ()
    sources = study.loaded.sources
    line = study.loaded.line
    bands = [
        _carried(tuple(rows), line.start, line.end, study)
        for _, rows in groupby(sources, key=lambda row: (row.where, row.P is None))
    ]
    bands.sort(key=lambda band: band.point)
    if len(bands) > MOST_BANDS:
        more = f"and {len(bands) - MOST_BANDS + 1} more: see the take-down table"
        bands = [*bands[: MOST_BANDS - 1], Band(more, line.start, line.end, point=False)]
    return tuple(bands)


def opening(study: Study) -> tuple[float, float]:
    """Stations of the two faces of the clear opening."""
    first, last = study.posts[0], study.posts[-1]
    return first.station + _half(first), last.station - _half(last)


def _carried(rows: tuple[Source, ...], start: float, end: float, study: Study) -> Band:
    first = rows[0]
    unit = "lb" if first.P is not None else "plf"
    loads = " + ".join(f"{row.load_type} {whole(load, unit)}" for row in rows if (load := row.w or row.P) is not None)
    if first.P is not None:
        at = _number(first.station, start)
        words = f"{first.name}: {loads} lb at {station(at, study.survey.about.dimensions)}"
        return Band(words, at, at, point=True)
    return Band(f"{first.name}: {loads} {unit}", _number(first.start, start), _number(first.end, end), point=False)


def _bands(bands: tuple[Band, ...], frame: Frame, beam_top: float, right: float) -> list[str]:
    """A row for each load: a box over its extent, or an arrow at its station, with its words."""
    shafts, rows = [], []
    for row, band in enumerate(bands):
        x, y = frame.at(band.start, 0)[0], _TOP + _ROW * row
        if band.point:
            words = drawing.fitted(band.words, right - 12)
            half = drawing.width_of(words) / 2
            middle = min(max(x, half + 6), right - half - 6)
            shafts.append(drawing.arrow((x, y + _ROW - 4), (x, beam_top), 1.6))
            rows.append(drawing.backed((middle, y + LETTER - 1), words, Anchor.MIDDLE))
        else:
            wide = max((band.end - band.start) * frame.scale, 4)
            rows.append(drawing.box((x, y), (wide, _ROW - 3), "#fff"))
            rows.append(drawing.label((x + 5, y + LETTER - 1), drawing.fitted(band.words, right - x - 8)))
    return [*shafts, *rows]


def _house(study: Study, frame: Frame, left: float, right: float, high: float) -> list[str]:
    """Floor, ceiling, what stays of the wall, beam and posts with what they stand on."""
    deep = float(study.beam.d.to("in"))
    flush = study.survey.beam.position == "flush"
    under = high if flush else high - deep
    first, last = study.posts[0], study.posts[-1]
    start = (study.loaded.line.start if study.loaded else first.station) - _half(first) * (
        not study.survey.beam.overhang_left
    )
    end = (study.loaded.line.end if study.loaded else last.station) + _half(last) * (
        not study.survey.beam.overhang_right
    )
    edges = ((left, first.station - _half(first)), (last.station + _half(last), right))
    parts = [drawing.hatched(frame.at(a, high), ((b - a) * frame.scale, high * frame.scale), 9, 0.6) for a, b in edges]
    parts.append(drawing.line(frame.at(left, 0), frame.at(right, 0), 2.4))
    parts.append(drawing.line(frame.at(left, high), frame.at(right, high), 1.6, "" if not flush else "6 3"))
    parts.append(
        drawing.box(frame.at(start, under + deep), ((end - start) * frame.scale, deep * frame.scale), drawing.GREY, 1.6)
    )
    for placed, post in zip(study.posts, study.survey.posts, strict=True):
        parts += _post(placed, post, frame, under, _room(study, placed) * frame.scale)
    middle = frame.at((first.station + last.station) / 2, under)[0]
    words = drawing.fitted(f"beam: {study.beam.text}", (last.station - first.station) * frame.scale - 16)
    parts.append(drawing.backed((middle, frame.at(0, under)[1] + LETTER + 5), words, Anchor.MIDDLE, bold=True))
    position = "flush, within the joists" if flush else "dropped, under the joists"
    parts.append(drawing.backed((middle, frame.at(0, under)[1] + 2 * LETTER + 9), position, Anchor.MIDDLE))
    return parts


def _post(placed: Placed, post: Post, frame: Frame, under: float, room: float) -> list[str]:
    wide = 2 * _half(placed) * frame.scale
    x, top = frame.at(placed.station, under)
    below = "on: not seen" if post.stands_on == "unknown" else f"on: {post.stands_on}"
    side = 1 if placed.number == 1 else -1 if room < 0 else 1
    anchor = Anchor.START if side > 0 else Anchor.END
    return [
        drawing.box((x - wide / 2, top), (wide, under * frame.scale), "#fff", 1.6),
        drawing.backed((x + side * (wide / 2 + 6), frame.y - 8), f"post {placed.number}", anchor),
        drawing.polygon(((x, frame.y + 2), (x - 7, frame.y + 13), (x + 7, frame.y + 13)), "#fff", 1.0),
        drawing.backed((x, frame.y + 28), drawing.fitted(below, abs(room) - 6), Anchor.MIDDLE),
    ]


def _room(study: Study, placed: Placed) -> float:
    """Inches to the nearest neighbour, below zero for the last post, whose words stand on its left."""
    stations = [other.station for other in study.posts]
    gaps = [abs(station - placed.station) for station in stations if station != placed.station]
    return -min(gaps) if placed.number == len(stations) else min(gaps)


def _dimensions(study: Study, frame: Frame, left: float, right: float, high: float) -> list[str]:
    a, b = opening(study)
    y = frame.y + 46
    under = high if study.survey.beam.position == "flush" else high - float(study.beam.d.to("in"))
    beam_top = frame.at(0, under)[1] - float(study.beam.d.to("in")) * frame.scale
    parts = [
        drawing.across(
            y, frame.at(a, 0)[0], frame.at(b, 0)[0], f"{_length(study, study.survey.wall.clear_opening)} clear"
        ),
        drawing.upright(
            frame.at(right, 0)[0] + 10, frame.at(0, high)[1], frame.y, _length(study, study.survey.wall.ceiling_height)
        ),
        drawing.upright(
            frame.at(left, 0)[0] - 8, beam_top, frame.at(0, under)[1], _length(study, study.beam.d), Anchor.END
        ),
    ]
    spans = [value for name, value in study.loaded.inputs if name.startswith("l_")] if study.loaded else []
    bays = [bay for bay in study.loaded.line.bays if bay.kind == "span"] if study.loaded else []
    for bay, span in zip(bays, spans, strict=True):
        words = _length(study, span) + (" centre to centre" if len(bays) == 1 else "")
        parts.append(drawing.across(y + 20, frame.at(bay.start, 0)[0], frame.at(bay.end, 0)[0], words))
    return parts


def _going(study: Study, frame: Frame, high: float) -> str:
    a, b = opening(study)
    return drawing.box(frame.at(a, high), ((b - a) * frame.scale, high * frame.scale), "none", 1.6, "6 4")


def _scale_bar(frame: Frame, left: float, y: float, study: Study) -> str:
    """A bar of known length, so that the drawing can be read with a ruler on any paper."""
    metric = study.survey.about.dimensions == "metric"
    inches, words = (1000 / 25.4, "1 m") if metric else (36.0, "3 ft")
    x = frame.at(left, 0)[0]
    parts = [
        drawing.box((x, y), (inches * frame.scale / 2, 5), "#000"),
        drawing.box((x + inches * frame.scale / 2, y), (inches * frame.scale / 2, 5), "#fff"),
    ]
    return "".join((*parts, drawing.label((x + inches * frame.scale + 6, y + 8), f"{words}, to scale")))


def _told(study: Study, bands: tuple[Band, ...]) -> str:
    posts = "; ".join(f"post {placed.number}: {placed.member.text}" for placed in study.posts)
    loads = "; ".join(band.words for band in bands) or "loads not shown"
    clear = _length(study, study.survey.wall.clear_opening)
    return f"The opening of {clear} clear, to scale. Beam: {study.beam.text}, {study.survey.beam.position}. {posts}. Loads: {loads}."


def _ends(study: Study) -> tuple[float, float]:
    """Stations between which the wall is drawn."""
    start = study.loaded.line.start if study.loaded else study.posts[0].station
    end = study.loaded.line.end if study.loaded else study.posts[-1].station
    return start - STUB, end + STUB


def _half(placed: Placed) -> float:
    return float(placed.member.b.to("in")) / 2


def _number(value: Value | None, default: float) -> float:
    return float(value.to("in")) if value is not None else default


def _length(study: Study, value: Value) -> str:
    return length(value, study.survey.about.dimensions)
