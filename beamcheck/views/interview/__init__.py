"""The interview: a talk in the terminal that writes a survey, one question at a time, with a draft kept all along."""

from beamcheck.views.interview.draft import Draft, draft_beside, survey_beside
from beamcheck.views.interview.order import Answer
from beamcheck.views.interview.talk import Ended, Talk
from beamcheck.views.interview.voice import Voice
from beamcheck.views.interview.wording import COMMANDS
from beamcheck.views.words import CAUTIONS, STATUS

__all__ = ["Draft", "Ended", "Voice", "draft_beside", "interview", "survey_beside"]

_OPENING = (
    "This asks for the survey of a wall, one question at a time. A tape, a level and a call to the building department "
    "answer most of it. Where you do not know, say so: unsure is a good answer."
)


def interview(voice: Voice, draft: Draft) -> Ended:
    """Ask for a survey from where its draft left off, and write it once it reads back without a fault.

    Raises InputError for a draft that cannot be read and a survey that cannot be written; EOFError and
    KeyboardInterrupt as they come: the draft then holds all that was answered.
    """
    _greet(voice)
    answers: dict[str, Answer] = {}
    if draft.there:
        answers, strange = draft.read()
        voice.say(f"Going on with {draft.path.name}. Answers so far: {len(answers)};  review  shows them.")
        if strange:
            voice.say(f"Not taken from it, since no question asks for them or they do not hold: {', '.join(strange)}.")
    return Talk(voice, draft, answers).run()


def _greet(voice: Voice) -> None:
    voice.rule(mark="=")
    voice.say(STATUS)
    for sentence in CAUTIONS:
        voice.say(sentence, "! ")
    voice.rule(mark="=")
    voice.say(_OPENING)
    voice.points((("", "In place of an answer you may type:"), *((key, f"{what}.") for key, what in COMMANDS)))
