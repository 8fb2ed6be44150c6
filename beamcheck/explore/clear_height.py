"""The height under a beam, less finish and new floor: as told, or as they stand in where nobody has told of them."""

from beamcheck import units
from beamcheck.standards import fit
from beamcheck.survey.around import Room
from beamcheck.survey.model import Survey
from beamcheck.survey.reader import left_empty
from beamcheck.trace import NOT_SEEN, Given, Value


def headroom(survey: Survey, d: Value) -> Value | None:
    """Height left under a dropped beam of that depth and its finish; None under a flush one."""
    if survey.beam.position == "flush":
        return None
    room = room_told(survey)
    return fit.headroom(h_ceiling=survey.wall.ceiling_height, h_added=room.floor_added, d=d, t_wrap=room.beam_wrap)


def room_told(survey: Survey) -> Room:
    """The section of the room; where there is none, what stands in for each of its keys."""
    if survey.room is not None:
        return survey.room
    return Room(**left_empty("room"))


def finish_told(survey: Survey) -> str:
    """What the headroom leaves for the finish under the beam and a new floor, and whether anybody has said so."""
    room = room_told(survey)
    parts = (("finish", room.beam_wrap), ("new floor", room.floor_added))
    return ", ".join(f"{name} {_amount(value, survey)}" for name, value in parts)


def _amount(value: Value, survey: Survey) -> str:
    length = units.format_length_as(survey.about.dimensions, float(value.to("in")))
    if isinstance(value.origin, Given) and value.origin.trust in NOT_SEEN:
        return f"{length} {value.origin.trust}"
    return length
