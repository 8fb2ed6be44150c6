"""What the beam rests on, layer by layer: end of the post, plate of wood or steel; the softest layer governs.

The beam's own crushing is a check of the beam. Leaves out: nails and straps that hold the beam in place.
"""

from collections.abc import Iterator

from beamcheck.catalogue.members import Kind, Member
from beamcheck.checks import wood
from beamcheck.checks.beam import Seat, governing
from beamcheck.checks.post import AxialCase
from beamcheck.checks.wood import Conditions
from beamcheck.frozen import dataclass
from beamcheck.standards import nds_2018 as nds
from beamcheck.tables import lookup
from beamcheck.trace import Check, Item, Value, as_one, either, looked


@dataclass(frozen=True, slots=True, eq=False)
class SeatDesign:
    """All that the layers of a seat need, its length and breadth known.

    kind: cap, notch, stud pack, wood plate or steel plate; plate: value across the grain of a wood plate;
    thickness: of a steel plate, if known; plate_breadth: its side across the beam.
    """

    key: str
    kind: str
    post: Member
    seat: Seat
    cases: tuple[AxialCase, ...]
    plate: Value | None
    at: Conditions
    thickness: Value | None = None
    plate_breadth: Value | None = None


def check_seat(design: SeatDesign) -> tuple[Item, ...]:
    """Area of the seat, and every layer under the beam under the case that governs it."""
    length, breadth = _sides(design.seat)
    area = nds.area(b=breadth, d=length).named("area of the seat")
    return (area, *governing(every_layer(design)), *_thickness_needed(design))


def across_grain_check(
    key: str, title: str, P: Value, sides: tuple[Value, Value], F_c_perp: Value, C_M: Value
) -> Check:
    """Crushing across the grain of a layer that may end at the load; sides of the area that is pressed."""
    C_b = as_one("C_b", "the layer may end at the load", "NDS 2018 3.10.4")
    limit = wood.pressed(F_c_perp, C_M, C_b)
    return Check(key, title, nds.bearing_stress(R=P, b=sides[0], l_b=sides[1]), limit)


def at_less_crush(F_c_perp_adj: Value) -> Value:
    """The value across the grain at which sawn lumber crushes by 0.02 in instead of 0.04 in."""
    row = lookup("nds_2018/bearing_deformation", deformation="0.02")
    value = nds.bearing_at_less_crush(F_c_perp_adj=F_c_perp_adj, k_crush=looked(row, "factor", "k_crush"))
    return value.named("value across the grain at which the beam crushes by 0.02 in")


def every_layer(design: SeatDesign) -> Iterator[Check]:
    """Every layer under the beam under every case: what the governing ones are among."""
    for case in design.cases:
        for check in (*_under(design, case), *_steel_plate(design, case)):
            yield Check(check.key, check.title, check.demand, check.limit, case.when)


def _under(design: SeatDesign, case: AxialCase) -> Iterator[Check]:
    length, breadth = _sides(design.seat)
    post = design.post
    if design.kind == "wood plate" and design.plate is not None:
        key, plate, C_M = f"{design.key}.seat_plate", design.plate, wood.wet_plate(design.at)
        under, over = (breadth, length), (post.b, post.d)
        yield across_grain_check(f"{key}_upper", "Plate crushing under the beam", case.P, under, plate, C_M)
        yield across_grain_check(f"{key}_lower", "Plate crushing over the post", case.P, over, plate, C_M)
    if post.kind is Kind.STEEL:
        return
    star = wood.compression_star(post, case.C_D, design.at)
    if design.kind in ("wood plate", "steel plate"):
        A = nds.area(b=_lesser(length, post.b), d=_lesser(design.plate_breadth or post.d, post.d))
        title, limit = "End of the post under the plate", star
        if design.kind == "wood plate":
            limit = nds.end_grain_bearing(F_c_star=star)
    else:
        A = nds.area(b=breadth, d=length)
        title, limit = "End of the post under the beam", nds.end_grain_bearing(F_c_star=star)
    yield Check(f"{design.key}.seat_end_grain", title, nds.compression_stress(P=case.P, A=A), limit)


def _steel_plate(design: SeatDesign, case: AxialCase) -> Iterator[Check]:
    """Thickness that a steel plate needs beyond the post under it, beside the one that it has."""
    if design.kind == "steel plate" and design.plate_breadth is not None and design.thickness is not None:
        title = "Thickness of the steel plate"
        yield Check(f"{design.key}.seat_plate_thickness", title, _plate_thickness(design, case.P), design.thickness)


def _thickness_needed(design: SeatDesign) -> Iterator[Item]:
    """Thickness that a steel plate needs, where it is not known."""
    if design.kind == "steel plate" and design.plate_breadth is not None and design.thickness is None:
        case = max(design.cases, key=lambda one: float(one.P.number))
        yield _plate_thickness(design, case.P).named("thickness that the steel plate needs")


def _plate_thickness(design: SeatDesign, P: Value) -> Value:
    from beamcheck.standards import aisc360_16 as aisc

    assert design.plate_breadth is not None
    length, breadth = _sides(design.seat)
    f_p = aisc.bearing_pressure(R=P, b=breadth, l_b=length)
    along = aisc.plate_cantilever(c_plate=length, c_post=design.post.b)
    across = aisc.plate_cantilever(c_plate=design.plate_breadth, c_post=design.post.d)
    l_c = either(across.number > along.number, across, along)
    F_y = looked(lookup("aisc360_16/materials", steel="A36"), "F_y")
    Omega = looked(lookup("aisc360_16/factors", clause="F1", item="Omega"), "value", "Omega")
    return aisc.bearing_plate_thickness(l_c=l_c, f_p=f_p, F_y=F_y, Omega=Omega)


def _sides(seat: Seat) -> tuple[Value, Value]:
    assert seat.length is not None and seat.breadth is not None
    return seat.length, seat.breadth


def _lesser(one: Value, other: Value) -> Value:
    return either(one.to("in") <= other.to("in"), one, other)
