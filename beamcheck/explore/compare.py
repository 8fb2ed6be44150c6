"""Surveys side by side: loads, utilisations, movements, headroom, weights, posts and pads, and where they differ."""

from collections import Counter
from collections.abc import Callable, Iterator
from typing import NamedTuple

from beamcheck.explore.clear_height import finish_told, headroom
from beamcheck.explore.trials import whole_piece
from beamcheck.study.types import Link, Study
from beamcheck.takedown.sources import LOAD_TYPES, LOAD_WORDS
from beamcheck.trace import Check, Missing, Refer, Schedule, Solved, Value, items

_CLOSE = 1e-9


class Side(NamedTuple):
    """One of the surveys that are compared: its name, what a variant sets otherwise, and its study."""

    name: str
    changes: tuple[tuple[str, str], ...]
    study: Study


class Standing(NamedTuple):
    """How a link or a check stands: its word, its utilisation if it has one, and the check that governs a link."""

    word: str
    ratio: float | None
    check: str


Cell = str | Value | Standing | None
_Key = tuple[str, int]


class Row(NamedTuple):
    """One line of the comparison: a cell for each side (None: it has no such thing), and whether they differ.

    title: what is told, by the name of its link; never what governs it, which may be another on each side.
    """

    title: str
    cells: tuple[Cell, ...]
    differs: bool


class Part(NamedTuple):
    """A titled run of rows."""

    title: str
    rows: tuple[Row, ...]


def compared(sides: tuple[Side, ...]) -> tuple[Part, ...]:
    """Everything of the studies that can stand side by side, in the order of the chain."""
    parts = (
        ("What is built", _built),
        ("What comes down on the beam", _loads),
        ("How hard each link works", _links),
        ("How far the beam moves", _movements),
        ("What arrives below", _below),
        ("The room", _room),
    )
    return tuple(Part(title, rows) for title, make in parts if (rows := _rows(sides, make)))


def _rows(sides: tuple[Side, ...], make: Callable[[Study], Iterator[tuple[str, Cell]]]) -> tuple[Row, ...]:
    made = [dict(_numbered(make(side.study))) for side in sides]
    rows = []
    for key in _in_order([list(cells) for cells in made]):
        cells = tuple(cells.get(key) for cells in made)
        rows.append(Row(key[0], cells, any(_differ(cells[0], cell) for cell in cells[1:])))
    return tuple(rows)


def _numbered(made: Iterator[tuple[str, Cell]]) -> Iterator[tuple[_Key, Cell]]:
    """Cells under their title and how often it stood before: of two alike both stay."""
    seen: Counter[str] = Counter()
    for title, cell in made:
        yield (title, seen[title]), cell
        seen[title] += 1


def _in_order(lists: list[list[_Key]]) -> list[_Key]:
    """All keys, each after the one it follows in the list that has it first."""
    order: list[_Key] = []
    for keys in lists:
        at = 0
        for key in keys:
            if key in order:
                at = order.index(key) + 1
            else:
                order.insert(at, key)
                at += 1
    return order


def _differ(one: Cell, other: Cell) -> bool:
    match one, other:
        case Value(), Value():
            a, b = float(one.number), float(other.to(one.unit))
            return abs(a - b) > _CLOSE * max(abs(a), abs(b)) or one.case != other.case
        case Standing(), Standing():
            apart = one.ratio is not None and other.ratio is not None and abs(one.ratio - other.ratio) > _CLOSE
            return apart or one.word != other.word or (one.ratio is None) != (other.ratio is None)
        case _:
            return one != other


def _built(study: Study) -> Iterator[tuple[str, Cell]]:
    yield "beam", study.beam.text
    for post in study.posts:
        yield f"post {post.number}", post.member.text
        if post.number > 1:
            station = Value("x_a", post.station, "in", Solved("layout", ()))
            yield f"post {post.number} stands at", station
    yield "clear opening", study.survey.wall.clear_opening


def _loads(study: Study) -> Iterator[tuple[str, Cell]]:
    """Each load type's whole weight on the beam, all bays loaded: the sum of the reactions."""
    loaded = study.loaded
    if loaded is None:
        return
    every = tuple(range(len(loaded.line.bays)))
    for name in LOAD_TYPES:
        if name in {source.load_type for source in loaded.sources}:
            response = loaded.single.response(f"{name} alone", every)
            origin = Solved(f"{name} alone, sum of the reactions", loaded.inputs)
            yield f"{LOAD_WORDS[name]} load, all of it", Value("P", sum(response.reactions), "lb", origin)


def _links(study: Study) -> Iterator[tuple[str, Cell]]:
    for link in study.links:
        if link.word != "counted":
            yield link.name, _standing(link)
    yield "questions to the engineer", str(sum(isinstance(stop, Refer) for stop in study.stops))
    yield "not shown", str(sum(isinstance(stop, Missing) for stop in study.stops))


def _standing(link: Link) -> Standing:
    governing = link.governing
    if governing is None:
        return Standing(link.said, None, "")
    return Standing(link.said, float(governing.ratio), governing.title)


def _movements(study: Study) -> Iterator[tuple[str, Cell]]:
    for item in items(study.sheet):
        if isinstance(item, Schedule) and item.key == "beam.movement":
            for row in item.rows:
                words = [cell for cell in row if isinstance(cell, str)]
                down = next((cell for cell in row if isinstance(cell, Value)), None)
                yield ", ".join(words), down


def _below(study: Study) -> Iterator[tuple[str, Cell]]:
    """Loads at the feet of posts, and the sizes and loads of pads."""
    for link in study.links:
        if link.key.endswith(".below") or link.key.startswith("pad["):
            for item in link.sheet.items:
                if isinstance(item, Value):
                    yield f"{link.name}: {item.title or item.name}", item
                elif isinstance(item, Check) and link.key.startswith("pad["):
                    yield f"{link.name}: {item.title}", Standing(item.word, float(item.ratio), "")


def _room(study: Study) -> Iterator[tuple[str, Cell]]:
    clear = headroom(study.survey, study.beam.d)
    if clear is not None:
        yield "headroom under the beam", clear
        yield "which leaves for", finish_told(study.survey)
    yield "one piece carried in weighs", whole_piece(study)
