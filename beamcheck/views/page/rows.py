"""The form as the template draws it: sections, their tables, and a row for every key with its faults."""

from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from beamcheck.errors import Fault
from beamcheck.survey.entries import LAYERED
from beamcheck.survey.entry import Field, Section
from beamcheck.survey.fields import SECTIONS
from beamcheck.tables import lookup
from beamcheck.trace import Trust
from beamcheck.views.page.edits import misfits
from beamcheck.views.page.form import PARTS

TRUSTS: tuple[str, ...] = tuple(Trust)

MOST_BARE = 4
"""Keys left out that nothing stands in for are folded away where there are more of them than this."""

_LONG = ("question", "note")
_NOUNS = {"carried": "carried item", "heavy": "heavy thing", "hole": "hole in the beam"}


class Row(NamedTuple):
    """One key of the survey as a row of the form.

    name: its key path; kind: text, long or choice; options: the words it may be; entry: what is written, by
    part; known: whether it may be said how it is known; ranged: whether it may have a low and high; stand_in:
    what stands in if it is left out, with lean and flips from the register of cautious defaults.
    """

    name: str
    label: str
    about: str
    example: str
    kind: str
    options: tuple[str, ...]
    required: bool
    entry: Mapping[str, str]
    known: bool
    ranged: bool
    stand_in: str
    lean: str
    flips: str
    faults: tuple[Fault, ...]

    @property
    def written(self) -> bool:
        """Whether anything is written in it."""
        return any(self.entry.values())

    @property
    def gist(self) -> str:
        """What is said about the entry besides how it is known."""
        low, high, note = (self.entry[part] for part in ("low", "high", "note"))
        between = f"{low or '...'} to {high or '...'}" if low or high else ""
        return "; ".join(filter(None, (between, note)))


class Part(NamedTuple):
    """One table of the survey: its rows, those folded away, and the faults that belong to none of them.

    number is 0 where there can be only one.
    """

    where: str
    noun: str
    title: str
    number: int
    rows: tuple[Row, ...]
    folded: tuple[Row, ...]
    faults: tuple[Fault, ...]
    misfits: tuple[str, ...]

    @property
    def every(self) -> tuple[Row, ...]:
        """All rows, shown or folded away."""
        return (*self.rows, *self.folded)


class Division(NamedTuple):
    """A section of the survey with the tables that are there."""

    key: str
    title: str
    noun: str
    about: str
    repeated: bool
    optional: bool
    parts: tuple[Part, ...]
    faults: tuple[Fault, ...]


def divisions(entries: Mapping[str, Any], faults: Iterable[Fault]) -> tuple[Division, ...]:
    """Every section of a survey, with each fault at the deepest place that its key path names."""
    names = _names(entries)
    at: dict[str, list[Fault]] = {}
    for fault in faults:
        at.setdefault(place(fault.where, names), []).append(fault)
    return tuple(_division(section, entries, at) for section in SECTIONS)


def place(where: str, names: frozenset[str]) -> str:
    """The name in the form that a key path of the reader stands at or in; "" if it stands at none."""
    while where and where not in names:
        end = max(where.rfind("."), where.rfind("["))
        where = where[: max(end, 0)]
    return where


def anchors(entries: Mapping[str, Any], faults: Iterable[Fault]) -> tuple[tuple[str, Fault], ...]:
    """Every fault with the name that it stands at."""
    names = _names(entries)
    return tuple((place(fault.where, names), fault) for fault in faults)


def noun(key: str) -> str:
    """What one table of a section is called in a sentence."""
    return _NOUNS.get(key, key.replace("_", " "))


def _names(entries: Mapping[str, Any]) -> frozenset[str]:
    names = set()
    for section in SECTIONS:
        names.add(section.key)
        for where, table in _tables(section, entries):
            names.add(where)
            names.update(f"{where}.{field.key}" for field in _fields(section, table))
    return frozenset(names)


def _tables(section: Section, entries: Mapping[str, Any]) -> list[tuple[str, Mapping[str, Any]]]:
    if section.repeated:
        return [
            (f"{section.key}[{number}]", table)
            for number, table in enumerate(entries.get(section.key, ()), 1)
        ]
    return [(section.key, entries[section.key])] if section.key in entries else []


def _fields(section: Section, table: Mapping[str, Any]) -> tuple[Field, ...]:
    """The keys that belong to the kind, and those that are written all the same."""
    kind = _text(table.get("kind", ""))
    return tuple(one for one in section.fields if not one.kinds or kind in one.kinds or one.key in table)


def _division(section: Section, entries: Mapping[str, Any], at: Mapping[str, list[Fault]]) -> Division:
    listed = _tables(section, entries)
    parts = tuple(
        _part(section, (where, table), number * section.repeated, at)
        for number, (where, table) in enumerate(listed, 1)
    )
    own = () if not section.repeated and parts else tuple(at.get(section.key, ()))
    return Division(
        section.key,
        section.key.replace("_", " "),
        noun(section.key),
        section.about,
        section.repeated,
        section.optional,
        parts,
        own,
    )


def _part(
    section: Section, listed: tuple[str, Mapping[str, Any]], number: int, at: Mapping[str, list[Fault]]
) -> Part:
    where, table = listed
    fields = _fields(section, table)
    rows = tuple(_row(field, where, table, tuple(at.get(f"{where}.{field.key}", ()))) for field in fields)
    bare = tuple(
        row
        for row, field in zip(rows, fields, strict=True)
        if _bare(field) and not row.faults and not row.written
    )
    folded = bare if len(bare) > MOST_BARE else ()
    name = " ".join(filter(None, (noun(section.key), str(number or ""))))
    told = _text(table.get("name", table.get("member", "")))
    return Part(
        where,
        name,
        f"{name}: {told}" if told else name,
        number,
        tuple(row for row in rows if row not in folded),
        folded,
        tuple(at.get(where, ())),
        misfits(table) if section.key == "carried" else (),
    )


def _bare(field: Field) -> bool:
    """Whether a survey is as good without it: nothing stands in, and it does not make one kind what it is."""
    return not field.required and not field.register and len(field.kinds) != 1


def _row(field: Field, where: str, table: Mapping[str, Any], faults: tuple[Fault, ...]) -> Row:
    written = table.get(field.key, {})
    entry = dict.fromkeys(PARTS, "") | ({"value": written} if isinstance(written, str) else written)
    kind = "choice" if field.choices and not field.many else "long" if field.key in _LONG else "text"
    told = field.dimension or field.choices or field.register or field.key in LAYERED
    said = bool(told) or any(entry[part] for part in PARTS[1:])
    stand_in = _stand_in(field, _text(table.get("kind", "")))
    return Row(
        f"{where}.{field.key}",
        _label(field.key),
        field.about,
        field.example,
        kind,
        _options(field, entry["value"]),
        field.required,
        entry,
        said,
        field.dimension is not None and not field.many,
        *stand_in,
        faults,
    )


def _label(key: str) -> str:
    """A key in words; sides A and B of the wall are capitals."""
    words = key.replace("_", " ")
    return words[:-1] + words[-1].upper() if words.endswith((" a", " b")) else words


def _options(field: Field, written: str) -> tuple[str, ...]:
    """The words that may be chosen, with the word that is written even if it is none of them."""
    if not field.choices:
        return ()
    if field.many:
        return field.choices
    unknown = () if field.required or "unknown" in field.choices else ("unknown",)
    return tuple(dict.fromkeys((*field.choices, *unknown, *filter(None, (written,)))))


def _stand_in(field: Field, kind: str) -> tuple[str, str, str]:
    item = field.register.replace("*", kind.replace(" ", "_"))
    if not item or (field.kinds and kind not in field.kinds):
        return "", "", ""
    row = lookup("practice/defaults", item=item)
    return row.text("value"), row.text("lean"), row.text("flips")


def _text(written: Any) -> str:
    return str(written.get("value", "")) if isinstance(written, Mapping) else str(written)
