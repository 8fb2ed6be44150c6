"""Keys of what is asked, of snow and soil, and of the wall that goes."""

from beamcheck.survey.entry import AREA_LOAD, LENGTH, Field, Section

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
        Field(
            "second_method",
            "A second method of design to show beside allowable stress design, for an engineer who works by it.",
            "LRFD",
            choices=("none", "LRFD"),
        ),
        Field("question", "What you want the engineer to answer, in your words."),
    ),
    called="about",
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
        Field(
            "no_other",
            "Of which kinds nothing comes down on this wall but what is told: looked for all along it, not found. "
            "With commas between them.",
            "roof, ceiling",
            choices=("roof", "ceiling", "floor", "wall above"),
            many=True,
            why="What is not told counts as nothing, and the beam then looks as if it had room to spare.",
            measure="Look from the attic, through a closet ceiling, or up from a hole in the ceiling: all along the "
            "wall, and a joist's length to both sides. Name a kind only where you have looked.",
        ),
    ),
)

HOUSE: tuple[Section, ...] = (STUDY, SITE, WALL)
