"""Which post stands on what, and what stands on which pad, by the names in the survey."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import TYPE_CHECKING

from beamcheck import units
from beamcheck.catalogue.members import Member
from beamcheck.catalogue.reading import read_member
from beamcheck.errors import Fault, InputError
from beamcheck.frozen import dataclass
from beamcheck.study.materials import as_beam
from beamcheck.survey.model import Survey
from beamcheck.trace import Value

if TYPE_CHECKING:
    from beamcheck.survey.below import Girder, Pad

_SUPPORT = re.compile(r"(?P<girder>.+) support (?P<number>\d{1,2})")
_ON_PADS = ("pad", "pier")
_NAMES = 'name it as  "post 2"  or, of a girder, as  "cellar girder support 1"'


@dataclass(frozen=True, slots=True, eq=False)
class Ground:
    """What the survey says lies below the posts.

    girders: each with its member; on_girder: by post, the girder's number and the station on it, from 0; pads: by
    what stands on them, "post 2" or "cellar girder support 1", the number of the pad.
    """

    girders: tuple[tuple[Girder, Member], ...]
    on_girder: dict[int, tuple[int, Value]]
    pads: dict[str, int]


def ground(survey: Survey) -> Ground:
    """What lies below. Raises InputError where names, stations and what a post stands on contradict each other."""
    faults = list(_girder_faults(survey)) or list(_pad_faults(survey))
    if faults:
        raise InputError(faults)
    girders = tuple(
        (girder, as_beam(read_member(girder.member, f"{girder.where}.member"), f"{girder.where}.member"))
        for girder in survey.girders
    )
    on_girder = {
        int(post.removeprefix("post ")) - 1: (number, station)
        for number, girder in enumerate(survey.girders)
        for post, station in zip(girder.posts, girder.post_stations, strict=True)
    }
    pads = {pad.under: number for number, pad in enumerate(survey.pads)}
    return Ground(girders, on_girder, pads)


def girder_link(girder: Girder) -> str:
    """What the link of a girder is called, by which two girders are told apart."""
    return f"Girder below ({girder.name})"


def _girder_faults(survey: Survey) -> Iterator[Fault]:
    seen: dict[str, str] = {}
    named: set[str] = set()
    for girder in survey.girders:
        if girder.name in named:
            what = f"{girder.name!r} is the name of another girder too"
            yield Fault(f"{girder.where}.name", what, "name it otherwise")
        named.add(girder.name)
        yield from _support_faults(girder)
        yield from _station_faults(girder)
        for place, post in enumerate(girder.posts, 1):
            yield from _post_faults(survey, f"{girder.where}.posts[{place}]", post, ("girder",), seen)


def _support_faults(girder: Girder) -> Iterator[Fault]:
    where, stations = f"{girder.where}.supports", [float(station.to("in")) for station in girder.supports]
    if len(stations) < 2:
        what = f"{len(stations)} support{'s' if len(stations) != 1 else ''}, and a girder needs two at least"
        yield Fault(where, what, 'write them as  "0 ft, 7 ft 6 in, 15 ft"')
    elif len(stations) > 7:
        yield Fault(where, f"{len(stations)} supports", "at most seven supports, six spans, can be checked")
    for count, (before, after) in enumerate(pairwise(stations), 2):
        if after <= before:
            what = f"{units.format_length(after)} is not right of the support before it"
            yield Fault(f"{where}[{count}]", what, "list them from left to right, each once")


def _station_faults(girder: Girder) -> Iterator[Fault]:
    where = f"{girder.where}.post_stations"
    if len(girder.posts) != len(girder.post_stations):
        what = f"{len(girder.post_stations)} stations for {len(girder.posts)} posts"
        yield Fault(where, what, "one station for each post, in the order of the posts")
    if len(girder.supports) < 2:
        return
    start, end = float(girder.supports[0].to("in")), float(girder.supports[-1].to("in"))
    for count, station in enumerate(girder.post_stations, 1):
        at = float(station.to("in"))
        if not start - 1e-6 <= at <= end + 1e-6:
            ends = f"{units.format_length(start)} to {units.format_length(end)}"
            what = f"{units.format_length(at)} is off the girder, whose supports run from {ends}"
            yield Fault(f"{where}[{count}]", what, "measure from the same end as its supports")


def _post_faults(
    survey: Survey, where: str, name: str, stands_on: tuple[str, ...], seen: dict[str, str]
) -> Iterator[Fault]:
    """A post that is not there, is named twice, or is told to stand on something else."""
    number = int(name[5:]) if re.fullmatch(r"post \d{1,2}", name) else 0
    if not 1 <= number <= len(survey.posts):
        mend = f'posts are named  "post 1"  to  "post {len(survey.posts)}"  from left to right'
        yield Fault(where, f"{name[:40]!r} is not a post of this survey", mend)
        return
    yield from _held_twice(where, name, seen)
    post = survey.posts[number - 1]
    if post.stands_on not in (*stands_on, "unknown"):
        mend = f'write "{stands_on[0]}" there, or take the post out of {where.partition(".")[0]}'
        yield Fault(f"{post.where}.stands_on", f"{post.stands_on!r}, but {where} names this post", mend)


def _pad_faults(survey: Survey) -> Iterator[Fault]:
    seen: dict[str, str] = {}
    girders = {girder.name: girder for girder in survey.girders}
    for pad in survey.pads:
        yield from _deep(pad)
        where, name = f"{pad.where}.under", pad.under
        match = _SUPPORT.fullmatch(name)
        if match is not None and match["girder"] in girders:
            yield from _held_twice(where, name, seen)
            count = len(girders[match["girder"]].supports)
            if not 1 <= int(match["number"]) <= count:
                yield Fault(where, f"{match['girder']} has {count} supports", "count them from the left")
        elif name.startswith("post "):
            yield from _post_faults(survey, where, name, _ON_PADS, seen)
        else:
            yield Fault(where, f"{name[:60]!r} is neither a post nor a girder's support", _NAMES)


def _held_twice(where: str, name: str, seen: dict[str, str]) -> Iterator[Fault]:
    if name in seen:
        yield Fault(where, f"{name} stands in {seen[name]} too", "name each once")
    seen[name] = where


def _deep(pad: Pad) -> Iterator[Fault]:
    """A pad that is thicker than the depth of its underside."""
    if pad.depth is None or pad.thickness is None:
        return
    depth, thickness = float(pad.depth.to("in")), float(pad.thickness.to("in"))
    if thickness > depth + 1e-9:
        what = f"{units.format_length(thickness)} is more than the depth of its underside, {units.format_length(depth)}"
        yield Fault(f"{pad.where}.thickness", what, f"mend it or {pad.where}.depth")
