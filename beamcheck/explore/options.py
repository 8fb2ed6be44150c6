"""Which other beams would do: the yard's list, over the posts as they stand or at other stations, within set limits.

Every beam goes through every check of a study, in arrays. Beams are ranked by their own checks and seats; how hard
the posts work is told beside.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from math import isnan
from typing import NamedTuple

import numpy as np

from beamcheck import units
from beamcheck.beam.many import Floats
from beamcheck.errors import Fault, InputError
from beamcheck.explore import Progress
from beamcheck.explore.clear_height import headroom
from beamcheck.explore.front import front
from beamcheck.explore.ratios import Worked
from beamcheck.explore.stock import Batch, stock
from beamcheck.explore.trials import Trial, arrangements, at_tried_station, tried
from beamcheck.study.layout import Layout
from beamcheck.study.not_told import not_told
from beamcheck.study.seat_sheet import untold_plate
from beamcheck.survey.explore import Wanted
from beamcheck.survey.model import Survey
from beamcheck.trace import FULL, Missing, Taken, Value

LISTED = 15
_OF_POSTS = ("column", "eccentric", "end_grain", "plate", "slenderness", "wall")


class Option(NamedTuple):
    """One beam over one arrangement of posts: sizes in inches, weights in lb, its worst check and that of the posts.

    stations: of the posts; governed_by, check: title and key of the worst check; live, long_term: deflection in inches
    by the check that governs; headroom: None if flush.
    """

    text: str
    family: str
    stations: tuple[float, ...]
    depth: float
    breadth: float
    piece: float
    weight: float
    ratio: float
    governed_by: str
    check: str
    post_ratio: float
    post_governed_by: str
    live: float
    long_term: float
    headroom: float | None


class Rejected(NamedTuple):
    """A family none of whose beams will do: how many were tried, the one nearest to it, and why that one fails."""

    family: str
    tried: int
    nearest: Option
    why: str


@dataclass(frozen=True, slots=True)
class Options:
    """What was tried, what will do by depth and then weight, the front of depth, weight and utilisation, what fails.

    first: of each family the shallowest that will do, and of equals the lightest; not_told: title and need of what is
    not shown of beam or seats whatever the beam, such as loads of which the survey tells nothing, or not all along.
    """

    tried: int
    found: int
    limit: float
    ranked: tuple[Option, ...]
    first: tuple[Option, ...]
    front: tuple[Option, ...]
    rejected: tuple[Rejected, ...]
    unknown_seats: tuple[int, ...]
    not_told: tuple[tuple[str, str], ...]

    @property
    def listed(self) -> tuple[Option, ...]:
        """Every beam that a reader is shown to choose from, each once."""
        return tuple(dict.fromkeys((*self.ranked, *self.first, *self.front[:LISTED])))

    @property
    def stopped(self) -> bool:
        """Whether loads or seats are not told, or the posts are over under the first of the list."""
        return bool(self.not_told or self.unknown_seats) or any(one.post_ratio > FULL for one in self.ranked[:1])


class _Columns(NamedTuple):
    """All beams of all trials, one after the other; ``of`` and ``number`` find a beam in its trial."""

    of: Floats
    number: Floats
    depth: Floats
    breadth: Floats
    piece: Floats
    weight: Floats
    ratio: Floats


def options(survey: Survey, progress: Progress = lambda _: None) -> Options:
    """Try the yard's list on a survey. Raises InputError where the survey does not let it."""
    batches = stock(survey)
    if not batches:
        raise InputError([Fault("options", "let no beam of the list in", "name other families or species")])
    arranged = arrangements(survey)
    found: list[Trial] = []
    for done, one in enumerate(arranged, 1):
        try:
            found.append(tried(one, batches))
        except InputError as error:
            raise at_tried_station(survey, one, error) from None
        progress(done / len(arranged))
    return _sorted(survey, batches, found)


class _All(NamedTuple):
    """The yard's list and all trials of it, and their columns."""

    survey: Survey
    batches: tuple[Batch, ...]
    trials: list[Trial]
    columns: _Columns


def _sorted(survey: Survey, batches: tuple[Batch, ...], found: list[Trial]) -> Options:
    every = _columns(batches, found)
    everything = _All(survey, batches, found, every)
    wanted = survey.wanted
    limit = FULL
    if wanted is not None and wanted.greatest_utilisation is not None:
        limit = float(wanted.greatest_utilisation.number)
    over = _over(every, wanted, survey.about.dimensions)
    within = ~np.any(list(over.values()), axis=0) & (every.ratio <= limit)
    order = np.lexsort((every.ratio, every.weight, every.depth))
    ranked = [int(at) for at in order if within[at]]
    families = _families(batches, found)
    first = list({families[at]: at for at in reversed(ranked)}.values())
    best = front(np.stack([every.depth, every.weight, every.ratio], axis=1)[ranked]) if ranked else []
    return Options(
        tried=len(every.depth),
        found=len(ranked),
        limit=limit,
        ranked=tuple(_option(everything, at) for at in ranked[:LISTED]),
        first=tuple(_option(everything, at) for at in sorted(first, key=ranked.index)),
        front=tuple(_option(everything, ranked[at]) for at in best),
        rejected=_rejected(everything, families, within, over),
        unknown_seats=tuple(n + 1 for n, seat in enumerate(found[0].layout.seats) if seat.length is None),
        not_told=tuple((part.title, part.need) for part in _left_open(survey, found[0].layout)),
    )


def _left_open(survey: Survey, layout: Layout) -> Iterator[Missing]:
    """What of beam and seats is not shown with any beam: loads, splices inside a span, plates of unknown thickness."""
    yield from not_told(survey, layout.reach)
    if survey.beam.splices:
        from beamcheck.study.agree import splices

        yield from (part for part in splices(survey, layout) if isinstance(part, Missing))
    for post in survey.posts:
        yield from untold_plate(post)


def _families(batches: tuple[Batch, ...], found: list[Trial]) -> list[str]:
    """The family of each beam of the columns."""
    return [family for _ in found for batch in batches for family in batch.families]


def _columns(batches: tuple[Batch, ...], found: list[Trial]) -> _Columns:
    depth, breadth = (
        np.concatenate([np.broadcast_to(value(batch).to("in"), (len(batch.texts),)) for batch in batches])
        for value in (_depth, _breadth)
    )
    parts = []
    for of, trial in enumerate(found):
        own = np.concatenate([np.fmax.reduce([check.ratio for check in checks.values()]) for checks in trial.of_beam])
        seats = [check.ratio for check in trial.of_posts.values() if not _of_post(check)]
        ratio = np.fmax.reduce([own, *seats])
        ratio[list(trial.unfit)] = np.inf
        count = len(ratio)
        parts.append((np.full(count, of), np.arange(count), depth, breadth, trial.piece, trial.weight, ratio))
    return _Columns(*[np.concatenate(column) for column in zip(*parts, strict=True)])


def _depth(batch: Batch) -> Value:
    return batch.member.d


def _breadth(batch: Batch) -> Value:
    return batch.member.b


def _of_post(check: Worked) -> bool:
    return check.key.rpartition(".")[2].startswith(_OF_POSTS)


def _over(every: _Columns, wanted: Wanted | None, dimensions: str) -> dict[str, Floats]:
    """Which beams break which of the survey's limits, by the limit in words."""
    limits = {} if wanted is None else {
        "deeper than": (every.depth, wanted.greatest_depth, "in"),
        "broader than": (every.breadth, wanted.greatest_breadth, "in"),
        "a piece heavier than": (every.piece, wanted.greatest_piece_weight, "lb"),
    }  # fmt: skip
    nothing = {"": np.zeros(len(every.depth), dtype=bool)}
    return nothing | {
        f"{words} {_told(most, unit, dimensions)}": figure > float(most.to(unit)) + 1e-9
        for words, (figure, most, unit) in limits.items()
        if most is not None
    }


def _told(most: Value, unit: str, dimensions: str) -> str:
    if unit != "in":
        return f"{float(most.to(unit)):,.0f} lb"
    return units.format_length_as(dimensions, float(most.to("in")))


def _rejected(
    everything: _All, names: list[str], within: Floats, over: dict[str, Floats]
) -> tuple[Rejected, ...]:
    """For each family of which nothing will do: the beam that keeps to most limits and is nearest, and why it fails."""
    every, found = everything.columns, everything.trials
    families = np.array(names)
    broken = np.sum(list(over.values()), axis=0)
    rejected = []
    for family in dict.fromkeys(names):
        mine = np.flatnonzero(families == family)
        if within[mine].any():
            continue
        at = int(mine[np.lexsort((every.ratio[mine], broken[mine]))[0]])
        nearest = _option(everything, at)
        reasons = [words for words, fails in over.items() if words and fails[at]]
        unfit = found[int(every.of[at])].unfit.get(int(every.number[at]))
        reasons += [f"it cannot sit on its posts: {unfit}"] if unfit else []
        rejected.append(Rejected(family, len(mine), nearest, "; ".join(reasons) or nearest.governed_by))
    return tuple(rejected)


class _Lane(NamedTuple):
    """A check in the lane of one beam, and its utilisation there."""

    check: Worked
    lane: int
    ratio: float

    @property
    def key(self) -> str:
        """Of the check."""
        return self.check.key

    @property
    def title(self) -> str:
        """Of the case that governs in the lane."""
        return self.check.title(self.lane)


def _lanes_of(checks: Iterable[Worked], lane: int) -> list[_Lane]:
    found = [_Lane(check, lane, float(check.ratio[lane])) for check in checks]
    return [one for one in found if not isnan(one.ratio)]


def _option(everything: _All, at: int) -> Option:
    every = everything.columns
    trial, beam = everything.trials[int(every.of[at])], int(every.number[at])
    batch, number = trial.batch_of(beam)
    listed = everything.batches[batch]
    of_posts = _lanes_of((check for check in trial.of_posts.values() if _of_post(check)), beam)
    own = _lanes_of(trial.of_beam[batch].values(), number)
    own += _lanes_of((check for check in trial.of_posts.values() if not _of_post(check)), beam)
    worst, worst_post = _worst(own), _worst(of_posts)
    clear = headroom(everything.survey, Value("d", float(every.depth[at]), "in", Taken("of the list")))
    return Option(
        text=listed.texts[number],
        family=listed.families[number],
        stations=tuple(float(station.to("in")) for station in trial.layout.stations),
        depth=float(every.depth[at]),
        breadth=float(every.breadth[at]),
        piece=float(every.piece[at]),
        weight=float(every.weight[at]),
        ratio=float(every.ratio[at]),
        governed_by=worst.title if worst else "",
        check=worst.key if worst else "",
        post_ratio=worst_post.ratio if worst_post else 0.0,
        post_governed_by=_of_which_post(worst_post) if worst_post else "",
        live=_sag(own, "beam.deflection_live"),
        long_term=_sag(own, "beam.deflection_total"),
        headroom=None if clear is None else float(clear.number),
    )


def _worst(lanes: list[_Lane]) -> _Lane | None:
    return max(lanes, key=lambda one: one.ratio, default=None)


def _of_which_post(lane: _Lane) -> str:
    """Its title with the post's number: its key begins with post[1]."""
    number = lane.key.partition("[")[2].partition("]")[0]
    return f"{lane.title}, post {number}"


def _sag(lanes: list[_Lane], key: str) -> float:
    return max((float(one.check.demand[one.lane]) for one in lanes if one.key.startswith(key)), default=0.0)
