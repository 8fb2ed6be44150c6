"""Joists cut for a flush beam: their hangers, the stiffness that they lose, and the roof that they may tie."""

from collections.abc import Iterator

from beamcheck.beam.model import Line, Spread
from beamcheck.beam.solver import solve
from beamcheck.catalogue.members import Member
from beamcheck.errors import OutOfRange
from beamcheck.standards import statics
from beamcheck.study.agree import plies_asked
from beamcheck.study.layout import Layout
from beamcheck.study.stops import question
from beamcheck.study.types import Link, sheet
from beamcheck.survey.below import Ties
from beamcheck.survey.model import Carried, Survey
from beamcheck.takedown.live import live_of
from beamcheck.takedown.snow import roof_live, roof_snow
from beamcheck.trace import Item, Missing, Solved, Value, taken

_JOISTS = ("floor", "ceiling")
_IN_ONE = ("one piece", "unknown")


def flush_link(survey: Survey, member: Member, layout: Layout) -> Link:
    """What cutting the joists for a flush beam brings. Raises InputError for fasteners in a beam of one ply."""
    parts: list[Item] = []
    for item in survey.carried:
        if item.kind in _JOISTS:
            parts += _hangers(item)
            parts += _stiffness(item)
    parts.append(question("house.hangers", "hangers"))
    if plies_asked(survey):
        from beamcheck.study.side_loads import joined_plies

        parts += joined_plies(survey, member, layout)
    parts += _ties(survey)
    title = "Joists cut for the flush beam"
    return Link("flush", title, sheet("flush", title, *parts))


def _sides(item: Carried) -> Iterator[tuple[str, Value]]:
    for side, span in (("A", item.span_a), ("B", item.span_b)):
        if span is not None and float(span.number) > 0:
            yield side, span


def _hangers(item: Carried) -> Iterator[Item]:
    if item.spacing is None:
        need = f"measure {item.where}.spacing, the distance from joist to joist"
        yield Missing(f"flush.{item.where}.hanger", f"Hangers of the {item.name}", need)
        return
    assert item.dead is not None
    for side, span in _sides(item):
        load = statics.hanger_load(q_D=item.dead, q_L=live_of(item), o_j=item.spacing, s_j=span)
        yield load.named(f"load of one joist of the {item.name} on its hanger, side {side}")


def _stiffness(item: Carried) -> Iterator[Item]:
    """How many times as far the longer span of a joist that ran through moves down once it is cut, all loaded."""
    spans = dict(_sides(item))
    if item.continuity not in _IN_ONE or len(spans) < 2:
        return
    side = max(spans, key=lambda name: float(spans[name].to("in")))
    factor = statics.continuity_lost(Y_cut=_cut(spans[side]), Y_through=_through(spans, side))
    yield factor.named(f"times as far down as in one piece: {item.name}, its longer span, side {side}")
    yield question(f"flush.{item.where}.cut", "cut joists")


def _cut(span: Value) -> Value:
    end = float(span.to("in"))
    Y = solve(Line((0.0, end)), [Spread(0.0, end, 1.0, 1.0)]).down(1.0).value
    return Value("Y_cut", Y, "lb*in^3", Solved("one span by itself under 1 lb per inch", (("l", span),)))


def _through(spans: dict[str, Value], side: str) -> Value:
    a, b = (float(spans[name].to("in")) for name in ("A", "B"))
    bay = 0 if side == "A" else 1
    Y = solve(Line((0.0, a, a + b)), [Spread(0.0, a + b, 1.0, 1.0)]).down(1.0, bay).value
    inputs = (("l_1", spans["A"]), ("l_2", spans["B"]))
    return Value("Y_through", Y, "lb*in^3", Solved(f"two spans in one piece under 1 lb per inch, side {side}", inputs))


def _ties(survey: Survey) -> Iterator[Item]:
    ties = survey.ties
    if ties is None:
        yield question("house.ties", "ties")
        return
    if ties.span is None or ties.pitch is None or ties.spacing is None:
        need = "measure ties.span, ties.pitch and ties.spacing"
        yield Missing("flush.ties", "Pull in the joists that tie the roof", need)
        return
    try:
        q_t = _greater(survey, ties)
    except OutOfRange as reason:
        yield Missing("flush.ties", "Pull in the joists that tie the roof", str(reason))
        return
    assert ties.dead is not None
    q = statics.on_plan(q_s=ties.dead, theta=ties.pitch)
    force = statics.tie_force(q=q, q_t=q_t, o_j=ties.spacing, l_roof=ties.span, theta=ties.pitch)
    yield force.named("pull across the beam at each joist that ties the roof: what its strap must hold")
    yield question("flush.strap", "strap")


def _greater(survey: Survey, ties: Ties) -> Value:
    """Snow or roof live load on plan, whichever is the greater; the live load is not reduced for area."""
    assert ties.pitch is not None
    snow = roof_snow(survey.site, ties.pitch)
    live = roof_live(survey.site, ties.pitch, taken("A_T", 1.0, "one tie gathers a small area", unit="ft^2"))
    return snow if float(snow.number) >= float(live.number) else live
