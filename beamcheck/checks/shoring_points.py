"""Point loads on a temporary wall: the whole of what may come to one stud or joist, under every combination.

A plate hands a point load to the studs on both sides of it. Those that stand closer together than the studs are
taken to come to one of them as a whole: wherever the studs are set, none takes more of loads that stand side by side.
"""

from typing import NamedTuple

from beamcheck.checks.line_loads import inputs_by_type
from beamcheck.checks.post import AxialCase
from beamcheck.checks.shoring_loads import TemporaryWall
from beamcheck.frozen import replace
from beamcheck.standards import shoring
from beamcheck.takedown.sources import LOAD_WORDS, Combination, Source
from beamcheck.trace import Value, taken


class Spot(NamedTuple):
    """Point loads that may come to one stud, and the combinations that they come under.

    alone: whether no others come down on that wall, so that nobody need be told which they are.
    """

    points: tuple[Source, ...]
    combinations: tuple[Combination, ...]
    alone: bool

    @property
    def names(self) -> str:
        """What comes down there, each item once."""
        return " and ".join(dict.fromkeys(point.name for point in self.points))

    def under(self, cases: tuple[AxialCase, ...]) -> tuple[AxialCase, ...]:
        """What a stud or joist takes besides, one case a combination, with the whole of the point loads."""
        which = "" if self.alone else f", under {self.names}"
        return tuple(
            replace(case, P=self._with(case.P, one), when=f"{case.when}{which}")
            for case, one in zip(cases, self.combinations, strict=True)
        )

    def _with(self, P_s: Value, combination: Combination) -> Value:
        return shoring.load_under_points(P_s=P_s, **inputs_by_type(combination, "P", self._by_type))

    def _by_type(self, name: str) -> Value:
        found = [point.P for point in self.points if point.load_type == name and point.P is not None]
        if not found:
            return taken(f"P_{name}", 0.0, f"no {LOAD_WORDS[name]} load comes down there", unit="lb")
        total = found[0]
        for more in found[1:]:
            total = shoring.added_points(P_a=total, P_b=more)
        return total


def spots(wall: TemporaryWall, combinations: tuple[Combination, ...], apart: Value) -> tuple[Spot, ...]:
    """Point loads of a wall that stand closer together than its studs or joists; one that stands alone by itself."""
    width = float(apart.to("in"))
    found: list[tuple[Source, ...]] = []
    for first in sorted({_at(point) for point in wall.points}):
        points = tuple(point for point in wall.points if first <= _at(point) < first + width)
        if not found or not set(points) <= set(found[-1]):
            found.append(points)
    return tuple(Spot(points, combinations, alone=len(found) == 1) for points in found)


def _at(point: Source) -> float:
    assert point.station is not None
    return float(point.station.to("in"))
