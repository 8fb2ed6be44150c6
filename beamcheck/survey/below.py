"""What stands under the posts, as read: girders, pads, and the roof that cut joists tie."""

from beamcheck.frozen import dataclass
from beamcheck.trace import Value


@dataclass(frozen=True, slots=True, eq=False)
class Girder:
    """A girder below, its supports and posts by station, and what it carries already."""

    where: str
    name: str
    member: str
    supports: tuple[Value, ...]
    posts: tuple[str, ...]
    post_stations: tuple[Value, ...]
    bearing_length: Value | None
    position: str
    top_edge: str
    moisture: str
    span_a: Value | None
    span_b: Value | None
    continuity: str
    use: str
    dead: Value | None
    live: Value | None
    dead_line: Value | None
    live_line: Value | None
    roof_live_line: Value | None
    snow_line: Value | None
    note: str


@dataclass(frozen=True, slots=True, eq=False)
class Pad:
    """A concrete pad and what stands on it."""

    where: str
    under: str
    state: str
    length: Value | None
    breadth: Value | None
    thickness: Value | None
    depth: Value | None
    strength: Value | None
    pier_length: Value | None
    pier_breadth: Value | None
    pier_height: Value
    pier_material: str
    note: str


@dataclass(frozen=True, slots=True, eq=False)
class Ties:
    """The roof whose rafters are tied by joists that a flush beam would cut."""

    span: Value | None
    pitch: Value | None
    spacing: Value | None
    dead: Value | None
