"""What a key of a survey is and what a section of keys is: the types in which the list of fields is written."""

from collections.abc import Callable
from typing import Any, NamedTuple

from beamcheck.units import Dimension, base_unit

ANY_NUMBER = -1e12
MOST_ITEMS = 60
LENGTH, AREA_LOAD, FORCE, LINE = Dimension.LENGTH, Dimension.AREA_LOAD, Dimension.FORCE, Dimension.LINE_LOAD


class Field(NamedTuple):
    """One key of a survey.

    dimension: of its figure, None for words; choices: the words it may be; register: the item of the register of
    cautious defaults that stands in when it is unknown or left out ("" = none; a leading * stands for the kind);
    required: no survey without it; least, most: the figures that make sense, in its unit; kinds: the kinds of
    carried item that have this key (all if empty); many: several entries in one text, with commas between them;
    about: one sentence; example: as written; why: why it is asked; measure: how to find it out.
    """

    key: str
    about: str
    example: str = ""
    dimension: Dimension | None = None
    choices: tuple[str, ...] = ()
    register: str = ""
    required: bool = False
    least: float = 0.0
    most: float = 1e7
    kinds: tuple[str, ...] = ()
    many: bool = False
    why: str = ""
    measure: str = ""

    @property
    def unit(self) -> str:
        """The unit in which its figure is kept: areas of roof in square feet, all else in the base unit."""
        if self.dimension is None:
            return ""
        return "ft^2" if self.dimension is Dimension.AREA else base_unit(self.dimension)

    @property
    def wanted(self) -> str:
        """What would do, for a message."""
        if self.choices:
            return f"write one of: {', '.join(repr(choice) for choice in self.choices)}"
        return f"write it as text, for example {self.example!r}"

    @property
    def to_find_out(self) -> str:
        """How its owner finds it out, for what must be known."""
        return self.measure or self.about


class Section(NamedTuple):
    """One table of the survey.

    repeated: written with double brackets, once for each item, ``most`` times; optional: a survey may do without it,
    and what it asks is then not answered; called: the survey's attribute that holds it, where that is not the key.
    """

    key: str
    about: str
    fields: tuple[Field, ...]
    repeated: bool = False
    optional: bool = False
    most: int = MOST_ITEMS
    called: str = ""

    @property
    def attribute(self) -> str:
        """The attribute of a survey that holds it."""
        return self.called or self.key

    @property
    def empty(self) -> tuple[()] | None:
        """What that attribute is in a survey that does without it."""
        return () if self.repeated else None

    def filled(self, made: Callable[..., Any], entries: list[dict[str, Any]]) -> Any:
        """What that attribute is with these entries of its keys, each made into one thing."""
        things = tuple(made(**entry) for entry in entries)
        return things if self.repeated else next(iter(things), None)
