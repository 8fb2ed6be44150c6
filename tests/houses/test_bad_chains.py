"""Entries that contradict each other get one clear message with the key path, the value, and what would do."""

from pathlib import Path

import pytest

from beamcheck.errors import InputError
from beamcheck.study.chain import study
from beamcheck.survey.reader import read_text

FOLDER = Path(__file__).parent
LINE = (FOLDER / "long_line.toml").read_text(encoding="utf-8")
SLAB = (FOLDER / "slab_house.toml").read_text(encoding="utf-8")

# survey, what is written, what is put in its place, where the fault stands, what it says
BAD = {
    "a post outside the beam": (
        LINE,
        'station = { value = "9 ft 10 in", trust = "measured" }',
        'station = "31 ft"',
        "post[2].station",
        "is not between the end posts",
    ),
    "a seat longer than the post": (
        LINE,
        'seat = "stud pack"',
        'seat = "stud pack"\nseat_length = "5-1/2 in"',
        "post[1].seat_length",
        "5-1/2 in is longer than the post's side of 4-1/2 in",
    ),
    "plies broader than the notch": (
        LINE,
        'notch_depth = "5-1/4 in"',
        'notch_depth = "4 in"',
        "post[2].seated_plies",
        "3 plies are 5-1/4 in broad, and the notch is 4 in deep",
    ),
    "more plies seated than there are": (
        LINE,
        'seated_plies = "3"',
        'seated_plies = "4"',
        "post[2].seated_plies",
        "4 plies, and the beam has 3",
    ),
    "a notch through the post": (
        LINE,
        'notch_depth = "5-1/4 in"',
        'notch_depth = "7-1/4 in"',
        "post[2].notch_depth",
        "goes through the post",
    ),
    "a notch that is a cap": (LINE, 'seat = "notch"', 'seat = "cap"', "post[2].notch_depth", "goes with a notch"),
    "a plate that is not there": (
        SLAB,
        'seat = "steel plate"',
        'seat = "cap"',
        "post[2].seat_breadth",
        "goes with a steel plate",
    ),
    "a pad deeper than it is told to be": (
        LINE,
        'depth = { value = "12 in", trust = "measured" }',
        'depth = "8 in"',
        "pad[1].thickness",
        "is more than the depth of its underside, 8 in",
    ),
    "a girder with one support": (
        LINE,
        'supports = { value = "0 ft, 8 ft 2 in, 16 ft 0 in, 23 ft 6 in", trust = "measured" }',
        'supports = "0 ft"',
        "girder[1].supports",
        "a girder needs two at least",
    ),
    "a girder without supports": (
        LINE,
        'supports = { value = "0 ft, 8 ft 2 in, 16 ft 0 in, 23 ft 6 in", trust = "measured" }\n',
        "",
        "girder[1].supports",
        "is needed",
    ),
    "supports out of order": (
        LINE,
        "0 ft, 8 ft 2 in, 16 ft 0 in",
        "0 ft, 16 ft 0 in, 8 ft 2 in",
        "girder[1].supports[3]",
        "is not right of the support before it",
    ),
    "a post off the girder": (
        LINE,
        "8 ft 5 in, 18 ft 7 in",
        "8 ft 5 in, 28 ft 7 in",
        "girder[1].post_stations[2]",
        "28 ft 7 in is off the girder, whose supports run from 0 in to 23 ft 6 in",
    ),
    "a post without a station": (
        LINE,
        "8 ft 5 in, 18 ft 7 in",
        "8 ft 5 in",
        "girder[1].post_stations",
        "1 stations for 2 posts",
    ),
    "a post that is not there": (
        LINE,
        "post 2, post 3",
        "post 2, post 4",
        "girder[1].posts[2]",
        "'post 4' is not a post of this survey",
    ),
    "a post named twice": (LINE, "post 2, post 3", "post 2, post 2", "girder[1].posts[2]", "stands in"),
    "a post that stands on something else": (
        LINE,
        'stands_on = { value = "wall below", trust = "seen", note = "the cellar wall of stone has a plate on it" }',
        'stands_on = "slab"\n[[pad]]\nunder = "post 1"\nstate = "new"',
        "post[1].stands_on",
        "'slab', but pad[1].under names this post",
    ),
    "a pad under nothing": (
        LINE,
        'under = "cellar girder support 2"',
        'under = "the chimney"',
        "pad[1].under",
        "is neither a post nor a girder's support",
    ),
    "a support that is not there": (
        LINE,
        'under = "cellar girder support 2"',
        'under = "cellar girder support 5"',
        "pad[1].under",
        "cellar girder has 4 supports",
    ),
    "a pad under what has one": (
        LINE,
        'under = "cellar girder support 2"',
        'under = "cellar girder support 3"',
        "pad[2].under",
        "stands in pad[1].under too",
    ),
    "spans that miss the house width": (
        SLAB,
        'span_b = { value = "12 ft 4 in", trust = "measured" }',
        'span_b = "10 ft"',
        "carried[1].span_a",
        "both spans and the wall make 23 ft 4-1/2 in, and wall.house_width says 25 ft 9 in",
    ),
    "a splice off the beam": (
        LINE,
        'splices = "9 ft 10 in"',
        'splices = "40 ft"',
        "beam.splices[1]",
        "is off the beam",
    ),
    "a bolt for a nail": (
        LINE,
        'fastener = "30d common"',
        'fastener = "1/2 in bolt"',
        "post[3].fastener",
        "does not go with plies that are nailed",
    ),
    "a shape that is no beam": (
        LINE,
        'member = "3-ply 1-3/4x11-7/8 LVL 2.0E-2900F"',
        'member = "Pipe 3STD"',
        "beam.member",
        "is no beam that can be checked",
    ),
    "a shape that is no post": (
        LINE,
        'member = "8x8 Douglas Fir-Larch No.1"',
        'member = "W8x18 A992"',
        "post[2].member",
        "is no post that can be checked",
    ),
    "a plate of no known species": (
        LINE,
        'plate = { value = "Douglas Fir-Larch", trust = "stated" }',
        'plate = "Balsa"',
        "post[2].plate",
        "'Balsa' is not a species",
    ),
}


@pytest.mark.parametrize("case", BAD.values(), ids=BAD)
def test_a_contradiction_is_one_message_with_its_place(case: tuple[str, str, str, str, str]) -> None:
    """The fault stands at the key path, says the value and what would do; no other table is blamed."""
    text, old, new, where, what = case
    assert text.count(old) >= 1
    with pytest.raises(InputError) as caught:
        study(read_text(text.replace(old, new, 1).encode()))
    faults = {fault.where: fault for fault in caught.value.faults}
    assert {place.rpartition(".")[0] for place in faults} == {where.rpartition(".")[0]}
    assert what in faults[where].what
    assert faults[where].mend


def test_every_misplaced_post_is_told_and_with_the_other_contradictions() -> None:
    """A post off the opening does not hide one without a station, one out of order, or a house of another width."""
    first, second, third, rest = LINE.split("[[post]]")
    inner = '[[post]]\nmember = "6x6 Hem-Fir No.1"\n'
    more = f'{inner}station = "5 ft"\n{inner}{inner}station = "4 ft"\n{inner}station = "12 ft"\n'
    moved = second + "[[post]]" + third.replace("9 ft 10 in", "31 ft") + more
    text = f"{first}[[post]]{moved}[[post]]{rest}"
    with pytest.raises(InputError) as caught:
        study(read_text(text.replace("[wall]\n", '[wall]\nhouse_width = "99 ft"\n').encode()))
    faults = {fault.where: fault.what for fault in caught.value.faults}
    assert "is not between the end posts" in faults["post[2].station"]
    assert "needs a station" in faults["post[4].station"]
    assert "4 ft 0 in is not right of the post before it" in faults["post[5].station"]
    assert "post[3].station" not in faults
    assert "post[6].station" not in faults
    assert any("wall.house_width says 99 ft 0 in" in what for what in faults.values())
