"""What a solved line answers at its ends and edges, by the textbook."""

import pytest

from beamcheck.beam.envelope import envelope
from beamcheck.beam.model import Line, Point, Spread
from beamcheck.beam.solver import solve
from beamcheck.errors import OutOfRange

EI = 3.0e7


def test_nothing_is_cut_beyond_the_ends() -> None:
    """Just left of the left end and just right of the right end there is no shear, whatever stands there."""
    for line in (Line((0.0, 100.0)), Line((0.0, 100.0), 20.0, 30.0)):
        response = solve(
            line, [Point(line.start, 300.0), Spread(line.start, line.end, 5.0, 9.0), Point(line.end, 70.0)]
        )
        assert response.shear(line.start, "left") == response.shear(line.end, "right") == 0.0


def test_the_middle_of_a_span_lifts_by_the_textbook() -> None:
    """A force P at the tip of an overhang of length a lifts the span by P a l^2/(9 sqrt(3) E I), at l/sqrt(3)."""
    P, a, l = 400.0, 40.0, 150.0
    response = solve(Line((0.0, l), 0.0, a), [Point(l + a, P)])
    for lifted in (response.up(EI), response.up(EI, 0)):
        assert lifted.value == pytest.approx(-P * a * l**2 / (9 * 3**0.5 * EI))
        assert lifted.station == pytest.approx(l / 3**0.5)
    assert response.down(EI).value == pytest.approx(P * a**2 * (l + a) / (3 * EI))


@pytest.mark.parametrize("start", [0.0, 30.0])
def test_shear_is_greatest_where_a_load_turns(start: float) -> None:
    """Under a load that runs from up to down, 60 in of a 200 in span, V is greatest where the load is nothing."""
    run, w, l = 60.0, 24.0, 200.0
    line = Line((start, start + l))
    shear = solve(line, [Spread(start + 70, start + 130, -w, w)]).greatest_shear()
    assert shear.station == pytest.approx(start + 100)
    assert shear.value == pytest.approx(w * run / 4 - w * run**2 / 6 / l)


@pytest.mark.parametrize("mask", [(2,), (-1,), (0, 2), (0, 1, 7)])
def test_a_bay_that_there_is_not_is_refused(mask: tuple[int, ...]) -> None:
    """Bays are counted from 0: of two the last is number 1."""
    line = Line((0.0, 100.0, 200.0))
    found = envelope(line, {"L": [Spread(0.0, 200.0, 5.0, 5.0)]}, [("L", {"L": 1.0})])
    with pytest.raises(OutOfRange, match="2 bays"):
        found.response("L", mask)


@pytest.mark.parametrize("near", [0.2, 0.3, 0.45])
def test_a_span_bent_like_an_s_moves_most_where_each_half_does(near: float) -> None:
    """Forces up and down, alike about the middle: each half moves as a span, P b (L^2 - b^2)^1.5/(9 sqrt(3) L E I)."""
    P, L = 700.0, 90.0
    b = near * L
    response = solve(Line((0.0, 2 * L)), [Point(L - b, -P), Point(L + b, P)])
    most = P * b * (L**2 - b**2) ** 1.5 / (9 * 3**0.5 * L * EI)
    down, up = response.down(EI), response.up(EI)
    assert (down.value, up.value) == (pytest.approx(most), pytest.approx(-most))
    assert (down.station, up.station) == (
        pytest.approx(2 * L - ((L**2 - b**2) / 3) ** 0.5),
        pytest.approx(((L**2 - b**2) / 3) ** 0.5),
    )


@pytest.mark.parametrize("first", [(20.0, 20.0), (-30.0, 12.0), (-12.0, 30.0), (9.0, -11.0)])
@pytest.mark.parametrize("supports", [(0.0, 100.0, 200.0, 300.0), (0.0, 90.0, 250.0, 330.0, 480.0)])
def test_the_pattern_that_is_named_makes_the_deflection(
    supports: tuple[float, ...], first: tuple[float, float]
) -> None:
    """Of all patterns the one that is named for a bay's greatest deflection, down or up, gives just that."""
    line = Line(supports)
    loads = [Spread(0.0, supports[1], *first), Spread(supports[1], supports[-1], 20.0, 20.0)]
    found = envelope(line, {"L": loads}, [("L", {"L": 1.0})])
    peaks = found.under("L")
    for bay in range(len(line.bays)):
        every = {mask: found.response("L", mask).peaks(bay) for mask in peaks.masks}
        down, up = peaks.EI_down[bay], peaks.EI_up[bay]
        assert every[down.mask].EI_down.value == pytest.approx(max(one.EI_down.value for one in every.values()))
        assert every[up.mask].EI_up.value == pytest.approx(min(one.EI_up.value for one in every.values()))
        assert (down.value, up.value) == (
            pytest.approx(every[down.mask].EI_down.value),
            pytest.approx(every[up.mask].EI_up.value),
        )
