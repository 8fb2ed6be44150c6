"""What no other choice beats in every figure at once."""

import numpy as np

from beamcheck.beam.many import Floats


def front(figures: Floats) -> list[int]:
    """Rows that no other row beats: none is as small in every column and smaller in one. Shape (choices, figures).

    In order of the columns; of rows that are alike in all the first stays.
    """
    order = np.lexsort(figures.T[::-1])
    kept: list[int] = []
    best = np.empty((0, figures.shape[1]))
    for number in order:
        row = figures[number]
        if not (best <= row).all(axis=1).any():
            kept.append(int(number))
            best = np.vstack([best, row])
    return kept
