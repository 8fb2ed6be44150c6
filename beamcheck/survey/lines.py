"""The line of a survey file at which a key path stands, for messages; found by reading headings and keys only."""

import re
from collections import Counter

from beamcheck.errors import Fault, InputError

_HEAD = re.compile(r"\s*(?P<open>\[{1,2})\s*(?P<name>[A-Za-z0-9_.-]+)\s*\]{1,2}\s*(?:#.*)?")
_KEY = re.compile(r"\s*(?P<key>[A-Za-z0-9_-]+|\"[^\"]*\"|'[^']*')\s*=")


def with_lines(error: InputError, data: bytes) -> InputError:
    """The same error, each fault with its line in the bytes of the file; that of its table where a key is missing."""
    lines = _lines(data.decode("utf-8-sig", "replace"))
    told = ((fault, fault.line or _line(lines, fault.where)) for fault in error.faults)
    return InputError([Fault(fault.where, fault.what, fault.mend, line) for fault, line in told], error.file)


def _line(lines: dict[str, int], where: str) -> int:
    """The line of the deepest part of a key path that the file has; 0 if it has none."""
    place = where.partition(":")[0]
    while place and place not in lines:
        place = place[: max(place.rfind("."), place.rfind("["), 0)]
    return lines.get(place, 0)


def _lines(text: str) -> dict[str, int]:
    """The line of every heading and key, tables that come more than once numbered from one."""
    found: dict[str, int] = {}
    offered: dict[str, int] = {}  # keys behind a comment sign, as the blank survey has them
    count: Counter[str] = Counter()
    part = live = ""
    for number, line in enumerate(text.split("\n"), 1):
        head, key = _HEAD.fullmatch(line.rstrip("\r")), _KEY.match(line)
        if head:
            part = head["name"]
            count[part] += len(head["open"]) - 1
            owner, dot, rest = part.partition(".")
            part = f"{owner}[{count[owner]}]{dot}{rest}" if count[owner] else part
            found.setdefault(part, number)
            live = part
        elif key:
            name = key["key"].strip("\"'")
            found.setdefault(f"{part}.{name}" if part else name, number)
        elif line.startswith("# ["):
            live = ""
        elif line.startswith("# ") and live and (key := _KEY.match(line, 2)):
            offered.setdefault(f"{live}.{key['key']}", number)
    return offered | found
