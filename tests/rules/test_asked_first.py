"""What the summary asks first tips a link if it is otherwise, and nothing that tips one is left out."""

from importlib.resources import files

import pytest

from beamcheck import units
from beamcheck.explore.inputs import Ranged, with_numbers
from beamcheck.explore.margins import Flip, margins, tipping
from beamcheck.explore.questions import questions
from beamcheck.study.chain import study as studied
from beamcheck.survey.reader import read_text
from beamcheck.trace import Check, Taken, Value, items
from beamcheck.units import Dimension
from beamcheck.views.asked_first import asked_first
from beamcheck.views.flips import beyond
from beamcheck.views.sheet import sheet_html

BEYOND = 1e-6
STEP = 0.01  # two digits at least
BASE = {"ft^2": "in^2"}
KINDS = {"in": Dimension.LENGTH, "psf": Dimension.AREA_LOAD, "ft^2": Dimension.AREA, "lb": Dimension.FORCE,
         "deg": Dimension.ANGLE}  # fmt: skip


@pytest.fixture(scope="module")
def made():
    """The demonstration."""
    return studied(read_text((files("beamcheck.survey") / "demo.toml").read_bytes(), "demo.toml"))


@pytest.fixture(scope="module")
def flips(made):
    """What its unseen figures tip within their ranges."""
    return tipping(made)


@pytest.fixture(scope="module")
def wide(made):
    """All its flips, as far as the margins look."""
    return margins(made).flips


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


def test_the_unseen_figures_that_tip_are_those_of_the_margins(wide, flips) -> None:
    """Within their ranges the margins, which look far beyond, find the same figures at the same places."""
    seen = [flip for flip in wide if flip.reach <= 1.0 and flip.input.unseen]
    assert sorted((flip.input.where, flip.key) for flip in seen) == sorted((f.input.where, f.key) for f in flips)
    near = {(flip.input.where, flip.link): flip.at for flip in flips}
    for flip in seen:
        assert near[flip.input.where, flip.link] == pytest.approx(flip.at, rel=1e-6)


@pytest.mark.parametrize("dimensions", ["feet", "metric"])
def test_a_printed_flip_is_a_figure_that_tips_nothing_yet(made, wide, dimensions) -> None:
    """Read back as it is printed, the figure leaves its link at 1.00 or below, and its digits are enough."""
    for flip in wide[:24:2]:
        told = beyond(flip, dimensions)
        printed = told.removeprefix("more than ").removeprefix("less than ").removesuffix(" or less")
        unit = flip.input.value.unit
        number = units.parse(printed.replace("²", "^2").replace("°", " deg").replace(",", ""), KINDS[unit])
        number = units.convert(number, BASE.get(unit, unit), unit)
        assert ratio(studied(with_numbers(made.survey, {flip.input.where: number})), flip.key) <= 1.0, told
        assert abs(number / flip.at - 1.0) < STEP, told
        assert told.startswith("more" if flip.at > flip.input.likely else "less") == (flip.goes == "over")


@pytest.mark.parametrize(
    ("unit", "likely", "at", "goes", "dimensions", "told"),
    [
        ("psf", 20.0, 21.574, "over", "feet", "more than 21.5 psf"),
        ("psf", 30.0, 21.574, "within", "feet", "21.5 psf or less"),
        ("psf", 1500.0, 833.72, "over", "feet", "less than 833.8 psf"),
        ("psf", 500.0, 833.72, "within", "feet", "833.8 psf or more"),
        ("psf", 20.0, 21.5 + 1e-9, "over", "feet", "more than 21.5 psf"),
        ("in", 96.0, 100.01, "within", "feet", "8 ft 4-1/16 in or more"),
        ("in", 96.0, 100.06, "over", "feet", "more than 8 ft 4 in"),
        ("in", 96.0, 100.04, "over", "metric", "more than 2541 mm"),  # 2541.016 mm
        ("in", 96.0, 100.04, "within", "metric", "2542 mm or more"),
    ],
)
def test_a_flip_is_rounded_to_where_nothing_is_over(unit, likely, at, goes, dimensions, told) -> None:
    """By hand: the next printed figure on the side where the link is not over, whichever side that is."""
    value = Value("x", likely, unit, Taken("for the test"))
    ranged = Ranged("x", "x", value, likely, likely, likely, None)
    assert beyond(Flip(ranged, "a", "a", "a", "a", 1.0, at, goes, 1.0), dimensions) == told


def test_the_weight_that_the_floor_may_have_is_printed_below_where_it_tips(made, wide) -> None:
    """The demonstration's floor tips its first link at 21.57 psf: 21.5 psf is printed, and not 21.6 psf."""
    (floor,) = [unknown for unknown in asked_first(made) if unknown.name == "bedroom floor, dead"]
    first = next(flip for flip in wide if flip.input.where == "carried[1].dead")
    assert 21.55 < first.at < 21.6
    assert floor.settle.startswith("Is it more than 21.5 psf? Then Foot of post 1")
    assert beyond(first, "feet") == "more than 21.5 psf"


def test_each_unknown_is_asked_once_words_first(made, flips) -> None:
    """One question for each word and each figure that tips a link, in that order, each saying what follows."""
    asked = asked_first(made)
    words = list(dict.fromkeys(question.name for question in questions(made)))
    figures = list(dict.fromkeys(flip.input.name for flip in flips))
    assert [unknown.name for unknown in asked] == [*words, *figures]
    for unknown in asked:
        assert unknown.settle.startswith("Is it ")
        assert unknown.settle.endswith(("over", "back within 1.00", "not shown"))


def test_the_paper_asks_them_before_it_names_what_is_missing(made) -> None:
    """On the first page the questions that tip a link come first, and what is not shown keeps a place."""
    asked = asked_first(made)
    page = sheet_html(made, asked=asked)
    places = [page.index(f"<b>{unknown.name}</b>") for unknown in asked[:3]]
    assert places == sorted(places)
    assert places[-1] < page.index("(not shown)", places[0])
    assert "Missing first" not in page
    assert "Missing first" in sheet_html(made)
