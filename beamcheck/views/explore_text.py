"""Draw comparisons and margins for the terminal: words and numbers, nothing that hangs on colour."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from beamcheck.trace import Given, Value, standing
from beamcheck.views.flips import beyond, tips
from beamcheck.views.framed import closed, headed, more
from beamcheck.views.left_out import left_out, tipped, unmoved
from beamcheck.views.plain import WIDTH, Plain
from beamcheck.views.terminal import cautions
from beamcheck.views.words import figure, headline, rounded_up

if TYPE_CHECKING:
    from beamcheck.explore.chance import Chance, Chanced
    from beamcheck.explore.compare import Cell, Part, Side
    from beamcheck.explore.inputs import Ranged
    from beamcheck.explore.margins import Corner, Flip, Margins
    from beamcheck.explore.questions import Question
    from beamcheck.study.types import Study

_RIGHT = frozenset({"at", "is", "reach", "low", "likely", "high", "over", "middle"})
_FLIPS = 24
_NEAR = 1.0
_WEAK = 0.1


def compare_text(sides: tuple[Side, ...], parts: tuple[Part, ...], width: int = WIDTH) -> str:
    """Everything side by side, lengths as the first survey has them; a mark before each line in which they differ."""
    out, dimensions = Plain(width), sides[0].study.survey.about.dimensions
    cautions(out)
    out.text("Side by side. A line that begins with * differs.")
    for side in sides:
        changes = "; ".join(f"{path} = {value}" for path, value in side.changes)
        out.text(f"{side.name}: {changes or side.study.survey.about.title}", "  ")
    for part in parts:
        out.text()
        out.rule(part.title)
        rows = [
            ("*" if row.differs else "", row.title, *(_cell(cell, dimensions) for cell in row.cells))
            for row in part.rows
        ]
        out.table(("", "", *(side.name for side in sides)), rows)
    return closed(out)


def _cell(cell: Cell, dimensions: str) -> str:
    from beamcheck.explore.compare import Standing

    match cell:
        case None:
            return "-"
        case str():
            return cell
        case Standing():
            if cell.ratio is None:
                return cell.word
            return f"{rounded_up(cell.ratio)} {cell.word}{': ' if cell.check else ''}{cell.check}"
        case Value():
            return f"{figure(cell, dimensions)}{', ' if cell.case else ''}{cell.case}"


def margins_text(
    study: Study, found: Margins, asked: tuple[Question, ...], chances: Chance | None, width: int = WIDTH
) -> str:
    """Unknowns that tip a result first, as questions; then flips from the nearest on, corners, chances and ranges."""
    dimensions = study.survey.about.dimensions
    out = headed(study.survey, "How sure, and what would tip it", width)
    out.text(f"Result of the study: {headline(study)}.")
    if not found.corners:
        out.text("No link of this study has a utilisation yet: bearline check FILE says what is not shown.")
        return closed(out)
    _questions(out, study, found, asked)
    out.text()
    out.rule("How far each figure may move alone before a link reaches 1.00, the nearest first")
    near = found.flips[:_FLIPS]
    if near:
        out.text(
            "at: rounded to the side where the link is not over 1.00. reach: the way there as a share of the figure's "
            "own range; at 1.00 or less it may well be so."
        )
        rows = [_flip(flip, dimensions) for flip in near]
        out.table(("figure", "is", "", "at", "reach", "link", "the check that reaches 1.00"), rows, _RIGHT)
        more(out, len(found.flips) - len(near))
    else:
        out.text(unmoved(found))
    out.text()
    out.rule("Each link with all figures at their kindest, as they are, and at their unkindest")
    out.table(("link", "low", "likely", "high", "result at high"), map(_corner, found.corners), _RIGHT)
    if chances is not None:
        _chances(out, chances)
    out.text()
    out.rule("The ranges that were taken")
    ranges = [_range(one, dimensions) for one in found.inputs]
    out.table(("figure", "low", "likely", "high", "how it is known", "range from"), ranges, _RIGHT)
    for one in found.inputs:
        for stop in one.stops:
            at = Value(one.value.name, stop.at, one.value.unit, one.value.origin)
            out.text(f"{one.name}: the range stops at {figure(at, dimensions)}. Beyond it: {stop.why}.")
    return closed(out)


def _questions(out: Plain, study: Study, found: Margins, asked: tuple[Question, ...]) -> None:
    out.text()
    out.rule("What is not known and would tip the result: find out first")
    told = 0
    for where, group in groupby(asked, key=lambda question: question.where):
        told += 1
        _word(out, where, list(group))
    figures = sorted(_unknown(found), key=lambda flip: flip.input.where)
    for where, flips in groupby(figures, key=lambda flip: flip.input.where):
        told += 1
        _figure(out, where, list(flips), study.survey.about.dimensions)
    for line in left_out(study, found, told):
        out.text(line)


def _word(out: Plain, where: str, asked: list[Question]) -> None:
    first = asked[0]
    out.text(f"? {first.name} ({where}): {first.stands!r} stands in. What is it really?", "  ")
    told: dict[str, list[str]] = {}
    for question in asked:
        told.setdefault("; ".join(map(tipped, question.tipped)), []).append(repr(question.instead))
    for links, instead in told.items():
        out.text(f"with {' or '.join(instead)}: {links}", "      ")
    if first.settle:
        out.text(f"what would settle it: {first.settle}", "      ")


def _figure(out: Plain, where: str, flips: list[Flip], dimensions: str) -> None:
    first = flips[0]
    value, origin = first.input.value, first.input.value.origin
    assert isinstance(origin, Given)
    stands = f"{figure(value, dimensions)} stands in ({origin.trust})"
    out.text(f"? {first.input.name} ({where}): {stands}. What is it really?", "  ")
    for flip in flips:
        out.text(f"if it is {beyond(flip, dimensions)}: {flip.name} {tips(flip)} ({flip.check})", "      ")
    if origin.default is not None:
        out.text(f"what would settle it: {origin.default.text('flips')}", "      ")


def _unknown(found: Margins) -> list[Flip]:
    return [flip for flip in found.flips if flip.reach <= _NEAR and flip.input.unseen]


def _flip(flip: Flip, dimensions: str) -> tuple[str, ...]:
    moved = (tips(flip), beyond(flip, dimensions), _reach(flip.reach))
    return (flip.input.name, figure(flip.input.value, dimensions), *moved, flip.name, flip.check)


def _reach(share: float) -> str:
    return f"{share:.2f}" if share < 100 else "> 100"


def _corner(corner: Corner) -> tuple[str, ...]:
    ratios = ["none" if ratio is None else rounded_up(ratio) for ratio in (corner.low, corner.likely, corner.high)]
    return (corner.name, *ratios, "contradicts itself" if corner.high is None else standing(corner.high))


def _chances(out: Plain, chances: Chance) -> None:
    out.text()
    out.rule(f"{chances.samples:,} draws for beam, seats and posts (seed {chances.seed}): how many are over 1.00")
    if chances.left_out:
        out.text(f"Not in these draws, only in the tables above: {'; '.join(chances.left_out)}.")
    out.text(
        "Every figure that these checks rest on is drawn, each by itself from a triangle over its range. The wood's "
        "own strength is not drawn: its values hold that already. low and high hold 5 % and 95 % of the draws; "
        "drivers by rank correlation."
    )
    heads = ("check", "over", "low", "middle", "high", "driven by")
    out.table(heads, [_chance(one) for one in chances.checks], _RIGHT)


def _chance(one: Chanced) -> tuple[str, ...]:
    found = [driver for driver in one.drivers if abs(driver.correlation) > _WEAK]
    drivers = "; ".join(f"{driver.name} {driver.correlation:+.2f}" for driver in found)
    over = "none" if one.over == 0 else f"{100 * one.over:.2f} %" if one.over < 1 else "all"
    ratios = [rounded_up(ratio) for ratio in (one.low, one.middle, one.high)]
    return (f"{one.title} ({one.key})", over, *ratios, drivers)


def _range(one: Ranged, dimensions: str) -> tuple[str, ...]:
    value, origin = one.value, one.value.origin
    assert isinstance(origin, Given)
    moved = (Value(value.name, number, value.unit, origin) for number in (one.low, one.likely, one.high))
    ends = [figure(one_end, dimensions) for one_end in moved]
    source = "your range" if one.spread is None else f"{one.spread.table.name}, {one.spread.label}"
    return (one.name, *ends, str(origin.trust), source)
