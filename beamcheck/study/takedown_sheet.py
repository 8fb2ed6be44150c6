"""The take-down table: one row a source and load type, psf x tributary width x factor = plf, and what may lift."""

from beamcheck.standards import statics
from beamcheck.study.not_told import left_out, not_told, told_twice
from beamcheck.survey.model import Carried, Survey
from beamcheck.takedown.live import BY_AREA, live_of
from beamcheck.takedown.sources import LOAD_WORDS, Reach, Source
from beamcheck.trace import Item, Missing, Note, Refer, Schedule, Sheet, Value

_LAYERS = ("layer", "psf")
_REDUCED = ("floor", "psf before", "factor K_LL", "ft² of one bay", "psf after", "plf before", "plf after")
_ASK = (
    "The survey asks for a live load reduced by area. House codes print no such reduction: ask the building department "
    "whether it takes it. The area is that of the shortest bay; hangers and temporary walls keep the full live load."
)
_HEADS = ("what", "load", "from or at", "to", "psf", "tributary ft", "factor", "plf or lb")


def takedown_sheet(survey: Survey, rows: tuple[Source, ...], missing: tuple[Missing, ...], beam: Reach) -> Sheet:
    """Table, layers of what weighs by them, reduced live loads, lifting far ends, and what is not shown or not told."""
    table = Schedule("takedown.table", "Take-down", _HEADS, tuple(_row(row) for row in rows))
    parts: list[Item] = [*missing, *not_told(survey, beam), table, *left_out(survey, beam), *told_twice(survey, beam)]
    parts += [layers for item in survey.carried if (layers := _layers(item)) is not None]
    parts += _reduced(survey.carried, rows)
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


def _layers(item: Carried) -> Schedule | None:
    """Each layer with its weight and the sum; nothing for an item whose weight is told."""
    whole = item.dead or item.weight
    if not item.layers or whole is None:
        return None
    rows = (*((layer.title, layer) for layer in item.layers), ("all layers", whole))
    return Schedule(f"takedown.{item.where}.layers", f"Layers of the {item.name}", _LAYERS, rows)


def _reduced(carried: tuple[Carried, ...], sources: tuple[Source, ...]) -> list[Item]:
    """What the reduction by area takes off the live load of each floor that asks for it."""
    asking = {item.where: item for item in carried if item.live_reduction == BY_AREA}
    rows: list[tuple[str | Value, ...]] = []
    for source in sources:
        if source.where not in asking or source.load_type != "L" or source.w is None:
            continue
        load, before = dict(source.w.inputs), live_of(asking[source.where])
        by = dict(load["q"].inputs)
        kept = "not reduced: a heavy live load"
        w_before = statics.line_load(q=before, t_w=load["t_w"], k_c=load["k_c"])
        rows.append((source.name, before, by.get("K_LL", kept), by.get("A_T", ""), load["q"], w_before, source.w))
    if not rows:
        return []
    return [Schedule("takedown.reduced", "Live load reduced by area", _REDUCED, tuple(rows)), Note(_ASK)]


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
