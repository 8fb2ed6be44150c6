"""Temporary support: what each temporary wall holds, its studs and plate, what is left out, what is to be asked."""

from typing import NamedTuple

from beamcheck import units
from beamcheck.catalogue.members import Kind, Member
from beamcheck.catalogue.reading import read_member
from beamcheck.checks import shoring
from beamcheck.checks.line_loads import line_cases
from beamcheck.checks.post import AxialCase
from beamcheck.checks.shoring import StudWall
from beamcheck.checks.shoring_loads import JOISTED, TemporaryWall, Work, sides, temporary_walls
from beamcheck.checks.shoring_points import Spot, spots
from beamcheck.errors import Fault, InputError, OutOfRange
from beamcheck.frozen import replace
from beamcheck.study.stops import plate_value
from beamcheck.study.temporary_words import left_out, loads, order_of_work, questions
from beamcheck.study.types import sheet
from beamcheck.survey.around import Temporary
from beamcheck.survey.model import Survey
from beamcheck.tables import lookup
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import EDITIONS, Combination, Reach
from beamcheck.trace import Check, Item, Missing, Note, Sheet, Value, taken

TITLE = "Temporary support"


def temporary_sheet(survey: Survey, temporary: Temporary, beam: Reach) -> Sheet:
    """Everything about the temporary walls beside the beam. Raises InputError where the entries contradict."""
    work = Work(survey.carried, survey.site, temporary, beam)
    _contradictions(survey, work)
    missing = _not_told(work)
    walls: tuple[TemporaryWall, ...] = ()
    if not missing:
        try:
            walls = temporary_walls(work)
        except OutOfRange as reason:
            missing = [Missing("temporary.loads", "Load on the temporary walls", str(reason))]
    parts = missing or _checked(survey, work, walls)
    notes = [Note(temporary.note)] if temporary.note else []
    asked = questions(work, walls)
    return sheet("temporary", TITLE, *parts, left_out(work), *asked, *notes, *order_of_work())


def _not_told(work: Work) -> list[Item]:
    """Set-backs that are needed and not there, and walls that would hold nothing."""
    told = {"A": work.temporary.set_back_a, "B": work.temporary.set_back_b}
    need = "how far the temporary wall stands from the middle of the wall that goes: the load on it hangs on that"
    found: list[Item] = [
        Missing(f"temporary.set_back_{side.lower()}", f"Temporary wall on side {side}", need)
        for side in sides(work)
        if told[side] is None
    ]
    if not sides(work):
        need = "no floor or ceiling joists are named on that side; what the wall carries needs another way down"
        found.append(Missing("temporary.sides", "What the temporary wall holds", need))
    return found


def _checked(survey: Survey, work: Work, walls: tuple[TemporaryWall, ...]) -> list[Item]:
    chosen = combinations(EDITIONS[survey.site.loads], shoring.types_present(walls))
    parts: list[Item] = [loads(walls)]
    held = [_held(work, wall, chosen) for wall in walls]
    for one in held:
        side = one.wall.side
        parts.append(one.wall.factor.named(f"set-back factor of the temporary wall on side {side}"))
        total = shoring.greatest(one.lines)
        parts.append(total.named(f"load per foot of the temporary wall on side {side}"))
    parts += _studs(survey, work, held)
    for one in held:
        parts += _posts(work, one)
    return parts + _reach(survey, work, walls[0])


class _Held(NamedTuple):
    """A temporary wall, its load per foot under each combination, and where point loads come down on it."""

    wall: TemporaryWall
    lines: tuple[AxialCase, ...]
    spots: tuple[Spot, ...]

    def loads_at(self, spacing: Value, what: str) -> list[Value]:
        """The greatest load of one stud or post: under what lies all along, and with each point load over it."""
        along = shoring.at_spacing(self.lines, spacing)
        told = [shoring.greatest(along).named(f"load of one {what} on side {self.wall.side}")]
        for spot in self.spots:
            most = shoring.greatest(spot.under(along))
            told.append(most.named(f"load of one {what} on side {self.wall.side} under {spot.names}"))
        return told


def _held(work: Work, wall: TemporaryWall, chosen: tuple[Combination, ...]) -> _Held:
    lines = tuple(replace(case, when=f"{case.when}, side {wall.side}") for case in line_cases(wall, chosen))
    told = (work.temporary.stud_spacing, work.temporary.post_spacing, work.temporary.joist_spacing)
    widest = max((width for width in told if width is not None), key=lambda width: float(width.to("in")))
    return _Held(wall, lines, spots(wall, chosen, widest))


def _studs(survey: Survey, work: Work, held: list[_Held]) -> list[Item]:
    temporary = work.temporary
    if temporary.post_spacing is not None and not temporary.stud:
        return []
    if not temporary.stud or temporary.stud_spacing is None:
        need = "size, grade and spacing of the studs, or the spacing of posts under a carrying beam"
        return [Missing("temporary.stud", "Studs of the temporary walls", need)]
    stud = lumber(temporary.stud, "temporary.stud")
    plate = lumber(temporary.top_plate, "temporary.top_plate") if temporary.top_plate else None
    walls = [_stud_wall(survey, work, one, (stud, plate)) for one in held]
    parts: list[Item] = [load for one in held for load in one.loads_at(temporary.stud_spacing, "stud")]
    found = [item for wall in walls for item in shoring.check_studs(wall)]
    if plate is None:
        need = "size and grade of the plate that lies on the studs"
        parts.append(Missing("temporary.top_plate", "Top plate of the temporary walls", need))
    else:
        found += [item for wall in walls for item in shoring.check_plate(wall)]
    return [*parts, *shoring.worst_of_sides(found)]


def _stud_wall(survey: Survey, work: Work, held: _Held, members: tuple[Member, Member | None]) -> StudWall:
    temporary, (stud, plate) = work.temporary, members
    assert temporary.stud_spacing is not None
    unmarked = plate_value(lookup("practice/defaults", item="plate_species").text("value"), "practice/defaults")
    return StudWall(
        cases=held.lines,
        height=survey.wall.ceiling_height,
        stud=stud,
        stud_spacing=temporary.stud_spacing,
        rail=temporary.rail == "yes",
        plate=plate,
        soft=shoring.softest(unmarked, plate["F_c_perp"]) if plate is not None else unmarked,
        joist_spacing=temporary.joist_spacing,
        joist_breadth=temporary.joist_breadth,
        under_joists=temporary.studs_under_joists == "yes",
        spots=held.spots,
        point_stud=lumber(temporary.point_stud, "temporary.point_stud") if temporary.point_stud else None,
    )


def _posts(work: Work, held: _Held) -> list[Value]:
    spacing = work.temporary.post_spacing
    return held.loads_at(spacing, "temporary post") if spacing is not None else []


def _reach(survey: Survey, work: Work, wall: TemporaryWall) -> list[Item]:
    """With one temporary wall, whether the joists of the other side reach it."""
    temporary = work.temporary
    other = "B" if wall.side == "A" else "A"
    beyond = [item for item in survey.carried if item.kind in JOISTED and work.span(item, other).number > 0]
    ending = [item for item in beyond if item.continuity != "one piece"]
    if temporary.sides == "both" or not ending:
        return []
    lap = temporary.lap
    if any(item.continuity == "butted" for item in ending):
        lap = taken("l_reach", 0.0, "butted joists end on the wall that goes", unit="ft")
    elif lap is None:
        need = "how far the joists of the other side run past the middle of the wall towards the only temporary wall"
        return [Missing("temporary.lap", "Lap of the joists", need)]
    text = temporary.top_plate or temporary.stud
    if not text:
        need = "the plate on which they are to rest; in the survey: temporary.top_plate"
        return [Missing("temporary.reach", "Lap of the joists", need)]
    check: Check = shoring.check_reach(wall.set_back, lumber(text, "temporary.top_plate").d, lap)
    return [check]


def lumber(text: str, where: str) -> Member:
    """The member, if it is dimension lumber. Raises InputError for anything else."""
    member = read_member(text, where)
    if member.kind is not Kind.DIMENSION:
        mend = 'studs and plates are dimension lumber here: write it as "2x4 Spruce-Pine-Fir Stud"'
        raise InputError([Fault(where, f"{text!r} is {member.kind}", mend)])
    return member


def _contradictions(survey: Survey, work: Work) -> None:
    """Raise InputError for entries that cannot both be meant."""
    temporary, faults = work.temporary, []
    if temporary.live is not None and temporary.rooms_above != "empty":
        what = "a live load meanwhile is named, but the rooms above stay in use"
        faults.append(Fault("temporary.live", what, 'leave it out, or write rooms_above = "empty" if they will be'))
    if temporary.sides != "both" and not sides(work):
        what = f"a temporary wall on side {temporary.sides} alone, where no joists are"
        faults.append(Fault("temporary.sides", what, "mend it, or the spans of what is carried"))
    for side in sides(work):
        faults += _far_off(survey, work, side)
    if faults:
        raise InputError(faults)


def _far_off(survey: Survey, work: Work, side: str) -> list[Fault]:
    """A temporary wall that stands in the old one, or past the middle of the joists that it is to hold."""
    distance = work.temporary.set_back_a if side == "A" else work.temporary.set_back_b
    if distance is None:
        return []
    where, told = f"temporary.set_back_{side.lower()}", units.format_length(float(distance.to("in")))
    spans = [work.span(item, side) for item in survey.carried if item.kind in JOISTED]
    shortest = min(float(span.to("in")) for span in spans if span.number > 0)
    if 2 * float(distance.to("in")) > shortest:
        mend = f"the joists of side {side} span {units.format_length(shortest)}: set the wall within half of that"
        return [Fault(where, f"{told} is past the middle of the joists", mend)]
    thickness = survey.wall.thickness
    if thickness is not None and 2 * float(distance.to("in")) < float(thickness.to("in")):
        what = f"{told} lies inside the wall that goes, {units.format_length(float(thickness.to('in')))} thick"
        return [Fault(where, what, "measure from the middle of that wall to the middle of the temporary one")]
    return []
