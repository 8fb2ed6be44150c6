"""A survey as read: every dimensioned entry is a Value that knows how its figure is known; words are plain text.

None stands for a figure that is not there and that nothing cautious can stand in for.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from beamcheck.frozen import dataclass
from beamcheck.trace import Value

if TYPE_CHECKING:
    from beamcheck.survey.around import Heavy, Hole, Neighbour, OtherWall, Room, Signs, Temporary
    from beamcheck.survey.below import Girder, Pad, Ties
    from beamcheck.survey.explore import Wanted


@dataclass(frozen=True, slots=True, eq=False)
class About:
    """Title block: what is asked, by whom and where."""

    title: str
    address: str
    year_built: str
    code: str
    prepared_by: str
    date: str
    dimensions: str
    second_method: str
    question: str


@dataclass(frozen=True, slots=True, eq=False)
class Site:
    """Snow and soil. ``choices`` holds the words assumed or given, as entries of the register of assumptions."""

    loads: str
    ground_snow: Value | None
    exposure: str
    roof_warmth: str
    roof_surface: str
    soil_bearing: Value


@dataclass(frozen=True, slots=True, eq=False)
class Wall:
    """The wall that goes and the opening in its place. ``no_other``: kinds of load of which it carries no more."""

    clear_opening: Value
    ceiling_height: Value
    thickness: Value | None
    house_width: Value | None
    braces_seen: str
    no_other: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Carried:
    """One thing that comes down on the wall; which entries matter depends on ``kind``.

    layers: the weight of each, in psf; what they add up to is ``dead``, or ``weight`` of a wall.
    """

    where: str
    name: str
    kind: str
    start: Value | None
    end: Value | None
    span_a: Value | None
    span_b: Value | None
    continuity: str
    spacing: Value | None
    use: str
    dead: Value | None
    live: Value | None
    live_reduction: str
    pitch: Value | None
    area: Value | None
    height: Value | None
    weight: Value | None
    layers: tuple[Value, ...]
    station: Value | None
    foot_length: Value | None
    dead_load: Value | None
    live_load: Value | None
    roof_live_load: Value | None
    snow_load: Value | None
    dead_line: Value | None
    live_line: Value | None
    roof_live_line: Value | None
    snow_line: Value | None


@dataclass(frozen=True, slots=True, eq=False)
class Beam:
    """The beam that is thought of."""

    member: str
    position: str
    top_edge: str
    unbraced_length: Value | None
    overhang_left: Value | None
    overhang_right: Value | None
    splices: tuple[Value, ...]
    moisture: str
    plies_share: str
    plies_joined_by: str
    fastener_rows: str
    fastener_spacing: Value | None
    end_notch_bottom: Value | None
    end_notch_top: Value | None
    end_notch_reach: Value | None
    ceiling_below: str
    floor_above: str


@dataclass(frozen=True, slots=True, eq=False)
class Post:
    """A post under the beam and what it comes down on."""

    where: str
    member: str
    station: Value | None
    height: Value | None
    held: str
    fastening: str
    seat_length: Value | None
    eccentricity: Value | None
    seat: str
    notch_depth: Value | None
    seated_plies: str
    seat_breadth: Value | None
    seat_thickness: Value | None
    gap: Value | None
    fastener: str
    plate: str
    base_length: Value | None
    base_breadth: Value | None
    blocking: str
    stands_on: str
    note: str
    try_stations: tuple[Value, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class Word:
    """A choice among words, with how it is known: for the register of assumptions."""

    where: str
    text: str
    trust: str
    note: str = ""
    lean: str = ""
    flips: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Survey:
    """One survey file: its parts, the words chosen or assumed, and the hash of its bytes."""

    about: About
    site: Site
    wall: Wall
    carried: tuple[Carried, ...]
    beam: Beam
    posts: tuple[Post, ...]
    words: tuple[Word, ...] = ()
    sha256: str = ""
    file: str = ""
    girders: tuple[Girder, ...] = ()
    pads: tuple[Pad, ...] = ()
    ties: Ties | None = None
    temporary: Temporary | None = None
    signs: Signs | None = None
    room: Room | None = None
    neighbours: tuple[Neighbour, ...] = ()
    holes: tuple[Hole, ...] = ()
    heavy: tuple[Heavy, ...] = ()
    other_walls: tuple[OtherWall, ...] = ()
    wanted: Wanted | None = None

    def height_of(self, number: int) -> Value:
        """Height of a post, by its number from 0: as told, else that of the ceiling."""
        return self.posts[number].height or self.wall.ceiling_height

    def post_on(self, pad: Pad) -> int | None:
        """Number from 0 of the post that stands on a pad by itself; None where a pier or column is between."""
        post, _, number = pad.under.partition(" ")
        if post != "post" or not number.isdecimal() or self.posts[int(number) - 1].stands_on != "pad":
            return None
        return int(number) - 1
