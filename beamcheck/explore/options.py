"""Which other beams would do: the yard's list, over the posts as they stand or at other stations, within set limits.

Every beam goes through every check of a study, in arrays. Beams are ranked by their own checks and seats; how hard
the posts work is told beside, as another beam seldom helps a post.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from beamcheck import units
from beamcheck.beam.many import Floats
from beamcheck.errors import Fault, InputError
from beamcheck.explore.front import front
from beamcheck.explore.ratios import Worked
from beamcheck.explore.stock import stock
from beamcheck.explore.trials import Trial, arrangements, headroom, trials
from beamcheck.survey.explore import Wanted
from beamcheck.survey.model import Survey
from beamcheck.trace import FULL, Taken, Value

LISTED = 15
_OF_POSTS = ("column", "eccentric", "end_grain", "plate", "slenderness", "wall")

Progress = Callable[[float], None]
"""Told the share that is done, up to 1."""


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
    """What was tried, what will do by depth and then weight, the front of depth, weight and utilisation, what fails."""

    tried: int
    found: int
    limit: float
    ranked: tuple[Option, ...]
    front: tuple[Option, ...]
    rejected: tuple[Rejected, ...]
    unknown_seats: tuple[int, ...]


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
        for trial in trials(one, batches):
            found.append(trial)
            progress((done - 1 + len(found) / (len(batches) * done)) / len(arranged))
    return _sorted(survey, found)


def _sorted(survey: Survey, found: list[Trial]) -> Options:
    every = _columns(found)
    wanted = survey.wanted
    limit = FULL
    if wanted is not None and wanted.greatest_utilisation is not None:
        limit = float(wanted.greatest_utilisation.number)
    over = _over(every, wanted)
    within = ~np.any(list(over.values()), axis=0) & (every.ratio <= limit)
    order = np.lexsort((every.ratio, every.weight, every.depth))
    ranked = [int(at) for at in order if within[at]]
    best = front(np.stack([every.depth, every.weight, every.ratio], axis=1)[ranked]) if ranked else []
    return Options(
        tried=len(every.depth),
        found=len(ranked),
        limit=limit,
        ranked=tuple(_option(survey, found, every, at) for at in ranked[:LISTED]),
        front=tuple(_option(survey, found, every, ranked[at]) for at in best),
        rejected=_rejected(survey, found, every, within, over),
        unknown_seats=tuple(n + 1 for n, seat in enumerate(found[0].layout.seats) if seat.length is None),
    )


def _columns(found: list[Trial]) -> _Columns:
    parts = []
    for of, trial in enumerate(found):
        member, count = trial.batch.member, len(trial.batch.texts)
        ratio = np.fmax.reduce([check.ratio for check in trial.checks.values() if not _of_post(check)])
        ratio[list(trial.unfit)] = np.inf
        figures = (float(of), np.arange(count), member.d.to("in"), member.b.to("in"), trial.piece, trial.weight, ratio)
        parts.append([np.broadcast_to(np.asarray(figure, dtype=np.float64), (count,)) for figure in figures])
    return _Columns(*[np.concatenate(column) for column in zip(*parts, strict=True)])


def _of_post(check: Worked) -> bool:
    return check.key.startswith("post") and check.key.rpartition(".")[2].startswith(_OF_POSTS)


def _over(every: _Columns, wanted: Wanted | None) -> dict[str, Floats]:
    """Which beams break which of the survey's limits, by the limit in words."""
    limits = {} if wanted is None else {
        "deeper than": (every.depth, wanted.greatest_depth, "in"),
        "broader than": (every.breadth, wanted.greatest_breadth, "in"),
        "a piece heavier than": (every.piece, wanted.greatest_piece_weight, "lb"),
    }  # fmt: skip
    nothing = {"": np.zeros(len(every.depth), dtype=bool)}
    return nothing | {
        f"{words} {_told(most, unit)}": figure > float(most.to(unit)) + 1e-9
        for words, (figure, most, unit) in limits.items()
        if most is not None
    }


def _told(most: Value, unit: str) -> str:
    return units.format_length(float(most.to("in"))) if unit == "in" else f"{float(most.to(unit)):,.0f} lb"


def _rejected(
    survey: Survey, found: list[Trial], every: _Columns, within: Floats, over: dict[str, Floats]
) -> tuple[Rejected, ...]:
    """For each family of which nothing will do: the beam that keeps to most limits and is nearest, and why it fails."""
    families = np.concatenate([np.array(trial.batch.families) for trial in found])
    broken = np.sum(list(over.values()), axis=0)
    rejected = []
    for family in dict.fromkeys(families.tolist()):
        mine = np.flatnonzero(families == family)
        if within[mine].any():
            continue
        at = int(mine[np.lexsort((every.ratio[mine], broken[mine]))[0]])
        nearest = _option(survey, found, every, at)
        reasons = [words for words, fails in over.items() if words and fails[at]]
        unfit = found[int(every.of[at])].unfit.get(int(every.number[at]))
        reasons += [f"it cannot sit on its posts: {unfit}"] if unfit else []
        rejected.append(Rejected(family, len(mine), nearest, "; ".join(reasons) or nearest.governed_by))
    return tuple(rejected)


def _option(survey: Survey, found: list[Trial], every: _Columns, at: int) -> Option:
    trial, number = found[int(every.of[at])], int(every.number[at])
    own = [check for check in trial.checks.values() if not _of_post(check)]
    posts = [check for check in trial.checks.values() if _of_post(check)]
    worst, worst_post = _worst(own, number), _worst(posts, number)
    clear = headroom(survey, Value("d", float(every.depth[at]), "in", Taken("of the list")))
    return Option(
        text=trial.batch.texts[number],
        family=trial.batch.families[number],
        stations=tuple(float(station.to("in")) for station in trial.layout.stations),
        depth=float(every.depth[at]),
        breadth=float(every.breadth[at]),
        piece=float(every.piece[at]),
        weight=float(every.weight[at]),
        ratio=float(every.ratio[at]),
        governed_by=worst.title(number) if worst else "",
        check=worst.key if worst else "",
        post_ratio=float(worst_post.ratio[number]) if worst_post else 0.0,
        post_governed_by=f"{worst_post.key}: {worst_post.title(number)}" if worst_post else "",
        live=_sag(own, "beam.deflection_live", number),
        long_term=_sag(own, "beam.deflection_total", number),
        headroom=None if clear is None else float(clear.number),
    )


def _worst(checks: list[Worked], number: int) -> Worked | None:
    known = [check for check in checks if not np.isnan(check.ratio[number])]
    return max(known, key=lambda check: float(check.ratio[number])) if known else None


def _sag(checks: list[Worked], key: str, number: int) -> float:
    return max((float(check.demand[number]) for check in checks if check.key.startswith(key)), default=0.0)
