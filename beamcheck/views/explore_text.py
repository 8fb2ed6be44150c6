"""Draw options, comparisons and margins for the terminal: words and numbers, nothing that hangs on colour."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from beamcheck import units
from beamcheck.trace import Given, Value, standing
from beamcheck.views.plain import Plain
from beamcheck.views.terminal import cautions
from beamcheck.views.words import SHORT_CAUTION, figure, rounded_up

if TYPE_CHECKING:
    from collections.abc import Iterable

    from beamcheck.explore.chance import Chance, Chanced
    from beamcheck.explore.compare import Cell, Part, Side
    from beamcheck.explore.inputs import Ranged
    from beamcheck.explore.margins import Corner, Flip, Margins
    from beamcheck.explore.options import Option, Options, Rejected
    from beamcheck.explore.questions import Question
    from beamcheck.study.types import Study
    from beamcheck.survey.model import Survey

_RIGHT = frozenset({
    "depth", "lb", "in", "worked", "headroom", "at", "is", "reach", "low", "likely", "high", "over", "middle", "tried",
})  # fmt: skip
_HEADS = ("beam", "depth", "lb", "headroom", "in", "worked", "", "check")
_FLIPS = 24
_FRONT = 15
_NEAR = 1.0
_WEAK = 0.1
_BELOW = "What stands below the posts is not in this list: check the beam you like with  bearline check."


def options_text(survey: Survey, found: Options) -> str:
    """The ranked table, the front, and why whole families fail."""
    out = _headed(survey, f"Beams whose checks stay at or below {found.limit:.2f}")
    out.text(
        f"{found.tried} beams tried with every check of beam, seats and posts; {found.found} stay: "
        f"no check of the beam and its seats over {found.limit:.2f}, and within the limits of [options]. {_BELOW}"
    )
    if found.unknown_seats:
        posts = ", ".join(str(number) for number in found.unknown_seats)
        out.text(f"NOT SHOWN  The seat on post {posts} is not known, so crushing there is not in this list.")
    out.text()
    none = f"None stays at or below {found.limit:.2f} within the limits"
    out.rule(f"The first {len(found.ranked)}, by depth and then weight" if found.ranked else none)
    if found.ranked:
        _options(out, found.ranked)
    if len(found.first) > 1:
        out.text()
        out.rule("The shallowest of each kind")
        _options(out, found.first)
    if found.front:
        out.text()
        out.rule("None of these is beaten in depth, weight and utilisation all at once")
        _options(out, found.front[:_FRONT])
        _more(out, len(found.front) - _FRONT)
    for part in (found.ranked[:1] or tuple(one.nearest for one in found.rejected[:1])):
        _posts(out, part)
    if found.rejected:
        out.text()
        out.rule("Kinds of which none stays, and what stops the nearest")
        out.table(("kind", "tried", "nearest", "worked", "", "why"), map(_rejected, found.rejected), _RIGHT)
    return _closed(out)


def _options(out: Plain, rows: Iterable[Option]) -> None:
    shown = list(rows)
    moved = [n for n in range(len(shown[0].stations)) if len({option.stations[n] for option in shown}) > 1]
    out.text("lb: pieces and the weight of one; in: down under live load, and in the long run; check: the hardest.")
    heads = [*_HEADS, *(f"post {n + 1} at" for n in moved)]
    out.table(heads, [(*_option(option), *_stations(option, moved)) for option in shown], _RIGHT)


def _option(option: Option) -> tuple[str, ...]:
    pieces = round(option.weight / option.piece)
    return (
        option.text,
        f"{option.depth:g}",
        f"{pieces} x {option.piece:,.0f}",
        "flush" if option.headroom is None else units.format_length(option.headroom),
        f"{option.live:.2f} {option.long_term:.2f}",
        rounded_up(option.ratio),
        standing(option.ratio),
        _short(option.check),
    )


def _short(key: str) -> str:
    """A check's key in few words: "beam.deflection_live_L360" is "deflection live L360"."""
    return key.removeprefix("beam.").replace("_", " ")


def _stations(option: Option, moved: list[int]) -> list[str]:
    return [units.format_length(option.stations[n]) for n in moved]


def _posts(out: Plain, option: Option) -> None:
    """How hard the posts work under one beam: another beam seldom helps them."""
    out.text()
    told = f"{rounded_up(option.post_ratio)}, {standing(option.post_ratio)} ({option.post_governed_by})"
    out.text(f"The posts under {option.text}: {told}. Another beam seldom helps them: look at the posts by themselves.")


def _rejected(one: Rejected) -> tuple[str, ...]:
    ratio = one.nearest.ratio
    return (one.family, str(one.tried), one.nearest.text, rounded_up(ratio), standing(ratio), one.why)


def compare_text(sides: tuple[Side, ...], parts: tuple[Part, ...]) -> str:
    """Everything side by side; a mark before each line in which the surveys differ."""
    out = Plain()
    cautions(out)
    out.text("Side by side. A line that begins with * differs.")
    for side in sides:
        changes = "; ".join(f"{path} = {value}" for path, value in side.changes)
        out.text(f"{side.name}: {changes or side.study.survey.about.title}", "  ")
    for part in parts:
        out.text()
        out.rule(part.title)
        rows = [
            ("*" if row.differs else "", row.title, *(_cell(cell) for cell in row.cells)) for row in part.rows
        ]
        out.table(("", "", *(side.name for side in sides)), rows)
    return _closed(out)


def _cell(cell: Cell) -> str:
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
            return f"{figure(cell)}{', ' if cell.case else ''}{cell.case}"


def margins_text(study: Study, found: Margins, asked: tuple[Question, ...], chances: Chance | None) -> str:
    """Unknowns that tip a result first, as questions; then flips from the nearest on, corners, chances and ranges."""
    out = _headed(study.survey, "How sure, and what would tip it")
    if not found.corners:
        out.text("No link of this study has a utilisation yet: bearline check FILE says what is not shown.")
        return _closed(out)
    _questions(out, found, asked)
    out.text()
    out.rule("How far each figure may move alone before a link reaches 1.00, the nearest first")
    near = found.flips[:_FLIPS]
    if near:
        out.text("reach: the way there as a share of the figure's own range; at 1.00 or less it may well be so.")
        out.table(("figure", "is", "", "at", "reach", "link", "the check that reaches 1.00"), map(_flip, near), _RIGHT)
        _more(out, len(found.flips) - len(near))
    else:
        out.text("No figure brings any link to 1.00, moved to a quarter or four times its size.")
    out.text()
    out.rule("Each link with all figures at their kindest, as they are, and at their unkindest")
    out.table(("link", "low", "likely", "high", "result at high"), map(_corner, found.corners), _RIGHT)
    if chances is not None:
        _chances(out, chances)
    out.text()
    out.rule("The ranges that were taken")
    out.table(("figure", "low", "likely", "high", "how it is known", "range from"), map(_range, found.inputs), _RIGHT)
    return _closed(out)


def _questions(out: Plain, found: Margins, asked: tuple[Question, ...]) -> None:
    out.text()
    out.rule("What is not known and would tip the result: find out first")
    told = 0
    for where, group in groupby(asked, key=lambda question: question.where):
        told += 1
        _word(out, where, list(group))
    figures = sorted(_unknown(found), key=lambda flip: flip.input.where)
    for where, flips in groupby(figures, key=lambda flip: flip.input.where):
        told += 1
        _figure(out, where, list(flips))
    if not told:
        out.text("Nothing that is assumed or unknown tips a link within its range.")


def _word(out: Plain, where: str, asked: list[Question]) -> None:
    first = asked[0]
    out.text(f"? {first.name} ({where}): {first.stands!r} stands in. What is it really?", "  ")
    for question in asked:
        links = "; ".join(
            f"{tipped.name} {rounded_up(tipped.before)} -> {rounded_up(tipped.after)}, "
            f"{standing(tipped.after)}"
            for tipped in question.tipped
        )
        out.text(f"with {question.instead!r}: {links}", "      ")
    if first.settle:
        out.text(f"what would settle it: {first.settle}", "      ")


def _figure(out: Plain, where: str, flips: list[Flip]) -> None:
    first = flips[0]
    value, origin = first.input.value, first.input.value.origin
    assert isinstance(origin, Given)
    out.text(f"? {first.input.name} ({where}): {figure(value)} stands in ({origin.trust}). What is it really?", "  ")
    for flip in flips:
        out.text(f"at {_moved(flip)}: {flip.name} {_tips(flip)} ({flip.check})", "      ")
    if origin.default is not None:
        out.text(f"what would settle it: {origin.default.text('flips')}", "      ")


def _unknown(found: Margins) -> list[Flip]:
    return [flip for flip in found.flips if flip.reach <= _NEAR and flip.input.unseen]


def _tips(flip: Flip) -> str:
    return "goes over" if flip.goes == "over" else "comes back within 1.00"


def _moved(flip: Flip) -> str:
    value = flip.input.value
    return figure(Value(value.name, flip.at, value.unit, value.origin))


def _flip(flip: Flip) -> tuple[str, ...]:
    moved = (_tips(flip), _moved(flip), _reach(flip.reach))
    return (flip.input.name, figure(flip.input.value), *moved, flip.name, flip.check)


def _reach(share: float) -> str:
    return f"{share:.2f}" if share < 100 else "> 100"


def _corner(corner: Corner) -> tuple[str, ...]:
    ratios = (rounded_up(corner.low), rounded_up(corner.likely), rounded_up(corner.high))
    return (corner.name, *ratios, standing(corner.high))


def _chances(out: Plain, chances: Chance) -> None:
    out.text()
    out.rule(f"{chances.samples:,} draws of all figures at once (seed {chances.seed}): how many are over 1.00")
    out.text(
        "Each figure is drawn by itself from a triangle over its range. The wood's own strength is not drawn: its "
        "values hold that already. low and high hold 5 % and 95 % of the draws; drivers by rank correlation."
    )
    heads = ("check", "over", "low", "middle", "high", "driven by")
    out.table(heads, [_chance(one) for one in chances.checks], _RIGHT)


def _chance(one: Chanced) -> tuple[str, ...]:
    found = [driver for driver in one.drivers if abs(driver.correlation) > _WEAK]
    drivers = "; ".join(f"{driver.name} {driver.correlation:+.2f}" for driver in found)
    over = "none" if one.over == 0 else f"{100 * one.over:.2f} %" if one.over < 1 else "all"
    ratios = [rounded_up(ratio) for ratio in (one.low, one.middle, one.high)]
    return (f"{one.title} ({one.key})", over, *ratios, drivers)


def _range(one: Ranged) -> tuple[str, ...]:
    value, origin = one.value, one.value.origin
    assert isinstance(origin, Given)
    ends = [figure(Value(value.name, number, value.unit, origin)) for number in (one.low, one.likely, one.high)]
    source = "your range" if one.spread is None else f"{one.spread.table.name}, {one.spread.label}"
    return (one.name, *ends, str(origin.trust), source)


def _headed(survey: Survey, title: str) -> Plain:
    out = Plain()
    cautions(out)
    out.text(f"{survey.about.title}. {survey.about.address}")
    out.rule(title)
    return out


def _closed(out: Plain) -> str:
    out.text()
    out.text(SHORT_CAUTION, "! ")
    return str(out)


def _more(out: Plain, count: int) -> None:
    if count > 0:
        out.text(f"and {count} more", "  ")
