"""One survey by both roads: every utilisation of the program beside the one that was worked out anew."""

import math
import tomllib
from typing import NamedTuple

from second_road.house import utilisations

from beamcheck.errors import InputError
from beamcheck.study.chain import study
from beamcheck.survey.reader import read_text
from beamcheck.trace import Check, items

CHAIN = ("beam.", "post[", "girder[", "pad[", "flush.")
ENDLESS = 1e3  # beyond it a utilisation is printed as "> 999", whatever it is
DUST = 1e-9
SAME = 1e-6


class Compared(NamedTuple):
    """What came out of one survey.

    refused: what the program finds to mend, if it does not study it; pairs: by key both utilisations, none for one
    that a road does not have.
    """

    refused: str
    pairs: dict[str, tuple[float | None, float | None]]

    @property
    def different(self):
        """Pairs that differ by more than rounding, or of which one is not there."""
        return {key: pair for key, pair in self.pairs.items() if not same(*pair)}


def compare(text: str) -> Compared:
    """Study a survey by both roads."""
    try:
        made = study(read_text(text.encode()))
    except InputError as error:
        return Compared(str(error), {})
    ours = {
        item.key: float(item.ratio)
        for item in items(made.sheet)
        if isinstance(item, Check) and item.key.startswith(CHAIN)
    }
    theirs = utilisations(tomllib.loads(text))
    return Compared("", {key: (ours.get(key), theirs.get(key)) for key in {**ours, **theirs}})


def same(ours: float | None, theirs: float | None) -> bool:
    """Whether both roads say the same within a millionth; nothing at all counts as no utilisation."""
    a, b = ours or 0.0, theirs or 0.0
    if min(a, b) > ENDLESS:
        return True
    return math.isfinite(a) and math.isfinite(b) and abs(a - b) <= DUST + SAME * max(abs(a), abs(b))


def apart(ours: float | None, theirs: float | None) -> float:
    """Relative difference of two utilisations."""
    a, b = ours or 0.0, theirs or 0.0
    if min(a, b) > ENDLESS or max(a, b) < DUST:
        return 0.0
    return abs(a - b) / max(a, b) if math.isfinite(a) and math.isfinite(b) else math.inf


def kind(key: str) -> str:
    """The check that a key is of, whichever post, girder or pad it belongs to."""
    return ".".join(part.partition("[")[0] for part in key.split("."))
