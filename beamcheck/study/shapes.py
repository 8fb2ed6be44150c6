"""Which solved cases a drawing of the beam line shows: those that the governing checks rest on."""

from collections.abc import Callable, Iterable
from typing import NamedTuple

from beamcheck.beam.envelope import CombinationPeaks, Governing
from beamcheck.beam.response import Response
from beamcheck.checks.lines import Loaded, pattern, when
from beamcheck.study.types import Study
from beamcheck.takedown.sources import LOAD_TYPES, LOAD_WORDS
from beamcheck.trace import Check, Schedule, Solved, Value, ancestry, items


class Shape(NamedTuple):
    """One curve along the beam: the case that makes it, its peak with sign and station, and the figure printed there.

    figure: None where the peak's own number is the figure (shear and moment).
    """

    name: str
    response: Response
    case: str
    peak: float
    station: float
    figure: Value | None = None


class Reaction(NamedTuple):
    """What comes down on one post: greatest force by load type alone, and the greatest of all with its case."""

    post: int
    by_type: tuple[tuple[str, float], ...]
    greatest: float
    case: str


def reactions(study: Study) -> tuple[Reaction, ...]:
    """Reactions of the beam by load type, for whoever checks what lies below; none where the line was not solved."""
    loaded = study.loaded
    if loaded is None:
        return ()
    return tuple(_reaction(loaded, number) for number in range(len(loaded.line.supports)))


def _reaction(loaded: Loaded, number: int) -> Reaction:
    names = [name for name in LOAD_TYPES if name in _acting(loaded)]
    alone = tuple((name, loaded.single.under(f"{name} alone").most_reaction[number].value) for name in names)
    most = max((peaks.most_reaction[number] for peaks in loaded.strength.peaks), key=lambda governing: governing.value)
    return Reaction(number + 1, alone, most.value, when(loaded.line, most))


def shear_shape(study: Study) -> Shape | None:
    """Shear under the case that governs the shear check, at the face where it is greatest."""
    if study.loaded is None:
        return None
    found = _governing(
        study, study.loaded, "beam.shear", lambda peaks: (*peaks.shear_left, *peaks.shear_right, *peaks.shear), abs
    )
    return _shape("shear", study.loaded, found)


def moment_shapes(study: Study) -> tuple[Shape, ...]:
    """Moment under the case that governs sagging and, where the beam hogs, under the one that governs hogging."""
    loaded = study.loaded
    if loaded is None:
        return ()
    sagging = _governing(study, loaded, "beam.bending_sagging", lambda peaks: peaks.sagging, lambda number: number)
    hogging = _governing(study, loaded, "beam.bending_hogging", lambda peaks: peaks.hogging, lambda number: -number)
    shapes = [_shape("sagging", loaded, sagging)] if sagging.value > 0 else []
    if hogging.value < -1e-6 and study_has(study, "beam.bending_hogging"):
        shapes.append(_shape("hogging", loaded, hogging))
    return tuple(shapes)


def deflection_shapes(study: Study) -> tuple[Shape, ...]:
    """Way down under dead load, and under the load type that moves the beam most, each by itself."""
    loaded = study.loaded
    if loaded is None:
        return ()
    shapes = [_sunk(study, loaded, "D")] if "D" in _acting(loaded) else []
    if loaded.transient:
        shapes.append(_sunk(study, loaded, max(loaded.transient, key=lambda name: _most_down(loaded, name)[1].value)))
    return tuple(shapes)


def study_has(study: Study, key: str) -> bool:
    """Whether a check of that key stands in the study."""
    return _check(study, key) is not None


def _check(study: Study, key: str) -> Check | None:
    return next((item for item in items(study.sheet) if isinstance(item, Check) and item.key == key), None)


def _governing(
    study: Study,
    loaded: Loaded,
    key: str,
    pick: Callable[[CombinationPeaks], Iterable[Governing]],
    size: Callable[[float], float],
) -> Governing:
    """The peak that a check names as its own; without such a check, the greatest of all.

    Raises LookupError where no peak is the one that the check names, for then another case would be drawn.
    """
    every = [governing for peaks in loaded.strength.peaks for governing in pick(peaks)]
    check = _check(study, key)
    if check is not None:
        told = check.when, check.station
        every = [governing for governing in every if (when(loaded.line, governing), governing.station) == told]
    if not every:
        raise LookupError(f"no peak is the one that {key} names")
    return max(every, key=lambda governing: size(governing.value))


def _shape(name: str, loaded: Loaded, governing: Governing) -> Shape:
    response = loaded.strength.response(governing.combination, governing.mask)
    case = when(loaded.line, governing)
    return Shape(name, response, case, governing.value, governing.station)


def _acting(loaded: Loaded) -> frozenset[str]:
    return frozenset(source.load_type for source in loaded.sources)


def _most_down(loaded: Loaded, name: str) -> tuple[int, Governing]:
    """The bay that goes down most under a load type alone, and how."""
    return max(enumerate(loaded.single.under(f"{name} alone").EI_down), key=lambda pair: pair[1].value)


def _sunk(study: Study, loaded: Loaded, name: str) -> Shape:
    bay, governing = _most_down(loaded, name)
    response = loaded.single.response(governing.combination, governing.mask)
    live = "" if name == "D" else pattern(loaded.line, governing.mask)
    number = _moved(study, f"{governing.combination}, {loaded.line.bays[bay].label}")
    return Shape(
        f"{LOAD_WORDS[name]} load", response, governing.combination + live, governing.value, governing.station, number
    )


def _moved(study: Study, method: str) -> Value:
    """The figure of the movement table that the beam line solved for this case alone, so before creep.

    Raises LookupError where the table has none.
    """
    for item in items(study.sheet):
        if isinstance(item, Schedule) and item.key == "beam.movement":
            for cell in (cell for row in item.rows for cell in row if isinstance(cell, Value)):
                if {value.origin.method for value in ancestry(cell) if isinstance(value.origin, Solved)} == {method}:
                    return cell
    raise LookupError(f"the movement table has no figure of {method}")
