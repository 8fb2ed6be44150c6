"""Turn each carried item of a survey into its rows of the take-down table."""

from collections.abc import Callable

from beamcheck.errors import OutOfRange
from beamcheck.maths import everywhere
from beamcheck.standards import statics
from beamcheck.survey.model import Carried, Site
from beamcheck.takedown.extent import shortest_stretch
from beamcheck.takedown.live import live_on_beam
from beamcheck.takedown.snow import roof_live, roof_snow
from beamcheck.takedown.sources import Reach, Source
from beamcheck.trace import Missing, Value, as_one, taken


def all_sources(
    carried: tuple[Carried, ...], site: Site, beam: Reach
) -> tuple[tuple[Source, ...], tuple[Missing, ...]]:
    """The rows of everything that is carried, and what cannot be shown of it."""
    rows: list[Source] = []
    missing: list[Missing] = []
    for item in carried:
        try:
            rows += sources(item, site, beam)
        except OutOfRange as reason:
            missing.append(Missing(f"takedown.{item.where}", item.name, str(reason)))
    return tuple(rows), tuple(missing)


def sources(item: Carried, site: Site, beam: Reach) -> tuple[Source, ...]:
    """The rows of one carried item. Raises OutOfRange where something it needs is not known."""
    return _RULES[item.kind](item, site, beam)


def factor(item: Carried) -> Value:
    """Continuity factor of the joists over the wall: 1.0 for two separate joists, more for one piece or unknown."""
    assert item.span_a is not None and item.span_b is not None
    if item.continuity in ("lapped", "butted"):
        return taken(
            "k_c",
            1.0,
            f"joists are {item.continuity} over the wall: each side rests by itself",
            "common practice, no source",
        )
    if not everywhere((item.span_a.number > 0) & (item.span_b.number > 0)):
        return as_one("k_c", "joists on one side of the wall only", "common practice, no source")
    return statics.continuity_factor(s_a=item.span_a, s_b=item.span_b)


def width(item: Carried) -> Value:
    """Tributary width of the wall for what spans on to it from both sides."""
    assert item.span_a is not None and item.span_b is not None
    return statics.tributary_width(s_a=item.span_a, s_b=item.span_b)


def _joisted(item: Carried, site: Site, beam: Reach) -> tuple[Source, ...]:
    assert item.dead is not None
    t_w, k_c = width(item), factor(item)
    q_L = live_on_beam(item, site, beam, t_w)
    return (
        _spread(item, "D", statics.line_load(q=item.dead, t_w=t_w, k_c=k_c)),
        _spread(item, "L", statics.line_load(q=q_L, t_w=t_w, k_c=k_c)),
    )


def _roof(item: Carried, site: Site, beam: Reach) -> tuple[Source, ...]:
    assert item.dead is not None and item.pitch is not None
    t_w = width(item)
    k_c = as_one("k_c", "rafters are not in one piece over the wall", "common practice, no source")
    A_T = statics.gathered_area(t_w=t_w, l=statics.half_of_bay(l=shortest_stretch(item, beam)))
    return (
        _spread(item, "D", statics.line_load(q=statics.on_plan(q_s=item.dead, theta=item.pitch), t_w=t_w, k_c=k_c)),
        _spread(item, "Lr", statics.line_load(q=roof_live(site, item.pitch, A_T), t_w=t_w, k_c=k_c)),
        _spread(item, "S", statics.line_load(q=roof_snow(site, item.pitch), t_w=t_w, k_c=k_c)),
    )


def _strut(item: Carried, site: Site, beam: Reach) -> tuple[Source, ...]:
    assert item.dead is not None and item.pitch is not None and item.area is not None
    on_plan = statics.on_plan(q_s=item.dead, theta=item.pitch)
    return (
        _force(item, "D", statics.point_from_area(q=on_plan, A_T=item.area)),
        _force(item, "Lr", statics.point_from_area(q=roof_live(site, item.pitch, item.area), A_T=item.area)),
        _force(item, "S", statics.point_from_area(q=roof_snow(site, item.pitch), A_T=item.area)),
    )


def _wall_above(item: Carried, site: Site, beam: Reach) -> tuple[Source, ...]:
    assert item.weight is not None and item.height is not None
    return (_spread(item, "D", statics.wall_weight(q_w=item.weight, h_w=item.height)),)


def _point(item: Carried, site: Site, beam: Reach) -> tuple[Source, ...]:
    given = {"D": item.dead_load, "L": item.live_load, "Lr": item.roof_live_load, "S": item.snow_load}
    return tuple(_force(item, load_type, P) for load_type, P in given.items() if P is not None)


def _line(item: Carried, site: Site, beam: Reach) -> tuple[Source, ...]:
    given = {"D": item.dead_line, "L": item.live_line, "Lr": item.roof_live_line, "S": item.snow_line}
    return tuple(_spread(item, load_type, w) for load_type, w in given.items() if w is not None)


def _spread(item: Carried, load_type: str, w: Value) -> Source:
    return Source(item.where, item.name, load_type, w=w, start=item.start, end=item.end)


def _force(item: Carried, load_type: str, P: Value) -> Source:
    return Source(item.where, item.name, load_type, P=P, station=item.station, foot=item.foot_length)


_RULES: dict[str, Callable[[Carried, Site, Reach], tuple[Source, ...]]] = {
    "floor": _joisted,
    "ceiling": _joisted,
    "roof": _roof,
    "strut": _strut,
    "wall above": _wall_above,
    "point": _point,
    "line": _line,
}
