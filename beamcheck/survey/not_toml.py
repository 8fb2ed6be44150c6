"""What is wrong with a file that is no TOML, in the words of one who writes a survey: every line that shows it."""

import re
import tomllib
from collections.abc import Iterator

from beamcheck.errors import Fault
from beamcheck.survey.fields import SECTIONS

_PLAIN = 'each line is  key = "text"  under a [heading]'
_HEAD = re.compile(r"\s*(?P<open>\[{1,2})\s*(?P<name>[A-Za-z_]+)\s*\]{1,2}\s*(?:#.*)?")
_KEY = re.compile(r"\s*(?P<key>[A-Za-z_]+)\s*(?P<sign>[=:])\s*(?P<value>\S.*)?")
_INCH_MARK = re.compile(r"\"[^\"]*[0-9]\s*\"\s*\"|'[^'\"]*[0-9]\s*'[^'\"]*\"?\s*'")
_NO_INCH_MARK = 'write ft and in for the marks, such as "13 ft 6 in"'
_QUOTES = "\"'"
_LONG_TEXT = ('"""', "'''")
_REPEATED = (*(section.key for section in SECTIONS if section.repeated), "variant")


def toml_faults(text: str, error: Exception, file: str) -> list[Fault]:
    """Every line that cannot be read by itself or does not go with one before; else what the parser says."""
    found = [] if any(mark in text for mark in _LONG_TEXT) else [*_headings(text, file), *_lines(text, file)]
    at = re.search(r" \(at line ([0-9]+),", str(error))
    line = int(at[1]) if at else 0
    if found and (not line or line >= min(fault.line for fault in found)):
        return found
    told = str(error)[:200].replace("('", "[").replace("',)", "]")
    return [*found, Fault(file, f"is not TOML: {told}", _PLAIN, line)]


def _headings(text: str, file: str) -> Iterator[Fault]:
    """Tables that come more than once in single brackets, and keys that come twice in one table."""
    heads: dict[str, int] = {}
    keys: dict[str, int] = {}
    for number, line in enumerate(text.split("\n"), 1):
        head, key = _HEAD.fullmatch(line.rstrip("\r")), _KEY.match(line)
        if line.lstrip().startswith("["):
            keys = {}
        if head:
            name, first = head["name"], heads.get(head["name"], 0)
            if name in _REPEATED and len(head["open"]) == 1:
                mend = f"write it in double brackets, once for each:  [[{name}]]"
                yield Fault(file, f"[{name}] is written in single brackets", mend, number)
            elif first and name not in _REPEATED:
                yield Fault(file, f"[{name}] is there already, on line {first}", "put its keys under one", number)
            heads.setdefault(name, number)
        elif key:
            first = keys.setdefault(key["key"], number)
            if first != number:
                mend = "leave one of them; or does a [heading] lack between them?"
                yield Fault(file, f"{key['key']} is there already, on line {first}", mend, number)


def _lines(text: str, file: str) -> Iterator[Fault]:
    """Lines with a key that are no TOML by themselves."""
    for number, line in enumerate(text.split("\n"), 1):
        key = _KEY.match(line)
        if key is None:
            continue
        try:
            tomllib.loads(line)
        except (ValueError, RecursionError):
            what, mend = _odd(key["key"], key["sign"], (key["value"] or "").strip())
            if what:
                yield Fault(file, what, mend, number)


def _odd(key: str, sign: str, value: str) -> tuple[str, str]:
    """What is wrong with one line; nothing where it may go on behind it."""
    if sign == ":":
        return f"{key} is followed by a colon", f'write it as  {key} = "{value.strip(_QUOTES) or "..."}"'
    if not value or value.startswith("#"):
        return f"{key} has nothing behind it", 'write a text in quotes, or "unknown", or leave the line out'
    if _INCH_MARK.search(value):
        return f"{key} holds an inch or foot mark that ends its text too early", _NO_INCH_MARK
    if value[0] in "“”‘’":
        return f"{key} stands in curly quotes", 'write straight ones:  "'
    if value[0] not in f"{_QUOTES}[{{":
        plain = value.partition("#")[0].strip()
        mend = f'write it as  {key} = "{plain[:60]}"' if '"' not in plain else f"put it in quotes, and {_NO_INCH_MARK}"
        return f"{key} is not in quotes", mend
    if value[0] in _QUOTES and value.count(value[0]) == 1:
        return f"the text of {key} has no closing quote", f"end it with  {value[0]}"
    return "", ""
