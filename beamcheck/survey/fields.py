"""Every key that a survey may hold: what it is, what it is for, how to measure it, and what stands in if unknown.

This one list makes the reader's messages, the blank survey, the interview and the reference page.
"""

from beamcheck.survey.entry import ANY_NUMBER, AREA_LOAD, FORCE, LENGTH, LINE, Field, Section
from beamcheck.survey.fields_around import AROUND
from beamcheck.survey.fields_below import BELOW
from beamcheck.survey.fields_explore import EXPLORE
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
        Field(
            "ground_snow",
            "Ground snow load of the place. Nothing can stand in for it.",
            "30 psf",
            AREA_LOAD,
            why="It differs from town to town, and every roof that comes down on the wall brings it along.",
            measure="Ask the building department for the ground snow load, and for the edition of ASCE 7 it goes with.",
        ),
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
            why="It sets the span of the beam: twice the width bends it four times as hard.",
            measure="Mark where the inner faces of the end posts will be; steel tape from mark to mark, near the floor "
            "and near the ceiling. Write the larger.",
        ),
        Field(
            "ceiling_height",
            "Finished floor to underside of the ceiling.",
            "8 ft 1 in",
            LENGTH,
            required=True,
            least=60.0,
            most=240.0,
            why="It sets the height of the posts and the headroom under the beam.",
            measure="Steel tape at both ends and the middle of the wall. Write the largest.",
        ),
        Field(
            "thickness",
            "Wall thickness without plaster or board.",
            "3-1/2 in",
            LENGTH,
            least=1.0,
            most=24.0,
            measure="At a door jamb, with the trim off; take the plaster or board of both faces from it.",
        ),
        Field(
            "house_width",
            "Inside width of the house across the wall, if the joists of both sides run to the outside walls.",
            "23 ft 4 in",
            LENGTH,
            least=24.0,
            most=1200.0,
        ),
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
            "station",
            "Where a strut or point comes down, from the centre of the left bearing.",
            "5 ft 2 in",
            LENGTH,
            required=True,
            least=-240.0,
            kinds=("strut", "point"),
            measure="Call one end of the wall the left one and keep to it. Tape from the middle of the end post there.",
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
        Field(
            "member",
            "Plies, size and grade.",
            "3-ply 1-3/4x11-7/8 LVL 2.0E-2900F",
            required=True,
            why="Every check of the beam is made on it. A first thought will do:  bearline options  tries others.",
            measure="What the yard offers. For a grade that nobody knows write  unknown  in its place: "
            "3-ply 2x12 unknown.",
        ),
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
            least=1.0,
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
            "splices",
            "Stations at which a ply of the beam is to be spliced, with commas between them.",
            "6 ft 9 in",
            LENGTH,
            least=-240.0,
            many=True,
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
        Field(
            "member",
            "Plies, size and grade.",
            "3-ply 2x6 Hem-Fir Stud",
            required=True,
            why="The beam's whole load goes down through the posts.",
            measure="As planned, or for a post that is there: its plies, its size and what the grade stamp says. "
            "Without a stamp write  unknown  for the grade: 3-ply 2x6 unknown.",
        ),
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
            measure="From what the post will stand on to the mark of the beam's underside.",
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
        Field(
            "seat",
            "How the beam rests on the post: on its top or a cap, in a notch, on studs side by side, on a plate.",
            "cap",
            choices=("cap", "notch", "stud pack", "wood plate", "steel plate", "unknown"),
        ),
        Field(
            "notch_depth",
            "How deep the notch goes into the post, measured across the beam.",
            "3-1/2 in",
            LENGTH,
            least=0.25,
            most=48.0,
        ),
        Field(
            "seated_plies",
            "How many plies of the beam rest on the seat with their whole thickness; for a notch.",
            "2",
            choices=("1", "2", "3", "4", "5", "6"),
        ),
        Field("seat_breadth", "Side of the steel plate across the beam.", "5-1/2 in", LENGTH, least=0.5, most=48.0),
        Field("seat_thickness", "Thickness of the steel plate.", "1/2 in", LENGTH, least=0.05, most=4.0),
        Field(
            "gap",
            "How far things may go down by this post before a finish or a fitting shows it.",
            "1/8 in",
            LENGTH,
            most=12.0,
        ),
        Field(
            "fastener",
            "Nail or bolt that joins the plies of a free-standing built-up post.",
            "30d common",
            choices=(
                "10d common",
                "16d common",
                "20d common",
                "30d common",
                "40d common",
                "50d common",
                "60d common",
                "1/2 in bolt",
                "5/8 in bolt",
                "3/4 in bolt",
            ),
        ),
        Field(
            "plate",
            "Species of the plates at the post's ends; none if it stands on metal or concrete.",
            "Hem-Fir",
            register="plate_species",
        ),
        Field(
            "base_length",
            "Side along the beam of a steel plate under the post.",
            "6 in",
            LENGTH,
            least=0.5,
            most=48.0,
        ),
        Field("base_breadth", "Side of that plate across the beam.", "6 in", LENGTH, least=0.5, most=48.0),
        Field(
            "blocking",
            "What carries the load through the floor: blocks as large as the post, or the post itself.",
            "full area",
            choices=("full area", "post runs through", "none", "unknown"),
        ),
        Field(
            "stands_on",
            "What is under the plate, as far as you have seen.",
            "girder",
            choices=(
                "girder",
                "pad",
                "pier",
                "slab",
                "post-tensioned slab",
                "wall below",
                "joists",
                "masonry",
                "unknown",
            ),
            register="stands_on",
            why="The load does not end at the floor: it goes on, link by link, down to the soil.",
        ),
        Field("note", "Anything the engineer should know about it."),
        Field(
            "try_stations",
            "A post between the ends: other stations that  bearline options  is to try, with commas between them.",
            "6 ft 3 in, 7 ft 6 in",
            LENGTH,
            many=True,
        ),
    ),
    repeated=True,
)

SECTIONS: tuple[Section, ...] = (STUDY, SITE, WALL, CARRIED, BEAM, POST, *BELOW, *AROUND, *EXPLORE)
