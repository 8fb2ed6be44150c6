"""A girder below: a beam line under what it carries already, and under the posts that come down on it."""

from itertools import pairwise
from typing import Any

from beamcheck.beam.model import Line
from beamcheck.catalogue.members import Member
from beamcheck.checks.beam import BeamDesign, Seat
from beamcheck.checks.lines import Loaded, load_line
from beamcheck.checks.wood import Bracing, Conditions
from beamcheck.frozen import dataclass, names
from beamcheck.standards import statics
from beamcheck.study.brought import Brought, Loads, brought
from beamcheck.study.ground import girder_link
from beamcheck.study.materials import check_any_beam, own_weight
from beamcheck.study.rises import before_note
from beamcheck.study.stops import question
from beamcheck.study.types import Link, of_member
from beamcheck.survey.below import Girder
from beamcheck.survey.model import Carried, Site, Survey
from beamcheck.tables import lookup
from beamcheck.takedown.carried import sources
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import EDITIONS, Reach, Source
from beamcheck.trace import Check, Item, Missing, Note, Schedule, Value, taken

_HEADS = ("check", "before", "after", "limit", "after over before")


@dataclass(frozen=True, slots=True, eq=False)
class Carrying:
    """A girder with its line solved before and after the work; both are None where it is not shown.

    supports: what each brings down after the work.
    """

    girder: Girder
    member: Member
    link: Link
    before: Loaded | None = None
    after: Loaded | None = None
    supports: tuple[Brought, ...] = ()


def carry(girder: Girder, member: Member, posts: list[tuple[str, Brought, Value]], survey: Survey) -> Carrying:
    """Solve and check a girder. posts: name, what it brings down, and its station."""
    site, name = survey.site, girder_link(girder)
    if not _has_lines(girder) and (girder.span_a is None or girder.span_b is None):
        need = f"measure the spans of the joists on it: {girder.where}.span_a and span_b, or its loads per foot"
        missing = Missing(f"{girder.where}.load", "What the girder carries already", need)
        return Carrying(girder, member, of_member(girder.where, name, member, missing))
    present = _carried_already(girder, member, site)
    before = _solve(girder, present, site)
    most = [(post, coming.most, station) for post, coming, station in posts]
    after = _solve(girder, (*present, *_from_posts(girder, most)), site)
    whole = [(post, coming.whole, station) for post, coming, station in posts]
    supports = brought(after, (*present, *_from_posts(girder, whole)))
    link = of_member(girder.where, name, member, *_checked(girder, member, before, after, survey))
    return Carrying(girder, member, link, before, after, supports)


def _checked(girder: Girder, member: Member, before: Loaded, after: Loaded, survey: Survey) -> list[Item]:
    found = check_any_beam(_design(girder, member, after))
    parts: list[Item] = [*found, _compared(girder, member, before, found), before_note(survey)]
    if girder.posts and not _has_lines(girder):
        parts.append(question(f"{girder.where}.walls", "girder walls"))
    if girder.bearing_length is None:
        need = f"measure {girder.where}.bearing_length, the length of girder that rests on each support"
        parts.append(Missing(f"{girder.where}.bearing", "Bearing of the girder on its supports", need))
    parts.append(question(f"{girder.where}.member", "girder member"))
    return [*parts, *(Note(text) for text in (*member.remarks, girder.note) if text)]


def _has_lines(girder: Girder) -> bool:
    """Whether the survey tells what it carries per foot besides the joists, be it nothing."""
    return any((girder.dead_line, girder.live_line, girder.roof_live_line, girder.snow_line))


def spans(girder: Girder) -> tuple[Value, ...]:
    """The spans between its supports."""
    return tuple(statics.span_between(x_b=b, x_a=a) for a, b in pairwise(girder.supports))


def _carried_already(girder: Girder, member: Member, site: Site) -> tuple[Source, ...]:
    start, end = (float(girder.supports[which].to("in")) for which in (0, -1))
    length = taken("l", end - start, "length of the girder, from its first support to its last", unit="in")
    beam = Reach(length, girder.supports[0], tuple(pairwise(girder.supports)))
    rows: list[Source] = []
    if girder.span_a is not None and girder.span_b is not None:
        rows += sources(_as_carried(girder, "floor", f"floor on {girder.name}"), site, beam)
    rows += sources(_as_carried(girder, "line", f"other loads on {girder.name}"), site, beam)
    rows.append(Source(girder.where, "the girder itself", "D", w=own_weight(member)))
    return tuple(rows)


def _as_carried(girder: Girder, kind: str, name: str) -> Carried:
    """What lies on the girder, as the take-down reads it."""
    entry: dict[str, Any] = {name: getattr(girder, name, None) for name in names(Carried)}
    return Carried(**{**entry, "kind": kind, "name": name})


def _from_posts(girder: Girder, posts: list[tuple[str, Loads, Value]]) -> tuple[Source, ...]:
    return tuple(
        Source(girder.where, name, load_type, P=P, station=station)
        for name, coming, station in posts
        for load_type, P in coming.items()
        if float(P.number) != 0
    )


def _solve(girder: Girder, rows: tuple[Source, ...], site: Site) -> Loaded:
    line = Line(tuple(float(station.to("in")) for station in girder.supports))
    present = frozenset(row.load_type for row in rows)
    return load_line(line, spans(girder), rows, combinations(EDITIONS[site.loads], present))


def _design(girder: Girder, member: Member, loaded: Loaded) -> BeamDesign:
    last = len(girder.supports) - 1
    breadth = member.b if girder.bearing_length is not None else None
    longest = max(spans(girder), key=lambda span: float(span.to("in")))
    held = girder.top_edge == "held"
    return BeamDesign(
        member,
        loaded,
        tuple(Seat(girder.bearing_length, breadth, "end" if n in (0, last) else "middle") for n in range(last + 1)),
        Bracing(None) if held else Bracing(longest),
        Bracing(longest),
        girder.position,
        Conditions(girder.moisture),
        (
            lookup("irc_2021/deflection", member="floors"),
            lookup("ibc_2021/deflection", member="floor member", load="D+L"),
        ),
        girder.where,
        "support",
    )


def _compared(girder: Girder, member: Member, before: Loaded, after: tuple[Item, ...]) -> Schedule:
    """Each check before and after the work, side by side."""
    was = {item.key: item for item in check_any_beam(_design(girder, member, before)) if isinstance(item, Check)}
    rows: list[tuple[str | Value, ...]] = []
    for check in after:
        if not isinstance(check, Check) or "slenderness" in check.key:
            continue
        old = was.get(check.key)
        if old is None:
            rows.append((check.title, "none", check.demand, check.limit, "new"))
        else:
            rows.append((check.title, old.demand, check.demand, check.limit, _times(old, check)))
    return Schedule(f"{girder.where}.compared", "Before the work and after it", _HEADS, tuple(rows))


def _times(old: Check, new: Check) -> str:
    """How many times as hard the girder works, by utilisation."""
    before, after = float(old.ratio), float(new.ratio)
    return f"{after / before:.2f} times" if before > 0 else "new"
