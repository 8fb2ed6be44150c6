"""The web of a W shape where force enters it: over a bearing, and under a point load on the top flange (J10, ASD).

Leaves out: sidesway and compression buckling of the web and panel zones (J10.4 to J10.6), which are referred.
"""

from collections.abc import Iterator

from beamcheck.checks.beam import BeamDesign
from beamcheck.maths import everywhere, least
from beamcheck.standards import aisc360_16 as aisc
from beamcheck.standards import statics
from beamcheck.tables import lookup
from beamcheck.takedown.sources import Combination, Source
from beamcheck.trace import Check, Item, Note, Num, Refer, Value, either, looked, taken

_TITLE = "Point loads on the steel beam"
_WHY = (
    "Under a point load the web may also buckle sideways, or between that load and a post right below it, and need "
    "stiffeners (AISC 360 J10.4, J10.5, J10.6, J10.8); only its yielding and crippling are checked here"
)
_ASK = "Is the bottom flange held sideways under each point load, and does the web need stiffeners there?"
_EDGE = "counts as an edge without length along the beam, the least that it can be: any length spares the web."


def omega(clause: str, item: str = "Omega") -> Value:
    """Safety factor of one limit state."""
    return looked(lookup("aisc360_16/factors", clause=clause, item=item), "value", "Omega")


def over_bearing(design: BeamDesign, support: int, l_b: Value) -> tuple[Value, Value]:
    """Allowable reactions over a bearing: by yielding and by crippling of the web."""
    to_end = _to_end(design, design.loaded.line.supports[support])
    return web_yielding(design, to_end, l_b), web_crippling(design, to_end, l_b)


def web_yielding(design: BeamDesign, to_end: Num, l_b: Value) -> Value:
    """Allowable force by yielding of the web, so far from the nearer end of the beam."""
    member = design.member
    inside, end = (
        clause(F_y=member["F_y"], t_web=member["t_web"], k_des=member["k_des"], l_b=l_b)
        for clause in (aisc.web_yielding_inside, aisc.web_yielding_end)
    )
    R_n = either(to_end > member.d.number, inside, end)
    return aisc.allowable_bearing(R_n=R_n, Omega=omega("J10 yielding"))


def web_crippling(design: BeamDesign, to_end: Num, l_b: Value) -> Value:
    """Allowable force by crippling of the web, so far from the nearer end of the beam."""
    member = design.member
    E, F_y, t_web, t_f = member["E"], member["F_y"], member["t_web"], member["t_f"]
    inside, end = (
        clause(F_y=F_y, E=E, d=member.d, t_web=t_web, t_f=t_f, l_b=l_b)
        for clause in (aisc.web_crippling_inside, aisc.web_crippling_end)
    )
    R_n = either(to_end >= member.d.number / 2, inside, end)
    return aisc.allowable_bearing(R_n=R_n, Omega=omega("J10 crippling"))


def under_points(design: BeamDesign) -> Iterator[Check]:
    """Web yielding and crippling under each thing that stands on the top flange, under each combination."""
    for number, source in enumerate(_standing(design), 1):
        key, l_b, to_end = f"{design.key}.point[{number}]", foot(source), _to_end(design, _station(design, source))
        limits = web_yielding(design, to_end, l_b), web_crippling(design, to_end, l_b)
        for combination in design.loaded.combinations:
            P = _force(design, combination, source)
            if P is None or everywhere(P.number <= 0):
                continue
            for what, limit in zip(("yielding", "crippling"), limits, strict=True):
                yield Check(f"{key}.web_{what}", f"Web {what} under {source.name}", P, limit, combination.name)


def point_loads(design: BeamDesign) -> list[Item]:
    """The stop where anything stands on the top flange: what more its web may need; and whose foot is not told."""
    standing = _standing(design)
    if not standing:
        return []
    edges = [source.name for source in standing if source.foot is None]
    assumed = [Note(f"ASSUMED: the foot of {', '.join(edges)} {_EDGE}")] if edges else []
    return [Refer(f"{design.key}.points", _TITLE, _WHY, _ASK), *assumed]


def foot(source: Source) -> Value:
    """Length along the beam of what stands there; an edge without length where nobody tells it, the least there is."""
    reason = "how long its foot is along the beam is not told: an edge without length, the least that it can be"
    return source.foot or taken("l_b", 0.0, reason, unit="in")


def _standing(design: BeamDesign) -> tuple[Source, ...]:
    """One row of each thing that stands on the beam, in the order of the take-down."""
    found: dict[tuple[str, str], Source] = {}
    for source in _points(design):
        found.setdefault((source.where, source.name), source)
    return tuple(found.values())


def _points(design: BeamDesign) -> Iterator[Source]:
    return (source for source in design.loaded.sources if source.P is not None)


def _force(design: BeamDesign, combination: Combination, there: Source) -> Value | None:
    """What presses on the flange there under a combination: the thing's own parts, and all of what is too near it.

    Nearer than the depth, foot to foot, two things spread into the same web: each is then checked for both.
    """
    P_sum = None
    for source in _points(design):
        g_load = combination.factors.get(source.load_type)
        assert source.P is not None
        P = source.P if (source.where, source.name) == (there.where, there.name) else _beside(design, source, there)
        if g_load is None or P is None:
            continue
        if P_sum is None:
            P_sum = statics.factored_point(g_load=g_load, P=P)
        else:
            P_sum = statics.point_added(P_sum=P_sum, g_load=g_load, P=P)
    return P_sum


def _beside(design: BeamDesign, source: Source, there: Source) -> Value | None:
    """A part of another thing, where that presses and stands near; None where it does nowhere."""
    assert source.P is not None
    apart = abs(_station(design, source) - _station(design, there))
    between = apart - (foot(source).to("in") + foot(there).to("in")) / 2
    idle = (between >= design.member.d.to("in")) | (source.P.to("lb") <= 0)
    if everywhere(idle):
        return None
    return either(idle, taken("P", 0.0, "stands farther off, or lifts", unit="lb"), source.P)


def _station(design: BeamDesign, source: Source) -> Num:
    return design.loaded.line.start if source.station is None else source.station.to("in")


def _to_end(design: BeamDesign, station: Num) -> Num:
    line = design.loaded.line
    return least(station - line.start, line.end - station)
