"""Keys of what a survey may ask beyond one study: which beams to try, within which limits."""

from beamcheck.survey.entry import FORCE, LENGTH, Field, Section
from beamcheck.units import Dimension

FAMILIES = ("sawn", "timber", "LVL", "PSL", "LSL", "glulam", "steel")

OPTIONS = Section(
    "options",
    "Which beams  bearline options  tries, and what they must keep to. What is left out sets no limit.",
    (
        Field(
            "families",
            "Kinds of beam to try, with commas between them.",
            "sawn, LVL",
            choices=FAMILIES,
            many=True,
        ),
        Field("species", "Species of sawn lumber and timber at the yard, with commas.", "Southern Pine", many=True),
        Field("greatest_depth", "No beam deeper than this.", "12 in", LENGTH, least=2.0, most=48.0),
        Field("greatest_breadth", "No beam broader than this, such as the wall.", "5-1/2 in", LENGTH, least=1.0),
        Field("greatest_piece_weight", "No piece heavier than this, to be lifted in by hand.", "180 lb", FORCE),
        Field(
            "greatest_utilisation",
            "No check worked harder than this share of its limit.",
            "0.90",
            Dimension.NUMBER,
            least=0.05,
            most=1.0,
        ),
        Field("most_plies", "No more plies than this.", "3", Dimension.NUMBER, least=1.0, most=6.0),
    ),
    optional=True,
    called="wanted",
)

EXPLORE: tuple[Section, ...] = (OPTIONS,)
