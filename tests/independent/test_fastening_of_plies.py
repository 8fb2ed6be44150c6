"""Nails and bolts between the plies of a built-up post, by NDS 2018 15.3 on paper; and how layers settle."""

import pytest

from beamcheck.catalogue.reading import read_member
from beamcheck.checks.fastening import fastening, fits, needs_fastening
from beamcheck.checks.post import PostDesign, beyond
from beamcheck.checks.settlement import settlement
from beamcheck.checks.wood import Conditions
from beamcheck.trace import Check, Missing, Schedule, Value, taken


def post(plies: int, held: str, joined: str) -> PostDesign:
    """A post of 2x6 plies, 8 ft high."""
    text = "2x6 Douglas Fir-Larch No.2" if plies == 1 else f"{plies}-ply 2x6 Douglas Fir-Larch No.2"
    height = taken("h", 96.0, "a figure for a test", unit="in")
    return PostDesign("post[1]", read_member(text, "post[1]"), height, (), held, joined, None, None, Conditions())


@pytest.mark.parametrize(
    ("plies", "held", "joined", "counts"),
    [
        (1, "free", "nailed", False),
        (2, "free", "nailed", True),
        (3, "free", "bolted", True),
        (3, "in wall", "nailed", False),
        (2, "free", "not fastened", False),
    ],
)
def test_only_a_free_built_up_post_counts_on_its_fasteners(plies: int, held: str, joined: str, counts: bool) -> None:
    """Two plies and more that stand free and are joined buckle as one only by their nails or bolts (15.3.1)."""
    assert needs_fastening(post(plies, held, joined)) is counts


def test_built_up_posts_end_at_the_plies_of_the_table() -> None:
    """Two to five plies (15.3.1, from memory): six are a stop that quotes the clause."""
    assert beyond(post(5, "free", "nailed")) is None
    stop = beyond(post(6, "free", "nailed"))
    assert stop is not None
    assert "end at 5 (15.3.1)" in stop.why


@pytest.mark.parametrize(("plies", "fastener", "length"), [(2, "10d common", 3.0), (3, "30d common", 4.5)])
def test_a_nail_reaches_three_quarters_into_the_last_ply(plies: int, fastener: str, length: float) -> None:
    """Through all plies of 1-1/2 in but the last and 3/4 of that: 2-5/8 in for two, 4-1/8 in for three (15.3.3.1 b)."""
    items = fastening(post(plies, "free", "nailed"), fastener)
    (check,) = (item for item in items if isinstance(item, Check))
    assert check.demand.number == pytest.approx(1.5 * (plies - 1) + 0.75 * 1.5)
    assert check.limit.number == length


def test_nails_keep_their_distances() -> None:
    """16d nails of 0.162 in: ends 15 to 18 D, in a row 20 D to 6 plies, between rows 10 to 20 D, edges 5 to 20 D."""
    (table,) = (item for item in fastening(post(3, "free", "nailed"), "16d common") if isinstance(item, Schedule))
    found = {str(row[0]): tuple(item.number for item in row[1:] if isinstance(item, Value)) for row in table.rows}
    D = 0.162
    assert found["diameter"] == (D,)
    assert found["end distance"] == (pytest.approx(15 * D), pytest.approx(18 * D))
    assert found["spacing in a row"] == (pytest.approx(20 * D), pytest.approx(6 * 1.5))
    assert found["spacing between rows"] == (pytest.approx(10 * D), pytest.approx(20 * D))
    assert found["edge distance"] == (pytest.approx(5 * D), pytest.approx(20 * D))


def test_bolts_keep_their_distances() -> None:
    """1/2 in bolts in softwood: ends 7 to 8.4 D, in a row 4 D to 6 plies, between rows and at edges 1.5 to 10 D."""
    (table,) = (item for item in fastening(post(3, "free", "bolted"), "1/2 in bolt") if isinstance(item, Schedule))
    found = {str(row[0]): tuple(item.number for item in row[1:] if isinstance(item, Value)) for row in table.rows}
    assert found["end distance"] == (pytest.approx(7 * 0.5), pytest.approx(8.4 * 0.5))
    assert found["spacing in a row"] == (pytest.approx(4 * 0.5), pytest.approx(6 * 1.5))
    assert found["spacing between rows"] == (pytest.approx(1.5 * 0.5), pytest.approx(10 * 0.5))
    assert found["edge distance"] == (pytest.approx(1.5 * 0.5), pytest.approx(10 * 0.5))
    assert found["ply depth that needs two rows"][0] == pytest.approx(3 * 1.5)


def test_a_bolt_has_no_penetration_and_a_nameless_fastener_is_asked_for() -> None:
    """A bolt goes through; where no fastener is named there is no schedule but a question."""
    assert not [item for item in fastening(post(2, "free", "bolted"), "1/2 in bolt") if isinstance(item, Check)]
    assert [type(item) for item in fastening(post(2, "free", "nailed"), "")] == [Missing]
    assert (fits("nailed", "10d common"), fits("bolted", "10d common")) == (True, False)
    assert (fits("nailed", "1/2 in bolt"), fits("bolted", "1/2 in bolt")) == (False, True)


def pressed(stress: float, limit: float) -> Check:
    """A layer pressed across the grain."""
    f, F = (taken("f", number, "a figure for a test", unit="psi") for number in (stress, limit))
    return Check("layer", "a layer", f, F)


@pytest.mark.parametrize("gap", [None, 0.0625])
def test_layers_go_down_by_their_shares_of_four_hundredths(gap: float | None) -> None:
    """Layers at 1/2, 1/4 and 1/10 of their value go down 0.02, 0.01 and 0.004 in (NDS 2018 4.2.6): 0.034 in in all."""
    layers = [pressed(300.0, 600.0), pressed(100.0, 400.0), pressed(62.5, 625.0)]
    table, end = settlement("beam", layers, None if gap is None else taken("g", gap, "a gap", unit="in"))
    assert isinstance(table, Schedule)
    assert [item.number for row in table.rows for item in row[2:] if isinstance(item, Value)] == pytest.approx(
        [0.02, 0.01, 0.004]
    )
    total = end.demand if isinstance(end, Check) else end
    assert isinstance(total, Value)
    assert total.number == pytest.approx(0.034)
    assert isinstance(end, Check) is (gap is not None)
    assert settlement("beam", [], None) == ()
