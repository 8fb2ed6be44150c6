"""What the repetitive-member factor changes is the same beam without it, and not a figure divided by 1.15."""

import sys
from pathlib import Path

import pytest

from beamcheck.catalogue.members import Kind
from beamcheck.checks.wood import plies_share
from beamcheck.standards import nds_2018 as nds
from beamcheck.study.types import Study
from beamcheck.trace import Check, Schedule, Value, items

sys.path.insert(0, str(Path(__file__).parent))

from changed_houses import studied

TEXT = """
[study]
title = "shared"
[wall]
clear_opening = "11 ft"
ceiling_height = "8 ft"
[[carried]]
name = "floor"
kind = "floor"
span_a = "12 ft"
span_b = "12 ft"
continuity = "lapped"
[beam]
member = "3-ply 2x12 Hem-Fir No.2"
position = "dropped"
plies_share = "yes"
top_edge = "not held"
[[post]]
member = "6x6 Douglas Fir-Larch No.1"
[[post]]
member = "6x6 Douglas Fir-Larch No.1"
station = "6 ft"
[[post]]
member = "6x6 Douglas Fir-Larch No.1"
"""


def made(*changes: tuple[str, str]) -> Study:
    """The study of the house with some of its text changed."""
    return studied(TEXT, *changes)


def schedule(found: Study) -> Schedule | None:
    """The table of what the factor changes, if there is one."""
    return next((item for item in items(found.sheet) if getattr(item, "key", "") == "beam.sharing"), None)  # type: ignore[return-value]


def ratios(found: Study) -> dict[str, float]:
    """Utilisations of the beam in bending, by title."""
    bent = (item for item in items(found.sheet) if isinstance(item, Check) and item.key.startswith("beam.bending"))
    return {check.title: float(check.ratio) for check in bent}


@pytest.mark.parametrize(("member", "C_r"), [("3-ply 2x12 Hem-Fir No.2", 1.15), ("4-ply 1-3/4x9-1/2 LVL", 1.04)])
def test_both_columns_are_whole_studies(member: str, C_r: float) -> None:
    """With the factor as in the study that asks for it, without as in the one that does not, C_L and all."""
    change = ("3-ply 2x12 Hem-Fir No.2", member)
    shared = made(change)
    with_it, without = ratios(shared), ratios(made(change, ('plies_share = "yes"', 'plies_share = "no"')))
    table = schedule(shared)
    assert table is not None
    told = [(cells[0], *(cell.number for cell in cells[1:3] if isinstance(cell, Value))) for cells in table.rows]
    wanted = [row for title in with_it for row in ((title, C_r, with_it[title]), (title, 1.0, without[title]))]
    assert [row[:2] for row in told] == [row[:2] for row in wanted]
    assert [row[2] for row in told] == pytest.approx([row[2] for row in wanted])
    assert len(with_it) == 2
    assert all(without[title] > ratio for title, ratio in with_it.items())


def test_two_plies_ask_for_it_in_vain() -> None:
    """Nothing changes, so there is no table; nor is there one where nobody asked."""
    assert schedule(made(("3-ply 2x12", "2-ply 2x12"))) is None
    assert schedule(made(('plies_share = "yes"', 'plies_share = "no"'))) is None


def test_a_utilisation_is_stress_over_value() -> None:
    """The law of bending members: f_b beside F_b' (NDS 2018 3.3.1)."""
    assert nds.bending_share.fn(900.0, 1200.0) == 0.75


@pytest.mark.parametrize(
    ("kind", "plies"), [(Kind.DIMENSION, 3), (Kind.COMPOSITE, 3), (Kind.TIMBER, None), (Kind.GLULAM, None)]
)
def test_three_plies_and_more_of_lumber_share(kind: Kind, plies: int | None) -> None:
    """NDS 2018 4.3.9 and 8.3.7: three or more members; a timber or a glulam has no such factor."""
    assert [n for n in range(1, 7) if plies_share(kind, n)] == list(range(plies or 7, 7))


@pytest.mark.parametrize(("member", "told"), [("3-ply 2x12 Hem-Fir No.2", 3), ("3-ply 1-3/4x14 LVL", 0)])
def test_the_lesser_crush_is_told_of_sawn_lumber_alone(member: str, told: int) -> None:
    """0.73 of F_c_perp at 0.02 in is a rule of NDS 2018 4.2.6, whose chapter is that of sawn lumber."""
    post = 'member = "6x6 Douglas Fir-Larch No.1"'
    seated = made(('"3-ply 2x12 Hem-Fir No.2"', f'"{member}"'), (post, f'{post}\nseat = "cap"'))
    found = items(seated.sheet)
    titles = [item.title for item in found if isinstance(item, Value)]
    assert sum("crushes by 0.02 in" in title for title in titles) == told
