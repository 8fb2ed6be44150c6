"""A member as the yard names it ("3-ply 2x12 Douglas Fir-Larch No.2") and the figures its tables give."""

from enum import StrEnum

from beamcheck.frozen import dataclass
from beamcheck.trace import Value


class Kind(StrEnum):
    """What decides which clauses apply to a member."""

    DIMENSION = "dimension lumber"
    TIMBER = "timber"
    GLULAM = "glulam"
    COMPOSITE = "composite lumber"
    STEEL = "steel shape"


@dataclass(frozen=True, slots=True, eq=False)
class Member:
    """One member: text as written, kind, number of plies, dressed size and the figures of its grade.

    b is the breadth of all plies together, b_ply of one; d the depth. ``figures`` holds the reference values by
    symbol (F_b, F_v, F_c_perp, F_c, E, E_min, C_F_b, C_F_c and, where they apply, F_b_neg, F_b_y, C_fu_y, d_0, m,
    C_V_most, x, S_T; G of unknown wood).
    ``remarks`` are sentences about the figures that the sheet prints.
    """

    text: str
    kind: Kind
    plies: int
    size: str
    grade: str
    b: Value
    b_ply: Value
    d: Value
    figures: dict[str, Value]
    density: Value | None = None
    wet_row: str = "dimension"
    remarks: tuple[str, ...] = ()

    def __getitem__(self, name: str) -> Value:
        return self.figures[name]
