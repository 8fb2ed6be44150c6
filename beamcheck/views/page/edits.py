"""What the buttons of the form do to a survey: add and remove its parts, and keep what points at them right.

Girders, pads and neighbours name a post by its number, and variants name parts by their key path: what comes
after a post that is added or removed has another number from then on, and is renamed wherever it is named.
"""

import re
from collections.abc import Callable, Mapping
from typing import Any

from beamcheck.survey.entry import MOST_ITEMS
from beamcheck.survey.fields import SECTIONS
from beamcheck.survey.reader import VARIANT
from beamcheck.views.page.form import BadForm

_DO = re.compile(r"(?P<act>add|remove|clear) (?P<section>[a-z_]+)(?:\[(?P<number>[1-9][0-9]?)\])?")
_POST = re.compile(r"(?P<before>\s*post\s+)(?P<number>[0-9]+)\s*", re.IGNORECASE)
_SECTIONS = {section.key: section for section in SECTIONS}

Renumber = Callable[[int], int | None]
"""The new number of a part that had the number given; None if it is no longer there."""


def edited(entries: Mapping[str, Any], do: str) -> dict[str, Any]:
    """The entries after a button, such as ``add post[2]``, ``remove carried[1]`` or ``add temporary``.

    ``add`` gives the new one that number; ``clear carried[3]`` takes away what does not belong to the kind.
    Raises BadForm for a button that the form has not.
    """
    match = _DO.fullmatch(do)
    section = _SECTIONS.get(match["section"]) if match else None
    if match is None or section is None or section.repeated != bool(match["number"]):
        raise BadForm(f"{do[:60]!r} is not a button of this form")
    key, number = section.key, int(match["number"] or 0)
    if not section.repeated:
        return _optional(entries, key, match["act"], optional=section.optional)
    listed = list(entries.get(key, ()))
    if not 1 <= number <= len(listed) + (match["act"] == "add"):
        raise BadForm(f"there is no {key}[{number}] in the form")
    match match["act"]:
        case "add" if len(listed) < MOST_ITEMS:
            changed = _renumbered(entries, key, lambda old: old + (old >= number))
            listed = list(changed.get(key, ()))
            return {**changed, key: [*listed[: number - 1], {}, *listed[number - 1 :]]}
        case "remove":
            changed = _renumbered(entries, key, lambda old: None if old == number else old - (old > number))
            rest = [*changed[key][: number - 1], *changed[key][number:]]
            return {**changed, key: rest} if rest or not section.optional else _without(changed, key)
        case "clear" if key == "carried":
            listed[number - 1] = _fitting(listed[number - 1])
            return {**entries, key: listed}
    raise BadForm(f"{do[:60]!r} cannot be done")


def focus(do: str) -> str:
    """Where the eye goes after a button: to the part that was added, else to its section."""
    match = _DO.fullmatch(do)
    if match is None:
        return ""
    number = f"[{match['number']}]" if match["number"] and match["act"] != "remove" else ""
    return f"{match['section']}{number}"


def misfits(table: Mapping[str, Any]) -> tuple[str, ...]:
    """Keys of a carried item that are written but do not belong to its kind."""
    return tuple(key for key in table if key not in _fitting(table))


def _fitting(table: Mapping[str, Any]) -> dict[str, Any]:
    kind = _text(table, "kind")
    kinds = {field.key: field.kinds for field in _SECTIONS["carried"].fields}
    if kind not in next(field.choices for field in _SECTIONS["carried"].fields if field.key == "kind"):
        return dict(table)
    return {key: entry for key, entry in table.items() if not kinds.get(key) or kind in kinds[key]}


def _optional(entries: Mapping[str, Any], key: str, act: str, *, optional: bool) -> dict[str, Any]:
    if optional and act == "add":
        return {key: {}, **entries}
    if optional and act == "remove":
        return _without(entries, key)
    raise BadForm(f"{key} cannot be added or removed")


def _without(entries: Mapping[str, Any], key: str) -> dict[str, Any]:
    return {other: written for other, written in entries.items() if other != key}


def _renumbered(entries: Mapping[str, Any], section: str, new: Renumber) -> dict[str, Any]:
    changed = {**entries}
    if section == "post":
        if "girder" in changed:
            changed["girder"] = [_girder(table, new) for table in changed["girder"]]
        if "pad" in changed:
            changed["pad"] = [_named(table, "under", new)[0] for table in changed["pad"]]
        if "neighbour" in changed:
            changed["neighbour"] = [_neighbour(table, new) for table in changed["neighbour"]]
    if VARIANT in changed:
        changed[VARIANT] = [_variant(table, section, new) for table in changed[VARIANT]]
    return changed


def _girder(table: Mapping[str, Any], new: Renumber) -> dict[str, Any]:
    """A girder's list of posts, and its list of their stations, which runs beside it."""
    changed, kept = _named(table, "posts", new)
    texts = _text(table, "post_stations").split(",")
    if len(texts) != len(kept):
        return changed
    left = ",".join(text for text, stays in zip(texts, kept, strict=True) if stays)
    return _with(changed, "post_stations", left.strip())


def _named(table: Mapping[str, Any], key: str, new: Renumber) -> tuple[dict[str, Any], tuple[bool, ...]]:
    """A list of names with its posts renamed, and which of them are still there."""
    names = [_name(text, new) for text in _text(table, key).split(",")]
    changed = _with(table, key, ",".join(name for name in names if name is not None).strip())
    return changed, tuple(name is not None for name in names)


def _name(text: str, new: Renumber) -> str | None:
    match = _POST.fullmatch(text)
    if match is None:
        return text
    number = new(int(match["number"]))
    return None if number is None else f"{match['before']}{number}"


def _neighbour(table: Mapping[str, Any], new: Renumber) -> dict[str, Any]:
    text = _text(table, "post")
    if not text.isdecimal():
        return dict(table)
    number = new(int(text))
    return _with(table, "post", "" if number is None else str(number))


def _variant(table: Mapping[str, Any], section: str, new: Renumber) -> dict[str, Any]:
    """A variant with its key paths renamed; what it set on a part that is gone goes too."""
    if not isinstance(table.get("set"), Mapping):
        return dict(table)
    path = re.compile(rf"{section}\[([0-9]+)\](.*)", re.DOTALL)
    changed = {}
    for key, entry in table["set"].items():
        match = path.fullmatch(key)
        number = new(int(match[1])) if match else 0
        if number is not None:
            changed[f"{section}[{number}]{match[2]}" if match else key] = entry
    return {**table, "set": changed}


def _text(table: Mapping[str, Any], key: str) -> str:
    entry = table.get(key, "")
    return str(entry.get("value", "")) if isinstance(entry, Mapping) else str(entry)


def _with(table: Mapping[str, Any], key: str, text: str) -> dict[str, Any]:
    """The table with the text of one entry changed; what is said about the entry stays."""
    if key not in table:
        return dict(table)
    entry = table[key]
    return {**table, key: {**entry, "value": text} if isinstance(entry, Mapping) else text}
