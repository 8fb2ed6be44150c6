"""Links that are worked alike, with the figures they rest on: beam, seats and posts in lanes, others by studies."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import NamedTuple

import numpy as np

from beamcheck.beam.many import Floats
from beamcheck.explore import Progress
from beamcheck.explore.evaluated import (
    Followed,
    Ratios,
    Setting,
    contradiction,
    in_lanes,
    links_of,
    one_by_one,
)
from beamcheck.explore.inputs import Ranged, inputs, unfit
from beamcheck.study.types import Study
from beamcheck.trace import Check, items

LANES, STUDIES = 8, 2  # steps between the likely figure and the farthest, in lanes and by studies

Work = Callable[[Sequence[Setting]], Ratios]


class Target(NamedTuple):
    """One link whose utilisation is followed: its checks by key, with the title of each, and how hard it works."""

    key: str
    name: str
    checks: dict[str, str]
    ratio: float


class Group(NamedTuple):
    """Targets that are worked alike, the figures they rest on, and looks per figure.

    why: what a setting contradicts, nothing where it can be worked.
    """

    targets: tuple[Target, ...]
    ranged: tuple[Ranged, ...]
    work: Work
    why: Callable[[Setting], str]
    steps: int


def targets(study: Study) -> tuple[Target, ...]:
    """Every link of the study that has a check."""
    found = []
    for link in study.links:
        checks = {item.key: item.title for item in items(link.sheet) if isinstance(item, Check)}
        if link.governing is not None:
            found.append(Target(link.key, link.name, checks, float(link.governing.ratio)))
    return tuple(found)


def groups(study: Study, progress: Progress, wanted: Callable[[Ranged], bool]) -> Iterator[Group]:
    """The groups of a study, each with those of its figures that are wanted.

    A figure that nobody has looked at is moved for every link that no check of shows it, too: it may still choose.
    """
    followed = targets(study)
    keys = in_lanes(study, [{}], {}) if study.loaded is not None else {}
    side_by_side = tuple(target for target in followed if target.checks.keys() <= keys.keys())
    parts: dict[str, list[Target]] = {}
    for target in followed:
        if target not in side_by_side:
            parts.setdefault(_part(study, target), []).append(target)
    hidden = _hidden(study, followed)
    if side_by_side:
        yield _laned(study, side_by_side, wanted)
        if hidden:
            yield _studied(study, "", side_by_side, hidden, progress)
    for number, (part, some) in enumerate(parts.items()):
        ranged = tuple(one for one in _under(study, tuple(some)) if wanted(one))
        share = partial(_share_of, progress, number, len(parts))
        yield _studied(study, part, tuple(some), (*ranged, *hidden), share)


def looks(group: Group, grids: Sequence[Floats]) -> Floats:
    """The worst utilisation of each target, with each figure at each place of its grid; shape (targets, places)."""
    settings: list[Setting] = [
        {} if x == one.likely else {one.where: float(x)}
        for one, grid in zip(group.ranged, grids, strict=True)
        for x in grid
    ]
    ratios = group.work(settings) if settings else {}
    return np.array([_worst(ratios, target, len(settings)) for target in group.targets])


def _laned(study: Study, followed: tuple[Target, ...], wanted: Callable[[Ranged], bool]) -> Group:
    ranged = tuple(one for one in _under(study, followed) if wanted(one))
    likely = {one.where: one.likely for one in ranged}
    return Group(
        followed, ranged, lambda settings: in_lanes(study, settings, likely), partial(unfit, study), LANES
    )


def _studied(
    study: Study, part: str, followed: tuple[Target, ...], ranged: tuple[Ranged, ...], progress: Progress
) -> Group:
    them = Followed(frozenset(key for target in followed for key in target.checks), links_of(study, part))

    def work(settings: Sequence[Setting]) -> Ratios:
        return one_by_one(study, settings, them, progress)

    return Group(followed, ranged, work, partial(contradiction, study, them), STUDIES)


def _share_of(progress: Progress, number: int, count: int, share: float) -> None:
    progress((number + share) / count)


def _part(study: Study, target: Target) -> str:
    """The part of the study that makes a link again: the chain, or a section beside it."""
    link = next(link for link in study.links if link.key == target.key)
    return "" if link.in_chain else target.key.partition("[")[0]


def _under(study: Study, followed: tuple[Target, ...]) -> tuple[Ranged, ...]:
    return inputs(study, {key for target in followed for key in target.checks})


def _hidden(study: Study, followed: tuple[Target, ...]) -> tuple[Ranged, ...]:
    """Figures of the study that nobody has looked at and that no check is computed from."""
    shown = {one.where for one in _under(study, followed)}
    return tuple(one for one in inputs(study) if one.unseen and one.where not in shown)


def _worst(ratios: Ratios, target: Target, count: int) -> Floats:
    rows = [ratios[key] for key in target.checks if key in ratios]
    worst: Floats = np.fmax.reduce(rows) if rows else np.full(count, np.nan)
    return worst
