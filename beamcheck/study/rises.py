"""Existing members whose gravity load rises, by name, and which of them the existing building code wants checked."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from beamcheck.standards import statics
from beamcheck.study.brought import greatest, put_on
from beamcheck.study.types import Link, sheet
from beamcheck.tables import lookup
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import EDITIONS
from beamcheck.trace import Item, Note, Refer, Schedule, Value, looked

if TYPE_CHECKING:
    from beamcheck.study.girders import Carrying
    from beamcheck.study.posts import Above
    from beamcheck.survey.model import Survey

_UNKNOWN = "not known"
_BEFORE = "Before the work a girder carries what is written of it: its joists, its loads per foot, its own weight."
_STACKS = {"yes": "By the signs", "unknown": "Nobody knows, but it may be that"}
_BOUND = (
    "the wall that goes stands over it. Its weight, and what came down through it, are left out before the work: no "
    "entry tells over which part of the girder. So the rise of all that is on it is an upper bound, and that of each "
    "support as a rule."
)
_HEADS = ("existing member", "before", "after", "rises by")


class Rise(NamedTuple):
    """An existing member with its load before and after the work; a word where a figure is not known."""

    name: str
    before: Value | str
    after: Value | str

    @property
    def share(self) -> Value | None:
        """By what share its load rises; None where that is not known or there was none before."""
        if not isinstance(self.before, Value) or not isinstance(self.after, Value) or float(self.before.number) <= 0:
            return None
        return statics.rise(P_after=self.after, P_before=self.before)

    @property
    def asked_about(self) -> bool:
        """Whether it rises too far to go without a check, or by nobody knows how much."""
        return self.share is None or float(self.share.number) > float(_limit().number)


def rises_link(above: Above, carrying: list[Carrying]) -> Link:
    """Every existing member that the new posts load, and the question about those whose load rises too far."""
    members = [*_on_girders(above, carrying), *_others(above)]
    key, title = "rises", "Existing members whose load rises"
    if not members:
        return Link(key, title, sheet(key, title, Note("No existing member below takes a new load.")))
    rows = tuple((one.name, one.before, one.after, one.share or _UNKNOWN) for one in members)
    parts: list[Item] = [
        _limit().named("share above which a member must be shown to be adequate"),
        Schedule("rises.members", title, _HEADS, rows),
    ]
    if any(one.before is not None for one in carrying):
        parts.append(before_note(above.survey))
    named = [one.name for one in members if one.asked_about]
    if named:
        stop = lookup("practice/questions", key="load rises")
        why = f"{stop.text('why')}: {'; '.join(named)}"
        parts.append(Refer("rises.asked", stop.text("title"), why, stop.text("ask")))
    return Link(key, title, sheet(key, title, *parts))


def before_note(survey: Survey) -> Note:
    """What the load of a girder before the work leaves out, and which way its rise leans by that."""
    told = survey.signs.stacks if survey.signs is not None else ""
    stacks = _STACKS.get(told or "unknown")
    return Note(_BEFORE if stacks is None else f"{_BEFORE} {stacks} {_BOUND}")


def support_rises(one: Carrying) -> list[Rise]:
    """The load of each support of a girder before and after the work."""
    if one.before is None or one.after is None:
        return []
    return [
        Rise(support_name(one, number), one.before.greatest_push(number)[0], one.after.greatest_push(number)[0])
        for number in range(len(one.supports))
    ]


def support_name(one: Carrying, number: int) -> str:
    """The name of a girder's support, by its number from 0."""
    return f"{one.girder.name} support {number + 1}"


def _limit() -> Value:
    return looked(lookup("iebc_2018/gravity", item="rise of the gravity load"), "share", "r_rise")


def _on_girders(above: Above, carrying: list[Carrying]) -> list[Rise]:
    found: list[Rise] = []
    edition = EDITIONS[above.survey.site.loads]
    for one in carrying:
        if one.before is None or one.after is None:
            found.append(Rise(one.girder.name, _UNKNOWN, _UNKNOWN))
            continue
        loads = [put_on(line.sources, line) for line in (one.before, one.after)]
        before, after = (greatest(combinations(edition, frozenset(sums)), sums)[0] for sums in loads)
        found += [Rise(f"{one.girder.name}, all that is on it", before, after), *support_rises(one)]
    return found


def _others(above: Above) -> list[Rise]:
    """What else takes a post, whose load before the work nobody has written down; a new pad is no existing member."""
    new = {pad.under for pad in above.survey.pads if pad.state == "new"}
    return [
        Rise(f"{post.stands_on} under post {number}", _UNKNOWN, above.loaded.greatest_push(number - 1)[0])
        for number, post in enumerate(above.survey.posts, 1)
        if post.stands_on not in ("girder", "unknown") and f"post {number}" not in new
    ]
