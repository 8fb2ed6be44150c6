"""The take-down table: one row a source and load type, psf x tributary width x factor = plf, and what may lift."""

from beamcheck.standards import statics
from beamcheck.survey.model import Carried, Survey
from beamcheck.takedown.carried import live_of
from beamcheck.takedown.sources import LOAD_WORDS, Source
from beamcheck.trace import Item, Missing, Refer, Schedule, Sheet, Value

_HEADS = ("what", "load", "from or at", "to", "psf", "tributary ft", "factor", "plf or lb")


def takedown_sheet(survey: Survey, rows: tuple[Source, ...], missing: tuple[Missing, ...]) -> Sheet:
    """Table, lifting far ends, and what is not shown."""
    table = Schedule("takedown.table", "Take-down", _HEADS, tuple(_row(row) for row in rows))
    parts: list[Item] = [*missing, table]
    for item in survey.carried:
        parts += _far_end(item)
    return Sheet("takedown", "What comes down on the beam", tuple(parts))


def _row(source: Source) -> tuple[str | Value, ...]:
    load = source.w if source.w is not None else source.P
    assert load is not None
    inputs = dict(load.inputs)
    intensity = inputs.get("q") or inputs.get("q_w") or inputs.get("gamma") or ""
    width = inputs.get("t_w") or inputs.get("h_w") or inputs.get("A_T") or inputs.get("A") or ""
    return (
        source.name,
        LOAD_WORDS[source.load_type],
        *_extent(source),
        intensity,
        width,
        inputs.get("k_c") or "",
        load,
    )


def _extent(source: Source) -> tuple[str | Value, str | Value]:
    if source.P is not None:
        return source.station or "left end", ""
    if source.start is None and source.end is None:
        return "whole beam", ""
    return source.start or "left end", source.end or "right end"


def _far_end(item: Carried) -> list[Item]:
    """The far end of a joist in one piece over very unequal spans may lift: shown, with the question."""
    if item.continuity in ("lapped", "butted", "") or item.span_a is None or item.span_b is None or item.dead is None:
        return []
    short, long = sorted((item.span_a, item.span_b), key=lambda span: float(span.to("in")))
    if float(short.to("in")) <= 0:
        return []
    reaction = statics.far_end_reaction(q_D=item.dead, q_L=live_of(item), s_a=short, s_b=long)
    if float(reaction.number) >= 0:
        return []
    why = f"live load on the long span lifts it by {-float(reaction.number):,.0f} lb per foot of wall"
    stop = Refer(
        f"takedown.{item.where}.lift",
        f"Far end of the short span of {item.name}",
        why,
        "What holds the far end of these joists down?",
    )
    return [reaction.named(f"far end of the short span of {item.name}"), stop]
