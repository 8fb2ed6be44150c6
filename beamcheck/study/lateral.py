"""A screen for wind and earthquake: how much wall goes, how much stays that way, and the question. No verdict."""

from beamcheck.standards import fit
from beamcheck.study.stops import question
from beamcheck.survey.model import Survey
from beamcheck.tables import load
from beamcheck.trace import Item, Schedule, Value, looked


def lateral_items(survey: Survey) -> list[Item]:
    """Length of wall lost in its direction, walls that stay, and what to ask."""
    found: list[Item] = [survey.wall.clear_opening.named("wall that goes, of all that run its way")]
    if survey.wall.braces_seen == "yes":
        found.append(question("house.lateral_brace", "lateral brace"))
    found.append(question("house.lateral", "lateral"))
    if not survey.other_walls:
        return found
    rows: list[tuple[str | Value, ...]] = [
        (wall.name, wall.length, wall.distance, wall.braced or "unknown") for wall in survey.other_walls
    ]
    l_stay = survey.other_walls[0].length
    for wall in survey.other_walls[1:]:
        l_stay = fit.lengths_together(l_stay=l_stay, l_more=wall.length)
    lost = fit.share_lost(l_lost=survey.wall.clear_opening, l_stay=l_stay)
    heads = ("wall", "length", "how far off", "brace seen")
    return [
        *found,
        Schedule("house.other_walls", "Walls that stay and run the same way", heads, tuple(rows)),
        lost.named("part of the wall length in this direction that goes"),
        _usual(),
        question("house.side_walls", "side walls"),
    ]


def _usual() -> Schedule:
    rows = tuple(
        (
            row.text("region"),
            looked(row, "distance", "l_apart"),
            f"{row.source}; {row.text('note')}",
        )
        for row in load("practice/bracing").rows
    )
    title = "How near the next braced wall is usually looked for: ask, do not count on it"
    return Schedule("house.bracing", title, ("where", "distance", "from"), rows)
