"""The beams that ``bearline options`` tries, by kind, as members whose figures are arrays over them."""

from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

import numpy as np

from beamcheck.beam.many import Floats
from beamcheck.catalogue.members import Kind, Member
from beamcheck.catalogue.reading import read_member
from beamcheck.checks.wood import plies_share
from beamcheck.frozen import dataclass, replace
from beamcheck.survey.explore import Wanted
from beamcheck.survey.model import Survey
from beamcheck.tables import Row, load
from beamcheck.trace import Taken, Value

_SIDE_BY_SIDE = Taken("one of many beams, side by side")
_EIGHTHS = {0.125: "1/8", 0.25: "1/4", 0.375: "3/8", 0.5: "1/2", 0.625: "5/8", 0.75: "3/4", 0.875: "7/8"}


@dataclass(frozen=True, slots=True, eq=False)
class Batch:
    """Beams of one kind side by side.

    texts: each as ``read_member`` reads it; families: what the yard calls it; plies: of each; member: one member
    whose figures are arrays over the beams. Its own ``plies`` only say on which side of the repetitive-member factor's
    least number they all are.
    """

    texts: tuple[str, ...]
    families: tuple[str, ...]
    plies: Floats
    member: Member


class _One(NamedTuple):
    """One beam: its text, family and plies, a member of one ply with its figures, and its depth."""

    text: str
    family: str
    plies: int
    ply: Member
    d: float


def stock(survey: Survey) -> tuple[Batch, ...]:
    """Every beam of the yard's list that the survey's families and species let in, one batch for each kind."""
    wanted = survey.wanted
    shared = survey.beam.plies_share == "yes"
    kinds: dict[tuple[Kind, str, bool], list[_One]] = {}
    for row in load("practice/stocked").rows:
        if _let_in(row, wanted):
            for one in _beams(row, wanted):
                key = (one.ply.kind, one.ply.wet_row, shared and plies_share(one.ply.kind, one.plies))
                kinds.setdefault(key, []).append(one)
    return tuple(_batch(beams) for beams in kinds.values())


def _let_in(row: Row, wanted: Wanted | None) -> bool:
    if wanted is None:
        return True
    species = row.text("species")
    family = not wanted.families or row.text("family") in wanted.families
    return family and (not (wanted.species and species) or species.lower() in {name.lower() for name in wanted.species})


def _beams(row: Row, wanted: Wanted | None) -> Iterator[_One]:
    most = int(row.number("most_plies"))
    if wanted is not None and wanted.most_plies is not None:
        most = min(most, int(wanted.most_plies.number))
    for size, ply, d in _sizes(row):
        for plies in range(1, most + 1):
            text = f"{size} {row.text('material')}"
            yield _One(text if plies == 1 else f"{plies}-ply {text}", row.text("family"), plies, ply, d)


def _sizes(row: Row) -> Iterator[tuple[str, Member, float]]:
    """Each size of a row: as written, the member of one ply, and its depth; glued grades hold for every depth."""
    material, listed = row.text("material"), row.text("list")
    product, _, ply = listed.partition(" ")
    depths = _depths().get((product, ply))
    if depths is None:
        for size in listed.split():
            member = read_member(f"{size} {material}", "stock")
            yield size, member, float(member.d.number)
        return
    breadth = inches(float(ply))
    member = read_member(f"{breadth}x{inches(depths[0])} {material}", "stock")
    for depth in depths:
        yield f"{breadth}x{inches(depth)}", member, depth


@cache
def _depths() -> dict[tuple[str, str], tuple[float, ...]]:
    """The depths in which a product is made for beams, by product and breadth of a ply as the table has it."""
    found: dict[tuple[str, str], tuple[float, ...]] = {}
    for size in load("sections/engineered").rows:
        if size.text("duty") == "beam":
            key = size.text("product"), size.text("ply")
            found[key] = (*found.get(key, ()), size.number("depth"))
    return found


def inches(size: float) -> str:
    """A size as the yard writes it: 1-3/4; in decimals where eighths do not hold it."""
    whole, part = divmod(size, 1.0)
    if not part:
        return f"{whole:.0f}"
    fraction = _EIGHTHS.get(part)
    if fraction is None:
        return f"{size:g}"
    return f"{whole:.0f}-{fraction}" if whole else fraction


def _batch(beams: list[_One]) -> Batch:
    plies = np.array([float(one.plies) for one in beams])
    first = beams[0].ply
    members = dict.fromkeys(one.ply for one in beams)
    names = [name for name in first.figures if all(name in member.figures for member in members)]
    figures = {name: side_by_side([one.ply.figures[name] for one in beams]) for name in names}
    b_ply = side_by_side([one.ply.b_ply for one in beams])
    densities = [one.ply.density for one in beams if one.ply.density is not None]
    member = replace(
        first,
        text="many",
        plies=beams[0].plies,
        size="many",
        grade="many",
        b=replace(b_ply, number=plies * b_ply.number),
        b_ply=b_ply,
        d=Value("d", np.array([one.d for one in beams]), "in", _SIDE_BY_SIDE),
        figures=figures,
        density=side_by_side(densities) if densities else None,
        remarks=(),
    )
    return Batch(tuple(one.text for one in beams), tuple(one.family for one in beams), plies, member)


def side_by_side(values: list[Value]) -> Value:
    """One value of many: an array over them, or the number itself where all are alike."""
    first = values[0]
    numbers = np.array([value.number for value in values], dtype=np.float64)
    if (numbers == numbers[0]).all():
        return first
    return Value(first.name, numbers, first.unit, _SIDE_BY_SIDE)
