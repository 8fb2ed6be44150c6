"""Peaks of the deflection that are hard to find: almost flat about it, or just where the moment turns."""

import numpy as np
import pytest

from beamcheck.beam.envelope import Combination, envelope
from beamcheck.beam.many import Pieces
from beamcheck.beam.many import deflection_peaks as peaks_of_many
from beamcheck.beam.model import Line, Spread
from beamcheck.beam.moved import Spreads, moved
from beamcheck.beam.peaks import deflection_peaks
from beamcheck.beam.samples import sampled
from beamcheck.beam.solver import solve
from beamcheck.beam.sweep import sweep


@pytest.mark.parametrize("k", [1.0, -2.5])
@pytest.mark.parametrize("s", [0.31, 12.7, 71.0])
@pytest.mark.parametrize("share", [1e-3, 1e-4, 1e-6, 0.0])
def test_a_deflection_that_is_almost_flat_about_its_peak_is_found(s: float, k: float, share: float) -> None:
    """EI theta of k ((s - x)^3 + e (s - x)) makes Newton's steps creep, and the peak at s is k (s^4/4 + e s^2/2)."""
    h, e = 2.3 * s, share * s**2
    M, T, Y = (
        [k * (3 * (s - x) ** 2 + e) for x in (0.0, h)],
        [k * ((s - x) ** 3 + e * (s - x)) for x in (0.0, h)],
        [k * ((s**4 - (s - x) ** 4) / 4 + e * (s**2 - (s - x) ** 2) / 2) for x in (0.0, h)],
    )
    V = [-6 * k * (s - x) for x in (0.0, h)]
    peak = k * (s**4 / 4 + e * s**2 / 2)
    columns = ([h], [-6 * k], [0.0], V[:1], V[1:], M[:1], M[1:], T[:1], T[1:], Y[:1], Y[1:])
    down, up = peaks_of_many(Pieces(*[np.array([column]) for column in columns]))
    assert list(down if k > 0 else up) == pytest.approx([peak], rel=1e-12)
    alone = (0.0, h, M[0], T[0], Y[0], -6 * k, 0.0, V[0], V[1], M[1], T[1], Y[1])
    (most, at), (least, low) = deflection_peaks([alone])
    assert (most if k > 0 else least) == pytest.approx(peak, rel=1e-12)
    assert (at if k > 0 else low) == pytest.approx(s, rel=1e-4)


@pytest.mark.parametrize("outer", [60.0, 96.0, 150.0])
@pytest.mark.parametrize("inner", [24.0, 40.0, 64.0, 100.0])
@pytest.mark.parametrize("w", [20.0, 33.5, 50.0])
def test_the_middle_of_a_symmetric_line_lifts_in_every_road(outer: float, inner: float, w: float) -> None:
    """Of three spans, the outer ones loaded, the middle one lifts by (M l^2/8 - 5 q l^4/384)/EI, M at both ends."""
    posts = (0.0, outer, outer + inner, 2 * outer + inner)
    line, q = Line(posts), 5.0
    loads = [Spread(0.0, posts[-1], q, q), Spread(0.0, posts[1], w, w), Spread(posts[2], posts[-1], w, w)]
    M = ((q + w) * outer**3 + q * inner**3) / (4 * (2 * outer + 3 * inner))
    lifted = min(0.0, 5 * q * inner**4 / 384 - M * inner**2 / 8)
    by_type = {"D": loads[:1], "L": loads[1:]}
    found = envelope(line, by_type, [Combination("D + L", {"D": 1.0, "L": 1.0})])
    roads = (
        solve(line, loads).peaks(1).EI_up.value,
        sampled(line, loads, np.ones((1, 3))).EI_up[1, 0],
        moved([np.array([post]) for post in posts], [Spreads(*load) for load in loads]).EI_up[1, 0],
        found.peaks[0].EI_up[1].value,
        sweep(found, np.array([0.0]), np.array([1.0])).up[0, 1, 0],
    )
    if q * inner**2 / 8 < M:  # it hogs all along
        assert list(roads) == pytest.approx([lifted] * 5, rel=1e-9)
    assert list(roads) == pytest.approx([roads[0]] * 5, rel=1e-9, abs=1e-6)
