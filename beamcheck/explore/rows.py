"""Lines whose supports stand in different places in every lane, each load solved by itself at unit size.

A case is a sum of rows of figures. Line loads are uniform between their ends, as a take-down has them.
"""

from itertools import pairwise

import numpy as np

from beamcheck.beam.many import Floats, Pieces
from beamcheck.beam.model import BayKind
from beamcheck.beam.moved import BayAlone, Points, Spreads, bay_alone, bay_stations, bent, laid_over

_NEAR = 1e-6
_FORCES = 5  # q, V, V1, M, M1 of every piece stand first, then the reactions, then T, T1, Y, Y1
EVERYWHERE = -1


class Rows:
    """The shape of the lines: ``cuts`` are the ends of the bays, all of shape (lanes,); ``loads`` all that may come.

    Rows of figures have the shape (rows, lanes). Bays count from 0 at the left.
    """

    def __init__(self, kinds: tuple[BayKind, ...], cuts: tuple[Floats, ...], loads: list[Points | Spreads]) -> None:
        self.kinds = kinds
        self.cuts = cuts
        self.stations = [bay_stations(a, b, loads) for a, b in pairwise(cuts)]
        self._blank = [bay_alone(kind, stations, []) for kind, stations in zip(kinds, self.stations, strict=True)]
        counts = [len(stations) - 1 for stations in self.stations]
        self._first = np.concatenate([[0], np.cumsum(counts)]).tolist()
        self.pieces = sum(counts)
        self._level = np.zeros((max(counts), *cuts[0].shape))
        self.first_span = int(kinds[0] == "left overhang")
        self.posts = cuts[self.first_span : len(cuts) - int(kinds[-1] == "right overhang")]
        self.forces = slice(0, _FORCES * self.pieces + len(self.posts))

    def reaches(self, load: Points | Spreads, bay: int) -> bool:
        """Whether any lane has some of a load in a bay; a force over a support goes with the bay on its left."""
        if bay == EVERYWHERE:
            return True
        start, end = self.cuts[bay], self.cuts[bay + 1]
        if isinstance(load, Spreads):
            return bool(np.any((load.start < end) & (load.end > start)))
        return bool(np.any(((load.station > start) | (bay == 0)) & (load.station <= end + _NEAR)))

    def unit(self, load: Points | Spreads, bay: int = EVERYWHERE) -> Floats:
        """The line under a load, or under the part of it that lies in one bay."""
        bays: list[BayAlone] = [
            bay_alone(kind, stations, [load]) if bay in (EVERYWHERE, number) else blank
            for number, (kind, stations, blank) in enumerate(zip(self.kinds, self.stations, self._blank, strict=True))
        ]
        pieces = [laid_over(one, *states) for one, states in zip(bays, bent(bays), strict=True)]
        columns = {name: np.concatenate([getattr(some, name) for some in pieces]) for name in Pieces._fields[1:]}
        reactions = [self._reaction(pieces, load, bay, number) for number in range(len(self.posts))]
        ordered = [columns[name] for name in ("q", "V", "V1", "M", "M1")], [columns[n] for n in ("T", "T1", "Y", "Y1")]
        return np.concatenate([*ordered[0], np.stack(reactions), *ordered[1]])

    def _reaction(self, pieces: list[Pieces], load: Points | Spreads, bay: int, number: int) -> Floats:
        """The step of V over a support, and the force right above it, which goes with the bay on its left."""
        right = self.first_span + number
        step = np.zeros(self.cuts[0].shape)
        if right < len(pieces):
            step = step + pieces[right].V[0]
        if right:
            step = step - pieces[right - 1].V1[-1]
        if isinstance(load, Points) and bay in (EVERYWHERE, max(right - 1, 0)):
            step = step + np.where(np.abs(load.station - self.posts[number]) <= _NEAR, load.force, 0.0)
        return step

    def of_bay(self, rows: Floats, bay: int) -> Pieces:
        """The pieces of one bay; of rows of forces alone the deflections stand empty."""
        n, lo, hi = self.pieces, self._first[bay], self._first[bay + 1]
        q, V, V1, M, M1 = (rows[k * n + lo : k * n + hi] for k in range(_FORCES))
        begin = _FORCES * n + len(self.posts)
        whole = len(rows) > begin
        T, T1, Y, Y1 = (rows[begin + k * n + lo : begin + k * n + hi] if whole else M for k in range(4))
        h = np.diff(self.stations[bay], axis=0)
        return Pieces(h, q, self._level[: len(h)], V, V1, M, M1, T, T1, Y, Y1)

    def whole(self, rows: Floats) -> tuple[Pieces, Floats]:
        """All pieces from left to right, and their stations."""
        n = self.pieces
        q, V, V1, M, M1 = (rows[k * n : (k + 1) * n] for k in range(_FORCES))
        h = np.concatenate([np.diff(stations, axis=0) for stations in self.stations])
        starts = np.concatenate([stations[:-1] for stations in self.stations])
        return Pieces(h, q, q, V, V1, M, M1, M, M1, M, M1), np.concatenate([starts, self.stations[-1][-1:]])

    def reaction(self, rows: Floats, number: int) -> Floats:
        """The reaction of a support."""
        found: Floats = rows[_FORCES * self.pieces + number]
        return found

    def face(self, rows: Floats, number: int, side: str) -> Floats | None:
        """Shear on the left or right face of a support; None where the beam ends there."""
        n, bay = self.pieces, self.bay_beside(number, side)
        if bay is None:
            return None
        found: Floats = rows[n + self._first[bay]] if side == "right" else rows[2 * n + self._first[bay + 1] - 1]
        return found

    def bay_beside(self, number: int, side: str) -> int | None:
        """The bay on that side of a support."""
        bay = self.first_span + number - (side == "left")
        return bay if 0 <= bay < len(self.kinds) else None

    def shear_at(self, rows: Floats, bay: int, station: Floats, side: str) -> Floats:
        """Shear at a station of a bay in every lane, read on the given side of it."""
        n, lo = self.pieces, self._first[bay]
        x = self.stations[bay]
        found = np.zeros(station.shape)
        for k in range(len(x) - 1):
            inside = (
                (x[k] <= station) & (station < x[k + 1])
                if side == "right"
                else (x[k] < station) & (station <= x[k + 1])
            )
            found = np.where(inside, rows[n + lo + k] - (station - x[k]) * rows[lo + k], found)
        return found
