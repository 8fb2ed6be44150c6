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

__all__ = ["SECTIONS", "Field", "Section"]

SECTIONS: tuple[Section, ...] = (*HOUSE, CARRIED, *MEMBERS, *BELOW, *AROUND, *EXPLORE)
