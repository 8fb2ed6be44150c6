"""What stands on the printed sheet, made ready for the template: words, figures and drawings, in reading order."""

import re
from collections.abc import Mapping
from typing import NamedTuple

from markupsafe import Markup

from beamcheck.study.registers import Entry
from beamcheck.study.shapes import reactions
from beamcheck.study.types import Link, Study
from beamcheck.trace import (
    Check,
    Given,
    Item,
    Looked,
    Missing,
    Note,
    Refer,
    Schedule,
    Sheet,
    Solved,
    Taken,
    Value,
    items,
)
from beamcheck.views import drawing
from beamcheck.views.figures import quantity
from beamcheck.views.printed import shown
from beamcheck.views.symbols import symbol
from beamcheck.views.words import ratio

HASH = 12
"""Digits of the input's hash that are printed."""


class Standing(NamedTuple):
    """How one link stands: word, utilisation and its bar, and the check that makes it so."""

    title: str
    word: str
    ratio: str
    bar: Markup
    governed: str


class Chain(NamedTuple):
    """The links from roof to soil: those before the posts, those of each post level by level, those after."""

    before: tuple[Standing, ...]
    posts: tuple[str, ...]
    levels: tuple[tuple[str, tuple[Standing | None, ...]], ...]
    after: tuple[Standing, ...]


class Line(NamedTuple):
    """One check as a row of a table."""

    title: str
    demand: str
    limit: str
    ratio: str
    word: str
    bar: Markup
    when: str


class Grid(NamedTuple):
    """A table to be printed: its title, its heads, and rows of cells; figures are set to the right."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[tuple[str, bool], ...], ...]


class Part(NamedTuple):
    """A link's sheet in full: its checks, tables, figures, notes and stops."""

    title: str
    checks: tuple[Line, ...]
    grids: tuple[Grid, ...]
    figures: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]
    stops: tuple[Refer | Missing, ...]


_LEVELS = {"": "post", "seat": "seat", "foot": "foot", "below": "below"}


def title_block(study: Study) -> tuple[tuple[str, str], ...]:
    """Labels and what stands beside them; what is not known says so."""
    about = study.survey.about
    rows = (
        ("address", about.address),
        ("year built", about.year_built),
        ("building code", about.code),
        ("loads", study.survey.site.loads),
        ("prepared by", about.prepared_by),
        ("survey of", about.date),
        ("program", f"bearline {study.version}"),
        ("input", study.survey.sha256[:HASH]),
    )
    return tuple((label, text or "not given") for label, text in rows)


def question(study: Study) -> str:
    """What the owner asks, in the owner's words where there are any."""
    if study.survey.about.question:
        return study.survey.about.question
    clear = shown(study.survey.wall.clear_opening, study.survey.about.dimensions)
    return f"What beam, posts and supports does an opening of {clear} in this wall need, and how far is the proposal below from it?"


def chain(study: Study) -> Chain:
    """The links of the study as a strip: posts side by side, from the seat down."""
    before: list[Standing] = []
    after: list[Standing] = []
    levels: dict[str, dict[int, Standing]] = {}
    for link in study.links:
        head, _, level = link.key.partition(".")
        if head.startswith("post["):
            levels.setdefault(_LEVELS.get(level, level), {})[int(head[5:-1])] = standing(link)
        else:
            (after if levels else before).append(standing(link))
    numbers = [placed.number for placed in study.posts]
    posts = tuple(f"Post {placed.number}: {placed.member.text}" for placed in study.posts)
    rows = tuple((name, tuple(cells.get(number) for number in numbers)) for name, cells in levels.items())
    return Chain(tuple(before), posts, rows, tuple(after))


def standing(link: Link) -> Standing:
    """How a link stands, in words, figures and a pattern."""
    check = link.governing
    if check is None:
        force = next((shown(item) for item in link.sheet.items if isinstance(item, Value) and item.unit == "lb"), "")
        bar = drawing.utilisation(0.0, link.word, f"{link.word}, no figure") if link.word != "counted" else ""
        return Standing(link.title, link.word, "", Markup(bar), f"takes {force}" if force else "")  # noqa: S704
    number = ratio(check)
    told = (
        f"{number}, {check.word}"
        if link.word == check.word
        else f"{number}, {check.word}, but part of it is {link.word}"
    )
    bar = drawing.utilisation(float(check.ratio), check.word, told)
    return Standing(link.title, link.word, number, Markup(bar), check.title)  # noqa: S704


def tally(study: Study) -> tuple[tuple[str, str], ...]:
    """Which links stand where, worst word first."""
    found: dict[str, list[str]] = {word: [] for word in ("not shown", "over", "close", "refer", "within")}
    for link in study.links:
        check = link.governing
        number = f" {ratio(check)}" if check is not None and link.word in ("over", "close") else ""
        if link.word in found:
            found[link.word].append(f"{_short(link)}{number}")
    return tuple((word, "; ".join(names)) for word, names in found.items() if names)


def governs(study: Study) -> tuple[str, Line] | None:
    """The check that governs the chain, and the link that it belongs to."""
    check = study.governing
    if check is None:
        return None
    link = next(link for link in study.links if link.governing is check)
    return link.title, line(check, study.survey.about.dimensions)


def reaction_grid(study: Study) -> Grid | None:
    """Reactions by load type, in pounds."""
    found = reactions(study)
    if not found:
        return None
    heads = ("post", *(name for name, _ in found[0].by_type), "greatest", "under")
    rows = tuple(
        (
            (str(one.post), False),
            *((f"{force:,.0f}", True) for _, force in one.by_type),
            (f"{one.greatest:,.0f}", True),
            (one.case, False),
        )
        for one in found
    )
    return Grid("Reactions on the posts, lb", heads, rows)


def line(check: Check, dimensions: str) -> Line:
    """A check as a row."""
    number = ratio(check)
    bar = Markup(drawing.utilisation(float(check.ratio), check.word, f"{number}, {check.word}"))  # noqa: S704
    return Line(
        check.title,
        shown(check.demand, dimensions),
        shown(check.limit, dimensions),
        number,
        check.word,
        bar,
        check.when,
    )


def parts(study: Study) -> tuple[Part, ...]:
    """The links' sheets, those of one post together."""
    dimensions = study.survey.about.dimensions
    groups: dict[str, list[Link]] = {}
    for link in study.links:
        groups.setdefault(link.key.partition(".")[0], []).append(link)
    return tuple(part(_together(links), dimensions) for links in groups.values())


def _together(links: list[Link]) -> Sheet:
    named = next((link for link in links if "." not in link.key), links[0])
    return Sheet(named.key, named.title, tuple(link.sheet for link in links))


def part(sheet: Sheet, dimensions: str) -> Part:
    """Everything on a sheet and the sheets within it."""
    every: tuple[Item, ...] = tuple(items(sheet))
    return Part(
        sheet.title,
        tuple(line(item, dimensions) for item in every if isinstance(item, Check)),
        tuple(grid(item, dimensions) for item in every if isinstance(item, Schedule)),
        tuple(
            (item.title or item.name.replace("_", " "), shown(item, dimensions))
            for item in every
            if isinstance(item, Value)
        ),
        tuple(dict.fromkeys(item.text for item in every if isinstance(item, Note))),
        tuple(item for item in every if isinstance(item, Refer | Missing)),
    )


def grid(schedule: Schedule, dimensions: str) -> Grid:
    """A schedule with its figures written out."""
    rows = tuple(
        tuple(_cell(cell, head, dimensions) for cell, head in zip(row, schedule.heads, strict=True))
        for row in schedule.rows
    )
    return Grid(schedule.title, schedule.heads, rows)


def _cell(cell: str | Value, head: str, dimensions: str) -> tuple[str, bool]:
    """Words, or a figure; a length under a head that names feet is in decimal feet, to multiply with."""
    if isinstance(cell, str):
        return cell, False
    if head.endswith(" ft") and cell.unit in ("in", "ft"):
        return quantity(float(cell.to("ft")), "ft"), True
    return shown(cell, dimensions), True


def symbol_markup(name: str) -> Markup:
    """A figure's symbol with its subscript."""
    parts = symbol(name)
    base = Markup("<i>{}</i>").format(f"{parts.base}{parts.mark}".replace("_", " "))
    return base + Markup("<sub>{}</sub>").format(parts.subscript) if parts.subscript else base


def source(value: Value) -> str:
    """Where a figure that no clause made comes from, in one line."""
    match value.origin:
        case Given() as origin:
            stand_in = ", a stand-in" if origin.default is not None else ""
            return f"{origin.where}: {origin.text}, {origin.trust}{stand_in}"
        case Looked() as origin:
            flag = ", from memory" if origin.seen == "memory" else ""
            return f"{origin.reference}: {origin.row.label}{flag}"
        case Taken() as origin:
            return f"{origin.reason}; {origin.place}" if origin.place else origin.reason
        case Solved() as origin:
            return f"beam line: {origin.method}"
    return ""


def grouped(entries: tuple[Entry, ...]) -> tuple[Entry, ...]:
    """Entries that say the same of several posts or items become one, with all their names."""
    found: dict[tuple[str, ...], list[Entry]] = {}
    for entry in entries:
        key = entry.where.rpartition(".")[2]
        found.setdefault((key, entry.text, entry.trust, entry.note, entry.lean, entry.flips), []).append(entry)
    return tuple(same[0]._replace(name="; ".join(entry.name for entry in same)) for same in found.values())


def with_symbols(words: str) -> Markup:
    """Words in which the names of figures are printed as their symbols, and squares raised."""
    parts = re.split(r"([A-Za-z]+(?:_[A-Za-z0-9]+)+)", words.replace("^2", "²"))
    return Markup("").join(
        symbol_markup(part) if number % 2 and symbol(part).typst else part for number, part in enumerate(parts)
    )


def trusted(entries: tuple[Entry, ...]) -> Mapping[str, tuple[Entry, ...]]:
    """Entries by how they are known."""
    return {
        trust: tuple(entry for entry in entries if entry.trust == trust)
        for trust in dict.fromkeys(entry.trust for entry in entries)
    }


def _short(link: Link) -> str:
    return link.title.partition(":")[0]
