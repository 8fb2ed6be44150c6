"""What stands on the printed sheet, made ready for the template: words, figures and drawings, in reading order."""

from collections.abc import Mapping
from typing import NamedTuple

from markupsafe import Markup

from beamcheck.study import registers
from beamcheck.study.registers import Entry, around, core
from beamcheck.study.types import Link, Study
from beamcheck.tables import Table, cited
from beamcheck.trace import Missing, Note, Refer, Value, items
from beamcheck.views import drawing
from beamcheck.views.grids import Line, line
from beamcheck.views.printed import shown
from beamcheck.views.words import ratio

HASH = 12
"""Digits of the input's hash that are printed."""


class Standing(NamedTuple):
    """How one link stands: word, utilisation and its bar, the check that makes it so, and what else is to be said."""

    title: str
    word: str
    ratio: str
    bar: Markup
    governed: str
    besides: str = ""


class Chain(NamedTuple):
    """The links from roof to soil: those before the posts, those of each post level by level, those after by title."""

    before: tuple[Standing, ...]
    posts: tuple[str, ...]
    levels: tuple[tuple[str, tuple[Standing | None, ...]], ...]
    after: tuple[tuple[str, tuple[Standing, ...]], ...]


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
    wants = f"What beam, posts and supports does an opening of {clear} in this wall need"
    return f"{wants}, and how far is the proposal below from it?"


def chain(study: Study) -> Chain:
    """The links of the study as a strip: posts side by side, from the seat down."""
    before: list[Standing] = []
    below: list[Standing] = []
    levels: dict[str, dict[int, Standing]] = {}
    for link in core(study).links:
        head, _, level = link.key.partition(".")
        if head.startswith("post["):
            levels.setdefault(_LEVELS.get(level, level), {})[int(head[5:-1])] = standing(link)
        else:
            (below if levels else before).append(standing(link))
    beside = tuple(standing(link) for link in around(study).links)
    numbers = [placed.number for placed in study.posts]
    posts = tuple(f"Post {placed.number}: {placed.member.text}" for placed in study.posts)
    rows = tuple((name, tuple(cells.get(number) for number in numbers)) for name, cells in levels.items())
    return Chain(tuple(before), posts, rows, (("below the posts", tuple(below)), ("beside the chain", beside)))


def standing(link: Link) -> Standing:
    """How a link stands, in words, figures and a pattern."""
    check = link.governing
    if check is None:
        force = next((shown(item) for item in link.sheet.items if isinstance(item, Value) and item.unit == "lb"), "")
        bar = drawing.utilisation(0.0, link.word, f"{link.word}, no figure") if link.word != "counted" else ""
        return Standing(link.title, link.word, "", Markup(bar), f"takes {force}" if force else "")  # noqa: S704
    number = ratio(check)
    bar = Markup(drawing.utilisation(float(check.ratio), check.word, f"{number}, {link.said}"))  # noqa: S704
    return Standing(link.title, link.word, number, bar, check.title, link.besides)


def tally(study: Study) -> tuple[tuple[str, str], ...]:
    """Which links stand where, worst word first; one that is over and not shown stands under both."""
    return tuple((word, _listed(word, [_named(link, word) for link in links])) for word, links in study.by_word.items())


def _named(link: Link, word: str) -> str:
    check = link.governing
    return f"{link.name} {ratio(check)}" if check is not None and word in ("over", "close") else link.name


def _listed(word: str, names: list[str]) -> str:
    """Names, or their number where they need no attention or are asked about elsewhere."""
    return f"{len(names)} {'link' if len(names) == 1 else 'links'}" if word in ("within", "refer") else ", ".join(names)


def notes(study: Study) -> tuple[str, ...]:
    """Remarks with the links that they belong to, each sentence once; not what the register of assumptions says."""
    register = registers.assumed(study)
    found: dict[str, list[str]] = {}
    for link in study.links:
        for item in items(link.sheet):
            if isinstance(item, Note) and not any(entry.where in item.text and entry.lean for entry in register):
                found.setdefault(item.text, []).append(link.name)
    return tuple(f"{', '.join(dict.fromkeys(names))}: {text.rstrip('.')}." for text, names in found.items())


def governs(study: Study) -> tuple[str, Line] | None:
    """The check that governs the chain, and the link that it belongs to."""
    check = study.governing
    if check is None:
        return None
    link = next(link for link in study.links if link.governing is check)
    return link.title, line(check, study.survey.about.dimensions)


def grouped(entries: tuple[Entry, ...]) -> tuple[Entry, ...]:
    """Entries that say the same of several posts or items become one, with all their names."""
    found: dict[tuple[str, ...], list[Entry]] = {}
    for entry in entries:
        key = entry.where.rpartition(".")[2]
        found.setdefault((key, entry.text, entry.trust, entry.note, entry.lean, entry.flips), []).append(entry)
    return tuple(same[0]._replace(name="; ".join(entry.name for entry in same)) for same in found.values())


class Stop(NamedTuple):
    """A question for the engineer, or a link that is not shown: what it is about, why, and what is asked."""

    missing: bool
    title: str
    why: str
    ask: str

    def short(self) -> "Stop":
        """The question alone; what is missing stays as it is."""
        return self if self.missing else self._replace(why="")


def stops(study: Study) -> tuple[Stop, ...]:
    """Every stop of a study with what it is about; the same question about several things is asked once."""
    found: dict[Stop, list[str]] = {}
    for link in study.links:
        for item in items(link.sheet):
            if isinstance(item, Missing):
                stop = Stop(missing=True, title=item.title, why=item.need, ask="")
            elif isinstance(item, Refer):
                stop = Stop(missing=False, title=item.title, why=item.why, ask=item.ask)
            else:
                continue
            found.setdefault(stop, []).append(_about(item, link))
    return tuple(stop._replace(title=_owned(stop.title, owners)) for stop, owners in found.items())


def _about(item: Refer | Missing, link: Link) -> str:
    """The post that a stop belongs to, or the link where there may be several of its kind."""
    head = item.key.partition(".")[0]
    if head.startswith("post["):
        return f"Post {head[5:-1]}"
    several = isinstance(item, Refer) and head.startswith("girder[") and "support[" in item.key
    return link.name if several else ""


def _owned(title: str, owners: list[str]) -> str:
    told = ", ".join(owner for owner in dict.fromkeys(owners) if owner and not title.startswith(owner))
    return f"{told}: {title}" if told else title


class Assumed(NamedTuple):
    """What nobody has looked at: what a stand-in leans to, what the owner assumed, and what nothing stands in for."""

    leaning: tuple[Entry, ...]
    owned: tuple[Entry, ...]
    unknown: tuple[Entry, ...]


def assumed(study: Study) -> Assumed:
    """The register of assumptions, entries that say the same of several posts or items as one."""
    entries = grouped(registers.assumed(study))
    rest = tuple(entry for entry in entries if not entry.lean)
    return Assumed(
        tuple(entry for entry in entries if entry.lean),
        tuple(entry for entry in rest if entry.text != "unknown"),
        tuple(entry for entry in rest if entry.text == "unknown"),
    )


def document(table: Table) -> str:
    """Document and edition of a table, as they are quoted."""
    return cited(table.document, table.edition)


def documents(tables: tuple[Table, ...]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Documents with the places in them that tables come from."""
    found: dict[str, list[str]] = {}
    for table in tables:
        found.setdefault(document(table), []).append(table.place)
    return tuple((name, tuple(dict.fromkeys(places))) for name, places in found.items())


def trusted(entries: tuple[Entry, ...]) -> Mapping[str, tuple[Entry, ...]]:
    """Entries by how they are known."""
    return {
        trust: tuple(entry for entry in entries if entry.trust == trust)
        for trust in dict.fromkeys(entry.trust for entry in entries)
    }
