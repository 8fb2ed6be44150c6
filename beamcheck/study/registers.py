"""Walks over a study's tree: what was assumed, what rests on memory, which factors are 1.0, which tables were used."""

from typing import NamedTuple

from beamcheck.study.types import Study
from beamcheck.tables import Table
from beamcheck.trace import Computed, Given, Looked, Taken, Trust, Value, values

_KNOWN = (Trust.MEASURED, Trust.SEEN, Trust.LOOKED_UP)


class Assumption(NamedTuple):
    """One entry that was not measured, seen or looked up: what stands in, which way it errs, what would change it."""

    where: str
    text: str
    trust: str
    note: str
    lean: str
    flips: str


def assumptions(study: Study) -> tuple[Assumption, ...]:
    """Assumed and unknown entries of the survey, figures first, each once."""
    found: dict[str, Assumption] = {}
    for value in values(study.sheet):
        origin = value.origin
        if isinstance(origin, Given) and origin.trust in (Trust.ASSUMED, Trust.UNKNOWN):
            lean = origin.default.text("lean") if origin.default is not None else ""
            flips = origin.default.text("flips") if origin.default is not None else ""
            found[origin.where] = Assumption(origin.where, origin.text, origin.trust, origin.note, lean, flips)
    for word in study.survey.words:
        if word.trust in (Trust.ASSUMED, Trust.UNKNOWN):
            found[word.where] = Assumption(word.where, word.text, word.trust, word.note, word.lean, word.flips)
    return tuple(found.values())


def stated(study: Study) -> tuple[Assumption, ...]:
    """Figures that were stated but not said to be measured, seen or looked up."""
    origins = {value.origin.where: value.origin for value in values(study.sheet) if isinstance(value.origin, Given)}
    return tuple(
        Assumption(where, origin.text, origin.trust, origin.note, "", "")
        for where, origin in origins.items()
        if origin.trust is Trust.STATED
    )


def from_memory(study: Study) -> tuple[str, ...]:
    """Table rows and clauses whose figures were written from memory, each once, in words."""
    told: dict[str, None] = {}
    for value in values(study.sheet):
        origin = value.origin
        if isinstance(origin, Looked) and origin.seen == "memory":
            told[f"{origin.row.table.name}: {origin.row.label} ({origin.reference})"] = None
        elif isinstance(origin, Computed) and origin.clause.row.seen == "memory":
            told[f"clause {origin.clause.key} ({origin.clause.reference})"] = None
        elif isinstance(origin, Given) and origin.default is not None and origin.default.seen == "memory":
            told[f"{origin.default.table.name}: {origin.default.label} ({origin.where})"] = None
    return tuple(told)


def factors_of_one(study: Study) -> tuple[Value, ...]:
    """Factors taken as 1.0, each once by name and reason."""
    found: dict[tuple[str, str], Value] = {}
    for value in values(study.sheet):
        if isinstance(value.origin, Taken) and value.unit == "1" and value.number == 1 and value.name[:2] in ("C_", "K_", "k_"):
            found.setdefault((value.name, value.origin.reason), value)
    return tuple(found.values())


def tables_used(study: Study) -> tuple[Table, ...]:
    """Every table that a figure of the study came from, by name."""
    used = {value.origin.row.table.name: value.origin.row.table for value in values(study.sheet) if isinstance(value.origin, Looked)}
    return tuple(used[name] for name in sorted(used))
