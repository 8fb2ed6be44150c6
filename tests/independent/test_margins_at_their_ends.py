"""What cannot be studied is told: words that take a link away, ranges that stop, corners that contradict themselves."""

from importlib.resources import files
from pathlib import Path

import numpy as np
import pytest

from beamcheck.explore.groups import Group, Target, groups
from beamcheck.explore.inputs import Ranged, inputs
from beamcheck.explore.margins import Corner, Margins, margins
from beamcheck.explore.margins import _corners as corners
from beamcheck.explore.margins import _flips as flips
from beamcheck.explore.questions import questions
from beamcheck.explore.stand_ins import stand_ins, untried
from beamcheck.explore.walks import grid, walks
from beamcheck.frozen import replace
from beamcheck.study.chain import study
from beamcheck.survey.reader import read, read_text
from beamcheck.trace import Given, Trust, Value
from beamcheck.views.explore_text import margins_text
from beamcheck.views.left_out import left_out, unmoved

PLAIN = Path(__file__).parent / "explore" / "plain_house.toml"
LONG_LINE = Path(__file__).parents[1] / "houses" / "long_line.toml"
DEMO = (files("beamcheck.survey") / "demo.toml").read_text("utf-8")
NO_CORNER = Corner("beam", "Beam", 0.5, 0.75, None)
ALL_CLEAR = "Nothing that is assumed or unknown tips a link within its range."


def changed(old: str, new: str, text: str = ""):
    """The study of the plain house, or of a text, with one thing written otherwise."""
    text = text or PLAIN.read_text(encoding="utf-8")
    assert old in text
    return study(read_text(text.replace(old, new, 1).encode()))


def test_a_word_that_takes_a_link_away_is_asked() -> None:
    """A seat that is taken to be a cap, and is a notch, cannot be shown until someone says how deep the notch is."""
    likely = changed('seat = "cap"', 'seat = { value = "cap", trust = "assumed" }')
    asked = {one.instead: one for one in questions(likely) if one.where == "post[1].seat"}
    link = next(link for link in asked["notch"].tipped if link.link == "post[1].seat")
    assert link.before is not None
    assert (link.after, link.said) == (None, "not shown")
    assert "-> not shown" in margins_text(likely, margins(likely), tuple(asked.values()), None)


def test_a_word_that_contradicts_the_survey_is_told() -> None:
    """Bolts in place of nails contradict the fastener that is written: that is said, and what contradicts what."""
    post = 'member = "3-ply 2x4 Hem-Fir No.2"', 'fastening = { value = "nailed", trust = "assumed" }'
    likely = changed('member = "6x6 Douglas Fir-Larch No.1"', "\n".join((*post, 'fastener = "30d common"')))
    tipped = {one.instead: one.tipped for one in questions(likely) if one.where == "post[1].fastening"}
    assert [link.after for link in tipped["bolted"]] == [None]
    assert "contradicts the rest of the survey (post[1].fastener: " in tipped["bolted"][0].said


def test_a_species_that_is_assumed_is_listed_and_tried() -> None:
    """A plate whose species the owner guessed is an assumption like any other, and other species are tried."""
    likely = changed('plate = "Southern Pine"', 'plate = { value = "Red Oak", trust = "assumed" }')
    assert "post[1].plate" not in {entry.where for entry in margins(likely).untried}
    assert any(word.where == "post[1].plate" for word in likely.survey.words)


def test_strength_of_concrete_has_a_range_and_what_has_none_is_named() -> None:
    """An assumed strength is moved within its range; one that is only said to be unknown is named as not tried."""
    likely = study(read(LONG_LINE))
    moved = {one.where for one in inputs(likely)}
    assert "pad[1].strength" in moved
    left = untried(likely, moved)
    assert [entry.where for entry in left] == ["pad[2].strength"]
    told = list(left_out(likely, Margins((), (), (), (), left), 0))
    assert "Not tried: pad 2, strength (unknown)." in told
    assert ALL_CLEAR not in told


def test_a_range_stops_where_the_survey_contradicts_itself() -> None:
    """The set-back may not lie past the middle of the joists, which is 10 ft 8 in / 2: hand calculation."""
    old = DEMO[DEMO.index("set_back_b") :].partition("\n")[0]
    new = 'set_back_b = { value = "5 ft", trust = "assumed", low = "4 ft 10 in", high = "5 ft 6 in" }'
    likely = changed(old, new, DEMO)
    (group,) = (
        one for one in groups(likely, lambda _: None, lambda one: one.where == "temporary.set_back_b") if one.ranged
    )
    (walk,) = walks(group, [grid(one, (one.low, one.high), 1) for one in group.ranged])
    moved = walk.ranged
    assert (moved.low, moved.high) == (58.0, pytest.approx(64.0, abs=0.01))
    assert [stop.at for stop in moved.stops] == [moved.high]
    assert "is past the middle of the joists" in moved.stops[0].why
    text = margins_text(likely, Margins((moved,), (), (NO_CORNER,)), (), None)
    assert "temporary, set back b: the range stops at 5 ft 4 in. Beyond it: " in text


def made_up(work, *figures: tuple[str, float, float, float]) -> Group:
    """A group of one target that works as told, with figures by name, low, likely and high."""
    ranged = tuple(
        Ranged(name, name, Value("x", likely, "in", Given(name, Trust.ASSUMED)), low, likely, high, None)
        for name, low, likely, high in figures
    )
    target = Target("link", "Link", {"check": "Check"}, 0.5)

    def worked(settings):
        likely = {one.where: one.likely for one in ranged}
        return {"check": np.array([work(**(likely | dict(one))) for one in settings], dtype=float)}

    return Group((target,), ranged, worked, lambda _: "too far", 1)


def test_a_flip_before_the_last_study_is_found() -> None:
    """The utilisation x / 20 is over from 20 on, there is a study up to 22, and the range goes on to 30."""
    group = made_up(lambda x: x / 20 if x <= 22 else float("nan"), ("x", 5.0, 10.0, 30.0))
    walked = walks(group, [grid(one, (one.low, one.high), 1) for one in group.ranged])
    assert walked[0].ranged.high == pytest.approx(22.0, abs=0.01)
    assert [stop.why for stop in walked[0].ranged.stops] == ["too far"]
    assert [flip.at for flip in flips(group, walked)] == [pytest.approx(20.0, rel=1e-9)]


@pytest.mark.parametrize("order", [1, -1])
def test_a_corner_that_contradicts_itself_has_no_figure(order) -> None:
    """Each of two figures may be at its end alone, both together may not: there is no utilisation at that corner."""
    figures = [("a", 1.0, 2.0, 4.0), ("b", 1.0, 2.0, 4.0)][::order]
    group = made_up(lambda a, b: (a + b) / 8 if a + b < 7 else float("nan"), *figures)
    walked = walks(group, [grid(one, (one.low, one.high), 1) for one in group.ranged])
    assert list(corners(group, walked)) == [Corner("link", "Link", 0.25, 0.5, None)]


def test_a_corner_without_a_figure_is_told_so() -> None:
    """The table of corners says that all figures at their unkindest contradict each other, and gives no number."""
    text = margins_text(study(read(PLAIN)), Margins((), (), (NO_CORNER,)), (), None)
    line = next(line for line in text.splitlines() if "contradicts itself" in line)
    assert line.split()[-3:] == ["none", "contradicts", "itself"]


def test_the_all_clear_stands_only_where_all_was_tried_and_shown() -> None:
    """It goes away for what was not tried, for a link that is not shown, and for a question left to the engineer."""
    likely = study(read(PLAIN))
    nothing = Margins((), (), ())
    bare = replace(likely, sheet=replace(likely.sheet, items=()), links=())
    assert list(left_out(bare, nothing, 0)) == [ALL_CLEAR]
    assert list(left_out(bare, nothing, 1)) == []
    left = untried(study(read(LONG_LINE)), ())
    for one, found in ((likely, nothing), (bare, Margins((), (), (), (), left))):
        told = list(left_out(one, found, 0))
        assert ALL_CLEAR not in told
        assert "Of what is assumed or unknown, nothing that was tried tips a link that is shown." in told


def test_how_far_figures_were_moved_is_told() -> None:
    """A quarter and four times the size are only named alone where every figure went so far."""
    some = inputs(study(read(PLAIN)))
    assert unmoved(Margins(some, (), ())).endswith("each in steps, to a quarter and to four times its size.")
    assert "Not moved all the way: wall, clear opening." in unmoved(Margins(some, (), (), ("wall, clear opening",)))
    assert "No figure was moved" in unmoved(Margins((), (), ()))


def test_a_figure_that_cannot_go_far_is_among_those_that_stopped() -> None:
    """No ceiling of four times 8 ft is a survey's, whose highest is 20 ft."""
    assert "wall, ceiling height" in margins(study(read(PLAIN))).short


def test_lumber_of_unknown_grade_is_an_assumption_wherever_it_stands() -> None:
    """The joist under the piano and the studs of the temporary walls are listed with what stands in, and tried."""
    text = DEMO.replace('"2x10 Douglas Fir-Larch No.2", trust = "seen"', '"2x10 unknown", trust = "seen"', 1)
    likely = changed('"2x4 Spruce-Pine-Fir Stud"', '"2x4 unknown"', text)
    tried = {one.entry.where: one for one in stand_ins(likely)}
    for where in ("heavy[1].joist", "temporary.stud"):
        assert tried[where].entry.text == "No.2 of unknown species"
        assert tried[where].others


def test_a_species_in_a_layer_is_named_as_not_tried() -> None:
    """The heaviest wood stands in for joists of unknown species; no other is tried, so that is said."""
    old = 'dead = { value = "15 psf", trust = "stated", low = "10 psf", high = "26 psf" }'
    alone = PLAIN.read_text(encoding="utf-8").partition("[[variant]]")[0]
    likely = changed(old, 'layers = "hardwood 3/4 in, 2x10 at 16 in"', alone)
    assert "carried[1].layers[2]" in {entry.where for entry in untried(likely, ())}
