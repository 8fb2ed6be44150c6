"""A pad on the soil: checked as it is, or sized from its load where it is new and its sides are left out."""

from typing import NamedTuple

from beamcheck.checks.pad import PadDesign, Standing, check_pad, least_thickness, needed_side, needed_thickness, weight
from beamcheck.study.brought import Brought, factored, greatest
from beamcheck.study.piers import Stand, heavier
from beamcheck.study.stops import question
from beamcheck.study.types import Link, sheet
from beamcheck.survey.below import Pad
from beamcheck.survey.model import Site
from beamcheck.tables import lookup
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import EDITIONS
from beamcheck.trace import Item, Missing, Note, Value, looked

_SIZED = "sides that were left out come from the load: round them up to what the forms allow"
_ROUNDS = 40
_SETTLED = 1e-9


class Padded(NamedTuple):
    """A pad with its link, its weight and that of the pier on it, None where it is not shown or there is none."""

    pad: Pad
    link: Link
    weight: Value | None
    pier: Value | None


class _Sizes(NamedTuple):
    l_pad: Value
    b_pad: Value
    h_cast: Value
    sized: frozenset[str]


def put_on_pad(pad: Pad, coming: Brought | None, stand: Stand, site: Site) -> Padded:
    """Check or size a pad. coming: what comes down on what stands on it; None if it is not known."""
    title = f"Pad under {pad.under}"
    design = _shown(pad, coming, stand, site)
    parts: list[Item] = []
    if isinstance(design, Missing):
        parts.append(design)
    else:
        parts += [] if stand.weight is None else [stand.weight]
        parts += _checked(pad, design)
    parts.append(question(f"{pad.where}.{pad.state}", f"{pad.state} pad"))
    if pad.note:
        parts.append(Note(pad.note))
    link = Link(pad.where, title, sheet(pad.where, title, *parts))
    if isinstance(design, Missing):
        return Padded(pad, link, None, None)
    return Padded(pad, link, weight(design), stand.weight)


def _shown(pad: Pad, coming: Brought | None, stand: Stand, site: Site) -> PadDesign | Missing:
    """What the checks of the pad are given, or what is missing."""
    title = f"Pad under {pad.under}"
    if coming is None:
        return Missing(f"{pad.where}.load", title, f"what comes down on it is not shown: see {pad.under}")
    if stand.sides is None:
        need = f"measure {pad.where}.pier_length and pier_breadth: what stands on the pad weighs on the soil too"
        return Missing(f"{pad.where}.pier", title, need)
    return _design(pad, heavier(coming, stand), stand.sides, site)


def _checked(pad: Pad, design: PadDesign) -> list[Item]:
    parts: list[Item] = [design.P, design.P_u]
    if "side" in design.sized:
        parts.append(design.l_pad)
    if "thickness" in design.sized:
        parts.append(design.h_cast)
    parts += check_pad(design)
    if design.f_c_prime is None:
        need = f"find out {pad.where}.strength, the strength of the concrete that is there"
        parts.append(Missing(f"{pad.where}.strength", f"Concrete of the pad under {pad.under}", need))
    if design.sized:
        parts.append(Note(_SIZED))
    return parts


def _design(pad: Pad, coming: Brought, standing: Standing, site: Site) -> PadDesign | Missing:
    """What the checks of the pad are given, or what is missing."""
    P, service = greatest(combinations(EDITIONS[site.loads], frozenset(coming.most)), coming.most)
    P_u, case = factored(site.loads, coming.most)
    sizes = _sizes(pad, P, standing, site)
    if isinstance(sizes, Missing):
        return sizes
    return PadDesign(
        pad.where,
        P.named("greatest load on the pad", service),
        service,
        P_u.named("greatest factored load", case),
        case,
        sizes.l_pad,
        sizes.b_pad,
        sizes.h_cast,
        _strength(pad),
        site.soil_bearing,
        standing,
        sizes.sized,
    )


def _strength(pad: Pad) -> Value | None:
    """Strength of the concrete: as told; of a new pad the least of the code; of an old one none."""
    if pad.strength is not None:
        return pad.strength
    if pad.state == "existing":
        return None
    return looked(lookup("irc_2021/footing", rule="concrete footing"), "f_c", "f_c_prime")


def _sizes(pad: Pad, P: Value, standing: Standing, site: Site) -> _Sizes | Missing:
    """Sides and thickness: as told, or of a new pad from its load."""
    l_pad, b_pad, h_cast = pad.length, pad.breadth, pad.thickness
    if l_pad is not None and b_pad is not None and h_cast is not None:
        return _Sizes(l_pad, b_pad, h_cast, frozenset())
    need = f"measure {pad.where}: length, breadth and thickness"
    missing = Missing(f"{pad.where}.size", f"Size of the pad under {pad.under}", need)
    if pad.state == "existing" or (l_pad is None) != (b_pad is None):
        return missing
    if l_pad is not None and b_pad is not None:
        longer = l_pad if float(l_pad.to("in")) >= float(b_pad.to("in")) else b_pad
        return _Sizes(l_pad, b_pad, needed_thickness(longer, standing), frozenset({"thickness"}))
    return _sized(pad, P, standing, site)


def _sized(pad: Pad, P: Value, standing: Standing, site: Site) -> _Sizes | Missing:
    """A square pad by its load; its weight goes by its thickness, and that by its side: taken in turns."""
    thickness = pad.thickness or max((h for _, h in least_thickness()), key=lambda h: float(h.number))
    for _ in range(_ROUNDS):
        side = needed_side(P, site.soil_bearing, thickness)
        if side is None:
            need = "the soil bears no more than the pad's own weight: ask about another foundation"
            return Missing(f"{pad.where}.size", f"Size of the pad under {pad.under}", need)
        if pad.thickness is not None:
            return _Sizes(side, side, thickness, frozenset({"side"}))
        grown = needed_thickness(side, standing)
        if abs(float(grown.number) - float(thickness.to("in"))) < _SETTLED:
            return _Sizes(side, side, grown, frozenset({"side", "thickness"}))
        thickness = grown
    need = "side and thickness do not settle for this load and soil: ask about another foundation"
    return Missing(f"{pad.where}.size", f"Size of the pad under {pad.under}", need)
