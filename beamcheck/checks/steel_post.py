"""A post of steel pipe or square tube, loaded on its centre: buckling, slenderness, wall (AISC 360-16, ASD).

Leaves out: eccentric loads, caps and base plates, adjustable and filled columns.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from beamcheck.catalogue.members import Member
from beamcheck.checks.beam import governing
from beamcheck.checks.post import AxialCase
from beamcheck.checks.steel import omega
from beamcheck.standards import aisc360_16 as aisc
from beamcheck.tables import lookup
from beamcheck.trace import Check, Item, Refer, Value, looked, taken


@dataclass(frozen=True, slots=True, eq=False)
class SteelPostDesign:
    """All that the checks of a steel post need. height: between the points that hold it sideways, at both ends."""

    key: str
    member: Member
    height: Value
    cases: tuple[AxialCase, ...]


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
    limit = allowable_compression(design)
    for case in design.cases:
        yield Check(f"{design.key}.column", "Post buckling, load on its centre", case.P, limit, case.when)
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


def slenderness(design: SteelPostDesign) -> Value:
    """L_c/r about the axis of the least radius of gyration."""
    K = taken("K", 1.0, "hinged at both ends, and held sideways at both", "AISC 360-16 Commentary, Appendix 7")
    return aisc.column_slenderness(K=K, l=design.height, r=design.member["r"])


def _slenderness_limit() -> Value:
    return looked(lookup("aisc360_16/factors", clause="E2", item="slenderness limit"), "value", "s_r_lim")


def wall_slenderness(design: SteelPostDesign) -> Check:
    """Slenderness of the wall beside the limit up to which the wall does not buckle first."""
    member = design.member
    pipe = member.size.startswith("Pipe")
    found = aisc.wall_slenderness_round if pipe else aisc.wall_slenderness_square
    limit = aisc.wall_limit_round if pipe else aisc.wall_limit_square
    demand = found(b=member.b, t_des=member["t_des"])
    return Check(f"{design.key}.wall", "Slenderness of the wall", demand, limit(E=member["E"], F_y=member["F_y"]))
