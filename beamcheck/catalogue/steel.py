"""Read the trade text of a steel shape: "W8x18 A992", "Pipe 3STD", "HSS3x3x1/4". Figures bear AISC's symbols."""

import re

from beamcheck import tables
from beamcheck.catalogue.members import Kind, Member
from beamcheck.errors import Fault, InputError
from beamcheck.tables import Row
from beamcheck.trace import Value, looked

_STEEL = re.compile(r"(?P<family>W|Pipe|HSS)\s*(?=\d)", re.IGNORECASE)
_TABLES = {"w": "sections/steel_w", "pipe": "sections/steel_posts", "hss": "sections/steel_posts"}
_STEELS = {"w": ("A36", "A992"), "pipe": ("A53",), "hss": ("A500",)}  # what the family is made of, weakest first
_W_COLUMNS = ("W", "A", "b_f", "t_f", "k_des", "I_x", "S_x", "Z_x", "r_y", "r_ts", "J", "h_o", "h_tw")
_POST_COLUMNS = ("W", "A", "t_des", "I_x", "S_x", "r")


def read_steel(text: str, where: str) -> Member | None:
    """Member that a line of trade text names, or None if the text does not begin like a steel shape.

    ``where`` is its key path. Raises InputError, naming the nearest, for a shape or steel that no table has.
    """
    clean = text.strip()
    match = _STEEL.match(clean)
    if match is None:
        return None
    family = match["family"].lower()
    row, grade = _shape(clean, family, where)
    steel = _steel(grade, family, where)
    return _w_shape(text, row, steel, named=bool(grade)) if family == "w" else _post(text, row, steel)


def is_w_shape(member: Member) -> bool:
    """Whether a steel member is a W shape, to be checked as a beam; the others are posts."""
    return member.kind is Kind.STEEL and "Z_x" in member.figures


def _w_shape(text: str, row: Row, steel: Row, *, named: bool) -> Member:
    figures = {column: looked(row, column) for column in _W_COLUMNS}
    figures |= {"t_web": looked(row, "t_w", "t_web"), "b": looked(row, "b_f", "b"), "d": looked(row, "d")}
    weaker = f"No steel is named: {steel.text('steel')}, that of older beams, stands in as the weaker."
    return _member(text, row, steel, figures, () if named else (weaker,))


def _post(text: str, row: Row, steel: Row) -> Member:
    figures = {column: looked(row, column) for column in _POST_COLUMNS}
    figures |= {"b": looked(row, "width", "b"), "d": looked(row, "depth", "d")}
    note = row.text("note")
    remarks = (f"{row.source}, {row.label}: {note}.",) if note else ()
    return _member(text, row, steel, figures, remarks)


def _member(text: str, row: Row, steel: Row, figures: dict[str, Value], remarks: tuple[str, ...]) -> Member:
    return Member(
        text=text,
        kind=Kind.STEEL,
        plies=1,
        size=row.text("shape"),
        grade=steel.text("steel"),
        b=figures["b"],
        b_ply=figures["b"],
        d=figures["d"],
        figures=figures | {"F_y": looked(steel, "F_y"), "E": looked(steel, "E")},
        wet_row="",
        remarks=remarks,
    )


def _shape(clean: str, family: str, where: str) -> tuple[Row, str]:
    """Row of the shape that the text begins with, and what is written after it."""
    rows = [row for row in tables.load(_TABLES[family]).rows if row.text("shape").lower().startswith(family)]
    found = next(((row, rest) for row in rows if (rest := _after(row.text("shape"), clean)) is not None), None)
    if found is None:
        near = _nearest(clean, [row.text("shape") for row in rows])
        raise InputError([Fault(where, f"{clean!r} is not in {_TABLES[family]}", near)])
    return found


def _after(shape: str, clean: str) -> str | None:
    """Rest of the text after the shape's name, spaces and case aside; None if it names another shape."""
    rest = clean
    for sign in shape.replace(" ", ""):
        rest = rest.lstrip()
        if rest[:1].upper().replace("×", "X") != sign.upper():
            return None
        rest = rest[1:]
    return None if rest[:1].isdecimal() or rest[:1] in (".", "/", "-") else rest.lstrip()


def _steel(grade: str, family: str, where: str) -> Row:
    """Row of the steel that is named; of several that fit, as of those of a family without a name, the weakest."""
    all_rows = tables.load("aisc360_16/materials").rows
    rows = [row for name in _STEELS[family] for row in all_rows if row.text("steel").startswith(name)]
    fitting = [row for row in rows if _plain(row.text("steel")).startswith(_plain(grade))]
    if not fitting:
        mend = f"such shapes are made of {', '.join(row.text('steel') for row in rows)}"
        raise InputError([Fault(where, f"{grade!r} is not a steel of such a shape in aisc360_16/materials", mend)])
    return min(fitting, key=lambda row: row.number("F_y"))


def _plain(text: str) -> str:
    return re.sub(r"[\s.]+", "", text).lower().replace("grade", "gr")


def _nearest(written: str, shapes: list[str]) -> str:
    from difflib import get_close_matches

    close = get_close_matches(written.upper(), {shape.upper(): shape for shape in shapes}, n=3, cutoff=0.4)
    names = close or shapes[:3]
    return f"nearest: {', '.join(names)}; list them with  bearline tables"
