"""The beam solver against an exact rational reference that takes another road: singularity functions, one system.

The reference holds every figure as a fraction of whole numbers; its peaks come from bracketed roots of polynomials.
"""

from __future__ import annotations

import random
from fractions import Fraction
from itertools import pairwise

import pytest

from beamcheck.beam.model import Line, Point, Settlement, Spread
from beamcheck.beam.solver import solve

Polynomial = list[Fraction]  # coefficients from the constant up, in x from the start of the piece


def exact_reactions(line, loads):
    """Reactions, and EI y = c0 + c1 x + ...: supports hold their level, forces and moments are in balance."""
    supports = [Fraction(s) for s in line.supports]
    count = len(supports)
    drops = [Fraction(0)] * count
    terms = []
    for load in loads:
        if isinstance(load, Settlement):
            drops[load.support] += Fraction(load.EI_drop)
        else:
            terms += singular(load)
    rows = []
    for k, s in enumerate(supports):
        row = [-power(s - other, 3) / 6 for other in supports] + [Fraction(1), s]
        rows.append([*row, drops[k] - sum(f * power(s - a, n + 4) / factorial(n + 4) for a, f, n in terms)])
    far = Fraction(line.end) + 1
    for n in (0, 1):
        balance = [power(far - s, n) for s in supports] + [Fraction(0), Fraction(0)]
        rows.append([*balance, sum(f * power(far - a, m + n + 1) / factorial(m + n + 1) for a, f, m in terms)])
    solved = eliminate(rows)
    return solved[:count], solved[count], solved[count + 1], terms


def singular(load):
    """A load as terms (station, size, order): order -1 a force, 0 a step of line load, 1 a step of its slope."""
    if isinstance(load, Point):
        return [(Fraction(load.station), Fraction(load.force), -1)]
    start, end, first, last = map(Fraction, load)
    slope = (last - first) / (end - start)
    return [(start, first, 0), (start, slope, 1), (end, -last, 0), (end, -slope, 1)]


def power(x, n):
    """<x>^n: zero left of the origin."""
    return x**n if x > 0 or (x == 0 and n > 0) else Fraction(0)


def factorial(n):
    """N! as a fraction."""
    return Fraction(1 if n < 2 else n * factorial(n - 1))


def eliminate(rows):
    """Solve a square system, its right side in the last column (Gauss-Jordan)."""
    n = len(rows)
    for i in range(n):
        pivot = next(r for r in range(i, n) if rows[r][i])
        rows[i], rows[pivot] = rows[pivot], rows[i]
        rows[i] = [value / rows[i][i] for value in rows[i]]
        for r in range(n):
            if r != i and rows[r][i]:
                factor = rows[r][i]
                rows[r] = [a - factor * b for a, b in zip(rows[r], rows[i], strict=True)]
    return [row[-1] for row in rows]


def exact_pieces(line, loads):
    """For each piece: its ends, and V, M, EI theta, EI y as polynomials."""
    reactions, c0, c1, terms = exact_reactions(line, loads)
    terms = [*terms, *[(Fraction(s), -R, -1) for s, R in zip(line.supports, reactions, strict=True)]]
    stations = sorted({Fraction(line.start), Fraction(line.end), *[a for a, _, _ in terms]})
    pieces = []
    for left, right in pairwise(stations):
        live = [(left - a, f, n) for a, f, n in terms if a <= left]
        V = [-c for c in shifted(live, 1, 4)]
        M = [-c for c in shifted(live, 2, 5)]
        T = added(shifted(live, 3, 6), [c1])
        Y = added(shifted(live, 4, 7), [c0 + c1 * left, c1])
        pieces.append((left, right, V, M, T, Y))
    return reactions, pieces


def shifted(live, raised, length):
    """The sum of f (x + d)^(n + raised) / (n + raised)! as a polynomial in x."""
    out = [Fraction(0)] * length
    for d, f, n in live:
        p = n + raised
        for k in range(p + 1):
            out[k] += f * d ** (p - k) / (factorial(k) * factorial(p - k))
    return out


def added(a, b):
    """The sum of two polynomials."""
    size = max(len(a), len(b))
    return [(a[k] if k < len(a) else 0) + (b[k] if k < len(b) else 0) for k in range(size)]


def value(polynomial, x):
    """The value of a polynomial (Horner)."""
    total = Fraction(0)
    for c in reversed(polynomial):
        total = total * x + c
    return total


def roots(polynomial, h):
    """Sign changes between 0 and h to 2^-64 of h, found between the roots of the derivative."""
    while polynomial and not polynomial[-1]:
        polynomial = polynomial[:-1]
    if len(polynomial) < 2:
        return []
    slopes = [k * c for k, c in enumerate(polynomial)][1:]
    cuts = [Fraction(0), *roots(slopes, h), h]
    found = []
    for a, b in pairwise(cuts):
        left, right, falling = a, b, value(polynomial, a) > 0
        if value(polynomial, a) * value(polynomial, b) >= 0:
            continue
        for _ in range(64):
            middle = Fraction(round((left + right) / 2 * 2**80), 2**80)
            if (value(polynomial, middle) > 0) is falling:
                left = middle
            else:
                right = middle
        found.append(left)
    return found


def exact_peaks(pieces):
    """Greatest and least M, greatest |V|, greatest and least EI y."""
    M_all, V_all, Y_all = [], [], []
    for left, right, V, M, T, Y in pieces:
        h = right - left
        M_all += [value(M, x) for x in (Fraction(0), h, *roots(V, h))]
        V_all += [abs(value(V, x)) for x in (Fraction(0), h, *roots([k * c for k, c in enumerate(V)][1:], h))]
        Y_all += [value(Y, x) for x in (Fraction(0), h, *roots(T, h))]
    return max(M_all), min(M_all), max(V_all), max(Y_all), min(Y_all)


def random_line(seed):
    """One to six spans, overhangs now and then, loads of every kind and of both signs, now and then a settlement."""
    dice = random.Random(seed)  # noqa: S311  a repeatable draw
    supports = [round(dice.uniform(-40, 40), 3)]
    for _ in range(dice.randint(1, 6)):
        supports.append(supports[-1] + round(dice.uniform(30, 240), dice.choice([0, 3])))
    line = Line(
        tuple(supports),
        left_overhang=dice.choice([0.0, 0.0, round(dice.uniform(6, 60), 3)]),
        right_overhang=dice.choice([0.0, 0.0, round(dice.uniform(6, 60), 3)]),
    )
    loads = [Spread(line.start, line.end, *[dice.uniform(1, 90)] * 2)]
    for _ in range(dice.randint(1, 5)):
        a, b = sorted(dice.uniform(line.start, line.end) for _ in range(2))
        loads.append(Point(a, dice.uniform(-3000, 6000)))
        loads.append(Spread(a, b, dice.uniform(-60, 120), dice.uniform(-60, 120)))
    if dice.random() < 0.3:
        loads.append(Settlement(dice.randrange(len(supports)), dice.uniform(0, 1e7)))
    return line, loads


@pytest.mark.parametrize("seed", range(60))
def test_peaks_and_reactions_of_random_lines(seed):
    """Every peak and every reaction of any line is within 1e-12 of the exact one."""
    line, loads = random_line(seed)
    reactions, pieces = exact_pieces(line, loads)
    response = solve(line, loads)
    biggest = float(max(map(abs, reactions)))
    for expected, actual in zip(reactions, response.reactions, strict=True):
        assert abs(float(expected) - actual) <= 1e-12 * biggest
    top, low, shear, down, up = map(float, exact_peaks(pieces))
    peaks = response.peaks()
    assert peaks.sagging.value == pytest.approx(top, rel=1e-12)
    assert peaks.hogging.value == pytest.approx(low, rel=1e-12, abs=1e-15 * top)
    assert abs(peaks.shear.value) == pytest.approx(shear, rel=1e-12)
    assert peaks.EI_down.value == pytest.approx(down, rel=1e-12)
    assert peaks.EI_up.value == pytest.approx(up, rel=1e-12, abs=1e-13 * down)


@pytest.mark.parametrize("seed", range(60, 90))
def test_peaks_of_each_bay_of_random_lines(seed):
    """So are the peaks of each bay, the smallest too: to 1e-12 of the greatest of the line."""
    line, loads = random_line(seed)
    _, pieces = exact_pieces(line, loads)
    response = solve(line, loads)
    top, low, shear, down, up = map(float, exact_peaks(pieces))
    bent, sunk = max(top, -low), max(down, -up)
    for i, bay in enumerate(line.bays):
        inside = [piece for piece in pieces if bay.start <= piece[0] and piece[1] <= bay.end]
        expected = [float(peak) for peak in exact_peaks(inside)]
        peaks = response.peaks(i)
        assert [peaks.sagging.value, peaks.hogging.value] == pytest.approx(expected[:2], abs=1e-12 * bent)
        assert abs(peaks.shear.value) == pytest.approx(expected[2], abs=1e-12 * shear)
        assert [peaks.EI_down.value, peaks.EI_up.value] == pytest.approx(expected[3:], abs=1e-12 * sunk)


@pytest.mark.parametrize("w", [1.0, 7.5])
def test_the_second_turn_near_a_support(w):
    """Close to the inner support of an end span the beam rises a little, and that small rise is found."""
    line, loads = Line((0.0, 144.0, 324.0, 444.0)), [Spread(0.0, 444.0, w, w)]
    expected = exact_peaks([piece for piece in exact_pieces(line, loads)[1] if piece[1] <= 144])
    found = solve(line, loads).peaks(0)
    assert 130.0 < found.EI_up.station < 144.0
    assert found.EI_up.value == pytest.approx(float(expected[4]), rel=1e-11)
    assert found.EI_down.value == pytest.approx(float(expected[3]), rel=1e-12)
