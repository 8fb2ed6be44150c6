"""Where many functions cross zero between two ends of opposite sign, all at once.

Chandrupatla's method (Advances in Engineering Software 28, 1997): inverse quadratic steps where they may be trusted,
halving elsewhere; so it never takes longer than halving by much.
"""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from beamcheck.beam.many import Floats

_MOST = 100
_CLOSE = 1e-13  # of the figure itself
_NOTHING = 1e-11  # a value that is as good as zero

Function = Callable[[NDArray[np.intp], Floats], Floats]
"""Told which functions and where; gives their values there."""


def crossings(function: Function, ends: tuple[Floats, Floats], values: tuple[Floats, Floats]) -> Floats:
    """Where each function is zero between its ends, at which its values have opposite signs; shapes (functions,)."""
    found = np.array(ends[0])
    which = np.arange(len(found))
    x1, x2 = ends
    f1, f2 = values
    t = np.full(x1.shape, 0.5)
    for _ in range(_MOST):
        x = x1 + t * (x2 - x1)
        f = function(which, x)
        same = np.sign(f) == np.sign(f1)
        x3, f3 = np.where(same, x1, x2), np.where(same, f1, f2)
        x2, f2 = np.where(same, x2, x1), np.where(same, f2, f1)
        x1, f1 = x, f
        best = np.where(np.abs(f1) < np.abs(f2), x1, x2)
        found[which] = best
        width = np.abs(x2 - x1)
        least = np.divide(2.0 * _CLOSE * np.abs(best), width, out=np.ones(x1.shape), where=width > 0.0)
        going = (least < 0.5) & (np.minimum(np.abs(f1), np.abs(f2)) > _NOTHING)
        if not going.any():
            break
        t = np.clip(_step((x1, x2, x3), (f1, f2, f3)), least, 1.0 - least)[going]
        which, x1, x2, f1, f2 = which[going], x1[going], x2[going], f1[going], f2[going]
    return found


def _step(x: tuple[Floats, Floats, Floats], f: tuple[Floats, Floats, Floats]) -> Floats:
    """Share of the way from the newest end to the other one: by the parabola through three points, or half."""
    (x1, x2, x3), (f1, f2, f3) = x, f
    with np.errstate(divide="ignore", invalid="ignore"):
        xi, phi = (x1 - x2) / (x3 - x2), (f1 - f2) / (f3 - f2)
        trusted = (phi**2 < xi) & ((1.0 - phi) ** 2 < 1.0 - xi)
        t = f1 / (f2 - f1) * f3 / (f2 - f3) + (x3 - x1) / (x2 - x1) * f1 / (f3 - f1) * f2 / (f3 - f2)
    return np.where(trusted & np.isfinite(t), t, 0.5)
