"""How a question reads: what is asked, why, how to find it out, what stands in if it is unknown, and an example."""

from collections.abc import Iterable, Iterator, Mapping
from types import MappingProxyType

from beamcheck.survey.fields import Field, Section
from beamcheck.tables import Row, lookup
from beamcheck.units import Dimension
from beamcheck.views.interview.order import (
    LEFT_OUT,
    MAIN,
    NO,
    OPTIONAL,
    UNKNOWN,
    Answer,
    Answers,
    Ask,
    Step,
    between,
    said,
    suggested,
)

COMMANDS = (
    ("?", "says more on the question, with the units that may be written"),
    ("unsure", "where you do not know: a cautious figure then stands in, where there is one"),
    ("back", "takes back the last answer and asks again"),
    ("review", "shows every answer so far, with numbers;  change 4  asks number 4 again"),
    ("later", "asks this again at the end"),
    ("quit", "stops; the answers so far are kept as a draft"),
)

UNIT_EXAMPLES: Mapping[Dimension, tuple[str, tuple[str, ...]]] = MappingProxyType({
    Dimension.LENGTH: (
        "Feet and inches with fractions, inches alone, or metric; always with the unit",
        ("13 ft 6-1/2 in", "13'-6 1/2\"", "162.5 in", "4.13 m", "4128 mm"),
    ),
    Dimension.AREA: ("Square feet or square metres", ("36 ft^2", "3.3 m^2")),
    Dimension.AREA_LOAD: ("Pounds on each square foot (psf), or metric", ("40 psf", "1.9 kPa")),
    Dimension.FORCE: ("Pounds, thousands of pounds, or metric", ("1,200 lb", "1.2 kip", "5.3 kN")),
    Dimension.LINE_LOAD: ("Pounds on each foot of length (plf), or metric", ("90 plf", "1.3 kN/m")),
    Dimension.STRESS: ("Pounds on each square inch (psi), or metric", ("2500 psi", "17 MPa")),
    Dimension.ANGLE: ("Inches of rise in 12 inches along, or degrees", ("8:12", "33.7 deg")),
    Dimension.NUMBER: ("A plain number", ("3", "0.9")),
})  # fmt: skip

_SIDES = {"a": "on side A", "b": "on side B"}
_CALLED = {
    "from": "where it begins",
    "to": "where it ends",
    "under": "what stands on it",
    "loads": "edition of ASCE 7",
    "held": "how it is held",
    "fastening": "fastening of the plies",
    "plies_share": "load sharing of plies",
}
_TITLES = {
    "study": "The study",
    "wall": "The wall",
    "site": "Snow and soil",
    "beam": "The beam",
    "temporary": "Temporary support",
    "signs": "Signs of bearing",
    "room": "The room",
    "ties": "Ties of the roof",
    "options": "Beams to try",
}
_ANOTHER = {
    "carried": "Does anything else come down on this wall?",
    "post": "Is there one more post, further to the right?",
}
_REMINDER = {
    "carried": "Think of the roof and its braces, the attic, each floor, walls that stand above, tubs, chimneys.",
    "post": "A post with one further to its right stands between the ends.",
}


def label(field: Field) -> str:
    """The short name of a key."""
    words = field.key.split("_")
    if words[-1] in _SIDES and len(words) > 1:
        words[-1] = _SIDES[words[-1]]
    return _CALLED.get(field.key, " ".join(words))


def title(section: Section, item: str, answers: Answers) -> str:
    """What a table is called: by its name where it has one, else by its number."""
    number = item.partition("[")[2].rstrip("]")
    name = said(answers, f"{item}.name")
    if section.key == "post":
        return f"Post {number}{_end(item, int(number), answers)}"
    if number:
        kind = section.key.replace("_", " ").capitalize() if section.key != "carried" else "Carried"
        return f"{kind} {number}{f', {name}' if name else ''}"
    return _TITLES.get(section.key, section.key.replace("_", " ").capitalize())


def _end(item: str, number: int, answers: Answers) -> str:
    if number == 1:
        return ", at the left end"
    if said(answers, f"post[{number + 1}]?") == NO:
        return ", at the right end"
    return ", between the ends" if between(item, answers) else ", to the right of it"


def about(section: Section) -> str:
    """What a part of the survey is about; that a file has one table for each is nothing to who only answers."""
    return section.about.replace(", one table for each", "")


def heading(section: Section, item: str, answers: Answers) -> str:
    """The title of a table, and how far through the main parts it is."""
    named = title(section, item, answers)
    return f"{named} (part {MAIN.index(section.key) + 1} of {len(MAIN)})" if section.key in MAIN else named


def brief(points: Iterable[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """The lines of a question that was asked in full before."""
    return ((head, sentence) for head, sentence in points if head in ("", "choices", "example"))


def full_name(step: Step, answers: Answers) -> str:
    """A question's name in a list of answers."""
    match step.ask:
        case Ask.PARTS:
            return "Further parts"
        case Ask.ANOTHER:
            assert step.section is not None
            return f"One more ({step.item})"
        case Ask.FURTHER | Ask.ENTRY:
            assert step.section is not None
            what = label(step.field) if step.ask is Ask.ENTRY else "further questions"
            return f"{title(step.section, step.item, answers)}: {what}"


def prompt(step: Step, former: Answer | None) -> str:
    """The few words before the line that is typed; ``former``: an answer taken back, which Enter keeps."""
    name = {Ask.ENTRY: "", Ask.PARTS: "parts"}.get(step.ask, "y or n") or label(step.field)
    if former is not None:
        return f"{name} [Enter keeps: {shown(former)}]"
    match step.ask:
        case Ask.ENTRY:
            return name if step.needed else f"{name} [Enter leaves it out]"
        case Ask.PARTS:
            return f"{name} [Enter for none]"
        case Ask.ANOTHER if step.section is not None and step.section.key == "carried":
            return name
        case _:
            return f"{name} [Enter for no]"


def shown(answer: Answer) -> str:
    """An answer in one line."""
    if answer.text == LEFT_OUT:
        return "left out"
    reach = f"{answer.low or '...'} to {answer.high or '...'}" if answer.low or answer.high else ""
    told = "; ".join(filter(None, (answer.trust, reach, answer.note)))
    return f"{answer.text} ({told})" if told else answer.text


def question(step: Step, answers: Answers) -> Iterator[tuple[str, str]]:
    """The lines of a question: a short head for each, and the sentence."""
    match step.ask:
        case Ask.ENTRY:
            yield from _entry(step)
        case Ask.FURTHER:
            several = f"{len(step.fields)} further questions" if len(step.fields) > 1 else "One further question"
            yield "", f"{several} on this, which may be left out: {', '.join(label(field) for field in step.fields)}."
            stood_in = any(field.register for field in step.fields)
            yield "", f"Answer now?{' What is left out gets a cautious figure where there is one.' if stood_in else ''}"
        case Ask.ANOTHER:
            assert step.section is not None
            yield "", _ANOTHER.get(step.section.key, f"One more {step.section.key.replace('_', ' ')}?")
            if step.section.key in _REMINDER:
                yield "", _REMINDER[step.section.key]
        case Ask.PARTS:
            yield "", "The survey can go further. Which of these parts do you want to answer?"
            marked = suggested(answers)
            for number, section in enumerate(OPTIONAL, 1):
                pointed = " Your answers point to it." if section.key in marked else ""
                yield f"{number:2} {section.key.replace('_', ' ')}", f"{about(section)}{pointed}"
            yield "", 'Write their numbers with commas, such as "1, 4", or press Enter for none.'


def _entry(step: Step) -> Iterator[tuple[str, str]]:
    field = step.field
    name = label(field)
    plain = field.about.endswith("?") or field.about.casefold().startswith(name.casefold())
    yield "", field.about if plain else f"{name[0].upper()}{name[1:]}. {field.about}"
    if field.choices:
        yield "choices", choices(field)
    if field.why:
        yield "why", field.why
    if field.measure:
        yield "measure", field.measure
    told = if_unknown(step)
    if told:
        yield "unsure", told
    if field.example and not field.choices:
        yield "example", field.example


def choices(field: Field) -> str:
    """The words that an entry may be, numbered unless they are numbers themselves."""
    if any(choice.isdecimal() for choice in field.choices):
        return ", ".join(field.choices)
    return ", ".join(f"{number} {choice}" for number, choice in enumerate(field.choices, 1))


def if_unknown(step: Step) -> str:
    """What happens if the answer is not known."""
    field, row = step.field, stand_in(step.field, step.kind)
    if step.needed and not field.dimension and not field.choices:
        return "its size must be known; the grade may be unknown." if field.key == "member" else ""
    if step.needed:
        return "it must be known: nothing can stand in for it."
    if row is not None:
        return f"{stood_in_by(row)} ({row.text('lean')}). What would change it: {row.text('flips')}."
    if UNKNOWN in field.choices:
        return "it counts as unknown."
    told = not field.dimension or "left out" in field.about.casefold()
    return "" if told else "nothing stands in, and whatever needs it is not shown."


def stood_in_by(row: Row) -> str:
    """What a row of the register makes of an entry that is not known."""
    text = row.text("value")
    return "it stays unknown" if text == UNKNOWN else f"{text} stands in"


def stand_in(field: Field, kind: str) -> Row | None:
    """The row of the register of cautious defaults that stands in."""
    item = field.register.replace("*", kind.replace(" ", "_"))
    return lookup("practice/defaults", item=item) if item else None


def more(step: Step) -> Iterator[tuple[str, str]]:
    """What ``?`` adds to a question: the units, what would change a stand-in, and what else may be typed."""
    if step.ask is Ask.ENTRY:
        field = step.field
        if field.dimension is not None:
            told, examples = UNIT_EXAMPLES[field.dimension]
            yield "units", f"{told}: {', or '.join(examples)}."
        if field.many:
            yield "several", "Write them with commas between them."
        if field.dimension is None and not field.choices:
            yield "words", 'A word that is also a command is taken as it is in double quotes: "back".'
    for command, what in COMMANDS:
        yield command, f"{what}."
