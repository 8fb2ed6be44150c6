"""A file's bytes as a TOML document, refused before they can take long: too many, too deep, or no text at all."""

import tomllib
from pathlib import Path
from typing import Any

from beamcheck.errors import Fault, InputError

MOST_BYTES = 200_000
MOST_DOTS = 50
_PLAIN = 'each line is  key = "text"  under a [heading]'


def file_bytes(path: Path) -> bytes:
    """The bytes of a file. Raises InputError where it cannot be read or is too long for a survey."""
    try:
        with path.open("rb") as stream:  # a device tells no size, so no more is read than a survey may have
            data = stream.read(MOST_BYTES + 1)
        size = max(len(data), path.stat().st_size)
    except OSError as error:
        reason = f"cannot be read: {error.strerror or error}"
        where = str(path) if str(path).isprintable() else ascii(str(path))
        raise InputError([Fault(where, reason, "check the name; bearline new FILE writes a blank one")]) from None
    if size > MOST_BYTES:
        raise InputError([_too_long(path.name, size)], path.name)
    return data


def parsed(data: bytes, file: str) -> dict[str, Any]:
    """The bytes of a file as a TOML document. Raises InputError."""
    if len(data) > MOST_BYTES:
        raise InputError([_too_long(file, len(data))], file)
    deep = _deep_line(data)
    if deep:
        raise InputError([Fault(file, f"line {deep} has a key of too many parts", _PLAIN)], file)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        what = f"byte {error.start} is not UTF-8 text"
        raise InputError([Fault(file, what, "save the file as UTF-8")], file) from None
    try:
        return tomllib.loads(text)
    except (ValueError, RecursionError) as error:  # ValueError: also a whole number of thousands of digits
        from beamcheck.survey.not_toml import toml_faults

        raise InputError(toml_faults(text, error, file), file) from None


def _too_long(file: str, size: int) -> Fault:
    return Fault(file, f"the file has {size:,} bytes", f"a survey has at most {MOST_BYTES:,}")


def _deep_line(data: bytes) -> int:
    """The number of a line with a key of many parts, for which the time to read grows with their square; 0 if none."""
    for number, line in enumerate(data.split(b"\n"), 1):
        if line.count(b".") > MOST_DOTS and not line.lstrip().startswith(b"#"):
            outside = sum(part.count(b".") for part in line.split(b'"')[::2])
            if outside > MOST_DOTS:
                return number
    return 0
