"""A wood beam on its line: bending both ways, shear, bearing, deflection; the governing combination of each."""

from collections.abc import Iterable
from dataclasses import dataclass

from beamcheck.beam.envelope import CombinationPeaks, Governing
from beamcheck.catalogue.members import Kind, Member
from beamcheck.checks import wood
from beamcheck.checks.lines import Loaded, pattern, when
from beamcheck.checks.wood import Bracing, Conditions
from beamcheck.standards import nds_2018 as nds
from beamcheck.standards import statics
from beamcheck.tables import Row, lookup
from beamcheck.takedown.sources import LOAD_WORDS, Combination
from beamcheck.trace import Check, Item, Refer, Solved, Value, looked, taken


@dataclass(frozen=True, slots=True, eq=False)
class Seat:
    """Where the beam rests: length of the bearing along the beam, and breadth across it; None if not known."""

    length: Value | None
    breadth: Value | None
    end: str = "end"


@dataclass(frozen=True, slots=True, eq=False)
class BeamDesign:
    """All that the checks of a beam need.

    bracing: of the top edge, between bearings; bottom: of the bottom edge, where the beam hogs; position: dropped
    or flush (a flush beam takes its joists on its sides, so shear is not read at a depth from the support).
    """

    member: Member
    loaded: Loaded
    seats: tuple[Seat, ...]
    bracing: Bracing
    bottom: Bracing
    position: str
    at: Conditions
    limits: tuple[Row, ...]
    key: str = "beam"


def worst(checks: Iterable[Check]) -> Check:
    """The check with the greatest utilisation; the first of equals."""
    return max(checks, key=lambda check: float(check.ratio))


def check_beam(design: BeamDesign) -> tuple[Item, ...]:
    """Every check of the beam, each under the combination that governs it, in the order an engineer reads them."""
    checks: list[Item] = []
    checks += bending(design)
    checks.append(shear(design))
    checks += bearings(design)
    checks += deflections(design)
    checks += uplift(design)
    return tuple(checks)


def bending(design: BeamDesign) -> list[Item]:
    """Sagging, and hogging where the line has any, each with its slenderness where C_L was computed."""
    items = _bending(design, "sagging")
    if any(g.value < -1e-6 for peaks in design.loaded.strength.peaks for g in peaks.hogging):
        items += _bending(design, "hogging")
    return items


def _bending(design: BeamDesign, way: str) -> list[Item]:
    member, loaded = design.member, design.loaded
    S = nds.section_modulus(b=member.b, d=member.d)
    found: list[tuple[Check, Check | None]] = []
    for combination, peaks in _pairs(loaded):
        governing = _greatest(peaks.sagging if way == "sagging" else peaks.hogging)
        M = loaded.peak("M", governing, "lb*in")
        response = loaded.strength.response(governing.combination, governing.mask)
        l_0 = Value(
            "l_0",
            response.length_between_zero_moments(governing.station),
            "in",
            Solved(when(loaded.line, governing), loaded.inputs),
        )
        bracing = design.bracing if way == "sagging" else design.bottom
        face = "F_b" if way == "sagging" else "F_b_neg"
        limit, slender = wood.bending(member, combination.C_D, bracing, design.at, l_0, face)
        title = "Bending" if way == "sagging" else "Bending over a post"
        check = Check(
            f"{design.key}.bending_{way}",
            title,
            nds.bending_stress(M=M, S=S),
            limit,
            when(loaded.line, governing),
        )
        found.append((check, slender))
    check, slender = max(found, key=lambda pair: float(pair[0].ratio))
    if slender is None:
        return [check]
    return [
        check,
        Check(f"{design.key}.slenderness_{way}", f"{slender.title}, {way}", slender.demand, slender.limit),
    ]


def shear(design: BeamDesign) -> Check:
    """Shear at the support face that governs, at a depth from it where the standard lets it."""
    return worst(_shears(design))


def _shears(design: BeamDesign) -> Iterable[Check]:
    member, loaded = design.member, design.loaded
    d = float(member.d.number)
    for combination, peaks in _pairs(loaded):
        limit = wood.shear(member, combination.C_D, design.at)
        for face, faces in (("left", peaks.shear_left), ("right", peaks.shear_right)):
            for support, governing in enumerate(faces):
                if abs(governing.value) < 1e-9:
                    continue
                V = loaded.peak("V", governing, "lb")
                if design.position == "dropped":
                    half = _half_bearing(design.seats[support])
                    near = loaded.shear_at_depth(governing, support, face, half + d, d)
                    if near is not None:
                        V = nds.shear_within_depth(V_d=near[0], P_d=near[1])
                stress = nds.shear_stress(V=V, b=member.b, d=member.d)
                yield Check(f"{design.key}.shear", "Shear", stress, limit, when(loaded.line, governing))


def _half_bearing(seat: Seat) -> float:
    return float(seat.length.to("in")) / 2 if seat.length is not None else 0.0


def bearings(design: BeamDesign) -> list[Item]:
    """Compression across the grain at each bearing whose length is known; the load's duration does not count."""
    return [
        bearing(design, support)
        for support, seat in enumerate(design.seats)
        if seat.length is not None and seat.breadth is not None
    ]


def bearing(design: BeamDesign, support: int) -> Check:
    """Compression across the grain at one bearing."""
    seat = design.seats[support]
    assert seat.length is not None and seat.breadth is not None
    R, governing = reaction(design.loaded, support)
    stress = nds.bearing_stress(R=R, b=seat.breadth, l_b=seat.length)
    limit = wood.across_grain(design.member, bearing_area(seat), design.at)
    title = f"Beam crushing on post {support + 1}"
    return Check(f"{design.key}.bearing[{support + 1}]", title, stress, limit, when(design.loaded.line, governing))


def least_bearing(key: str, l_b_min: Value, seat: Seat) -> Check:
    """The least bearing length that the house code asks for, beside the length there is."""
    assert seat.length is not None
    return Check(f"{key}.bearing_length", "Least bearing length asked for", l_b_min, seat.length)


def bearing_area(seat: Seat) -> Value:
    """C_b: above 1.0 only for a short bearing well away from the beam's end."""
    if seat.end == "end" or seat.length is None:
        return taken("C_b", 1.0, "the bearing is at the end of the beam", "NDS 2018 3.10.4")
    return nds.bearing_area(l_b=seat.length)


def reaction(loaded: Loaded, support: int) -> tuple[Value, Governing]:
    """The greatest reaction of a support over all combinations and patterns."""
    governing = max((peaks.most_reaction[support] for peaks in loaded.strength.peaks), key=lambda g: g.value)
    return loaded.peak("R", governing, "lb"), governing


def uplift(design: BeamDesign) -> list[Item]:
    """A stop for each bearing that some pattern of live load lifts."""
    stops: list[Item] = []
    for support in range(len(design.loaded.line.supports)):
        least = min((peaks.least_reaction[support] for peaks in design.loaded.strength.peaks), key=lambda g: g.value)
        if least.value < -1.0:
            why = f"{-least.value:,.0f} lb of uplift under {least.combination}{pattern(design.loaded.line, least.mask)}"
            ask = "What holds the beam down there, and how is that force carried to the ground?"
            stops.append(
                Refer(f"{design.key}.uplift[{support + 1}]", f"The beam lifts off post {support + 1}", why, ask)
            )
    return stops


def deflections(design: BeamDesign) -> list[Item]:
    """Live and long-term deflection, each bay by its own span, against each limit that applies."""
    checks: list[Item] = []
    for row in design.limits:
        found = list(_deflections(design, row))
        if found:
            checks.append(worst(found))
    return checks


def _deflections(design: BeamDesign, row: Row) -> Iterable[Check]:
    loaded = design.loaded
    key = f"{design.key}.deflection_{'total' if row.text('load').startswith('D') else 'live'}_L{row.number('n'):.0f}"
    n_l = looked(row, "n", "n_l")
    for number, bay in enumerate(loaded.line.bays):
        reach = bay.length if bay.kind == "span" else 2 * bay.length
        l = Value(
            "l",
            reach,
            "in",
            Solved(bay.label if bay.kind == "span" else f"twice the {bay.label}", loaded.inputs),
        )
        limit = statics.deflection_limit(l=l, n_l=n_l)
        for what, demand in _movements(design, row, number):
            title = f"{row.text('member').capitalize()}: {what}, L/{row.number('n'):.0f}"
            yield Check(key, title, demand, limit, f"{bay.label}")


def _movements(design: BeamDesign, row: Row, bay: int) -> Iterable[tuple[str, Value]]:
    if not row.text("load").startswith("D"):
        for name in design.loaded.transient:
            yield f"{LOAD_WORDS[name]} deflection", movement(design, {name: 1.0}, bay)
        return
    long_term = movement(design, {"D": 1.0}, bay)
    K_cr = creep(design)
    for combination in design.loaded.combinations:
        factors = {name: float(g.number) for name, g in combination.factors.items() if name != "D"}
        short = movement(design, factors, bay)
        yield (
            f"long-term deflection, {combination.name}",
            nds.total_deflection(K_cr=K_cr, delta_LT=long_term, delta_ST=short),
        )


def creep(design: BeamDesign) -> Value:
    """K_cr of the beam: dry and seasoned, or wet."""
    dry = design.at.moisture == "dry"
    condition = "seasoned lumber, glulam, SCL, I-joists; dry" if dry else "unseasoned or wet lumber"
    return looked(lookup("nds_2018/creep", condition=condition), "K_cr")


def movement(design: BeamDesign, factors: dict[str, float], bay: int) -> Value:
    """Deflection of a bay under the sum of load types alone, each with its worst pattern; an overhang either way."""
    member, loaded = design.member, design.loaded
    EI_y, M = 0.0, 0.0
    names = []
    for name, factor in factors.items():
        peaks = loaded.single.under(f"{name} alone")
        down, up = peaks.EI_down[bay].value, peaks.EI_up[bay].value
        kind = loaded.line.bays[bay].kind
        EI_y += factor * (max(down, 0.0) if kind == "span" else max(down, -up))
        M += factor * max(abs(peaks.sagging[bay].value), abs(peaks.hogging[bay].value) if kind != "span" else 0.0)
        names.append(name if factor == 1 else f"{factor:g} {name}")
    method = f"{' + '.join(names) or 'nothing'} alone, {loaded.line.bays[bay].label}"
    E_adj = wood.stiffness(member, design.at)
    I = nds.moment_of_inertia(b=member.b, d=member.d)
    delta_b = nds.bending_deflection(Y=Value("Y", EI_y, "lb*in^3", Solved(method, loaded.inputs)), E_adj=E_adj, I=I)
    if member.kind is not Kind.COMPOSITE:
        return delta_b
    delta_s = nds.shear_deflection(
        M=Value("M", M, "lb*in", Solved(method, loaded.inputs)), E_adj=E_adj, b=member.b, d=member.d
    )
    return nds.deflection(delta_b=delta_b, delta_s=delta_s)


def _pairs(loaded: Loaded) -> Iterable[tuple[Combination, CombinationPeaks]]:
    return zip(loaded.combinations, loaded.strength.peaks, strict=True)


def _greatest(found: tuple[Governing, ...]) -> Governing:
    return max(found, key=lambda governing: abs(governing.value))
