"""What stands on a pad: a post, with a steel plate under it or without, or a pier or column with its own weight."""

from typing import NamedTuple

from beamcheck.catalogue.members import Member
from beamcheck.checks.pad import Standing
from beamcheck.standards import aci318_19 as aci
from beamcheck.standards import nds_2018 as nds
from beamcheck.standards import statics
from beamcheck.study.brought import Brought, Loads
from beamcheck.survey.below import Pad
from beamcheck.survey.model import Post
from beamcheck.tables import lookup
from beamcheck.trace import Value, looked, taken


class Stand(NamedTuple):
    """What stands on a pad: its sides, None if they are not known; of a pier its volume by weight, height and section.

    A post has no such weight here: what it brings down holds its own weight already.
    """

    sides: Standing | None
    gamma: Value | None = None
    h: Value | None = None

    @property
    def weight(self) -> Value | None:
        """Weight of a pier; None of a post, or where its sides are not known."""
        nothing = taken("P", 0.0, "the pier alone", unit="lb")
        found = self.under(nothing)
        return None if found is nothing else found.named("weight of the pier on the pad")

    def under(self, P: Value) -> Value:
        """A dead load under the pier: what comes down on it and its own weight."""
        if self.sides is None or self.gamma is None or self.h is None:
            return P
        A = nds.area(b=self.sides.c_1, d=self.sides.c_2)
        return statics.load_at_foot(P=P, gamma=self.gamma, A=A, h=self.h)


def stand_of_post(post: Post, member: Member) -> Stand:
    """A post on a pad, with a steel plate under it if it has one: bending is counted from half way to its edge."""
    if post.base_length is None or post.base_breadth is None:
        return Stand(Standing(member.b, member.d, member.b, member.d))
    return Stand(
        Standing(
            post.base_length,
            post.base_breadth,
            aci.column_width_on_plate(c_post=member.b, c_plate=post.base_length),
            aci.column_width_on_plate(c_post=member.d, c_plate=post.base_breadth),
        )
    )


def stand_of_pier(pad: Pad) -> Stand:
    """The pier or column that the pad's entry tells of: under masonry the pad bends from half way to its centre."""
    along, across = pad.pier_length, pad.pier_breadth
    if along is None or across is None:
        return Stand(None)
    row = lookup("practice/piers", material=pad.pier_material)
    sides = Standing(along, across, along, across)
    if row.text("bends_from") == "halfway":
        halves = aci.column_width_of_masonry(c_wall=along), aci.column_width_of_masonry(c_wall=across)
        sides = Standing(along, across, *halves)
    return Stand(sides, looked(row, "density", "gamma"), pad.pier_height)


def heavier(coming: Brought, stand: Stand) -> Brought:
    """What comes down on a pad: what comes down on the pier, and the pier."""
    return Brought(_under(coming.most, stand), _under(coming.whole, stand))


def _under(loads: Loads, stand: Stand) -> Loads:
    return {name: stand.under(P) if name == "D" else P for name, P in loads.items()}
