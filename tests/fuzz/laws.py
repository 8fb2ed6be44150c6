"""What must hold for any bytes given as a survey and any text given as a quantity."""

import json
import math
import re
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from beamcheck.errors import BeamcheckError, InputError
from beamcheck.study.chain import study
from beamcheck.study.types import Link, Study
from beamcheck.survey.reader import read_text
from beamcheck.trace import Check, Given, Missing, Trust, Value, ancestry, items, values
from beamcheck.units import Dimension, UnitFault, parse
from beamcheck.views.data import study_data
from beamcheck.views.terminal import study_text

LONGEST = 2.0  # seconds for one survey, from its bytes to its text and data
COMFORT = ("within", "close")
NO_NUMBER = re.compile(r"(?<![\w-])[+-]?(?:nan|inf|infinity|undefined)(?!\w)|∞", re.IGNORECASE)
_REPR = re.compile(r"<[A-Za-z_.]+(?:: | object)")  # an enum or an object as Python shows it to its writers
NOT_COMFORT = re.compile(r"\b(approved|safe|ok|pass(?:es|ed)?)\b", re.IGNORECASE)


class TooSlow(Exception):
    """A survey or a text took longer than the law allows."""


@contextmanager
def in_time(seconds: float) -> Iterator[None]:
    """Raise TooSlow where the block takes longer; on systems without the signal it only runs."""
    if not hasattr(signal, "SIGALRM"):
        yield
        return

    def ring(*_: object) -> None:
        raise TooSlow(f"longer than {seconds:g} s")

    before = signal.signal(signal.SIGALRM, ring)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0.0)
        signal.signal(signal.SIGALRM, before)


def survey_fault(data: bytes, longest: float = LONGEST) -> tuple[str, str]:
    """What came of a survey ("refused", "studied") and which law it broke; the second is empty if none."""
    try:
        with in_time(longest):
            return _studied(data)
    except InputError as error:
        return "refused", _plain_faults(error)
    except BeamcheckError as error:
        return "broken", f"{type(error).__name__} without a place: {error}"
    except TooSlow as error:
        return "broken", str(error)
    except Exception as error:  # noqa: BLE001  any other is a broken law, and is what the fuzzer looks for
        return "broken", f"{type(error).__name__}: {error} at {_last_line(error)}"


def _studied(data: bytes) -> tuple[str, str]:
    survey = read_text(data, "survey.toml")
    made = study(survey)
    text = study_text(made)
    printed = json.dumps(study_data(made), allow_nan=False, ensure_ascii=False)
    for law in (_finite, _no_comfort, _never_below_nothing):
        broken = next(law(made), "")
        if broken:
            return "broken", broken
    told = " ".join(_strings(data))
    for page in (text, printed):
        word = NO_NUMBER.search(page)
        if word and word[0].strip("+-").lower() not in told.lower():
            return "broken", f"printed {word[0]!r}: {page[max(0, word.start() - 60) : word.end() + 20]!r}"
    return "studied", ""


def _strings(data: bytes) -> list[str]:
    """The words of the owner, which are printed as they are."""
    return re.findall(r"\w+|∞", data.decode("utf-8", "replace"))


def _last_line(error: BaseException) -> str:
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    return f"{trace.tb_frame.f_code.co_filename}:{trace.tb_lineno}" if trace is not None else "nowhere"


def _plain_faults(error: InputError) -> str:
    """Every fault says where, what and what would do, in one line each that prints."""
    if not error.faults:
        return "InputError without a fault"
    for fault in error.faults:
        for part, text in (("where", fault.where), ("what", fault.what), ("mend", fault.mend)):
            if not isinstance(text, str) or not text.strip():
                return f"a fault has no {part}: {fault}"
            if len(text) > 2000:
                return f"a fault's {part} has {len(text)} characters"
            if "Traceback" in text or "object at 0x" in text or _REPR.search(text):
                return f"a fault shows the inside of the program: {text[:200]}"
    str(error)
    return ""


def _finite(made: Study) -> Iterator[str]:
    for value in values(made.sheet):
        if not math.isfinite(float(value.number)):
            yield f"{value.name} is {value.number}, from {value.origin}"


def _never_below_nothing(made: Study) -> Iterator[str]:
    for item in items(made.sheet):
        if isinstance(item, Check) and not float(item.ratio) >= 0:
            yield f"{item.key} has the utilisation {float(item.ratio)}"


def _no_comfort(made: Study) -> Iterator[str]:
    """No link is within or close that lacks anything, or that rests on what nobody knows."""
    for link in made.links:
        if link.word not in COMFORT:
            continue
        if any(isinstance(item, Missing) for item in items(link.sheet)):
            yield f"{link.key} is {link.word} with something missing"
        for item in items(link.sheet):
            if isinstance(item, Check):
                yield from _unknown_under(link, item)
    if made.settled in COMFORT and any(isinstance(item, Missing) for item in items(made.sheet)):
        yield f"the study is {made.settled} with something missing"


def _unknown_under(link: Link, check: Check) -> Iterator[str]:
    for root in (check.demand, check.limit):
        for value in ancestry(root):
            if _nobody_knows(value):
                yield f"{link.key} is {link.word}, and {check.key} rests on {value.origin}"


def _nobody_knows(value: Value) -> bool:
    origin = value.origin
    return (
        isinstance(origin, Given)
        and origin.trust in (Trust.UNKNOWN, Trust.ASSUMED)
        and origin.default is None
        and (origin.trust is Trust.UNKNOWN or origin.text in ("", "unknown"))
    )


def unit_fault(text: str, dimension: Dimension, read: Callable[..., float] = parse) -> str:
    """Which law a text broke when read as a quantity; empty if none."""
    try:
        number = read(text, dimension)
    except UnitFault as fault:
        return "" if str(fault).strip() and fault.wanted.strip() else f"a fault says nothing: {text!r}"
    except TooSlow:
        return f"{text!r} takes too long"
    except Exception as error:  # noqa: BLE001  any other is a broken law
        return f"{text!r} as {dimension}: {type(error).__name__}: {error}"
    if not math.isfinite(number) or number < 0:
        return f"{text!r} as {dimension} is {number}"
    if not any(sign.isdigit() or sign.isnumeric() for sign in text):
        return f"{text!r} as {dimension} is {number}, out of no figure"
    return ""
