"""How likely each check of beam, seats and posts is to be over, if every figure may lie anywhere in its range.

Seeded draws from triangles that peak at the likely figure, each figure for itself. Left out: that two figures may be
off together, chance in the wood itself, and words (a joist is taken to be lapped where it is said to be).
"""

from collections.abc import Collection
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from beamcheck.beam.many import Floats
from beamcheck.explore import Progress
from beamcheck.explore.chain_lanes import chain_lanes
from beamcheck.explore.inputs import Ranged, inputs
from beamcheck.study.types import Study
from beamcheck.trace import FULL, Check, items

SAMPLES = 100_000
SEED = 20_260_314
_BLOCK = 8192  # lanes at a time: what the cache holds; half of it where there are several bays
_RANKED = 16_384  # samples on which rank correlations are taken


class Driver(NamedTuple):
    """An input and how closely a utilisation follows it: Spearman's rank correlation, -1 to 1."""

    where: str
    name: str
    correlation: float


class Chanced(NamedTuple):
    """One check: the share of samples over 1.00, low, middle and high utilisation (5, 50, 95 %), and what drives it."""

    key: str
    title: str
    over: float
    low: float
    middle: float
    high: float
    mean: float
    drivers: tuple[Driver, ...]


@dataclass(frozen=True, slots=True)
class Chance:
    """Every check in the order of the chain; the same survey, samples and seed give the same figures.

    left_out: links that the draws do not work, or only in part, by name.
    """

    samples: int
    seed: int
    inputs: tuple[Ranged, ...]
    checks: tuple[Chanced, ...]
    left_out: tuple[str, ...]


def chance(
    study: Study, samples: int = SAMPLES, seed: int = SEED, progress: Progress = lambda _: None
) -> Chance:
    """Draw samples and work the chain in each. Raises InputError where the take-down is not complete."""
    ranged = tuple(one for one in inputs(study, chain_lanes(study, {}, 1)) if one.low < one.high)
    dice = np.random.default_rng(seed)
    ratios: dict[str, list[Floats]] = {}
    titles = {item.key: item.title for item in items(study.sheet) if isinstance(item, Check)}
    drawn: list[Floats] = []
    step = _BLOCK if len(study.survey.posts) == 2 else _BLOCK // 2
    for begin in range(0, samples, step):
        lanes = min(step, samples - begin)
        block = dice.random((len(ranged), lanes))
        numbers = {one.where: triangular(one, share) for one, share in zip(ranged, block, strict=True)}
        for key, check in chain_lanes(study, numbers, lanes).items():
            ratios.setdefault(key, []).append(check.ratio)
        if begin < _RANKED:
            drawn.append(block)
        progress((begin + lanes) / samples)
    shares = np.concatenate(drawn, axis=1)[:, :_RANKED]
    ranks = np.array([_ranks(share) for share in shares]).reshape(shares.shape)
    ranks -= ranks.mean(axis=1, keepdims=True)
    checks = tuple(
        _chanced(key, titles.get(key, key), np.concatenate(parts), ranged, ranks) for key, parts in ratios.items()
    )
    return Chance(samples, seed, ranged, checks, _left_out(study, ratios.keys()))


def _left_out(study: Study, drawn: Collection[str]) -> tuple[str, ...]:
    """Names of links whose checks are not among those drawn, and of links that are not shown."""
    found = []
    for link in study.links:
        keys = [item.key for item in items(link.sheet) if isinstance(item, Check)]
        missed = [key for key in keys if key not in drawn]
        if missed and len(missed) < len(keys):
            found.append(f"part of {link.name}")
        elif missed:
            found.append(link.name)
        elif link.word == "not shown":
            found.append(f"{link.name} (not shown)")
    return tuple(found)


def triangular(one: Ranged, share: Floats) -> Floats:
    """The figure below which that share of a triangle over low, likely and high lies."""
    low, likely, high = one.low, one.likely, one.high
    left = (likely - low) / (high - low)
    rising = low + np.sqrt(share * (high - low) * (likely - low))
    falling = high - np.sqrt((1.0 - share) * (high - low) * (high - likely))
    return np.where(share < left, rising, falling)


def _chanced(key: str, title: str, ratio: Floats, ranged: tuple[Ranged, ...], ranks: Floats) -> Chanced:
    low, middle, high = np.percentile(ratio, (5.0, 50.0, 95.0))
    drivers: list[Driver] = []
    mine = ratio[: ranks.shape[1]]
    if mine.max() - mine.min() > 1e-12 * abs(mine.max()):
        found = _correlation(ranks, _ranks(mine))
        drivers = [
            Driver(ranged[at].where, ranged[at].name, float(found[at]))
            for at in np.argsort(-np.abs(found), kind="stable")[:3]
        ]
    over = float(np.count_nonzero(~(ratio <= FULL))) / len(ratio)
    return Chanced(key, title, over, float(low), float(middle), float(high), float(ratio.mean()), tuple(drivers))


def _ranks(figures: Floats) -> Floats:
    """Ranks of the samples from 0; of equals the earlier sample comes first."""
    ranks = np.empty(len(figures))
    ranks[np.argsort(figures, kind="stable")] = np.arange(len(figures), dtype=np.float64)
    return ranks


def _correlation(ranks: Floats, mine: Floats) -> Floats:
    """Correlation of each row of ranks about their mean with the ranks of a check."""
    off = mine - mine.mean()
    found: Floats = np.einsum("ij,j->i", ranks, off) / np.einsum("j,j", off, off)
    return found
