"""A wood post: buckling about both axes, end grain, the eccentric load, and the plate it stands on."""

from collections.abc import Iterator
from functools import reduce
from typing import Any, NamedTuple

from beamcheck.catalogue.members import Kind, Member
from beamcheck.checks import wood
from beamcheck.checks.beam import governing
from beamcheck.checks.wood import Bracing, Conditions
from beamcheck.frozen import dataclass, replace
from beamcheck.maths import everywhere
from beamcheck.standards import nds_2018 as nds
from beamcheck.standards import statics
from beamcheck.tables import lookup
from beamcheck.trace import Check, Item, Refer, Value, as_one, either, looked, taken

_ACROSS = "across the beam"


@dataclass(frozen=True, slots=True, eq=False)
class AxialCase:
    """The load of a post under one combination, the combination's duration factor, and its name for the sheet."""

    P: Value
    C_D: Value
    when: str


@dataclass(frozen=True, slots=True, eq=False)
class PostDesign:
    """All that the checks of a post need.

    b of the member lies along the beam, d across it. held: "in wall" (the wall holds it along the beam) or "free";
    fastening: nailed, bolted or "not fastened", of a built-up post. eccentricity: measured, or None for the share
    of the register; plate: value across the grain of what it stands on, or None if it stands on no wood; seat_off: how
    far off centre the seat puts the load across the beam at least, or None.
    """

    key: str
    member: Member
    height: Value
    cases: tuple[AxialCase, ...]
    held: str
    fastening: str
    eccentricity: Value | None
    plate: Value | None
    at: Conditions
    seat_off: Value | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Axis:
    """One axis of buckling: its side, its slenderness, and K_f if the axis lies along the joints of the plies."""

    name: str
    side: Value
    slenderness: Value
    K_f: Value | None


class _Load(NamedTuple):
    """A case with its stress and the value that buckling leaves."""

    case: AxialCase
    f_c: Value
    F_c_adj: Value


class _Bent(NamedTuple):
    """An axis with its critical stress and how far off centre the load is."""

    axis: Axis
    F_cE: Value
    e: Value


def check_post(design: PostDesign) -> tuple[Item, ...]:
    """Every check of the post, each under the case that governs it."""
    stop = beyond(design)
    return (stop,) if stop is not None else governing(every_check(design))


def beyond(design: PostDesign) -> Refer | None:
    """A stop for a post that the checks do not cover."""
    member, key = design.member, f"{design.key}.column"
    rules = lookup("nds_2018/built_up_columns", fastener="any", rule="number of plies")
    if member.plies > rules.number("upper"):
        most = rules.text("upper")
        why = f"{member.plies} plies; the standard's rules for built-up columns end at {most} ({rules.text('place')})"
        return Refer(key, "Built-up post", why, "How should this post be built?")
    if member.kind is Kind.GLULAM and design.held != "in wall" and "F_b_y" not in member.figures:
        why = f"{member.grade} has no value for bending about its weak axis"
        return Refer(key, "Post free to bend both ways", why, "Which post stands here instead?")
    return None


def every_check(design: PostDesign) -> Iterator[Check]:
    """Every check of the post under every case and about both axes: what the governing ones are among."""
    axes = buckling_axes(design)
    bent = [_Bent(axis, critical(design, axis), eccentricity(design, axis)) for axis in axes]
    loads = [_Load(case, stress(design, case), _adjusted_compression(design, bent, case)) for case in design.cases]
    limit = looked(lookup("nds_2018/column", item="slenderness limit"), "value", "s_c_lim")
    for load in loads:
        title = "Post buckling, load on its centre"
        yield Check(f"{design.key}.column", title, load.f_c, load.F_c_adj, load.case.when)
    for axis in axes:
        key = f"{design.key}.slenderness_{axis.name.split()[0]}"
        yield Check(key, f"Slenderness {axis.name}", axis.slenderness, limit)
    for load in loads:
        for one in bent:
            yield _eccentric(design, load, one)
    for load in loads:
        yield _end_grain(design, load)
    if design.plate is not None:
        for case in design.cases:
            yield plate_bearing(design, case)


def buckling_axes(design: PostDesign) -> tuple[Axis, ...]:
    """The axes about which the post may buckle: across the beam always, along it unless the wall holds it there."""
    member = design.member
    K_e = looked(lookup("nds_2018/buckling_length", ends="pinned-pinned"), "K_e")
    l_e = nds.column_length(K_e=K_e, l=design.height)
    across = Axis(_ACROSS, member.d, nds.column_slenderness(l_e=l_e, d=member.d), None)
    if design.held == "in wall":
        return (across,)
    side = member.b_ply if member.plies > 1 and design.fastening == "not fastened" else member.b
    K_f = looked(lookup("nds_2018/column", item=f"K_f {design.fastening}"), "value", "K_f") if _joined(design) else None
    return across, Axis("along the beam", side, nds.column_slenderness(l_e=l_e, d=side), K_f)


def _joined(design: PostDesign) -> bool:
    return design.member.plies > 1 and design.fastening in ("nailed", "bolted")


def stress(design: PostDesign, case: AxialCase) -> Value:
    """Compression stress on the whole section."""
    return nds.compression_stress(P=case.P, A=wood.area(design.member))


def _adjusted_compression(design: PostDesign, bent: list[_Bent], case: AxialCase) -> Value:
    """F_c' by the axis with the least C_P."""
    star = wood.compression_star(design.member, case.C_D, design.at)
    factors = [_stability(design, one, star) for one in bent]
    least = reduce(lambda known, C_P: either(C_P.number < known.number, C_P, known), factors)
    return nds.compression(F_c_star=star, C_P=least)


def _stability(design: PostDesign, bent: _Bent, star: Value) -> Value:
    kind = {Kind.GLULAM: "c glulam", Kind.COMPOSITE: "c SCL"}.get(design.member.kind, "c sawn")
    c = looked(lookup("nds_2018/column", item=kind), "value", "c")
    if bent.axis.K_f is not None:
        return nds.column_stability_built_up(F_cE=bent.F_cE, F_c_star=star, c=c, K_f=bent.axis.K_f)
    return nds.column_stability(F_cE=bent.F_cE, F_c_star=star, c=c)


def critical(design: PostDesign, axis: Axis) -> Value:
    """F_cE about one axis."""
    return nds.critical_compression(E_min_adj=wood.stability_stiffness(design.member, design.at), s_c=axis.slenderness)


def _eccentric(design: PostDesign, load: _Load, bent: _Bent) -> Check:
    case, f_c, F_c_adj = load
    axis, F_cE, e = bent
    f_b = nds.eccentric_bending_strong(f_c=f_c, e_1=e, d_1=axis.side)
    F_b_adj = _bending(design, case, axis)
    interaction = nds.eccentric_compression_one_axis(
        f_c=f_c,
        F_c_adj=F_c_adj,
        f_b1=f_b,
        F_cE1=F_cE,
        F_b1_adj=F_b_adj,
        k_1=nds.amplifier_strong(f_c=f_c, F_cE1=F_cE),
    )
    limit = as_one("u_lim", "the interaction is at most 1.0", "NDS 2018 15.4.1")
    return Check(
        f"{design.key}.eccentric",
        f"Post with its load off centre, {axis.name}",
        interaction,
        limit,
        case.when,
        buckled(f_c.number >= F_cE.number, e),
    )


def buckled(beyond: Any, e: Value) -> str:
    """What is said of a load off centre that the post buckles under: its interaction has no size that means anything.

    beyond: whether the load is not less than the critical one, a condition or an array of them.
    """
    return "buckles before this load" if everywhere(beyond & (e.number > 0)) else ""


def _bending(design: PostDesign, case: AxialCase, axis: Axis) -> Value:
    """F_b' about one axis; plies that nothing joins are free to buckle sideways each by itself."""
    if axis.name != _ACROSS:
        return wood.weak_bending(design.member, axis.side, case.C_D, design.at)
    member, bracing = _bent_across(design)
    return wood.bending(member, case.C_D, bracing, design.at)[0]


@wood.recent
def _bent_across(design: PostDesign) -> tuple[Member, Bracing]:
    """What bends across the beam as one, and how it is held: the whole post, or one ply of those that nothing joins."""
    loose = design.held != "in wall" and design.member.plies > 1 and not _joined(design)
    member = replace(design.member, b=design.member.b_ply) if loose else design.member
    return member, Bracing(design.height)


def eccentricity(design: PostDesign, axis: Axis) -> Value:
    """How far off centre the load is taken about one axis."""
    return off_centre(design.eccentricity, axis.side, design.seat_off if axis.name == _ACROSS else None)


def off_centre(measured: Value | None, side: Value, seat_off: Value | None = None) -> Value:
    """How far off centre the load of a post is taken: as measured, or the register's share of the side.

    Never less than seat_off, what the shape of the seat makes of it.
    """
    e = _measured_or_share(measured, side)
    return e if seat_off is None else either(seat_off.to("in") > e.to("in"), seat_off, e)


def _measured_or_share(measured: Value | None, side: Value) -> Value:
    if measured is not None:
        return measured
    row = lookup("practice/defaults", item="post_eccentricity")
    above, _, below = row.text("value").removeprefix("share ").partition("/")
    share = taken(
        "r_e",
        float(above) / float(below),
        "not measured: the register of cautious defaults stands in",
        row.place,
    )
    return statics.eccentricity_share(r_e=share, d=side)


def _end_grain(design: PostDesign, load: _Load) -> Check:
    limit = nds.end_grain_bearing(F_c_star=wood.compression_star(design.member, load.case.C_D, design.at))
    title = "End grain without a steel plate"
    P_foot = foot_load(design.member, design.height, load.case.P)
    f_c = nds.compression_stress(P=P_foot, A=wood.area(design.member))
    return Check(f"{design.key}.end_grain", title, f_c, limit, load.case.when)


def foot_load(member: Member, height: Value, P: Value) -> Value:
    """Load at the foot of a post: what comes down on it and its own weight."""
    if member.density is None:
        return statics.shape_load_at_foot(P=P, W=member["W"], h=height)
    return statics.load_at_foot(P=P, gamma=member.density, A=wood.area(member), h=height)


def plate_bearing(design: PostDesign, case: AxialCase) -> Check:
    """Crushing of the plate under the post."""
    assert design.plate is not None
    C_b = as_one("C_b", "the plate may end at the post", "NDS 2018 3.10.4")
    limit = wood.pressed(design.plate, wood.wet_plate(design.at), C_b, design.at.method)
    P_foot = foot_load(design.member, design.height, case.P)
    demand = nds.bearing_stress(R=P_foot, b=design.member.b, l_b=design.member.d)
    return Check(f"{design.key}.plate", "Plate crushing under the post", demand, limit, case.when)

