"""What each temporary wall holds: the joists over the wall that goes, and what stands on it, row by row.

Joists that end at the old wall overhang the temporary wall and press harder on it; joists in one piece run over both
temporary walls, and the beam line says what each takes. Where that is not known, the greater of the two stands.
"""

from typing import NamedTuple

from beamcheck.beam.envelope import Combination as Case
from beamcheck.beam.envelope import envelope
from beamcheck.beam.model import Line, Spread
from beamcheck.frozen import dataclass
from beamcheck.standards import shoring
from beamcheck.survey.around import Temporary
from beamcheck.survey.model import Carried, Site
from beamcheck.tables import lookup
from beamcheck.takedown.carried import sources
from beamcheck.takedown.live import live_of
from beamcheck.takedown.sources import Reach, Source
from beamcheck.trace import Solved, Value, as_one, looked

JOISTED = ("floor", "ceiling")
_SEPARATE = ("lapped", "butted")


@dataclass(frozen=True, slots=True, eq=False)
class TemporaryWall:
    """One temporary wall: its rows by load type in plf of that wall, and the points that come down on it in lb."""

    side: str
    set_back: Value
    factor: Value
    rows: tuple[Source, ...]
    points: tuple[Source, ...]


class Work(NamedTuple):
    """What the survey says of the work: what is carried, where, on what for the time being, and the beam."""

    carried: tuple[Carried, ...]
    site: Site
    temporary: Temporary
    beam: Reach

    def span(self, item: Carried, side: str) -> Value:
        """Span of an item's joists on one side of the wall."""
        span = item.span_a if side == "A" else item.span_b
        assert span is not None
        return span

    def set_back(self, side: str) -> Value:
        """Distance of the temporary wall of one side."""
        distance = self.temporary.set_back_a if side == "A" else self.temporary.set_back_b
        assert distance is not None
        return distance


def sides(work: Work) -> tuple[str, ...]:
    """Sides on which a temporary wall stands: those named that have joists."""
    named = ("A", "B") if work.temporary.sides == "both" else (work.temporary.sides,)
    return tuple(side for side in named if _spans(work, side))


def temporary_walls(work: Work) -> tuple[TemporaryWall, ...]:
    """Every temporary wall with what it holds. Raises OutOfRange where a load is not known."""
    return tuple(_wall(work, side) for side in sides(work))


def counted_live(work: Work, item: Carried) -> Value:
    """Live load while the wall is out: the owner's figure for emptied rooms on a floor, else the full one."""
    reduced = work.temporary.live
    if item.kind == "floor" and work.temporary.rooms_above == "empty" and reduced is not None:
        return reduced
    return live_of(item)


def _spans(work: Work, side: str) -> list[Value]:
    spans = (work.span(item, side) for item in work.carried if item.kind in JOISTED)
    return [span for span in spans if span.number > 0]


def _wall(work: Work, side: str) -> TemporaryWall:
    a_set = work.set_back(side)
    shortest = min(_spans(work, side), key=lambda span: float(span.to("in")))
    factor = shoring.set_back_factor(s=shortest, a_set=a_set)
    rows: list[Source] = []
    points: list[Source] = []
    for item in work.carried:
        if item.kind in JOISTED:
            rows += _joists(work, item, side)
            continue
        for source in sources(item, work.site, work.beam):
            if source.load_type == "S" and work.temporary.snow == "out of season":
                continue
            if source.w is not None:
                w_t = shoring.wall_line_on_side(w=source.w, k_share=_share(work), k_set=factor)
                rows.append(Source(source.where, source.name, source.load_type, w=w_t))
            elif source.P is not None:
                P_t = shoring.point_on_side(P=source.P, k_share=_share(work), k_set=factor)
                points.append(Source(source.where, source.name, source.load_type, P=P_t, station=source.station))
    return TemporaryWall(side, a_set, factor, tuple(rows), tuple(points))


def _share(work: Work) -> Value:
    if work.temporary.wall_line_loads == "shared" and len(sides(work)) == 2:
        return looked(lookup("practice/wanted", item="wall line on each of two temporary walls"), "share", "k_share")
    return as_one("k_share", "this temporary wall is given all that stands on the old wall")


def _joists(work: Work, item: Carried, side: str) -> list[Source]:
    assert item.dead is not None
    rows = []
    for load_type, q in (("D", item.dead), ("L", counted_live(work, item))):
        found = list(_presses(work, item, side, q, load_type))
        if found:
            w_t = max(found, key=lambda value: float(value.number))
            rows.append(Source(item.where, item.name, load_type, w=w_t))
    return rows


def _presses(work: Work, item: Carried, side: str, q: Value, load_type: str) -> list[Value]:
    """Load of one kind from the joists of an item, by each way in which they may pass over the wall."""
    own, other = work.span(item, side), work.span(item, "B" if side == "A" else "A")
    found = []
    if item.continuity != "one piece" or not (own.number > 0 and other.number > 0):
        found += _separate(work, side, q, own, other)
    if item.continuity not in _SEPARATE and own.number > 0 and other.number > 0:
        found.append(_through(work, side, q, load_type, (own, other)))
    return found


def _separate(work: Work, side: str, q: Value, own: Value, other: Value) -> list[Value]:
    """Joists that end at the old wall; with one temporary wall the others run past it to that wall."""
    a_set = work.set_back(side)
    parts = []
    if own.number > 0:
        parts.append(shoring.joists_of_one_side(q=q, s=own, k_set=shoring.set_back_factor(s=own, a_set=a_set)))
    if len(sides(work)) == 1 and other.number > 0:
        parts.append(shoring.joists_of_other_side(q=q, s=other, a_set=a_set))
    return parts if len(parts) < 2 else [shoring.added(w_1=parts[0], w_2=parts[1])]


def _through(work: Work, side: str, q: Value, load_type: str, spans: tuple[Value, Value]) -> Value:
    """Joists in one piece over one or two temporary walls: a strip one foot wide on the beam line."""
    own, other = (float(span.to("in")) for span in spans)
    near = own - float(work.set_back(side).to("in"))
    supports = [0.0, near, own + other]
    inputs = [("q", q), ("s", spans[0]), ("s_b", spans[1]), ("a_set", work.set_back(side))]
    if len(sides(work)) == 2:
        beyond = work.set_back("B" if side == "A" else "A")
        supports.insert(2, own + float(beyond.to("in")))
        inputs.append(("a_set", beyond))
    w_i = float(q.to("psf")) / 12
    solved = envelope(
        Line(tuple(supports)),
        {load_type: [Spread(0.0, own + other, w_i, w_i)]},
        [Case("alone", {load_type: 1.0})],
    )
    most = solved.under("alone").most_reaction[1]
    residual = solved.response(most.combination, most.mask).residual
    method = f"joists in one piece, a strip one foot wide, reaction at the temporary wall on side {side}"
    return Value(
        "w_t", most.value, "plf", Solved(method, tuple(inputs), max(abs(residual.force), abs(residual.moment)))
    )
