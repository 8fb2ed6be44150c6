"""A pad of plain concrete on the soil under one post or pier: soil, thickness, bending, shear, bearing.

Soil by service loads, concrete by factored ones (ACI 318-19, chapter 14; IRC 2021, R403.1). The load stands over the
middle and the soil's pressure is even. Leaves out: reinforcement, settlement of the soil, frost, earthquake.
"""

from collections.abc import Iterator
from typing import NamedTuple

from beamcheck.checks.beam import governing
from beamcheck.frozen import dataclass
from beamcheck.standards import aci318_19 as aci
from beamcheck.standards import irc_2021 as irc
from beamcheck.standards import nds_2018 as nds
from beamcheck.standards import statics
from beamcheck.tables import lookup
from beamcheck.trace import Check, Item, Value, looked


class Standing(NamedTuple):
    """What stands on a pad: its sides along and across the beam, and those from whose edges bending and shear count."""

    c_1: Value
    c_2: Value
    c_along: Value
    c_across: Value


class _Strip(NamedTuple):
    """A pad looked at one way: concrete, pressure, projection, width across it, thickness."""

    f_c_prime: Value
    q_u: Value
    l_v: Value
    b: Value
    h_pad: Value


@dataclass(frozen=True, slots=True, eq=False)
class PadDesign:
    """All that the checks of a pad need.

    P: greatest service load without the pad; P_u: greatest factored load; service and case: their combinations in
    words; l_pad along the beam, b_pad across it; f_c_prime: None if it is not known, and then the concrete is not
    checked; standing: what stands on it; sized: side and thickness, where they come from the load and are not checked
    against it.
    """

    key: str
    P: Value
    service: str
    P_u: Value
    case: str
    l_pad: Value
    b_pad: Value
    h_cast: Value
    f_c_prime: Value | None
    q_allow: Value
    standing: Standing
    sized: frozenset[str] = frozenset()


def check_pad(design: PadDesign) -> tuple[Item, ...]:
    """Every check of the pad; of concrete that nobody knows those of the soil, the thickness and the projection."""
    checks = [*_on_soil(design), *_projections(design)]
    if design.f_c_prime is not None:
        checks += _concrete(design, design.f_c_prime)
    return governing(checks)


def weight(design: PadDesign) -> Value:
    """Weight of the pad."""
    A_pad = aci.pad_area(b_pad=design.b_pad, l_pad=design.l_pad)
    return statics.pad_weight(gamma=_concrete_weight(), A_pad=A_pad, h_cast=design.h_cast)


def least_thickness() -> tuple[tuple[str, Value], ...]:
    """Least thickness of a plain footing by the house code and by the concrete standard."""
    house = looked(lookup("irc_2021/footing", rule="concrete footing"), "thickness_least", "h_thin")
    concrete = looked(lookup("aci318_19/plain_concrete_sizes", item="least thickness"), "length", "h_thin")
    return (("irc", house), ("aci", concrete))


def needed_side(P: Value, q_allow: Value, h_cast: Value) -> Value | None:
    """Side of a square pad that keeps the soil at its allowable bearing; None where its own weight uses that up."""
    q_net = statics.soil_left(q_allow=q_allow, gamma=_concrete_weight(), h_cast=h_cast)
    if float(q_net.number) <= 0:
        return None
    side = aci.pad_side(A_pad=aci.pad_area_needed(P=P, q_allow=q_net))
    return side.named("side of a square pad that the soil needs")


def needed_thickness(side: Value, standing: Standing) -> Value:
    """Thickness that the projection asks for, and never less than the concrete standard's least."""
    narrow = standing.c_1 if float(standing.c_1.to("in")) <= float(standing.c_2.to("in")) else standing.c_2
    l_proj = irc.footing_projection(b_foot=side, c_wall=narrow)
    h_thin = max((h for _, h in least_thickness()), key=lambda h: float(h.number))
    return irc.thickness_for_projection(l_proj=l_proj, h_thin=h_thin).named("thickness that the pad needs")


def _concrete_weight() -> Value:
    return looked(lookup("practice/densities", material="concrete"), "density", "gamma")


def _on_soil(design: PadDesign) -> Iterator[Check]:
    A_pad = aci.pad_area(b_pad=design.b_pad, l_pad=design.l_pad)
    if "side" not in design.sized:
        P_soil = statics.load_on_soil(P=design.P, W_pad=weight(design))
        q_soil = aci.soil_pressure(P=P_soil, A_pad=A_pad)
        title = "Pressure on the soil, the pad's weight included"
        yield Check(f"{design.key}.soil", title, q_soil, design.q_allow, design.service)
    if "thickness" not in design.sized:
        titles = {"irc": "Least thickness of a footing, house code", "aci": "Least thickness, plain concrete"}
        for which, h_thin in least_thickness():
            yield Check(f"{design.key}.thickness_{which}", titles[which], h_thin, design.h_cast)


def _projections(design: PadDesign) -> Iterator[Check]:
    """A plain footing projects by 2 in at least and by its thickness at most."""
    row = lookup("irc_2021/footing", rule="concrete footing")
    least = looked(row, "projection_least", "l_proj")
    for side, c_wall in ((design.l_pad, design.standing.c_1), (design.b_pad, design.standing.c_2)):
        l_proj = irc.footing_projection(b_foot=side, c_wall=c_wall)
        yield Check(f"{design.key}.projection_least", "Least projection beyond what stands on it", least, l_proj)
        if "thickness" not in design.sized:
            yield Check(f"{design.key}.projection", "Projection beside the thickness", l_proj, design.h_cast)


def _concrete(design: PadDesign, f_c_prime: Value) -> Iterator[Check]:
    """Bending and shear both ways, punching and bearing under the factored load."""
    h_pad = aci.effective_thickness(h_cast=design.h_cast)
    q_u = aci.factored_pressure(P_u=design.P_u, b=design.b_pad, l=design.l_pad)
    ways = (
        ("along", design.l_pad, design.b_pad, design.standing.c_along),
        ("across", design.b_pad, design.l_pad, design.standing.c_across),
    )
    for way, l, b, c_col in ways:
        l_v = aci.cantilever(l=l, c_col=c_col)
        case = f"{design.case}, {way} the beam"
        strip = _Strip(f_c_prime, q_u, l_v, b, h_pad)
        yield Check(f"{design.key}.flexure", "Bending of plain concrete", *_bending(strip), case)
        yield Check(f"{design.key}.shear", "Shear across the pad", *_one_way(strip), case)
    punching = _punching(design, f_c_prime, q_u, h_pad)
    yield Check(f"{design.key}.punching", "Punching", *punching, design.case)
    bearing = _bearing(f_c_prime, design.standing)
    yield Check(f"{design.key}.bearing", "Bearing on the concrete", design.P_u, bearing, design.case)


def _bending(strip: _Strip) -> tuple[Value, Value]:
    """Moment where the pad bends under what stands on it, and its limit."""
    f_c_prime, q_u, l_v, b, h_pad = strip
    M_u = aci.factored_moment(q_u=q_u, b=b, l_v=l_v)
    M_n = aci.nominal_moment(lambda_c=_lambda(), f_c_prime=f_c_prime, S=aci.section_modulus(b=b, h_pad=h_pad))
    return M_u, aci.design_moment(phi=_phi(), M_n=M_n)


def _one_way(strip: _Strip) -> tuple[Value, Value]:
    """Shear across the whole width, and its limit."""
    f_c_prime, q_u, l_v, b, h_pad = strip
    V_u = aci.one_way_shear(q_u=q_u, b=b, l_v=l_v, h_pad=h_pad)
    V_n = aci.nominal_one_way_shear(lambda_c=_lambda(), f_c_prime=f_c_prime, b=b, h_pad=h_pad)
    return V_u, aci.design_shear(phi=_phi(), V_n=V_n)


def _punching(design: PadDesign, f_c_prime: Value, q_u: Value, h_pad: Value) -> tuple[Value, Value]:
    """Shear through the punching perimeter, and its limit."""
    c_1, c_2 = design.standing.c_along, design.standing.c_across
    V_u = aci.two_way_shear(q_u=q_u, b=design.b_pad, l=design.l_pad, c_1=c_1, c_2=c_2, h_pad=h_pad)
    V_n = aci.nominal_two_way_shear(
        lambda_c=_lambda(),
        f_c_prime=f_c_prime,
        beta=aci.column_ratio(c_1=c_1, c_2=c_2),
        b_o=aci.punching_perimeter(c_1=c_1, c_2=c_2, h_pad=h_pad),
        h_pad=h_pad,
    )
    return V_u, aci.design_shear(phi=_phi(), V_n=V_n)


def _bearing(f_c_prime: Value, standing: Standing) -> Value:
    """What the concrete bears under what stands on it; the concrete around that is not counted on."""
    A_1 = nds.area(b=standing.c_1, d=standing.c_2)
    return aci.design_bearing(phi=_phi(), B_n=aci.nominal_bearing(f_c_prime=f_c_prime, A_1=A_1, A_2=A_1))


def _phi() -> Value:
    return looked(lookup("aci318_19/plain_concrete", item="phi"), "factor", "phi")


def _lambda() -> Value:
    return looked(lookup("aci318_19/plain_concrete", item="lambda"), "factor", "lambda_c")
