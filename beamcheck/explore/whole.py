"""The whole study with each beam of a list in place of the survey's: what stands below the beam, and what is beside."""

from collections.abc import Sequence
from typing import NamedTuple

from beamcheck.catalogue.reading import read_member
from beamcheck.errors import InputError, OutOfRange
from beamcheck.explore import Progress
from beamcheck.explore.inputs import told
from beamcheck.explore.options import Option
from beamcheck.explore.trials import arrangements
from beamcheck.frozen import replace
from beamcheck.study.chain import study
from beamcheck.study.layout import lay_out
from beamcheck.study.types import WORST_FIRST, Link, Study
from beamcheck.survey.model import Survey
from beamcheck.trace import Refer


class Rest(NamedTuple):
    """A link of the study over beams of a list: its utilisations, the check of the greatest, and the worst said of it.

    least and most are None where the link has no check. beams: with how many of them there is anything to say of the
    link; over: those with which it is over.
    """

    key: str
    name: str
    least: float | None
    most: float | None
    check: str
    said: str
    beams: int
    over: tuple[Option, ...]


class Whole(NamedTuple):
    """The links with all beams of a list that the survey takes, and what the study with the first of the list says.

    first: its word, "not shown" where the survey does not take that beam; questions: how many it asks the engineer;
    refused: what other beams contradict in the survey, with those beams.
    """

    beams: tuple[Option, ...]
    rest: tuple[Rest, ...]
    first: str
    questions: int
    refused: dict[str, tuple[Option, ...]]


def whole(survey: Survey, listed: Sequence[Option], progress: Progress = lambda _: None) -> Whole:
    """Put each beam of a list, over its arrangement of posts, into the survey and study it."""
    laid = {_stations(one): one for one in arrangements(survey)}
    studies: list[tuple[Option, Study]] = []
    refused: dict[str, tuple[Option, ...]] = {}
    for done, option in enumerate(listed, 1):
        try:
            studies.append((option, study(_with_beam(laid[option.stations], option.text))))
        except (InputError, OutOfRange) as error:
            refused[told(error)] = (*refused.get(told(error), ()), option)
        progress(done / len(listed))
    with_first = next((one for option, one in studies if option is listed[0]), None)
    return Whole(
        tuple(option for option, _ in studies),
        _rest(studies),
        "not shown" if with_first is None else with_first.settled,
        0 if with_first is None else sum(isinstance(stop, Refer) for stop in with_first.stops),
        refused,
    )


def _with_beam(survey: Survey, text: str) -> Survey:
    """The survey with that beam; of one piece, it has no plies to be joined. Raises InputError as its reading does."""
    beam = replace(survey.beam, member=text)
    if read_member(text, "beam.member").plies == 1:
        beam = replace(beam, plies_joined_by="", fastener_rows="", fastener_spacing=None)
    return replace(survey, beam=beam)


def _stations(survey: Survey) -> tuple[float, ...]:
    layout = lay_out(survey, read_member(survey.beam.member, "beam.member"))
    return tuple(float(station.to("in")) for station in layout.stations)


def _rest(studies: list[tuple[Option, Study]]) -> tuple[Rest, ...]:
    """Every link in the order of the studies, but for those that only ask what every study asks."""
    links: dict[str, list[tuple[Option, Link]]] = {}
    places: dict[str, int] = {}
    for option, one in studies:
        for place, link in enumerate(one.links):
            if link.word in WORST_FIRST and not (link.always_asks and link.word == "refer"):
                links.setdefault(link.key, []).append((option, link))
                places[link.key] = max(place, places.get(link.key, 0))
    return tuple(_over_all(key, links[key]) for key in sorted(links, key=places.__getitem__))


def _over_all(key: str, found: list[tuple[Option, Link]]) -> Rest:
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
        min(links, key=lambda link: [WORST_FIRST.index(word) for word in link.words] + [len(WORST_FIRST)]).said,
        len(links),
        tuple(option for option, link in found if link.word == "over"),
    )
