"""The balance of the chain: all that is put in, from the roof down, beside all that arrives at the ground."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from beamcheck.checks.post import foot_load
from beamcheck.study.brought import Loads, added, put_on
from beamcheck.study.types import Link, sheet
from beamcheck.takedown.sources import LOAD_TYPES, LOAD_WORDS
from beamcheck.trace import Item, Missing, Note, Schedule, Value, taken

if TYPE_CHECKING:
    from beamcheck.study.girders import Carrying
    from beamcheck.study.pads import Padded
    from beamcheck.study.posts import Above

_SAYS = "Everything is loaded at once here, so that what is put in and what arrives can be compared."


class Arrival(NamedTuple):
    """A place where load leaves the chain for the ground, and what arrives there, by load type."""

    name: str
    loads: Loads


def soil_link(above: Above, carrying: list[Carrying], arrivals: list[Arrival], pads: list[Padded]) -> Link:
    """What was put in and what arrives, load type by load type; not shown where a girder is not."""
    key, title = "soil", "What arrives at the ground"
    unshown = [one.girder for one in carrying if one.before is None]
    if unshown:
        parts: list[Item] = [
            Missing(f"{key}.{girder.where}", f"What {girder.name} brings down", "see the girder above")
            for girder in unshown
        ]
        return Link(key, title, sheet(key, title, *parts))
    put_in = _put_in(above, carrying, pads)
    arriving = [*arrivals, *_weights_below(pads)]
    table = _table(put_in, arriving)
    return Link(key, title, sheet(key, title, Note(_SAYS), table))


def _put_in(above: Above, carrying: list[Carrying], pads: list[Padded]) -> list[Arrival]:
    found = [Arrival("on the beam, its weight included", put_on(above.loaded.sources, above.loaded))]
    found += [
        Arrival(f"post {number}, its weight", {"D": _weight(above, number - 1)})
        for number in range(1, len(above.layout.posts) + 1)
    ]
    for one in carrying:
        assert one.before is not None
        found.append(Arrival(f"on the {one.girder.name} already", put_on(one.before.sources, one.before)))
    return [*found, *_weights_below(pads)]


def _weight(above: Above, number: int) -> Value:
    member = above.layout.posts[number]
    return foot_load(member, above.survey.height_of(number), taken("P", 0.0, "the post alone", unit="lb"))


def _weights_below(pads: list[Padded]) -> list[Arrival]:
    """Weights of the pads and of the piers on them."""
    named = [(what, one.pad.under, W) for one in pads for what, W in (("pier", one.pier), ("pad", one.weight))]
    return [Arrival(f"{what} under {under}, its weight", {"D": W}) for what, under, W in named if W is not None]


def _table(put_in: list[Arrival], arriving: list[Arrival]) -> Schedule:
    present = [name for name in LOAD_TYPES if any(name in part.loads for part in (*put_in, *arriving))]
    heads = ("where", *(LOAD_WORDS[name] for name in present))
    rows = [
        *(_row(part, present) for part in put_in),
        _row(Arrival("all that is put in", added([part.loads for part in put_in])), present),
        *(_row(part, present) for part in arriving),
        _row(Arrival("all that arrives", added([part.loads for part in arriving])), present),
    ]
    return Schedule("soil.balance", "What is put in and what arrives, lb", heads, tuple(rows))


def _row(part: Arrival, present: list[str]) -> tuple[str | Value, ...]:
    return (part.name, *(part.loads.get(name, "") for name in present))
