"""What nobody has looked at: each stand-in that the study lists as assumed, and what may be true in its place.

Words have the other choices, species those of the tables, members of unknown grade the yard's, and a share of a size
what the table of such shares has. Figures are not here: they are moved within their ranges.
"""

from collections.abc import Collection, Iterator
from typing import Any, NamedTuple

from beamcheck import units
from beamcheck.catalogue.reading import read_member
from beamcheck.catalogue.sawn import unstamped
from beamcheck.errors import InputError
from beamcheck.frozen import replace
from beamcheck.study.registers import BY_SEAT, Entry, assumed, overruled
from beamcheck.study.stand_ins import members
from beamcheck.study.stops import plate_species
from beamcheck.study.types import Study
from beamcheck.survey.fields import field_at, section_at
from beamcheck.survey.model import Survey
from beamcheck.tables import load
from beamcheck.trace import Given, Trust, Value

UNKNOWN = "unknown"
_POORER = f"{UNKNOWN} No.3"
_ASKED = ("study", "options")  # sections that say what is wanted, not what is there


class Other(NamedTuple):
    """What may be true in place of a stand-in: as it is told, and as it is put into the survey."""

    text: str
    put: str | Value


class StandIn(NamedTuple):
    """An entry of the register of assumptions, and what may be true in its place; nothing where none is known."""

    entry: Entry
    others: tuple[Other, ...]


def stand_ins(study: Study) -> tuple[StandIn, ...]:
    """Every assumption of the study that is no figure, in the order of the survey."""
    return tuple(StandIn(entry, tuple(_others(study, entry))) for entry in _entries(study) if entry.value is None)


def untried(study: Study, moved: Collection[str]) -> tuple[Entry, ...]:
    """Assumptions that have nothing in their place and are none of the figures, by key path, that were moved."""
    tried = {one.entry.where for one in stand_ins(study) if one.others}.union(moved)
    return tuple(entry for entry in _entries(study) if entry.where not in tried)


def _entries(study: Study) -> Iterator[Entry]:
    for entry in (*assumed(study), *overruled(study)):
        section = section_at(entry.where)
        if section is not None and section.key not in _ASKED:
            yield entry


def _others(study: Study, entry: Entry) -> Iterator[Other]:
    written = dict(members(study.survey)).get(entry.where)
    field = field_at(entry.where)
    if written is not None:
        yield from map(_word, _grades(entry.where, written))
    elif entry.text.startswith("share ") or entry.text == BY_SEAT:
        yield from _shares(study, entry)
    elif field is not None:
        words = plate_species() if field.register == "plate_species" else field.choices
        yield from (_word(word) for word in words if word not in (entry.text, UNKNOWN))


def _word(text: str) -> Other:
    return Other(text, text)


def _grades(where: str, written: str) -> Iterator[str]:
    """A member of unknown species in a poorer grade, and in each species and grade of the yard that has its size."""
    if not unstamped(written):
        return
    size = written[: written.lower().index(UNKNOWN)]
    rows = load("practice/stocked").rows
    for material in dict.fromkeys((_POORER, *(row.text("material") for row in rows if row.text("family") == "sawn"))):
        text = f"{size}{material}"
        if text.lower() != written.lower() and _is_member(text, where):
            yield text


def _is_member(text: str, where: str) -> bool:
    try:
        read_member(text, where)
    except InputError:
        return False
    return True


def _shares(study: Study, entry: Entry) -> Iterator[Other]:
    """Shares of the side, across the beam, of the post that the entry belongs to."""
    field, number = field_at(entry.where), entry.where.partition("[")[2].partition("]")[0]
    metric = study.survey.about.dimensions == "metric"
    side = float(study.posts[int(number) - 1].member.d.to("in"))
    for row in load("practice/instead").rows:
        if field is not None and row.text("item") == field.register:
            length = side * row.number("share")
            text = units.format_length_metric(length) if metric else f"{length:.3g} in"
            yield Other(text, Value(field.key, length, "in", Given(entry.where, Trust.ASSUMED, text)))


def with_other(survey: Survey, where: str, put: str | Value) -> Survey:
    """The survey with another word or figure at a key path."""
    section, key = section_at(where), where.rpartition(".")[2]
    assert section is not None, "a key path of a survey"
    old: Any = getattr(survey, section.attribute)
    change: dict[str, Any] = {key: put}
    if section.repeated:
        at = int(where.partition("[")[2].partition("]")[0]) - 1
        new = (*old[:at], replace(old[at], **change), *old[at + 1 :])
    else:
        new = replace(old, **change)
    whole: dict[str, Any] = {section.attribute: new}
    return replace(survey, **whole)
