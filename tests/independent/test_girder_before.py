"""What a girder carried before the work: what is left out of that is said, and which way the rise leans by it."""

import sys
from importlib.resources import files
from pathlib import Path

import pytest

from beamcheck.study.types import Study
from beamcheck.trace import Note, Refer, Schedule, Value, items

sys.path.insert(0, str(Path(__file__).parent))

from changed_houses import studied

DEMO = files("beamcheck.survey").joinpath("demo.toml").read_text(encoding="utf-8")
STACKS = 'stacks = { value = "yes", trust = "seen", note = "over the cellar girder" }'
GIRDER = 'use = "other rooms"\n'


def made(*changes: tuple[str, str]) -> Study:
    """The demonstration with some of its text changed."""
    return studied(DEMO, *changes)


def notes(found: Study) -> list[str]:
    """What the sheets of the girder and of the rises say of the load before the work."""
    told = [item.text for item in items(found.sheet) if isinstance(item, Note)]
    return [text for text in told if text.startswith("Before the work")]


@pytest.mark.parametrize(
    ("stacks", "says"),
    [(STACKS, "By the signs"), ('stacks = "unknown"', "Nobody knows"), ("", "Nobody knows")],
)
def test_a_wall_over_the_girder_makes_the_rise_an_upper_bound(stacks: str, says: str) -> None:
    """Left out of the load before, the wall makes the rise look greater than it is: after / before falls with it."""
    told = notes(made((STACKS, stacks)))
    assert len(told) == 2
    assert all(says in text and "upper bound" in text for text in told)


def test_a_wall_beside_the_girder_bounds_nothing() -> None:
    """Where the wall stands over no girder, nothing of it is missing before the work."""
    told = notes(made((STACKS, 'stacks = "no"')))
    assert len(told) == 2
    assert not any("upper bound" in text for text in told)


def test_the_rise_falls_with_what_the_wall_brought() -> None:
    """With 100 plf more before and after over the 14 ft 2 in of the girder, 1,417 lb, its rise falls: statics."""
    rises = []
    for found in (made(), made((GIRDER, f'{GIRDER}dead_line = "100 plf"\n'))):
        table = next(item for item in items(found.sheet) if isinstance(item, Schedule) and item.key == "rises.members")
        before, after, share = table.rows[0][1:]
        assert isinstance(before, Value) and isinstance(after, Value) and isinstance(share, Value)
        rises.append((float(before.number), float(after.number), float(share.number)))
    assert rises[1][0] - rises[0][0] == pytest.approx(100 * (14 + 2 / 12))
    assert rises[1][1] - rises[0][1] == pytest.approx(100 * (14 + 2 / 12))
    assert rises[1][2] < rises[0][2]


def test_walls_that_stay_are_asked_about_unless_they_are_told() -> None:
    """Without loads per foot nobody knows of walls that stay; told, even of nothing, they are known."""
    for line, asked in (("", True), ('dead_line = "0 plf"\n', False)):
        found = made((GIRDER, f"{GIRDER}{line}"))
        keys = {item.key for item in items(found.sheet) if isinstance(item, Refer)}
        assert ("girder[1].walls" in keys) is asked
