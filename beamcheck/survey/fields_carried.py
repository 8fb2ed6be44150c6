"""Keys of what comes down on the wall; which of them an item has goes by its kind."""

from beamcheck.survey.entry import ANY_NUMBER, AREA_LOAD, FORCE, LENGTH, LINE, Field, Section
from beamcheck.units import Dimension

_SPREAD = ("roof", "ceiling", "floor", "wall above", "line")
_SPANNED = ("roof", "ceiling", "floor")
_JOISTS = ("ceiling", "floor")
_ROOFS = ("roof", "strut")
_WEIGHING = (*_SPANNED, "strut", "wall above")

_EXTENT = (
    Field(
        "from",
        "Where it begins, measured along the beam from the centre of the left bearing.",
        "0 ft",
        LENGTH,
        least=-240.0,
        kinds=_SPREAD,
    ),
    Field(
        "to",
        "Where it ends. Left out: to the end of the beam.",
        "9 ft 4 in",
        LENGTH,
        least=-240.0,
        kinds=_SPREAD,
    ),
)

CARRIED = Section(
    "carried",
    "Everything that comes down on the wall, from the roof downwards, one table for each.",
    (
        Field("name", "A short name.", "bedroom floor", required=True),
        Field(
            "kind",
            "What it is.",
            "floor",
            choices=("roof", "ceiling", "floor", "wall above", "strut", "point", "line"),
            required=True,
            why="Each kind comes down on the wall in its own way.",
            measure="roof: rafters that rest on the wall; ceiling: attic joists; floor: joists of a floor above; wall "
            "above: a wall that stands over this one; strut: a roof brace whose foot is on it; point, line: a load "
            "that someone has already worked out.",
        ),
        *_EXTENT,
        Field(
            "span_a",
            "Span on side A of the wall: face of the far support to the wall.",
            "12 ft 3 in",
            LENGTH,
            required=True,
            least=0.0,
            most=600.0,
            kinds=_SPANNED,
            why="The wall holds up about half of what spans on to it from each side.",
            measure="Call one side of the wall A and keep to it. Along a joist: face of the wall or girder that holds "
            "its far end, to the face of this wall. Write 0 in if nothing spans on to this side.",
        ),
        Field(
            "span_b",
            "Span on side B of the wall.",
            "10 ft 8 in",
            LENGTH,
            required=True,
            least=0.0,
            most=600.0,
            kinds=_SPANNED,
        ),
        Field(
            "continuity",
            "How the joists run over the wall.",
            "lapped",
            choices=("lapped", "butted", "one piece", "unknown"),
            register="continuity",
            kinds=_JOISTS,
            why="Joists in one piece press a quarter harder on the wall, or more.",
        ),
        Field(
            "spacing",
            "Distance from joist to joist, for the hangers of a flush beam.",
            "16 in",
            LENGTH,
            least=4.0,
            most=96.0,
            kinds=_JOISTS,
        ),
        Field(
            "use",
            "What the floor or attic is used for.",
            "sleeping rooms",
            choices=(
                "sleeping rooms",
                "other rooms",
                "attic without storage",
                "attic with limited storage",
                "attic with fixed stair",
            ),
            register="*_use",
            kinds=("floor", "ceiling"),
            why="The live load that the building code asks for goes by the use.",
        ),
        Field(
            "dead",
            "Its weight per square foot: of floor, of ceiling, along the roof slope.",
            "12 psf",
            AREA_LOAD,
            register="*_dead",
            least=0.0,
            most=500.0,
            kinds=(*_SPANNED, "strut"),
        ),
        Field(
            "live",
            "Live load, where it differs from the table's for the use.",
            "40 psf",
            AREA_LOAD,
            least=0.0,
            most=500.0,
            kinds=("floor", "ceiling"),
        ),
        Field(
            "live_reduction",
            "Whether the live load is reduced for the area that the beam gathers, by ASCE 7. Left out: it is not.",
            "none",
            choices=("none", "by area"),
            kinds=("floor",),
            why="A large floor is seldom loaded all over at once. House codes print no such reduction: ask the "
            "building department first.",
        ),
        Field(
            "pitch",
            "Roof pitch, rise in 12.",
            "8:12",
            Dimension.ANGLE,
            required=True,
            least=0.0,
            most=75.0,
            kinds=_ROOFS,
            why="A steeper roof weighs more over each square foot of plan and holds less snow.",
            measure="Hold a level flat with one end on a rafter and measure straight down from the level to the rafter "
            "12 in along it: 8 in there is 8:12.",
        ),
        Field(
            "area",
            "Plan area of roof that a strut gathers, in square feet.",
            "36 ft^2",
            Dimension.AREA,
            required=True,
            least=1.0,
            kinds=("strut",),
            why="All the roof of that area comes down at the foot of the strut.",
            measure="On plan: half-way to the next strut on each side, times half-way to what holds the rafters above "
            "and below it.",
        ),
        Field(
            "height",
            "Height of a wall above.",
            "7 ft 6 in",
            LENGTH,
            register="wall_above_height",
            least=1.0,
            most=480.0,
            kinds=("wall above",),
        ),
        Field(
            "weight",
            "Weight of a wall above per square foot of its face.",
            "20 psf",
            AREA_LOAD,
            register="wall_above_weight",
            least=0.0,
            most=200.0,
            kinds=("wall above",),
        ),
        Field(
            "layers",
            "In place of its weight: what it is made of, from the finish down, with commas between.",
            "hardwood 7/8 in, subfloor 3/4 in, 2x10 at 16 in Douglas Fir-Larch, plaster on wood lath",
            kinds=_WEIGHING,
            many=True,
            why="The weight is then added up layer by layer, and each layer can be looked up.",
            measure="Look at a cut edge: a register, a stair opening, the attic. Framing is size and spacing, a sheet "
            'or slab its name and thickness, anything else its name and weight ("sound mat 1.2 psf"). A second layer '
            "of shingles is written twice. The names are listed by  bearline tables layers",
        ),
        Field(
            "station",
            "Where a strut or point comes down, from the centre of the left bearing.",
            "5 ft 2 in",
            LENGTH,
            required=True,
            least=-240.0,
            kinds=("strut", "point"),
            measure="Call one end of the wall the left one and keep to it. Tape from the middle of the end post there.",
        ),
        Field(
            "foot_length",
            "Length along the beam of what stands there: foot of the strut, post, or plate under it. For a steel beam.",
            "3-1/2 in",
            LENGTH,
            register="point_foot",
            most=48.0,
            kinds=("strut", "point"),
        ),
        Field("dead_load", "Dead part of a point load.", "800 lb", FORCE, least=ANY_NUMBER, kinds=("point",)),
        Field("live_load", "Live part of a point load.", "1200 lb", FORCE, kinds=("point",)),
        Field("roof_live_load", "Roof live part of a point load.", "600 lb", FORCE, kinds=("point",)),
        Field("snow_load", "Snow part of a point load.", "900 lb", FORCE, kinds=("point",)),
        Field("dead_line", "Dead part of a line load.", "90 plf", LINE, least=ANY_NUMBER, kinds=("line",)),
        Field("live_line", "Live part of a line load.", "200 plf", LINE, kinds=("line",)),
        Field("roof_live_line", "Roof live part of a line load.", "100 plf", LINE, kinds=("line",)),
        Field("snow_line", "Snow part of a line load.", "150 plf", LINE, kinds=("line",)),
    ),
    repeated=True,
)
