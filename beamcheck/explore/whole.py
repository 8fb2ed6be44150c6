"""The whole study with each beam of a list in place of the survey's: what stands below the beam, and what is beside."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from beamcheck.catalogue.reading import read_member
from beamcheck.errors import InputError
from beamcheck.explore.inputs import told
from beamcheck.explore.options import Option
from beamcheck.explore.trials import arrangements
from beamcheck.frozen import replace
from beamcheck.study.chain import study
from beamcheck.study.layout import lay_out
from beamcheck.study.types import WORST_FIRST, Link, Study
from beamcheck.survey.model import Survey

Progress = Callable[[float], None]
"""Told the share that is done, up to 1."""

_OF_THE_LIST = ("takedown", "beam")


class Rest(NamedTuple):
    """A link of the study over all beams of a list: its utilisations, the check of the greatest, and its worst word.

    least and most are None where the link has no check; over: the beams with which it is over.
    """

    key: str
    name: str
    least: float | None
    most: float | None
    check: str
    word: str
    over: tuple[str, ...]


class Whole(NamedTuple):
    """The links besides the beam with all beams of a list, and the word of the whole study with the first of them.

    worked: how many beams the survey takes; refused: the others, each with what it contradicts.
    """

    worked: int
    rest: tuple[Rest, ...]
    first: str
    refused: tuple[tuple[str, str], ...]


def whole(survey: Survey, listed: Sequence[Option], progress: Progress = lambda _: None) -> Whole:
    """Put each beam of a list, over its arrangement of posts, into the survey and study it."""
    laid = {_stations(one): one for one in arrangements(survey)}
    studies: list[Study] = []
    refused = []
    for done, option in enumerate(listed, 1):
        arranged = laid[option.stations]
        try:
            studies.append(study(replace(arranged, beam=replace(arranged.beam, member=option.text))))
        except InputError as error:
            refused.append((option.text, told(error)))
        progress(done / len(listed))
    return Whole(len(studies), _rest(studies), _word_of_first(listed, studies), tuple(refused))


def _stations(survey: Survey) -> tuple[float, ...]:
    layout = lay_out(survey, read_member(survey.beam.member, "beam.member"))
    return tuple(float(station.to("in")) for station in layout.stations)


def _word_of_first(listed: Sequence[Option], studies: list[Study]) -> str:
    """The word of the study with the first beam; not shown where the survey does not take that beam."""
    with_first = studies and studies[0].survey.beam.member == listed[0].text
    return studies[0].settled if with_first else "not shown"


def _rest(studies: list[Study]) -> tuple[Rest, ...]:
    links: dict[str, list[tuple[str, Link]]] = {}
    for one in studies:
        for link in one.links:
            if link.key not in _OF_THE_LIST and link.word in WORST_FIRST and not link.always_asks:
                links.setdefault(link.key, []).append((one.survey.beam.member, link))
    return tuple(_over_all(key, found) for key, found in links.items())


def _over_all(key: str, found: list[tuple[str, Link]]) -> Rest:
    links = [link for _, link in found]
    checks = [link.governing for link in links if link.governing is not None]
    ratios = [float(check.ratio) for check in checks]
    most = max(ratios, default=None)
    return Rest(
        key,
        links[0].name,
        min(ratios, default=None),
        most,
        "" if most is None else checks[ratios.index(most)].title,
        min((link.word for link in links), key=WORST_FIRST.index),
        tuple(beam for beam, link in found if link.word == "over"),
    )
