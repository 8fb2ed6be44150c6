"""A W shape on its line: bending both ways, shear, web and flange over each bearing, deflection (AISC 360-16, ASD).

Leaves out: shear deflection.
"""

from collections.abc import Iterator

from beamcheck.checks.beam import BeamDesign, against_limits, governing, uplift
from beamcheck.checks.demands import Way
from beamcheck.checks.steel_web import omega, over_bearing, point_loads, under_points
from beamcheck.checks.wood import Bracing
from beamcheck.standards import aisc360_16 as aisc
from beamcheck.tables import lookup
from beamcheck.trace import Check, Item, Value, as_one, either, looked


def check_steel_beam(design: BeamDesign) -> tuple[Item, ...]:
    """Check a W shape, each way under the combination that governs it, in the order an engineer reads.

    ``design.at`` and ``design.position`` do not matter to steel. Bearings are checked where a seat is known.
    """
    return (*governing(every_check(design)), *uplift(design), *point_loads(design))


def every_check(design: BeamDesign) -> Iterator[Check]:
    """Every check of the beam under every combination and in every bay: what the governing ones are among."""
    yield from bending(design)
    yield flange(design)
    yield from shear(design)
    yield from under_points(design)
    for support, seat in enumerate(design.seats):
        if seat.length is not None and seat.breadth is not None:
            yield from bearing(design, support, seat.length, seat.breadth)
    yield from against_limits(design, movement, _total)


def bending(design: BeamDesign) -> Iterator[Check]:
    """Sagging, and hogging where the line has any, each with its own unbraced length, under each combination."""
    yield from _bending(design, "sagging", design.bracing, "Bending")
    if design.loaded.hogs:
        yield from _bending(design, "hogging", design.bottom, f"Bending over a {design.rests_on}")


def _bending(design: BeamDesign, way: Way, bracing: Bracing, title: str) -> Iterator[Check]:
    limit = allowable_moment(design, bracing)
    for number in range(len(design.loaded.combinations)):
        moment = design.loaded.moment(number, way)
        yield Check(f"{design.key}.bending_{way}", title, moment.M, limit, moment.when)


def allowable_moment(design: BeamDesign, bracing: Bracing) -> Value:
    """M_n over Omega: yielding, lateral-torsional buckling, local buckling of the flange."""
    member = design.member
    M_p = aisc.plastic_moment(F_y=member["F_y"], Z_x=member["Z_x"])
    M_FLB = aisc.flange_buckling(
        M_p=M_p,
        F_y=member["F_y"],
        S_x=member["S_x"],
        lambda_f=aisc.flange_slenderness(b_f=member["b_f"], t_f=member["t_f"]),
        lambda_pf=aisc.flange_compact(E=member["E"], F_y=member["F_y"]),
        lambda_rf=aisc.flange_noncompact(E=member["E"], F_y=member["F_y"]),
    )
    M_n = aisc.nominal_moment(M_LTB=lateral_buckling(design, bracing, M_p), M_FLB=M_FLB)
    return aisc.allowable_moment(M_n=M_n, Omega=omega("F1"))


def lateral_buckling(design: BeamDesign, bracing: Bracing, M_p: Value) -> Value:
    """M_n by lateral-torsional buckling; the plastic moment where the compression flange is held."""
    if bracing.l_u is None:
        return M_p.named(f"no lateral-torsional buckling: {bracing.reason}")
    member = design.member
    E, F_y, l_u, r_ts = member["E"], member["F_y"], bracing.l_u, member["r_ts"]
    J, S_x, h_o = member["J"], member["S_x"], member["h_o"]
    C_b = as_one("C_b_ltb", "the moment's gradient is not counted: low rather than high", "AISC 360-16 F1")
    return aisc.lateral_buckling(
        M_p=M_p,
        C_b_ltb=C_b,
        F_y=F_y,
        S_x=S_x,
        L_b=l_u,
        L_p=aisc.length_for_yielding(r_y=member["r_y"], E=E, F_y=F_y),
        L_r_beam=aisc.length_for_inelastic(r_ts=r_ts, E=E, F_y=F_y, J=J, S_x=S_x, h_o=h_o),
        F_cr_b=aisc.lateral_critical_stress(C_b_ltb=C_b, E=E, L_b=l_u, r_ts=r_ts, J=J, S_x=S_x, h_o=h_o),
    )


def flange(design: BeamDesign) -> Check:
    """The range of the flange clauses: beyond it the flange is slender, and M_n above does not hold."""
    member = design.member
    lambda_f = aisc.flange_slenderness(b_f=member["b_f"], t_f=member["t_f"])
    limit = aisc.flange_noncompact(E=member["E"], F_y=member["F_y"])
    return Check(f"{design.key}.flange", "Slenderness of the flange", lambda_f, limit)


def shear(design: BeamDesign) -> Iterator[Check]:
    """Shear of the web where it is greatest, under each combination."""
    limit = allowable_shear(design)
    for number in range(len(design.loaded.combinations)):
        V, case = design.loaded.shear(number)
        yield Check(f"{design.key}.shear", "Shear of the web", V, limit, case)


def allowable_shear(design: BeamDesign) -> Value:
    """V_n over Omega; a web that is not stocky takes the greater Omega."""
    member = design.member
    E, F_y, h_tw = member["E"], member["F_y"], member["h_tw"]
    stocky = h_tw.number <= aisc.stocky_web(E=E, F_y=F_y).number
    k_v = looked(lookup("aisc360_16/factors", clause="G2", item="k_v"), "value", "k_v")
    C_v1 = aisc.web_shear_factor(h_tw=h_tw, k_v=k_v, E=E, F_y=F_y)
    V_n = aisc.nominal_shear(F_y=F_y, d=member.d, t_web=member["t_web"], C_v1=C_v1)
    return aisc.allowable_shear(V_n=V_n, Omega=either(stocky, omega("G2", "Omega, stocky web"), omega("G2")))


def bearing(design: BeamDesign, support: int, l_b: Value, breadth: Value) -> list[Check]:
    """Web yielding, web crippling and bending of the bottom flange over one bearing."""
    member, key = design.member, design.key
    R, case = design.loaded.greatest_push(support)
    n = support + 1
    over = f"over {design.rests_on} {n}"
    yielding, crippling = over_bearing(design, support, l_b)
    t_p = flange_thickness(design, R, l_b, breadth)
    return [
        Check(f"{key}.web_yielding[{n}]", f"Web yielding {over}", R, yielding, case),
        Check(f"{key}.web_crippling[{n}]", f"Web crippling {over}", R, crippling, case),
        Check(f"{key}.flange[{n}]", f"Thickness of the bottom flange {over}", t_p, member["t_f"], case),
    ]


def flange_thickness(design: BeamDesign, R: Value, l_b: Value, breadth: Value) -> Value:
    """Thickness that the bottom flange needs as its own bearing plate on a seat of that breadth."""
    member = design.member
    l_c = aisc.bearing_cantilever(b=breadth, k_des=member["k_des"])
    f_p = aisc.bearing_pressure(R=R, b=breadth, l_b=l_b)
    return aisc.bearing_plate_thickness(l_c=l_c, f_p=f_p, F_y=member["F_y"], Omega=omega("F1"))


def _total(design: BeamDesign, bay: int) -> Iterator[tuple[str, Value]]:
    dead = movement(design, {"D": 1.0}, bay)
    for combination in design.loaded.combinations:
        factors = {name: float(g.number) for name, g in combination.factors.items() if name != "D"}
        live = movement(design, factors, bay)
        yield f"total deflection, {combination.name}", aisc.total_deflection(delta_LT=dead, delta_ST=live)


def movement(design: BeamDesign, factors: dict[str, float], bay: int) -> Value:
    """Deflection of a bay under the sum of load types alone, each with its worst pattern; an overhang either way."""
    Y, _ = design.loaded.moved(factors, bay)
    return aisc.deflection(Y=Y, E=design.member["E"], I_x=design.member["I_x"])
