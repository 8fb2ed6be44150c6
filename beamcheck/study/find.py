"""Find one thing of a study by its key: a check, a figure under a check, an entry of the survey, or a stop."""

from difflib import get_close_matches

from beamcheck.errors import Fault, InputError
from beamcheck.study.types import Study
from beamcheck.survey.model import Word
from beamcheck.trace import Check, Given, Missing, Refer, Schedule, Value, ancestry, items, values

Found = Check | Value | Word | Refer | Missing


def find(study: Study, key: str) -> Found:
    """The thing of that key. Raises InputError, naming the nearest keys, where there is none."""
    for search in (_item, _figure, _entry, _row):
        found = search(study, key)
        if found is not None:
            return found
    close = ", ".join(get_close_matches(key, keys(study), n=4, cutoff=0.3)) or "none"
    mend = f"nearest: {close}; list them with  bearline check FILE --keys"
    raise InputError([Fault("KEY", f"{key[:60]!r} is not a key of this study", mend)])


def _item(study: Study, key: str) -> Found | None:
    keyed = (item for item in items(study.sheet) if isinstance(item, Check | Refer | Missing))
    return next((item for item in keyed if item.key == key), None)


def _figure(study: Study, key: str) -> Found | None:
    """A figure under a check: the check's key, a point, the symbol's name."""
    head, _, name = key.rpartition(".")
    checks = (item for item in items(study.sheet) if isinstance(item, Check) and item.key == head)
    under = (value for check in checks for root in (check.demand, check.limit) for value in ancestry(root))
    return next((value for value in under if value.name == name), None)


def _entry(study: Study, key: str) -> Found | None:
    """An entry of the survey by its key path."""
    for value in values(study.sheet):
        if isinstance(value.origin, Given) and value.origin.where == key:
            return value
    return next((word for word in study.survey.words if word.where == key), None)


def keys(study: Study) -> tuple[str, ...]:
    """Every key that ``find`` knows, checks first, then the entries of the survey."""
    checks = [item.key for item in items(study.sheet) if isinstance(item, Check | Refer | Missing)]
    given = [value.origin.where for value in values(study.sheet) if isinstance(value.origin, Given)]
    return tuple(dict.fromkeys([*checks, *_rows(study), *given, *(word.where for word in study.survey.words)]))


def _row(study: Study, key: str) -> Value | None:
    """A row of a schedule by its number, ``takedown.table[3]``: its last figure."""
    return _rows(study).get(key)


def _rows(study: Study) -> dict[str, Value]:
    """The last figure of every row of every schedule that has one, by key."""
    found = {}
    for item in (item for item in items(study.sheet) if isinstance(item, Schedule)):
        for number, row in enumerate(item.rows, 1):
            cells = [cell for cell in row if isinstance(cell, Value)]
            if cells:
                found[f"{item.key}[{number}]"] = cells[-1]
    return found
