"""What a study rests on and how far each of it may be off: low, likely and high; and studies with figures changed."""

from collections.abc import Collection, Iterator, Mapping
from typing import Any, NamedTuple

from beamcheck import units
from beamcheck.checks.lines import laid
from beamcheck.errors import InputError, OutOfRange
from beamcheck.frozen import names, replace
from beamcheck.study.agree import agree
from beamcheck.study.layout import lay_out
from beamcheck.study.registers import called
from beamcheck.study.types import Study
from beamcheck.survey.fields import field_at
from beamcheck.survey.model import Survey
from beamcheck.tables import Row, lookup
from beamcheck.takedown.carried import all_sources
from beamcheck.trace import NOT_SEEN, Check, Computed, Given, Num, Value, ancestry, items, values
from beamcheck.units import Dimension

_KINDS = {
    "in": Dimension.LENGTH,
    "ft^2": Dimension.AREA,
    "psf": Dimension.AREA_LOAD,
    "psi": Dimension.STRESS,
    "lb": Dimension.FORCE,
    "lb/in": Dimension.LINE_LOAD,
    "deg": Dimension.ANGLE,
    "1": Dimension.NUMBER,
}
_HALVINGS = 16
_MOST_BY_LEAST = 0.5  # of the figure: what the table's least spread may come to
_PLAIN = (str, float, int, type(None), type, Row)


class Stop(NamedTuple):
    """Where a range stops short of its own end, and what there is beyond it."""

    at: float
    why: str


class Ranged(NamedTuple):
    """One input: key path, name in the owner's words, the Value, its range in the Value's unit, and where that is from.

    spread: the row of the table of spreads; None where both ends are the owner's own. stops: where the range had to
    be cut short, as there is no study beyond.
    """

    where: str
    name: str
    value: Value
    low: float
    likely: float
    high: float
    spread: Row | None
    stops: tuple[Stop, ...] = ()

    @property
    def unseen(self) -> bool:
        """Whether nobody has looked at it: assumed, or said to be unknown."""
        return isinstance(self.value.origin, Given) and self.value.origin.trust in NOT_SEEN


def inputs(study: Study, keys: Collection[str] | None = None) -> tuple[Ranged, ...]:
    """Every figure of the survey that the study rests on, or that its checks of these keys do, each once.

    A figure of zero says that a thing is not there, and the size of a member is what is bought: neither has a range.
    Of layers it is their sum that may be off, by a factor; other plain numbers are counts.
    """
    found: dict[str, Ranged] = {}
    for value in values(study.sheet) if keys is None else _under(study, keys):
        origin = value.origin
        if not isinstance(origin, Given) or origin.where in found or origin.where.endswith(".member"):
            continue
        if value.unit in _KINDS and value.number != 0 and (value.unit != "1" or origin.where.endswith("layers")):
            found[origin.where] = _ranged(study.survey, value, origin)
    ranged = tuple(found.values())
    if all(_fits(study, {one.where: end for one, end in zip(ranged, ends, strict=True)}) for ends in _ends(ranged)):
        return ranged
    return tuple(_possible(study, one) for one in ranged)


def _under(study: Study, keys: Collection[str]) -> Iterator[Value]:
    seen: set[int] = set()
    for item in items(study.sheet):
        if isinstance(item, Check) and item.key in keys:
            for root in (item.demand, item.limit):
                yield from ancestry(root, seen)


def _ranged(survey: Survey, value: Value, origin: Given) -> Ranged:
    likely = float(value.number)
    name = called(survey, origin.where)
    if origin.low is not None and origin.high is not None:
        return Ranged(origin.where, name, value, origin.low, likely, origin.high, None)
    kind = _KINDS[value.unit]
    row = lookup("practice/spreads", trust=str(origin.trust), kind=str(kind))
    least = 0.0
    if row.has("at_least"):
        least = units.convert(units.parse(row.text("at_least"), kind), units.base_unit(kind), value.unit)
    least = min(least, _MOST_BY_LEAST * abs(likely))
    down, up = (max(abs(likely) * row.number(end), least) for end in ("down", "up"))
    low = origin.low if origin.low is not None else likely - down
    high = origin.high if origin.high is not None else likely + up
    return Ranged(origin.where, name, value, low, likely, high, row)


def _ends(ranged: tuple[Ranged, ...]) -> tuple[list[float], list[float]]:
    return [one.low for one in ranged], [one.high for one in ranged]


def unfit(study: Study, numbers: Mapping[str, float]) -> str:
    """Why there is no study of it, if so: a seat longer than its post, a load off the beam, spans beyond the house."""
    survey = with_numbers(study.survey, numbers)
    try:
        layout = lay_out(survey, study.beam)
        agree(survey)
        laid(all_sources(survey.carried, survey.site, layout.reach)[0], layout.line)
    except (InputError, OutOfRange) as error:
        return told(error)
    return ""


def told(error: InputError | OutOfRange) -> str:
    """What a survey contradicts, in a line."""
    if isinstance(error, InputError):
        return f"{error.faults[0].where}: {error.faults[0].what}"
    return str(error)


def _fits(study: Study, numbers: Mapping[str, float]) -> bool:
    return not unfit(study, numbers)


def _possible(study: Study, one: Ranged) -> Ranged:
    """The range as far as posts and beam can be laid out with it."""
    low, high = (farthest(study, one, end) for end in (one.low, one.high))
    ends = ((low, one.low), (high, one.high))
    stops = tuple(Stop(at, unfit(study, {one.where: end})) for at, end in ends if at != end)
    return one._replace(low=low, high=high, stops=stops)


def farthest(study: Study, one: Ranged, end: float) -> float:
    """The figure farthest from the likely one towards an end with which posts and beam can still be laid out."""
    fitting = one.likely
    if _fits(study, {one.where: end}):
        return end
    for _ in range(_HALVINGS):
        middle = (fitting + end) / 2
        fitting, end = (middle, end) if _fits(study, {one.where: middle}) else (fitting, middle)
    return fitting


def sensible(where: str) -> tuple[float, float]:
    """The least and the greatest figure that a survey takes at a key path."""
    field = field_at(where)
    return (field.least, field.most) if field is not None else (float("-inf"), float("inf"))


def with_numbers(survey: Survey, numbers: Mapping[str, Num]) -> Survey:
    """The survey with other figures at the given key paths, in the unit that each is kept in."""
    changed = _anew(survey, numbers)
    assert isinstance(changed, Survey)
    return changed


def _anew(old: Any, numbers: Mapping[str, Num]) -> Any:
    """A part of the survey with the new figures in it; itself where nothing changes."""
    if isinstance(old, Value):
        return replayed(old, numbers)
    if isinstance(old, tuple):
        new = tuple([_anew(item, numbers) for item in old])
        return new if any(a is not b for a, b in zip(new, old, strict=True)) else old
    if isinstance(old, _PLAIN) or not hasattr(old, "__match_args__"):
        return old
    changes = {}
    for name in names(type(old)):
        part = getattr(old, name)
        anew = _anew(part, numbers)
        if anew is not part:
            changes[name] = anew
    return replace(old, **changes) if changes else old


def replayed(value: Value, numbers: Mapping[str, Num]) -> Value:
    """A value computed anew from its leaves, of which those at the given key paths hold new figures."""
    if isinstance(value.origin, Given):
        new = numbers.get(value.origin.where)
        return value if new is None else replace(value, number=new)
    if not isinstance(value.origin, Computed):
        return value
    anew = {name: replayed(parent, numbers) for name, parent in value.inputs}
    if all(anew[name] is parent for name, parent in value.inputs):
        return value
    return value.origin.clause(**anew).named(value.title)
