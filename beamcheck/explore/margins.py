"""How near each figure comes to tipping a result: by how much it may move alone before a link reaches 1.00.

Links of beam, seats and posts are worked in lanes, the others by whole studies; where a link crosses 1.00 is solved.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from beamcheck.beam.many import Floats, distinct
from beamcheck.explore.evaluated import Followed, Progress, Ratios, Setting, in_lanes, links_of, one_by_one
from beamcheck.explore.inputs import Ranged, farthest, inputs, sensible
from beamcheck.explore.roots import crossings
from beamcheck.study.types import Study
from beamcheck.trace import FULL, Check, items

_LEAST = 1e-9  # a utilisation that is as good as none
_FARTHEST = 4.0  # a figure is moved up to so many times its size, and down to the same share of it
_STEPS = {True: 8, False: 1}  # steps between the likely figure and the farthest, in lanes and by studies

Work = Callable[[Sequence[Setting]], Ratios]


class Target(NamedTuple):
    """One link whose utilisation is followed: its checks by key, with the title of each, and how hard it works."""

    key: str
    name: str
    checks: dict[str, str]
    ratio: float


class Flip(NamedTuple):
    """A figure that, moved alone to ``at``, brings a link to 1.00: over it beyond, or back within.

    key, check: key and title of the check that stands at 1.00 there; reach: the way there as a share of the figure's
    own range on that side, so 1.0 or less may well be.
    """

    input: Ranged
    link: str
    name: str
    key: str
    check: str
    ratio: float
    at: float
    goes: str
    reach: float


class Corner(NamedTuple):
    """A link as it is, and with every figure at the kindest and at the unkindest end of its range.

    Where figures work against each other one alone may reach farther than all together: then that counts.
    """

    link: str
    name: str
    low: float
    likely: float
    high: float


@dataclass(frozen=True, slots=True)
class Margins:
    """Figures with their ranges, flips from the nearest on, and each link between its corners."""

    inputs: tuple[Ranged, ...]
    flips: tuple[Flip, ...]
    corners: tuple[Corner, ...]


class _Group(NamedTuple):
    """Targets that are worked alike, the figures they rest on, and looks per figure."""

    targets: tuple[Target, ...]
    ranged: tuple[Ranged, ...]
    work: Work
    steps: int


def margins(study: Study, progress: Progress = lambda _: None) -> Margins:
    """Follow every link of the study that has a check while each figure moves alone."""
    flips: list[Flip] = []
    corners: dict[str, Corner] = {}
    ranged: dict[str, Ranged] = {}
    for group in list(_groups(study, progress, _inputs)):
        grids = [_grid(study, one, group.steps) for one in group.ranged]
        looks = _looks(group, grids)
        flips += _flips(group, grids, looks)
        corners |= {corner.link: corner for corner in _corners(group, grids, looks)}
        ranged |= {one.where: one for one in group.ranged}
    order = [target.key for target in targets(study)]
    return Margins(
        tuple(ranged.values()),
        tuple(sorted(flips, key=_near)),
        tuple(corners[key] for key in order if key in corners),
    )


def tipping(study: Study, progress: Progress = lambda _: None) -> tuple[Flip, ...]:
    """Flips of the figures that nobody has looked at, each moved alone within its own range, the nearest first."""
    flips: list[Flip] = []
    for group in list(_groups(study, progress, _unseen)):
        grids = [distinct(np.array([one.low, one.likely, one.high]))[0] for one in group.ranged]
        flips += _flips(group, grids, _looks(group, grids))
    return tuple(sorted(flips, key=_near))


def _looks(group: _Group, grids: list[Floats]) -> Floats:
    """The worst utilisation of each target, with each figure at each place of its grid."""
    settings: list[Setting] = [
        {one.where: float(x)} for one, grid in zip(group.ranged, grids, strict=True) for x in grid
    ]
    ratios = group.work(settings) if settings else {}
    return np.array([_worst(ratios, target, len(settings)) for target in group.targets])


def _near(flip: Flip) -> float:
    """The way there as far as it means something: past that the last bits, which differ from machine to machine."""
    return float(f"{flip.reach:.6g}")


def targets(study: Study) -> tuple[Target, ...]:
    """Every link of the study that has a check."""
    found = []
    for link in study.links:
        checks = {item.key: item.title for item in items(link.sheet) if isinstance(item, Check)}
        if link.governing is not None:
            found.append(Target(link.key, link.name, checks, float(link.governing.ratio)))
    return tuple(found)


_Chosen = Callable[[Study, tuple[Target, ...]], tuple[Ranged, ...]]


def _groups(study: Study, progress: Progress, chosen: _Chosen) -> Iterator[_Group]:
    followed = targets(study)
    keys = in_lanes(study, [{}], {}) if study.loaded is not None else {}
    side_by_side = tuple(target for target in followed if target.checks.keys() <= keys.keys())
    alone = tuple(target for target in followed if target not in side_by_side)
    if side_by_side:
        ranged = chosen(study, side_by_side)
        likely = {one.where: one.likely for one in ranged}
        yield _Group(side_by_side, ranged, lambda settings: in_lanes(study, settings, likely), _STEPS[True])
    parts: dict[str, list[Target]] = {}
    for target in alone:
        parts.setdefault(_part(study, target), []).append(target)
    for number, (part, some) in enumerate(parts.items()):
        followed_ = Followed(frozenset(key for target in some for key in target.checks), links_of(study, part))
        yield _Group(
            tuple(some),
            chosen(study, tuple(some)),
            partial(_by_studies, study, followed_, partial(_share_of, progress, number, len(parts))),
            _STEPS[False],
        )


def _share_of(progress: Progress, number: int, count: int, share: float) -> None:
    progress((number + share) / count)


def _by_studies(study: Study, followed: Followed, progress: Progress, settings: Sequence[Setting]) -> Ratios:
    return one_by_one(study, settings, followed, progress)


def _part(study: Study, target: Target) -> str:
    """The part of the study that makes a link again: the chain, or a section beside it."""
    link = next(link for link in study.links if link.key == target.key)
    return "" if link.in_chain else target.key.partition("[")[0]


def _inputs(study: Study, followed: tuple[Target, ...]) -> tuple[Ranged, ...]:
    return inputs(study, {key for target in followed for key in target.checks})


def _unseen(study: Study, followed: tuple[Target, ...]) -> tuple[Ranged, ...]:
    return tuple(one for one in _inputs(study, followed) if one.unseen)


def _grid(study: Study, one: Ranged, steps: int) -> Floats:
    """Where a figure is looked at: its range, and in even ratios as far as beam and posts can be laid out."""
    least, most = sensible(one.where)
    ends = sorted((one.likely / _FARTHEST, one.likely * _FARTHEST))
    low, high = (farthest(study, one, min(max(end, least), most)) for end in ends)
    low, high = min(low, one.low), max(high, one.high)
    share = np.linspace(0.0, 1.0, steps + 1)
    down, up = one.likely * (low / one.likely) ** share, one.likely * (high / one.likely) ** share
    return distinct(np.concatenate([down, [one.low, one.likely, one.high], up]))[0]


def _worst(ratios: Ratios, target: Target, count: int) -> Floats:
    rows = [ratios[key] for key in target.checks if key in ratios]
    worst: Floats = np.fmax.reduce(rows) if rows else np.full(count, np.nan)
    return worst


class _Crossing(NamedTuple):
    """Two neighbouring looks between which a target crosses 1.00."""

    target: int
    input: int
    ends: tuple[float, float]
    values: tuple[float, float]


def _flips(group: _Group, grids: list[Floats], looks: Floats) -> list[Flip]:
    crossed = list(_crossed(group, grids, looks))
    if not crossed:
        return []
    keys = [list(group.targets[one.target].checks) for one in crossed]

    signs = np.array([np.sign(one.ends[0]) for one in crossed])

    def over(which: NDArray[np.intp], sizes: Floats) -> Floats:
        x = signs[which] * np.exp(sizes)
        settings = [{group.ranged[crossed[n].input].where: float(at)} for n, at in zip(which, x, strict=True)]
        ratios = group.work(settings)
        return _size([_at(ratios, keys[n], place) for place, n in enumerate(which)])

    ends = np.log(np.abs(np.array([one.ends for one in crossed]).T))
    values = _size([one.values for one in crossed]).T
    found = signs * np.exp(crossings(over, (ends[0], ends[1]), (values[0], values[1])))
    ratios = group.work([{group.ranged[one.input].where: float(at)} for one, at in zip(crossed, found, strict=True)])
    return [
        _flip(group, one, float(at), max(keys[n], key=lambda key: _number(ratios, key, n)))
        for n, (one, at) in enumerate(zip(crossed, found, strict=True))
    ]


def _size(ratios: list[float] | list[tuple[float, float]]) -> Floats:
    """Logarithms of utilisations, which are nearly straight lines over those of loads and lengths; none at 1.00."""
    logarithm: Floats = np.log(np.clip(np.array(ratios), _LEAST, 1.0 / _LEAST))
    return logarithm


def _crossed(group: _Group, grids: list[Floats], looks: Floats) -> Iterator[_Crossing]:
    """The nearest crossing on each side of the likely figure, for every target and figure."""
    begin = 0
    for number, (one, grid) in enumerate(zip(group.ranged, grids, strict=True)):
        here = slice(begin, begin + len(grid))
        begin = here.stop
        middle = int(np.argmin(np.abs(grid - one.likely)))
        for target in range(len(group.targets)):
            line = looks[target, here]
            for way in (range(middle, len(grid) - 1), range(middle, 0, -1)):
                step = 1 if way.step > 0 else -1
                at = next((k for k in way if (line[k] - FULL) * (line[k + step] - FULL) <= 0.0), None)
                if at is not None and line[at] != line[at + step]:
                    other = at + step
                    yield _Crossing(
                        target, number, (float(grid[at]), float(grid[other])), (float(line[at]), float(line[other]))
                    )


def _flip(group: _Group, one: _Crossing, at: float, key: str) -> Flip:
    target, ranged = group.targets[one.target], group.ranged[one.input]
    room = (ranged.high if at > ranged.likely else ranged.low) - ranged.likely
    reach = abs((at - ranged.likely) / room) if room else float("inf")
    goes = "over" if target.ratio <= FULL else "within"
    return Flip(ranged, target.key, target.name, key, target.checks[key], target.ratio, at, goes, reach)


def _at(ratios: Ratios, keys: list[str], place: int) -> float:
    return max(_number(ratios, key, place) for key in keys)


def _number(ratios: Ratios, key: str, place: int) -> float:
    number = float(ratios[key][place]) if key in ratios else float("nan")
    return number if number == number else -np.inf  # noqa: PLR0124  the one figure unlike itself is none


def _corners(group: _Group, grids: list[Floats], looks: Floats) -> Iterator[Corner]:
    """Each target with all figures at the end that moves it up, and at the end that moves it down."""
    settings: list[Setting] = []
    seen: list[tuple[float, float]] = []
    for line in looks:
        reached: list[float] = []
        ends: list[tuple[str, float, float]] = []
        begin = 0
        for one, grid in zip(group.ranged, grids, strict=True):
            at = {x: float(line[begin + int(np.argmin(np.abs(grid - x)))]) for x in (one.likely, one.low, one.high)}
            begin += len(grid)
            ends.append((one.where, min(at, key=lambda x: at[x]), max(at, key=lambda x: at[x])))
            reached += at.values()
        seen.append((min(reached), max(reached)))
        settings += ({where: kind for where, kind, _ in ends}, {where: unkind for where, _, unkind in ends})
    ratios = group.work(settings)
    for number, target in enumerate(group.targets):
        low, high = (_at(ratios, list(target.checks), 2 * number + end) for end in (0, 1))
        least, most = seen[number]
        yield Corner(target.key, target.name, min(low, least), target.ratio, max(high, most))
