"""A heavy thing on the joists that are there: its footprint, one joist with its share, and what remains to be asked."""

from beamcheck import units
from beamcheck.catalogue.members import Kind, Member
from beamcheck.catalogue.reading import read_member
from beamcheck.checks.floor import Standing, check_joist
from beamcheck.errors import Fault, InputError
from beamcheck.standards import fit
from beamcheck.study.stops import question
from beamcheck.study.types import as_title, sheet
from beamcheck.survey.around import Heavy
from beamcheck.survey.model import Survey
from beamcheck.tables import Row, lookup
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import EDITIONS
from beamcheck.trace import Item, Missing, Note, Sheet, Value, looked


def heavy_sheet(survey: Survey, heavy: Heavy) -> Sheet:
    """One heavy thing. Raises InputError where it stands off its joists or has half a leg."""
    parts: list[Item] = [*_footprint(heavy), *_joists(survey, heavy)]
    parts.append(question(f"{heavy.where}.floor", "heavy floor"))
    if heavy.joists_changed != "no":
        parts.append(question(f"{heavy.where}.joists", "heavy joists"))
    return sheet(heavy.where, f"{as_title(heavy.name)} on the floor", *parts)


def _footprint(heavy: Heavy) -> list[Item]:
    q_base = fit.footprint_pressure(W_thing=heavy.weight, l_base=heavy.along, b_base=heavy.across)
    told: list[Item] = [q_base.named("weight over the ground it covers")]
    if heavy.top_layers:
        told.insert(0, heavy.weight.named("its whole weight, with its top"))
    if heavy.legs is not None:
        if not float(heavy.legs.number).is_integer():
            mend = "write a whole number, or leave it out for a thing that stands on its base"
            raise InputError([Fault(f"{heavy.where}.legs", f"{heavy.legs.number:g} legs", mend)])
        P_one = fit.leg_load(W_thing=heavy.weight, n_legs=heavy.legs)
        told.append(P_one.named("on each leg, if it stands evenly"))
        told.append(
            Note("Legs seldom share evenly: have them weighed, or think of the heaviest one as more than that.")
        )
    return told


def _joists(survey: Survey, heavy: Heavy) -> list[Item]:
    if not heavy.joist or heavy.joist_span is None:
        return [
            Missing(f"{heavy.where}.joist", "Joists under it", "size, grade and span of the joists on which it stands")
        ]
    _stands_on_its_joists(heavy, heavy.joist_span)
    joist = _joist(heavy)
    live = (
        heavy.live if heavy.live is not None else looked(lookup("irc_2021/live_loads", use="other rooms"), "q", "q_L")
    )
    standing = Standing(
        key=heavy.where,
        joist=joist,
        span=heavy.joist_span,
        spacing=heavy.joist_spacing,
        dead=heavy.dead,
        live=live,
        weight=heavy.weight,
        along=heavy.along,
        across=heavy.across,
        legs=heavy.legs,
        lasting=heavy.lasting == "yes",
        station=heavy.station,
        combinations=combinations(EDITIONS[survey.site.loads], frozenset({"D", "L"})),
        finishes=_finishes(heavy),
    )
    return [*check_joist(standing), *(Note(remark) for remark in joist.remarks)]


def _joist(heavy: Heavy) -> Member:
    where = f"{heavy.where}.joist"
    member = read_member(heavy.joist, where)
    if member.kind is Kind.STEEL:
        raise InputError([Fault(where, f"{heavy.joist!r} is steel", "wood joists can be checked here")])
    return member


def _stands_on_its_joists(heavy: Heavy, span: Value) -> None:
    """Raise InputError for a thing that is longer than its joists, or that stands partly off them."""
    length, half = float(span.to("in")), float(heavy.along.to("in")) / 2
    if 2 * half > length:
        what = f"{units.format_length(2 * half)} long on joists that span {units.format_length(length)}"
        raise InputError([Fault(f"{heavy.where}.along", what, "turn it, or name the joists that carry it")])
    if heavy.station is None:
        return
    station = float(heavy.station.to("in"))
    if not half <= station <= length - half:
        what = f"{units.format_length(station)} puts part of it off the span of {units.format_length(length)}"
        raise InputError([Fault(f"{heavy.where}.station", what, "measure from the joists' left support to its middle")])


def _finishes(heavy: Heavy) -> tuple[Row, ...]:
    """Stiffness that the floor and what stands on it ask for."""
    rows = [lookup("irc_2021/deflection", member="floors")]
    if heavy.finish == "tile":
        rows = [lookup("practice/deflection", member="floor under ceramic tile")]
    if "stone" in (heavy.finish, heavy.top):
        rows.append(lookup("practice/deflection", member="floor under stone"))
    return tuple(rows)
