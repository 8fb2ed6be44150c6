"""Whether the entries of a survey agree with each other: house width with spans, names, splices with posts."""

from collections.abc import Iterator

from beamcheck import units
from beamcheck.catalogue.members import Kind, Member
from beamcheck.errors import Fault, InputError
from beamcheck.study.layout import Layout
from beamcheck.study.stand_ins import apart_at_most, notch_reach, reach_assumed, wall_thickness
from beamcheck.study.stops import question
from beamcheck.survey.model import Survey
from beamcheck.tables import Row
from beamcheck.trace import Item, Missing, Note, Value


def agree(survey: Survey) -> None:
    """Raise InputError where spans do not add up to the stated width of the house, or two things have one name."""
    faults = [*_spans_faults(survey), *_name_faults(survey)]
    if faults:
        raise InputError(faults)


def _name_faults(survey: Survey) -> Iterator[Fault]:
    """Heavy things of one name: every result calls them by it, so nobody could tell which is over."""
    named: dict[str, str] = {}
    for heavy in survey.heavy:
        name = heavy.name.strip().casefold()
        if name in named:
            mend = f"name each by what tells it apart, such as {f'{heavy.name} by the window'!r}"
            yield Fault(f"{heavy.where}.name", f"{heavy.name!r} is the name of {named[name]} too", mend)
        named.setdefault(name, heavy.where)


def _spans_faults(survey: Survey) -> Iterator[Fault]:
    """Spans of the joists that do not add up to the stated width of the house."""
    width = survey.wall.house_width
    if width is None:
        return
    wall, most = wall_thickness(survey), apart_at_most()
    which = "the wall" if survey.wall.thickness is not None else f"a wall of {units.format_length(wall)} (assumed)"
    for item in survey.carried:
        if item.kind not in ("floor", "ceiling") or item.span_a is None or item.span_b is None:
            continue
        a, b = float(item.span_a.to("in")), float(item.span_b.to("in"))
        if min(a, b) > 0 and abs(a + wall + b - float(width.to("in"))) > most:
            reach, told = (units.format_length(length) for length in (a + wall + b, float(width.to("in"))))
            what = f"both spans and {which} make {reach}, and wall.house_width says {told}"
            yield Fault(f"{item.where}.span_a", what, "measure the spans again, or leave the width out")


def splices(survey: Survey, layout: Layout) -> list[Item]:
    """Splices of the beam: over a post a question, elsewhere nothing of the beam is shown. Raises InputError off it."""
    parts: list[Item] = []
    for number, splice in enumerate(survey.beam.splices, 1):
        at, where = float(splice.to("in")), f"beam.splices[{number}]"
        if not layout.line.start <= at <= layout.line.end:
            ends = f"{units.format_length(layout.line.start)} to {units.format_length(layout.line.end)}"
            what = f"{units.format_length(at)} is off the beam, which runs from {ends}"
            raise InputError([Fault(where, what, "measure from the centre of the left bearing")])
        if not _over_a_post(at, layout):
            need = f"splice {number} is over no post: move it over one, or use plies in one piece"
            parts.append(Missing(where, "Beam with a splice inside a span", need))
        elif layout.line.supports[0] < at < layout.line.supports[-1]:
            parts.append(question(where, "splice"))
    return parts


def notches(survey: Survey, member: Member) -> list[Item]:
    """What to ask about a beam that is notched at its ends, and what stands in for how far a notch runs."""
    beam = survey.beam
    if beam.end_notch_bottom is None and beam.end_notch_top is None:
        return []
    which = {Kind.STEEL: "notched steel", Kind.GLULAM: "notched glued", Kind.COMPOSITE: "notched glued"}
    parts: list[Item] = [question("beam.notch_asked", which.get(member.kind, "notched end"))]
    if reach_assumed(survey):
        parts.append(Note(_reach(notch_reach())))
    return parts


def _reach(row: Row) -> str:
    value, lean, flips = (row.text(column) for column in ("value", "lean", "flips"))
    return f"ASSUMED: beam.end_notch_reach is not told; {value}, {lean}. What would change it: {flips}"


def plies_asked(survey: Survey) -> bool:
    """Whether the survey says how the plies of the beam are joined."""
    beam = survey.beam
    return bool(beam.plies_joined_by or beam.fastener_rows) or beam.fastener_spacing is not None


def _over_a_post(at: float, layout: Layout) -> bool:
    halves = [_half(post.b) for post in layout.posts]
    return any(abs(at - support) <= half for support, half in zip(layout.line.supports, halves, strict=True))


def _half(side: Value) -> float:
    return float(side.to("in")) / 2
