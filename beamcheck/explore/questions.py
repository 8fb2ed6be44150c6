"""Words that nobody has looked at: what the study says if another word is true, and which links that tips over 1.00."""

from typing import NamedTuple

from beamcheck.errors import InputError, OutOfRange
from beamcheck.explore import Progress
from beamcheck.explore.inputs import told
from beamcheck.explore.stand_ins import stand_ins, with_other
from beamcheck.study.chain import links_but_house
from beamcheck.study.types import Link, Study
from beamcheck.survey.model import Survey
from beamcheck.trace import FULL, Missing, items

_LEFT, _NOT_SHOWN, _GONE = "left to the engineer", "not shown", "no longer there"


class Tipped(NamedTuple):
    """A link that another word brings over 1.00 or back, or out of the study: its utilisation before and after.

    None where there is none; said: why there is none after it, as "not shown".
    """

    link: str
    name: str
    before: float | None
    after: float | None
    said: str = ""


class Question(NamedTuple):
    """A word that is not known: what stands in, what may be true instead, the links it tips, what would settle it."""

    where: str
    name: str
    stands: str
    instead: str
    tipped: tuple[Tipped, ...]
    settle: str


def questions(study: Study, progress: Progress = lambda _: None) -> tuple[Question, ...]:
    """Each thing that may be true in place of an assumed word and tips a link, in the order of the survey."""
    tries = [(one.entry, other) for one in stand_ins(study) for other in one.others]
    found = []
    for done, (entry, other) in enumerate(tries, 1):
        tipped = _tipped(study, with_other(study.survey, entry.where, other.put))
        if tipped:
            found.append(Question(entry.where, entry.name, entry.text, other.text, tipped, entry.flips))
        progress(done / len(tries))
    return tuple(found)


def _tipped(study: Study, survey: Survey) -> tuple[Tipped, ...]:
    try:
        anew = links_but_house(survey)
    except (InputError, OutOfRange) as error:
        ratio = None if study.governing is None else float(study.governing.ratio)
        said = f"contradicts the rest of the survey ({told(error)})"
        return (Tipped("study", "the whole study", ratio, None, said),)
    before, after = ({link.key: link for link in links} for links in (study.links, anew))
    tipped = (_compared(before.get(key), after.get(key)) for key in (before | after))
    return tuple(one for one in tipped if one is not None)


def _compared(now: Link | None, then: Link | None) -> Tipped | None:
    """The link, if it goes over or comes back, loses what it shows, or is over where nothing was shown."""
    link = now or then
    assert link is not None, "a link of the one study or of the other"
    before, after = _shown(now), _shown(then)
    if before is None:
        return Tipped(link.key, link.name, None, after) if after is not None and after > FULL else None
    if after is None:
        said = _GONE if then is None else _LEFT if then.word == "refer" else _NOT_SHOWN
        return Tipped(link.key, link.name, before, None, said)
    return Tipped(link.key, link.name, before, after) if (before > FULL) != (after > FULL) else None


def _shown(link: Link | None) -> float | None:
    """How hard a link works, as far as that is shown: where something is missing, only if it is over anyway."""
    if link is None or link.governing is None:
        return None
    ratio = float(link.governing.ratio)
    return None if ratio <= FULL and any(isinstance(item, Missing) for item in items(link.sheet)) else ratio
