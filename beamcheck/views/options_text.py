"""Draw the list of other beams for the terminal: words and numbers, nothing that hangs on colour."""

from __future__ import annotations

from typing import TYPE_CHECKING

from beamcheck import units
from beamcheck.explore.options import LISTED
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
_NAMED = 3  # beams with which a link is over are named if they are no more
_HARDLY = 0.02  # of utilisation
_ALONE = (
    "This list tells of the beam and its seats, and of the posts under the first. It says nothing of what stands below "
    "the posts, of temporary support, of the room and of heavy things, which may be over or not shown:  bearline check "
    "FILE  tells how they are, with the beam of the survey, and with the one you like once it stands there."
)
_WHOLE_WAY = "bearline options FILE --whole  tells how they are with each beam that is listed."
_IN_WHOLE = (
    "These lists tell of the beam and its seats. What the whole study says with each beam of them stands below: a beam "
    "that stays is of no use on posts, a girder or soil that are over."
)
_NOT_IN_WHOLE = "No beam stays, so there was none to work the whole study with."


def options_text(survey: Survey, found: Options, width: int = WIDTH, rest: Whole | None = None) -> str:
    """The ranked table, the front, the whole study with their beams if that was worked, and why whole kinds fail."""
    out = headed(survey, f"Beams whose checks stay at or below {found.limit:.2f}", width)
    dimensions = survey.about.dimensions
    worked = rest is not None and bool(rest.beams or rest.refused)
    out.text(_IN_WHOLE if worked else f"{_ALONE}  {_WHOLE_WAY if rest is None else _NOT_IN_WHOLE}")
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
    if len(found.first) > 1:
        out.text()
        out.rule("The shallowest of each kind")
        _options(out, found.first, dimensions)
    if found.front:
        out.text()
        out.rule("None of these is beaten in depth, weight and utilisation all at once")
        _options(out, found.front[:LISTED], dimensions)
        more(out, len(found.front) - LISTED)
    if rest is not None and worked:
        _whole(out, rest, dimensions)
    else:
        _posts(out, found.listed or tuple(one.nearest for one in found.rejected[:1]), dimensions)
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


def _whole(out: Plain, found: Whole, dimensions: str) -> None:
    """Link by link how hard it works with the beams of the lists, and which of them the survey does not take."""
    out.text()
    with_each = f"The whole study, with each of these {len(found.beams)} in place of the survey's beam"
    out.rule(with_each if found.beams else "The whole study: the survey takes none of these beams")
    for why, options in found.refused.items():
        out.text(f"NOT SHOWN  the survey does not take {_named(options, dimensions)}: {why}.")
    if not found.beams:
        return
    out.text("least and greatest: utilisation of the link's hardest check over these beams.")
    heads = ("link", "least", "greatest", "", "over with", "hardest check")
    out.table(heads, [_rest(one, len(found.beams)) for one in found.rest], _RIGHT)
    for one in found.rest:
        if 0 < len(one.over) <= min(_NAMED, len(found.beams) - 1):
            out.text(f"{one.name}: over with {_named(one.over, dimensions)}.")
    count = f" ({found.questions} with the first beam)" if found.questions else ""
    out.text(
        f"Besides, the study asks the engineer questions{count}:  bearline check FILE  prints them, with the beam that "
        "you like written into the survey."
    )


def _rest(one: Rest, beams: int) -> tuple[str, ...]:
    worked = ("", "") if one.least is None or one.most is None else (rounded_up(one.least), rounded_up(one.most))
    of = "" if one.beams == beams else f" (with {one.beams} of them)"
    return (f"{one.name}{of}", *worked, one.said, f"{len(one.over)} of {beams}" if one.over else "", one.check)


def _named(options: Iterable[Option], dimensions: str) -> str:
    """Beams in a sentence, with the stations of posts where the same beam is meant over some of them only."""
    shown = list(options)
    moved = _moved(shown)
    if not moved:
        return ", ".join(option.text for option in shown)
    return ", ".join(f"{option.text} over {_standing_at(option, moved, dimensions)}" for option in shown)


def _moved(options: list[Option]) -> list[int]:
    """The posts, by number from 0, that do not stand at one station under all of these beams."""
    return [n for n in range(len(options[0].stations)) if len({option.stations[n] for option in options}) > 1]


def _standing_at(option: Option, moved: list[int], dimensions: str) -> str:
    return " and ".join(f"post {n + 1} at {station(option.stations[n], dimensions)}" for n in moved)


def _options(out: Plain, options: Iterable[Option], dimensions: str) -> None:
    shown = list(options)
    moved = _moved(shown)
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


def _posts(out: Plain, options: tuple[Option, ...], dimensions: str) -> None:
    """How hard the posts work under the beams of the lists, and under which they are over."""
    out.text()
    least, most = (of(options, key=lambda option: option.post_ratio) for of in (min, max))
    worked = f"{rounded_up(most.post_ratio)}, {standing(most.post_ratio)} ({most.post_governed_by})"
    if len(options) == 1:
        out.text(f"The posts under {most.text}: {worked}.")
    elif most.post_ratio - least.post_ratio <= _HARDLY:
        out.text(f"The posts under these beams: {worked}. Another beam hardly helps: look at the posts themselves.")
    else:
        over = [option for option in options if standing(option.post_ratio) == "over"]
        count = f"; over under {len(over)} of these {len(options)} beams" if over else ""
        out.text(f"The posts under these beams: from {rounded_up(least.post_ratio)} to {worked}{count}.")
        if 0 < len(over) <= _NAMED:
            out.text(f"Over under {_named(over, dimensions)}.")


def _rejected(one: Rejected) -> tuple[str, ...]:
    ratio = one.nearest.ratio
    return (one.family, str(one.tried), one.nearest.text, rounded_up(ratio), standing(ratio), one.why)
