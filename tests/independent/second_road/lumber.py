"""A member from its trade text: sides, and reference values of its grade, as a plain dictionary."""

import re

from .entries import register
from .printed_tables import figure, row, rows

REFERENCE = ("F_b", "F_v", "F_c_perp", "F_c", "E", "E_min")
GROUPS = {"Stud": "stud", "Construction": "construction", "Standard": "construction", "Utility": "utility"}
SYNONYMS = {"No.1/No.2": ("No.1", "No.2"), "No.3 and Stud": ("No.3", "Stud")}
SIZE = re.compile(r"(?:(\d)-ply )?(full )?([\d./-]+)x([\d./-]+) (.+)")


def member(text):
    """Kind, plies, b (of all plies), b_ply, d, reference values, size factors, density, wet row."""
    plies, full, b_text, d_text, grade = SIZE.fullmatch(text.strip()).groups()
    plies = int(plies or 1)
    first = grade.split()[0]
    if first in ("LVL", "PSL", "LSL"):
        found = _composite(first, grade[len(first) :].strip())
        b, d = _tape(b_text), _tape(d_text)
    elif first == "glulam":
        found = _glulam(grade[len(first) :].strip())
        b, d = _tape(b_text), _tape(d_text)
    else:
        found, b, d = _sawn(bool(full), b_text, d_text, grade)
    return {**found, "plies": plies, "b_ply": b, "b": plies * b, "d": d}


def _tape(text):
    whole, dash, part = text.partition("-")
    if dash:
        above, below = part.split("/")
        return float(whole) + int(above) / int(below)
    return float(text)


def _bare(text):
    return re.sub(r"[\s.]", "", text).lower()


def _composite(material, grade):
    wanted = "lowest published" if grade in ("", "unknown") else grade
    listed = [r for r in rows("scl_generic/grades") if r["material"] == material]
    found = next(r for r in listed if _bare(r["grade"]).startswith(_bare(wanted)))
    return {
        "kind": "composite",
        **{name: float(found[name]) for name in REFERENCE},
        "C_V_depth": (float(found["depth_base"]), float(found["depth_exponent"])),
        "C_V_most": None if found["shallow_increase"] == "yes" else 1.0,
        "C_F_b": 1.0,
        "C_F_c": 1.0,
        "c": 0.9,
        "density": figure("practice/densities", "density", material=material),
        "G": figure("scl_generic/dowel_gravity", "G", material=material),
        "wet": row("nds_2018/wet_service", product="scl"),
    }


def _glulam(grade):
    found = next(r for r in rows("nds_2018/glulam_5a") if _bare(r["combination"]) == _bare(grade))
    product = "glulam Southern Pine" if "SP" in found["species"] else "glulam"
    return {
        "kind": "glulam",
        "F_b": float(found["F_bx_pos"]),
        "F_b_neg": float(found["F_bx_neg"] or found["F_bx_pos"]),
        "F_b_y": float(found["F_by"]) if found["F_by"] else None,
        "F_v": float(found["F_vx"]),
        "F_c_perp": float(found["F_c_perp_tension_face"]),
        "F_c": float(found["F_c"]),
        "E": float(found["E_x_app"]),
        "E_min": float(found["E_y_min"] or found["E_x_min"]),
        "x": figure("nds_2018/volume_factor", "x", product=product),
        "C_F_b": 1.0,
        "C_F_c": 1.0,
        "c": 0.9,
        "density": figure("practice/densities", "density", material=product),
        "G": figure("scl_generic/dowel_gravity", "G", material=product),
        "wet": row("nds_2018/wet_service", product="glulam"),
    }


def _sawn(full, b_text, d_text, grade):
    if full or not (b_text.isdigit() and d_text.isdigit()):
        b, d = _tape(b_text), _tape(d_text)
        thick = next((n for n, most in ((2, 2.0), (3, 3.0), (4, 4.0)) if b <= most), 5)
        wide = next((n for n, dressed in _dressed() if d <= dressed), 16)
        deeper_by = abs(d - b)
    else:
        sides = row("sections/dressed", size=f"{b_text}x{d_text}")
        b, d = float(sides["b_small"]), float(sides["d_small"])
        thick, wide = int(b_text), int(d_text)
        deeper_by = abs(wide - thick)
    if grade.startswith("unknown"):
        item = "species_grade_timber" if thick >= 5 else "species_grade"
        return _weakest(grade.partition(" ")[2] or register(item), thick, wide, deeper_by), b, d
    if thick >= 5:
        return _timber(grade, deeper_by), b, d
    return _dimension(grade, thick, wide), b, d


def _weakest(grade, thick, wide, deeper_by):
    """Figure by figure the lowest of a grade in any species; as heavy as the heaviest wood."""
    shape = "Beams & Stringers" if deeper_by > 2 else "Posts & Timbers"
    every = rows("nds_2018/timber_4d") if thick >= 5 else [*rows("nds_2018/sawn_4a"), *rows("nds_2018/sawn_4b")]
    if thick >= 5:
        every = [r for r in every if r["size_class"] in (shape, "5x5 and larger")]
    every = [r for r in every if _bare(grade) in _bare(r["grade"])]
    low = {name: min(float(r[name]) for r in every) for name in (*REFERENCE, "G")}
    found = {"grade": grade, "c": 0.8, "density": _density(""), **low}
    if thick >= 5:
        flat = _wide_face(grade) if deeper_by > 2 else 1.0
        sizes = {"kind": "timber", "C_F_b": None, "C_F_c": 1.0, "C_fu_wide": flat}
        return {**found, **sizes, "wet": row("nds_2018/wet_service", product="timber")}
    wet = row("nds_2018/wet_service", product="dimension")
    return {**found, "kind": "dimension", **_by_size(grade, thick, wide), "wet": wet}


def _by_size(grade, thick, wide):
    """Size factors of Table 4A."""
    group, of = GROUPS.get(grade, "structural"), "4" if thick == 4 else "2-3"
    factors = row("nds_2018/size_factor_4a", grade_group=group, thickness=of, width=str(wide))
    return {"C_F_b": float(factors["C_F_b"]), "C_F_c": float(factors["C_F_c"])}


def _dressed():
    """Nominal widths with the dressed width of lumber 2 in thick."""
    sizes = [r["size"].split("x") for r in rows("sections/dressed")]
    return [(int(d), figure("sections/dressed", "d", size=f"2x{d}")) for b, d in sizes if b == "2" and int(d) < 16]


def _named(grade, found):
    """Whether a row is the species and grade that are written."""
    spelled = [found["species"]]
    spelled += [r["alias"] for r in rows("practice/aliases") if r["species"] == found["species"]]
    grades = (found["grade"], *SYNONYMS.get(found["grade"], ()))
    return any(_bare(grade) == _bare(f"{name} {one}") for name in spelled for one in grades)


def _lumber(kind, found, wet):
    return {
        "kind": kind,
        "grade": found["grade"],
        **{name: float(found[name]) for name in REFERENCE},
        "c": 0.8,
        "density": _density(found["species"]),
        "G": figure("practice/densities", "G", material=found["species"]),
        "wet": row("nds_2018/wet_service", product=wet),
    }


def _density(species):
    woods = [r for r in rows("practice/densities") if r["G"]]
    named = [r for r in woods if r["material"] == species]
    return max(float(r["density"]) for r in named or woods)


def _dimension(grade, thick, wide):
    for found in rows("nds_2018/sawn_4a"):
        if _named(grade, found):
            group = GROUPS.get(found["grade"], "structural")
            factors = row(
                "nds_2018/size_factor_4a", grade_group=group, thickness="4" if thick == 4 else "2-3", width=str(wide)
            )
            break
    else:
        width = next((n for n in (4, 6, 8, 10, 12) if wide <= n), 12)
        found = next(r for r in rows("nds_2018/sawn_4b") if _named(grade, r) and int(r["width"]) == width)
        broad = "4 in thick, 8 in and wider" if thick == 4 and wide >= 8 else "other"
        condition = "wider than 12" if wide > 12 else broad
        factors = row("nds_2018/size_factor_4b", condition=condition)
    sizes = {"C_F_b": float(factors["C_F_b"]), "C_F_c": float(factors["C_F_c"])}
    return {**_lumber("dimension", found, "dimension"), **sizes}


def _timber(grade, deeper_by):
    """Beams and Stringers are more than 2 in wider than thick; Posts and Timbers are not."""
    shape = "Beams & Stringers" if deeper_by > 2 else "Posts & Timbers"
    fitting = [r for r in rows("nds_2018/timber_4d") if r["size_class"] in (shape, "5x5 and larger")]
    found = next(r for r in fitting if _named(grade, r))
    wet = "timber Southern Pine" if found["species"] == "Southern Pine" else "timber"
    flat = 1.0
    if found["size_class"] == "Beams & Stringers":
        flat = _wide_face(found["grade"])
    return {**_lumber("timber", found, wet), "C_F_b": None, "C_F_c": 1.0, "C_fu_wide": flat}


def _wide_face(grade):
    """Flat use factor of bending values of Beams and Stringers loaded on the wide face, by the plain grade."""
    plain = grade.removeprefix("Dense ").partition(" (")[0]
    return figure("nds_2018/flat_use_4d", "C_fu_F_b", grade=plain)
