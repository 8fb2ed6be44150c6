"""Read a member's trade text and gather its figures. Raises InputError, naming the nearest, for what no table has."""

import re

from beamcheck import tables, units
from beamcheck.catalogue.members import Kind, Member
from beamcheck.errors import Fault, InputError, TableError
from beamcheck.tables import Row
from beamcheck.trace import Given, Trust, Value, looked, taken

_NUMBER = r"\d+(?:\.\d+|[- ]\d+/\d+|/\d+)?"
_MEMBER = re.compile(
    rf"(?:(?P<plies>\d+)[- ]?ply\s+)?(?P<full>full\s+|rough\s+)?"
    rf"(?P<b>{_NUMBER})\s*(?:in\s*)?[x×]\s*(?P<d>{_NUMBER})(?:\s*in\b)?\s+(?P<grade>\S.*)",
    re.IGNORECASE,
)
_EXAMPLE = 'write it as "3-ply 2x12 Douglas Fir-Larch No.2", "2-ply 1-3/4x14 LVL 2.0E-2900F", "6x6 Hem-Fir No.1"'
_COMPOSITES = ("LVL", "PSL", "LSL")


def read_member(text: str, where: str) -> Member:
    """The member that a line of trade text names. ``where`` is its key path, for the message and the origin."""
    match = _MEMBER.fullmatch(text.strip())
    if match is None:
        raise InputError([Fault(where, f"{text!r} is not a size and a grade", _EXAMPLE)])
    plies = int(match["plies"] or 1)
    if not 1 <= plies <= 6:
        raise InputError([Fault(where, f"{plies} plies", "one to six plies can be checked")])
    grade = match["grade"].strip()
    remarks: tuple[str, ...] = ()
    if grade.lower() == "unknown":
        row = tables.lookup("practice/defaults", item="species_grade")
        grade = row.text("value")
        remarks = (f"Species and grade are not known: {grade} stands in ({row.text('lean')}). What would change it: {row.text('flips')}.",)
    words = grade.split()
    if words[0].upper() in _COMPOSITES:
        return _composite(text, where, plies, match, words[0].upper(), " ".join(words[1:]))
    if words[0].lower() == "glulam":
        return _glulam(text, where, plies, match, " ".join(words[1:]))
    return _sawn(text, where, plies, match, grade, remarks)


def _sawn(
    text: str, where: str, plies: int, match: re.Match[str], grade: str, remarks: tuple[str, ...]
) -> Member:
    b, d, size, nominal_b, nominal_d = _sawn_size(text, where, match)
    timber = nominal_b >= 5
    species, row = _sawn_grade(where, grade, nominal_b, nominal_d)
    figures = {name: looked(row, name) for name in ("F_b", "F_t", "F_v", "F_c_perp", "F_c", "E", "E_min")}
    wet = "dimension"
    if timber:
        wet = "timber Southern Pine" if species == "Southern Pine" else "timber"
        figures["C_F_c"] = taken("C_F", 1.0, "no size factor on compression of timbers", "NDS Supplement 2018, Table 4D")
    else:
        figures |= _size_factors(where, species, row.text("grade"), nominal_b, nominal_d)
    return Member(
        text=text,
        kind=Kind.TIMBER if timber else Kind.DIMENSION,
        plies=plies,
        size=size,
        grade=f"{species} {row.text('grade')}",
        b=_all_plies(b, plies, where),
        b_ply=b,
        d=d,
        figures=figures,
        density=density(species),
        wet_row=wet,
        remarks=remarks + _remarks(row),
    )


def _sawn_size(text: str, where: str, match: re.Match[str]) -> tuple[Value, Value, str, int, int]:
    """Breadth, depth, printed size and the nominal size that grades and size factors go by."""
    written_b, written_d = match["b"], match["d"]
    if not match["full"] and written_b.isdigit() and written_d.isdigit():
        size = f"{written_b}x{written_d}"
        try:
            row = tables.lookup("sections/dressed", size=size)
        except TableError:
            sizes = tables.column("sections/dressed", "size")
            raise InputError([Fault(where, f"{size!r} is not a dressed size", _nearest(size, sizes))]) from None
        if row.has("d_small"):
            # copies disagree on 1/2 in or 3/4 in off nominal from 7 in up: the smaller stands until it is measured
            return looked(row, "b_small", "b"), looked(row, "d_small", "d"), size, int(written_b), int(written_d)
        return looked(row, "b"), looked(row, "d"), size, int(written_b), int(written_d)
    b, d = (_inches(part, where) for part in (written_b, written_d))
    origin = Given(where, Trust.STATED, text)
    size = f"{written_b} x {written_d} in"
    return (
        Value("b", b, "in", origin),
        Value("d", d, "in", origin),
        size,
        nominal_thickness(b),
        nominal_width(d),
    )


def nominal_thickness(b: float) -> int:
    """Nominal thickness class of a measured thickness, for the choice of table and size factor."""
    return next((n for n, most in ((2, 2.0), (3, 3.0), (4, 4.0)) if b <= most), max(5, round(b + 0.5)))


def nominal_width(d: float) -> int:
    """Nominal width whose dressed size is not below the measured one: the wider, so the lower size factor."""
    dressed = ((2, 1.5), (3, 2.5), (4, 3.5), (5, 4.5), (6, 5.5), (8, 7.25), (10, 9.25), (12, 11.25), (14, 13.25))
    return next((nominal for nominal, actual in dressed if d <= actual), 16)


def _sawn_grade(where: str, grade: str, nominal_b: int, nominal_d: int) -> tuple[str, Row]:
    if nominal_b >= 5:
        return _timber_grade(where, grade, nominal_b, nominal_d)
    for table in ("nds_2018/sawn_4a", "nds_2018/sawn_4b"):
        for row in tables.load(table).rows:
            if not _is_grade(grade, row.text("species"), row.text("grade")):
                continue
            if table.endswith("4b") and int(row.number("width")) != _pine_width(nominal_d):
                continue
            return row.text("species"), row
    choices = [
        f"{row.text('species')} {row.text('grade')}"
        for table in ("nds_2018/sawn_4a", "nds_2018/sawn_4b")
        for row in tables.load(table).rows
    ]
    raise InputError([Fault(where, f"{grade!r} is not in nds_2018/sawn_4a or sawn_4b", _nearest(grade, choices))])


def _timber_grade(where: str, grade: str, nominal_b: int, nominal_d: int) -> tuple[str, Row]:
    long_side, short_side = max(nominal_b, nominal_d), min(nominal_b, nominal_d)
    shape = "Beams & Stringers" if long_side - short_side > 2 else "Posts & Timbers"
    rows = tables.load("nds_2018/timber_4d").rows
    for row in rows:
        fits = row.text("size_class") in (shape, "5x5 and larger")
        if fits and _is_grade(grade, row.text("species"), row.text("grade")):
            return row.text("species"), row
    choices = [f"{row.text('species')} {row.text('grade')}" for row in rows]
    raise InputError([Fault(where, f"{grade!r} is not in nds_2018/timber_4d", _nearest(grade, choices))])


def _is_grade(written: str, species: str, grade: str) -> bool:
    asked = _plain(written)
    names = [species, *(row.text("alias") for row in tables.load("practice/aliases").rows if row.text("species") == species)]
    grades = {grade, *(grade.split("/") if grade == "No.1/No.2" else ()), *(("No.3", "Stud") if grade == "No.3 and Stud" else ())}
    return any(asked == _plain(f"{name} {one}") for name in names for one in grades)


def _plain(text: str) -> str:
    return re.sub(r"[\s.]+", "", text).lower()


def _pine_width(nominal_d: int) -> int:
    return next((width for width in (4, 6, 8, 10, 12) if nominal_d <= width), 12)


def _size_factors(where: str, species: str, grade: str, nominal_b: int, nominal_d: int) -> dict[str, Value]:
    if species == "Southern Pine":
        if nominal_d > 12:
            condition = "wider than 12"
        else:
            condition = "4 in thick, 8 in and wider" if nominal_b == 4 and nominal_d >= 8 else "other"
        row = tables.lookup("nds_2018/size_factor_4b", condition=condition)
    else:
        group = {"Stud": "stud", "Construction": "construction", "Standard": "construction", "Utility": "utility"}
        keys = {"thickness": "4" if nominal_b == 4 else "2-3", "width": str(nominal_d)}
        try:
            row = tables.lookup("nds_2018/size_factor_4a", grade_group=group.get(grade, "structural"), **keys)
        except TableError:
            mend = "use No.3 figures for wider stud grade, or another grade"
            raise InputError([Fault(where, f"grade {grade} has no size factor {nominal_d} in wide", mend)]) from None
    return {"C_F_b": looked(row, "C_F_b", "C_F"), "C_F_c": looked(row, "C_F_c", "C_F")}


def _composite(text: str, where: str, plies: int, match: re.Match[str], material: str, grade: str) -> Member:
    rows = [row for row in tables.load("scl_generic/grades").rows if row.text("material") == material]
    wanted = grade or "study floor"
    row = next((row for row in rows if _plain(row.text("grade")).startswith(_plain(wanted))), None)
    if row is None:
        choices = [f"{material} {row.text('grade')}" for row in rows]
        raise InputError([Fault(where, f"{grade!r} is not in scl_generic/grades", _nearest(f"{material} {grade}", choices))])
    figures = {name: looked(row, name) for name in ("F_b", "F_t", "F_v", "F_c_perp", "F_c", "E", "E_min")}
    figures |= {"d_0": looked(row, "depth_base", "d_0"), "m": looked(row, "depth_exponent", "m")}
    shallow = row.text("shallow_increase") == "yes"
    figures["C_V_most"] = taken(
        "C_V_most", 99.0 if shallow else 1.0, "no cap in the product's rule" if shallow else "no increase for shallow depths"
    )
    remarks = _remarks(row)
    if not grade:
        remarks += ("No product is named yet: the lowest of several published generic values stands in.",)
    return _glued(text, where, plies, match, Kind.COMPOSITE, f"{material} {row.text('grade')}", figures, material, "scl", remarks)


def _glulam(text: str, where: str, plies: int, match: re.Match[str], grade: str) -> Member:
    rows = tables.load("nds_2018/glulam_5a").rows
    row = next((row for row in rows if _plain(row.text("combination")) == _plain(grade)), None)
    if row is None:
        choices = [f"glulam {row.text('combination')}" for row in rows]
        raise InputError([Fault(where, f"{grade!r} is not in nds_2018/glulam_5a", _nearest(f"glulam {grade}", choices))])
    columns = {
        "F_b": "F_bx_pos",
        "F_b_neg": "F_bx_neg",
        "F_v": "F_vx",
        "F_c_perp": "F_c_perp_tension_face",
        "F_t": "F_t",
        "F_c": "F_c",
        "E": "E_x_app",
        "E_min": "E_y_min",
    }
    figures = {name: looked(row, column, name.removesuffix("_neg")) for name, column in columns.items() if row.has(column)}
    if "E_min" not in figures:
        figures["E_min"] = looked(row, "E_x_min", "E_min")
    southern = "SP" in row.text("species")
    volume = tables.lookup("nds_2018/volume_factor", product="glulam Southern Pine" if southern else "glulam")
    figures["x"] = looked(volume, "x")
    return _glued(text, where, plies, match, Kind.GLULAM, f"glulam {row.text('combination')}", figures, "glulam", "glulam", _remarks(row))


def _glued(
    text: str,
    where: str,
    plies: int,
    match: re.Match[str],
    kind: Kind,
    grade: str,
    figures: dict[str, Value],
    material: str,
    wet_row: str,
    remarks: tuple[str, ...],
) -> Member:
    b, d = _inches(match["b"], where), _inches(match["d"], where)
    origin = Given(where, Trust.STATED, text)
    one = Value("b", b, "in", origin)
    no_size = taken("C_F", 1.0, "glued products have a volume factor instead", "NDS 2018 Tables 5.3.1, 8.3.1")
    return Member(
        text=text,
        kind=kind,
        plies=plies,
        size=f"{match['b']}x{match['d']}",
        grade=grade,
        b=_all_plies(one, plies, where),
        b_ply=one,
        d=Value("d", d, "in", origin),
        figures={**figures, "C_F_b": no_size, "C_F_c": no_size},
        density=density(material),
        wet_row=wet_row,
        remarks=remarks,
    )


def density(material: str) -> Value:
    """Weight per cubic foot of a species or product; the heaviest of the table where it has no row of its own."""
    rows = tables.load("practice/densities").rows
    row = next((row for row in rows if row.text("material") == material), None)
    if row is None:
        row = max(rows, key=lambda candidate: candidate.number("density"))
    return looked(row, "density", "gamma")


def _all_plies(one: Value, plies: int, where: str) -> Value:
    if plies == 1:
        return one
    from beamcheck.standards.statics import breadth_of_plies

    return breadth_of_plies(n=taken("n", float(plies), f"plies named in {where}"), b_ply=one)


def _inches(text: str, where: str) -> float:
    try:
        inches = units.parse_length(f"{text} in")
    except units.UnitFault as fault:
        raise InputError([Fault(where, str(fault), fault.wanted)]) from None
    if not 0.5 <= inches <= 48:
        raise InputError([Fault(where, f"{text} in is not a size of a member", "sizes from 1/2 in to 48 in can be checked")])
    return inches


def _remarks(row: Row) -> tuple[str, ...]:
    note = row.cells.get("note", "")
    return (f"{row.table.document} {row.table.edition} {row.place}, {row.label}: {note}.",) if note else ()


def _nearest(written: str, choices: list[str] | tuple[str, ...]) -> str:
    from difflib import get_close_matches

    lowered = {choice.lower(): choice for choice in choices}
    close = get_close_matches(written.lower(), lowered, n=3, cutoff=0.4)
    if not close:
        return _EXAMPLE
    return f"nearest: {', '.join(repr(lowered[name]) for name in close)}; list them with  bearline tables"
