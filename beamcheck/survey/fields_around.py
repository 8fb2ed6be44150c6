"""Keys of the sections that a survey may do without: temporary support, signs of bearing, and the rest of the room."""

from beamcheck.survey.entry import Section
from beamcheck.survey.fields_room import HEAVY, HOLE, NEIGHBOUR, OTHER_WALL, ROOM
from beamcheck.survey.fields_temporary import SIGNS, TEMPORARY

AROUND: tuple[Section, ...] = (TEMPORARY, SIGNS, ROOM, NEIGHBOUR, HOLE, HEAVY, OTHER_WALL)
