"""From survey, layout and a solved line to what the checks of beam and posts are given: of one line or of many."""

from functools import reduce

from beamcheck.catalogue.members import Member
from beamcheck.checks.beam import BeamDesign, EndNotch, least_bearing
from beamcheck.checks.demands import Demands
from beamcheck.checks.post import AxialCase, PostDesign
from beamcheck.checks.wood import Bracing, Conditions
from beamcheck.errors import Fault, InputError
from beamcheck.study.layout import Layout
from beamcheck.study.limits import deflection_rows
from beamcheck.study.seats import seat_eccentricity
from beamcheck.study.stops import plate_value
from beamcheck.survey.model import Survey
from beamcheck.tables import lookup
from beamcheck.trace import Check, Value, either, looked


def conditions(survey: Survey) -> Conditions:
    """What surrounds the beam, and whether its plies share their load."""
    return Conditions(survey.beam.moisture, "plies" if survey.beam.plies_share == "yes" else "no")


def beam_design(survey: Survey, member: Member, layout: Layout, loaded: Demands) -> BeamDesign:
    """What the checks of the beam are given."""
    return BeamDesign(
        member,
        loaded,
        layout.seats,
        _top_edge(survey, layout, loaded),
        Bracing(_longest_below(survey, layout)),
        survey.beam.position,
        conditions(survey),
        deflection_rows(survey),
        notch=end_notch(survey),
    )


def end_notch(survey: Survey) -> EndNotch | None:
    """The notch at both ends of the beam. Raises InputError where the survey's entries contradict each other."""
    below, above, reach = (getattr(survey.beam, f"end_notch_{part}") for part in ("bottom", "top", "reach"))
    if below is None and above is None:
        return None
    if below is not None and above is not None:
        what = "goes with a notch from one side, and the beam has one from both"
        raise InputError([Fault("beam.end_notch_top", what, "ask the engineer; a study counts one of them")])
    overhangs = (survey.beam.overhang_left, survey.beam.overhang_right)
    if any(overhang is not None and overhang.number > 0 for overhang in overhangs):
        what = "is over an end bearing, and the beam runs past it"
        where = "bottom" if above is None else "top"
        raise InputError([Fault(f"beam.end_notch_{where}", what, "leave it out, or mend the overhangs")])
    return EndNotch("above", above, reach) if above is not None else EndNotch("below", below)


def _top_edge(survey: Survey, layout: Layout, loaded: Demands) -> Bracing:
    beam = survey.beam
    if beam.top_edge == "held":
        return Bracing(None)
    l_u = beam.unbraced_length or _longest(layout)
    everywhere = all(source.w is not None and source.start is source.end is None for source in loaded.sources)
    uniform = len(layout.line.bays) == 1 and everywhere and beam.unbraced_length is None
    return Bracing(l_u, "uniform" if uniform else "any other")


def _longest(layout: Layout) -> Value:
    return _greatest(layout.spans)


def _longest_below(survey: Survey, layout: Layout) -> Value:
    """The longest stretch of bottom edge between points that hold it: a span, or an overhang to its free end."""
    overhangs = (survey.beam.overhang_left, survey.beam.overhang_right)
    return _greatest((*layout.spans, *(overhang for overhang in overhangs if overhang is not None)))


def _greatest(lengths: tuple[Value, ...]) -> Value:
    return reduce(lambda known, length: either(length.number > known.to(length.unit), length, known), lengths)


def axial_cases(loaded: Demands, number: int) -> tuple[AxialCase, ...]:
    """The load of a post, by its number from 0, under each combination."""
    return tuple(
        AxialCase(*_pushed(loaded, which, number, combination.C_D))
        for which, combination in enumerate(loaded.combinations)
    )


def _pushed(loaded: Demands, which: int, number: int, C_D: Value) -> tuple[Value, Value, str]:
    P, case = loaded.push(which, number, "P")
    return P, C_D, case


def post_design(survey: Survey, number: int, layout: Layout, cases: tuple[AxialCase, ...]) -> PostDesign:
    """What the checks of a post, by its number from 0, are given."""
    post = survey.posts[number]
    return PostDesign(
        f"post[{number + 1}]",
        layout.posts[number],
        survey.height_of(number),
        cases,
        post.held,
        post.fastening,
        seat_eccentricity(layout.seats[number], post),
        None if post.plate == "none" else plate_value(post.plate, f"{post.where}.plate"),
        Conditions(survey.beam.moisture),
        layout.seats[number].off,
    )


def shortest_seat(number: int, layout: Layout) -> Check:
    """The least bearing length that the house code asks for, at a post by its number from 0."""
    least = lookup("irc_2021/bearing_minimum", on="wood or metal")
    return least_bearing(f"post[{number + 1}]", looked(least, "length", "l_b_min"), layout.seats[number])
