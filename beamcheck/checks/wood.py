"""Adjusted design values of a wood member: the reference value times every factor, those of 1.0 with their reason."""

from typing import Literal

from beamcheck.catalogue.members import Kind, Member
from beamcheck.frozen import dataclass
from beamcheck.kept import kept
from beamcheck.maths import everywhere
from beamcheck.standards import nds_2018 as nds
from beamcheck.tables import lookup
from beamcheck.trace import Check, Clause, Value, as_one, either, looked, taken

_REPETITIVE = {Kind.DIMENSION: "dimension", Kind.COMPOSITE: "scl"}
Method = Literal["allowable stress", "LRFD"]

recent = kept(32)
"""What does not hang on the forces is worked out once, not anew under every combination and in every bay."""


@dataclass(frozen=True, slots=True, eq=False)
class Conditions:
    """What surrounds a member: ``moisture`` dry or wet, and the ``sharing`` of load that is asked for.

    sharing: "no"; "plies" of one beam; "joists" at most 24 in apart under a floor that joins them. method: allowable
    stress, or LRFD, by which K_F, phi and a time effect take the place of C_D; what is called C_D is that time effect.
    """

    moisture: str = "dry"
    sharing: str = "no"
    method: Method = "allowable stress"


DRY = Conditions()


@dataclass(frozen=True, slots=True, eq=False)
class Bracing:
    """How the compression edge is held sideways: ``l_u`` None means held all along.

    loading: row of Table 3.3.3, "uniform" on a single span, or "any other".
    """

    l_u: Value | None
    loading: str = "any other"
    reason: str = "the compression edge is held all along and the ends are held against turning"


def wet_service(member: Member, prop: str, at: Conditions) -> Value:
    """C_M of one property."""
    if at.moisture == "dry":
        return as_one("C_M", "dry in use", "NDS Supplement 2018, adjustment factors")
    row = lookup("nds_2018/wet_service", product=member.wet_row)
    threshold = {"F_b": ("F_b_threshold", "C_F_b"), "F_c": ("F_c_threshold", "C_F_c")}.get(prop)
    wet = looked(row, prop, "C_M")
    if not threshold or not row.has(threshold[0]):
        return wet
    most = row.number(threshold[0])
    none = as_one("C_M", f"{prop} C_F is at most {most:,.0f} psi", row.place)
    return either(member[prop].number * member[threshold[1]].number <= most, none, wet)


def temperature() -> Value:
    """C_t inside a house."""
    return as_one("C_t", "not above 100 °F for long", "NDS 2018 Table 2.3.3")


def incising() -> Value:
    """C_i of lumber that is not incised."""
    return as_one("C_i", "not incised", "NDS 2018 Table 4.3.8")


def repetitive(member: Member, at: Conditions) -> Value:
    """C_r: 1.0 unless asked for, and then only for enough plies, or for joists side by side."""
    if at.sharing == "no":
        return as_one("C_r", "load sharing is not counted", "NDS 2018 4.3.9")
    product = _REPETITIVE.get(member.kind)
    if product is None or (at.sharing == "plies" and not plies_share(member.kind, member.plies)):
        reason = "asked for, but it needs more plies, and those of dimension or composite lumber"
        return as_one("C_r", reason, "NDS 2018 4.3.9")
    return looked(lookup("nds_2018/repetitive", product=product), "C_r")


def plies_share(kind: Kind, plies: int) -> bool:
    """Whether so many plies of a kind may be counted as sharing their load."""
    product = _REPETITIVE.get(kind)
    return product is not None and plies >= lookup("nds_2018/repetitive", product=product).number("least_plies")


def by_method(method: Method, stress: Clause, factored: Clause, prop: str, **factors: Value) -> Value:
    """A value by the clause of the method: with C_D, or with K_F, phi and the time effect where it has one."""
    if method == "allowable stress":
        return stress(**factors)
    row = lookup("nds_2018/lrfd", property=prop)
    timed = {"lambda_t": factors.pop("C_D")} if "C_D" in factors else {}
    return factored(**factors, K_F=looked(row, "K_F"), phi=looked(row, "phi"), **timed)


@recent
def area(member: Member) -> Value:
    """Area of the whole section."""
    return nds.area(b=member.b, d=member.d)


@recent
def inertia(member: Member) -> Value:
    """Moment of inertia of the whole section, bent on edge."""
    return nds.moment_of_inertia(b=member.b, d=member.d)


@recent
def stiffness(member: Member, at: Conditions) -> Value:
    """Adjusted modulus of elasticity for deflection."""
    return nds.modulus(E=member["E"], C_M=wet_service(member, "E", at), C_t=temperature(), C_i=incising())


@recent
def stability_stiffness(member: Member, at: Conditions) -> Value:
    """Adjusted modulus for beam and column stability."""
    C_M = wet_service(member, "E_min", at)
    factors = {"E_min": member["E_min"], "C_M": C_M, "C_t": temperature(), "C_i": incising()}
    return by_method(at.method, nds.modulus_min, nds.modulus_min_lrfd, "E_min", **factors)


@recent
def bending(
    member: Member, C_D: Value, bracing: Bracing, at: Conditions, l_0: Value | None = None, face: str = "F_b"
) -> tuple[Value, Check | None]:
    """Adjusted bending value on edge, and the check of the slenderness ratio where C_L is computed.

    l_0: length between points of zero moment, for glulam's volume factor; face: F_b, or F_b_neg for tension on top.
    """
    F_b = member.figures.get(face, member["F_b"])
    C_M, C_t = wet_service(member, "F_b", at), temperature()
    if member.kind is Kind.COMPOSITE:
        C_V = nds.volume_scl(d=member.d, d_0=member["d_0"], m=member["m"], C_V_most=member["C_V_most"])
        star = _star_scl(at, F_b=F_b, C_D=C_D, C_M=C_M, C_t=C_t, C_r=repetitive(member, at), C_V=C_V)
    else:
        C_F = nds.size_timber(d=member.d) if member.kind is Kind.TIMBER else member["C_F_b"]
        star = _star(at, F_b=F_b, C_D=C_D, C_M=C_M, C_t=C_t, C_F=C_F, C_i=incising(), C_r=repetitive(member, at))
    C_L, slenderness = beam_stability(member, star, bracing, at)
    if member.kind is Kind.GLULAM:
        length = l_0 or looked(lookup("nds_2018/volume_factor", product="glulam"), "L_ref", "l_0")
        C_V = nds.volume_glulam(l_0=length, d=member.d, b=widest_piece(member), x=member["x"])
    if member.kind in (Kind.GLULAM, Kind.COMPOSITE):
        return nds.bending_glued(F_b_star=star, C_L=C_L, C_V=C_V), slenderness
    C_fu = as_one("C_fu", "loaded on the narrow face", "NDS 2018 4.3.7")
    return nds.bending_sawn(F_b_star=star, C_L=C_L, C_fu=C_fu), slenderness


def _star(at: Conditions, **factors: Value) -> Value:
    """Bending value of sawn lumber or glulam with every factor but the last."""
    return by_method(at.method, nds.bending_star, nds.bending_star_lrfd, "F_b", **factors)


def _star_scl(at: Conditions, **factors: Value) -> Value:
    """The same of composite lumber."""
    return by_method(at.method, nds.bending_star_scl, nds.bending_star_scl_lrfd, "F_b", **factors)


def widest_piece(member: Member) -> Value:
    """Breadth of the widest piece of a glulam, for its volume factor: of one ply, and of several pieces no more."""
    most = looked(lookup("nds_2018/volume_factor", product="glulam"), "b_most", "b")
    return either(member.b_ply.number > most.number, most, member.b_ply)


@recent
def weak_bending(member: Member, side: Value, C_D: Value, at: Conditions) -> Value:
    """Adjusted bending value about the weak axis, the depth being ``side``. No rise by flat use or depth is counted."""
    held = as_one("C_L", "bent about its weak axis", "NDS 2018 3.3.3.1")
    C_M, C_t, C_r = wet_service(member, "F_b", at), temperature(), repetitive(member, DRY)
    if member.kind in (Kind.GLULAM, Kind.COMPOSITE):
        C_V = as_one("C_V", "loaded on its wide face", "NDS 2018 5.3.6, 8.3.6")
        F_b = member.figures.get("F_b_y", member["F_b"])
        star = _star_scl(at, F_b=F_b, C_D=C_D, C_M=C_M, C_t=C_t, C_r=C_r, C_V=C_V)
        return nds.bending_glued(F_b_star=star, C_L=held, C_V=C_V)
    C_F = nds.size_timber(d=side) if member.kind is Kind.TIMBER else member["C_F_b"]
    star = _star(at, F_b=member["F_b"], C_D=C_D, C_M=C_M, C_t=C_t, C_F=C_F, C_i=incising(), C_r=C_r)
    C_fu = as_one("C_fu", "flat use would raise it; it is not counted", "NDS 2018 4.3.7")
    return nds.bending_sawn(F_b_star=star, C_L=held, C_fu=member.figures.get("C_fu_y", C_fu))


def beam_stability(member: Member, star: Value, bracing: Bracing, at: Conditions) -> tuple[Value, Check | None]:
    """C_L, and the check that R_B is at most 50 where it is computed."""
    if bracing.l_u is None:
        return as_one("C_L", bracing.reason, "NDS 2018 3.3.3.3"), None
    broad = member.d.number <= member.b.number
    none = as_one("C_L", "not deeper than broad", "NDS 2018 3.3.3.1")
    if everywhere(broad):
        return none, None
    R_B, F_bE = _slender(member, bracing, at)
    limit = taken("R_B_lim", 50.0, "slenderness ratio of bending members", "NDS 2018 3.3.3.7")
    C_L = either(broad, none, nds.beam_stability(F_bE=F_bE, F_b_star=star))
    demand = either(broad, taken("R_B", 0.0, "not deeper than broad"), R_B)
    return C_L, Check("slenderness", "Slenderness of the beam", demand, limit)


@recent
def _slender(member: Member, bracing: Bracing, at: Conditions) -> tuple[Value, Value]:
    """R_B and the critical stress that goes with it."""
    R_B = nds.slenderness_ratio(l_e=effective_length(bracing, member), d=member.d, b=member.b)
    return R_B, nds.critical_bending(E_min_adj=stability_stiffness(member, at), R_B=R_B)


def effective_length(bracing: Bracing, member: Member) -> Value:
    """l_e of the bending member for its load case."""
    assert bracing.l_u is not None
    if bracing.loading == "any other":
        return nds.effective_length_unlisted(l_u=bracing.l_u, d=member.d)
    row = lookup("nds_2018/effective_length", member="single span", loading=bracing.loading)
    k_short, k_long, k_depth = (
        looked(row, column, name)
        for column, name in (("short_coef", "k_short"), ("long_coef", "k_long"), ("d_coef", "k_depth"))
    )
    return nds.effective_length(l_u=bracing.l_u, d=member.d, k_short=k_short, k_long=k_long, k_depth=k_depth)


@recent
def shear(member: Member, C_D: Value, at: Conditions) -> Value:
    """Adjusted shear value."""
    factors = {"F_v": member["F_v"], "C_D": C_D, "C_M": wet_service(member, "F_v", at), "C_t": temperature()}
    return by_method(at.method, nds.shear, nds.shear_lrfd, "F_v", **factors, C_i=incising())


def across_grain(member: Member, C_b: Value, at: Conditions) -> Value:
    """Adjusted value across the grain, at the bearing face."""
    return pressed(member["F_c_perp"], wet_service(member, "F_c_perp", at), C_b, at.method)


def pressed(F_c_perp: Value, C_M: Value, C_b: Value, method: Method = "allowable stress") -> Value:
    """Adjusted value across the grain of whatever is pressed."""
    factors = {"F_c_perp": F_c_perp, "C_M": C_M, "C_t": temperature(), "C_i": incising(), "C_b": C_b}
    return by_method(method, nds.bearing, nds.bearing_lrfd, "F_c_perp", **factors)


def wet_plate(at: Conditions) -> Value:
    """C_M across the grain of a plate of dimension lumber."""
    if at.moisture == "dry":
        return as_one("C_M", "dry in use", "NDS Supplement 2018, adjustment factors")
    return looked(lookup("nds_2018/wet_service", product="dimension"), "F_c_perp", "C_M")


@recent
def compression_star(member: Member, C_D: Value, at: Conditions) -> Value:
    """Compression value along the grain with every factor but C_P."""
    factors = {"F_c": member["F_c"], "C_D": C_D, "C_M": wet_service(member, "F_c", at), "C_t": temperature()}
    factors |= {"C_F": member["C_F_c"], "C_i": incising()}
    return by_method(at.method, nds.compression_star, nds.compression_star_lrfd, "F_c", **factors)
