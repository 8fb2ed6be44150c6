"""The study as data: the same tree, every value once with its origin, under a schema version."""

import math
from typing import Any

from beamcheck.study.idle import words_that_matter
from beamcheck.study.types import Study
from beamcheck.survey.model import Word
from beamcheck.trace import (
    Check,
    Computed,
    Given,
    Item,
    Looked,
    Missing,
    Note,
    Origin,
    Refer,
    Schedule,
    Sheet,
    Solved,
    Value,
    values,
)
from beamcheck.views.words import CAUTIONS, STATUS

SCHEMA = "bearline-study/1"


def study_data(study: Study) -> dict[str, Any]:
    """The whole study as plain dictionaries, ready for JSON; values are numbered in reading order."""
    numbers = {id(value): number for number, value in enumerate(values(study.sheet))}
    governing = study.governing
    return {
        "schema": SCHEMA,
        "status": STATUS,
        "cautions": list(CAUTIONS),
        "version": study.version,
        "input": {"file": study.survey.file, "sha256": study.survey.sha256},
        "title": study.survey.about.title,
        "result": study.settled,
        "governing": governing.key if governing else None,
        "chain": [
            {
                "key": link.key,
                "title": link.title,
                "word": link.word,
                "words": list(link.words),
                "governing": link.governing.key if link.governing else None,
            }
            for link in study.links
        ],
        "sheet": _item(study.sheet, numbers),
        "words": [_word(word) for word in words_that_matter(study)],
        "values": [_value(value, numbers) for value in values(study.sheet)],
    }


def _item(item: Item, numbers: dict[int, int]) -> dict[str, Any]:
    match item:
        case Sheet():
            return {
                "sheet": item.key,
                "title": item.title,
                "items": [_item(part, numbers) for part in item.items],
            }
        case Check():
            return {
                "check": item.key,
                "title": item.title,
                "demand": numbers[id(item.demand)],
                "limit": numbers[id(item.limit)],
                "utilisation": _finite(float(item.ratio)),
                "word": item.word,
                "governed_by": item.when,
                "station": item.station,
            } | ({"instead_of_demand": item.instead} if item.instead else {})
        case Value():
            return {"value": numbers[id(item)], "title": item.title or item.name}
        case Schedule():
            rows = [[cell if isinstance(cell, str) else numbers[id(cell)] for cell in row] for row in item.rows]
            return {"schedule": item.key, "title": item.title, "heads": list(item.heads), "rows": rows}
        case Refer():
            return {"refer": item.key, "title": item.title, "why": item.why, "ask": item.ask}
        case Missing():
            return {"not_shown": item.key, "title": item.title, "need": item.need}
        case Note():
            return {"note": item.text}


def _value(value: Value, numbers: dict[int, int]) -> dict[str, Any]:
    return {
        "id": numbers[id(value)],
        "name": value.name,
        "title": value.title,
        "case": value.case,
        "number": _finite(float(value.number)),
        "unit": value.unit,
        "origin": _origin(value.origin, numbers),
    }


def _origin(origin: Origin, numbers: dict[int, int]) -> dict[str, Any]:
    match origin:
        case Given():
            told = {
                "given": origin.where,
                "trust": str(origin.trust),
                "text": origin.text,
                "note": origin.note,
                "low": origin.low,
                "high": origin.high,
            }
            if origin.default is not None:
                told["assumed_because"] = origin.default.text("lean")
                told["would_change"] = origin.default.text("flips")
            return told
        case Looked():
            return {
                "table": origin.row.table.name,
                "row": origin.row.label,
                "column": origin.column,
                "seen": origin.seen,
                "reference": origin.reference,
            }
        case Computed():
            inputs = {name: numbers[id(value)] for name, value in origin.inputs}
            return {"clause": origin.clause.key, "reference": origin.clause.reference, "inputs": inputs}
        case Solved():
            told_in = [[name, numbers[id(value)]] for name, value in origin.inputs]
            return {"solved": origin.method, "station": origin.at, "residual": origin.residual, "inputs": told_in}
        case _:
            return {"taken": origin.reason, "reference": origin.place}


def _word(word: Word) -> dict[str, str]:
    return {
        "where": word.where,
        "text": word.text,
        "trust": word.trust,
        "note": word.note,
        "lean": word.lean,
        "would_change": word.flips,
    }


def _finite(number: float) -> float | None:
    """JSON has no infinity: an endless utilisation is null, and its word says over."""
    return number if math.isfinite(number) else None
