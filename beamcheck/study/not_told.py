"""What comes down on the beam and nobody has told: it is asked for, for what is not told counts as nothing."""

from functools import partial
from itertools import combinations

from beamcheck import units
from beamcheck.survey.model import Carried, Survey
from beamcheck.tables import load, lookup
from beamcheck.takedown.extent import ends
from beamcheck.takedown.sides import HUNG, SIDES, span_on
from beamcheck.takedown.sources import Reach
from beamcheck.trace import NOT_SEEN, Item, Missing, Note, Value, looked

_WALL = "wall above"

Stretch = tuple[float, float]


def not_told(survey: Survey, beam: Reach) -> tuple[Missing, ...]:
    """For each kind of load of which the survey tells nothing, or nothing on some stretch: what to look for there."""
    found: list[Missing] = []
    for row in load("practice/not_told").rows:
        kind, ask = row.text("kind"), row.text("ask")
        gaps = [gap for gap in _gaps(kind, survey, beam) if _asked_about(gap)]
        if not gaps:
            continue
        whole = gaps == [_whole(beam)]
        title = kind.capitalize() if whole else f"{kind.capitalize()} {_stretches(survey, gaps)}"
        need = f"none is told{_hint(kind, survey)}, so none is counted. {ask} {_mend(kind, whole=whole)}"
        found.append(Missing(f"takedown.not_told_{kind.replace(' ', '_')}", title, need))
    return tuple(found)


def left_out(survey: Survey, beam: Reach) -> list[Item]:
    """The stretches too short to be asked about on which a kind of load is not told, and the length that they keep to.

    A stretch that prints as no length at all is none.
    """
    length = partial(units.format_length_as, survey.about.dimensions)
    found: list[Item] = []
    for row in load("practice/not_told").rows:
        kind = row.text("kind")
        gaps = [gap for gap in _gaps(kind, survey, beam) if not _asked_about(gap) and length(gap[0]) != length(gap[1])]
        if gaps:
            found.append(Note(_short(kind, _stretches(survey, gaps))))
    return [*found, _least().named("longest stretch that is not asked about")] if found else []


def _short(kind: str, where: str) -> str:
    return (
        f"No {kind} is told {where}, and none is counted there: so short a stretch is taken for what a tape laid to a "
        "post's face, not to its middle, leaves out. If it goes on there, let the items meet, or run to the beam's end"
    )


def told_twice(survey: Survey, beam: Reach) -> list[Item]:
    """Floors, or ceilings, that lie over each other on one side of the wall: both are counted there."""
    found: list[Item] = []
    for one, other in combinations([item for item in survey.carried if item.kind in HUNG], 2):
        (a, b), (c, d) = _stretch(one, beam), _stretch(other, beam)
        start, end = max(a, c), min(b, d)
        sides = [side for side in SIDES if all(float(span_on(item, side).to("in")) > 0 for item in (one, other))]
        if one.kind == other.kind and sides and _asked_about((start, end)):
            found.append(Note(_twice(survey, (one, other), (start, end), sides)))
    return found


def _twice(survey: Survey, pair: tuple[Carried, Carried], stretch: Stretch, sides: list[str]) -> str:
    names, where = " and ".join(item.name for item in pair), _stretches(survey, [stretch])
    return (
        f"{names}, both of kind {pair[0].kind}, lie over each other {where} on side {' and '.join(sides)}: the loads "
        "of both are counted there. That is right of two storeys, and heavy where one takes the place of the other: "
        "let the one then end where the other begins"
    )


def _ruled_out(survey: Survey) -> frozenset[str]:
    """Kinds of which nothing more comes down, as somebody has seen who looked."""
    guessed = {word.text for word in survey.words if word.where.startswith("wall.no_other[") and word.trust in NOT_SEEN}
    return frozenset(survey.wall.no_other) - guessed


def _gaps(kind: str, survey: Survey, beam: Reach) -> list[Stretch]:
    """The stretches of the beam on which no item tells of a kind that is not ruled out, from left to right."""
    if kind in _ruled_out(survey):
        return []
    telling = [item for item in survey.carried if _tells(item, kind)]
    if any(item.kind in ("strut", "point", _WALL) for item in telling):
        return []
    at, end = _whole(beam)
    found: list[Stretch] = []
    for start, stop in sorted(_stretch(item, beam) for item in telling):
        if start > at:
            found.append((at, start))
        at = max(at, stop)
    return [*found, (at, end)] if end > at else found


def _asked_about(stretch: Stretch) -> bool:
    start, end = stretch
    return end - start > float(_least().to("in"))


def _least() -> Value:
    return looked(lookup("practice/wanted", item="stretch that is asked about"), "least", "l_asked")


def _tells(item: Carried, kind: str) -> bool:
    """Whether an item is of that kind, or a load worked out by someone that has such a part."""
    parts = {
        "roof": (item.roof_live_load, item.snow_load, item.roof_live_line, item.snow_line),
        "floor": (item.live_line,),
    }
    return item.kind == kind or (kind == "roof" and item.kind == "strut") or any(parts.get(kind, ()))


def _stretch(item: Carried, beam: Reach) -> Stretch:
    x_a, x_b = ends(item, beam)
    return float(x_a.to("in")), float(x_b.to("in"))


def _whole(beam: Reach) -> Stretch:
    start = float(beam.start.to("in"))
    return start, start + float(beam.length.to("in"))


def _stretches(survey: Survey, gaps: list[Stretch]) -> str:
    length = partial(units.format_length_as, survey.about.dimensions)
    return " and ".join(f"from {length(a)} to {length(b)}" for a, b in gaps)


def _hint(kind: str, survey: Survey) -> str:
    """What else in the survey tells that there is a roof."""
    told = [
        name for name, there in (("[ties]", survey.ties), ("site.ground_snow", survey.site.ground_snow)) if there
    ]
    return f", though the survey has {' and '.join(told)}" if kind == "roof" and told else ""


def _mend(kind: str, *, whole: bool) -> str:
    more = "" if whole else " else"
    return f"Write it under [[carried]]; if you looked and nothing{more} is there, write {kind!r} into wall.no_other"
