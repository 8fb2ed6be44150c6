"""One beam or one post from figures typed on the command line: the same checks as a whole study, no survey."""

from dataclasses import dataclass

from beamcheck import units
from beamcheck.beam.model import Line
from beamcheck.catalogue.members import Member
from beamcheck.checks.beam import BeamDesign, Seat, check_beam, reaction
from beamcheck.checks.lines import Loaded, load_line
from beamcheck.checks.post import AxialCase, PostDesign, check_post
from beamcheck.checks.wood import Bracing, Conditions
from beamcheck.errors import Fault, InputError
from beamcheck.standards import nds_2018 as nds
from beamcheck.standards import statics
from beamcheck.study.limits import yardsticks
from beamcheck.study.stops import plate_value
from beamcheck.tables import lookup
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.snow import EDITIONS
from beamcheck.takedown.sources import LOAD_WORDS, Combination, Source
from beamcheck.trace import Given, Item, Note, Sheet, Solved, Trust, Value
from beamcheck.units import Dimension

_POINT = 'write it as "3,200 lb dead at 5 ft"; the load may be dead, live, roof live or snow'


def given(option: str, text: str, dimension: Dimension, *, least: float = 0.0, most: float = 1e7) -> Value:
    """An option's text as a stated Value. Raises InputError."""
    try:
        number = units.parse(text, dimension, minimum=least)
    except units.UnitFault as fault:
        raise InputError([Fault(option, str(fault), fault.wanted)]) from None
    if number > most:
        unit = units.base_unit(dimension)
        raise InputError([Fault(option, f"{text} is more than {most:g} {unit}", "no house holds such a figure")])
    return Value(
        option.lstrip("-").replace("-", "_"),
        number,
        units.base_unit(dimension),
        Given(option, Trust.STATED, text),
    )


def point(text: str, number: int) -> Source:
    """A point load from text such as "3,200 lb dead at 5 ft". Raises InputError."""
    option = f"--point {number}"
    load, at, where = text.partition(" at ")
    for name, words in LOAD_WORDS.items():
        amount = load.strip().removesuffix(words)
        if amount != load.strip() and not (words == "live" and amount.rstrip().endswith("roof")):
            P = given(option, amount.strip(), Dimension.FORCE, least=-1e6, most=1e6)
            if not at:
                break
            return Source(option, f"point {number}", name, P=P, station=given(option, where.strip(), Dimension.LENGTH))
    raise InputError([Fault(option, f"{text!r} cannot be read", _POINT)])


def line_source(option: str, text: str, load_type: str) -> Source:
    """A load along the whole span. Raises InputError."""
    return Source(
        option,
        f"{LOAD_WORDS[load_type]} load",
        load_type,
        w=given(option, text, Dimension.LINE_LOAD, most=1e5),
    )


@dataclass(frozen=True, slots=True, eq=False)
class BeamAsked:
    """Options of one beam. unbraced: None if the top edge is held all along; bearing: None if it was not given."""

    edition: str
    unbraced: Value | None
    bearing: Value | None
    position: str
    at: Conditions


@dataclass(frozen=True, slots=True, eq=False)
class PostAsked:
    """Options of one post. eccentricity: None for the register's share; plate: the species under it."""

    edition: str
    held: str
    fastening: str
    eccentricity: Value | None
    plate: str
    at: Conditions


def beam_sheet(member: Member, span: Value, sources: tuple[Source, ...], asked: BeamAsked) -> Sheet:
    """A simple span with its checks."""
    loaded = _loaded(member, span, sources, asked.edition)
    points = any(source.P is not None for source in sources)
    full = asked.unbraced is not None and abs(float(asked.unbraced.number) - float(span.number)) < 1e-6
    bracing = Bracing(asked.unbraced, "uniform" if full and not points else "any other")
    seat = Seat(asked.bearing, member.b)
    limits = (
        lookup("irc_2021/deflection", member="floors"),
        lookup("ibc_2021/deflection", member="floor member", load="D+L"),
    )
    design = BeamDesign(member, loaded, (seat, seat), bracing, Bracing(span), asked.position, asked.at, limits)
    parts: list[Item] = [*check_beam(design), yardsticks(design)]
    if asked.bearing is None:
        parts += [
            reaction(loaded, support)[0].named(f"reaction at the {end} bearing")
            for support, end in enumerate(("left", "right"))
        ]
        parts.append(Note("Bearing is not checked: give --bearing, the length of beam that rests on each post."))
    parts += [Note(remark) for remark in member.remarks]
    return Sheet("beam", f"Beam: {member.text}, span {units.format_length(float(span.number))}", tuple(parts))


def _loaded(member: Member, span: Value, sources: tuple[Source, ...], edition: str) -> Loaded:
    if member.density is not None:
        weight = statics.self_weight(gamma=member.density, A=nds.area(b=member.b, d=member.d))
        sources = (*sources, Source("--member", "the beam itself", "D", w=weight))
    present = frozenset(source.load_type for source in sources)
    line = Line((0.0, float(span.number)))
    return load_line(line, (span,), sources, combinations(EDITIONS[edition], present))


def post_sheet(member: Member, height: Value, loads: dict[str, Value], asked: PostAsked) -> Sheet:
    """A post with its checks under every combination of its loads by type."""
    cases = tuple(
        AxialCase(summed(combination, loads), combination.C_D, combination.name)
        for combination in combinations(EDITIONS[asked.edition], frozenset(loads))
    )
    plate = plate_value(asked.plate, "--plate")
    design = PostDesign("post", member, height, cases, asked.held, asked.fastening, asked.eccentricity, plate, asked.at)
    parts = (*check_post(design), *(Note(remark) for remark in member.remarks))
    return Sheet("post", f"Post: {member.text}, {units.format_length(float(height.number))} high", parts)


def summed(combination: Combination, loads: dict[str, Value]) -> Value:
    """The load of a post under a combination."""
    terms = [(name, g) for name, g in combination.factors.items() if name in loads]
    number = sum(float(g.number) * float(loads[name].number) for name, g in terms)
    inputs = tuple((f"g_{name}", g) for name, g in terms) + tuple((f"P_{name}", loads[name]) for name, _ in terms)
    return Value("P", number, "lb", Solved(f"sum of {combination.name}", inputs))
