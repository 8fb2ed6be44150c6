"""Keys of what stands under the posts, girders and pads, and of the roof that cut joists tie: all may be left out."""

from beamcheck.survey.entry import AREA_LOAD, LENGTH, LINE, Field, Section
from beamcheck.units import Dimension

_LINES = tuple(
    Field(
        f"{key}_line",
        f"{word} part of other loads per foot that it carries already, over its whole length.",
        text,
        LINE,
    )
    for key, word, text in (
        ("dead", "Dead", "60 plf"),
        ("live", "Live", "120 plf"),
        ("roof_live", "Roof live", "100 plf"),
        ("snow", "Snow", "150 plf"),
    )
)

GIRDER = Section(
    "girder",
    "A girder below that posts come down on, with what it carries already, one table for each.",
    (
        Field("name", "A short name, by which a pad can say what it is under.", "cellar girder", required=True),
        Field("member", "Plies, size and grade.", "3-ply 2x10 Douglas Fir-Larch No.2", required=True),
        Field(
            "supports",
            "Centres of its piers, columns and walls from its left end, with commas between them.",
            "0 ft, 7 ft 6 in, 15 ft",
            LENGTH,
            required=True,
            most=1200.0,
            many=True,
        ),
        Field("posts", "Which posts stand on it, with commas between them.", "post 1", many=True),
        Field(
            "post_stations",
            "Where they stand, each from the same end as the supports, in the order of the posts.",
            "6 ft 10 in",
            LENGTH,
            most=1200.0,
            many=True,
        ),
        Field(
            "bearing_length",
            "Length of girder that rests on each pier or wall, the shortest of them.",
            "3-1/2 in",
            LENGTH,
            least=0.25,
            most=48.0,
        ),
        Field(
            "position",
            "Under its joists or with the joists on its sides.",
            "dropped",
            choices=("dropped", "flush"),
            register="girder_position",
        ),
        Field(
            "top_edge",
            "Whether joists hold the top edge sideways all along.",
            "held",
            choices=("held", "not held"),
            register="top_edge",
        ),
        Field("moisture", "Dry, or wet as in a damp crawl space.", "dry", choices=("dry", "wet"), register="moisture"),
        Field("span_a", "Span of the joists that it carries already, side A.", "12 ft 3 in", LENGTH, most=600.0),
        Field("span_b", "Span of those joists, side B; 0 in if there are none.", "10 ft 8 in", LENGTH, most=600.0),
        Field(
            "continuity",
            "How those joists run over the girder.",
            "lapped",
            choices=("lapped", "butted", "one piece", "unknown"),
            register="continuity",
        ),
        Field(
            "use",
            "What the floor on them is used for.",
            "other rooms",
            choices=("sleeping rooms", "other rooms"),
            register="floor_use",
        ),
        Field("dead", "Weight of that floor.", "12 psf", AREA_LOAD, register="floor_dead", most=500.0),
        Field("live", "Live load, where it differs from the table's for the use.", "40 psf", AREA_LOAD, most=500.0),
        *_LINES,
        Field("note", "Anything the engineer should know about it."),
    ),
    repeated=True,
    optional=True,
    most=10,
    called="girders",
)

PAD = Section(
    "pad",
    "A concrete pad on the soil, one table for each.",
    (
        Field(
            "under",
            "What stands on it: a post, or a support of a girder by its number from the left.",
            "post 2",
            required=True,
        ),
        Field("state", "There already, or to be made.", "new", choices=("existing", "new"), required=True),
        Field(
            "length",
            "Side along the beam. Of a new pad: both sides left out, the sides that the soil needs.",
            "24 in",
            LENGTH,
            least=4.0,
            most=240.0,
        ),
        Field("breadth", "Side across the beam.", "24 in", LENGTH, least=4.0, most=240.0),
        Field("thickness", "Thickness of the concrete.", "12 in", LENGTH, least=1.0, most=120.0),
        Field(
            "depth",
            "From the ground or floor above it down to its underside.",
            "16 in",
            LENGTH,
            least=1.0,
            most=240.0,
        ),
        Field(
            "strength",
            "Strength of the concrete. Of a new pad: left out, the least that the code asks for.",
            "2500 psi",
            Dimension.STRESS,
            least=500.0,
            most=12000.0,
        ),
        Field("pier_length", "Side along the beam of the pier or column on it.", "8 in", LENGTH, least=1.0, most=120.0),
        Field("pier_breadth", "Its side across the beam.", "8 in", LENGTH, least=1.0, most=120.0),
        Field(
            "pier_height",
            "Its height, from the pad to the underside of what rests on it.",
            "2 ft 8 in",
            LENGTH,
            most=240.0,
            register="pier_height",
        ),
        Field(
            "pier_material",
            "What it is made of: its weight comes down too, and under masonry the pad bends from nearer its middle.",
            "block",
            choices=("block", "brick", "stone", "concrete", "wood", "steel"),
            register="pier_material",
        ),
        Field("note", "Anything the engineer should know about it."),
    ),
    repeated=True,
    optional=True,
    called="pads",
)

TIES = Section(
    "ties",
    "A roof with a ridge board whose rafters are tied by the joists that a flush beam would cut.",
    (
        Field("span", "Width of the roof between the feet of its rafters.", "24 ft", LENGTH, least=24.0, most=960.0),
        Field("pitch", "Roof pitch, rise in 12.", "4:12", Dimension.ANGLE, least=1.0, most=75.0),
        Field("spacing", "Distance from one tie to the next.", "16 in", LENGTH, least=4.0, most=96.0),
        Field("dead", "Weight of the roof along its slope.", "15 psf", AREA_LOAD, register="roof_dead", most=200.0),
    ),
    optional=True,
)

BELOW: tuple[Section, ...] = (GIRDER, PAD, TIES)
