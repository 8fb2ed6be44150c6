"""Laws that hold for every beam line, tried on lines and loads that nobody picked."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.beam.model import Line, Point, Spread
from beamcheck.beam.solver import solve

LAWS = settings(max_examples=60, deadline=None, derandomize=True)
EI = 1.6e6 * 650.0

spans = st.lists(st.integers(480, 3840).map(lambda sixteenths: sixteenths / 16.0), min_size=1, max_size=6)
overhangs = st.one_of(st.just(0.0), st.integers(64, 800).map(lambda sixteenths: sixteenths / 16.0))
shares = st.integers(0, 1000).map(lambda share: share / 1000.0)
sizes = st.floats(-100.0, 200.0).map(lambda size: round(size, 3))


@st.composite
def lines(draw):
    """A beam line of one to six spans with or without overhangs."""
    supports = [0.0]
    for span in draw(spans):
        supports.append(supports[-1] + span)
    return Line(tuple(supports), draw(overhangs), draw(overhangs))


@st.composite
def loaded(draw):
    """A line with loads of every kind, up and down, anywhere on it; something always presses down."""
    line = draw(lines())
    return line, [Spread(line.start, line.end, 10.0, 10.0), *draw(st.lists(loads(line), min_size=1, max_size=4))]


def at(line, share):
    """The station at a share of the beam's length."""
    return min(line.start + share * (line.end - line.start), line.end)


@st.composite
def loads(draw, line):
    """A force or a line load, up or down, anywhere on the line."""
    if draw(st.booleans()):
        return Point(at(line, draw(shares)), 10.0 * draw(sizes))
    start, end = sorted((draw(shares), draw(shares)))
    if start == end:
        start, end = 0.0, 1.0
    return Spread(at(line, start), at(line, end), draw(sizes), draw(sizes))


def stations(line):
    """Sections spread over the line."""
    return [at(line, k / 37.0) for k in range(1, 37)]


def scale(values):
    """The greatest size among figures, or one."""
    return max(map(abs, values), default=0.0) or 1.0


def same(left, right):
    """Two lists of figures agree to 1e-9 of the greatest."""
    return left == pytest.approx(right, rel=1e-9, abs=1e-9 * scale([*left, *right]))


@LAWS
@given(loaded())
def test_loads_and_reactions_balance(case):
    """Reactions hold exactly what presses: no force and no moment is left, but rounding."""
    residual = solve(*case).residual
    assert abs(residual.force) < 1e-13
    assert abs(residual.moment) < 1e-12


@LAWS
@given(loaded())
def test_supports_do_not_sink(case):
    """No support moves, and no end of the beam carries a moment."""
    response = solve(*case)
    line = case[0]
    sunk = scale([response.peaks().EI_down.value, response.peaks().EI_up.value])
    bent = scale([response.peaks().sagging.value, response.peaks().hogging.value])
    assert all(abs(response.deflection(s, 1.0)) <= 1e-9 * sunk for s in line.supports)
    assert abs(response.moment(line.start)) <= 1e-9 * bent
    assert abs(response.moment(line.end)) <= 1e-9 * bent


@LAWS
@given(loaded())
def test_pieces_join(case):
    """Each piece ends where the next begins: same moment, slope and deflection; and the last ends free of moment."""
    line, put = case
    response = solve(line, put)
    pieces = response.pieces
    ends = [bare[8:] for bare in response.curve.pieces]
    peaks = response.peaks()
    bent = scale([*[p.M for p in pieces], peaks.sagging.value, peaks.hogging.value])
    sunk = scale([*[p.EI_y for p in pieces], peaks.EI_down.value, peaks.EI_up.value])
    turned = scale([*[p.EI_theta for p in pieces], ends[-1][2]])
    assert ends[-1][1] == 0.0
    for left, right in pairwise(response.curve.pieces):
        assert left[9:] == right[2:5]
    for p, (V_end, M_end, T_end, Y_end) in zip(pieces, ends, strict=True):
        h = p.end - p.start
        V = p.V - h * (p.q0 + h * p.slope / 2)
        M = p.M + h * (p.V - h * (p.q0 / 2 + h * p.slope / 6))
        T = p.EI_theta - h * (p.M + h * (p.V / 2 - h * (p.q0 / 6 + h * p.slope / 24)))
        Y = p.EI_y + h * (p.EI_theta - h * (p.M / 2 + h * (p.V / 6 - h * (p.q0 / 24 + h * p.slope / 120))))
        assert pytest.approx(V_end, abs=1e-9 * scale([p.V for p in pieces])) == V
        assert pytest.approx(M_end, abs=1e-9 * bent) == M
        assert pytest.approx(T_end, abs=1e-9 * turned) == T
        assert pytest.approx(Y_end, abs=1e-9 * sunk) == Y


@LAWS
@given(loaded())
def test_mirror_image(case):
    """A beam seen from behind has the same moments and deflections, and shears of the other sign."""
    line, put = case
    mirrored = Line(tuple(-s for s in reversed(line.supports)), line.right_overhang, line.left_overhang)
    turned = [
        Point(-load.station, load.force)
        if isinstance(load, Point)
        else Spread(-load.end, -load.start, load.last, load.first)
        for load in put
    ]
    front, back = solve(line, put), solve(mirrored, turned)
    assert same(list(front.reactions), list(reversed(back.reactions)))
    assert same([front.moment(x) for x in stations(line)], [back.moment(-x) for x in stations(line)])
    assert same([front.shear(x, "left") for x in stations(line)], [-back.shear(-x, "right") for x in stations(line)])
    assert same([front.deflection(x, EI) for x in stations(line)], [back.deflection(-x, EI) for x in stations(line)])


@LAWS
@given(loaded())
def test_loads_add_up(case):
    """The response to all the loads is the sum of the responses to each."""
    line, put = case
    whole, parts = solve(line, put), [solve(line, [load]) for load in put]
    for ask in (
        lambda response, x: response.moment(x),
        lambda response, x: response.shear(x, "right"),
        lambda response, x: response.deflection(x, EI),
    ):
        assert same(
            [ask(whole, x) for x in stations(line)], [sum(ask(part, x) for part in parts) for x in stations(line)]
        )


@LAWS
@given(loaded(), st.floats(0.01, 100.0))
def test_response_grows_with_load_and_yields_with_stiffness(case, factor):
    """Twice the load gives twice the moments; twice the EI halves the deflection and moves no moment."""
    line, put = case
    more = [
        Point(load.station, factor * load.force)
        if isinstance(load, Point)
        else Spread(load.start, load.end, factor * load.first, factor * load.last)
        for load in put
    ]
    one, many = solve(line, put), solve(line, more)
    assert same([factor * one.moment(x) for x in stations(line)], [many.moment(x) for x in stations(line)])
    peak = one.down(EI).value
    assert many.down(factor * EI).value == pytest.approx(peak, rel=1e-9, abs=1e-15)


@LAWS
@given(loaded(), shares)
def test_cutting_a_load_changes_nothing(case, share):
    """A line load may be given as two pieces that meet anywhere."""
    line, put = case
    cut = []
    for load in put:
        if isinstance(load, Point):
            cut.append(load)
            continue
        middle = load.start + share * (load.end - load.start)
        if not load.start < middle < load.end:
            cut.append(load)
            continue
        there = load.first + share * (load.last - load.first)
        cut += [Spread(load.start, middle, load.first, there), Spread(middle, load.end, there, load.last)]
    whole, pieces = solve(line, put), solve(line, cut)
    assert same([whole.moment(x) for x in stations(line)], [pieces.moment(x) for x in stations(line)])
    assert whole.peaks().EI_down.value == pytest.approx(pieces.peaks().EI_down.value, rel=1e-9, abs=1e-6)


@LAWS
@given(lines(), shares, shares)
def test_deflections_are_reciprocal(line, one, other):
    """A force at A sinks B as much as the same force at B sinks A (Maxwell)."""
    a, b = at(line, one), at(line, other)
    there = solve(line, [Point(a, 1000.0)]).deflection(b, 1.0)
    back = solve(line, [Point(b, 1000.0)]).deflection(a, 1.0)
    largest = max(solve(line, [Point(x, 1000.0)]).deflection(x, 1.0) for x in (a, b))
    assert there == pytest.approx(back, rel=1e-9, abs=1e-12 * largest + 1e-12)


@LAWS
@given(loaded(), shares)
def test_a_load_of_no_size_changes_nothing(case, share):
    """An empty load only adds a station to stop at."""
    line, put = case
    x = at(line, share)
    empty = [Point(x, 0.0)] if not line.start < x < line.end else [Point(x, 0.0), Spread(line.start, x, 0.0, 0.0)]
    plain, more = solve(line, put).peaks(), solve(line, [*put, *empty]).peaks()
    assert same([peak.value for peak in plain[:2]], [peak.value for peak in more[:2]])
    assert same([plain.EI_down.value, plain.EI_up.value], [more.EI_down.value, more.EI_up.value])


@LAWS
@given(loaded())
def test_sections_between_peaks_never_exceed_them(case):
    """No section has more moment, shear or deflection than the peak says."""
    line, put = case
    response = solve(line, put)
    peaks = response.peaks()
    bent, sunk = scale([peaks.sagging.value, peaks.hogging.value]), scale([peaks.EI_down.value, peaks.EI_up.value])
    for x in stations(line):
        assert peaks.hogging.value - 1e-12 * bent <= response.moment(x) <= peaks.sagging.value + 1e-12 * bent
        assert abs(response.shear(x, "left")) <= abs(peaks.shear.value) * (1.0 + 1e-12)
        assert peaks.EI_up.value - 1e-12 * sunk <= response.deflection(x, 1.0) <= peaks.EI_down.value + 1e-12 * sunk


@LAWS
@given(loaded())
def test_peaks_stand_where_they_say(case):
    """Asked at the station of a peak, the response gives the peak."""
    line, put = case
    response = solve(line, put)
    peaks = response.peaks()
    bent, sunk = scale([peaks.sagging.value, peaks.hogging.value]), scale([peaks.EI_down.value, peaks.EI_up.value])
    for peak in (peaks.sagging, peaks.hogging):
        assert response.moment(peak.station) == pytest.approx(peak.value, rel=1e-11, abs=1e-11 * bent)
    for peak in (peaks.EI_down, peaks.EI_up):
        assert response.deflection(peak.station, 1.0) == pytest.approx(peak.value, rel=1e-11, abs=1e-11 * sunk)
    faces = [response.shear(peaks.shear.station, side) for side in ("left", "right")]
    assert min(abs(face - peaks.shear.value) for face in faces) <= 1e-11 * abs(peaks.shear.value)


@LAWS
@given(loaded())
def test_whole_line_is_the_worst_of_its_bays(case):
    """The peaks of the line are those of one of its bays."""
    line, put = case
    response = solve(line, put)
    bays = [response.peaks(bay) for bay in range(len(line.bays))]
    whole = response.peaks()
    assert whole.sagging.value == max(bay.sagging.value for bay in bays)
    assert whole.hogging.value == min(bay.hogging.value for bay in bays)
    assert abs(whole.shear.value) == max(abs(bay.shear.value) for bay in bays)
    assert whole.EI_down.value == max(bay.EI_down.value for bay in bays)
    assert whole.EI_up.value == min(bay.EI_up.value for bay in bays)


@LAWS
@given(loaded())
def test_moment_is_zero_only_where_it_is_said_to_be(case):
    """Between neighbouring points of zero moment the moment keeps its sign."""
    line, put = case
    response = solve(line, put)
    zeros = response.zero_moments()
    bent = scale([response.peaks().sagging.value, response.peaks().hogging.value])
    assert zeros[0] == line.start
    assert zeros[-1] == line.end
    for left, right in pairwise(zeros):
        inside = [response.moment(left + share * (right - left)) for share in (0.05, 0.3, 0.5, 0.7, 0.95)]
        assert min(inside) > -1e-8 * bent or max(inside) < 1e-8 * bent
