"""How near each figure comes to tipping a result: by how much it may move alone before a link reaches 1.00.

Links of beam, seats and posts are worked in lanes, the others by whole studies; where a link crosses 1.00 is solved.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from operator import itemgetter
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from beamcheck.beam.many import Floats
from beamcheck.explore import Progress
from beamcheck.explore.evaluated import Ratios, Setting
from beamcheck.explore.groups import Group, groups, targets
from beamcheck.explore.inputs import Ranged, farthest, sensible
from beamcheck.explore.roots import crossings
from beamcheck.explore.stand_ins import untried
from beamcheck.explore.walks import Walk, grid, walks
from beamcheck.study.registers import Entry
from beamcheck.study.types import Study
from beamcheck.trace import FULL

_LEAST = 1e-9  # a utilisation that is as good as none
FARTHEST = 4.0
"""A figure is moved up to so many times its size, and down to the same share of it."""
_WITHIN = 2  # steps from the likely figure to either end of its range
_NEARLY = 1e-3  # of the way there: moved as far as that


Way = Literal["over", "within", "gone"]
"""Where a link goes: over 1.00, back within, or out of what can be shown."""


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
    goes: Way
    reach: float


class Corner(NamedTuple):
    """A link as it is, and with every figure at the kindest and at the unkindest end of its range.

    Where figures work against each other one alone may reach farther than all together: then that counts. None where
    all of them together contradict each other.
    """

    link: str
    name: str
    low: float | None
    likely: float
    high: float | None


@dataclass(frozen=True, slots=True)
class Margins:
    """Figures with their ranges, flips from the nearest on, and each link between its corners.

    short: figures that could not be moved as far as all others; untried: assumptions in whose place nothing was tried.
    """

    inputs: tuple[Ranged, ...]
    flips: tuple[Flip, ...]
    corners: tuple[Corner, ...]
    short: tuple[str, ...] = ()
    untried: tuple[Entry, ...] = ()


def margins(study: Study, progress: Progress = lambda _: None) -> Margins:
    """Follow every link of the study that has a check while each figure moves alone."""
    flips: list[Flip] = []
    corners: dict[str, Corner] = {}
    ranged: dict[str, Ranged] = {}
    short: dict[str, str] = {}
    for group in list(groups(study, progress, lambda _: True)):
        walked = walks(group, [_grid(study, one, group.steps) for one in group.ranged])
        flips += _flips(group, walked)
        corners |= {corner.link: corner for corner in _corners(group, walked) if corner.link not in corners}
        for walk in walked:
            ranged[walk.ranged.where] = _widest(walk.ranged, ranged.get(walk.ranged.where))
            if not _went_far(walk):
                short[walk.ranged.where] = walk.ranged.name
    order = [target.key for target in targets(study)]
    return Margins(
        tuple(ranged.values()),
        tuple(sorted(flips, key=_near)),
        tuple(corners[key] for key in order if key in corners),
        tuple(short.values()),
        untried(study, ranged),
    )


def tipping(study: Study, progress: Progress = lambda _: None) -> tuple[Flip, ...]:
    """Flips of the figures that nobody has looked at, each moved alone within its own range, the nearest first."""
    flips: list[Flip] = []
    for group in list(groups(study, progress, lambda one: one.unseen)):
        flips += _flips(group, walks(group, [grid(one, (one.low, one.high), _WITHIN) for one in group.ranged]))
    return tuple(sorted(flips, key=_near))


def _widest(one: Ranged, other: Ranged | None) -> Ranged:
    """A figure's range over the groups that move it, and each place where it stops in one of them."""
    if other is None:
        return one
    stops = tuple(dict.fromkeys((*other.stops, *one.stops)))
    return other._replace(low=min(one.low, other.low), high=max(one.high, other.high), stops=stops)


def _near(flip: Flip) -> float:
    """The way there as far as it means something: past that the last bits, which differ from machine to machine."""
    return float(f"{flip.reach:.6g}")


def _grid(study: Study, one: Ranged, steps: int) -> Floats:
    """Where a figure is looked at: its range, and in even ratios as far as beam and posts can be laid out."""
    least, most = sensible(one.where)
    ends = sorted((one.likely / FARTHEST, one.likely * FARTHEST))
    low, high = (farthest(study, one, min(max(end, least), most)) for end in ends)
    return grid(one, (low, high), steps)


def _went_far(walk: Walk) -> bool:
    """Whether every target was followed to a quarter and to four times the likely figure."""
    there = walk.places[~np.isnan(walk.lines).any(axis=0)] / walk.ranged.likely
    return bool(there.min() <= (1 + _NEARLY) / FARTHEST and there.max() >= FARTHEST * (1 - _NEARLY))


class _Crossing(NamedTuple):
    """Two neighbouring looks between which a target crosses 1.00."""

    target: int
    input: int
    ends: tuple[float, float]
    values: tuple[float, float]


def _flips(group: Group, walked: Sequence[Walk]) -> list[Flip]:
    crossed = list(_crossed(walked))
    if not crossed:
        return []
    keys = [list(group.targets[one.target].checks) for one in crossed]
    signs = np.array([np.sign(one.ends[0]) for one in crossed])

    def over(which: NDArray[np.intp], sizes: Floats) -> Floats:
        x = signs[which] * np.exp(sizes)
        settings = [{walked[crossed[n].input].ranged.where: float(at)} for n, at in zip(which, x, strict=True)]
        ratios = group.work(settings)
        return _size([_at(ratios, keys[n], place) for place, n in enumerate(which)])

    ends = np.log(np.abs(np.array([one.ends for one in crossed]).T))
    values = _size([one.values for one in crossed]).T
    found = signs * np.exp(crossings(over, (ends[0], ends[1]), (values[0], values[1])))
    ratios = group.work([{walked[one.input].ranged.where: float(at)} for one, at in zip(crossed, found, strict=True)])
    return [
        _flip(group, walked[one.input].ranged, one, float(at), max(keys[n], key=lambda key: _number(ratios, key, n)))
        for n, (one, at) in enumerate(zip(crossed, found, strict=True))
    ]


def _size(ratios: list[float] | list[tuple[float, float]]) -> Floats:
    """Logarithms of utilisations, which are nearly straight lines over those of loads and lengths; none at 1.00."""
    logarithm: Floats = np.log(np.clip(np.array(ratios), _LEAST, 1.0 / _LEAST))
    return logarithm


def _crossed(walked: Sequence[Walk]) -> Iterator[_Crossing]:
    """The nearest crossing on each side of the likely figure, for every target and figure, as far as there is one."""
    for number, walk in enumerate(walked):
        for target, line in enumerate(walk.lines):
            for way in walk.ways():
                beyond = next((k for k, other in pairwise(way) if not _same_side(line[k], line[other])), None)
                if beyond is None or np.isnan(line[beyond + way.step]):
                    continue
                pair = [beyond, beyond + way.step]
                ends, values = walk.places[pair].tolist(), line[pair].tolist()
                yield _Crossing(target, number, (ends[0], ends[1]), (values[0], values[1]))


def _same_side(one: float, other: float) -> bool:
    return (one > FULL and other > FULL) or (one <= FULL and other <= FULL)


def _flip(group: Group, ranged: Ranged, one: _Crossing, at: float, key: str) -> Flip:
    target = group.targets[one.target]
    room = (ranged.high if at > ranged.likely else ranged.low) - ranged.likely
    reach = abs((at - ranged.likely) / room) if room else float("inf")
    goes: Way = "over" if target.ratio <= FULL else "within"
    return Flip(ranged, target.key, target.name, key, target.checks[key], target.ratio, at, goes, reach)


def _at(ratios: Ratios, keys: list[str], place: int) -> float:
    return max(_number(ratios, key, place) for key in keys)


def _number(ratios: Ratios, key: str, place: int) -> float:
    number = float(ratios[key][place]) if key in ratios else float("nan")
    return number if number == number else -np.inf  # noqa: PLR0124  the one figure unlike itself is none


def _corners(group: Group, walked: Sequence[Walk]) -> Iterator[Corner]:
    """Each target with all figures at the end that moves it up, and at the end that moves it down."""
    settings: list[Setting] = []
    reached: list[list[float]] = []
    for target, likely in enumerate(group.targets):
        ends = [(walk.ranged.where, _ends(walk, walk.lines[target])) for walk in walked]
        settings += [{where: end(at, key=itemgetter(0))[1] for where, at in ends if at} for end in (min, max)]
        reached.append([likely.ratio, *(ratio for _, at in ends for ratio, _ in at)])
    ratios = group.work(settings)
    for number, target_ in enumerate(group.targets):
        low, high = (_at(ratios, list(target_.checks), 2 * number + end) for end in (0, 1))
        least = None if low == -np.inf else min(low, *reached[number])
        most = None if high == -np.inf else max(high, *reached[number])
        yield Corner(target_.key, target_.name, least, target_.ratio, most)


def _ends(walk: Walk, line: Floats) -> list[tuple[float, float]]:
    """What a target comes to at the likely figure and at the ends of its range, with the figure."""
    one = walk.ranged
    places = [int(np.argmin(np.abs(walk.places - x))) for x in (one.likely, one.low, one.high)]
    found = [(float(line[k]), x) for k, x in zip(places, (one.likely, one.low, one.high), strict=True)]
    return [each for each in found if not np.isnan(each[0])]
