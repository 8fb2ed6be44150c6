"""Below the posts: girders, pads, existing members whose load rises, and the sum of what arrives at the soil."""

from __future__ import annotations

from typing import TYPE_CHECKING

from beamcheck.checks.post import foot_load
from beamcheck.study.brought import Brought, brought
from beamcheck.study.ground import girder_link
from beamcheck.study.rises import rises_link, support_name, support_rises
from beamcheck.study.soil import Arrival, soil_link
from beamcheck.study.stops import question
from beamcheck.study.types import Link, as_title, sheet
from beamcheck.trace import Item, Missing, Note, Value

if TYPE_CHECKING:
    from beamcheck.study.girders import Carrying
    from beamcheck.study.ground import Ground
    from beamcheck.study.pads import Padded
    from beamcheck.study.posts import Above
    from beamcheck.survey.below import Pad


def below_links(above: Above, land: Ground) -> list[Link]:
    """The links of girders, their supports and pads, of the members whose load rises, and of the soil."""
    feet = _feet(above)
    carrying = _carried(above, land, feet)
    pads = _on_pads(above, _standing(feet, carrying))
    links: list[Link] = []
    for one in carrying:
        links += [one.link, *_supports(one, land)]
    links += [padded.link for padded in pads]
    links.append(rises_link(above, carrying))
    links.append(soil_link(above, carrying, _arrivals(feet, carrying, land), pads))
    return links


def unshown_below(land: Ground, pads: tuple[Pad, ...]) -> list[Link]:
    """The links of girders and pads where nothing above them is shown."""
    need = "what comes down on it is not shown"
    titles = [(girder.where, girder_link(girder)) for girder, _ in land.girders]
    titles += [(pad.where, f"Pad under {pad.under}") for pad in pads]
    return [Link(key, title, sheet(key, title, Missing(f"{key}.unshown", title, need))) for key, title in titles]


def _feet(above: Above) -> tuple[Brought, ...]:
    """What each post brings down at its foot, its own weight included."""
    feet = []
    for number, coming in enumerate(brought(above.loaded, above.loaded.sources)):
        member = above.layout.posts[number]
        height = above.survey.height_of(number)
        most, whole = (
            {name: foot_load(member, height, P) if name == "D" else P for name, P in loads.items()}
            for loads in (coming.most, coming.whole)
        )
        feet.append(Brought(most, whole))
    return tuple(feet)


def _posts_on(number: int, land: Ground, feet: tuple[Brought, ...]) -> list[tuple[str, Brought, Value]]:
    """Posts on a girder: name, what each brings down, station."""
    return [
        (f"post {post + 1}", feet[post], station)
        for post, (girder, station) in sorted(land.on_girder.items())
        if girder == number
    ]


def _standing(feet: tuple[Brought, ...], carrying: list[Carrying]) -> dict[str, Brought]:
    """What comes down at each place where a pad can be, by the place's name."""
    found = {f"post {number}": coming for number, coming in enumerate(feet, 1)}
    for one in carrying:
        found |= {support_name(one, number): coming for number, coming in enumerate(one.supports)}
    return found


def _carried(above: Above, land: Ground, feet: tuple[Brought, ...]) -> list[Carrying]:
    """The girders, solved and checked. What they need is imported only where there is one."""
    if not land.girders:
        return []
    from beamcheck.study.girders import carry

    return [
        carry(girder, member, _posts_on(number, land, feet), above.survey)
        for number, (girder, member) in enumerate(land.girders)
    ]


def _on_pads(above: Above, standing: dict[str, Brought]) -> list[Padded]:
    """The pads, checked or sized. What they need is imported only where there is one."""
    if not above.survey.pads:
        return []
    from beamcheck.study.pads import put_on_pad
    from beamcheck.study.piers import stand_of_pier, stand_of_post

    found = []
    for pad in above.survey.pads:
        number = above.survey.post_on(pad)
        if number is None:
            stand = stand_of_pier(pad)
        else:
            stand = stand_of_post(above.survey.posts[number], above.layout.posts[number])
        found.append(put_on_pad(pad, standing.get(pad.under), stand, above.survey.site))
    return found


def _supports(one: Carrying, land: Ground) -> list[Link]:
    """A link for each support of a girder: what comes down there, and the pad under it or what is missing."""
    links = []
    for number, rise in enumerate(support_rises(one)):
        name, key = support_name(one, number), f"{one.girder.where}.support[{number + 1}]"
        parts: list[Item] = [rise.after.named("greatest load on it")] if isinstance(rise.after, Value) else []
        if rise.share is not None:
            parts.append(rise.share.named("what it rises by"))
        if not rise.asked_about and name not in land.pads:
            parts.append(Note("Its load does not rise by more than the existing building code lets go unchecked."))
        else:
            parts.append(question(f"{key}.pier", "pier on a pad" if name in land.pads else "pier"))
            parts += [] if name in land.pads else [_no_pad(name, key)]
        links.append(Link(key, f"Support {number + 1} of {one.girder.name}", sheet(key, as_title(name), *parts)))
    return links


def _no_pad(name: str, key: str) -> Missing:
    need = f'measure the pad and write it as [[pad]] with under = "{name}"'
    return Missing(f"{key}.pad", f"Pad under {name}", need)


def _arrivals(feet: tuple[Brought, ...], carrying: list[Carrying], land: Ground) -> list[Arrival]:
    """Where loads leave the chain for the ground: posts that stand on no girder, and the supports of girders."""
    found = [
        Arrival(f"post {number + 1}", coming.whole)
        for number, coming in enumerate(feet)
        if number not in land.on_girder
    ]
    for one in carrying:
        found += [Arrival(support_name(one, number), coming.whole) for number, coming in enumerate(one.supports)]
    return found
