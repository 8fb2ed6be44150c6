"""Types of the sections that a survey may do without; None stands for a figure that is not there."""

from types import MappingProxyType
from typing import Any

from beamcheck.frozen import dataclass
from beamcheck.survey.fields_around import AROUND
from beamcheck.trace import Value


@dataclass(frozen=True, slots=True, eq=False)
class Temporary:
    """The temporary walls; set-backs run from the middle of the wall that goes, posts stand under a carrying beam."""

    sides: str
    set_back_a: Value | None
    set_back_b: Value | None
    lap: Value | None
    wall_line_loads: str
    rooms_above: str
    live: Value | None
    snow: str
    stud: str
    stud_spacing: Value | None
    rail: str
    point_stud: str
    top_plate: str
    studs_under_joists: str
    joist_spacing: Value
    joist_breadth: Value
    post_spacing: Value | None
    stands_on: str
    note: str


@dataclass(frozen=True, slots=True, eq=False)
class Signs:
    """Answers about the wall: yes, no, unknown, or nothing, which counts as unknown."""

    joists_end: str
    roof_brace: str
    beam_ends_in_it: str
    joists_need_it: str
    stacks: str
    old_outside: str
    crosses_joists: str
    header_on_edge: str
    double_plate: str
    gap_under_trusses: str
    truss_drawing: str
    along_joists: str
    bare_attic: str
    loose_studs: str
    thick_or_piped: str
    sounds_hollow: str


@dataclass(frozen=True, slots=True, eq=False)
class Room:
    """Finish under the beam and the way in for its pieces."""

    beam_wrap: Value
    floor_added: Value
    piece_length: Value | None
    door_width: Value | None
    turn_width: Value | None
    straight_run: Value | None


@dataclass(frozen=True, slots=True, eq=False)
class Neighbour:
    """A thing that stands close to a post."""

    where: str
    name: str
    post: Value
    gap: Value
    wrap: Value
    plate_projection: Value
    height: Value | None


@dataclass(frozen=True, slots=True, eq=False)
class Hole:
    """A hole across the beam, and what hangs there."""

    where: str
    name: str
    diameter: Value
    station: Value
    from_top: Value | None
    hangs: Value | None


@dataclass(frozen=True, slots=True, eq=False)
class Heavy:
    """A heavy thing on joists that are there: its base, or its outer legs, and the joists.

    weight: with that of its top, where top_layers tell that by itself.
    """

    where: str
    name: str
    weight: Value
    top_layers: tuple[Value, ...]
    top_area: Value | None
    along: Value
    across: Value
    legs: Value | None
    lasting: str
    joist: str
    joist_span: Value | None
    joist_spacing: Value
    station: Value | None
    dead: Value
    live: Value | None
    finish: str
    top: str
    joists_changed: str


@dataclass(frozen=True, slots=True, eq=False)
class OtherWall:
    """A wall that stays and runs the same way."""

    where: str
    name: str
    length: Value
    distance: Value
    braced: str


def gathered(parts: dict[str, list[dict[str, Any]]]) -> dict[str, Any]:
    """The entries of these sections as attributes of a survey."""
    return {section.attribute: section.filled(_MADE[section.key], parts[section.key]) for section in AROUND}


_MADE = MappingProxyType({
    "temporary": Temporary,
    "signs": Signs,
    "room": Room,
    "neighbour": Neighbour,
    "hole": Hole,
    "heavy": Heavy,
    "other_wall": OtherWall,
})
