"""What the summary asks first tips a link if it is otherwise, and nothing that tips one is left out."""

from importlib.resources import files

import pytest

from beamcheck.explore.inputs import with_numbers
from beamcheck.explore.margins import margins, tipping
from beamcheck.explore.questions import questions
from beamcheck.study.chain import study as studied
from beamcheck.survey.reader import read_text
from beamcheck.trace import Check, items
from beamcheck.views.asked_first import asked_first
from beamcheck.views.sheet import sheet_html

BEYOND = 1e-6


@pytest.fixture(scope="module")
def made():
    """The demonstration."""
    return studied(read_text((files("beamcheck.survey") / "demo.toml").read_bytes(), "demo.toml"))


@pytest.fixture(scope="module")
def flips(made):
    """What its unseen figures tip within their ranges."""
    return tipping(made)


def ratio(study, key: str) -> float:
    """Utilisation of a check."""
    return next(float(item.ratio) for item in items(study.sheet) if isinstance(item, Check) and item.key == key)


def test_a_figure_that_is_asked_brings_its_check_to_one(made, flips) -> None:
    """The whole study with the figure at the place that is printed has the check at 1.00, and over just beyond."""
    assert flips
    for flip in flips:
        at = with_numbers(made.survey, {flip.input.where: flip.at})
        assert ratio(studied(at), flip.key) == pytest.approx(1.0, abs=1e-6)
        way = BEYOND if flip.at > flip.input.likely else -BEYOND
        past = studied(with_numbers(made.survey, {flip.input.where: flip.at * (1 + way)}))
        assert (ratio(past, flip.key) > 1.0) == (flip.goes == "over")


def test_the_unseen_figures_that_tip_are_those_of_the_margins(made, flips) -> None:
    """Within their ranges the margins, which look far beyond, find the same figures at the same places."""
    wide = [flip for flip in margins(made).flips if flip.reach <= 1.0 and flip.input.unseen]
    assert sorted((flip.input.where, flip.key) for flip in wide) == sorted((f.input.where, f.key) for f in flips)
    near = {(flip.input.where, flip.link): flip.at for flip in flips}
    for flip in wide:
        assert near[flip.input.where, flip.link] == pytest.approx(flip.at, rel=1e-6)


def test_each_unknown_is_asked_once_words_first(made, flips) -> None:
    """One question for each word and each figure that tips a link, in that order, each saying what follows."""
    asked = asked_first(made)
    words = list(dict.fromkeys(question.name for question in questions(made)))
    figures = list(dict.fromkeys(flip.input.name for flip in flips))
    assert [unknown.name for unknown in asked] == [*words, *figures]
    for unknown in asked:
        assert unknown.settle.startswith("Is it ")
        assert unknown.settle.endswith(("over", "back within 1.00"))


def test_the_paper_asks_them_before_it_names_what_is_missing(made) -> None:
    """On the first page the questions that tip a link come first, and what is not shown keeps a place."""
    asked = asked_first(made)
    page = sheet_html(made, asked=asked)
    places = [page.index(f"<b>{unknown.name}</b>") for unknown in asked[:3]]
    assert places == sorted(places)
    assert places[-1] < page.index("(not shown)", places[0])
    assert "Missing first" not in page
    assert "Missing first" in sheet_html(made)
