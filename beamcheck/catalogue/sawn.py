"""Sawn lumber and timbers: dressed or measured size, grade by table, size factors."""

from beamcheck import tables
from beamcheck.catalogue.grade_names import bare, rows_named, suggested
from beamcheck.catalogue.members import Kind, Member
from beamcheck.catalogue.wording import Graded, Wording, assembled, density, nearest, remarks, shrinkage
from beamcheck.errors import TableError
from beamcheck.tables import Row
from beamcheck.trace import Value, as_one, looked

_FIGURES = ("F_b", "F_t", "F_v", "F_c_perp", "F_c", "E", "E_min")
UNKNOWN = "unknown"
_TIMBERS, _STRINGERS, _ANY_SHAPE = "nds_2018/timber_4d", "Beams & Stringers", "5x5 and larger"
_DIMENSION_TABLES = ("nds_2018/sawn_4a", "nds_2018/sawn_4b")
_SQUARISH = 2.0  # in: timbers wider than that over their thickness are Beams & Stringers
_DRESSED = ((2, 1.5), (3, 2.5), (4, 3.5), (5, 4.5), (6, 5.5), (8, 7.25), (10, 9.25), (12, 11.25), (14, 13.25))
_GROUPS = {"Stud": "stud", "Construction": "construction", "Standard": "construction", "Utility": "utility"}


def read_sawn(wording: Wording) -> Member:
    """The sawn member of a wording. Raises InputError, naming the nearest, for a size or grade no table has."""
    size, b, d, nominal_b, nominal_d = _size(wording)
    shape = _shape(nominal_b, abs(float(d.number) - float(b.number)))
    first, _, told = wording.grade.partition(" ")
    if first.lower() == UNKNOWN:
        graded = _unknown(wording, told.strip(), shape, (nominal_b, nominal_d))
    elif shape:
        graded = _timber(wording, shape)
    else:
        graded = _dimension(wording, nominal_b, nominal_d)
    return assembled(wording, size, b, d, graded)


def unstamped(text: str) -> bool:
    """Whether a member is written without its species, so that what stands in is an assumption."""
    return UNKNOWN in text.lower().split()


def _shape(nominal_b: int, wider_by: float) -> str:
    """How table 4D calls a timber; nothing for dimension lumber."""
    if nominal_b < 5:
        return ""
    return _STRINGERS if wider_by > _SQUARISH else "Posts & Timbers"


def _size(wording: Wording) -> tuple[str, Value, Value, int, int]:
    """Printed size, breadth of a ply, depth, and the nominal size that grades and size factors go by."""
    if wording.exact or not (wording.b.isdecimal() and wording.d.isdecimal()):
        b, d = wording.measured("b", wording.b), wording.measured("d", wording.d)
        return f"{wording.b} x {wording.d} in", b, d, nominal_thickness(float(b.number)), nominal_width(float(d.number))
    size = f"{wording.b}x{wording.d}"
    try:
        row = tables.lookup("sections/dressed", size=size)
    except TableError:
        sizes = tables.column("sections/dressed", "size")
        raise wording.fault(f"{size!r} is not a dressed size", nearest(size, sizes)) from None
    # sources disagree on 1/2 in or 3/4 in off nominal from 7 in up: the smaller stands until it is measured
    ending = "_small" if row.has("d_small") else ""
    return size, looked(row, f"b{ending}", "b"), looked(row, f"d{ending}", "d"), int(wording.b), int(wording.d)


def nominal_thickness(b: float) -> int:
    """Nominal thickness class of a measured thickness, for the choice of table and size factor."""
    return next((nominal for nominal, most in ((2, 2.0), (3, 3.0), (4, 4.0)) if b <= most), max(5, round(b + 0.5)))


def nominal_width(d: float) -> int:
    """Nominal width whose dressed size is not below the measured one: the wider, so the lower size factor."""
    return next((nominal for nominal, dressed in _DRESSED if d <= dressed), 16)


def _unknown(wording: Wording, told: str, shape: str, nominal: tuple[int, int]) -> Graded:
    """Wood of no known species: each figure the lowest that its grade, or the one that stands in, has in any species.

    No single species is the weakest in every figure. Its weight is that of the heaviest.
    """
    row = tables.lookup("practice/defaults", item="species_grade_timber" if shape else "species_grade")
    grade = told or row.text("value")
    found = [one for one in _rows(shape) if bare(grade) in bare(one.text("grade"))]
    if not found:
        grades = dict.fromkeys(one.text("grade") for one in _rows(shape))
        raise wording.fault(f"{grade!r} is not a grade of such lumber", f"grades: {', '.join(grades)}")
    lowest = {name: _lowest(found, name) for name in (*_FIGURES, "G")}
    figures = {name: looked(one, name) for name, one in lowest.items()} | {"S_T": shrinkage(UNKNOWN)}
    figures |= _of_timber(lowest["F_b"]) if shape else _size_factors(wording, lowest["F_b"], *nominal)
    missing, are = ("species", "is") if told else ("species and grade", "are")
    remark = (
        f"ASSUMED: {missing} of {wording.where} {are} not known; {grade} of unknown species stands in, "
        f"{row.text('lean')}. What would change it: {row.text('flips')}."
    )
    kind, wet = (Kind.TIMBER, "timber") if shape else (Kind.DIMENSION, "dimension")
    return Graded(kind, f"{grade} of unknown species", figures, density(UNKNOWN), wet, (remark,))


def _lowest(rows: list[Row], name: str) -> Row:
    return min(rows, key=lambda row: row.number(name))


def _rows(shape: str) -> list[Row]:
    """Every row of dimension lumber, or of timbers of a shape."""
    if shape:
        return [row for row in tables.load(_TIMBERS).rows if row.text("size_class") in (shape, _ANY_SHAPE)]
    return [row for name in _DIMENSION_TABLES for row in tables.load(name).rows]


def _dimension(wording: Wording, nominal_b: int, nominal_d: int) -> Graded:
    row = _dimension_row(wording, nominal_d)
    species, grade = row.text("species"), row.text("grade")
    figures = {name: looked(row, name) for name in _FIGURES} | {"S_T": shrinkage(species)}
    figures |= _size_factors(wording, row, nominal_b, nominal_d)
    return Graded(Kind.DIMENSION, f"{species} {grade}", figures, density(species), "dimension", remarks(row))


def _dimension_row(wording: Wording, nominal_d: int) -> Row:
    for row in rows_named(wording.grade, _DIMENSION_TABLES):
        if not row.table.name.endswith("4b") or int(row.number("width")) == _pine_width(nominal_d):
            return row
    what = f"{wording.grade!r} is not in {' or '.join(_DIMENSION_TABLES)} at this width"
    raise wording.fault(what, suggested(wording.grade, _rows("")))


def _timber(wording: Wording, shape: str) -> Graded:
    rows = rows_named(wording.grade, (_TIMBERS,))
    row = next((row for row in rows if row.text("size_class") in (shape, _ANY_SHAPE)), None)
    if row is None:
        raise wording.fault(f"{wording.grade!r} is not in {_TIMBERS}", suggested(wording.grade, _rows(shape)))
    species = row.text("species")
    figures = {name: looked(row, name) for name in _FIGURES} | _of_timber(row) | {"S_T": shrinkage(species)}
    wet = "timber Southern Pine" if species == "Southern Pine" else "timber"
    return Graded(Kind.TIMBER, f"{species} {row.text('grade')}", figures, density(species), wet, remarks(row))


def _of_timber(row: Row) -> dict[str, Value]:
    """What a timber has in place of size factors, by its row."""
    figures = {"C_F_c": as_one("C_F", "no size factor on compression of timbers", "NDS Supplement 2018, Table 4D")}
    if row.text("size_class") == _STRINGERS:
        grade = row.text("grade").removeprefix("Dense ").partition(" (")[0]
        figures["C_fu_y"] = looked(tables.lookup("nds_2018/flat_use_4d", grade=grade), "C_fu_F_b", "C_fu")
    return figures


def _pine_width(nominal_d: int) -> int:
    return next((width for width in (4, 6, 8, 10, 12) if nominal_d <= width), 12)


def _size_factors(wording: Wording, grade: Row, nominal_b: int, nominal_d: int) -> dict[str, Value]:
    if grade.table.name.endswith("4b"):
        thick = nominal_b == 4 and nominal_d >= 8
        condition = "wider than 12" if nominal_d > 12 else "4 in thick, 8 in and wider" if thick else "other"
        row = tables.lookup("nds_2018/size_factor_4b", condition=condition)
    else:
        group = _GROUPS.get(grade.text("grade"), "structural")
        thickness = "4" if nominal_b == 4 else "2-3"
        try:
            row = tables.lookup("nds_2018/size_factor_4a", grade_group=group, thickness=thickness, width=str(nominal_d))
        except TableError:
            mend = "use No.3 figures for wider stud grade, or name another grade"
            raise wording.fault(f"{grade.text('grade')} has no size factor at {nominal_d} in wide", mend) from None
    return {"C_F_b": looked(row, "C_F_b", "C_F"), "C_F_c": looked(row, "C_F_c", "C_F")}
