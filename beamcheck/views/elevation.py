"""Elevations to scale: the wall as it stands, and the opening with its beam, posts and loads."""

from itertools import groupby
from typing import NamedTuple

from beamcheck.study.types import Placed, Study
from beamcheck.survey.model import Post
from beamcheck.takedown.sources import Source
from beamcheck.trace import Value
from beamcheck.views import drawing
from beamcheck.views.drawing import LETTER, Anchor, Place
from beamcheck.views.printed import length, whole
from beamcheck.views.words import station

STUB = 18.0
"""Wall drawn beyond the outer posts, in inches."""

MOST_BANDS = 9
_ROW, _TOP = 19.0, 26.0
_LEFT, _RIGHT = 64.0, 104.0
_WORDED = 150.0


class Frame(NamedTuple):
    """Where the house lies on the paper: x of station 0, y of the floor, and units per inch.

    left and right are the stations between which the wall is drawn; ceiling is a height over the floor, top and
    under those of the beam.
    """

    x: float
    y: float
    scale: float
    left: float
    right: float
    ceiling: float
    top: float
    under: float

    def at(self, place: float, height: float) -> Place:
        """The place of a station and a height over the floor."""
        return self.x + place * self.scale, self.y - height * self.scale

    def area(self, start: float, end: float, height: float) -> Place:
        """The size on paper of what reaches from one station to another."""
        return (end - start) * self.scale, height * self.scale


class Band(NamedTuple):
    """One carried item as drawn: its words, and where it acts."""

    name: str
    loads: str
    start: float
    end: float
    point: bool

    @property
    def words(self) -> str:
        """The name and the loads by type."""
        return f"{self.name}: {self.loads}" if self.loads else self.name

    def cut(self, room: float) -> str:
        """The words, the name cut short where they are wider than the room."""
        if drawing.width_of(self.words) <= room:
            return self.words
        rest = f": {self.loads}"
        return drawing.fitted(self.name, room - drawing.width_of(rest)) + rest


def before(study: Study, width: float = 264.0) -> str:
    """The wall as it stands: all of it carries."""
    frame = _frame(study, (width - _RIGHT - 6, 90), (6, 46))
    first, last = opening(study)
    arrows = [
        frame.at(frame.left + (frame.right - frame.left) * share, frame.ceiling) for share in (0.1, 0.3, 0.5, 0.7, 0.9)
    ]
    middle = frame.at((frame.left + frame.right) / 2, frame.ceiling / 2)
    parts = [
        *_titled("Before", frame.scale, study),
        *(drawing.arrow((x, y - 22), (x, y - 4), 1.0) for x, y in arrows),
        drawing.hatched(
            frame.at(frame.left, frame.ceiling), frame.area(frame.left, frame.right, frame.ceiling), 9, 0.6
        ),
        *_levels(frame),
        drawing.box(frame.at(first, frame.ceiling), frame.area(first, last, frame.ceiling), "none", 1.6, "6 4"),
        _height(study, frame),
        drawing.backed((middle[0], middle[1] + 5), "comes out", Anchor.MIDDLE),
    ]
    told = "The wall as it stands, to scale. All of it carries what lies above; the dashed part comes out."
    return drawing.figure(width, frame.y + 6, "Elevation before", told, parts)


def after(study: Study, width: float = 560.0) -> str:
    """The opening with its beam and posts, what they carry, and the dimensions that the study rests on."""
    bands = carried_bands(study)
    loads = _TOP + _ROW * max(len(bands), 1) + 16
    left = max(_LEFT, drawing.width_of(_length(study, study.beam.d)) + 18)
    frame = _frame(study, (width - left - _RIGHT, 220), (left, loads))
    parts = [
        *_titled("After", frame.scale, study),
        *_house(study, frame),
        *_bands(bands, frame, width),
        *_dimensions(study, frame),
    ]
    if study.loaded is None:
        parts.append(drawing.label((_LEFT, _TOP + LETTER), "loads not shown: the take-down is not complete"))
    return drawing.figure(
        width, frame.y + (76 if len(study.posts) < 4 else 104), "Elevation after", _told(study, bands), parts
    )


def carried_bands(study: Study) -> tuple[Band, ...]:
    """Each carried item with its loads by type, spread ones first; the take-down table has those beyond the ninth."""
    if study.loaded is None:
        return ()
    sources, line = study.loaded.sources, study.loaded.line
    grouped = groupby(sources, key=lambda row: (row.where, row.P is None))
    bands = [_carried(tuple(rows), line.start, line.end, study) for _, rows in grouped]
    bands.sort(key=lambda band: band.point)
    if len(bands) > MOST_BANDS:
        more = f"and {len(bands) - MOST_BANDS + 1} more: see the take-down table"
        bands = [*bands[: MOST_BANDS - 1], Band(more, "", line.start, line.end, point=False)]
    return tuple(bands)


def opening(study: Study) -> tuple[float, float]:
    """Stations of the two faces of the clear opening."""
    first, last = study.posts[0], study.posts[-1]
    return first.station + _half(first), last.station - _half(last)


def _frame(study: Study, room: Place, corner: Place) -> Frame:
    """The greatest scale at which the wall fits the room, its upper left corner at the place given."""
    line = study.loaded.line if study.loaded else None
    left = (line.start if line else study.posts[0].station) - STUB
    right = (line.end if line else study.posts[-1].station) + STUB
    ceiling, deep = float(study.survey.wall.ceiling_height.to("in")), float(study.beam.d.to("in"))
    flush = study.survey.beam.position == "flush"
    top = ceiling + deep * flush
    scale = min(room[0] / (right - left), room[1] / top)
    return Frame(corner[0] - left * scale, corner[1] + top * scale, scale, left, right, ceiling, top, top - deep)


def _titled(words: str, scale: float, study: Study) -> list[str]:
    """The name of a drawing, and a bar of known length so that it can be read with a ruler on any paper."""
    metric = study.survey.about.dimensions == "metric"
    return [
        drawing.label((6, LETTER), words, bold=True),
        drawing.scale_bar((18 + drawing.width_of(words), 5), scale, metric=metric),
    ]


def _carried(rows: tuple[Source, ...], start: float, end: float, study: Study) -> Band:
    first = rows[0]
    unit = "lb" if first.P is not None else "plf"
    loads = " + ".join(f"{row.load_type} {whole(load, unit)}" for row in rows if (load := row.w or row.P) is not None)
    if first.P is not None:
        at = _number(first.station, start)
        return Band(first.name, f"{loads} lb at {station(at, study.survey.about.dimensions)}", at, at, point=True)
    return Band(first.name, f"{loads} {unit}", _number(first.start, start), _number(first.end, end), point=False)


def _bands(bands: tuple[Band, ...], frame: Frame, right: float) -> list[str]:
    """A row for each load: a box over its extent, or an arrow at its station, with its words."""
    shafts, rows = [], []
    for row, band in enumerate(bands):
        (x, beam_top), y = frame.at(band.start, frame.top), _TOP + _ROW * row
        if band.point:
            words = band.cut(right - 12)
            half = drawing.width_of(words) / 2
            middle = min(max(x, half + 6), right - half - 6)
            shafts.append(drawing.arrow((x, y + _ROW - 4), (x, beam_top - 3), 1.6))
            rows.append(drawing.backed((middle, y + LETTER - 1), words, Anchor.MIDDLE))
        else:
            wide = max((band.end - band.start) * frame.scale, 4)
            rows.append(drawing.box((x, y), (wide, _ROW - 3), "#fff"))
            rows.append(_beside(band, x, x + wide, y + LETTER - 1, right))
    return [*shafts, *rows]


def _beside(band: Band, start: float, end: float, y: float, right: float) -> str:
    """The words of a spread load inside its box; where that is too short, on the side that has more room."""
    rooms = (end - start - 10, right - end - 12, start - 12)
    fits = next((number for number, room in enumerate(rooms) if drawing.width_of(band.words) <= room), None)
    chosen = fits if fits is not None else rooms.index(max(rooms))
    words = band.cut(rooms[chosen])
    if chosen == 2:
        return drawing.label((start - 6, y), words, Anchor.END)
    return drawing.label((start + 5 if chosen == 0 else end + 6, y), words)


def _levels(frame: Frame) -> list[str]:
    return [
        drawing.line(frame.at(frame.left, 0), frame.at(frame.right, 0), 2.4),
        drawing.line(frame.at(frame.left, frame.ceiling), frame.at(frame.right, frame.ceiling), 1.6),
    ]


def _house(study: Study, frame: Frame) -> list[str]:
    """Floor, ceiling, what stays of the wall, beam and posts with what they stand on."""
    first, last = study.posts[0], study.posts[-1]
    outer = (first.station - _half(first), last.station + _half(last))
    edges = ((frame.left, outer[0]), (outer[1], frame.right))
    parts = [drawing.hatched(frame.at(a, frame.ceiling), frame.area(a, b, frame.ceiling), 9, 0.6) for a, b in edges]
    parts += _levels(frame)
    start = min(outer[0], study.loaded.line.start if study.loaded else outer[0])
    end = max(outer[1], study.loaded.line.end if study.loaded else outer[1])
    deep = frame.top - frame.under
    parts.append(drawing.box(frame.at(start, frame.top), frame.area(start, end, deep), drawing.PALE, 1.6))
    rooms = [_room(study, placed) * frame.scale for placed in study.posts]
    worded = min(map(abs, rooms)) > _WORDED
    for placed, post, room in zip(study.posts, study.survey.posts, rooms, strict=True):
        parts += _post(placed, post, frame, (f"post {placed.number}" if worded else str(placed.number), room))
    x, y = frame.at((first.station + last.station) / 2, frame.top)
    words = drawing.fitted(
        f"{study.beam.text}, {study.survey.beam.position}", (last.station - first.station) * frame.scale - 16
    )
    high = deep * frame.scale
    inside = high >= LETTER
    parts.append(
        (drawing.label if inside else drawing.backed)(
            (x, y + (high / 2 + 5 if inside else high + LETTER + 5)), words, Anchor.MIDDLE
        )
    )
    return parts


def _post(placed: Placed, post: Post, frame: Frame, named: tuple[str, float]) -> list[str]:
    """A post with its name and what it stands on; a room below zero: its words stand on its left."""
    name, room = named
    wide, high = frame.area(0, 2 * _half(placed), frame.under)
    x, top = frame.at(placed.station, frame.under)
    below = "not seen" if post.stands_on == "unknown" else post.stands_on
    below = f"on: {below}" if drawing.width_of(f"on: {below}") < abs(room) - 6 else drawing.fitted(below, abs(room) - 2)
    anchor, gap = (Anchor.END, -wide / 2 - 6) if room < 0 else (Anchor.START, wide / 2 + 6)
    return [
        drawing.box((x - wide / 2, top), (wide, high), "#fff", 1.6),
        drawing.backed((x + gap, frame.y - 8), name, anchor),
        drawing.polygon(((x, frame.y + 2), (x - 7, frame.y + 13), (x + 7, frame.y + 13)), "#fff", 1.0),
        drawing.backed((x, frame.y + 28), below, Anchor.MIDDLE),
    ]


def _room(study: Study, placed: Placed) -> float:
    """Inches to the nearest neighbour, below zero for the last post."""
    gaps = [abs(other.station - placed.station) for other in study.posts if other is not placed]
    return -min(gaps) if placed is study.posts[-1] else min(gaps)


def _dimensions(study: Study, frame: Frame) -> list[str]:
    first, last = (frame.at(place, 0)[0] for place in opening(study))
    depth = _length(study, study.beam.d)
    parts = [
        drawing.across(frame.y + 46, first, last, f"{_length(study, study.survey.wall.clear_opening)} clear"),
        _height(study, frame),
        drawing.upright(
            frame.at(frame.left, 0)[0] - 8, frame.at(0, frame.top)[1], frame.at(0, frame.under)[1], depth, Anchor.END
        ),
    ]
    if study.loaded is not None:
        spans = [value for name, value in study.loaded.inputs if name.startswith("l_")]
        bays = [bay for bay in study.loaded.line.bays if bay.kind == "span"]
        told = [_length(study, span) + (" centre to centre" if len(bays) == 1 else "") for span in spans]
        ends = [(frame.at(bay.start, 0)[0], frame.at(bay.end, 0)[0]) for bay in bays]
        parts += drawing.dimension_run(frame.y + 66, list(zip(ends, told, strict=True)))
    return parts


def _height(study: Study, frame: Frame) -> str:
    x, ceiling = frame.at(frame.right, frame.ceiling)
    return drawing.upright(x + 10, ceiling, frame.y, _length(study, study.survey.wall.ceiling_height))


def _told(study: Study, bands: tuple[Band, ...]) -> str:
    posts = "; ".join(f"post {placed.number}: {placed.member.text}" for placed in study.posts)
    loads = "; ".join(band.words for band in bands) or "loads not shown"
    clear = _length(study, study.survey.wall.clear_opening)
    beam = f"{study.beam.text}, {study.survey.beam.position}"
    return f"The opening of {clear} clear, to scale. Beam: {beam}. {posts}. Loads: {loads}."


def _half(placed: Placed) -> float:
    return float(placed.member.b.to("in")) / 2


def _number(value: Value | None, default: float) -> float:
    return float(value.to("in")) if value is not None else default


def _length(study: Study, value: Value) -> str:
    return length(value, study.survey.about.dimensions)
