"""What a survey asks beyond one study, as read; None or nothing where no limit is set."""

from beamcheck.frozen import dataclass
from beamcheck.trace import Value


@dataclass(frozen=True, slots=True, eq=False)
class Wanted:
    """What the beams of  bearline options  must keep to."""

    families: tuple[str, ...]
    species: tuple[str, ...]
    greatest_depth: Value | None
    greatest_breadth: Value | None
    greatest_piece_weight: Value | None
    greatest_utilisation: Value | None
    most_plies: Value | None
