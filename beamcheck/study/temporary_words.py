"""What is said about temporary support beside its checks: loads counted and left out, questions, order of work."""

from beamcheck.checks.shoring_loads import JOISTED, TemporaryWall, Work, counted_live
from beamcheck.study.stops import question
from beamcheck.tables import load
from beamcheck.takedown.live import live_of
from beamcheck.takedown.sources import LOAD_WORDS
from beamcheck.trace import Item, Refer, Schedule, Value

PRACTICE = "common practice, no source"


def loads(walls: tuple[TemporaryWall, ...]) -> Schedule:
    """What each temporary wall holds, row by row."""
    rows: list[tuple[str | Value, ...]] = []
    for wall in walls:
        for source in (*wall.rows, *wall.points):
            amount = source.w or source.P
            assert amount is not None
            where = "all along" if source.station is None else source.station
            rows.append((wall.side, source.name, LOAD_WORDS[source.load_type], where, amount))
    heads = ("side", "what", "load", "at", "plf or lb")
    return Schedule("temporary.loads", "What each temporary wall holds", heads, tuple(rows))


def left_out(work: Work) -> Schedule:
    """Which loads are not counted while the wall is out, and why."""
    rows: list[tuple[str | Value, ...]] = []
    for item in work.carried:
        if item.kind in JOISTED:
            counted = counted_live(work, item)
            if counted is work.temporary.live:
                why = "its rooms are kept empty"
                rows.append((f"{item.name}: part of the live load", why, live_of(item), counted))
    if work.temporary.snow == "out of season":
        rows.append(("snow", "the wall is out in a season without snow", "", "none"))
    rows += [
        ("the beam, its posts and new finishes", "they come in when the house rests on them", "", "none"),
        ("boards and rubble stacked on the floor above", "nothing may be stacked there", "", "none"),
        ("wind and earthquake", "not part of this study; the temporary walls need braces of their own", "", "none"),
    ]
    heads = ("what", "why", "in full", "counted")
    return Schedule("temporary.left_out", "Loads that are left out meanwhile", heads, tuple(rows))


def questions(work: Work, walls: tuple[TemporaryWall, ...]) -> list[Item]:
    """What remains to be asked of the engineer about the temporary support."""
    temporary, found = work.temporary, ["design"]
    if len([item for item in work.carried if item.kind in JOISTED]) > 1:
        found.append("floors")
    if any(wall.points for wall in walls):
        found.append("points")
    found.append("overhang")
    apart = temporary.stud_spacing
    if (
        temporary.studs_under_joists != "yes"
        and apart is not None
        and float(temporary.joist_spacing.to("in")) < float(apart.to("in"))
    ):
        found.append("between studs")
    if temporary.post_spacing is not None:
        found.append("posts")
    if temporary.sides != "both":
        found.append("one side")
    asked = [question(f"temporary.{key.replace(' ', '_')}", f"temporary {key}") for key in found]
    return [*asked, _below(work)]


def _below(work: Work) -> Item:
    stands_on = work.temporary.stands_on
    if stands_on != "unknown":
        return question("temporary.stands_on", f"temporary {stands_on}")
    why = "Nobody has seen what is under the temporary walls, and a floor can be too weak for them"
    ask = "What carries them, down to the ground?"
    seen = "once it is seen, temporary.stands_on tells it"
    return Refer("temporary.stands_on", "What the temporary walls stand on", f"{why}; {seen}", ask)


def order_of_work() -> tuple[Schedule, Schedule]:
    """The order of the work with its hold points, and when to stop."""
    steps = tuple(
        (row.text("order"), row.text("step"), row.text("hold")) for row in load("practice/shoring_sequence").rows
    )
    stops = tuple((row.text("trigger"), row.text("then")) for row in load("practice/stop_work").rows)
    return (
        Schedule("temporary.order", f"Order of the work ({PRACTICE})", ("step", "what", "hold"), steps),
        Schedule("temporary.stop", f"When to stop ({PRACTICE})", ("if", "then"), stops),
    )
