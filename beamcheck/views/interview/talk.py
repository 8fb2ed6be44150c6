"""The talk itself: asks the first question without an answer until there is none, then offers to write the survey."""

from collections.abc import Iterable
from enum import StrEnum

from beamcheck.errors import Fault, InputError
from beamcheck.files import write_new
from beamcheck.views.interview import wording
from beamcheck.views.interview.draft import Draft
from beamcheck.views.interview.entries import faults, survey_text
from beamcheck.views.interview.known import KEYS, asked_how, how_known
from beamcheck.views.interview.order import LEFT_OUT, UNKNOWN, YES, Answer, Ask, Step, walk
from beamcheck.views.interview.replies import Change, Said, command, understood, yes_or_no
from beamcheck.views.interview.voice import Voice


class Ended(StrEnum):
    """How an interview ended."""

    WRITTEN = "written"
    QUIT = "quit"


class Talk:
    """One interview. ``answers`` by key path, in the order given; ``former``: taken back, offered again when asked."""

    __slots__ = ("answers", "changing", "draft", "former", "item", "postponed", "told", "voice", "warned")

    def __init__(self, voice: Voice, draft: Draft, answers: dict[str, Answer]) -> None:
        self.voice = voice
        self.draft = draft
        self.answers = answers
        self.former: dict[str, Answer] = {}
        self.postponed: set[str] = set()
        self.changing = ""
        self.item = ""
        self.told: set[object] = set()
        self.warned = False

    def run(self) -> Ended:
        """Ask until the survey is written or the owner quits. Raises EOFError and KeyboardInterrupt as they come."""
        while True:
            step = self._next()
            ended = self._asked(step) if step is not None else self._offered()
            if ended is not None:
                return ended

    def _next(self) -> Step | None:
        open_steps = [step for step in walk(self.answers) if step.where not in self.answers]
        changed = next((step for step in open_steps if step.where == self.changing), None)
        return changed or next((step for step in open_steps if step.where not in self.postponed), None)

    def _asked(self, step: Step) -> Ended | None:
        """Ask one question until it is answered or something else is asked for."""
        self._heading(step)
        self._question(step)
        while True:
            reply = self._reply(step)
            match reply:
                case Answer():
                    self._taken_as(step, reply)
                    known = self._how(step, reply) if self._new(step, reply) else reply
                    if isinstance(known, Answer):
                        self._take(step, known)
                        return None
                    if known is not Said.BACK:
                        return self._do(step, known)
                case Fault():
                    self.voice.say(f"{reply.what}; {reply.mend}", "  ")
                case Said.MORE:
                    self.voice.points((*wording.question(step, self.answers), *wording.more(step)))
                case Said.REVIEW:
                    self._review()
                case _:
                    return self._do(step, reply)

    def _reply(self, step: Step) -> Answer | Said | Change | Fault:
        former = self.former.get(step.where)
        line = self.voice.ask(wording.prompt(step, former))
        return former if former is not None and not line.strip() else understood(step, line)

    def _new(self, step: Step, reply: Answer) -> bool:
        """Whether it still has to be asked how an answer is known."""
        return asked_how(step) and reply.text not in (LEFT_OUT, UNKNOWN) and reply != self.former.get(step.where)

    def _how(self, step: Step, answer: Answer) -> Answer | Said | Change:
        if KEYS not in self.told:
            self.told.add(KEYS)
            self.voice.points(KEYS)
        return how_known(self.voice, step, answer)

    def _taken_as(self, step: Step, answer: Answer) -> None:
        """Say what was understood, where it is not what was typed."""
        if step.ask is not Ask.ENTRY:
            return
        row = wording.stand_in(step.field, step.kind)
        if answer.text in (LEFT_OUT, UNKNOWN) and row is not None:
            self.voice.say(f"= not known: {wording.stood_in_by(row)}", "  ")
        elif answer.text and step.field.choices:
            self.voice.say(f"= {answer.text}", "  ")

    def _do(self, step: Step, reply: Said | Change) -> Ended | None:
        """Do what was asked for in place of an answer."""
        match reply:
            case Said.QUIT:
                return Ended.QUIT
            case Said.LATER:
                self.postponed.add(step.where)
                self.changing = ""
            case Said.BACK:
                self._back(step)
            case Change():
                self._change(reply.number)
        return None

    def _take(self, step: Step, answer: Answer) -> None:
        self.answers[step.where] = answer
        self.former.pop(step.where, None)
        self.postponed.discard(step.where)
        self.changing = ""
        self._keep()

    def _back(self, step: Step | None) -> None:
        """Take the last answer back; one that is only being changed is left as it was."""
        if step is not None and step.where == self.changing:
            self.answers[step.where] = self.former.pop(step.where)
            self.changing = ""
            self.voice.say("left as it was", "  ")
            return
        asked = {other.where for other in walk(self.answers)}
        last = next((where for where in reversed(self.answers) if where in asked), None)
        if last is None:
            self.voice.say("this is the first question", "  ")
            return
        self.former[last] = self.answers.pop(last)
        self.postponed.discard(last)

    def _change(self, number: int) -> None:
        given = self._given()
        if not 1 <= number <= len(given):
            self.voice.say(f"there is no answer {number};  review  shows them with their numbers", "  ")
            return
        where = given[number - 1].where
        self.former[where] = self.answers.pop(where)
        self.changing = where

    def _given(self) -> list[Step]:
        return [step for step in walk(self.answers) if step.where in self.answers]

    def _review(self) -> None:
        self.voice.say()
        self.voice.rule("Answers so far")
        for number, step in enumerate(self._given(), 1):
            name = wording.full_name(step, self.answers)
            self.voice.say(f"{name} = {wording.shown(self.answers[step.where])}", f"{number:4}  ")
        self.voice.rule()

    def _offered(self) -> Ended | None:
        """All is answered: name what must still be known or mended, else offer to write the survey."""
        if self.postponed:
            self.voice.say()
            self.voice.say("Put off till now; asked again.  quit  keeps a draft.")
            self.postponed.clear()
            return None
        wrong = faults(self.answers, self.draft.survey.name)
        if wrong and self._reopened(wrong):
            return None
        self._review()
        if wrong:
            return self._choice("change with a number, or back, or quit")
        self._unknowns()
        return self._choice(f"Write {self.draft.survey.name} now? y, or back, or change with a number, or quit")

    def _reopened(self, wrong: Iterable[Fault]) -> bool:
        """Take back every answer that a fault names, so that it is asked again; whether there was any."""
        self.voice.say()
        self.voice.say("These answers do not go together yet:")
        opened = False
        for fault in wrong:
            self.voice.say(f"{fault.where}: {fault.what}; {fault.mend}", "  ")
            near = [step.where for step in self._given() if _touches(step, fault.where)]
            for where in near[:1]:
                self.former[where] = self.answers.pop(where)
                opened = True
        return opened

    def _unknowns(self) -> None:
        unknown = [step for step in self._given() if self.answers[step.where].text == UNKNOWN]
        names = [wording.full_name(step, self.answers) for step in unknown]
        if names:
            self.voice.say()
            self.voice.say(f"Not known, {len(names)}: {'; '.join(names)}.")
            self.voice.say("Each is listed in the summary, with the cautious figure that stands in where there is one.")

    def _choice(self, prompt: str) -> Ended | None:
        """What to do at the end. A survey with faults in it never comes to be written: they are looked for anew."""
        self.voice.say()
        line = self.voice.ask(prompt)
        typed = command(line)
        if typed is Said.QUIT:
            return Ended.QUIT
        if typed is Said.BACK:
            self._back(None)
        elif isinstance(typed, Change):
            self._change(typed.number)
        elif yes_or_no(line) == Answer(YES) and not faults(self.answers, self.draft.survey.name):
            write_new(self.draft.survey, survey_text(self.answers).encode())
            self.draft.drop()
            return Ended.WRITTEN
        return None

    def _heading(self, step: Step) -> None:
        """A rule with the name of the table where a new one begins."""
        self.voice.say()
        section = step.section
        if section is None or step.ask is Ask.ANOTHER or step.item == self.item:
            return
        self.item = step.item
        self.voice.rule(wording.heading(section, step.item, self.answers))
        if section.key not in self.told:
            self.told.add(section.key)
            self.voice.say(wording.about(section))
            self.voice.say()

    def _question(self, step: Step) -> None:
        """The question, in full the first time that its like is asked."""
        like = (step.section and step.section.key, *(field.key for field in step.fields))
        points = wording.question(step, self.answers)
        again = step.ask is Ask.ENTRY and like in self.told
        self.voice.points(wording.brief(points) if again else points)
        self.told.add(like)

    def _keep(self) -> None:
        """Keep the draft; where that cannot be, say so once and go on."""
        try:
            self.draft.keep(self.answers)
        except InputError as error:
            if not self.warned:
                self.voice.say(f"The draft cannot be kept: {error.faults[0].what}; the talk goes on without it.", "! ")
            self.warned = True


def _touches(step: Step, fault: str) -> bool:
    """Whether a fault's key path leads to an entry, to a part of it, to its table, or to what was not asked of that."""
    if step.ask is Ask.FURTHER:
        return fault in {f"{step.item}.{field.key}" for field in step.fields}
    where = step.where
    return fault == where or fault.startswith((f"{where}.", f"{where}[")) or where.startswith(f"{fault}.")
