"""Species and grade as the trade writes them: "SPF #2", "No. 2 DF-L", "HF Sel Str". Two species are never confused."""

from collections.abc import Iterable
from functools import cache
from itertools import chain

from beamcheck import tables
from beamcheck.catalogue.wording import nearest
from beamcheck.tables import Row

_TOGETHER = {"No.1/No.2": ("No.1", "No.2"), "No.3 and Stud": ("No.3", "Stud")}
_BARE = str.maketrans({"#": "no", **dict.fromkeys(".,()-", "")})
_MOST = 3
_COMMON = "no2"  # the grade that yards stock, named first where none is written


def bare(text: str) -> str:
    """Text without spaces, points, hyphens, brackets and case, and "#2" or "number 2" as "no2"."""
    return "".join(text.lower().split()).replace("number", "no").translate(_BARE)


def is_species(written: str, species: str) -> bool:
    """Whether a text names a species group, by its name or a short one."""
    return bare(written) in _bare_species(species)


def rows_named(written: str, names: tuple[str, ...]) -> tuple[Row, ...]:
    """The rows of tables whose species and grade are written so."""
    return _by_name(names).get(bare(written), ())


@cache
def _by_name(names: tuple[str, ...]) -> dict[str, tuple[Row, ...]]:
    """The rows of tables by every way in which their species and grade are written, either of them first."""
    found: dict[str, list[Row]] = {}
    for row in (row for name in names for row in tables.load(name).rows):
        for species in _bare_species(row.text("species")):
            for grade in _bare_grades(row.text("grade")):
                found.setdefault(species + grade, []).append(row)
                found.setdefault(grade + species, []).append(row)
    return {written: tuple(rows) for written, rows in found.items()}


@cache
def _bare_species(species: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(bare(name) for name in _spelled(species, "practice/aliases", "species")))


@cache
def _bare_grades(grade: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(bare(name) for name in _grades(grade)))


def _grades(grade: str) -> Iterable[str]:
    """Every way in which a grade is written; a row of two grades is either."""
    parts = (grade, *_TOGETHER.get(grade, ()))
    return chain.from_iterable(_spelled(part, "practice/grade_aliases", "grade") for part in parts)


@cache
def _spelled(name: str, table: str, column: str) -> tuple[str, ...]:
    return (name, *(row.text("alias") for row in tables.load(table).rows if row.text(column) == name))


def suggested(written: str, rows: Iterable[Row]) -> str:
    """The cure for a species and grade that no row has: those that its words point to first, then the nearest."""
    listed = list(rows)
    for name, species in _pointers(tuple(dict.fromkeys(row.text("species") for row in listed))):
        rest = _without(bare(written), bare(name))
        if rest is not None:
            return _of_species(rest, species, listed)
    return nearest(written, [f"{row.text('species')} {row.text('grade')}" for row in listed])


@cache
def _pointers(there: tuple[str, ...]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Names of species and, for names that are not clear, of each that may be meant; the longest names first."""
    found = {
        name: (species,)
        for species in there
        for name in _spelled(species, "practice/aliases", "species")
    }
    for row in tables.load("practice/unclear_names").rows:
        if row.text("species") in there:
            found[row.text("name")] = (*found.get(row.text("name"), ()), row.text("species"))
    return tuple(sorted(found.items(), key=lambda item: -len(bare(item[0]))))


def _without(written: str, name: str) -> str | None:
    """What is left of a text that begins or ends with a name."""
    if written.startswith(name):
        return written[len(name) :]
    return written[: -len(name)] if written.endswith(name) else None


def _of_species(rest: str, species: tuple[str, ...], rows: list[Row]) -> str:
    """For each species that may be meant the grade that is nearest to what is written; of one the nearest few."""
    from difflib import SequenceMatcher

    told: list[str] = []
    wanted = rest or _COMMON
    for name in species:
        grades = list(dict.fromkeys(row.text("grade") for row in rows if row.text("species") == name))
        grades.sort(key=lambda grade: -max(SequenceMatcher(None, wanted, bare(one)).ratio() for one in _grades(grade)))
        told += (f"{name} {grade}" for grade in grades[: _MOST if len(species) == 1 else 1])
    names = ", ".join(f"{name!r}" for name in told)
    if len(species) > 1:
        return f"it may be {names}: the grade stamp tells which; where there is none write  unknown  in place of both"
    if not rest:
        return f"the grade lacks, such as {names}; where nobody knows it write  unknown  in place of both"
    return f"nearest: {names}; list them with  bearline tables"
