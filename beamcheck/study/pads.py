"""A pad on the soil: checked as it is, or sized from its load where it is new and its sides are left out."""

from typing import NamedTuple

from beamcheck.catalogue.members import Member
from beamcheck.checks.pad import PadDesign, Standing, check_pad, least_thickness, needed_side, needed_thickness, weight
from beamcheck.standards import aci318_19 as aci
from beamcheck.study.brought import Brought, factored, greatest
from beamcheck.study.stops import question
from beamcheck.study.types import Link, sheet
from beamcheck.survey.below import Pad
from beamcheck.survey.model import Post, Site
from beamcheck.tables import lookup
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import EDITIONS
from beamcheck.trace import Item, Missing, Note, Value, looked

_SIZED = "sides that were left out come from the load: round them up to what the forms allow"
_ROUNDS = 40
_SETTLED = 1e-9


class Padded(NamedTuple):
    """A pad with its link, and its weight, None where it is not shown."""

    pad: Pad
    link: Link
    weight: Value | None


class _Sizes(NamedTuple):
    l_pad: Value
    b_pad: Value
    h_cast: Value
    sized: frozenset[str]


def put_on_pad(pad: Pad, coming: Brought | None, standing: Standing | None, site: Site) -> Padded:
    """Check or size a pad. coming, standing: what stands on it and its sides; None if not known."""
    title = f"Pad under {pad.under}"
    design = None if coming is None else _design(pad, coming, standing, site)
    parts: list[Item] = []
    if coming is None:
        parts.append(Missing(f"{pad.where}.load", title, f"what comes down on it is not shown: see {pad.under}"))
    elif isinstance(design, Missing):
        parts.append(design)
    elif design is not None:
        parts += _checked(pad, design, standing)
    parts.append(question(f"{pad.where}.{pad.state}", f"{pad.state} pad"))
    if pad.note:
        parts.append(Note(pad.note))
    known = design if isinstance(design, PadDesign) else None
    return Padded(pad, Link(pad.where, title, sheet(pad.where, title, *parts)), weight(known) if known else None)


def post_on_pad(post: Post, member: Member) -> Standing:
    """A post on a pad, with a steel plate under it if it has one: bending is counted from half way to its edge."""
    if post.base_length is None or post.base_breadth is None:
        return Standing(member.b, member.d, member.b, member.d)
    return Standing(
        post.base_length,
        post.base_breadth,
        aci.column_width_on_plate(c_post=member.b, c_plate=post.base_length),
        aci.column_width_on_plate(c_post=member.d, c_plate=post.base_breadth),
    )


def pier_on_pad(pad: Pad) -> Standing | None:
    """The pier or column that the pad's entry tells of; None if its sides are not known."""
    if pad.pier_length is None or pad.pier_breadth is None:
        return None
    return Standing(pad.pier_length, pad.pier_breadth, pad.pier_length, pad.pier_breadth)


def _checked(pad: Pad, design: PadDesign, standing: Standing | None) -> list[Item]:
    parts: list[Item] = [design.P, design.P_u]
    if "side" in design.sized:
        parts.append(design.l_pad)
    if "thickness" in design.sized:
        parts.append(design.h_cast)
    parts += check_pad(design, standing)
    if standing is None:
        need = f"measure {pad.where}.pier_length and pier_breadth, the sides of what stands on the pad"
        parts.append(Missing(f"{pad.where}.concrete", f"Concrete of the pad under {pad.under}", need))
    if design.f_c_prime is None:
        need = f"find out {pad.where}.strength, the strength of the concrete that is there"
        parts.append(Missing(f"{pad.where}.strength", f"Concrete of the pad under {pad.under}", need))
    if design.sized:
        parts.append(Note(_SIZED))
    return parts


def _design(pad: Pad, coming: Brought, standing: Standing | None, site: Site) -> PadDesign | Missing:
    """What the checks of the pad are given, or what is missing."""
    P, service = greatest(combinations(EDITIONS[site.loads], frozenset(coming.most)), coming.most)
    P_u, case = factored(site.loads, coming.most)
    sizes = _sizes(pad, P, standing, site)
    if isinstance(sizes, Missing):
        return sizes
    return PadDesign(
        pad.where,
        P.named(f"greatest load on the pad, {service}"),
        service,
        P_u.named(f"greatest factored load, {case}"),
        case,
        sizes.l_pad,
        sizes.b_pad,
        sizes.h_cast,
        _strength(pad),
        site.soil_bearing,
        sizes.sized,
    )


def _strength(pad: Pad) -> Value | None:
    """Strength of the concrete: as told; of a new pad the least of the code; of an old one none."""
    if pad.strength is not None:
        return pad.strength
    if pad.state == "existing":
        return None
    return looked(lookup("irc_2021/footing", rule="concrete footing"), "f_c", "f_c_prime")


def _sizes(pad: Pad, P: Value, standing: Standing | None, site: Site) -> _Sizes | Missing:
    """Sides and thickness: as told, or of a new pad from its load."""
    l_pad, b_pad, h_cast = pad.length, pad.breadth, pad.thickness
    if l_pad is not None and b_pad is not None and h_cast is not None:
        return _Sizes(l_pad, b_pad, h_cast, frozenset())
    need = f"measure {pad.where}: length, breadth and thickness"
    missing = Missing(f"{pad.where}.size", f"Size of the pad under {pad.under}", need)
    if pad.state == "existing" or (l_pad is None) != (b_pad is None):
        return missing
    if standing is None and h_cast is None:
        need = f"measure {pad.where}.pier_length and pier_breadth: the thickness goes by the projection beyond them"
        return Missing(f"{pad.where}.size", f"Size of the pad under {pad.under}", need)
    if l_pad is not None and b_pad is not None:
        assert standing is not None
        longer = l_pad if float(l_pad.to("in")) >= float(b_pad.to("in")) else b_pad
        return _Sizes(l_pad, b_pad, needed_thickness(longer, standing), frozenset({"thickness"}))
    return _sized(pad, P, standing, site)


def _sized(pad: Pad, P: Value, standing: Standing | None, site: Site) -> _Sizes | Missing:
    """A square pad by its load; its weight goes by its thickness, and that by its side: taken in turns."""
    thickness = pad.thickness or max((h for _, h in least_thickness()), key=lambda h: float(h.number))
    for _ in range(_ROUNDS):
        side = needed_side(P, site.soil_bearing, thickness)
        if side is None:
            need = "the soil bears no more than the pad's own weight: ask about another foundation"
            return Missing(f"{pad.where}.size", f"Size of the pad under {pad.under}", need)
        if pad.thickness is not None:
            return _Sizes(side, side, thickness, frozenset({"side"}))
        assert standing is not None
        grown = needed_thickness(side, standing)
        if abs(float(grown.number) - float(thickness.to("in"))) < _SETTLED:
            return _Sizes(side, side, grown, frozenset({"side", "thickness"}))
        thickness = grown
    need = "side and thickness do not settle for this load and soil: ask about another foundation"
    return Missing(f"{pad.where}.size", f"Size of the pad under {pad.under}", need)
