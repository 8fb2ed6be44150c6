"""What nobody has looked at and would tip a link if it is otherwise: the questions that stand first on paper."""

from collections.abc import Iterator
from itertools import groupby

from beamcheck.explore import Progress
from beamcheck.explore.margins import Flip, Way, tipping
from beamcheck.explore.questions import Question, Tipped, questions
from beamcheck.study.registers import Unknown
from beamcheck.study.types import Study
from beamcheck.trace import FULL, Given
from beamcheck.views.flips import beyond
from beamcheck.views.words import figure

_WORDS = 0.5  # share of the work that goes into trying words
_FEW = 3
_SAID: dict[Way, tuple[str, str]] = {
    "over": ("goes over", "go over"),
    "gone": ("is not shown", "are not shown"),
    "within": ("comes back within 1.00", "come back within 1.00"),
}
_WAYS = tuple(_SAID)  # the worst first


def asked_first(study: Study, progress: Progress = lambda _: None) -> tuple[Unknown, ...]:
    """Words and figures that nobody has looked at and that tip a link, each as a question."""
    words = questions(study, lambda share: progress(_WORDS * share))
    figures = tipping(study, lambda share: progress(_WORDS + (1 - _WORDS) * share))
    return (*_words(words), *_figures(figures, study.survey.about.dimensions))


def _words(asked: tuple[Question, ...]) -> Iterator[Unknown]:
    for _, group in groupby(asked, key=lambda question: question.where):
        same = list(group)
        worst = min((_goes(link) for question in same for link in question.tipped), key=_WAYS.index)
        ways = {one.instead: [link.name for link in one.tipped if _goes(link) == worst] for one in same}
        others = _either([other for other, names in ways.items() if names])
        names = [name for names in ways.values() for name in names]
        stands = same[0].stands if same[0].stands.split(" ")[-1] == "unknown" else f"{same[0].stands} assumed"
        yield Unknown(same[0].name, stands, _question(others, names, worst))


def _goes(link: Tipped) -> Way:
    if link.after is None:
        return "gone"
    return "over" if link.after > FULL else "within"


def _figures(flips: tuple[Flip, ...], dimensions: str) -> Iterator[Unknown]:
    """One for each figure, the nearest first; it names the nearest place at which anything tips."""
    by_input: dict[str, list[Flip]] = {}
    for flip in flips:
        by_input.setdefault(flip.input.where, []).append(flip)
    for same in by_input.values():
        first = same[0]
        value = first.input.value
        assert isinstance(value.origin, Given)
        alike = (flip for flip in same if flip.goes == first.goes and _more(flip) == _more(first))
        names = [flip.name for flip in alike]
        stands = f"{figure(value, dimensions)} {value.origin.trust}"
        yield Unknown(first.input.name, stands, _question(beyond(first, dimensions), names, first.goes))


def _more(flip: Flip) -> bool:
    return flip.at > flip.input.likely


def _either(words: list[str]) -> str:
    """One word or another; of very many the first and how many more."""
    return " or ".join(words) if len(words) <= _FEW else f"{words[0]} or one of {len(words) - 1} more"


def _question(others: str, links: list[str], goes: Way) -> str:
    """Whether it is otherwise, and what follows if it is."""
    names = list(dict.fromkeys(links))
    shown = " and ".join(names) if len(names) < 3 else f"{names[0]} and {len(names) - 1} more"
    return f"Is it {others}? Then {shown} {_SAID[goes][len(names) > 1]}"
