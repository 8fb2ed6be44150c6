"""Weights that are told layer by layer: of what is carried, and of the top of a heavy thing."""

from typing import Any

from beamcheck.standards import fit, statics
from beamcheck.survey.entries import LAYERED, Entries
from beamcheck.survey.entry import Section
from beamcheck.trace import Given, Value


def built_up(entries: Entries, section: Section, written: dict[str, Any], item: dict[str, Any]) -> None:
    """Put the sum of its layers into the weight of one table of a section; a fault where they contradict the rest."""
    field = next(field for field in section.fields if field.key in LAYERED)
    where = f"{item['where']}.{field.key}"
    if field.key not in written:
        mend = f"name its layers in {where}, or leave it out"
        entries.fault(f"{item['where']}.top_area", "is told, but not what the top is made of", mend)
    if not item[field.key]:
        return
    parts = entries.parts(field, written[field.key], where)
    assert parts is not None, "a list of layers that was read once"
    whole = _sum(item[field.key], Given(where, parts["trust"], parts["value"], parts["note"]))
    if section.key == "heavy":
        _with_top(entries, item, whole, where)
        return
    key = "weight" if item["kind"] == "wall above" else "dead"
    told = item[key]
    if told is not None and told.origin.default is None:
        what = f"are told, and so is {key}: {told.origin.text}"
        entries.fault(where, what, f"leave out {item['where']}.{key}, or the layers: they add up to it")
    item[key] = whole


def _with_top(entries: Entries, item: dict[str, Any], top: Value, where: str) -> None:
    if item["top_area"] is None:
        entries.fault(where, "are told without the area of the top", f"measure {item['where']}.top_area")
    elif item["weight"] is not None:
        item["weight"] = fit.weight_with_top(W_below=item["weight"], q_D=top, A_top=item["top_area"])


def _sum(layers: tuple[Value, ...], given: Given) -> Value:
    """Layers added up from the first; the whole may differ from that by what the owner says of it."""
    q_sum = layers[0]
    for layer in layers[1:]:
        q_sum = statics.layer_added(q_above=q_sum, q_layer=layer)
    return statics.assembly_weight(k_asm=Value("k_asm", 1.0, "1", given), q_sum=q_sum)
