"""Read one entry of a survey: text with its trust and range, or what stands in for it. Faults are gathered."""

from typing import Any

from beamcheck import tables, units
from beamcheck.errors import Fault, InputError
from beamcheck.survey.entry import Field
from beamcheck.survey.model import Word
from beamcheck.trace import NOT_SEEN, Given, Trust, Value

MOST_FAULTS = 100
MOST_LAYERS = 30
MEMBERS = ("member", "stud", "point_stud", "top_plate", "joist")
LAYERED = ("layers", "top_layers")
_ENTRY_KEYS = ("value", "trust", "note", "low", "high")
_UNKNOWN = "unknown"
_LONGEST_PATH = 200
_NOT_ONE_LINE = (
    "is longer than 400 characters or holds a character that does not print",
    "shorten it to one line",
)

Entry = Value | str | tuple[Value | str, ...] | None
"""An entry as read: a figure, a word, several of either, or nothing."""


class Entries:
    """Reads entries one by one, gathering the faults and the words chosen."""

    def __init__(self) -> None:
        self.faults: list[Fault] = []
        self.words: list[Word] = []

    def entry(self, field: Field, written: Any, where: str, kind: str) -> Entry:
        """The entry as read; ``kind`` of the carried item that it belongs to."""
        parts = self.parts(field, written, where)
        if parts is None:
            return nothing(field)
        text, trust, note = parts["value"], parts["trust"], parts["note"]
        unknown = trust is Trust.UNKNOWN or (text == _UNKNOWN and _UNKNOWN not in field.choices)
        if field.required and (unknown or text is None):
            self.lacks(field, where, unknown=unknown)
            return nothing(field)
        if text is None or unknown:
            return self.stand_in(field, where, kind, note, asked=written is not None)
        if field.many:
            return self.several(field, parts, where, kind)
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

    def several(self, field: Field, parts: dict[str, Any], where: str, kind: str) -> tuple[Value | str, ...]:
        """The entries of one text with commas between them; the key path of each ends in its number."""
        found: list[Value | str] = []
        for count, text in enumerate(parts["value"].split(","), 1):
            place = f"{where}[{count}]"
            if field.key in LAYERED:
                if count > MOST_LAYERS:
                    self.fault(where, f"more than {MOST_LAYERS} layers", "put those together that are of one kind")
                    break
                found += self.layer(text, place, kind)
                continue
            if field.dimension is None:
                found.append(self.word(field, text.strip(), parts["trust"], parts["note"], place))
                continue
            number = self.number(field, text.strip(), place)
            if number is not None:
                origin = Given(place, parts["trust"], text.strip(), parts["note"])
                found.append(Value(field.key, number, field.unit, origin))
        return tuple(found)

    def layer(self, text: str, where: str, kind: str) -> tuple[Value, ...]:
        """The weight of one layer, and the word that stands in where its species is not told; nothing for a fault."""
        from beamcheck.catalogue.layers import read_layer

        try:
            weight, assumed = read_layer(text, where, kind)
        except InputError as error:
            for fault in error.faults:
                self.fault(fault.where, fault.what, fault.mend)
            return ()
        if assumed is not None:
            species, lean, flips = (assumed.text(column) for column in ("value", "lean", "flips"))
            self.words.append(Word(where, f"{species} in {weight.title}", Trust.ASSUMED, "", lean, flips))
        return (weight,)

    def parts(self, field: Field, written: Any, where: str) -> dict[str, Any] | None:
        """The entry spread into value, trust, note, low and high; None if it is of no use."""
        empty: dict[str, Any] = {"value": None, "trust": Trust.STATED, "note": "", "low": "", "high": ""}
        if written is None:
            return empty
        if isinstance(written, str):
            return {**empty, "value": written.strip()}
        if isinstance(written, dict):
            return self.spread(field, written, where, empty)
        if isinstance(written, int | float) and not isinstance(written, bool):
            self.bare(field, str(written), where)
        else:
            self.fault(where, f"{_plainly(written)} is not text", field.wanted)
        return None

    def bare(self, field: Field, shown: str, where: str) -> None:
        """The fault of a figure that is written without quotes, with the units that it may be meant in."""
        if field.dimension in (None, units.Dimension.NUMBER):
            self.fault(where, f"{shown[:40]} is not text", f'write it in quotes, such as "{field.example}"')
        elif not shown.lstrip("+-")[:1].isdecimal() or "e" in shown:
            self.fault(where, f"{shown[:40]} has no unit", field.wanted)
        else:
            self.number(field, shown, where)

    def spread(self, field: Field, written: dict[str, Any], where: str, parts: dict[str, Any]) -> dict[str, Any] | None:
        """The parts of an entry that is written as a table; None if it is of no use."""
        for key, item in written.items():
            if key not in _ENTRY_KEYS:
                self.fault(f"{where}.{key}", "is not a part of an entry", nearest(key, _ENTRY_KEYS))
            elif not isinstance(item, str):
                self.fault(f"{where}.{key}", f"{_plainly(item)} is not text", field.wanted)
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
                nearest(parts["trust"], tuple(str(trust) for trust in Trust)),
            )
            return None
        return parts

    def lacks(self, field: Field, where: str, *, unknown: bool) -> None:
        """The fault of an entry that is needed: how to write it, or where it is not known how to find it out."""
        if unknown:
            self.fault(where, "must be known: nothing can stand in for it", field.to_find_out)
            return
        mend = f"{field.wanted}. {field.measure}" if field.measure else field.wanted
        self.fault(where, "is needed and nothing can stand in for it", mend)

    def stand_in(self, field: Field, where: str, kind: str, note: str, *, asked: bool) -> Entry:
        """What stands in for an entry that is unknown or left out: the cautious default, or nothing."""
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
        """One of the words it may be, kept for the register; or one line of free text."""
        if field.choices and text not in field.choices:
            self.fault(where, f"{text[:60]!r} is not one of the words it may be", nearest(text, field.choices))
            return field.choices[0]
        if not field.choices and not _one_line(text):
            self.fault(where, *_NOT_ONE_LINE)
            return ""
        if field.key in MEMBERS:
            self.member(text, where)
        if field.choices or (field.register and trust in NOT_SEEN):
            self.words.append(Word(where, text, trust, note))
        return text

    def member(self, text: str, where: str) -> None:
        """The faults of a member's trade text, so that they come with the others and not after them."""
        from beamcheck.catalogue.reading import read_member

        try:
            read_member(text, where)
        except InputError as error:
            for fault in error.faults:
                self.fault(fault.where, fault.what, fault.mend)

    def number(self, field: Field, text: str, where: str) -> float | None:
        """The figure in the field's unit, if it is one and makes sense."""
        assert field.dimension is not None
        base = units.base_unit(field.dimension)
        least, most = (units.convert(end, field.unit, base) for end in (field.least, field.most))
        try:
            return units.convert(units.parse(text, field.dimension, minimum=least, maximum=most), base, field.unit)
        except units.UnitFault as fault:
            example = f'write {units.article(field.dimension)} such as "{field.example}"'
            told = fault.wanted.replace(units.wanted(field.dimension), example) if field.example else fault.wanted
            self.fault(where, str(fault), told)
            return None

    @property
    def full(self) -> bool:
        """Whether so much is wrong that no more is told."""
        return len(self.faults) > MOST_FAULTS

    def fault(self, where: str, what: str, mend: str) -> None:
        """Keep a fault; of too many only that they are."""
        if len(self.faults) < MOST_FAULTS:
            self.faults.append(Fault(where[:_LONGEST_PATH], what, mend))
        elif len(self.faults) == MOST_FAULTS:
            self.faults.append(Fault("survey", f"more than {MOST_FAULTS} things to mend", "mend the others first"))


def _unanswered(field: Field, *, asked: bool) -> Entry:
    """What an entry is for which nothing stands in; a word only where it may be that word."""
    if field.dimension:
        return None
    if field.key == "dimensions":
        return field.choices[0]
    return _UNKNOWN if asked and (not field.choices or _UNKNOWN in field.choices) else ""


def nothing(field: Field) -> Entry:
    """What an entry is that is not there."""
    if field.many:
        return ()
    return None if field.dimension else ""


def _plainly(written: object) -> str:
    """What is no text, as the file has it, in a few words."""
    if isinstance(written, list | dict):
        return "a list" if isinstance(written, list) else "a table"
    return str(written).lower()[:40]


def _one_line(text: str) -> bool:
    return len(text) <= 400 and text.isprintable()


def nearest(written: str, choices: tuple[str, ...]) -> str:
    """The choice that was most likely meant, or all of them, for a message."""
    from difflib import get_close_matches

    close = get_close_matches(written.lower(), choices, n=1, cutoff=0.5)
    return f"nearest: {str(close[0])!r}" if close else f"it may be one of: {', '.join(choices)}"
