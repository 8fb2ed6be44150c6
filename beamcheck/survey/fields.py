"""Every key that a survey may hold: what it is, what it is for, how to measure it, and what stands in if unknown.

This one list makes the reader's messages, the blank survey, the interview and the reference page.
"""

from beamcheck.survey.entry import ANY_NUMBER, AREA_LOAD, FORCE, LENGTH, LINE, Field, Section
from beamcheck.survey.fields_around import AROUND
from beamcheck.units import Dimension

__all__ = ["SECTIONS", "Field", "Section"]

STUDY = Section(
    "study",
    "What is being asked, by whom and where.",
    (
        Field("title", "A name for this study.", "Opening between the parlour and the study", required=True),
        Field("address", "One line, as it should stand on the paper.", "14 Larch Lane, Millbrook"),
        Field("year_built", "The year the house was built, or your best guess.", "1954"),
        Field("code", "The building code edition your building department uses.", "IRC 2021"),
        Field("prepared_by", "Who measured and wrote this down.", "A. Owner"),
        Field("date", "The date of the survey.", "2026-03-14"),
        Field("dimensions", "How lengths are printed.", "feet", choices=("feet", "metric")),
        Field("question", "What you want the engineer to answer, in your words."),
    ),
)

SITE = Section(
    "site",
    "Snow and soil. Ask the building department for the ground snow and which edition of ASCE 7 it goes with.",
    (
        Field(
            "loads",
            "The edition of ASCE 7 that the ground snow belongs to. Mixing editions is a gross error.",
            "ASCE 7-16",
            choices=("ASCE 7-16", "ASCE 7-22"),
            register="loads_edition",
        ),
        Field("ground_snow", "Ground snow load of the place. Nothing can stand in for it.", "30 psf", AREA_LOAD),
        Field(
            "exposure",
            "How the wind reaches the roof.",
            "partly exposed",
            choices=("fully exposed", "partly exposed", "sheltered B", "sheltered C"),
            register="exposure",
        ),
        Field(
            "roof_warmth",
            "Whether heat from the house melts the snow.",
            "cold ventilated",
            choices=("heated", "cold ventilated", "unheated", "below freezing"),
            register="roof_warmth",
        ),
        Field(
            "roof_surface",
            "Whether snow slides off.",
            "other",
            choices=("slippery", "other"),
            register="roof_surface",
        ),
        Field(
            "soil_bearing",
            "Allowable soil pressure, from a report or the building department.",
            "1500 psf",
            AREA_LOAD,
            register="soil_bearing",
            least=1.0,
        ),
    ),
)

WALL = Section(
    "wall",
    "The wall that goes, and the opening that takes its place.",
    (
        Field(
            "clear_opening",
            "Clear width between the end posts.",
            "13 ft 6 in",
            LENGTH,
            required=True,
            least=12.0,
            most=720.0,
        ),
        Field(
            "ceiling_height",
            "Finished floor to underside of the ceiling.",
            "8 ft 1 in",
            LENGTH,
            required=True,
            least=60.0,
            most=240.0,
        ),
        Field("thickness", "Wall thickness without plaster or board.", "3-1/2 in", LENGTH, least=1.0, most=24.0),
        Field(
            "braces_seen",
            "Whether a diagonal brace or strap was seen in the wall.",
            "no",
            choices=("yes", "no", "unknown"),
        ),
    ),
)

_SPREAD = ("roof", "ceiling", "floor", "wall above", "line")
_SPANNED = ("roof", "ceiling", "floor")
_JOISTS = ("ceiling", "floor")
_ROOFS = ("roof", "strut")

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
            "How the joists pass over the wall.",
            "lapped",
            choices=("lapped", "butted", "one piece", "unknown"),
            register="continuity",
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
            "pitch",
            "Roof pitch, rise in 12.",
            "8:12",
            Dimension.ANGLE,
            required=True,
            least=0.0,
            most=75.0,
            kinds=_ROOFS,
        ),
        Field(
            "area",
            "Plan area of roof that a strut gathers, in square feet.",
            "36 ft^2",
            Dimension.AREA,
            required=True,
            least=1.0,
            kinds=("strut",),
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
            "station",
            "Where a strut or point comes down, from the centre of the left bearing.",
            "5 ft 2 in",
            LENGTH,
            required=True,
            least=-240.0,
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

BEAM = Section(
    "beam",
    "The beam that is thought of.",
    (
        Field("member", "Plies, size and grade.", "3-ply 1-3/4x11-7/8 LVL 2.0E-2900F", required=True),
        Field(
            "position",
            "Under the joists or within their depth.",
            "dropped",
            choices=("dropped", "flush"),
            required=True,
        ),
        Field(
            "top_edge",
            "Whether joists or sheathing hold the top edge sideways all along.",
            "held",
            choices=("held", "not held"),
            register="top_edge",
        ),
        Field(
            "unbraced_length",
            "Distance between points that hold the top edge, if not held all along.",
            "6 ft",
            LENGTH,
            least=0.0,
        ),
        Field(
            "overhang_left",
            "How far the beam runs past the centre of the first bearing.",
            "0 in",
            LENGTH,
            most=240.0,
        ),
        Field(
            "overhang_right",
            "How far it runs past the centre of the last bearing.",
            "0 in",
            LENGTH,
            most=240.0,
        ),
        Field(
            "moisture",
            "Dry inside a heated house, or wet.",
            "dry",
            choices=("dry", "wet"),
            register="moisture",
        ),
        Field(
            "plies_share",
            "Ask for the repetitive-member factor on three or more plies.",
            "no",
            choices=("yes", "no"),
        ),
        Field(
            "ceiling_below",
            "Finish under the beam or its joists.",
            "gypsum",
            choices=("plaster", "gypsum", "none"),
            register="ceiling_finish",
        ),
        Field(
            "floor_above",
            "Finish on the floor above.",
            "wood or carpet",
            choices=("wood or carpet", "tile", "stone", "none"),
            register="floor_finish",
        ),
    ),
)

POST = Section(
    "post",
    "The posts from left to right, one table for each; the first and the last stand at the ends of the opening.",
    (
        Field("member", "Plies, size and grade.", "3-ply 2x6 Hem-Fir Stud", required=True),
        Field(
            "station",
            "Centre of the post from the centre of the first one. End posts: left out, from the clear opening.",
            "6 ft 9 in",
            LENGTH,
            least=0.0,
        ),
        Field(
            "height",
            "Floor plate to underside of the beam. Left out: the ceiling height.",
            "7 ft 1 in",
            LENGTH,
            least=6.0,
            most=360.0,
        ),
        Field(
            "held",
            "Free-standing, or within a wall that holds it in the wall's plane.",
            "in wall",
            choices=("free", "in wall"),
            register="post_held",
        ),
        Field(
            "fastening",
            "How the plies of a built-up post are joined.",
            "nailed",
            choices=("nailed", "bolted", "not fastened"),
            register="post_fastening",
        ),
        Field(
            "seat_length",
            "Length of beam that rests on the post. Left out: the post's full depth along the beam.",
            "5-1/2 in",
            LENGTH,
            least=0.25,
            most=48.0,
        ),
        Field(
            "eccentricity",
            "How far off the post's centre the beam sits.",
            "1 in",
            LENGTH,
            register="post_eccentricity",
        ),
        Field("plate", "Species of the plate under the post.", "Hem-Fir", register="plate_species"),
        Field(
            "stands_on",
            "What is under the plate, as far as you have seen.",
            "girder",
            choices=(
                "girder",
                "pier",
                "slab",
                "post-tensioned slab",
                "wall below",
                "joists",
                "masonry",
                "unknown",
            ),
            register="stands_on",
        ),
        Field("note", "Anything the engineer should know about it."),
    ),
    repeated=True,
)

SECTIONS: tuple[Section, ...] = (STUDY, SITE, WALL, CARRIED, BEAM, POST, *AROUND)
