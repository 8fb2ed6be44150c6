"""Tables of the printed sheet: checks, take-down, movements and reactions, with every figure written out."""

from collections.abc import Iterator
from itertools import groupby
from typing import NamedTuple

from markupsafe import Markup

from beamcheck.study.shapes import reactions
from beamcheck.study.types import Link, Study
from beamcheck.trace import Check, Item, Schedule, Sheet, Value, items
from beamcheck.views import drawing
from beamcheck.views.figures import quantity
from beamcheck.views.printed import shown
from beamcheck.views.words import in_words, ratio, under

MOVEMENT = "beam.movement"


class Line(NamedTuple):
    """One check as a row of a table."""

    title: str
    demand: str
    limit: str
    ratio: str
    word: str
    bar: Markup
    when: str
    told: str


class Grid(NamedTuple):
    """A table to be printed: its title, its heads, and rows of cells; figures are set to the right."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[tuple[str, bool], ...], ...]


class Part(NamedTuple):
    """Links that go together, in full: their checks, tables, and figures, each of these with what it belongs to."""

    name: str
    title: str
    checks: tuple[Line, ...]
    grids: tuple[Grid, ...]
    figures: tuple[tuple[str, str, str], ...]

    @property
    def alike(self) -> bool:
        """Whether all its checks that name a case name the same one."""
        return len({line.when for line in self.checks if line.when}) <= 1

    @property
    def under(self) -> str:
        """The case that its checks name, where they name the same one."""
        return next((line.when for line in self.checks if line.when), "") if self.alike else ""


def takedown(study: Study) -> Part:
    """The take-down, each item named once, in the first of its rows."""
    found = part([study.links[0]], study.survey.about.dimensions)
    return found._replace(grids=tuple(_named_once(grid) for grid in found.grids))


def _named_once(grid: Grid) -> Grid:
    before = ("", *(row[0][0] for row in grid.rows))
    rows = tuple(
        (("", False), *row[1:]) if row[0][0] == last else row for row, last in zip(grid.rows, before, strict=False)
    )
    return grid._replace(rows=rows)


def tables_of_chain(study: Study) -> tuple[tuple[str, Grid], ...]:
    """Tables of the links behind the take-down, each with the name of its link before its own."""
    found = [(part.name, grid) for part in parts(study)[1:] for grid in part.grids]
    return tuple((owner if owner == grid.title else f"{owner}: {grid.title}", grid) for owner, grid in found)


def movement(study: Study) -> Grid | None:
    """How far the beam moves: a row for each occasion, a column for each bay."""
    table = next((item for item in items(study.sheet) if isinstance(item, Schedule) and item.key == MOVEMENT), None)
    if table is None:
        return None
    told = {(str(bay), str(occasion)): down for bay, occasion, down in table.rows if isinstance(down, Value)}
    dimensions, bays = study.survey.about.dimensions, tuple(dict.fromkeys(bay for bay, _ in told))
    occasions = dict.fromkeys(occasion for _, occasion in told)
    rows = tuple(
        ((when, False), *((shown(told[bay, when], dimensions), True) for bay in bays if (bay, when) in told))
        for when in occasions
    )
    return Grid(table.title, ("when", *bays), rows)


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
        check.instead or shown(check.demand, dimensions),
        shown(check.limit, dimensions),
        number,
        check.word,
        bar,
        under(check, dimensions),
        in_words(check, shown, dimensions),
    )


def parts(study: Study) -> tuple[Part, ...]:
    """The links in full, those of one post together, and a girder with its supports."""
    dimensions = study.survey.about.dimensions
    groups: dict[str, list[Link]] = {}
    for link in study.links:
        groups.setdefault(link.key.partition(".")[0], []).append(link)
    return tuple(part(links, dimensions) for links in groups.values())


def side_by_side(parts: tuple[Part, ...]) -> tuple[tuple[Part, ...], ...]:
    """Parts that have checks, in their order, as they go together.

    Two that need no column for the case stand beside each other; those that need one stand in one table.
    """
    found: list[tuple[Part, ...]] = []
    for alike, run in groupby((part for part in parts if part.checks), key=lambda part: part.alike):
        together = tuple(run)
        step = 2 if alike else len(together)
        found += [together[first : first + step] for first in range(0, len(together), step)]
    return tuple(found)


def pads(study: Study) -> tuple[Part, ...]:
    """Pads with the figures that size them."""
    under = (link for link in study.links if link.key.startswith("pad["))
    return tuple(found for one in under if (found := part([one], study.survey.about.dimensions)).figures)


def part(links: list[Link], dimensions: str) -> Part:
    """Everything on the sheets of links that go together, under the name of the one that the others belong to."""
    named = next((link for link in links if "." not in link.key), links[0])
    every: tuple[Item, ...] = tuple(item for link in links for item in items(link.sheet))
    return Part(
        named.name,
        named.title,
        tuple(line(item, dimensions) for item in every if isinstance(item, Check)),
        tuple(grid(item, dimensions) for item in every if isinstance(item, Schedule) and item.key != MOVEMENT),
        tuple(figure for link in links for figure in _figures(link.sheet, link.name, dimensions)),
    )


def _figures(sheet: Sheet, owner: str, dimensions: str) -> Iterator[tuple[str, str, str]]:
    for item in sheet.items:
        if isinstance(item, Sheet):
            yield from _figures(item, item.title, dimensions)
        elif isinstance(item, Value) and item.title:
            yield owner, item.called, shown(item, dimensions)


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
