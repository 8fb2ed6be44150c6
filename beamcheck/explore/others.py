"""How the links stand that a list of other beams does not tell of."""

from typing import NamedTuple

from beamcheck.study.chain import study as studied
from beamcheck.survey.model import Survey

_WORDS = ("over", "not shown", "close", "refer", "within")


class Other(NamedTuple):
    """A link that the list does not tell of: its word and its utilisation, with the beam of the survey."""

    name: str
    word: str
    ratio: float | None


def others(survey: Survey) -> tuple[Other, ...]:
    """Every link but the beam and its seats, as a study of the survey has it."""
    found = []
    for link in studied(survey).links:
        if link.key in ("takedown", "beam") or link.key.endswith(".seat") or link.word not in _WORDS:
            continue
        ratio = None if link.governing is None else float(link.governing.ratio)
        found.append(Other(link.name, link.word, ratio))
    return tuple(sorted(found, key=lambda other: _WORDS.index(other.word)))
