"""The same checks by load and resistance factor design, beside those of allowable stress: a second method to see."""

from collections.abc import Iterator

from beamcheck.catalogue.members import Kind, Member
from beamcheck.checks.beam import every_check, governing
from beamcheck.checks.lines import load_line
from beamcheck.frozen import replace
from beamcheck.study.designs import axial_cases, beam_design, post_design
from beamcheck.study.layout import Layout
from beamcheck.study.materials import check_any_post
from beamcheck.study.types import Link, sheet
from beamcheck.survey.model import Survey
from beamcheck.takedown.combinations import strength_combinations
from beamcheck.takedown.sources import EDITIONS, Source
from beamcheck.trace import Check, Item, Note

TITLE = "By load and resistance factors, beside the allowable stresses"
_SHAPE = "slenderness"
_NOTES = (
    "LRFD: loads of the strength combinations beside adjusted values with K_F, phi and the time effect.",
    "Movements, lengths and slendernesses are the same by both methods and are not repeated here.",
    "The live load counts as that of rooms; the time effect of storage is less, and would raise what is shown.",
)
_STEEL = "Steel members are checked by allowable strength alone: the resistance factors of AISC 360-16 are not here."


def lrfd_link(survey: Survey, member: Member, layout: Layout, rows: tuple[Source, ...]) -> Link:
    """Strength of beam, seats and wood posts by the second method; it stands beside the chain, whose law is the first.

    Girders, pads and what is under them are not in it: concrete is at strength level already, the rest by the first.
    """
    checks, notes = _checked(survey, member, layout, rows), (Note(text) for text in _NOTES)
    items: tuple[Item, ...] = (*checks, *notes, *_steel(member, layout))
    return Link("lrfd", TITLE, sheet("lrfd", TITLE, *items), in_chain=False)


def _checked(survey: Survey, member: Member, layout: Layout, rows: tuple[Source, ...]) -> Iterator[Item]:
    present = frozenset(row.load_type for row in rows)
    loaded = load_line(layout.line, layout.spans, rows, strength_combinations(EDITIONS[survey.site.loads], present))
    if member.kind is not Kind.STEEL:
        design = beam_design(survey, member, layout, loaded)
        factored = replace(design, key="lrfd.beam", limits=(), at=replace(design.at, method="LRFD"))
        yield from _strength(governing(every_check(factored)), "beam")
    for number, post in enumerate(layout.posts):
        if post.kind is not Kind.STEEL:
            asked = post_design(survey, number, layout, axial_cases(loaded, number))
            factored_post = replace(asked, key=f"lrfd.{asked.key}", at=replace(asked.at, method="LRFD"))
            yield from _strength(check_any_post(factored_post), f"post {number + 1}")


def _strength(found: tuple[Item, ...], whose: str) -> Iterator[Item]:
    """The checks that a method of strength makes differ, each named with its member; a stop as it is."""
    for item in found:
        if not isinstance(item, Check):
            yield item
        elif _SHAPE not in item.key:
            yield replace(item, title=f"{item.title} ({whose})")


def _steel(member: Member, layout: Layout) -> Iterator[Note]:
    if Kind.STEEL in (member.kind, *(post.kind for post in layout.posts)):
        yield Note(_STEEL)
