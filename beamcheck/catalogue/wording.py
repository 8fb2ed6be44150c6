"""The parts of a member's trade text: plies, size and grade, before any table is looked at."""

import re
from collections.abc import Iterable
from functools import cache
from typing import NamedTuple

from beamcheck import tables, units
from beamcheck.catalogue.members import Kind, Member
from beamcheck.errors import Fault, InputError
from beamcheck.tables import Row
from beamcheck.trace import Given, Trust, Value, looked, taken

NUMBER = r"\d+(?:\.\d+|[- ]\d+/\d+|/\d+)?"
# 3-ply 2x12, 3 ply 2x12, (3) 2x12 and 3-2x12, where no fraction follows
PLIES = r"(?:(?:(?P<plies>\d+)[- ]?ply|\((?P<set>\d+)\)|(?P<of>\d+)\s?-(?=\s?\d+\s?[x×]))(?:\s+|-|(?<=[)-])))?"
_MEMBER = re.compile(
    rf"{PLIES}(?P<full>full\s+|rough\s+)?"
    rf"(?P<b>{NUMBER})\s*(?:in\s*)?[x×]\s*(?P<d>{NUMBER})(?:\s*in\b)?(?:(?:\s+|\s*,\s*)(?P<grade>[^\s,].*))?",
    re.IGNORECASE,
)
EXAMPLE = 'write it as "3-ply 2x12 Douglas Fir-Larch No.2", "2-ply 1-3/4x14 LVL 2.0E-2900F", "6x6 Hem-Fir No.1"'
MOST_PLIES = 6
_SIZES = (0.5, 48.0)


class Wording(NamedTuple):
    """A member as written: ``where`` is its key path; ``exact`` if a size is as measured ("full", "rough")."""

    text: str
    where: str
    plies: int
    exact: bool
    b: str
    d: str
    grade: str

    def fault(self, what: str, mend: str) -> InputError:
        """The error that this wording is not what was meant."""
        return InputError([Fault(self.where, what, mend)])

    def measured(self, name: str, text: str) -> Value:
        """One side of the section as the owner wrote it. Raises InputError for what is no size of a member."""
        try:
            inches = units.parse_length(f"{text} in")
        except units.UnitFault as fault:
            raise self.fault(str(fault), fault.wanted) from None
        if not _SIZES[0] <= inches <= _SIZES[1]:
            raise self.fault(f"{text} in is not a size of a member", "sizes from 1/2 in to 48 in can be checked")
        return Value(name, inches, "in", Given(self.where, Trust.STATED, self.text))


def worded(text: str, where: str) -> Wording:
    """Take the text apart. Raises InputError where it is not plies, size and grade."""
    match = _MEMBER.fullmatch(text.strip()) if len(text) <= 120 else None
    if match is None:
        sized = re.search(rf"{NUMBER}\s*(?:in\s*)?[x×]\s*\d", text[:120])
        lacks = "is not a size and a grade" if sized else "has no size"
        raise InputError([Fault(where, f"{text[:60]!r} {lacks}", EXAMPLE)])
    if match["grade"] is None:
        size = text.strip(" ,")
        mend = f'write what the stamp says behind the size; where there is none, "{size} unknown"'
        raise InputError([Fault(where, f"{text[:60]!r} has no species and grade", mend)])
    written = match["plies"] or match["set"] or match["of"] or "1"
    if not written.isascii() or len(written) > 2 or not 1 <= int(written) <= MOST_PLIES:
        raise InputError([Fault(where, f"{written} plies", f"one to {MOST_PLIES} plies can be checked")])
    return Wording(text, where, int(written), bool(match["full"]), match["b"], match["d"], match["grade"].strip())


def plies_written(text: str) -> int:
    """The plies of a member's text, one where it tells none or cannot be read."""
    match = _MEMBER.fullmatch(text.strip()) if len(text) <= 120 else None
    return int((match and (match["plies"] or match["set"] or match["of"])) or 1)


class Graded(NamedTuple):
    """What the tables say of a grade."""

    kind: Kind
    grade: str
    figures: dict[str, Value]
    density: Value
    wet_row: str
    remarks: tuple[str, ...]


def assembled(wording: Wording, size: str, b_ply: Value, d: Value, graded: Graded) -> Member:
    """The member of a wording, its size and its grade; plies side by side."""
    from beamcheck.standards.statics import breadth_of_plies

    n = taken("n", float(wording.plies), f"plies named in {wording.where}")
    return Member(
        text=wording.text,
        kind=graded.kind,
        plies=wording.plies,
        size=size,
        grade=graded.grade,
        b=breadth_of_plies(n=n, b_ply=b_ply) if wording.plies > 1 else b_ply,
        b_ply=b_ply,
        d=d,
        figures=graded.figures,
        density=graded.density,
        wet_row=graded.wet_row,
        remarks=graded.remarks,
    )


def plain(text: str) -> str:
    """Text without spaces, points and case, so that "No. 2" is "no.2"."""
    return "".join(text.split()).replace(".", "").lower()


def density(material: str) -> Value:
    """Weight per cubic foot of a species or product; the heaviest of the table where it has no row of its own."""
    return looked(_density_row(material), "density", "gamma")


@cache
def _density_row(material: str) -> Row:
    rows = tables.load("practice/densities").rows
    row = next((row for row in rows if row.text("material") == material), None)
    wood = (row for row in rows if row.has("G"))
    return row or max(wood, key=lambda candidate: candidate.number("density"))


def shrinkage(species: str) -> Value:
    """Tangential shrinkage, green to ovendry, of the wood of a sawn species group that shrinks most."""
    return looked(tables.lookup("wood_handbook_2010/shrinkage", species=species), "S_T")


def remarks(row: Row) -> tuple[str, ...]:
    """What the table notes beside a row, as a sentence to print."""
    note = row.written_under("note")
    return (f"{row.source}, {row.label}: {note}.",) if note else ()


def nearest(
    written: str, choices: Iterable[str], *, example: str = EXAMPLE, listed: str = "bearline tables"
) -> str:
    """The cure for a name that no table has: the nearest that one has, and the command that lists them."""
    from difflib import get_close_matches

    lowered = {choice.lower(): choice for choice in choices}
    close = get_close_matches(written.lower(), lowered, n=3, cutoff=0.4)
    if not close:
        return example
    return f"nearest: {', '.join(repr(lowered[name]) for name in close)}; list them with  {listed}"
