"""What a typed line means: a command, or an answer, held against the same rules as the reader of a survey."""

from enum import StrEnum
from typing import NamedTuple

from beamcheck.errors import Fault, InputError
from beamcheck.survey.entries import MEMBERS
from beamcheck.survey.fields import Field
from beamcheck.survey.reader import entry_faults
from beamcheck.views.interview.entries import entry_of
from beamcheck.views.interview.order import LEFT_OUT, NO, OPTIONAL, UNKNOWN, YES, Answer, Ask, Step

_UNSURE = ("unsure", "not sure", "unknown", "don't know", "dont know", "do not know", "no idea")
_LATER = "type  later  to be asked again at the end, or  quit  to keep a draft and go and look"
_LONGEST_NOTE = 400


class Said(StrEnum):
    """A command typed in place of an answer."""

    MORE = "?"
    BACK = "back"
    REVIEW = "review"
    LATER = "later"
    QUIT = "quit"


class Change(NamedTuple):
    """Ask the answer with this number again."""

    number: int


Reply = Answer | Said | Change | Fault

_SYNONYMS = {"help": Said.MORE, "exit": Said.QUIT}


def command(line: str) -> Said | Change | None:
    """The command that a line is, if it is one."""
    words = line.casefold().split()
    if len(words) == 2 and words[0] == "change" and words[1].isdecimal() and len(words[1]) < 4:
        return Change(int(words[1]))
    text = " ".join(words)
    return _SYNONYMS.get(text) or next((said for said in Said if said == text), None)


def understood(step: Step, line: str) -> Reply:
    """The reply that a line is to a question."""
    typed = command(line)
    if typed is not None:
        return typed
    match step.ask:
        case Ask.ENTRY:
            return _entry(step, line.strip())
        case Ask.PARTS:
            return _parts(line)
        case Ask.ANOTHER if step.section is not None and step.section.key == "carried" and not line.strip():
            return Fault(step.where, "this one wants a clear answer", "write y or n")
        case _:
            return yes_or_no(line) or Fault(step.where, f"{line.strip()[:40]!r} is neither yes nor no", "write y or n")


def yes_or_no(line: str) -> Answer | None:
    """Yes or no; nothing typed is no."""
    text = line.strip().casefold()
    if text in ("y", YES):
        return Answer(YES)
    return Answer(NO) if text in ("", "n", NO) else None


def _parts(line: str) -> Answer | Fault:
    keys = {section.key.replace("_", " "): section.key for section in OPTIONAL}
    chosen: set[str] = set()
    for word in line.replace(",", " , ").split(","):
        text = " ".join(word.casefold().replace("_", " ").split())
        if text.isdecimal() and len(text) < 4 and 1 <= int(text) <= len(OPTIONAL):
            chosen.add(OPTIONAL[int(text) - 1].key)
        elif text in keys:
            chosen.add(keys[text])
        elif text not in ("", NO, "none", "n"):
            return Fault("", f"{text[:40]!r} is not one of these parts", f"write numbers from 1 to {len(OPTIONAL)}")
    return Answer(", ".join(section.key for section in OPTIONAL if section.key in chosen) or NO)


def _entry(step: Step, line: str) -> Answer | Fault:
    field = step.field
    if not line:
        return Fault(step.where, "an answer is needed here", _LATER) if step.needed else Answer(LEFT_OUT)
    if line.casefold() in _UNSURE:
        return _unsure(step)
    text = line
    if field.choices:
        text = ", ".join(chosen(field, part) for part in line.split(",")) if field.many else chosen(field, line)
    elif field.dimension is None and len(line) > 2 and line[0] == line[-1] == '"':
        text = line[1:-1].strip()
    fault = first_fault(step, Answer(text))
    return fault if fault is not None else Answer(text)


def _unsure(step: Step) -> Answer | Fault:
    field = step.field
    if UNKNOWN in field.choices:
        return Answer(UNKNOWN)
    if step.needed:
        if field.key in MEMBERS:
            return Fault(step.where, "its size must be known", "for the grade alone write  unknown  in its place")
        return Fault(step.where, "it must be known: nothing can stand in for it", _LATER)
    return Answer(UNKNOWN) if field.register or (field.dimension and not field.many) else Answer(LEFT_OUT)


def chosen(field: Field, text: str) -> str:
    """The choice that a text means: its word in any case, its number, or its beginning; else the text as it is."""
    typed = " ".join(text.casefold().split())
    words = {choice.casefold(): choice for choice in field.choices}
    if typed in words:
        return words[typed]
    if typed.isdecimal() and len(typed) < 4 and 1 <= int(typed) <= len(field.choices):
        return field.choices[int(typed) - 1]
    begun = [choice for word, choice in words.items() if typed and word.startswith(typed)]
    return begun[0] if len(begun) == 1 else text.strip()


def first_fault(step: Step, answer: Answer) -> Fault | None:
    """What the reader, or the reader of members, would say of an answer."""
    field = step.field
    found = list(entry_faults(field, entry_of(answer), step.where, step.kind))
    if len(answer.note) > _LONGEST_NOTE or not answer.note.isprintable():
        found.append(Fault(f"{step.where}.note", "is longer than 400 characters or does not print", "shorten it"))
    if not found and answer.text not in (LEFT_OUT, UNKNOWN):
        try:
            _look_up(step, answer.text)
        except InputError as error:
            found += error.faults
    return found[0] if found else None


def _look_up(step: Step, text: str) -> None:
    """Raises InputError for a member or a species that no table has, or a member that is none for its place."""
    field, where = step.field, step.where
    if field.key in MEMBERS:
        from beamcheck.catalogue.reading import read_member
        from beamcheck.study.materials import as_beam, as_post

        member = read_member(text, where)
        if field.key == MEMBERS[0]:
            (as_post if step.item.startswith("post") else as_beam)(member, where)
    elif field.key == "plate" and text != "none":
        from beamcheck.study.stops import plate_value

        plate_value(text, where)
