"""What comes down on the beam, row by row: psf x tributary width x continuity = plf, D, L, Lr and S kept apart."""

from typing import NamedTuple

from beamcheck.frozen import dataclass
from beamcheck.trace import Value

EDITIONS = {"ASCE 7-16": "asce7_16", "ASCE 7-22": "asce7_22"}
LOAD_TYPES = ("D", "L", "Lr", "S")
LOAD_WORDS = {"D": "dead", "L": "live", "Lr": "roof live", "S": "snow"}


class Reach(NamedTuple):
    """The beam, overhangs and all: its length, and where it begins from the centre of the left bearing.

    bays: the stations of both ends of each span and overhang.
    """

    length: Value
    start: Value
    bays: tuple[tuple[Value, Value], ...]


@dataclass(frozen=True, slots=True, eq=False)
class Source:
    """One row of the take-down table: a spread load ``w`` over an extent, or a force ``P`` at a station.

    start, end and station are measured from the centre of the left bearing; None means the beam's end. foot: length
    along the beam of what brings a force, if it is told or assumed.
    """

    where: str
    name: str
    load_type: str
    w: Value | None = None
    P: Value | None = None
    start: Value | None = None
    end: Value | None = None
    station: Value | None = None
    foot: Value | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Combination:
    """A combination: the factor of each load type that it holds, and its load duration factor.

    C_D: of a strength combination the time effect factor of wood, which stands in its place.
    """

    name: str
    factors: dict[str, Value]
    C_D: Value
