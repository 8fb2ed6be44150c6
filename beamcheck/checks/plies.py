"""How the plies of a flush beam are joined: what its joists hang on one face must cross to the other plies (NDS 12).

Each ply takes its like share, so most crosses at the first joint. Of two loaded faces the heavier counts alone.
Leaves out: withdrawal, lag and wood screws, staggered rows, bolts of which more than two lie over the depth.
"""

from collections.abc import Iterator
from typing import NamedTuple

from beamcheck.catalogue.gravity import specific_gravity
from beamcheck.catalogue.members import Member
from beamcheck.checks.beam import governing
from beamcheck.checks.line_loads import line_cases
from beamcheck.checks.post import AxialCase
from beamcheck.checks.wood import Conditions
from beamcheck.frozen import dataclass
from beamcheck.standards import nds_2018 as nds
from beamcheck.standards import statics
from beamcheck.tables import Row, lookup
from beamcheck.takedown.sources import Combination, Source
from beamcheck.trace import Check, Item, Note, Refer, Schedule, Value, as_one, looked, taken

_MODES = ("I_m", "I_s", "II", "III_m", "III_s", "IV")
_RULES = ("edge distance", "end distance", "spacing in a row", "spacing between rows")
_TOLD = (
    "Each joint between two plies gets these fasteners. Where joists hang on both faces the heavier face is counted "
    "alone, though only the difference of both must cross."
)


class Face(NamedTuple):
    """A face of the beam, or a stretch of it: what it is called, and the rows of what hangs there."""

    name: str
    rows: tuple[Source, ...]


@dataclass(frozen=True, slots=True, eq=False)
class JoinedPlies:
    """All that the checks of the joints need. rows: fasteners over the depth; spacing: along each row."""

    key: str
    member: Member
    faces: tuple[Face, ...]
    combinations: tuple[Combination, ...]
    fastener: str
    rows: Value
    spacing: Value
    at: Conditions


class _Bearing(NamedTuple):
    """A dowel in two plies: diameter, yield strength, bearing lengths beyond the joint and before it, R_d by mode."""

    D: Value
    F_yb: Value
    l_m: Value
    l_s: Value
    F_e: Value
    R_d: dict[str, Value]


def check_plies(design: JoinedPlies) -> tuple[Item, ...]:
    """The load that crosses beside the fasteners, their reach and room; a stop for more bolts than the rule covers."""
    if _is_bolt(design) and float(design.rows.number) > _most_in_line():
        why = "more than two bolts lie in line with the load, which then do not share it alike"
        return (Refer(f"{design.key}.plies", "Bolts between the plies", why, "Which bolts and how many, with C_g?"),)
    title = f"Distances of {design.fastener} between the plies, at least"
    rules = tuple((rule, _distance(design, rule)) for rule in _RULES)
    table = Schedule(f"{design.key}.plies_distances", title, ("rule", "at least"), rules)
    return (*governing(_every_check(design)), table, Note(_TOLD))


def _most_in_line() -> float:
    """Most bolts in line with the load of which the rule holds that they share it alike."""
    return lookup("nds_2018/group_action", fastener="bolt").number("n_row")


def _every_check(design: JoinedPlies) -> Iterator[Check]:
    deep_enough = True
    if not _is_bolt(design):
        reach = _reach(design)
        deep_enough = float(reach.ratio) <= 1
        yield reach
    if deep_enough:
        yield from _crossings(design)
    least = _distance(design, "spacing in a row")
    yield Check(f"{design.key}.plies_spacing", "Spacing of the fasteners along the beam", least, design.spacing)
    room = nds.depth_for_rows(
        n_f=design.rows, x_edge=_distance(design, "edge distance"), x_rows=_distance(design, "spacing between rows")
    )
    yield Check(f"{design.key}.plies_rows", "Depth that the rows of fasteners need", room, design.member.d)


def _crossings(design: JoinedPlies) -> Iterator[Check]:
    Z = lateral_value(design)
    n = taken("n", float(design.member.plies), "plies of the beam")
    for face in design.faces:
        for case in line_cases(face, design.combinations):
            demand = statics.crossing_load(w_c=case.P, n=n)
            Z_group = nds.lateral_group(n_f=design.rows, Z_adj=_adjusted(design, Z, case))
            limit = nds.lateral_line(Z_group=Z_group, o_f=design.spacing)
            title = f"Fasteners between the plies, load on {face.name}"
            yield Check(f"{design.key}.plies", title, demand, limit, case.when)


def lateral_value(design: JoinedPlies) -> Value:
    """Z of one dowel in the first joint: single shear between two plies, both loaded across their grain."""
    D, F_yb, l_m, l_s, F_e, R_d = _bearing(design)
    R_e, R_t = nds.bearing_ratio(F_em=F_e, F_es=F_e), nds.length_ratio(l_m=l_m, l_s=l_s)
    k_m = nds.coefficient_iii_m(R_e=R_e, F_yb=F_yb, D=D, F_em=F_e, l_m=l_m)
    k_s = nds.coefficient_iii_s(R_e=R_e, F_yb=F_yb, D=D, F_em=F_e, l_s=l_s)
    k_II = nds.coefficient_ii(R_e=R_e, R_t=R_t)
    return nds.lateral_single(
        Z_I_m=nds.yield_i_m(D=D, l_m=l_m, F_em=F_e, R_d=R_d["I_m"]),
        Z_I_s=nds.yield_i_s(D=D, l_s=l_s, F_es=F_e, R_d=R_d["I_s"]),
        Z_II=nds.yield_ii(k_II=k_II, D=D, l_s=l_s, F_es=F_e, R_d=R_d["II"]),
        Z_III_m=nds.yield_iii_m(k_III_m=k_m, D=D, l_m=l_m, F_em=F_e, R_e=R_e, R_d=R_d["III_m"]),
        Z_III_s=nds.yield_iii_s(k_III_s=k_s, D=D, l_s=l_s, F_em=F_e, R_e=R_e, R_d=R_d["III_s"]),
        Z_IV=nds.yield_iv(D=D, F_em=F_e, F_yb=F_yb, R_e=R_e, R_d=R_d["IV"]),
    )


def _bearing(design: JoinedPlies) -> _Bearing:
    row, b_ply, G = _row(design), design.member.b_ply, specific_gravity(design.member)
    D, F_yb = looked(row, "D"), looked(row, "F_yb")
    if _is_bolt(design):
        across = taken("theta_g", 90.0, "both plies are loaded across their grain", unit="deg")
        K_theta = nds.angle_coefficient(theta_g=across)
        F_e = nds.dowel_bearing_perpendicular(G=G, D=D)
        R_d = {mode: nds.reduction_term(k_mode=_of_mode(mode), K_theta=K_theta) for mode in _MODES}
        return _Bearing(D, F_yb, b_ply, b_ply, F_e, R_d)
    l_m = nds.bearing_within_ply(l_m=nds.nail_bearing_length(p=_penetration(design), D=D), b_ply=b_ply)
    K_D = nds.diameter_coefficient(D=D)
    return _Bearing(D, F_yb, l_m, b_ply, nds.dowel_bearing_small(G=G), dict.fromkeys(_MODES, K_D))


def _of_mode(mode: str) -> Value:
    return looked(lookup("nds_2018/reduction_term", mode=mode), "k_mode")


def _adjusted(design: JoinedPlies, Z: Value, case: AxialCase) -> Value:
    dry = design.at.moisture == "dry"
    C_g, C_Delta = _factor("C_g", "dowel under 1/4 in"), _factor("C_Delta", "dowel under 1/4 in")
    if _is_bolt(design):
        C_g = as_one("C_g", "no more than two bolts in line across like plies share alike", "NDS 2018 11.3.6")
        C_Delta = as_one("C_Delta", "end, edge and spacing are as the schedule has them", "NDS 2018 12.5.1")
    return nds.lateral(
        Z=Z,
        C_D=case.C_D,
        C_M=_factor("C_M", "dry when made and dry in use" if dry else "wet in use or when made"),
        C_t=_factor("C_t", "at most 100 F"),
        C_g=C_g,
        C_Delta=C_Delta,
        C_eg=_factor("C_eg", "in side grain"),
        C_di=_factor("C_di", "not a diaphragm"),
        C_tn=_factor("C_tn", "not toe-nailed"),
    )


def _factor(name: str, condition: str) -> Value:
    return looked(lookup("nds_2018/connection_factors", factor=name, condition=condition), "value", name)


def _reach(design: JoinedPlies) -> Check:
    p_min = nds.penetration_minimum(D=looked(_row(design), "D"))
    title = "Reach of the nail into the next ply"
    return Check(f"{design.key}.plies_reach", title, p_min, _penetration(design))


def _penetration(design: JoinedPlies) -> Value:
    return nds.nail_penetration(l_nail=looked(_row(design), "L", "l_nail"), b_ply=design.member.b_ply)


def _distance(design: JoinedPlies, rule: str) -> Value:
    fastener = "bolt" if _is_bolt(design) else "nail"
    row = lookup("nds_2018/dowel_distances", fastener=fastener, rule=rule)
    return nds.distance_by_diameter(k_D=looked(row, "lower", "k_D"), D=looked(_row(design), "D"))


def _is_bolt(design: JoinedPlies) -> bool:
    return design.fastener.endswith(" bolt")


def _row(design: JoinedPlies) -> Row:
    if _is_bolt(design):
        return lookup("nds_2018/bolts", size=design.fastener.removesuffix(" bolt"))
    size, _, family = design.fastener.partition(" ")
    return lookup("nds_2018/nails", type=family, size=size)
