"""Draw the list of other beams for the terminal: words and numbers, nothing that hangs on colour."""

from __future__ import annotations

from typing import TYPE_CHECKING

from beamcheck import units
from beamcheck.trace import standing
from beamcheck.views.framed import closed, headed, more
from beamcheck.views.plain import WIDTH
from beamcheck.views.words import rounded_up, station

if TYPE_CHECKING:
    from collections.abc import Iterable

    from beamcheck.explore.options import Option, Options, Rejected
    from beamcheck.explore.whole import Rest, Whole
    from beamcheck.survey.model import Survey
    from beamcheck.views.plain import Plain

_RIGHT = frozenset({"depth", "lb", "in", "mm", "worked", "headroom", "tried", "least", "greatest", "over with"})
_FRONT = 15
_NAMED = 3  # beams with which a link is over are named if they are no more
_ALONE = (
    "This list tells of the beam and its seats, and of the posts under the first. It says nothing of what stands below "
    "the posts, of temporary support, of the room and of heavy things, which may be over or not shown:  bearline check "
    "FILE  tells how they are, with the beam of the survey, and with the one you like once it stands there;  bearline "
    "options FILE --whole  with each beam of the first list."
)
_IN_WHOLE = (
    "This list tells of the beam and its seats. What else the study says with each beam of the first list stands under "
    "that list: a beam that stays is of no use on posts, a girder or soil that are over."
)


def options_text(survey: Survey, found: Options, width: int = WIDTH, rest: Whole | None = None) -> str:
    """The ranked table, the rest of the study with its beams if that was worked, the front, and why kinds fail."""
    out = headed(survey, f"Beams whose checks stay at or below {found.limit:.2f}", width)
    dimensions = survey.about.dimensions
    out.text(_ALONE if rest is None else _IN_WHOLE)
    out.text()
    out.text(
        f"{found.tried} beams tried with every check of beam, seats and posts; {found.found} stay: "
        f"no check of the beam and its seats over {found.limit:.2f}, and within the limits of [options]."
    )
    _beside(out, survey, found)
    out.text()
    none = f"None stays at or below {found.limit:.2f} within the limits"
    out.rule(f"The first {len(found.ranked)}, by depth and then weight" if found.ranked else none)
    if found.ranked:
        _options(out, found.ranked, dimensions)
    if rest is not None:
        _whole(out, rest)
    if len(found.first) > 1:
        out.text()
        out.rule("The shallowest of each kind")
        _options(out, found.first, dimensions)
    if found.front:
        out.text()
        out.rule("None of these is beaten in depth, weight and utilisation all at once")
        _options(out, found.front[:_FRONT], dimensions)
        more(out, len(found.front) - _FRONT)
    for part in (found.ranked[:1] or tuple(one.nearest for one in found.rejected[:1])):
        _posts(out, part)
    if found.rejected:
        out.text()
        out.rule("Kinds of which none stays, and what stops the nearest")
        out.table(("kind", "tried", "nearest", "worked", "", "why"), map(_rejected, found.rejected), _RIGHT)
    return closed(out)


def _beside(out: Plain, survey: Survey, found: Options) -> None:
    """What the headroom leaves out, and what is not in the list because nobody told of it."""
    if survey.beam.position != "flush":
        from beamcheck.explore.clear_height import finish_told

        out.text(f"headroom: under the beam, less {finish_told(survey)}.")
    if found.unknown_seats:
        posts = ", ".join(str(number) for number in found.unknown_seats)
        out.text(f"NOT SHOWN  The seat on post {posts} is not known, so crushing there is not in this list.")
    for title, need in found.not_told:
        out.text(f"NOT SHOWN  {title}: {need}.")


def _whole(out: Plain, found: Whole) -> None:
    out.text()
    out.rule(f"The rest of the study, with each of these {found.worked} in place of the survey's beam")
    for text, why in found.refused:
        out.text(f"NOT SHOWN  {text}: the survey does not take it; {why}.")
    out.text("least and greatest: utilisation of the link's hardest check over these beams.")
    heads = ("link", "least", "greatest", "", "over with", "hardest check")
    out.table(heads, [_rest(one, found.worked) for one in found.rest], _RIGHT)
    for one in found.rest:
        if 0 < len(one.over) <= min(_NAMED, found.worked - 1):
            out.text(f"{one.name}: over with {' and '.join(dict.fromkeys(one.over))}.")


def _rest(one: Rest, beams: int) -> tuple[str, ...]:
    worked = ("", "") if one.least is None or one.most is None else (rounded_up(one.least), rounded_up(one.most))
    return (one.name, *worked, one.word, f"{len(one.over)} of {beams}" if one.over else "", one.check)


def _options(out: Plain, options: Iterable[Option], dimensions: str) -> None:
    shown = list(options)
    moved = [n for n in range(len(shown[0].stations)) if len({option.stations[n] for option in shown}) > 1]
    unit, words = ("mm", "millimetres") if dimensions == "metric" else ("in", "inches")
    out.text(
        f"depth: in {words}; lb: pieces and the weight of one; {unit}: down under live load, and in the long run; "
        "worked and check: the hardest of beam and seats."
    )
    heads = ["beam", "depth", "lb", "headroom", unit, "worked", "", "check", *(f"post {n + 1} at" for n in moved)]
    rows = [(*_option(option, dimensions), *_stations(option, moved, dimensions)) for option in shown]
    out.table(heads, rows, _RIGHT)


def _option(option: Option, dimensions: str) -> tuple[str, ...]:
    pieces = round(option.weight / option.piece)
    sizes = f"{option.depth:g}", f"{option.live:.2f} {option.long_term:.2f}"
    if dimensions == "metric":
        told = (option.depth, option.live, option.long_term)
        depth, live, long_term = (units.convert(inches, "in", "mm") for inches in told)
        sizes = f"{depth:.0f}", f"{live:.1f} {long_term:.1f}"
    return (
        option.text,
        sizes[0],
        f"{pieces} x {option.piece:,.0f}",
        "flush" if option.headroom is None else station(option.headroom, dimensions),
        sizes[1],
        rounded_up(option.ratio),
        standing(option.ratio),
        option.governed_by,
    )


def _stations(option: Option, moved: list[int], dimensions: str) -> list[str]:
    return [station(option.stations[n], dimensions) for n in moved]


def _posts(out: Plain, option: Option) -> None:
    """How hard the posts work under one beam: another beam seldom helps them."""
    out.text()
    told = f"{rounded_up(option.post_ratio)}, {standing(option.post_ratio)} ({option.post_governed_by})"
    out.text(f"The posts under {option.text}: {told}. Another beam seldom helps them: look at the posts by themselves.")


def _rejected(one: Rejected) -> tuple[str, ...]:
    ratio = one.nearest.ratio
    return (one.family, str(one.tried), one.nearest.text, rounded_up(ratio), standing(ratio), one.why)
