"""A beam line by displacements: one element a bay, fixed-end forces of its loads, turns of its joints solved for.

EI is 1. Loads and deflections go down, sagging moments are positive, the shear is that of the forces left of a cut.
A load is (station, station, force per inch) or (station, None, force).
"""

import numpy as np


class Line:
    """Supports at their stations, and how far the beam runs beyond the outer two."""

    def __init__(self, supports, left=0.0, right=0.0):
        self.supports = list(supports)
        self.start, self.end = supports[0] - left, supports[-1] + right
        self.joints = [*([self.start] if left > 0 else []), *supports, *([self.end] if right > 0 else [])]
        self.bays = list(zip(self.joints, self.joints[1:], strict=False))
        self.first = 1 if left > 0 else 0
        self._inverse = self._flexibility()

    def is_span(self, bay):
        """Whether a bay has a support at both ends."""
        return self.first <= bay < self.first + len(self.supports) - 1

    def _freedoms(self):
        """Which of down, turn, down, turn... may move: all but the supports' way down."""
        held = {2 * (self.first + k) for k in range(len(self.supports))}
        return [k for k in range(2 * len(self.joints)) if k not in held]

    def _flexibility(self):
        size = 2 * len(self.joints)
        K = np.zeros((size, size))
        for bay, (a, b) in enumerate(self.bays):
            K[2 * bay : 2 * bay + 4, 2 * bay : 2 * bay + 4] += element(b - a)
        self._free = self._freedoms()
        return np.linalg.inv(K[np.ix_(self._free, self._free)])

    def solve(self, loads):
        """State (down, turn, M, V) at the start of every bay, right of its joint, and the supports' reactions."""
        held = [fixed_ends(a, b, cut_to(loads, bay, self)) for bay, (a, b) in enumerate(self.bays)]
        F = np.zeros(2 * len(self.joints))
        for bay, forces in enumerate(held):
            F[2 * bay : 2 * bay + 4] += forces
        u = np.zeros(len(F))
        u[self._free] = self._inverse @ F[self._free]
        starts, ends = [], []
        for bay, (a, b) in enumerate(self.bays):
            f = element(b - a) @ u[2 * bay : 2 * bay + 4] - held[bay]
            starts.append((u[2 * bay], u[2 * bay + 1], f[1], -f[0]))
            ends.append(f[2])
        reactions = []
        for k, support in enumerate(self.supports):
            joint = self.first + k
            right = starts[joint][3] if joint < len(self.bays) else 0.0
            left = ends[joint - 1] if joint > 0 else 0.0
            over = sum(load[2] for load in loads if load[1] is None and load[0] == support)
            reactions.append(right - left + over)
        return starts, reactions


def element(length):
    """Stiffness of a bay of EI = 1 for down and turn at both ends."""
    a, b, c, d = 12 / length**3, 6 / length**2, 4 / length, 2 / length
    return np.array([[a, b, -a, b], [b, c, -b, d], [-a, -b, a, -b], [b, d, -b, c]])


def cut_to(loads, bay, line):
    """The parts of loads that lie within a bay, from its start; a force right over a support bends nothing."""
    a, b = line.bays[bay]
    found = []
    for first, last, size in loads:
        if last is None:
            inside = a < first < b or (first == line.start and bay == 0 and line.first)
            inside = inside or (first == line.end and bay == len(line.bays) - 1 and not line.is_span(bay))
            if inside and first not in line.supports:
                found.append((first - a, None, size))
        elif min(last, b) > max(first, a):
            found.append((max(first, a) - a, min(last, b) - a, size))
    return found


def fixed_ends(a, b, loads):
    """What loads put on the joints of a bay whose ends are clamped: down, turn, down, turn."""
    L = b - a
    total = np.zeros(4)
    for first, last, size in loads:
        if last is None:
            s = first / L
            shares = (1 - 3 * s**2 + 2 * s**3, L * s * (1 - s) ** 2, 3 * s**2 - 2 * s**3, -L * s**2 * (1 - s))
            total += size * np.array(shares)
        else:
            total += size * L * (_area(last / L, L) - _area(first / L, L))
    return total


def _area(s, L):
    """Integrals of the clamped beam's influence lines from 0 to a share s of the bay."""
    return np.array(
        [
            s - s**3 + s**4 / 2,
            L * (s**2 / 2 - 2 * s**3 / 3 + s**4 / 4),
            s**3 - s**4 / 2,
            -L * (s**3 / 3 - s**4 / 4),
        ]
    )
