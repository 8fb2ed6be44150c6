"""The questions of the interview: each can be answered by its own example, and no row of answers breaks the talk."""

import io
import re
import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from test_ask import FORBIDDEN, HOUSE

from beamcheck.errors import Fault
from beamcheck.survey.fields import SECTIONS
from beamcheck.units import parse
from beamcheck.views.interview import Draft, Ended, Voice, interview
from beamcheck.views.interview.known import ASKED_HOW
from beamcheck.views.interview.order import BETWEEN, FIRST, MAIN, ONLY_WITH, PLIES, Answer, Ask, Step, walk
from beamcheck.views.interview.replies import understood
from beamcheck.views.interview.wording import UNIT_EXAMPLES, more, question

FIELDS = {(section.key, field.key): field for section in SECTIONS for field in section.fields}
EVERY = [
    Step(f"{section.key}{'[1]' * section.repeated}.{field.key}", Ask.ENTRY, section, (field,), kind, field.required)
    for section in SECTIONS
    for field in section.fields
    for kind in field.kinds or ("",)
]
SHAPES = re.compile(r"\bEnter\b")


def named(step: Step) -> str:
    """A step for the report of the tests."""
    return f"{step.where} {step.kind}".strip()
