"""A wood beam on its line: bending both ways, shear, bearing, deflection; the governing combination of each."""

from collections.abc import Callable, Iterable, Iterator
from typing import Literal, NamedTuple

from beamcheck.catalogue.members import Kind, Member
from beamcheck.checks import wood
from beamcheck.checks.demands import Demands, Way
from beamcheck.checks.wood import Bracing, Conditions
from beamcheck.frozen import dataclass
from beamcheck.maths import everywhere
from beamcheck.standards import nds_2018 as nds
from beamcheck.standards import statics
from beamcheck.tables import Row, lookup
from beamcheck.takedown.sources import LOAD_WORDS, Source
from beamcheck.trace import Check, Item, Num, Refer, Value, as_one, looked

LIFTS = -1.0  # lb: a lesser uplift is rounding or the weight of a hand


@dataclass(frozen=True, slots=True, eq=False)
class Seat:
    """Where the beam rests: length of the bearing along the beam, and breadth across it; None if not known.

    off: how far off the post's centre the seat by its own shape puts the load at least; None if it need not be.
    """

    length: Value | None
    breadth: Value | None
    end: str = "end"
    off: Value | None = None


class EndNotch(NamedTuple):
    """A notch over the end bearings: cut from below or from above, its depth, and how far it runs past the face.

    reach: of a notch from above; None if it is not known.
    """

    side: Literal["below", "above"]
    d_cut: Value
    reach: Value | None = None


@dataclass(frozen=True, slots=True, eq=False)
class BeamDesign:
    """All that the checks of a beam need.

    bracing: of the top edge, between bearings; bottom: of the bottom edge, where the beam hogs; position: dropped
    or flush (a flush beam takes its joists on its sides, so shear is not read at a depth from the support); rests_on:
    what its supports are called; notch: at both its ends.
    """

    member: Member
    loaded: Demands
    seats: tuple[Seat, ...]
    bracing: Bracing
    bottom: Bracing
    position: str
    at: Conditions
    limits: tuple[Row, ...]
    key: str = "beam"
    rests_on: str = "post"
    notch: EndNotch | None = None


Movement = Callable[[BeamDesign, dict[str, float], int], Value]
"""How far a bay, by its number from 0, moves under the sum of load types alone, each with its factor."""

Totals = Callable[[BeamDesign, int], Iterable[tuple[str, Value]]]
"""How far it moves in all, under each combination: in words and inches."""


def worst(checks: Iterable[Check]) -> Check:
    """The check with the greatest utilisation; the first of equals."""
    return max(checks, key=lambda check: float(check.ratio))


def governing(checks: Iterable[Check]) -> tuple[Check, ...]:
    """The worst check of each key, in the order in which the keys first come."""
    found: dict[str, Check] = {}
    for check in checks:
        known = found.get(check.key)
        if known is None or float(check.ratio) > float(known.ratio):
            found[check.key] = check
    return tuple(found.values())


def check_beam(design: BeamDesign) -> tuple[Item, ...]:
    """Every check of the beam, each under the combination that governs it, in the order an engineer reads them."""
    return (*governing(every_check(design)), *uplift(design), *_without_sharing(design))


def every_check(design: BeamDesign) -> Iterator[Check]:
    """Every check of the beam under every combination, at every face and in every bay: what the governing are among."""
    yield from bendings(design)
    yield from _shears(design)
    if design.notch is not None:
        from beamcheck.checks.notches import notched_ends

        yield from notched_ends(design, design.notch)
    yield from bearings(design)
    yield from every_deflection(design)


def bendings(design: BeamDesign) -> Iterator[Check]:
    """Bending each way under each combination, with its slenderness where C_L was computed."""
    yield from _bending(design, "sagging")
    if design.loaded.hogs:
        yield from _bending(design, "hogging")


def _without_sharing(design: BeamDesign) -> tuple[Item, ...]:
    """What the repetitive-member factor changes, where it was asked for."""
    if design.at.sharing == "no":
        return ()
    from beamcheck.checks.sharing import without_sharing

    return without_sharing(design)


def _bending(design: BeamDesign, way: Way) -> Iterator[Check]:
    """Bending one way under each combination, with its slenderness where C_L was computed."""
    member = design.member
    S = nds.section_modulus(b=member.b, d=member.d)
    bracing, face, title = (
        (design.bracing, "F_b", "Bending")
        if way == "sagging"
        else (design.bottom, "F_b_neg", f"Bending over a {design.rests_on}")
    )
    for number, combination in enumerate(design.loaded.combinations):
        M, l_0, case = design.loaded.moment(number, way)
        between = l_0() if member.kind is Kind.GLULAM else None
        limit, slender = wood.bending(member, combination.C_D, bracing, design.at, between, face)
        yield Check(f"{design.key}.bending_{way}", title, nds.bending_stress(M=M, S=S), limit, case)
        if slender is not None:
            key = f"{design.key}.slenderness_{way}"
            yield Check(key, f"{slender.title}, {way}", slender.demand, slender.limit)


def _shears(design: BeamDesign) -> Iterator[Check]:
    """Shear at each support face, at a depth from it where the standard lets it; anywhere if any load presses up."""
    member, loaded = design.member, design.loaded
    falls = all(_presses_down(source) for source in loaded.sources)
    for number, combination in enumerate(loaded.combinations):
        limit = wood.shear(member, combination.C_D, design.at)
        if not falls:
            V, case = loaded.shear(number)
            yield Check(f"{design.key}.shear", "Shear", nds.shear_stress(V=V, b=member.b, d=member.d), limit, case)
        for face in loaded.faces(number) if falls else ():
            V = face.V
            if design.position == "dropped":
                V = loaded.shear_beyond(face, _half_bearing(design.seats[face.support]), member.d.to("in"))
            stress = nds.shear_stress(V=V, b=member.b, d=member.d)
            yield Check(f"{design.key}.shear", "Shear", stress, limit, face.when)


def _presses_down(source: Source) -> bool:
    load = source.P if source.P is not None else source.w
    assert load is not None
    return everywhere(load.number >= 0)


def _half_bearing(seat: Seat) -> Num:
    return seat.length.to("in") / 2 if seat.length is not None else 0.0


def bearings(design: BeamDesign) -> Iterator[Check]:
    """Compression across the grain at each bearing whose length is known; the load's duration does not count."""
    for support, seat in enumerate(design.seats):
        if seat.length is not None and seat.breadth is not None:
            yield bearing(design, support)


def bearing(design: BeamDesign, support: int) -> Check:
    """Compression across the grain at one bearing."""
    seat = design.seats[support]
    assert seat.length is not None and seat.breadth is not None
    R, case = design.loaded.greatest_push(support)
    stress = nds.bearing_stress(R=R, b=seat.breadth, l_b=seat.length)
    limit = wood.across_grain(design.member, bearing_area(seat), design.at)
    title = f"Beam crushing on {design.rests_on} {support + 1}"
    return Check(f"{design.key}.bearing[{support + 1}]", title, stress, limit, case)


def least_bearing(key: str, l_b_min: Value, seat: Seat) -> Check:
    """The least bearing length that the house code asks for, beside the length there is."""
    assert seat.length is not None
    return Check(f"{key}.bearing_length", "Least bearing length asked for", l_b_min, seat.length)


def bearing_area(seat: Seat) -> Value:
    """C_b: above 1.0 only for a short bearing well away from the beam's end."""
    if seat.end == "end" or seat.length is None:
        return as_one("C_b", "the bearing is at the end of the beam", "NDS 2018 3.10.4")
    return nds.bearing_area(l_b=seat.length)


def uplift(design: BeamDesign) -> list[Item]:
    """A stop for each bearing that some pattern of live load lifts."""
    stops: list[Item] = []
    for support in range(len(design.loaded.line.supports)):
        least, case = design.loaded.lift(support)
        if float(least.number) < LIFTS:
            why = f"{-float(least.number):,.0f} lb of uplift under {case}"
            ask = "What holds the beam down there, and how is that force carried to the ground?"
            title = f"The beam lifts off {design.rests_on} {support + 1}"
            stops.append(Refer(f"{design.key}.uplift[{support + 1}]", title, why, ask))
    return stops


def every_deflection(design: BeamDesign) -> Iterator[Check]:
    """Live and long-term deflection of every bay against each limit that applies."""
    return against_limits(design, movement, _long_term)


def against_limits(design: BeamDesign, move: Movement, in_all: Totals) -> Iterator[Check]:
    """Passing and lasting deflection, each bay by its own span, against each limit that applies; wood or steel."""
    for row in design.limits:
        total = row.text("load").startswith("D")
        key = f"{design.key}.deflection_{'total' if total else 'live'}_L{row.number('n'):.0f}"
        n_l = looked(row, "n", "n_l")
        for number, bay in enumerate(design.loaded.line.bays):
            limit = statics.deflection_limit(l=design.loaded.reach(number), n_l=n_l)
            for what, demand in in_all(design, number) if total else _passing(design, move, number):
                title = f"{row.text('member').capitalize()}: {what}, L/{row.number('n'):.0f}"
                yield Check(key, title, demand, limit, bay.label)


def _passing(design: BeamDesign, move: Movement, bay: int) -> Iterator[tuple[str, Value]]:
    for name in design.loaded.transient:
        yield f"{LOAD_WORDS[name]} deflection", move(design, {name: 1.0}, bay)


def _long_term(design: BeamDesign, bay: int) -> Iterator[tuple[str, Value]]:
    long_term = movement(design, {"D": 1.0}, bay)
    K_cr = creep(design)
    for combination in design.loaded.combinations:
        factors = {name: float(g.number) for name, g in combination.factors.items() if name != "D"}
        short = movement(design, factors, bay)
        total = nds.total_deflection(K_cr=K_cr, delta_LT=long_term, delta_ST=short)
        yield f"long-term deflection, {combination.name}", total


def creep(design: BeamDesign) -> Value:
    """K_cr of the beam: dry and seasoned, or wet."""
    dry = design.at.moisture == "dry"
    condition = "seasoned lumber, glulam, SCL, I-joists; dry" if dry else "unseasoned or wet lumber"
    return looked(lookup("nds_2018/creep", condition=condition), "K_cr")


def movement(design: BeamDesign, factors: dict[str, float], bay: int) -> Value:
    """Deflection of a bay under the sum of load types alone, each with its worst pattern; an overhang either way."""
    member = design.member
    Y, M = design.loaded.moved(factors, bay)
    E_adj = wood.stiffness(member, design.at)
    delta_b = nds.bending_deflection(Y=Y, E_adj=E_adj, I=wood.inertia(member))
    if member.kind is not Kind.COMPOSITE:
        return delta_b
    return nds.deflection(delta_b=delta_b, delta_s=nds.shear_deflection(M=M, E_adj=E_adj, b=member.b, d=member.d))
