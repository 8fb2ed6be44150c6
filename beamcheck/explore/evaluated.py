"""How hard every check works when figures of the survey stand elsewhere: side by side in lanes, or study by study."""

from collections.abc import Callable, Collection, Mapping, Sequence

import numpy as np

from beamcheck.beam.many import Floats
from beamcheck.errors import InputError, OutOfRange
from beamcheck.explore.chain_lanes import chain_lanes
from beamcheck.explore.inputs import with_numbers
from beamcheck.study.chain import study as studied
from beamcheck.study.types import Study
from beamcheck.trace import Check, items

Progress = Callable[[float], None]
"""Told the share that is done, up to 1."""

Setting = Mapping[str, float]
"""Figures that stand elsewhere, by key path; the rest stays as the survey has it."""

Ratios = dict[str, Floats]
"""Utilisation of each check by key, one figure a setting; not a number where a setting has no such check."""


def in_lanes(study: Study, settings: Sequence[Setting], likely: Setting) -> Ratios:
    """Checks of beam, seats and posts; ``likely`` holds every figure that any setting changes."""
    wheres = {where for setting in settings for where in setting}
    numbers = {where: np.array([one.get(where, likely[where]) for one in settings]) for where in sorted(wheres)}
    return {key: check.ratio for key, check in chain_lanes(study, numbers, len(settings)).items()}


def one_by_one(
    study: Study, settings: Sequence[Setting], keys: Collection[str], progress: Progress = lambda _: None
) -> Ratios:
    """Checks of the given keys by whole studies; a survey that contradicts itself at a setting has none."""
    found = {key: np.full(len(settings), np.nan) for key in keys}
    for number, setting in enumerate(settings):
        try:
            anew = studied(with_numbers(study.survey, setting))
        except (InputError, OutOfRange):
            continue
        for item in items(anew.sheet):
            if isinstance(item, Check) and item.key in found:
                found[item.key][number] = float(item.ratio)
        progress((number + 1) / len(settings))
    return found
