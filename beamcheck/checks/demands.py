"""What the checks of a beam ask of a solved line, whether one line in numbers or thousands of lines in arrays."""

from collections.abc import Callable, Iterable
from typing import Literal, NamedTuple, Protocol

from beamcheck.beam.model import Line
from beamcheck.takedown.sources import Combination, Source
from beamcheck.trace import Num, Value

Way = Literal["sagging", "hogging"]


class Moment(NamedTuple):
    """Greatest moment one way under one combination; ``l_0`` gives the length between points of zero moment there."""

    M: Value
    l_0: Callable[[], Value]
    when: str


class Face(NamedTuple):
    """Shear on one face of a support under one combination; ``number`` is the combination's, ``side`` left or right."""

    number: int
    support: int
    side: Literal["left", "right"]
    V: Value
    when: str


class Demands(Protocol):
    """What the checks ask of a solved line: of one line in numbers (``Loaded``), of many at once in arrays.

    Combinations, supports and bays go by number, from 0; factors by load type.
    """

    @property
    def line(self) -> Line:
        """Supports and bays; of many lines the likely one."""
        ...

    @property
    def sources(self) -> tuple[Source, ...]:
        """What lies on the line."""
        ...

    @property
    def combinations(self) -> tuple[Combination, ...]:
        """Allowable-stress combinations of the load types that act."""
        ...

    @property
    def transient(self) -> tuple[str, ...]:
        """The load types that act and are not dead load."""
        ...

    @property
    def inputs(self) -> tuple[tuple[str, Value], ...]:
        """What the solver was told, for tracing."""
        ...

    @property
    def hogs(self) -> bool:
        """Whether any case bends the line the other way anywhere."""
        ...

    def moment(self, number: int, way: Way) -> Moment:
        """Greatest moment of a combination over its patterns."""
        ...

    def faces(self, number: int) -> Iterable[Face]:
        """Shear on each face of each support under a combination, of the greatest size over its patterns."""
        ...

    def shear(self, number: int) -> tuple[Value, str]:
        """Shear of the greatest size anywhere under a combination, and its case in words."""
        ...

    def shear_beyond(self, face: Face, half: Num, d: Num) -> Value:
        """Shear half a bearing and a depth off the support, if the bay is long enough, else on the face itself."""
        ...

    def push(self, number: int, support: int, name: str = "R") -> tuple[Value, str]:
        """Greatest reaction of a combination over its patterns, nothing where it only lifts; and its case in words."""
        ...

    def greatest_push(self, support: int) -> tuple[Value, str]:
        """Greatest reaction over all combinations."""
        ...

    def lift(self, support: int) -> tuple[Value, str]:
        """Least reaction over all combinations: below zero the beam lifts."""
        ...

    def moved(self, factors: dict[str, float], bay: int) -> tuple[Value, Value]:
        """EI y and M of a bay under load types alone, each with its worst pattern, summed; an overhang either way.

        M is what bends the bay by shear: the moment's rise over the line between those at the ends of the bay, which is
        the moment of the bay by itself; of an overhang the moment over its support.
        """
        ...

    def reach(self, bay: int) -> Value:
        """The length that deflection limits go by: the span, or twice an overhang."""
        ...
