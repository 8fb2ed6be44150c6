"""Keep an interview that is not finished: a draft beside the survey, marked so that nobody takes it for one."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from beamcheck.errors import Fault, InputError
from beamcheck.files import write, write_new
from beamcheck.survey.documents import file_bytes, parsed
from beamcheck.survey.reader import DRAFT
from beamcheck.survey.writer import write_survey
from beamcheck.views.interview.entries import entries, written
from beamcheck.views.interview.order import LEFT_OUT, NO, OPTIONAL, YES, Answer, Answers, Ask, Step, walk
from beamcheck.views.interview.replies import first_fault

ENDING = ".draft.toml"
_LEFT = "left out"
_PARTS = ("value", "trust", "note", "low", "high")


def survey_beside(path: Path) -> Path:
    """The survey that an interview writes: the file named, or the one whose draft is named. Raises InputError."""
    if not path.name or path.name == ENDING:
        raise InputError([Fault(str(path), "is not the name of a survey", "name a file, such as  house.toml")])
    name = path.name.removesuffix(ENDING).removesuffix(".toml")
    return path.with_name(f"{name}.toml")


def draft_beside(survey: Path) -> Path:
    """The draft of a survey."""
    return survey.with_name(f"{survey.name.removesuffix('.toml')}{ENDING}")


class Draft:
    """The file in which the answers are kept; it is written anew after each of them."""

    __slots__ = ("path", "survey", "there")

    def __init__(self, survey: Path) -> None:
        self.survey = survey
        self.path = draft_beside(survey)
        self.there = self.path.exists() or self.path.is_symlink()

    def keep(self, answers: Answers) -> None:
        """Write the answers. Raises InputError where it cannot, or where a draft has come up meanwhile."""
        (write if self.there else write_new)(self.path, self.text(answers).encode())
        self.there = True

    def text(self, answers: Answers) -> str:
        """The draft as a file: the entries so far, and in a part of its own what else was answered."""
        remarks = (
            "DRAFT: not complete, so nothing can be said from it yet.",
            f"Go on with:  bearline ask {self.survey.name}",
        )
        return write_survey({DRAFT: dict(_besides(answers)), **entries(answers)}, remarks)

    def read(self) -> tuple[dict[str, Answer], tuple[str, ...]]:
        """The answers kept, and the key paths that no question has taken. Raises InputError for no draft of ours."""
        document = parsed(file_bytes(self.path), self.path.name)
        if not isinstance(document.get(DRAFT), dict):
            mend = "bearline check reads a finished survey; to start afresh, move this file away"
            raise InputError([Fault(self.path.name, "is no draft of an interview", mend)], self.path.name)
        answers = _recalled(document)
        taken = {where for where, answer in answers.items() if answer.text != LEFT_OUT}
        return answers, tuple(where for where in _paths(document) if where not in taken)

    def drop(self) -> None:
        """Take the draft away, now that the survey is written."""
        if self.there:
            self.path.unlink(missing_ok=True)


def _besides(answers: Answers) -> Iterator[tuple[str, str]]:
    for step in walk(answers):
        answer = answers.get(step.where)
        if answer is not None and step.ask is not Ask.ENTRY:
            yield step.where, answer.text
        elif answer is not None and answer.text == LEFT_OUT:
            yield step.where, _LEFT


def _recalled(document: Mapping[str, Any]) -> dict[str, Answer]:
    """Every answer of the document that a question takes, asked in order; what does not hold is asked again."""
    answers: dict[str, Answer] = {}
    tried: set[str] = set()
    while True:
        step = next((step for step in walk(answers) if step.where not in answers and step.where not in tried), None)
        if step is None:
            return answers
        tried.add(step.where)
        answer = _answer(document, step)
        if answer is not None:
            answers[step.where] = answer


def _answer(document: Mapping[str, Any], step: Step) -> Answer | None:
    said = document[DRAFT].get(step.where)
    if step.ask is Ask.PARTS:
        keys = [section.key for section in OPTIONAL if isinstance(said, str) and section.key in said.split(", ")]
        return Answer(", ".join(keys) or NO) if isinstance(said, str) else None
    if step.ask is not Ask.ENTRY:
        return Answer(said) if said in (YES, NO) else None
    entry = written(document, step.item, step.field.key)
    if entry is None:
        return Answer(LEFT_OUT) if said == _LEFT and not step.needed else None
    answer = _spread(entry)
    return answer if answer is not None and answer.text and first_fault(step, answer) is None else None


def _spread(entry: Any) -> Answer | None:
    parts = entry if isinstance(entry, dict) else {"value": entry}
    if not set(parts) <= set(_PARTS) or not all(isinstance(part, str) for part in parts.values()):
        return None
    told = {key: part.strip() for key, part in parts.items() if key != "value"}
    return Answer(parts.get("value", "unknown").strip(), **told)


def _paths(document: Mapping[str, Any]) -> Iterator[str]:
    """The key path of every entry of a document, the draft's own part left aside."""
    for part, tables in document.items():
        if part == DRAFT:
            continue
        listed = tables if isinstance(tables, list) else [tables]
        for number, table in enumerate(listed, 1):
            item = f"{part}[{number}]" if isinstance(tables, list) else part
            yield from (f"{item}.{key}" for key in table) if isinstance(table, dict) else (item,)
