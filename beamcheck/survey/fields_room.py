"""Keys of the rest of the room: headroom, what stands close, holes, heavy things and the walls that stay."""

from beamcheck.survey.entry import AREA_LOAD, FORCE, LENGTH, Field, Section
from beamcheck.units import Dimension

ROOM = Section(
    "room",
    "Whether the beam leaves headroom and can be carried in.",
    (
        Field(
            "beam_wrap",
            "Thickness of the finish under the beam.",
            "5/8 in",
            LENGTH,
            register="beam_wrap",
            most=12.0,
        ),
        Field(
            "floor_added",
            "Thickness of new floor that is to be laid on the old one.",
            "0 in",
            LENGTH,
            register="floor_added",
            most=12.0,
        ),
        Field(
            "piece_length",
            "Length to which the plies are ordered. Left out: from the posts.",
            "15 ft",
            LENGTH,
            least=12.0,
        ),
        Field(
            "door_width", "Narrowest clear doorway or window on the way in.", "2 ft 7 in", LENGTH, least=6.0, most=240.0
        ),
        Field(
            "turn_width",
            "Clear width of the hall or room in which a piece must turn square before or after that doorway.",
            "3 ft 4 in",
            LENGTH,
            least=6.0,
            most=600.0,
        ),
        Field(
            "straight_run",
            "Clear length straight through that doorway, if a piece need not turn.",
            "20 ft",
            LENGTH,
            least=12.0,
            most=1200.0,
        ),
    ),
    optional=True,
)

NEIGHBOUR = Section(
    "neighbour",
    "Things that stand close to a post: a bookcase, a door casing, a piano.",
    (
        Field("name", "What it is.", "door casing to the hall", required=True),
        Field("post", "Number of the post, from the left.", "2", Dimension.NUMBER, required=True, least=1.0, most=7.0),
        Field("gap", "Gap planned between the bare post and it.", "1-1/4 in", LENGTH, required=True, most=240.0),
        Field(
            "wrap",
            "Thickness of the finish on that face of the post.",
            "3/4 in",
            LENGTH,
            register="post_wrap",
            most=12.0,
        ),
        Field(
            "plate_projection",
            "How far a base plate, cap plate or bolt head stands out on that face.",
            "1/4 in",
            LENGTH,
            register="plate_projection",
            most=12.0,
        ),
        Field(
            "height",
            "Height over which the two stand side by side. Left out: the whole post.",
            "7 ft",
            LENGTH,
            most=360.0,
        ),
    ),
    repeated=True,
    optional=True,
    called="neighbours",
)

HOLE = Section(
    "hole",
    "Holes to be drilled across the beam, and what hangs from it.",
    (
        Field("name", "What it is for.", "cable of the lamp", required=True),
        Field("diameter", "Diameter of the hole.", "3/4 in", LENGTH, required=True, least=0.0625, most=24.0),
        Field(
            "station", "Where, along the beam from the centre of the left bearing.", "6 ft 9 in", LENGTH, required=True
        ),
        Field("from_top", "From the beam's top edge to the centre of the hole.", "7 in", LENGTH, most=60.0),
        Field("hangs", "Weight that hangs there.", "12 lb", FORCE, most=1e5),
    ),
    repeated=True,
    optional=True,
    called="holes",
)

HEAVY = Section(
    "heavy",
    "Heavy things that are to stand on joists that are there: a piano, an island with a stone top.",
    (
        Field("name", "What it is.", "grand piano", required=True),
        Field(
            "weight", "Its whole weight with what is on and in it.", "750 lb", FORCE, required=True, least=1.0, most=1e5
        ),
        Field(
            "top_layers",
            "What its top is made of, from the surface down, with commas between: then the weight is told without it.",
            "granite 3 cm, plywood 3/4 in",
            many=True,
        ),
        Field("top_area", "Area of that top, in square feet.", "21 ft^2", Dimension.AREA, least=0.1, most=500.0),
        Field(
            "along",
            "Length of its base, or between its outer legs, along the joists; of the base, not of the top.",
            "5 ft 2 in",
            LENGTH,
            required=True,
            least=1.0,
            most=360.0,
        ),
        Field("across", "The same across the joists.", "4 ft 10 in", LENGTH, required=True, least=1.0, most=360.0),
        Field(
            "legs",
            "Number of legs it stands on. Left out: it stands on its base.",
            "3",
            Dimension.NUMBER,
            least=1.0,
            most=12.0,
        ),
        Field(
            "lasting",
            "Whether it is to stay there for good.",
            "yes",
            choices=("yes", "no"),
            register="heavy_lasting",
        ),
        Field("joist", "Size and grade of the joists under it.", "2x8 unknown"),
        Field("joist_span", "Span of these joists.", "12 ft", LENGTH, least=12.0, most=480.0),
        Field(
            "joist_spacing",
            "Middle to middle of these joists.",
            "16 in",
            LENGTH,
            register="joist_spacing",
            least=3.0,
            most=48.0,
        ),
        Field(
            "station",
            "From the joists' left support to the middle of it. Left out: the middle of the span.",
            "4 ft",
            LENGTH,
        ),
        Field("dead", "Weight of that floor.", "12 psf", AREA_LOAD, register="floor_dead", most=500.0),
        Field(
            "live",
            "Live load of that floor beside it. Left out: the table's for rooms.",
            "40 psf",
            AREA_LOAD,
            most=500.0,
        ),
        Field(
            "finish",
            "Floor under it.",
            "wood or carpet",
            choices=("wood or carpet", "tile", "stone"),
            register="floor_finish",
        ),
        Field("top", "Whether it has a top of stone.", "stone", choices=("stone", "other"), register="heavy_top"),
        Field(
            "joists_changed",
            "Whether these joists are among those cut, notched or moved to a new support.",
            "no",
            choices=("yes", "no", "unknown"),
            register="joists_changed",
        ),
    ),
    repeated=True,
    optional=True,
)

OTHER_WALL = Section(
    "other_wall",
    "Walls that stay and run the same way as the wall that goes: what may still brace the house in that direction.",
    (
        Field("name", "Which wall.", "wall of the stair", required=True),
        Field("length", "Its length without doors and wide openings.", "11 ft", LENGTH, required=True, most=2400.0),
        Field("distance", "How far it stands from the wall that goes.", "9 ft", LENGTH, required=True, most=2400.0),
        Field(
            "braced",
            "Whether a sheathing, brace or strap was seen in it.",
            "unknown",
            choices=("yes", "no", "unknown"),
        ),
    ),
    repeated=True,
    optional=True,
    called="other_walls",
)
