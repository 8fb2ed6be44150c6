"""How hard every check works when figures of the survey stand elsewhere: side by side in lanes, or study by study."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any, NamedTuple

import numpy as np

from beamcheck.beam.many import Floats
from beamcheck.errors import InputError, OutOfRange
from beamcheck.explore import Progress
from beamcheck.explore.chain_lanes import chain_lanes
from beamcheck.explore.inputs import told, with_numbers
from beamcheck.frozen import replace
from beamcheck.study.chain import links_but_house
from beamcheck.study.layout import lay_out
from beamcheck.study.rest import RESTS_ON, beside
from beamcheck.study.types import Link, Study
from beamcheck.survey.fields import SECTIONS
from beamcheck.survey.model import Survey
from beamcheck.trace import Check, items

Setting = Mapping[str, float]
"""Figures that stand elsewhere, by key path; the rest stays as the survey has it."""


class Followed(NamedTuple):
    """Checks by key, and what makes the links that hold them from a survey."""

    keys: frozenset[str]
    links: Callable[[Survey], Sequence[Link]]


Ratios = dict[str, Floats]
"""Utilisation of each check by key, one figure a setting; not a number where a setting has no such check."""


def in_lanes(study: Study, settings: Sequence[Setting], likely: Setting) -> Ratios:
    """Checks of beam, seats and posts; ``likely`` holds every figure that any setting changes."""
    wheres = {where for setting in settings for where in setting}
    numbers = {where: np.array([one.get(where, likely[where]) for one in settings]) for where in sorted(wheres)}
    return {key: check.ratio for key, check in chain_lanes(study, numbers, len(settings)).items()}


def one_by_one(
    study: Study,
    settings: Sequence[Setting],
    followed: Followed,
    progress: Progress = lambda _: None,
) -> Ratios:
    """Checks of some links by studies, one after the other; a survey that contradicts itself at a setting has none."""
    found = {key: np.full(len(settings), np.nan) for key in followed.keys}
    known: dict[tuple[tuple[str, float], ...], dict[str, float]] = {}  # with nothing moved it comes for every figure
    for number, setting in enumerate(settings):
        moved = tuple(setting.items())
        if moved not in known:
            known[moved] = _ratios_at(study, setting, followed)
        for key, ratio in known[moved].items():
            found[key][number] = ratio
        progress((number + 1) / len(settings))
    return found


def _ratios_at(study: Study, setting: Setting, followed: Followed) -> dict[str, float]:
    """The checks that are followed, by one study; none where the survey contradicts itself."""
    try:
        links = followed.links(with_numbers(study.survey, setting))
    except (InputError, OutOfRange):
        return {}
    checks = (item for link in links for item in items(link.sheet) if isinstance(item, Check))
    return {check.key: float(check.ratio) for check in checks if check.key in followed.keys}


def contradiction(study: Study, followed: Followed, setting: Setting) -> str:
    """What a survey contradicts at a setting; nothing where its links can be made."""
    try:
        followed.links(with_numbers(study.survey, setting))
    except (InputError, OutOfRange) as error:
        return told(error)
    return ""


def links_of(study: Study, link: str) -> Callable[[Survey], Sequence[Link]]:
    """What makes the link of that key again from a survey, and as little else as can be."""
    sections = RESTS_ON.get(link.partition("[")[0])
    if sections is None:
        return _chain_alone
    return lambda survey: beside(_with_only(survey, sections), study.beam, lay_out(survey, study.beam))


def _chain_alone(survey: Survey) -> Sequence[Link]:
    return links_but_house(_with_only(survey, ()))


def _with_only(survey: Survey, kept: tuple[str, ...]) -> Survey:
    """The survey without the sections that make links beside the chain, but for those of the given keys."""
    beside_it = {key for keys in RESTS_ON.values() for key in keys}.difference(kept)
    emptied: dict[str, Any] = {one.attribute: one.empty for one in SECTIONS if one.key in beside_it}
    return replace(survey, **emptied)
