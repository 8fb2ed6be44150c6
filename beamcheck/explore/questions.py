"""Words that nobody has looked at: what the study says if another word is true, and which links that tips over 1.00."""

from collections.abc import Iterator
from typing import Any, NamedTuple

from beamcheck.errors import InputError, OutOfRange
from beamcheck.explore.evaluated import Progress
from beamcheck.frozen import replace
from beamcheck.study.chain import study as studied
from beamcheck.study.registers import called
from beamcheck.study.types import Study
from beamcheck.survey.fields import field_at
from beamcheck.survey.model import Survey
from beamcheck.tables import load
from beamcheck.trace import FULL, NOT_SEEN

_PARTS = {
    "site": "site",
    "wall": "wall",
    "beam": "beam",
    "temporary": "temporary",
    "carried": "carried",
    "post": "posts",
    "girder": "girders",
    "pad": "pads",
    "heavy": "heavy",
}
_UNKNOWN = "unknown"
_POORER = "unknown No.3"


class Tipped(NamedTuple):
    """A link that another word brings over 1.00 or back: its utilisation before and after."""

    link: str
    name: str
    before: float
    after: float


class Question(NamedTuple):
    """A word that is not known: what stands in, what may be true instead, the links it tips, what would settle it."""

    where: str
    name: str
    stands: str
    instead: str
    tipped: tuple[Tipped, ...]
    settle: str


class _Unknown(NamedTuple):
    """A word that is not known, its key path and what else it may be."""

    where: str
    stands: str
    others: tuple[str, ...]
    settle: str


def questions(study: Study, progress: Progress = lambda _: None) -> tuple[Question, ...]:
    """Each other word of each unknown that tips a link, in the order of the survey."""
    tries = [(unknown, other) for unknown in _unknowns(study.survey) for other in unknown.others]
    found = []
    for done, (unknown, other) in enumerate(tries, 1):
        tipped = _tipped(study, _with_word(study.survey, unknown.where, other))
        if tipped:
            name = called(study.survey, unknown.where)
            found.append(Question(unknown.where, name, unknown.stands, other, tipped, unknown.settle))
        progress(done / len(tries))
    return tuple(found)


def _unknowns(survey: Survey) -> Iterator[_Unknown]:
    for word in survey.words:
        field = field_at(word.where)
        head = word.where.partition(".")[0].partition("[")[0]
        if field is None or head not in _PARTS or not (word.trust in NOT_SEEN or word.text == _UNKNOWN):
            continue
        others = tuple(other for other in field.choices if other not in (word.text, _UNKNOWN))
        yield _Unknown(word.where, word.text, others, word.flips)
    yield from _members(survey)


def _members(survey: Survey) -> Iterator[_Unknown]:
    """Members whose grade is not known: they may be the yard's sawn lumber, or of a grade below what stands in."""
    rows = load("practice/stocked").rows
    materials = dict.fromkeys((_POORER, *(row.text("material") for row in rows if row.text("family") == "sawn")))
    written = {"beam.member": survey.beam.member}
    written |= {f"{post.where}.member": post.member for post in survey.posts}
    written |= {f"{girder.where}.member": girder.member for girder in survey.girders}
    for where, text in written.items():
        if text.lower().endswith(_UNKNOWN):
            size = text[: -len(_UNKNOWN)]
            yield _Unknown(where, text, tuple(f"{size}{one}" for one in materials), "a grade stamp or a sample")


def _with_word(survey: Survey, where: str, text: str) -> Survey:
    """The survey with another word at a key path."""
    head, _, key = where.rpartition(".")
    part, _, number = head.partition("[")
    name = _PARTS[part]
    old: Any = getattr(survey, name)
    new: dict[str, Any] = {}
    if number:
        at = int(number.rstrip("]")) - 1
        new[name] = (*old[:at], replace(old[at], **{key: text}), *old[at + 1 :])
    else:
        new[name] = replace(old, **{key: text})
    return replace(survey, **new)


def _tipped(study: Study, survey: Survey) -> tuple[Tipped, ...]:
    try:
        anew = studied(survey)
    except (InputError, OutOfRange):
        return ()
    after = {link.key: link.governing for link in anew.links}
    tipped = []
    for link in study.links:
        now, then = link.governing, after.get(link.key)
        if now is not None and then is not None and (now.ratio > FULL) != (then.ratio > FULL):
            tipped.append(Tipped(link.key, link.name, float(now.ratio), float(then.ratio)))
    return tuple(tipped)
