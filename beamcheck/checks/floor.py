"""A heavy thing on joists that are there: one joist with its share, by strength and by stiffness."""

from collections.abc import Iterator
from math import ceil, floor

from beamcheck.beam.model import Line
from beamcheck.catalogue.members import Member
from beamcheck.checks.beam import BeamDesign, Seat, every_check, every_deflection, governing
from beamcheck.checks.lines import load_line
from beamcheck.checks.wood import DRY, Bracing
from beamcheck.frozen import dataclass
from beamcheck.standards import fit, statics
from beamcheck.tables import Row, lookup
from beamcheck.takedown.sources import Combination, Source
from beamcheck.trace import Check, Value, as_one, taken

_SLIVER, _STEPS = 0.01, 32
_FLOOR = Bracing(None, reason="the floor boards hold the top edge and the ends are held against turning")


@dataclass(frozen=True, slots=True, eq=False)
class Standing:
    """A heavy thing and the joists under it.

    legs: None if it stands on its base; lasting: whether it counts as dead load; station: of the middle of the thing
    along the joist, None if it may stand anywhere; finishes: rows of the stiffness limits.
    """

    key: str
    joist: Member
    span: Value
    spacing: Value
    dead: Value
    live: Value
    weight: Value
    along: Value
    across: Value
    legs: Value | None
    lasting: bool
    station: Value | None
    combinations: tuple[Combination, ...]
    finishes: tuple[Row, ...]


def check_joist(standing: Standing) -> tuple[Check, ...]:
    """Bending, shear and stiffness of one joist, each with the thing where it is worst for that."""
    found = (check for station in places(standing) for check in _every(standing, station))
    return governing(found)


def places(standing: Standing) -> tuple[float, ...]:
    """Where the middle of the thing is tried: as told, either way round; else where some check may be the hardest.

    That is in the middle, just off a support, and, of legs c apart under a uniform load, with the first line of legs a
    little off the middle of the span: where the derivative of the moment under it is nothing.
    """
    length, c = float(standing.span.to("in")), float(standing.along.to("in"))
    if standing.station is not None:
        told = float(standing.station.to("in"))
        return (told,) if standing.legs is None else (told, length - told)
    if standing.legs is None:
        return length / 2, c / 2
    tried = [length / 2, c / 2, min(c / 2 + _SLIVER, length / 2)]
    P = float(standing.weight.to("lb")) / float(standing.legs.number)
    count = len(legs_on_joist(standing, 0.0, c))
    for loads in ((standing.dead,), (standing.dead, standing.live)):
        w = sum(float(q.to("psf")) / 144 for q in loads) * float(standing.spacing.to("in"))
        off = (count // 2) * P * c / (w * length + 2 * count * P)
        tried.append(length / 2 - off + c / 2)
    if count > 1 and count % 2:  # more legs at one end than at the other: no short rule for the greatest deflection
        tried += [c / 2 + (length - c) * step / _STEPS for step in range(_STEPS)]
    return tuple(place for place in dict.fromkeys(tried) if c / 2 <= place <= length - c / 2)


def _every(standing: Standing, station: float) -> Iterator[Check]:
    """Strength with all there is; stiffness against what comes after the finish is laid: live load and the thing."""
    lasting = lookup("ibc_2021/deflection", member="floor member", load="D+L")
    yield from every_check(_design(standing, station, "D" if standing.lasting else "L", (lasting,)))
    yield from every_deflection(_design(standing, station, "L", standing.finishes))


def _design(standing: Standing, station: float, load_type: str, limits: tuple[Row, ...]) -> BeamDesign:
    length = float(standing.span.to("in"))
    sources = (*_floor(standing, station), *_thing(standing, station, load_type))
    loaded = load_line(Line((0.0, length)), (standing.span,), sources, standing.combinations)
    seat = Seat(None, None)
    held = Bracing(standing.span)
    return BeamDesign(standing.joist, loaded, (seat, seat), _FLOOR, held, "flush", DRY, limits, standing.key)


def _floor(standing: Standing, station: float) -> tuple[Source, ...]:
    """The floor itself, and its live load; under a base nobody can walk, between legs that is not counted on."""
    one = as_one("k_c", "one joist by itself, over one span")
    dead = statics.line_load(q=standing.dead, t_w=standing.spacing, k_c=one)
    live = statics.line_load(q=standing.live, t_w=standing.spacing, k_c=one)
    length, half = float(standing.span.to("in")), float(standing.along.to("in")) / 2
    free = [(0.0, length)] if standing.legs is not None else [(0.0, station - half), (station + half, length)]
    return (
        Source(standing.key, "the floor", "D", w=dead),
        *(
            Source(standing.key, "people on the floor", "L", w=live, start=_at(start), end=_at(end))
            for start, end in free
            if end - start > _SLIVER
        ),
    )


def _thing(standing: Standing, station: float, load_type: str) -> tuple[Source, ...]:
    """The thing's share on one joist: along its base, or as the legs that can stand on one joist."""
    half = float(standing.along.to("in")) / 2
    if standing.legs is None:
        w = fit.spread_along(P_one=joist_share(standing), l_base=standing.along)
        start, end = _at(station - half), _at(station + half)
        return (Source(standing.key, "its base", load_type, w=w, start=start, end=end),)
    P_one = fit.leg_load(W_thing=standing.weight, n_legs=standing.legs)
    return tuple(
        Source(standing.key, f"leg {number}", load_type, P=P_one, station=_at(place))
        for number, place in enumerate(legs_on_joist(standing, station - half, station + half), 1)
    )


def joist_share(standing: Standing) -> Value:
    """What one joist takes of a thing on its base: of the joists that are sure to lie under it, one."""
    under = max(1, floor(float(standing.across.to("in")) / float(standing.spacing.to("in"))))
    reason = f"at least {under} joist{'s' if under > 1 else ''} lie under the base; no help from others is counted"
    return fit.share_of_one_joist(W_thing=standing.weight, k_one=taken("k_one", 1 / under, reason))


def legs_on_joist(standing: Standing, first: float, last: float) -> list[float]:
    """Places of the legs that one joist may get: one line of them, or all where the lines are closer than joists."""
    assert standing.legs is not None
    legs = round(float(standing.legs.number))
    together = float(standing.across.to("in")) < float(standing.spacing.to("in"))
    count = legs if together or legs < 3 else ceil(legs / 2)
    if count == 1:
        return [(first + last) / 2]
    return [last if number % 2 else first for number in range(count)]


def _at(place: float) -> Value:
    return taken("x_thing", place, "place of the thing along the joist", unit="in")
