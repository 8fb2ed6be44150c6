"""What the joists on one side of a flush beam hang on its face: half their span, each side cut and by itself."""

from beamcheck.standards import statics
from beamcheck.survey.model import Carried
from beamcheck.takedown.live import live_of
from beamcheck.takedown.sources import Source
from beamcheck.trace import Value, as_one, taken

HUNG = ("floor", "ceiling")
SIDES = ("A", "B")


def span_on(item: Carried, side: str) -> Value:
    """Span of an item's joists on one side of the beam."""
    span = item.span_a if side == "A" else item.span_b
    assert span is not None
    return span


def hung(carried: tuple[Carried, ...], side: str) -> tuple[Source, ...]:
    """The rows of all joists on one side; their live load is whole, as a fastener gathers little."""
    rows: list[Source] = []
    for item in carried:
        if item.kind in HUNG and span_on(item, side).number > 0:
            rows += _of(item, side)
    return tuple(rows)


def _of(item: Carried, side: str) -> tuple[Source, ...]:
    assert item.dead is not None
    nothing = taken("s_b", 0.0, "the other side hangs on the other face", unit="ft")
    t_w = statics.tributary_width(s_a=span_on(item, side), s_b=nothing)
    k_c = as_one("k_c", "joists are cut at a flush beam: each side rests by itself", "common practice, no source")
    loads = {"D": item.dead, "L": live_of(item)}
    return tuple(
        Source(
            item.where, item.name, load_type, w=statics.line_load(q=q, t_w=t_w, k_c=k_c), start=item.start, end=item.end
        )
        for load_type, q in loads.items()
    )
