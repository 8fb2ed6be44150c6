"""Every pattern of every combination on one line: peaks of moment, shear, reaction and deflection.

Each load by itself is one column of states along the beam; a case is a sum of columns. Dead load lies everywhere;
all transient loads come and go together, bay by bay, and a force over a support belongs to the bay on its left.
"""

from itertools import product

import numpy as np

from .stiffness import Line, cut_to

STEPS = 48


class Cases:
    """A line with its loads by type: ``loads`` is a list of (type, load), a load as ``stiffness`` reads it."""

    def __init__(self, line: Line, loads):
        self.line = line
        self.columns = []  # (type, bay that it may leave or None, load)
        for kind, load in loads:
            if kind == "D":
                self.columns.append((kind, None, load))
            else:
                self.columns += [(kind, bay, part) for bay, part in _by_bay(line, load)]
        marks = {x for _, _, load in self.columns for x in load[:2] if x is not None}
        self.stations = np.array(sorted({*line.joints, *marks}))
        self.states = [self._along(load) for _, _, load in self.columns]

    def _along(self, load):
        """States at the start of each piece, shape (pieces, 5): down, turn, M, V, q; and the reactions."""
        starts, reactions = self.line.solve([load])
        found = []
        for bay, (a, b) in enumerate(self.line.bays):
            down, turn, M, V = starts[bay]
            inner = [x for x in self.stations if a <= x < b]
            for x, end in zip(inner, [*inner[1:], b], strict=True):
                parts = cut_to([load], bay, self.line)
                q = sum(size for s, e, size in parts if e is not None and s + a <= x < e + a)
                V -= sum(size for s, e, size in parts if e is None and abs(s + a - x) < 1e-9)
                found.append((down, turn, M, V, q))
                h = end - x
                down, turn, M, V = advance((down, turn, M, V, q), h)
        return np.array(found), np.array(reactions)

    def patterns(self, kinds):
        """Every choice of the bays that hold a transient load of these kinds."""
        bays = sorted({bay for kind, bay, _ in self.columns if bay is not None and kind in kinds})
        for choice in product((False, True), repeat=len(bays)):
            yield frozenset(bay for bay, on in zip(bays, choice, strict=True) if on)

    def weights(self, factors, pattern):
        """The factor of each column in one case."""
        return [factors.get(kind, 0.0) if bay is None or bay in pattern else 0.0 for kind, bay, _ in self.columns]

    def summed(self, factors, pattern, leave_out=()):
        """Pieces and reactions of one case, without the columns that are left out."""
        w = [0.0 if k in leave_out else f for k, f in enumerate(self.weights(factors, pattern))]
        pieces = np.zeros((len(self.stations) - 1, 5))
        reactions = np.zeros(len(self.line.supports))
        for factor, (along, pushed) in zip(w, self.states, strict=True):
            if factor:
                pieces += factor * along
                reactions += factor * pushed
        return pieces, reactions

    def pieces_of(self, bay):
        """The numbers of the pieces that make up a bay."""
        a, b = self.line.bays[bay]
        return [k for k, x in enumerate(self.stations[:-1]) if a <= x < b]

    def moments(self, pieces, only=None):
        """Greatest and least moment of a case, and where; never less or more than none."""
        top = low = (0.0, self.line.start)
        for k in range(len(pieces)) if only is None else only:
            _, _, M, V, q = pieces[k]
            x, h = self.stations[k], self.stations[k + 1] - self.stations[k]
            way = [0.0, h] + ([V / q] if q and 0 < V / q < h else [])
            for s in way:
                value = M + s * (V - q * s / 2)
                if value > top[0]:
                    top = (value, x + s)
                if value < low[0]:
                    low = (value, x + s)
        return top, low

    def zeros(self, pieces):
        """Stations of no moment: both ends of the beam, hinged ends, and every change of sign."""
        size = max(1e-9, *(abs(M) for M in pieces[:, 2]))
        found = {self.line.start, self.line.end}
        for k, (_, _, M, V, q) in enumerate(pieces):
            x, h = self.stations[k], self.stations[k + 1] - self.stations[k]
            if abs(M) <= 1e-9 * size:
                found.add(x)
            roots = np.roots([-q / 2, V, M]) if q else ([-M / V] if V else [])
            found |= {x + s.real for s in map(complex, roots) if abs(s.imag) < 1e-12 and 1e-7 < s.real < h - 1e-7}
        return sorted(found)

    def shear(self, pieces, station, side):
        """Shear just left or just right of a station."""
        k = int(np.searchsorted(self.stations, station, "left" if side == "left" else "right")) - 1
        if k < 0 or k >= len(pieces):
            return 0.0
        _, _, _, V, q = pieces[k]
        return V - q * (station - self.stations[k])

    def deflections(self, pieces, bay):
        """Greatest and least EI times way down in a bay: tried at many steps, then led to the level point."""
        most = least = 0.0
        for k in self.pieces_of(bay):
            h = self.stations[k + 1] - self.stations[k]
            ways = np.linspace(0.0, h, STEPS + 1)
            down = advance(pieces[k], ways)[0]
            for best, pick in ((int(np.argmax(down)), max), (int(np.argmin(down)), min)):
                peak = _level(pieces[k], float(ways[best]), h)
                found = pick(float(down[best]), peak)
                most, least = max(most, found), min(least, found)
        return most, least


def _level(piece, x, h):
    """Way down at the level point next to x, by Newton's steps that stay near."""
    lowest, highest = max(0.0, x - h / STEPS), min(h, x + h / STEPS)
    at = x
    for _ in range(12):
        _, turn, M, _ = advance(piece, at)
        if not M:
            break
        at = min(max(at + turn / M, lowest), highest)
    return float(advance(piece, at)[0])


def advance(state, s):
    """Down, turn, M and V a way s on from a state, under its own line load."""
    down, turn, M, V, q = state
    return (
        down + s * turn - s**2 * M / 2 - s**3 * V / 6 + s**4 * q / 24,
        turn - s * M - s**2 * V / 2 + s**3 * q / 6,
        M + s * V - s**2 * q / 2,
        V - s * q,
    )


def _by_bay(line, load):
    """A transient load by the bays that it may be missing from."""
    first, last, size = load
    if last is None:
        bay = next((k for k, (_, end) in enumerate(line.bays) if first <= end), len(line.bays) - 1)
        return [(bay, load)]
    found = []
    for bay, (a, b) in enumerate(line.bays):
        if min(last, b) - max(first, a) > 1e-9:
            found.append((bay, (max(first, a), min(last, b), size)))
    return found
