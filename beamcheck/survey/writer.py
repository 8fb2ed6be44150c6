"""Write a survey as TOML from plain texts: what the local page and the interview have gathered.

Entries are what TOML itself would read: tables of texts, an entry being a text or a table of value, trust,
note, low and high. What is written here reads back as the same entries; an empty list leaves no trace.
"""

import re
from collections.abc import Iterable, Mapping, Sequence

from beamcheck.survey.fields import SECTIONS

Entry = str | Mapping[str, "Entry"]
Table = Mapping[str, Entry]
Entries = Mapping[str, Table | Sequence[Table]]

HEAD = """\
# A survey for bearline. What comes out is a study aid to take to a licensed engineer. It decides nothing.
"""

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_ESCAPED = {'"': '\\"', "\\": "\\\\"} | {chr(code): f"\\u{code:04x}" for code in (*range(0x20), 0x7F)}


def write_survey(entries: Entries, remarks: Iterable[str] = ()) -> str:
    """The text of a survey, its parts and keys in the order of the list of fields; remarks stand on top."""
    order = {section.key: tuple(field.key for field in section.fields) for section in SECTIONS}
    told = "".join(f"# {_printable(line)}\n" for remark in remarks for line in remark.splitlines())
    parts = [HEAD + told]
    for key in _in_order(entries, order):
        written = entries[key]
        known = order.get(key, ())
        if isinstance(written, Mapping):
            parts.append(_table(f"[{_key(key)}]", written, known))
        else:
            parts += [_table(f"[[{_key(key)}]]", table, known) for table in written]
    return "\n".join(parts)


def tidied(entries: Entries) -> dict[str, dict[str, Entry] | list[dict[str, Entry]]]:
    """The entries without what is empty: no white space round texts, no table that holds but a value."""
    return {
        key: _tidy_table(tables) if isinstance(tables, Mapping) else [_tidy_table(table) for table in tables]
        for key, tables in entries.items()
    }


def _tidy_table(table: Table) -> dict[str, Entry]:
    tidy = {key: _tidy(entry) for key, entry in table.items()}
    return {key: entry for key, entry in tidy.items() if entry}


def _tidy(entry: Entry) -> Entry:
    if isinstance(entry, str):
        return entry.strip()
    parts = _tidy_table(entry)
    return parts["value"] if set(parts) == {"value"} else parts


def _table(head: str, table: Table, known: Sequence[str]) -> str:
    lines = [f"{_key(key)} = {_value(table[key])}" for key in _in_order(table, known)]
    return "\n".join((head, *lines, ""))


def _value(entry: Entry) -> str:
    if isinstance(entry, str):
        return _quoted(entry)
    parts = ", ".join(f"{_key(key)} = {_value(part)}" for key, part in entry.items())
    return f"{{ {parts} }}" if parts else "{}"


def _in_order(written: Iterable[str], known: Iterable[str]) -> list[str]:
    """The keys that are written, known ones first and in the order of the list."""
    keys = tuple(written)
    return [*(key for key in known if key in keys), *(key for key in keys if key not in known)]


def _key(key: str) -> str:
    return key if _BARE.fullmatch(key) else _quoted(key)


def _quoted(text: str) -> str:
    return '"' + "".join(_ESCAPED.get(letter, letter) for letter in text) + '"'


def _printable(line: str) -> str:
    return "".join(letter if letter.isprintable() else "?" for letter in line)
