"""Figures typed as options of a command, read into Values and rows of a take-down."""

from beamcheck import units
from beamcheck.errors import Fault, InputError
from beamcheck.tables import lookup
from beamcheck.takedown.sources import LOAD_WORDS, Source
from beamcheck.trace import Given, Note, Trust, Value
from beamcheck.units import Dimension

_POINT = 'write it as "3,200 lb dead at 5 ft"; the load may be dead, live, roof live or snow'


def given(option: str, text: str, dimension: Dimension, *, least: float = 0.0, most: float = 1e7) -> Value:
    """An option's text as a stated Value. Raises InputError."""
    try:
        number = units.parse(text, dimension, minimum=least, maximum=most)
    except units.UnitFault as fault:
        raise InputError([Fault(option, str(fault), fault.wanted)]) from None
    return Value(
        option.lstrip("-").replace("-", "_"),
        number,
        units.base_unit(dimension),
        Given(option, Trust.STATED, text),
    )


def point_source(text: str, number: int) -> Source:
    """A point load from text such as "3,200 lb dead at 5 ft". Raises InputError."""
    option = f"--point {number}"
    load, at, where = text.partition(" at ")
    for name, words in LOAD_WORDS.items():
        amount = load.strip().removesuffix(words)
        if amount != load.strip() and not (words == "live" and amount.rstrip().endswith("roof")):
            P = given(option, amount.strip(), Dimension.FORCE, least=-1e6, most=1e6)
            if not at:
                break
            return Source(option, f"point {number}", name, P=P, station=given(option, where.strip(), Dimension.LENGTH))
    raise InputError([Fault(option, f"{text!r} cannot be read", _POINT)])


def line_source(option: str, text: str, load_type: str) -> Source:
    """A load along the whole span. Raises InputError."""
    return Source(
        option,
        f"{LOAD_WORDS[load_type]} load",
        load_type,
        w=given(option, text, Dimension.LINE_LOAD, most=1e5),
    )


class StandIns:
    """What stands in for options that were left out, from the register of cautious defaults; ``notes`` tells each."""

    __slots__ = ("_notes",)

    def __init__(self) -> None:
        self._notes: list[Note] = []

    def word(self, option: str, typed: str | None, item: str) -> str:
        """The word typed, or the register's, which is then told as assumed."""
        if typed:
            return str(typed)
        row = lookup("practice/defaults", item=item)
        value, lean, flips = row.text("value"), row.text("lean"), row.text("flips")
        told = f"ASSUMED: {option} was left out; {value} stands in, {lean}."
        self._notes.append(Note(f"{told} What would change it: {flips}."))
        return value

    @property
    def notes(self) -> tuple[Note, ...]:
        """One for each option left out, in the order in which they were asked for."""
        return tuple(self._notes)
