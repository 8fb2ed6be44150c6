"""How sure: many lanes agree with studies, solved flips are flips, chances agree with what can be summed by hand."""

import dataclasses
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from beamcheck.explore.chain_lanes import chain_lanes
from beamcheck.explore.chance import chance, triangular
from beamcheck.explore.inputs import inputs, with_numbers
from beamcheck.explore.margins import margins, targets
from beamcheck.explore.questions import questions
from beamcheck.explore.roots import crossings
from beamcheck.study.chain import study
from beamcheck.survey.reader import read, read_text
from beamcheck.trace import Check, Given, items, values

HERE = Path(__file__).parent
LONG = HERE / "explore" / "long_line.toml"
PLAIN = HERE / "explore" / "plain_house.toml"
HOUSES = HERE.parent / "houses"
DEMO = HERE.parents[1] / "beamcheck" / "survey" / "demo.toml"
LANES = 12
BEAMS = ("3-ply 1-3/4x14 LVL 2.0E-2900F", "5-1/2x15 glulam 24F-V8", "6x14 Douglas Fir-Larch No.1", "W10x22",
         "2-ply 2x12 Southern Pine No.2")  # fmt: skip


def with_beam(path: Path, text: str):
    """The study of a survey with another beam."""
    survey = read(path)
    return study(replace(survey, beam=replace(survey.beam, member=text)))


def ratios(sheet) -> dict[str, float]:
    """Utilisation of every check by key."""
    return {item.key: float(item.ratio) for item in items(sheet) if isinstance(item, Check)}


@pytest.mark.parametrize("beam", BEAMS)
def test_every_lane_is_the_study_of_its_figures(beam) -> None:
    """With all figures of the survey drawn anew, each lane agrees with the study of those figures within 1e-9."""
    likely = with_beam(LONG, beam)
    ranged = inputs(likely, chain_lanes(likely, {}, 1))
    assert {one.where for one in ranged} >= {"post[2].station", "carried[2].from", "carried[4].area"}
    dice = np.random.default_rng(11)
    numbers = {one.where: triangular(one, dice.random(LANES)) for one in ranged}
    found = chain_lanes(likely, numbers, LANES)
    for lane in range(LANES):
        anew = {where: float(figure[lane]) for where, figure in numbers.items()}
        by_study = ratios(study(with_numbers(likely.survey, anew)).sheet)
        assert by_study.keys() - found.keys() <= {key for key in by_study if not key.startswith("beam")}
        for key, check in found.items():
            if key in by_study:
                assert check.ratio[lane] == pytest.approx(by_study[key], abs=1e-9, rel=1e-9), (key, lane)
            else:
                assert check.ratio[lane] <= 1e-9, (key, lane)


@pytest.mark.parametrize("path", [PLAIN, DEMO], ids=lambda path: path.stem)
def test_the_draws_name_every_link_that_they_leave_out(path) -> None:
    """A link is drawn with every check it has, or it is named; one that is not shown is named too."""
    likely = study(read(path))
    found = chance(likely, samples=200)
    drawn = {check.key for check in found.checks}
    told = {name.removeprefix("part of ").removesuffix(" (not shown)") for name in found.left_out}
    for link in likely.links:
        checks = {item.key for item in items(link.sheet) if isinstance(item, Check)}
        whole = bool(checks) and checks <= drawn
        assert (link.name in told) == (not whole and (bool(checks) or link.word == "not shown")), link.name
    if path == DEMO:
        assert {"Girder below (cellar girder)", "Pad under post 2", "Temporary support"} <= told


@pytest.mark.parametrize("path", [LONG, PLAIN, HOUSES / "slab_house.toml", DEMO], ids=lambda path: path.stem)
def test_a_solved_flip_is_a_flip(path) -> None:
    """Study anew with the one figure at its solved value: the link stands at 1.00, within 1e-6, by the check named.

    A figure so far off may contradict a section beside the chain, so links of the chain are studied without those.
    """
    likely = study(read(path))
    chain = replace(likely.survey, temporary=None, signs=None, room=None, neighbours=(), holes=(), heavy=())
    in_chain = {link.key for link in likely.links if link.in_chain}
    found = margins(likely)
    assert found.flips
    for flip in found.flips[:: max(1, len(found.flips) // 25)]:
        survey = chain if flip.link in in_chain else likely.survey
        anew = study(with_numbers(survey, {flip.input.where: flip.at}))
        link = next(link for link in anew.links if link.key == flip.link)
        assert link.governing is not None
        assert float(link.governing.ratio) == pytest.approx(1.0, abs=1e-6), flip
        assert ratios(link.sheet)[flip.key] == pytest.approx(1.0, abs=1e-6)


def test_no_flip_lies_between_a_figure_and_its_nearest() -> None:
    """Short of the solved value the link keeps the side of 1.00 on which it stands."""
    likely = study(read(PLAIN))
    followed = {target.key: target for target in targets(likely)}
    for flip in margins(likely).flips:
        for share in (0.25, 0.5, 0.9, 0.999):
            at = flip.input.likely + share * (flip.at - flip.input.likely)
            anew = study(with_numbers(likely.survey, {flip.input.where: at}))
            link = next(link for link in anew.links if link.key == flip.link)
            assert link.governing is not None
            assert (float(link.governing.ratio) <= 1) == (followed[flip.link].ratio <= 1), (flip, share)


@pytest.mark.parametrize("path", [LONG, PLAIN], ids=lambda path: path.stem)
def test_corners_hold_every_single_move(path) -> None:
    """No figure moved alone within its range brings a link beyond its corners by more than rounding."""
    likely = study(read(path))
    found = margins(likely)
    corners = {corner.link: corner for corner in found.corners}
    assert corners.keys() == {target.key for target in targets(likely)}
    for one in found.inputs:
        for end in (one.low, one.high):
            anew = study(with_numbers(likely.survey, {one.where: end}))
            for link in anew.links:
                if link.key in corners and link.governing is not None:
                    corner = corners[link.key]
                    ratio = float(link.governing.ratio)
                    assert corner.low <= corner.likely <= corner.high
                    assert ratio <= corner.high * (1 + 1e-9), (link.key, one.where)
                    assert ratio >= corner.low * (1 - 1e-9), (link.key, one.where)


def test_the_mean_of_a_linear_check_is_that_of_its_triangle() -> None:
    """Crushing of the plate is a straight line in the floor's weight, so its mean lies at the mean of the triangle."""
    likely = study(read(PLAIN))
    drawn = chance(likely, 40_000, seed=3)
    assert [one.where for one in drawn.inputs] == ["carried[1].dead"]
    low, mode, high = 10.0, 15.0, 26.0
    at_ends = [study(with_numbers(likely.survey, {"carried[1].dead": x})) for x in (low, high)]
    ends = [ratios(anew.sheet)["post[1].plate"] for anew in at_ends]
    slope = (ends[1] - ends[0]) / (high - low)
    mean = ends[0] + slope * ((low + mode + high) / 3 - low)
    spread = slope * ((low**2 + mode**2 + high**2 - low * mode - low * high - mode * high) / 18) ** 0.5
    plate = next(check for check in drawn.checks if check.key == "post[1].plate")
    assert plate.mean == pytest.approx(mean, abs=5 * spread / 40_000**0.5)
    assert plate.drivers[0].where == "carried[1].dead"
    assert plate.drivers[0].correlation == pytest.approx(1.0, abs=1e-9)


def test_the_share_over_is_that_of_the_triangle_beyond_the_flip() -> None:
    """With one figure in doubt, the share of draws over 1.00 is the part of its triangle beyond the solved flip."""
    likely = with_beam(PLAIN, "4-ply 2x12 Douglas Fir-Larch No.1")
    flip = next(flip for flip in margins(likely).flips if flip.link == "beam" and flip.input.where == "carried[1].dead")
    low, mode, high = 10.0, 15.0, 26.0
    assert low < flip.at < high
    below = (
        (flip.at - low) ** 2 / ((high - low) * (mode - low))
        if flip.at < mode
        else 1 - (high - flip.at) ** 2 / ((high - low) * (high - mode))
    )
    drawn = chance(likely, 40_000, seed=9)
    over = max(check.over for check in drawn.checks if check.key.startswith("beam."))
    assert over == pytest.approx(1 - below, abs=5 * (below * (1 - below) / 40_000) ** 0.5)


def test_figures_that_are_sure_leave_nothing_to_chance() -> None:
    """Where no figure has a range every draw is the study itself, and nothing drives a check."""
    text = PLAIN.read_text(encoding="utf-8").replace('"10 psf", high = "26 psf"', '"15 psf", high = "15 psf"')
    likely = study(read_text(text.encode()))
    expected = ratios(likely.sheet)
    drawn = chance(likely, 500, 1)
    assert drawn.inputs == ()
    for check in drawn.checks:
        assert check.low == check.high == pytest.approx(expected[check.key], rel=1e-12)
        assert check.drivers == ()


def test_a_study_that_shows_nothing_has_no_margins() -> None:
    """Where the take-down is not complete there is no link to follow, and that is no fault."""
    text = LONG.read_text(encoding="utf-8")
    line = next(line for line in text.splitlines() if line.startswith("ground_snow"))
    found = margins(study(read_text(text.replace(line, "").encode())))
    assert found.flips == found.corners == ()


def test_a_seed_draws_the_same_figures() -> None:
    """The same seed gives the same chances to the last digit; another seed does not."""
    likely = study(read(HOUSES / "slab_house.toml"))
    first, again, other = chance(likely, 9000, 1), chance(likely, 9000, 1), chance(likely, 9000, 2)
    assert first.checks == again.checks
    assert first.checks != other.checks


def test_draws_follow_the_triangle() -> None:
    """Quantiles of the draws are those of the triangle: its ends, its peak, and equal areas."""
    one = next(one for one in inputs(study(read(PLAIN))) if one.where == "carried[1].dead")
    share = np.array([0.0, (15 - 10) / (26 - 10), 1.0])
    assert triangular(one, share) == pytest.approx([10.0, 15.0, 26.0])
    x = triangular(one, np.linspace(0, 1, 2001))
    assert (np.diff(x) > 0).all()
    assert x.mean() == pytest.approx((10 + 15 + 26) / 3, abs=0.01)


def test_what_is_not_known_and_tips_a_link_is_asked() -> None:
    """A word that was assumed is asked for if another word brings a link over 1.00, and the study agrees."""
    survey = read_text(
        PLAIN.read_text(encoding="utf-8")
        .replace('"3-ply 2x12 Douglas Fir-Larch No.1"', '"1-3/4x16 LVL"', 1)
        .replace('low = "10 psf", high = "26 psf"', 'low = "14 psf", high = "16 psf"')
        .encode()
    )
    likely = study(survey)
    asked = {(one.where, one.instead): one for one in questions(likely)}
    question = asked["beam.top_edge", "not held"]
    assert [tipped.link for tipped in question.tipped] == ["beam"]
    loose = study(replace(survey, beam=replace(survey.beam, top_edge="not held")))
    beam = next(link for link in loose.links if link.key == "beam")
    assert beam.governing is not None
    assert question.tipped[0].after == pytest.approx(float(beam.governing.ratio))
    assert question.tipped[0].before <= 1 < question.tipped[0].after


def test_an_unknown_grade_is_asked_for() -> None:
    """A member of unknown grade is tried in the yard's better grades and in a poorer one; what tips a link is told."""
    plain = PLAIN.read_text(encoding="utf-8")
    ways = {}
    for size in ("4x4", "4x6"):
        made = study(read_text(plain.replace('"6x6 Douglas Fir-Larch No.1"', f'"{size} unknown"', 1).encode()))
        asked = [one for one in questions(made) if one.where == "post[1].member"]
        assert all(one.tipped and one.instead != f"{size} unknown" for one in asked)
        ways[size] = {one.instead for one in asked}
    assert {"4x4 unknown No.3", "4x4 Douglas Fir-Larch No.1"} <= ways["4x4"]
    assert ways["4x6"] == {"4x6 unknown No.3"}


def test_the_owners_range_stands_before_the_table() -> None:
    """A range written in the survey is kept; the table of spreads serves the rest, and what is not there has none."""
    found = {one.where: one for one in inputs(study(read(LONG)))}
    assert (found["site.ground_snow"].low, found["site.ground_snow"].high) == (40.0, 55.0)
    assert found["site.ground_snow"].spread is None
    stated = found["carried[1].span_a"]
    assert stated.spread is not None and stated.spread.text("trust") == "stated"
    assert stated.low == pytest.approx(156 * 0.97)
    assert stated.high == pytest.approx(156 * 1.03)
    assert not any(where.endswith(".member") for where in found)
    assert all(one.low <= one.likely <= one.high and one.likely for one in found.values())


def test_one_figure_changes_and_nothing_else() -> None:
    """Setting a figure elsewhere leaves every other figure and word of the survey as it is."""
    survey = read(LONG)
    changed = with_numbers(survey, {"carried[3].station": 110.0})
    assert changed.carried[2].station is not None and changed.carried[2].station.number == 110.0
    assert changed.carried[2].dead_load is survey.carried[2].dead_load
    parts = [part.name for part in dataclasses.fields(survey)]
    assert [name for name in parts if getattr(changed, name) is not getattr(survey, name)] == ["carried"]
    assert with_numbers(survey, {}) is survey


def test_ranges_reach_every_figure_of_the_survey_that_is_used() -> None:
    """Each figure that the owner gave and the study uses is moved, except sizes of members and what is zero."""
    likely = study(read(LONG))
    used = {
        value.origin.where
        for value in values(likely.sheet)
        if isinstance(value.origin, Given) and value.number != 0 and not value.origin.where.endswith(".member")
    }
    assert {one.where for one in inputs(likely)} == used


def test_crossings_are_found_where_they_are() -> None:
    """Roots of functions whose roots are known, steep and flat, found all at once."""
    roots = np.array([2 ** (1 / 3), 0.7390851332151607, np.log(5.0), 0.25, 1e-3])

    def function(which, x):
        every = (x**3 - 2, np.cos(x) - x, np.exp(x) - 5, (x - 0.25) ** 3, np.where(x < 1e-3, -1.0, 1e6 * (x - 1e-3)))
        return np.array([every[n][place] for place, n in enumerate(which)])

    low, high = np.zeros(5), np.array([2.0, 1.0, 4.0, 0.9, 1.0])
    which = np.arange(5)
    found = crossings(function, (low, high), (function(which, low), function(which, high)))
    assert found[[0, 1, 2, 4]] == pytest.approx(roots[[0, 1, 2, 4]], rel=1e-10)
    assert found[3] == pytest.approx(0.25, abs=1e-3)
