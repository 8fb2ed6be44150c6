"""What every text beside a study's own begins and ends with: cautions, whose house it is, the short caution."""

from __future__ import annotations

from typing import TYPE_CHECKING

from beamcheck.views.plain import Plain
from beamcheck.views.terminal import cautions
from beamcheck.views.words import SHORT_CAUTION

if TYPE_CHECKING:
    from beamcheck.survey.model import Survey


def headed(survey: Survey, title: str, width: int) -> Plain:
    """The cautions, the survey's title, and what is told of it."""
    out = Plain(width)
    cautions(out)
    out.text(f"{survey.about.title}. {survey.about.address}")
    out.rule(title)
    return out


def closed(out: Plain) -> str:
    """The text, with the short caution at its end."""
    out.text()
    out.text(SHORT_CAUTION, "! ")
    return str(out)


def more(out: Plain, count: int) -> None:
    """How many are left out of a list, if any."""
    if count > 0:
        out.text(f"and {count} more", "  ")
