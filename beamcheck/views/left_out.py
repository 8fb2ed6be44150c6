"""What the questions of the margins leave out, so that nobody takes their silence for an answer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from beamcheck.trace import Refer, standing
from beamcheck.views.words import rounded_up

if TYPE_CHECKING:
    from collections.abc import Iterator

    from beamcheck.explore.margins import Margins
    from beamcheck.explore.questions import Tipped
    from beamcheck.study.types import Study


def left_out(study: Study, found: Margins, asked: int) -> Iterator[str]:
    """That nothing tips a link, only where all was tried and all is shown; else what was not tried and is not shown."""
    unshown = dict.fromkeys(link.name for link in study.links if link.word == "not shown")
    left = sum(isinstance(stop, Refer) for stop in study.stops)
    if not asked and not (found.untried or study.stops):
        yield "Nothing that is assumed or unknown tips a link within its range."
    elif not asked:
        yield "Of what is assumed or unknown, nothing that was tried tips a link that is shown."
    if found.untried:
        yield f"Not tried: {'; '.join(f'{entry.name} ({entry.text})' for entry in found.untried)}."
    if unshown:
        yield f"Not shown, so that nothing can be told of it: {'; '.join(unshown)}."
    if left:
        yield f"Left to the engineer whatever the figures are: {left} questions, which  bearline check FILE  lists."


def unmoved(found: Margins) -> str:
    """That no figure tips anything, with how far each was moved."""
    if not found.inputs:
        return "No figure was moved: no link rests on one that has a range."
    none = "No figure that was moved brings any link to 1.00: each in steps, to a quarter and to four times its size"
    if not found.short:
        return f"{none}."
    return f"{none}, or as far as there is a study of it. Not moved all the way: {'; '.join(found.short)}."


def tipped(one: Tipped) -> str:
    """A link before and after another word."""
    before = "not shown" if one.before is None else rounded_up(one.before)
    after = one.said if one.after is None else f"{rounded_up(one.after)}, {standing(one.after)}"
    return f"{one.name} {before} -> {after}"
