"""What a post or a support brings down, load type by load type, from the beam to the soil."""

from typing import NamedTuple

from beamcheck.beam.solver import solve
from beamcheck.checks.lines import Loaded, laid
from beamcheck.takedown.combinations import strength_combinations
from beamcheck.takedown.sources import EDITIONS, LOAD_TYPES, Combination, Source
from beamcheck.trace import Solved, Value

Loads = dict[str, Value]
"""Forces by load type, D, L, Lr, S."""


class Brought(NamedTuple):
    """What comes down at one place.

    most: of each load type the greatest over the live patterns, for checks; whole: with everything loaded at once,
    so that what arrives at the soil is what was put on above.
    """

    most: Loads
    whole: Loads


def brought(loaded: Loaded, whole: tuple[Source, ...]) -> tuple[Brought, ...]:
    """What each support of a solved line brings down; a load type that only lifts there is left out of the greatest.

    whole: the sources that lie on the line when everything is loaded at once.
    """
    arriving = {name: solve(loaded.line, loads).reactions for name, loads in laid(whole, loaded.line).items()}
    found = []
    for support in range(len(loaded.line.supports)):
        place = f"support {support + 1}"
        most = {name: _greatest(loaded, name, support, place) for name in arriving}
        at_once = {
            name: _force(float(reactions[support]), f"{name} alone, {place}, all bays loaded", loaded)
            for name, reactions in arriving.items()
        }
        found.append(Brought(_ordered(most), _ordered(at_once)))
    return tuple(found)


def _greatest(loaded: Loaded, name: str, support: int, place: str) -> Value:
    acts = any(source.load_type == name for source in loaded.sources)
    number = loaded.single.under(f"{name} alone").most_reaction[support].value if acts else 0.0
    return _force(max(0.0, number), f"{name} alone, {place}, its worst pattern", loaded)


def _force(number: float, method: str, loaded: Loaded) -> Value:
    return Value("P", number, "lb", Solved(method, loaded.inputs))


def _ordered(loads: Loads) -> Loads:
    return {name: loads[name] for name in LOAD_TYPES if name in loads}


def together(parts: list[Brought]) -> Brought:
    """What several bring down together."""
    if len(parts) == 1:
        return parts[0]
    return Brought(added([part.most for part in parts]), added([part.whole for part in parts]))


def added(parts: list[Loads]) -> Loads:
    """Forces added up, load type by load type."""
    return {
        name: total(f"sum of {name}", [loads[name] for loads in parts if name in loads])
        for name in LOAD_TYPES
        if any(name in loads for loads in parts)
    }


def total(method: str, forces: list[Value]) -> Value:
    """The sum of forces."""
    inputs = tuple((f"P_{number}", force) for number, force in enumerate(forces, 1))
    return Value("P", sum(float(force.to("lb")) for force in forces), "lb", Solved(method, inputs))


def greatest(combinations: tuple[Combination, ...], loads: Loads) -> tuple[Value, str]:
    """The greatest service load over the combinations, and its combination in words."""
    cases = [(combined("P", case.name, case.factors, loads), case.name) for case in combinations]
    return max(cases, key=lambda case: float(case[0].number))


def factored(edition: str, loads: Loads) -> tuple[Value, str]:
    """The greatest factored load over the strength combinations, and its combination in words.

    edition: that of ASCE 7 to which the snow belongs, for 7-22 gives it at strength level.
    """
    combinations = strength_combinations(EDITIONS[edition], frozenset(loads))
    cases = [(combined("P_u", one.name, one.factors, loads), one.name) for one in combinations]
    return max(cases, key=lambda case: float(case[0].number))


def combined(name: str, words: str, factors: Loads, loads: Loads) -> Value:
    """What forces by load type come to under the factors of a combination, which is named in words."""
    terms = [(kind, g) for kind, g in factors.items() if kind in loads]
    number = sum(float(g.number) * float(loads[kind].to("lb")) for kind, g in terms)
    inputs = tuple((f"g_{kind}", g) for kind, g in terms) + tuple((f"P_{kind}", loads[kind]) for kind, _ in terms)
    return Value(name, number, "lb", Solved(f"sum of {words}", inputs))


def put_on(sources: tuple[Source, ...], loaded: Loaded) -> Loads:
    """All that lies on a line, load type by load type."""
    forces: dict[str, list[Value]] = {}
    for source in sources:
        forces.setdefault(source.load_type, []).append(_whole(source, loaded))
    return {name: total(f"all {name} on the line", forces[name]) for name in LOAD_TYPES if name in forces}


def _whole(source: Source, loaded: Loaded) -> Value:
    if source.P is not None:
        return source.P
    assert source.w is not None
    line = loaded.line
    start = float(source.start.to("in")) if source.start is not None else line.start
    end = float(source.end.to("in")) if source.end is not None else line.end
    ends = (("from", source.start), ("to", source.end))
    inputs = (("w", source.w), *((name, at) for name, at in ends if at is not None))
    return Value("P", float(source.w.to("lb/in")) * (end - start), "lb", Solved(f"{source.name}, whole length", inputs))
