"""A post of steel pipe or square tube: buckling, load off its centre, slenderness, wall (AISC 360-16, ASD).

Leaves out: caps and base plates, adjustable and filled columns.
"""

from collections.abc import Iterator

from beamcheck.catalogue.members import Member
from beamcheck.checks.beam import governing
from beamcheck.checks.post import AxialCase, PostDesign, buckled, off_centre
from beamcheck.checks.steel_web import omega
from beamcheck.frozen import dataclass
from beamcheck.standards import aisc360_16 as aisc
from beamcheck.tables import lookup
from beamcheck.trace import Check, Item, Refer, Value, as_one, looked


@dataclass(frozen=True, slots=True, eq=False)
class SteelPostDesign:
    """All that the checks of a steel post need.

    height: between the points that hold it sideways, at both ends; eccentricity: measured, or None for the share of
    the register; seat_off: how far off centre the seat puts the load at least, or None.
    """

    key: str
    member: Member
    height: Value
    cases: tuple[AxialCase, ...]
    eccentricity: Value | None = None
    seat_off: Value | None = None


def steel_post(design: PostDesign) -> SteelPostDesign:
    """What a steel post needs of what any post is given: no wall, plate or moisture matters to it."""
    return SteelPostDesign(
        design.key, design.member, design.height, design.cases, design.eccentricity, design.seat_off
    )


def check_steel_post(design: SteelPostDesign) -> tuple[Item, ...]:
    """Check the post under its greatest load; a stop where its wall is slender, for then E3 does not hold."""
    wall = wall_slenderness(design)
    if float(wall.ratio) > 1:
        why = f"the wall of {design.member.size} is slender, and buckles before the post does"
        ask = "Which tube or pipe with a thicker wall?"
        return (Refer(f"{design.key}.column", "Buckling of the post", why, ask), _slender(design), wall)
    return governing(every_check(design))


def every_check(design: SteelPostDesign) -> Iterator[Check]:
    """Every check of the post under every case: what the governing ones are among."""
    limit, moment = allowable_compression(design), allowable_moment(design)
    for case in design.cases:
        yield Check(f"{design.key}.column", "Post buckling, load on its centre", case.P, limit, case.when)
    for case in design.cases:
        yield _eccentric(design, case, limit, moment)
    yield _slender(design)
    yield wall_slenderness(design)


def _slender(design: SteelPostDesign) -> Check:
    return Check(f"{design.key}.slenderness", "Slenderness of the post", slenderness(design), _slenderness_limit())


def allowable_compression(design: SteelPostDesign) -> Value:
    """P_n over Omega by flexural buckling."""
    E, F_y, s_r = design.member["E"], design.member["F_y"], slenderness(design)
    F_cr_c = aisc.column_critical_stress(F_y=F_y, E=E, s_r=s_r, F_e_col=aisc.elastic_buckling(E=E, s_r=s_r))
    P_n = aisc.nominal_compression(F_cr_c=F_cr_c, A=design.member["A"])
    return aisc.allowable_compression(P_n=P_n, Omega=omega("E3"))


def allowable_moment(design: SteelPostDesign) -> Value:
    """M_n over Omega of the tube or pipe, the same about every axis."""
    member = design.member
    E, F_y, t_des = member["E"], member["F_y"], member["t_des"]
    modulus = aisc.plastic_modulus_round if _is_pipe(member) else aisc.plastic_modulus_square
    M_p = aisc.plastic_moment(F_y=F_y, Z_x=modulus(b=member.b, t_des=t_des))
    nominal = aisc.moment_of_pipe if _is_pipe(member) else aisc.moment_of_tube
    M_n = nominal(M_p=M_p, F_y=F_y, S_x=member["S_x"], lambda_wall=_wall(member), E=E)
    return aisc.allowable_moment(M_n=M_n, Omega=omega("F1"))


def _eccentric(design: SteelPostDesign, case: AxialCase, limit: Value, moment: Value) -> Check:
    """The load off the post's centre by the seat, the moment grown by the way that the post bends."""
    member = design.member
    alpha = looked(lookup("aisc360_16/factors", clause="Appendix 8", item="alpha"), "value", "alpha")
    reason = "the greatest that it may be: less is allowed where the moment fades to the other end"
    C_m = as_one("C_m", reason, "AISC 360-16 Appendix 8, 8.2.1")
    P_e1 = aisc.euler_load(E=member["E"], I_x=member["I_x"], l=design.height)
    e = off_centre(design.eccentricity, member.d, design.seat_off)
    M_r = aisc.eccentric_moment(B_1=aisc.amplifier(C_m=C_m, alpha=alpha, P=case.P, P_e1=P_e1), P=case.P, e=e)
    demand = aisc.combined(P=case.P, P_allow=limit, M_r=M_r, M_allow=moment)
    most = as_one("u_lim", "the interaction is at most 1.0", "AISC 360-16 H1.1")
    instead = buckled(alpha.number * case.P.number >= P_e1.number, e)
    return Check(f"{design.key}.eccentric", "Post with its load off centre", demand, most, case.when, instead)


def slenderness(design: SteelPostDesign) -> Value:
    """L_c/r about the axis of the least radius of gyration."""
    K = as_one("K", "hinged at both ends, and held sideways at both", "AISC 360-16 Commentary, Appendix 7")
    return aisc.column_slenderness(K=K, l=design.height, r=design.member["r"])


def _slenderness_limit() -> Value:
    return looked(lookup("aisc360_16/factors", clause="E2", item="slenderness limit"), "value", "s_r_lim")


def wall_slenderness(design: SteelPostDesign) -> Check:
    """Slenderness of the wall beside the limit up to which the wall does not buckle first."""
    member = design.member
    limit = aisc.wall_limit_round if _is_pipe(member) else aisc.wall_limit_square
    most = limit(E=member["E"], F_y=member["F_y"])
    return Check(f"{design.key}.wall", "Slenderness of the wall", _wall(member), most)


def _wall(member: Member) -> Value:
    found = aisc.wall_slenderness_round if _is_pipe(member) else aisc.wall_slenderness_square
    return found(b=member.b, t_des=member["t_des"])


def _is_pipe(member: Member) -> bool:
    return member.size.startswith("Pipe")
