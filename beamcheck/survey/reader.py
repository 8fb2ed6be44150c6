"""Read a survey file. Every fault is gathered and reported at once, with its key path and what would do."""

import hashlib
from pathlib import Path
from typing import Any

from beamcheck import tables, units
from beamcheck.errors import Fault, InputError
from beamcheck.survey.documents import file_bytes, parsed
from beamcheck.survey.fields import SECTIONS, Field, Section
from beamcheck.survey.fields_around import AROUND
from beamcheck.survey.fields_below import BELOW
from beamcheck.survey.model import About, Beam, Carried, Post, Site, Survey, Wall, Word
from beamcheck.trace import Given, Trust, Value

MOST_ITEMS = 60
MOST_FAULTS = 100
_ENTRY_KEYS = ("value", "trust", "note", "low", "high")
_UNKNOWN = "unknown"
_LONGEST_PATH = 200
_NOT_ONE_LINE = (
    "is longer than 400 characters or holds a character that does not print",
    "shorten it to one line",
)
VARIANT = "variant"
DRAFT = "draft"  # the part that marks what an interview has not finished

Entry = Value | str | tuple[Value | str, ...] | None
"""An entry as read: a figure, a word, several of either, or nothing."""


def read(path: Path) -> Survey:
    """The survey in a file. Raises InputError with every fault found."""
    return read_text(file_bytes(path), path.name)


def read_text(data: bytes, file: str = "survey") -> Survey:
    """The survey in the bytes of a file, its variants left aside. Raises InputError with every fault found."""
    document = parsed(data, file)
    document.pop(VARIANT, None)
    return from_document(document, hashlib.sha256(data).hexdigest(), file)


def from_document(document: dict[str, Any], sha256: str, file: str) -> Survey:
    """The survey in a TOML document without variants. Raises InputError with every fault found."""
    reader = _Reader()
    survey = reader.survey(document, sha256, file)
    if reader.faults:
        raise InputError(reader.faults, file)
    return survey


def read_section(path: Path, key: str) -> tuple[tuple[dict[str, Any], ...], tuple[Word, ...]]:
    """Entries and words of one section, of a file whose others may be unfinished. Raises InputError with its faults."""
    reader = _Reader()
    section = next(section for section in SECTIONS if section.key == key)
    entries = reader.section(section, parsed(file_bytes(path), path.name))
    if reader.faults:
        raise InputError(reader.faults, path.name)
    return tuple(entries), tuple(reader.words)


def entry_faults(field: Field, written: Any, where: str, kind: str = "") -> tuple[Fault, ...]:
    """What is wrong with one entry by itself; ``kind`` of the carried item that it belongs to."""
    reader = _Reader()
    reader.entry(field, written, where, kind)
    return tuple(reader.faults)


class _Reader:
    """Gathers faults and the words chosen while the document is walked."""

    def __init__(self) -> None:
        self.faults: list[Fault] = []
        self.words: list[Word] = []

    def survey(self, document: dict[str, Any], sha256: str, file: str) -> Survey:
        sections = {section.key: section for section in SECTIONS}
        if DRAFT in document:
            mend = f"go on with it:  bearline ask {file}"
            raise InputError([Fault(DRAFT, "this is a draft, which an interview has not completed", mend)], file)
        for key in document:
            if key not in sections and not self.full:
                self.fault(key, "is not a part of a survey", _nearest(key, tuple(sections)))
        parts = {section.key: self.section(section, document) for section in SECTIONS}
        about, site, wall, carried, beam, posts = (
            parts[key] for key in ("study", "site", "wall", "carried", "beam", "post")
        )
        if not carried:
            self.fault("carried", "nothing is carried", "describe with [[carried]] all that comes down on the wall")
        if len(posts) < 2:
            self.fault("post", f"{len(posts)} posts", "a beam needs at least two [[post]] tables")
        if len(posts) > 7:
            self.fault("post", f"{len(posts)} posts", "at most seven posts, six spans, can be checked")
        if self.faults:
            raise InputError(self.faults, file)
        return Survey(
            About(**about[0]),
            Site(**site[0]),
            Wall(**wall[0]),
            tuple(Carried(**_renamed(entry)) for entry in carried),
            Beam(**beam[0]),
            tuple(Post(**entry) for entry in posts),
            tuple(self.words),
            sha256,
            file,
            **_below(parts),
            **_around(parts),
            **_asked(parts),
        )

    def section(self, section: Section, document: dict[str, Any]) -> list[dict[str, Any]]:
        if section.optional and section.key not in document:
            return []
        written = document.get(section.key, [] if section.repeated else {})
        if section.repeated:
            if not isinstance(written, list) or not all(isinstance(item, dict) for item in written):
                self.fault(section.key, "is not a list of tables", f"write each one under  [[{section.key}]]")
                return []
            if len(written) > section.most:
                self.fault(section.key, f"{len(written)} tables", f"at most {section.most}")
                return []
            return [self.table(section, item, f"{section.key}[{index + 1}]") for index, item in enumerate(written)]
        if not isinstance(written, dict):
            self.fault(section.key, "is not a table", f"write its keys under  [{section.key}]")
            written = {}
        return [self.table(section, written, section.key)]

    def table(self, section: Section, written: dict[str, Any], where: str) -> dict[str, Any]:
        kind = written.get("kind") if section.key == "carried" else None
        kind = kind.get("value") if isinstance(kind, dict) else kind
        kind = kind.strip() if isinstance(kind, str) else ""
        known = {field.key: field for field in section.fields}
        for key in written:
            if self.full:
                break
            if key not in known:
                self.fault(f"{where}.{key}", "is not a key of a survey", _nearest(key, tuple(known)))
            elif kind and not _fits(known[key], kind):
                self.fault(
                    f"{where}.{key}",
                    f"a carried item of kind {kind!r} has no {key}",
                    f"leave it out, or mend {where}.kind",
                )
        entry: dict[str, Any] = {"where": where} if section.repeated else {}
        for field in section.fields:
            fits = not field.kinds or _fits(field, kind)
            entry[field.key] = (
                self.entry(field, written.get(field.key), f"{where}.{field.key}", kind)
                if fits
                else (None if field.dimension else "")
            )
        return entry

    def entry(self, field: Field, written: Any, where: str, kind: str) -> Entry:
        parts = self.parts(field, written, where)
        if parts is None:
            return _nothing(field)
        text, trust, note = parts["value"], parts["trust"], parts["note"]
        if text is None or trust is Trust.UNKNOWN or (text == _UNKNOWN and _UNKNOWN not in field.choices):
            return self.stand_in(field, where, kind, note, asked=written is not None)
        if field.many:
            return self.several(field, parts, where)
        if field.dimension is None:
            return self.word(field, text, trust, note, where)
        number = self.number(field, text, where)
        if number is None:
            return None
        low, high = (
            self.number(field, parts[end], f"{where}.{end}") if parts[end] else None for end in ("low", "high")
        )
        if (low is not None and low > number) or (high is not None and high < number):
            self.fault(
                where,
                f"the range {parts['low'] or '...'} to {parts['high'] or '...'} does not hold {text}",
                "low is at most the value, high at least",
            )
        return Value(field.key, number, field.unit, Given(where, trust, text, note, low, high))

    def several(self, field: Field, parts: dict[str, Any], where: str) -> tuple[Value | str, ...]:
        """The entries of one text with commas between them; the key path of each ends in its number."""
        found: list[Value | str] = []
        for count, text in enumerate(parts["value"].split(","), 1):
            place = f"{where}[{count}]"
            if field.dimension is None:
                found.append(self.word(field, text.strip(), parts["trust"], parts["note"], place))
                continue
            number = self.number(field, text.strip(), place)
            if number is not None:
                origin = Given(place, parts["trust"], text.strip(), parts["note"])
                found.append(Value(field.key, number, field.unit, origin))
        return tuple(found)

    def parts(self, field: Field, written: Any, where: str) -> dict[str, Any] | None:
        """The entry spread into value, trust, note, low and high; None if it is of no use."""
        empty: dict[str, Any] = {"value": None, "trust": Trust.STATED, "note": "", "low": "", "high": ""}
        if written is None:
            return empty
        if isinstance(written, str):
            return {**empty, "value": written.strip()}
        if isinstance(written, dict):
            return self.spread(field, written, where, empty)
        shown = str(written) if isinstance(written, int | float) else type(written).__name__
        if field.dimension is not None and isinstance(written, int | float):
            self.fault(where, f"{shown} has no unit", field.wanted)
        else:
            self.fault(where, f"{shown[:40]} is not text", field.wanted)
        return None

    def spread(self, field: Field, written: dict[str, Any], where: str, parts: dict[str, Any]) -> dict[str, Any] | None:
        for key, item in written.items():
            if key not in _ENTRY_KEYS:
                self.fault(f"{where}.{key}", "is not a part of an entry", _nearest(key, _ENTRY_KEYS))
            elif not isinstance(item, str):
                self.fault(f"{where}.{key}", f"{str(item)[:40]} is not text", field.wanted)
            elif key == "note" and not _one_line(item):
                self.fault(f"{where}.{key}", *_NOT_ONE_LINE)
            else:
                parts[key] = item.strip()
        try:
            parts["trust"] = Trust(parts["trust"])
        except ValueError:
            self.fault(
                f"{where}.trust",
                f"{parts['trust']!r} is not a kind of trust",
                _nearest(parts["trust"], tuple(Trust)),
            )
            return None
        return parts

    def stand_in(self, field: Field, where: str, kind: str, note: str, *, asked: bool) -> Entry:
        """What stands in for an entry that is unknown or left out: the cautious default, or nothing."""
        if field.required:
            self.fault(where, "is needed and nothing can stand in for it", field.wanted)
            return _nothing(field)
        item = field.register.replace("*", kind.replace(" ", "_"))
        if not item:
            if asked:
                self.words.append(Word(where, _UNKNOWN, Trust.UNKNOWN, note))
            if field.many:
                return ()
            return _unanswered(field, asked=asked)
        row = tables.lookup("practice/defaults", item=item)
        text = row.text("value")
        if field.dimension is None or text.startswith("share"):
            self.words.append(Word(where, text, Trust.ASSUMED, note, row.text("lean"), row.text("flips")))
            return text if field.dimension is None else None
        number = units.convert(units.parse(text, field.dimension), units.base_unit(field.dimension), field.unit)
        return Value(field.key, number, field.unit, Given(where, Trust.ASSUMED, text, note, default=row))

    def word(self, field: Field, text: str, trust: Trust, note: str, where: str) -> str:
        if field.choices and text not in field.choices:
            self.fault(where, f"{text[:60]!r} is not one of the words it may be", _nearest(text, field.choices))
            return field.choices[0]
        if not field.choices and not _one_line(text):
            self.fault(where, *_NOT_ONE_LINE)
            return ""
        if field.choices:
            self.words.append(Word(where, text, trust, note))
        return text

    def number(self, field: Field, text: str, where: str) -> float | None:
        assert field.dimension is not None
        try:
            read = units.parse(text, field.dimension, minimum=float("-inf"))
            number = units.convert(read, units.base_unit(field.dimension), field.unit)
        except units.UnitFault as fault:
            self.fault(where, str(fault), fault.wanted)
            return None
        if not field.least <= number <= field.most:
            unit = field.unit
            self.fault(where, f"{text} is outside {field.least:g} to {field.most:g} {unit}", field.wanted)
            return None
        return number

    @property
    def full(self) -> bool:
        """Whether so much is wrong that no more is told."""
        return len(self.faults) > MOST_FAULTS

    def fault(self, where: str, what: str, mend: str) -> None:
        if len(self.faults) < MOST_FAULTS:
            self.faults.append(Fault(where[:_LONGEST_PATH], what, mend))
        elif len(self.faults) == MOST_FAULTS:
            self.faults.append(Fault("survey", f"more than {MOST_FAULTS} things to mend", "mend the others first"))


def _below(parts: dict[str, list[dict[str, Any]]]) -> dict[str, Any]:
    """What stands under the posts; its types are imported only where any of it is there."""
    if not any(parts[section.key] for section in BELOW):
        return {}
    from beamcheck.survey import below

    return {
        "girders": tuple(below.Girder(**entry) for entry in parts["girder"]),
        "pads": tuple(below.Pad(**entry) for entry in parts["pad"]),
        "ties": next((below.Ties(**entry) for entry in parts["ties"]), None),
    }


def _around(parts: dict[str, list[dict[str, Any]]]) -> dict[str, Any]:
    """The parts that a survey may do without; their types are imported only where one is there."""
    if not any(parts[section.key] for section in AROUND):
        return {}
    from beamcheck.survey.around import gathered

    return gathered(parts)


def _asked(parts: dict[str, list[dict[str, Any]]]) -> dict[str, Any]:
    """What is asked beyond one study; its type is imported only where it is there."""
    if not parts["options"]:
        return {}
    from beamcheck.survey.explore import Wanted

    return {"wanted": Wanted(**parts["options"][0])}


def _unanswered(field: Field, *, asked: bool) -> Entry:
    """What an entry is for which nothing stands in; a word only where it may be that word."""
    if field.dimension:
        return None
    if field.key == "dimensions":
        return field.choices[0]
    return _UNKNOWN if asked and (not field.choices or _UNKNOWN in field.choices) else ""


def _nothing(field: Field) -> Entry:
    """What an entry is that is not there."""
    if field.many:
        return ()
    return None if field.dimension else ""


def _one_line(text: str) -> bool:
    return len(text) <= 400 and text.isprintable()


def _fits(field: Field, kind: str) -> bool:
    return not field.kinds or kind in field.kinds


def _renamed(entry: dict[str, Any]) -> dict[str, Any]:
    """``from`` and ``to`` cannot be names in Python."""
    renamed = {"from": "start", "to": "end"}
    return {renamed.get(key, key): value for key, value in entry.items()}


def _nearest(written: str, choices: tuple[str, ...]) -> str:
    from difflib import get_close_matches

    close = get_close_matches(written.lower(), choices, n=1, cutoff=0.5)
    return f"nearest: {close[0]!r}" if close else f"it may be one of: {', '.join(choices)}"
