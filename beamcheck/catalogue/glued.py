"""Composite lumber (LVL, PSL, LSL) and glulam by generic grade."""

from beamcheck import tables
from beamcheck.catalogue.members import Kind, Member
from beamcheck.catalogue.wording import Graded, Wording, assembled, density, nearest, plain, remarks
from beamcheck.tables import Row
from beamcheck.trace import Value, as_one, looked, taken

COMPOSITES = ("LVL", "PSL", "LSL")
_FIGURES = ("F_b", "F_t", "F_v", "F_c_perp", "F_c", "E", "E_min")
_GLULAM = {
    "F_b": "F_bx_pos",
    "F_b_neg": "F_bx_neg",
    "F_b_y": "F_by",
    "F_v": "F_vx",
    "F_c_perp": "F_c_perp_tension_face",
    "F_t": "F_t",
    "F_c": "F_c",
    "E": "E_x_app",
    "E_min": "E_y_min",
}
_SYMBOLS = {"F_b_neg": "F_b", "F_b_y": "F_b"}
_NO_CAP = 99.0


def read_composite(wording: Wording) -> Member:
    """Composite lumber; without a grade, the lowest of several published generic values. Raises InputError."""
    material, _, grade = wording.grade.partition(" ")
    material = material.upper()
    rows = [row for row in tables.load("scl_generic/grades").rows if row.text("material") == material]
    unnamed = grade.strip().lower() in ("", "unknown")
    wanted = plain("lowest published" if unnamed else grade)
    row = next((row for row in rows if plain(row.text("grade")).startswith(wanted)), None)
    if row is None:
        choices = [f"{material} {row.text('grade')}" for row in rows]
        raise wording.fault(f"{wording.grade!r} is not in scl_generic/grades", nearest(wording.grade, choices))
    figures = {name: looked(row, name) for name in _FIGURES}
    figures |= {"d_0": looked(row, "depth_base", "d_0"), "m": looked(row, "depth_exponent", "m")}
    figures["C_V_most"] = _cap(row)
    told = remarks(row)
    if unnamed:
        told = (
            f"ASSUMED: no product is named in {wording.where}; the lowest of several published values stands in.",
            *told,
        )
    return _member(
        wording, Graded(Kind.COMPOSITE, f"{material} {row.text('grade')}", figures, density(material), "scl", told)
    )


def read_glulam(wording: Wording) -> Member:
    """Glulam of a layup combination. Raises InputError, naming the nearest, for one no table has."""
    _, _, grade = wording.grade.partition(" ")
    rows = tables.load("nds_2018/glulam_5a").rows
    row = next((row for row in rows if plain(row.text("combination")) == plain(grade)), None)
    if row is None:
        choices = [f"glulam {row.text('combination')}" for row in rows]
        raise wording.fault(f"{wording.grade!r} is not in nds_2018/glulam_5a", nearest(wording.grade, choices))
    figures = {name: looked(row, col, _SYMBOLS.get(name, name)) for name, col in _GLULAM.items() if row.has(col)}
    figures.setdefault("E_min", looked(row, "E_x_min", "E_min"))
    product = "glulam Southern Pine" if "SP" in row.text("species") else "glulam"
    figures["x"] = looked(tables.lookup("nds_2018/volume_factor", product=product), "x")
    graded = Graded(Kind.GLULAM, f"glulam {row.text('combination')}", figures, density(product), "glulam", remarks(row))
    return _member(wording, graded)


def _cap(row: Row) -> Value:
    if row.text("shallow_increase") == "yes":
        return taken("C_V_most", _NO_CAP, "the product's rule has no cap for shallow depths")
    return as_one("C_V_most", "no increase for shallow depths")


def _member(wording: Wording, graded: Graded) -> Member:
    none = as_one("C_F", "glued products have a volume factor instead", "NDS 2018 Tables 5.3.1, 8.3.1")
    graded.figures.update({"C_F_b": none, "C_F_c": none})
    b, d = wording.measured("b", wording.b), wording.measured("d", wording.d)
    return assembled(wording, f"{wording.b}x{wording.d}", b, d, graded)
