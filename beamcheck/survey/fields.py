"""Every key that a survey may hold: what it is, what it is for, how to measure it, and what stands in if unknown.

This one list makes the reader's messages, the blank survey, the interview and the reference page.
"""

from beamcheck.survey.entry import Field, Section
from beamcheck.survey.fields_around import AROUND
from beamcheck.survey.fields_beam import MEMBERS
from beamcheck.survey.fields_below import BELOW
from beamcheck.survey.fields_carried import CARRIED
from beamcheck.survey.fields_explore import EXPLORE
from beamcheck.survey.fields_house import HOUSE

__all__ = ["SECTIONS", "Field", "Section", "field_at", "section_at"]

SECTIONS: tuple[Section, ...] = (*HOUSE, CARRIED, *MEMBERS, *BELOW, *AROUND, *EXPLORE)


def section_at(where: str) -> Section | None:
    """The section that a key path lies in; None where it is no part of a survey."""
    head = where.partition(".")[0].partition("[")[0]
    return next((section for section in SECTIONS if section.key == head), None)


def field_at(where: str) -> Field | None:
    """What the list of fields says of a key path; None for what is no key of a survey."""
    section, key = section_at(where), where.partition(".")[2].partition("[")[0]
    return None if section is None else next((field for field in section.fields if field.key == key), None)
