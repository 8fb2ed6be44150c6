"""Links beside the chain: temporary support, room, heavy things where the survey has their sections; signs always."""

from types import MappingProxyType

from beamcheck.catalogue.members import Member
from beamcheck.study.layout import Layout
from beamcheck.study.signs import no_signs, signs_sheet
from beamcheck.study.types import Link
from beamcheck.survey.model import Survey

RESTS_ON = MappingProxyType({
    "temporary": ("temporary",),
    "signs": ("signs",),
    "room": ("room", "neighbour", "hole"),
    "heavy": ("heavy",),
})
"""Links beside the chain by the head of their key, with the sections of the survey that each is made from."""


def beside(survey: Survey, member: Member, layout: Layout) -> list[Link]:
    """The links of the sections that the survey has, and the signs. What a section needs is imported only for it."""
    links: list[Link] = []
    if survey.temporary is not None:
        from beamcheck.study.temporary import TITLE, temporary_sheet

        links.append(Link("temporary", TITLE, temporary_sheet(survey, survey.temporary, layout.reach), in_chain=False))
    found = no_signs() if survey.signs is None else signs_sheet(survey.signs, survey.words, survey.carried)
    links.append(Link(found.key, found.title, found, in_chain=False, always_asks=True))
    if survey.room is not None or survey.neighbours or survey.holes:
        from beamcheck.study.room import room_sheet

        found = room_sheet(survey, member, layout)
        links.append(Link(found.key, found.title, found, in_chain=False))
    for heavy in survey.heavy:
        from beamcheck.study.heavy import heavy_sheet

        found = heavy_sheet(survey, heavy)
        links.append(Link(found.key, found.title, found, in_chain=False))
    return links
