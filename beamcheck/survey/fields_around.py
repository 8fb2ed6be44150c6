"""Keys of the sections that a survey may do without: what surrounds the beam and its posts."""

from beamcheck.survey.entry import Section

AROUND: tuple[Section, ...] = ()
