"""Shrinkage by drying: by the green dimension, by another equation for lumber, and where a study tells of it."""

import pytest

from beamcheck import tables
from beamcheck.beam.model import Line
from beamcheck.catalogue.reading import read_member
from beamcheck.checks.beam import BeamDesign, Seat
from beamcheck.checks.lines import load_line
from beamcheck.checks.wood import Bracing, Conditions
from beamcheck.standards import wood_handbook_2010 as handbook
from beamcheck.study.yardsticks import yardsticks
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import EDITIONS, Source
from beamcheck.trace import Note, Schedule, Value, taken

GREEN = 11.5
DRYINGS = [(0.30, 0.08, 0.092), (0.19, 0.08, 0.092), (0.19, 0.12, 0.049), (0.25, 0.06, 0.113)]


def of_green(M: float, S_T: float) -> float:
    """A dimension at a moisture, by the shrinkage from green: in proportion to what is below 30 %."""
    return GREEN * (1 - S_T * (0.30 - M) / 0.30)


@pytest.mark.parametrize(("M_I", "M_F", "S_T"), DRYINGS)
def test_loss_is_the_difference_of_two_dimensions_by_the_green_one(M_I: float, M_F: float, S_T: float) -> None:
    """What is lost between two moistures is the difference of both dimensions reckoned from green (Table 4-3)."""
    wanted = of_green(M_I, S_T) - of_green(M_F, S_T)
    assert handbook.shrinkage.fn(of_green(M_I, S_T), M_I, M_F, 0.30, S_T) == pytest.approx(wanted)


@pytest.mark.parametrize(("M_I", "M_F", "S_T"), DRYINGS)
def test_drying_by_stages_loses_as_much(M_I: float, M_F: float, S_T: float) -> None:
    """Dried to halfway and then on, a piece loses what it loses at once."""
    half = (M_I + M_F) / 2
    first = handbook.shrinkage.fn(GREEN, M_I, half, 0.30, S_T)
    then = handbook.shrinkage.fn(GREEN - first, half, M_F, 0.30, S_T)
    assert first + then == pytest.approx(handbook.shrinkage.fn(GREEN, M_I, M_F, 0.30, S_T))


@pytest.mark.parametrize("row", tables.load("wood_handbook_2010/shrinkage").rows, ids=lambda row: row.label)
def test_estimate_lies_about_that_of_the_lumber_standard(row: tables.Row) -> None:
    """A softwood loses along the rings four fifths to one and a half of what lumber loses in width, both ways mixed.

    Lumber from 19 % to 8 %: 2.4 % by S = 6.031 - 0.215 M (Green, FPL-RP-489, Moisture content and shrinkage).
    """
    by_lumber = 0.215 * (19 - 8) / (100 - (6.031 - 0.215 * 19))
    lost = handbook.shrinkage.fn(1.0, 0.19, 0.08, 0.30, row.number("S_T") / 100)
    if row.text("species") in ("Redwood", "Red Oak"):  # the standard leaves these out: one shrinks less, one more
        assert not 0.8 * by_lumber < lost < 1.5 * by_lumber
    else:
        assert 0.8 * by_lumber < lost < 1.5 * by_lumber


def test_each_sawn_species_shrinks_and_none_more_than_the_unknown_softwood() -> None:
    """A species that has design values has a shrinkage; lumber without a stamp takes the greatest of the softwoods."""
    rows = tables.load("wood_handbook_2010/shrinkage").rows
    shrinks = {row.text("species"): row.number("S_T") for row in rows}
    assert len(shrinks) == len(rows), "a species has one row: its key holds the wood only to show it"
    for name in ("sawn_4a", "sawn_4b", "timber_4d"):
        assert set(tables.column(f"nds_2018/{name}", "species")) <= shrinks.keys()
    assert shrinks.pop("unknown") == max(figure for species, figure in shrinks.items() if species != "Red Oak")


def told(text: str, moisture: str = "dry") -> tuple[list[Value], list[str]]:
    """What is told of a beam's drying on two spans of 10 ft: the figures of the rows, and the notes."""
    span = taken("l", 120.0, "a span for a test", unit="in")
    loads = (Source("a", "a", "D", w=taken("w", 10.0, "a load for a test", unit="lb/in")),)
    loaded = load_line(Line((0.0, 120.0, 240.0)), (span, span), loads, combinations(EDITIONS["ASCE 7-16"], {"D"}))
    member = read_member(text, "beam.member")
    seats = (Seat(None, None),) * 3
    held = Bracing(None)
    design = BeamDesign(member, loaded, seats, held, held, "dropped", Conditions(moisture, "no"), ())
    table, *notes = yardsticks(design)
    assert isinstance(table, Schedule)
    figures = [cell for row in table.rows if "shrinks" in str(row[1]) for cell in row if isinstance(cell, Value)]
    return figures, [note.text for note in notes if isinstance(note, Note)]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        # by hand, from the green depth: 11.25 (9.2/30 x 11)/(100 - 9.2/30 x 11) and so on
        ("3-ply 2x12 Hem-Fir No.2", 11.25 * (9.2 * 11 / 30) / (100 - 9.2 * 11 / 30)),
        ("2x10 Southern Pine No.2", 9.25 * (7.7 * 11 / 30) / (100 - 7.7 * 11 / 30)),
        ("2x10 unknown", 9.25 * (9.2 * 11 / 30) / (100 - 9.2 * 11 / 30)),
        ("6x10 Douglas Fir-Larch No.1", 9.25 * 0.091 * 22 / 30),
    ],
)
def test_a_sawn_beam_tells_what_its_depth_loses_in_each_bay(text: str, wanted: float) -> None:
    """Dimension lumber dries from 19 %, a timber from green; the row stands for every bay, what it leans on once."""
    figures, notes = told(text)
    assert [figure.number for figure in figures] == pytest.approx([wanted, wanted])
    assert len(notes) == 1
    assert "What would change it" in notes[0]


@pytest.mark.parametrize(
    ("text", "moisture"),
    [("2-ply 1-3/4x14 LVL", "dry"), ("W8x18 A992", "dry"), ("2x10 Hem-Fir No.2", "wet")],
    ids=["glued", "steel", "wet in use"],
)
def test_what_does_not_dry_tells_nothing(text: str, moisture: str) -> None:
    """Glued members are made dry, steel has nothing to lose, and a beam that is wet in use stays wet."""
    assert told(text, moisture) == ([], [])
