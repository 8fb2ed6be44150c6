"""What one post comes down on: girder, pad, pier, or what cannot be counted on without more."""

from typing import NamedTuple

from beamcheck.catalogue.members import Kind, Member
from beamcheck.checks.seat import across_grain_check
from beamcheck.checks.wood import Conditions, wet_service
from beamcheck.standards import nds_2018 as nds
from beamcheck.standards import statics
from beamcheck.study.ground import Ground
from beamcheck.study.stops import question
from beamcheck.survey.model import Post
from beamcheck.trace import Check, Item, Missing, Note, Value

_BLOCKED = ("girder", "joists", "wall below")


class Footing(NamedTuple):
    """A post by its number from 0, what the survey says lies below, and the greatest load at the post's foot."""

    number: int
    post: Post
    member: Member
    land: Ground
    P: Value

    @property
    def key(self) -> str:
        """Key path of the post."""
        return f"post[{self.number + 1}]"


def stands_on(foot: Footing) -> list[Item]:
    """The load, and what takes it: checks where it is known, else a stop with its question or what is missing."""
    parts: list[Item] = [foot.P.named("greatest load at the foot of the post")]
    on = foot.post.stands_on
    if on in _BLOCKED:
        parts += _blocking(foot)
    if on == "girder":
        parts += _on_girder(foot)
    elif on in ("pad", "pier"):
        parts += _on_pad(foot)
    elif on == "unknown":
        look = "nobody has seen what is under this post; go below, or open the floor, and look"
        need = f"{look}; in the survey: {foot.post.where}.stands_on"
        parts.append(Missing(f"{foot.key}.below", "What the post stands on", need))
    else:
        parts.append(question(f"{foot.key}.below", on))
    return parts


def _blocking(foot: Footing) -> list[Item]:
    """What carries the load through the depth of the floor."""
    match foot.post.blocking:
        case "full area":
            area = nds.area(b=foot.member.b, d=foot.member.d)
            return [area.named("area that the blocking through the floor needs: the whole post")]
        case "post runs through":
            return [Note("The post runs through the floor and rests on what is below by itself.")]
    need = f"see or plan what fills the floor under the post, and write it in {foot.post.where}.blocking"
    return [Missing(f"{foot.key}.blocking", "Blocking through the floor", need)]


def _on_girder(foot: Footing) -> list[Item]:
    if foot.number not in foot.land.on_girder:
        need = f'measure the girder and write it as [[girder]] with posts = "post {foot.number + 1}"'
        return [Missing(f"{foot.key}.girder", "Girder below", need), question(f"{foot.key}.below", "girder")]
    number, station = foot.land.on_girder[foot.number]
    girder, member = foot.land.girders[number]
    parts: list[Item] = [station.named(f"station on the {girder.name}")]
    if member.kind is not Kind.STEEL:
        parts.append(_crushing(foot, member, Conditions(girder.moisture)))
    return [*parts, *_beside_pier(foot, member, station, girder.supports)]


def _crushing(foot: Footing, girder: Member, at: Conditions) -> Check:
    """Crushing of the girder's top; whichever way the post stands on it, the smaller area is taken."""
    post = foot.member
    ways = [(_lesser(one, girder.b), other) for one, other in ((post.b, post.d), (post.d, post.b))]
    sides = min(ways, key=lambda way: float(way[0].to("in")) * float(way[1].to("in")))
    title, C_M = "Girder crushing under the post", wet_service(girder, "F_c_perp", at)
    return across_grain_check(f"{foot.key}.girder_crushing", title, foot.P, sides, girder["F_c_perp"], C_M)


def _lesser(one: Value, other: Value) -> Value:
    return one if float(one.to("in")) <= float(other.to("in")) else other


def _beside_pier(foot: Footing, girder: Member, station: Value, supports: tuple[Value, ...]) -> list[Item]:
    """A stop where the post stands farther from the nearest pier than half the girder's depth."""
    at = float(station.to("in"))
    near = min(supports, key=lambda support: abs(float(support.to("in")) - at))
    right, left = (station, near) if at >= float(near.to("in")) else (near, station)
    off = statics.span_between(x_b=right, x_a=left).named("from the nearest support of the girder")
    reach = statics.near_pier(d=girder.d).named("half the girder's depth")
    if float(off.number) <= float(reach.number):
        return [off, reach]
    return [off, reach, question(f"{foot.key}.offset", "girder offset")]


def _on_pad(foot: Footing) -> list[Item]:
    on, name = foot.post.stands_on, f"post {foot.number + 1}"
    padded = name in foot.land.pads
    parts: list[Item] = []
    if on == "pier":
        parts.append(question(f"{foot.key}.below", "pier on a pad" if padded else "pier"))
    if padded:
        return [*parts, Note(f"The pad under it is checked below, as pad {foot.land.pads[name] + 1}.")]
    need = f'measure or plan the pad and write it as [[pad]] with under = "{name}"'
    stop = [] if parts else [question(f"{foot.key}.below", "pad")]
    return [*parts, *stop, Missing(f"{foot.key}.pad", "Pad on the soil", need)]
