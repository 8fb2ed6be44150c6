"""From the names and texts of a form to the entries of a survey, and from a survey file to what a form holds.

A name is the key path of the reader's messages: ``wall.clear_opening``, ``post[2].height``, and for what is
said about an entry ``post[2].height.note``. The form holds the whole survey, so the server keeps nothing.
"""

import json
import re
from collections import Counter
from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from beamcheck.survey.entry import MOST_ITEMS
from beamcheck.survey.fields import SECTIONS, Field, Section
from beamcheck.survey.reader import VARIANT, from_document
from beamcheck.survey.writer import Entries, Entry, Table, tidied

PARTS = ("value", "trust", "note", "low", "high")
PAPERS = ("letter", "a4")

_NAME = re.compile(
    r"(?P<section>[a-z_]+)(?:\[(?P<number>[1-9][0-9]?)\])?\.(?P<key>[a-z_]+)(?:\.(?P<part>trust|note|low|high))?"
)
_SECTIONS = {section.key: section for section in SECTIONS}
_FIELDS: Mapping[str, Mapping[str, Field]] = {
    section.key: {field.key: field for field in section.fields} for section in SECTIONS
}


class BadForm(Exception):
    """A form that this page did not make; the message says what is odd about it."""


class Filled(NamedTuple):
    """A form as sent: the survey's entries, the button pressed, and how the summary is to be printed."""

    entries: dict[str, Any]
    do: str = ""
    paper: str = PAPERS[0]
    book: bool = False


def read_form(pairs: Iterable[tuple[str, str]]) -> Filled:
    """The entries of a form. Raises BadForm for what no form of ours has in it."""
    written = tuple(pairs)
    twice = [name for name, count in Counter(name for name, _ in written).items() if count > 1]
    if twice:
        raise BadForm(f"{twice[0][:60]!r} stands in the form twice")
    given = dict(written)
    do, paper, book = given.pop("do", ""), given.pop("paper", PAPERS[0]), given.pop("book", "")
    if paper not in PAPERS or book not in ("", "yes"):
        raise BadForm("the paper to print on is none that is known here")
    variants = given.pop(VARIANT, "")
    entries = _entries(given)
    if variants:
        entries[VARIANT] = _variants(variants)
    return Filled(tidied(entries), do, paper, bool(book))


def _entries(given: Mapping[str, str]) -> dict[str, Any]:
    tables: dict[str, dict[int, dict[str, dict[str, str]]]] = {
        section.key: {0: {}} for section in SECTIONS if not section.optional and not section.repeated
    }
    for name, text in given.items():
        section, number, key, part = _place(name)
        table = tables.setdefault(section.key, {}).setdefault(number, {})
        table.setdefault(key, {})[part] = re.sub(r"[\r\n\t]+", " ", text)
    return {
        key: [numbered[number] for number in sorted(numbered)] if _SECTIONS[key].repeated else numbered[0]
        for key, numbered in tables.items()
    }


def _place(name: str) -> tuple[Section, int, str, str]:
    match = _NAME.fullmatch(name)
    section = _SECTIONS.get(match["section"]) if match else None
    if match is None or section is None or match["key"] not in _FIELDS[section.key]:
        raise BadForm(f"{name[:60]!r} is not a name in this form")
    number = int(match["number"] or 0)
    if bool(number) != section.repeated or number > MOST_ITEMS:
        raise BadForm(f"{name[:60]!r} is not numbered as this form numbers it")
    return section, number, match["key"], match["part"] or PARTS[0]


def _variants(text: str) -> list[Table]:
    """Variants travel through the form as they are: it shows none of them."""
    try:
        listed = json.loads(text)
    except (ValueError, RecursionError):
        listed = None
    if not isinstance(listed, list) or not all(isinstance(item, dict) for item in listed):
        raise BadForm("the variants are not as this form writes them")
    return [_texts(item, 0) for item in listed]


def form_entries(document: Mapping[str, Any]) -> Entries:
    """What a form can hold of a survey file. Raises InputError, every fault in it, if the file holds more."""
    held = {key: _held(_SECTIONS[key], written) for key, written in document.items() if key in _SECTIONS}
    variants = document.get(VARIANT, [])
    foreign = set(document) - set(_SECTIONS) - {VARIANT}
    if foreign or None in held.values() or not isinstance(variants, list):
        from_document({key: written for key, written in document.items() if key != VARIANT}, "", "")
        raise BadForm("the file holds more than a form can, and yet the reader finds no fault in it")
    entries: dict[str, Any] = {**held}
    for section in SECTIONS:
        if not section.optional:
            entries.setdefault(section.key, [] if section.repeated else {})
    if variants:
        entries[VARIANT] = [_texts(item, 0) for item in variants if isinstance(item, dict)]
    return tidied(entries)


def _held(section: Section, written: Any) -> Any:
    """A section as tables of texts; None if there is anything in it that a form has no place for."""
    if section.repeated:
        tables = [_held_table(section, item) for item in written] if isinstance(written, list) else [None]
        return None if None in tables or len(tables) > MOST_ITEMS else tables
    return _held_table(section, written)


def _held_table(section: Section, written: Any) -> dict[str, Entry] | None:
    if not isinstance(written, dict) or not set(written) <= set(_FIELDS[section.key]):
        return None
    table: dict[str, Entry] = {}
    for key, entry in written.items():
        parts = entry if isinstance(entry, dict) else {PARTS[0]: entry}
        if not set(parts) <= set(PARTS) or any(isinstance(part, dict | list) for part in parts.values()):
            return None
        table[key] = {name: str(part) for name, part in parts.items()}
    return table


def _texts(table: Mapping[str, Any], depth: int) -> dict[str, Entry]:
    """A table of texts and, no deeper than a variant goes, of tables of texts."""
    return {
        str(key): _texts(part, depth + 1) if isinstance(part, dict) and depth < 3 else str(part)
        for key, part in table.items()
    }
