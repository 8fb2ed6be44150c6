"""Variants inside one survey: [[variant]] tables, each with a name and the keys that it sets otherwise."""

import copy
import re
from collections.abc import Iterable
from pathlib import Path
from typing import Any, NamedTuple

from beamcheck.errors import Fault, InputError
from beamcheck.survey.documents import file_bytes, parsed
from beamcheck.survey.model import Survey
from beamcheck.survey.reader import VARIANT, from_document, part_faults, read_text

MOST_VARIANTS = 12
AS_WRITTEN = "as written"
_PATH = re.compile(r"(?P<part>[a-z_]+)(?:\[(?P<number>[0-9]{1,2})\])?(?:\.(?P<key>[a-z_]+))?")
_EXAMPLE = 'write it as  set = { "beam.member" = "2-ply 1-3/4x14 LVL", "post[2].held" = "free" }'


class Variant(NamedTuple):
    """One reading of a survey: its name, what it sets otherwise as key path and text, and what was read."""

    name: str
    changes: tuple[tuple[str, str], ...]
    survey: Survey


def read_variants(path: Path) -> tuple[Variant, ...]:
    """The survey as written, then each of its variants. Raises InputError with every fault found."""
    data = file_bytes(path)
    whole = Variant(AS_WRITTEN, (), read_text(data, path.name))
    document = parsed(data, path.name)
    source = (whole.survey.sha256, path.name)
    return (whole, *(_variant(document, item, where, source) for where, item in _listed(document.pop(VARIANT, []))))


def variant_faults(document: dict[str, Any], varied: Any, known: tuple[Fault, ...]) -> list[Fault]:
    """What is wrong with the variants of a document, beyond the faults that are known of it as written."""
    found: list[Fault] = []
    told = {(fault.where, fault.what) for fault in known}
    try:
        for where, item in _listed(varied):
            try:
                _try(document, item, where)
            except InputError as error:
                found += (fault for fault in error.faults if (_within(fault.where), fault.what) not in told)
    except InputError as error:
        found += error.faults
    return found


def _within(where: str) -> str:
    """The key path in the survey as changed."""
    return where.partition(": ")[2]


def _listed(varied: Any) -> tuple[tuple[str, dict[str, Any]], ...]:
    """Each variant with its key path. Raises InputError where they are no list of tables, or too many."""
    if not isinstance(varied, list) or not all(isinstance(item, dict) for item in varied):
        raise InputError([Fault(VARIANT, "is not a list of tables", "write each one under  [[variant]]")])
    if len(varied) > MOST_VARIANTS:
        raise InputError([Fault(VARIANT, f"{len(varied)} tables", f"at most {MOST_VARIANTS}")])
    return tuple((f"{VARIANT}[{number}]", item) for number, item in enumerate(varied, 1))


def _variant(document: dict[str, Any], item: dict[str, Any], where: str, source: tuple[str, str]) -> Variant:
    sha256, file = source
    name, changes, changed = _changed(document, item, where, file)
    try:
        survey = from_document(changed, sha256, file)
    except InputError as error:
        raise InputError(_of_variant(where, error.faults), file) from None
    return Variant(name, tuple((path, _shown(value)) for path, value in changes.items()), survey)


def _try(document: dict[str, Any], item: dict[str, Any], where: str) -> None:
    """Read a variant as far as it differs: the parts of which it sets keys, or the whole where it sets whole parts."""
    _, changes, changed = _changed(document, item, where, "")
    matches = [match for match in map(_PATH.fullmatch, changes) if match is not None]
    parts = {match["part"] for match in matches}
    if not all(match["key"] for match in matches) or not parts <= document.keys():
        _variant(document, item, where, ("", ""))
        return
    faults = part_faults(changed, parts)
    if faults:
        raise InputError(_of_variant(where, faults))


def _of_variant(where: str, faults: Iterable[Fault]) -> list[Fault]:
    return [Fault(f"{where}: {fault.where}", fault.what, fault.mend) for fault in faults]


def _changed(
    document: dict[str, Any], item: dict[str, Any], where: str, file: str
) -> tuple[str, dict[str, Any], dict[str, Any]]:
    """The name of a variant, what it sets, and the document with that. Raises InputError for what is no variant."""
    faults = [
        Fault(f"{where}.{key}", "is not a key of a variant", "a variant has a name and a table  set")
        for key in item
        if key not in ("name", "set")
    ]
    name, changes = item.get("name"), item.get("set")
    if not isinstance(name, str) or not name.strip() or len(name) > 60 or not name.isprintable():
        faults.append(Fault(f"{where}.name", "is needed", 'write it as text, for example  name = "two shorter spans"'))
    if not isinstance(changes, dict) or not changes:
        faults.append(Fault(f"{where}.set", "sets nothing", _EXAMPLE))
        changes = {}
    changed = copy.deepcopy(document)
    for path, value in changes.items():
        fault = _put(changed, path, value)
        if fault:
            faults.append(Fault(f"{where}.set.{path}", fault, _EXAMPLE))
    if faults:
        raise InputError(faults, file)
    return str(name).strip(), changes, changed


def _put(document: dict[str, Any], path: str, value: Any) -> str:
    """Set one key path of the document; what is wrong with the path, or nothing."""
    match = _PATH.fullmatch(path)
    if match is None:
        return "is not a key path"
    part, number, key = match["part"], match["number"], match["key"]
    if number is None:
        if key is None:
            document[part] = copy.deepcopy(value)
            return ""
        table = document.setdefault(part, {})
        if not isinstance(table, dict):
            return f"{part} is a list: say which one, such as {part}[1].{key}"
    else:
        listed = document.get(part)
        if not isinstance(listed, list) or not 1 <= int(number) <= len(listed):
            return f"there is no {part}[{number}] in the survey as written"
        table = listed[int(number) - 1]
        if key is None:
            listed[int(number) - 1] = copy.deepcopy(value)
            return ""
        if not isinstance(table, dict):
            return f"{part}[{number}] is not a table"
    table[key] = copy.deepcopy(value)
    return ""


def _shown(value: Any) -> str:
    if isinstance(value, dict):
        return str(value.get("value", "given anew"))
    return value if isinstance(value, str) else "given anew"
