"""A survey's text with some of its words changed, and its study."""

from beamcheck.study.chain import study
from beamcheck.study.types import Study
from beamcheck.survey.reader import read_text


def studied(text: str, *changes: tuple[str, str]) -> Study:
    """The study of a survey in which each change stands in for what it names, which must be there."""
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    return study(read_text(text.encode()))
