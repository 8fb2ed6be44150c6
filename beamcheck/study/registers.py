"""Walks over the tree of a study that a printed summary lists: what was assumed, what is from memory, what was used."""

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import NamedTuple

from beamcheck.frozen import replace
from beamcheck.study.idle import words_overruled, words_that_matter
from beamcheck.study.rest import RESTS_ON
from beamcheck.study.stand_ins import StandIn, stand_ins
from beamcheck.study.stops import joints
from beamcheck.study.types import Link, Study
from beamcheck.survey.fields import SECTIONS, Field, section_at
from beamcheck.survey.model import Survey, Word
from beamcheck.tables import Row, Table
from beamcheck.trace import (
    NOT_SEEN,
    Check,
    Clause,
    Computed,
    Given,
    Looked,
    Missing,
    Refer,
    Schedule,
    Sheet,
    Taken,
    Trust,
    Value,
    ancestry,
    items,
    values,
)

_AROUND = (*RESTS_ON, "lrfd", "house")
_SAID = {"span_a": "span on side A", "span_b": "span on side B", "layers": "weight of its layers"}

BY_SEAT = "that of the seat"
"""What stands in for an eccentricity that nobody told and that the seat makes greater than the cautious share."""


class Entry(NamedTuple):
    """One entry of the survey as a register lists it.

    name: what it belongs to, as the owner calls it; value: its figure, None for a word; trust: how it is known; lean
    and flips: which way a stand-in leans and what would change it, from the register of cautious defaults.
    """

    where: str
    name: str
    text: str
    value: Value | None
    trust: str
    note: str = ""
    lean: str = ""
    flips: str = ""


class Unknown(NamedTuple):
    """One of the things not known that matter most, and what would settle it."""

    name: str
    stands: str
    settle: str


def core(study: Study) -> Study:
    """The chain from the roof to what the posts come down on: the study without what lies around it."""
    return _cut(study, tuple(link for link in study.links if not _is_around(link)))


def around(study: Study) -> Study:
    """The rest of the study: temporary support, signs, room, heavy things and the house around."""
    return _cut(study, tuple(link for link in study.links if _is_around(link)))


def _is_around(link: Link) -> bool:
    return link.key.partition(".")[0].partition("[")[0] in _AROUND


def _cut(study: Study, links: tuple[Link, ...]) -> Study:
    sheet = Sheet(study.sheet.key, study.sheet.title, tuple(link.sheet for link in links))
    return replace(study, sheet=sheet, links=links)


def assumed(study: Study) -> tuple[Entry, ...]:
    """Figures and words that nobody has looked at, with what stands in for them, in the order of the survey."""
    figures = [entry for entry in _entries(study) if entry.trust in NOT_SEEN]
    words = [
        _worded(study.survey, word)
        for word in words_that_matter(study)
        if word.trust in NOT_SEEN or word.text == "unknown"
    ]
    others = (_stand_in(study.survey, one) for one in stand_ins(study.survey))
    return _in_order((*figures, *words, *others))


def overruled(study: Study) -> tuple[Entry, ...]:
    """How far off its post the beam lies, where nobody told and its seat puts it farther off than the share does."""
    return tuple(_worded(study.survey, word)._replace(text=BY_SEAT) for word in words_overruled(study))


def told(study: Study) -> tuple[Entry, ...]:
    """Figures that the owner gave without measuring them: stated, seen or looked up."""
    return _in_order(entry for entry in _entries(study) if entry.trust not in (*NOT_SEEN, Trust.MEASURED))


def to_measure(study: Study) -> tuple[Entry, ...]:
    """Lengths and areas of what is there that a tape can check again, whoever took them; none that is nothing."""
    planned = tuple(f"{pad.where}." for pad in study.survey.pads if pad.state == "new")
    taped = (
        entry
        for entry in _entries(study)
        if not entry.where.startswith(planned)
        if entry.value is not None and entry.value.unit in ("in", "ft", "in^2", "ft^2") and entry.value.number != 0
    )
    wanted = (".member", ".eccentricity")  # made of a member's name, or how a post is to be set
    return _in_order(entry for entry in taped if entry.trust not in NOT_SEEN and not entry.where.endswith(wanted))


def foremost(study: Study, most: int = 3) -> tuple[Unknown, ...]:
    """The unknowns that matter most, by a plain rule and no weighing.

    First what is missing, the same of several places once; then what was assumed about the member whose check governs,
    and about the loads and lengths that the check rests on; then every other assumption, in the order of the survey.
    """
    needs: dict[str, list[Missing]] = {}
    for stop in (stop for stop in study.stops if isinstance(stop, Missing)):
        needs.setdefault(re.sub(r"\[\d+\]", "", stop.key), []).append(stop)
    missing = [Unknown(_together(alike), "not shown", alike[0].need) for alike in needs.values()]
    entries = assumed(study)
    governing = core(study).governing or study.governing
    near = _near(governing, entries) if governing is not None else []
    rest = [entry for entry in entries if entry not in near]
    return (*missing, *(_unknown(entry) for entry in (*near, *rest) if entry.text != "unknown"))[:most]


def ones(study: Study) -> tuple[Value, ...]:
    """Factors that a rule sets to 1.0, each once with its reason; a limit of 1.0 is none."""
    found: dict[tuple[str, str], Value] = {}
    for value in _every(study):
        origin = value.origin
        if not isinstance(origin, Taken) or value.unit != "1" or value.number != 1 or value.name.endswith("_lim"):
            continue
        if origin.place or (value.name, origin.reason) not in found:
            found[value.name, origin.reason] = value
    return tuple(found[key] for key in sorted(found))


def from_memory(study: Study) -> tuple[Value, ...]:
    """Table figures that were seen in no copy of their document, each once."""
    found: dict[tuple[str, int, str], Value] = {}
    for value in _every(study):
        if isinstance(value.origin, Looked) and value.origin.seen == "memory":
            origin = value.origin
            found.setdefault((origin.row.table.name, origin.row.line, origin.column), value)
    return tuple(found[key] for key in sorted(found))


def rows_from_memory(study: Study) -> tuple[Row, ...]:
    """Rows of words that the study prints, from memory all of them: what the ends of its posts need to be held."""
    printed = {item.key for item in items(study.sheet) if isinstance(item, Schedule)}
    posts = (post for post in study.survey.posts if f"{post.where}.joints" in printed)
    return tuple(dict.fromkeys(row for post in posts for row in joints(post) if row.seen == "memory"))


def tables_used(study: Study) -> tuple[Table, ...]:
    """Every table that a figure of the study, or a stand-in, comes from."""
    rows = [value.origin.row for value in _every(study) if isinstance(value.origin, Looked)]
    rows += [
        value.origin.default
        for value in _given(study)
        if isinstance(value.origin, Given) and value.origin.default is not None
    ]
    found = {row.table.name: row.table for row in rows}
    return tuple(found[name] for name in sorted(found))


def clauses_used(study: Study) -> tuple[Clause, ...]:
    """Every clause that made a figure of the study."""
    found = {
        value.origin.clause.key: value.origin.clause
        for value in _every(study)
        if isinstance(value.origin, Computed)
    }
    return tuple(found[key] for key in sorted(found))


@lru_cache(maxsize=2)
def _every(study: Study) -> tuple[Value, ...]:
    """All values of a study: every register walks them."""
    return tuple(values(study.sheet))


def _given(study: Study) -> Iterator[Value]:
    yield from (value for value in _every(study) if isinstance(value.origin, Given))
    yield from (study.survey.wall.clear_opening, study.survey.wall.ceiling_height)


def _entries(study: Study) -> tuple[Entry, ...]:
    found: dict[str, Entry] = {}
    for value in _given(study):
        assert isinstance(value.origin, Given)
        if value.origin.where not in found:
            found[value.origin.where] = _figured(study.survey, value, value.origin)
    return tuple(found.values())


def _stand_in(survey: Survey, one: StandIn) -> Entry:
    lean, flips = one.row.text("lean"), one.row.text("flips")
    return Entry(one.where, called(survey, one.where), one.value, None, str(Trust.ASSUMED), "", lean, flips)


def _figured(survey: Survey, value: Value, origin: Given) -> Entry:
    lean, flips = (
        (origin.default.text("lean"), origin.default.text("flips")) if origin.default is not None else ("", "")
    )
    return Entry(
        origin.where, called(survey, origin.where), origin.text, value, str(origin.trust), origin.note, lean, flips
    )


def _worded(survey: Survey, word: Word) -> Entry:
    trust = str(Trust.UNKNOWN) if word.text == "unknown" else word.trust
    return Entry(word.where, called(survey, word.where), word.text, None, trust, word.note, word.lean, word.flips)


def called(survey: Survey, where: str) -> str:
    """A key path in the owner's words: "carried[1].dead" is "bedroom floor, dead"."""
    head, _, key = where.rpartition(".")
    part, number = _numbered(head)
    section = section_at(where)
    owner = f"{part} {number}" if number else head
    if number and section is not None:
        owner = getattr(getattr(survey, section.attribute)[number - 1], "name", owner)
    one, count = _numbered(key)
    words = _SAID.get(one, one.replace("_", " "))
    return f"{owner}, {words.removesuffix('s')} {count}" if count else f"{owner}, {words}"


def whose(item: Refer | Missing) -> str:
    """A stop's title, with the post that it belongs to."""
    head = item.key.partition(".")[0]
    post = f"Post {head[5:-1]}" if head.startswith("post[") else ""
    return f"{post}: {item.title}" if post and not item.title.startswith(post) else item.title


def _together(stops: list[Missing]) -> str:
    """The same that is missing of several places, in a line."""
    names = list(dict.fromkeys(map(whose, stops)))
    return " and ".join(names) if len(names) < 3 else f"{names[0]}, and {len(names) - 1} more like it"


def _near(check: Check, entries: tuple[Entry, ...]) -> list[Entry]:
    member = check.key.split(".")[0]
    about = [entry for entry in entries if entry.where.startswith(f"{member}.")]
    rests_on = {
        value.origin.where
        for root in (check.demand, check.limit)
        for value in ancestry(root)
        if isinstance(value.origin, Given)
    }
    return about + [entry for entry in entries if entry.where in rests_on and entry not in about]


def _unknown(entry: Entry) -> Unknown:
    return Unknown(entry.name, f"{entry.text} assumed", entry.flips)


def _in_order(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    return tuple(sorted(entries, key=lambda entry: _order(entry.where)))


def _order(where: str) -> tuple[int, int, int, int]:
    """Part of the survey, number of the table, place of the key in it, and number of the entry under that key."""
    head, _, key = where.rpartition(".")
    part, number = _numbered(head)
    for place, section in enumerate(SECTIONS):
        if section.key == part:
            one, count = _numbered(key)
            return place, number, _place(section.fields, one), count
    return len(SECTIONS), 0, 0, 0


def _numbered(key: str) -> tuple[str, int]:
    """A key, and the number in brackets behind it, 0 where there is none."""
    one, _, number = key.partition("[")
    return one, int(number.rstrip("]") or 0)


def _place(fields: tuple[Field, ...], key: str) -> int:
    return next((place for place, field in enumerate(fields) if field.key == key), len(fields))
