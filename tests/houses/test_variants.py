"""The two invented houses, changed in one place: each kind of seat, of footing and of member says what it should."""

from pathlib import Path

import pytest

from beamcheck.study.chain import study
from beamcheck.study.types import Study
from beamcheck.survey.reader import read_text
from beamcheck.trace import Check, Item, Missing, Refer, Schedule, Value, items

FOLDER = Path(__file__).parent
LINE = (FOLDER / "long_line.toml").read_text(encoding="utf-8")
SLAB = (FOLDER / "slab_house.toml").read_text(encoding="utf-8")
NOTCH = 'seat = "notch"\nnotch_depth = "5-1/4 in"\nseated_plies = "3"\n'


def made(text: str, *changes: tuple[str, str]) -> Study:
    """The study of a survey with some of its lines changed."""
    for old, new in changes:
        assert text.count(old) >= 1, old
        text = text.replace(old, new, 1)
    return study(read_text(text.encode()))


def item(found: Study, key: str) -> Item:
    """The one item of that key."""
    (only,) = [one for one in items(found.sheet) if getattr(one, "key", "") == key]
    return only


def ratio(found: Study, key: str) -> float:
    """The utilisation of a check."""
    check = item(found, key)
    assert isinstance(check, Check)
    return float(check.ratio)


def titled(found: Study, part: str) -> list[Value]:
    """Values whose title holds these words."""
    return [one for one in items(found.sheet) if isinstance(one, Value) and part in one.title]


def word(found: Study, key: str) -> str:
    """The word of a link."""
    return next(link.word for link in found.links if link.key == key)


# worked by hand in docs/explain/hand-chain.md; half of the last digit there
BY_HAND = {
    "beam.bearing[2]": (LINE, 213, 750, 0.5),
    "post[2].eccentric": (LINE, 0.141, 1.0, 0.0005),
    "post[2].column": (LINE, 154, 922, 0.5),
    "post[2].settlement": (LINE, 0.0314, 0.1875, 0.00005),
    "post[3].nail": (LINE, 4.125, 4.5, 1e-9),
    "girder[1].bearing[2]": (LINE, 210, 625, 0.5),
    "pad[1].soil": (SLAB, 1052, 2000, 0.5),
    "pad[1].flexure": (SLAB, 6497, 50000, 0.5),
    "pad[1].shear": (SLAB, 0, 8000, 0.5),
    "pad[1].punching": (SLAB, 2079, 43200, 0.5),
    "pad[1].bearing": (SLAB, 3819, 15619, 0.5),
}


@pytest.mark.parametrize("key", BY_HAND)
def test_figures_are_those_worked_by_hand(key: str) -> None:
    """Demand and limit of one check of each link are those of the hand calculation."""
    text, demand, limit, half = BY_HAND[key]
    check = item(made(text), key)
    assert isinstance(check, Check)
    assert check.demand.number == pytest.approx(demand, abs=half)
    assert check.limit.number == pytest.approx(limit, abs=half)


def test_the_pad_under_the_pier_by_hand() -> None:
    """13,453 lb, 300 lb of pier (2 cubic feet of concrete) and 937.5 lb of pad on 6.25 square feet are 2,350 psf."""
    check = item(made(LINE), "pad[1].soil")
    assert isinstance(check, Check)
    assert check.demand.number == pytest.approx(2350.5, abs=0.5)


def test_a_ply_that_hangs_beside_the_seat_bears_nothing() -> None:
    """Two plies of three in the notch: half as much again on the seat, the seat farther off centre, and a question."""
    whole = made(LINE)
    two = made(LINE, (NOTCH, NOTCH.replace('"3"', '"2"')))
    assert ratio(two, "beam.bearing[2]") == pytest.approx(1.5 * ratio(whole, "beam.bearing[2]"))
    assert ratio(two, "post[2].seat_end_grain") == pytest.approx(1.5 * ratio(whole, "post[2].seat_end_grain"))
    assert ratio(two, "post[2].eccentric") > ratio(whole, "post[2].eccentric")
    assert isinstance(item(two, "post[2].hanging"), Refer)


def test_a_load_beyond_the_kern_is_asked_about() -> None:
    """A notch that leaves more than a third of the post beside the beam puts the load beyond the kern."""
    assert "post[2].kern" not in {getattr(one, "key", "") for one in items(made(LINE).sheet)}
    deep = NOTCH.replace("5-1/4", "4-3/4").replace('"3"', '"2"')
    assert isinstance(item(made(LINE, (NOTCH, deep)), "post[2].kern"), Refer)


def test_a_thin_tongue_is_asked_about() -> None:
    """A tongue of 1-1/4 in is thinner than the inch and a half that bolts want."""
    thin = made(LINE, (NOTCH, NOTCH.replace("5-1/4", "6")))
    assert isinstance(item(thin, "post[2].tongue"), Refer)


def test_a_splice_inside_a_span_leaves_the_beam_not_shown() -> None:
    """A splice away from the posts is not a figure to be checked: the beam is not shown."""
    spliced = made(LINE, ('splices = "9 ft 10 in"', 'splices = "9 ft 10 in, 15 ft"'))
    assert word(made(LINE), "beam") == "within"
    assert word(spliced, "beam") == "not shown"
    assert isinstance(item(spliced, "beam.splices[2]"), Missing)
    assert isinstance(item(spliced, "beam.splices[1]"), Refer)


FLUSH = ('position = "dropped"', 'position = "flush"')
LAPPED = 'continuity = { value = "lapped", trust = "seen", note = "all laps seen from the attic" }'


def test_a_flush_beam_hangs_its_joists() -> None:
    """Half of (8 + 20) psf over 16 in and 13 ft 1 in is 244 lb on a hanger of side A."""
    found = made(SLAB, FLUSH, (LAPPED, f'{LAPPED}\nspacing = "16 in"'))
    side_a, side_b = titled(found, "on its hanger")
    assert side_a.number == pytest.approx(28 * 16 / 12 * (13 + 1 / 12) / 2)
    assert side_b.number == pytest.approx(28 * 16 / 12 * (12 + 4 / 12) / 2)


def test_hangers_without_a_spacing_are_not_shown() -> None:
    """Nobody knows what a hanger carries while nobody knows how far apart the joists are."""
    found = made(SLAB, FLUSH)
    assert isinstance(item(found, "flush.carried[1].hanger"), Missing)
    assert word(found, "flush") == "not shown"


def test_cut_joists_sag_more_and_lapped_ones_do_not() -> None:
    """Joists in one piece over nearly equal spans sag about 2.4 times as far once cut; lapped ones as before."""
    found = made(SLAB, FLUSH, (LAPPED, 'continuity = "one piece"\nspacing = "16 in"'))
    (factor,) = titled(found, "times as far down")
    assert 2.0 < factor.number < 2.5
    assert not titled(made(SLAB, FLUSH, (LAPPED, f'{LAPPED}\nspacing = "16 in"')), "times as far down")


def test_cut_ties_pull_on_their_straps() -> None:
    """15 psf of roof and 19.3 psf of snow over 25 ft at 5:12: the pull follows from moments about the ridge."""
    ties = '[ties]\nspan = "25 ft"\npitch = "5:12"\nspacing = "16 in"\ndead = "15 psf"\n\n[[pad]]'
    (pull,) = titled(made(SLAB, FLUSH, ("[[pad]]", ties)), "pull across the beam")
    inputs = dict(pull.inputs)
    q = inputs["q"].number + inputs["q_t"].number
    half, height = q * 16 / 12 * 12.5, 12.5 * 5 / 12
    assert inputs["q"].number == pytest.approx(15 * (1 + (5 / 12) ** 2) ** 0.5)
    assert pull.number == pytest.approx(half * 12.5 / 2 / height)


def test_a_dropped_beam_cuts_no_joist() -> None:
    """Under a dropped beam there is no sheet about cut joists."""
    assert "flush" not in {link.key for link in made(SLAB).links}


def test_a_steel_beam_goes_through_the_same_chain() -> None:
    """A W shape is checked as steel, its webs over the posts, and wood below it as wood."""
    found = made(SLAB, ("2-ply 1-3/4x11-7/8 LVL 2.0E-2900F", "W8x18 A992"))
    assert ratio(found, "beam.web_yielding[1]") < 1
    assert ratio(found, "beam.web_crippling[2]") < 1
    assert ratio(found, "post[1].seat_end_grain") > 0
    moved = item(found, "beam.movement")
    assert isinstance(moved, Schedule)
    assert not any("years" in str(cell) for row in moved.rows for cell in row)


def test_a_steel_post_without_plates_is_not_shown() -> None:
    """A pipe under a wood beam needs a plate at both ends: without their sizes seat and foot are not shown."""
    found = made(
        SLAB,
        ('seat = "steel plate"\nseat_length = "5 in"\nseat_breadth = "5 in"\nseat_thickness = "1/2 in"\n', ""),
        ('gap = "1/8 in"\nplate = "none"\nbase_length = "6 in"\nbase_breadth = "6 in"\n', 'plate = "Hem-Fir"\n'),
    )
    assert word(found, "post[2].seat") == word(found, "post[2].foot") == "not shown"
    assert word(found, "post[2]") == "within"


def test_a_new_pad_without_sides_takes_what_the_soil_bears() -> None:
    """The side that is found, with the weight of the thickness that goes with it, uses the soil up and no more."""
    found = made(SLAB)
    (side,), (thickness,) = titled(found, "side of a square pad"), titled(found, "thickness that the pad needs")
    (P,) = [load for load in titled(found, "greatest load on the pad") if load.number < 2500]
    feet = side.to("ft")
    assert (P.number + 150 * feet**2 * thickness.to("in") / 12) / feet**2 == pytest.approx(2000)


STAND = (
    'plate = "none"\nstands_on = "pad"\nnote = "On a standoff',
    'plate = "none"\nstands_on = "{}"\nnote = "On a standoff',
)
PAD = SLAB[SLAB.index("[[pad]]") : SLAB.index("[[pad]]", SLAB.index("[[pad]]") + 1)]


@pytest.mark.parametrize(
    ("what", "said"),
    [
        ("slab", "refer"),
        ("post-tensioned slab", "refer"),
        ("masonry", "refer"),
        ("pier", "not shown"),
        ("pad", "not shown"),
        ("girder", "not shown"),
        ("wall below", "not shown"),
        ("joists", "not shown"),
        ("unknown", "not shown"),
    ],
)
def test_nothing_below_is_counted_on_that_nobody_has_shown(what: str, said: str) -> None:
    """A slab or masonry ends in a question; what could be measured and was not, and missing blocking, is not shown."""
    found = made(SLAB, (STAND[0], STAND[1].format(what)), (PAD, ""))
    assert word(found, "post[1].below") == said
    assert not [one for one in items(found.sheet) if isinstance(one, Check) and one.key.startswith("post[1].below")]


def test_blocking_shown_leaves_the_question() -> None:
    """With full blocking a post on joists ends in a question, not in a gap."""
    found = made(
        SLAB, (STAND[0], STAND[1].format("joists").replace("stands_on", 'blocking = "full area"\nstands_on')), (PAD, "")
    )
    assert word(found, "post[1].below") == "refer"
    (area,) = titled(found, "area that the blocking")
    assert area.number == pytest.approx(12.25)


def test_a_rise_of_a_twentieth_is_let_go() -> None:
    """Supports whose load rises by no more than 5 % are listed and not asked about; those above are named."""
    found = made(LINE)
    stop = item(found, "rises.asked")
    assert isinstance(stop, Refer)
    assert "cellar girder support 1" not in stop.why
    assert "cellar girder support 2" in stop.why
    table = item(found, "rises.members")
    assert isinstance(table, Schedule)
    shares = {row[0]: row[3] for row in table.rows}
    assert isinstance(shares["cellar girder support 1"], Value)
    assert shares["cellar girder support 1"].number < 0.05


def test_a_post_beside_the_pier_is_asked_about() -> None:
    """Beyond half the girder's depth from a pier the question comes, within it none."""
    asked = {one.key for one in items(made(LINE).sheet) if isinstance(one, Refer)}
    assert "post[3].offset" in asked
    assert "post[2].offset" not in asked
