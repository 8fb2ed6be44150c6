"""Which questions an interview asks and in which order: a walk over the list of fields with the answers so far.

Nothing is remembered but the answers: the question to ask is the first one of the walk that has none. So going back is
taking an answer away, and a kind that is changed takes the keys that do not fit it out of the walk by itself.
"""

from collections.abc import Iterator, Mapping
from enum import StrEnum
from types import MappingProxyType
from typing import NamedTuple

from beamcheck.catalogue.wording import plies_written
from beamcheck.survey.entry import MOST_ITEMS
from beamcheck.survey.fields import SECTIONS, Field, Section

LEFT_OUT, UNKNOWN, YES, NO = "", "unknown", "yes", "no"
PARTS = "parts?"

_BY_KEY = MappingProxyType({section.key: section for section in SECTIONS})
OPTIONAL = tuple(section for section in SECTIONS if section.optional)


class Ask(StrEnum):
    """What a question is about: one entry of the survey, or how far the interview is to go."""

    ENTRY = "entry"
    FURTHER = "further"
    ANOTHER = "another"
    PARTS = "parts"


class Answer(NamedTuple):
    """What was answered, as text; of an entry also how it is known. An empty text: left out."""

    text: str
    trust: str = ""
    note: str = ""
    low: str = ""
    high: str = ""


class Step(NamedTuple):
    """One question. ``where`` is the key path of an entry, or ends in "?"; fields: the one asked, or those offered.

    kind: of the carried item; needed: nothing can stand in for it.
    """

    where: str
    ask: Ask
    section: Section | None = None
    fields: tuple[Field, ...] = ()
    kind: str = ""
    needed: bool = False

    @property
    def field(self) -> Field:
        """The field of an entry."""
        return self.fields[0]

    @property
    def item(self) -> str:
        """The table it belongs to: ``wall``, ``post[2]``."""
        return self.where.removesuffix("?").partition(".")[0]


Answers = Mapping[str, Answer]

MAIN = ("study", "wall", "carried", "site", "beam", "post")  # snow is asked for once it is known that a roof bears
AT_LEAST = MappingProxyType({"post": 2})
AT_MOST = MappingProxyType({"post": 7})

# keys asked without more ado; the others stand behind one question. Sections not named here are asked whole.
FIRST: Mapping[str, tuple[str, ...]] = MappingProxyType({
    "study": ("title",),
    "wall": ("clear_opening", "ceiling_height"),
    "carried": (
        "kind", "name", "span_a", "span_b", "use", "continuity", "pitch", "area", "height", "station",
        "dead_load", "live_load", "roof_live_load", "snow_load",
        "dead_line", "live_line", "roof_live_line", "snow_line",
    ),
    "site": ("loads", "ground_snow"),
    "beam": ("member", "position", "top_edge"),
    "post": ("member", "station", "held", "fastening", "seat", "notch_depth", "seated_plies", "stands_on"),
    "girder": ("name", "member", "supports", "posts", "post_stations", "span_a", "span_b"),
    "pad": ("under", "state", "length", "breadth", "thickness", "depth"),
    "temporary": ("sides", "set_back_a", "set_back_b", "lap", "rooms_above", "stud", "stud_spacing", "stands_on"),
    "neighbour": ("name", "post", "gap"),
    "heavy": ("name", "weight", "along", "across", "joist", "joist_span", "joist_spacing"),
})  # fmt: skip

# key: the key of the same table on which it hangs, and the words with which it is asked ("" = not answered)
ONLY_WITH: Mapping[tuple[str, str], tuple[str, tuple[str, ...]]] = MappingProxyType({
    ("carried", "layers"): ("dead", (UNKNOWN, LEFT_OUT)),
    ("beam", "unbraced_length"): ("top_edge", ("not held", UNKNOWN, LEFT_OUT)),
    ("beam", "plies_joined_by"): ("position", ("flush",)),
    ("beam", "fastener_rows"): ("position", ("flush",)),
    ("beam", "fastener_spacing"): ("position", ("flush",)),
    ("post", "fastener"): ("fastening", ("nailed", "bolted")),
    ("post", "notch_depth"): ("seat", ("notch",)),
    ("post", "seated_plies"): ("seat", ("notch",)),
    ("post", "seat_breadth"): ("seat", ("steel plate",)),
    ("post", "seat_thickness"): ("seat", ("steel plate",)),
    ("temporary", "set_back_a"): ("sides", ("both", "A", UNKNOWN, LEFT_OUT)),
    ("temporary", "set_back_b"): ("sides", ("both", "B", UNKNOWN, LEFT_OUT)),
    ("temporary", "lap"): ("sides", ("A", "B")),
    ("temporary", "live"): ("rooms_above", ("empty",)),
})  # fmt: skip

# keys asked once another part is complete, as only then they can be answered
AFTER: Mapping[str, tuple[tuple[str, str], ...]] = MappingProxyType({"carried": (("wall", "no_other"),)})

# plies that a member needs before the question means anything
PLIES: Mapping[tuple[str, str], int] = MappingProxyType({
    ("post", "fastening"): 2, ("beam", "plies_share"): 3, ("beam", "plies_joined_by"): 2,
    ("beam", "fastener_rows"): 2, ("beam", "fastener_spacing"): 2,
})  # fmt: skip
BETWEEN = (("post", "station"), ("post", "try_stations"))  # only of a post between the ends
_ROOFS = ("roof", "strut")
_LATER = tuple(place for places in AFTER.values() for place in places)


def walk(answers: Answers) -> Iterator[Step]:
    """Every question that the answers so far lead to, answered or not."""
    for key in MAIN:
        yield from _section(_BY_KEY[key], answers)
        for part, name in AFTER.get(key, ()):
            yield _entry(_BY_KEY[part], next(field for field in _BY_KEY[part].fields if field.key == name), part, "")
    yield Step(PARTS, Ask.PARTS)
    chosen = said(answers, PARTS).split(", ")
    for section in OPTIONAL:
        if section.key in chosen:
            yield from _section(section, answers)


def said(answers: Answers, where: str) -> str:
    """The text answered, nothing if there is no answer."""
    answer = answers.get(where)
    return answer.text if answer is not None else LEFT_OUT


def suggested(answers: Answers) -> tuple[str, ...]:
    """Optional parts that the answers so far point to."""
    words = {(where.rpartition(".")[2], answer.text) for where, answer in answers.items()}
    found = {
        "girder": ("stands_on", "girder") in words,
        "pad": bool(words & {("stands_on", "pad"), ("stands_on", "pier")}),
        "ties": ("position", "flush") in words and bool(words & {("kind", kind) for kind in ("ceiling", *_ROOFS)}),
    }
    return tuple(key for key, points in found.items() if points)


def _section(section: Section, answers: Answers) -> Iterator[Step]:
    if not section.repeated:
        yield from _table(section, section.key, answers)
        return
    for number in range(1, AT_MOST.get(section.key, MOST_ITEMS) + 1):
        if number > AT_LEAST.get(section.key, 1):
            gate = f"{section.key}[{number}]?"
            yield Step(gate, Ask.ANOTHER, section)
            if said(answers, gate) != YES:
                return
        yield from _table(section, f"{section.key}[{number}]", answers)


def _table(section: Section, where: str, answers: Answers) -> Iterator[Step]:
    kinded = next((field for field in section.fields if field.key == "kind"), None)
    kind = said(answers, f"{where}.kind")
    if kinded is not None and not kind:
        yield Step(f"{where}.kind", Ask.ENTRY, section, (kinded,), needed=True)
        return
    listed = FIRST.get(section.key, tuple(field.key for field in section.fields))
    if section.key == "site" and not _roofed(answers):
        listed = ()
    fitting = tuple(field for field in section.fields if _fits(section, field, where, answers))
    first = [field for field in fitting if field.required or field.key in listed]
    first.sort(key=lambda field: listed.index(field.key) if field.key in listed else len(listed))
    for field in first:
        yield _entry(section, field, where, kind)
    rest = tuple(field for field in fitting if field not in first)
    if not rest:
        return
    yield Step(f"{where}.further?", Ask.FURTHER, section, rest, kind)
    if said(answers, f"{where}.further?") == YES:
        for field in rest:
            yield _entry(section, field, where, kind)


def _entry(section: Section, field: Field, where: str, kind: str) -> Step:
    needed = field.required or (section.key, field.key) == BETWEEN[0]
    return Step(f"{where}.{field.key}", Ask.ENTRY, section, (field,), kind, needed)


def _fits(section: Section, field: Field, where: str, answers: Answers) -> bool:
    """Whether the key means anything beside the other answers of its table."""
    place = (section.key, field.key)
    if field.kinds and said(answers, f"{where}.kind") not in field.kinds:
        return False
    if place in _LATER:
        return False
    if place in BETWEEN and not between(where, answers):
        return False
    if place in PLIES and plies_written(said(answers, f"{where}.member")) < PLIES[place]:
        return False
    other, words = ONLY_WITH.get(place, ("", ()))
    return not other or said(answers, f"{where}.{other}") in words


def between(where: str, answers: Answers) -> bool:
    """Whether a post stands between the ends: it is not the first one, and one more comes after it."""
    number = int(where[where.index("[") + 1 : -1])
    return number > 1 and said(answers, f"post[{number + 1}]?") == YES


def _roofed(answers: Answers) -> bool:
    return any(where.endswith(".kind") and answer.text in _ROOFS for where, answer in answers.items())
