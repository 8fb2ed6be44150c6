"""From answers to the entries of a survey, and what the reader and the study find wrong with them together."""

from collections.abc import Mapping
from typing import Any

from beamcheck.errors import Fault, InputError
from beamcheck.survey.reader import read_text
from beamcheck.survey.writer import Entry, write_survey
from beamcheck.trace import Trust
from beamcheck.views.interview.order import LEFT_OUT, Answer, Answers, Ask, walk


def entry_of(answer: Answer) -> Entry:
    """An answer as a survey holds it: a text, or a table where there is more to say."""
    trust = "" if answer.trust == Trust.STATED else answer.trust
    parts = {"value": answer.text, "trust": trust, "note": answer.note, "low": answer.low, "high": answer.high}
    written = {key: text for key, text in parts.items() if text}
    return answer.text if set(written) <= {"value"} else written


def entries(answers: Answers) -> dict[str, Any]:
    """The entries that the answers make, of the questions that they lead to; what is left out is not there."""
    found: dict[str, Any] = {}
    for step in walk(answers):
        if step.ask is not Ask.ENTRY:
            continue
        assert step.section is not None
        table = _table(found, step.section.key, step.item)
        answer = answers.get(step.where)
        if answer is not None and answer.text != LEFT_OUT:
            table[step.field.key] = entry_of(answer)
    for tables in found.values():
        while isinstance(tables, list) and tables and not tables[-1]:
            tables.pop()
    return {key: written for key, written in found.items() if written}


def _table(found: dict[str, Any], key: str, item: str) -> dict[str, Any]:
    if item == key:
        table: dict[str, Any] = found.setdefault(key, {})
        return table
    tables: list[dict[str, Any]] = found.setdefault(key, [])
    if len(tables) < int(item[len(key) + 1 : -1]):
        tables.append({})
    return tables[-1]


def survey_text(answers: Answers) -> str:
    """The survey as a file."""
    return write_survey(entries(answers))


def faults(answers: Answers, file: str) -> tuple[Fault, ...]:
    """What  bearline check  would refuse in the survey that the answers make."""
    from beamcheck.study.chain import study

    try:
        study(read_text(survey_text(answers).encode(), file))
    except InputError as error:
        return error.faults
    return ()


def written(document: Mapping[str, Any], item: str, key: str) -> Any:
    """What stands at a key path of a document, None if nothing does."""
    part, _, number = item.partition("[")
    table = document.get(part)
    if number:
        place = int(number.rstrip("]")) - 1
        table = table[place] if isinstance(table, list) and place < len(table) else None
    return table.get(key) if isinstance(table, dict) else None
