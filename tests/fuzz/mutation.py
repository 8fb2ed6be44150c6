"""Surveys and unit strings spoilt at random: by line, by value, by key, by byte, by encoding; seeded, so repeatable."""

import random
from collections.abc import Callable

from scraps import ENCODINGS, MEMBERS, NUMBERS, SCRAPS, UNITS, VALUES, WORDS

from beamcheck.survey.fields import SECTIONS, Field

KEYS = {section.key: section for section in SECTIONS}
EVERY = tuple((section, field) for section in SECTIONS for field in section.fields)

Lines = list[str]


class Mutator:
    """Spoils texts; the same seed and number give the same text."""

    def __init__(self, bases: tuple[str, ...], weights: tuple[int, ...], seed: int) -> None:
        self.bases, self.weights, self.seed = bases, weights, seed
        self.dice = random.Random(seed)  # noqa: S311  a repeatable draw

    def survey(self, number: int) -> bytes:
        """The bytes of one spoilt survey."""
        self.dice = random.Random(self.seed * 1_000_003 + number)  # noqa: S311
        text = self.dice.choices(self.bases, self.weights)[0]
        lines = text.splitlines()
        for _ in range(self.dice.choice((1, 1, 1, 1, 2, 2, 3, 5))):
            if lines:
                self.dice.choices(BY_LINE, BY_LINE_WEIGHTS)[0](self, lines)
        data = "\n".join(lines).encode("utf-8", "surrogatepass")
        if self.dice.random() < 0.06:
            data = self.dice.choice(BY_BYTE)(self, data)
        return data

    def place(self, lines: Lines) -> int:
        """The number of a line, one that holds an entry if it can be."""
        entries = [n for n, line in enumerate(lines) if "=" in line and not line.startswith("#")]
        return self.dice.choice(entries or range(len(lines)))

    def quantity(self) -> str:
        """A number and a unit that may or may not go together."""
        if self.dice.random() < 0.2:
            return self.dice.choice(WORDS)
        number = self.dice.choice(NUMBERS) if self.dice.random() < 0.5 else self.figure()
        return f"{number}{self.dice.choice((' ', '', ' ', '-'))}{self.dice.choice(UNITS)}"

    def figure(self) -> str:
        """A plain number of any size."""
        return f"{self.dice.uniform(-1, 1) * 10 ** self.dice.randint(-6, 9):.{self.dice.randint(0, 6)}f}"

    def fitting(self, field: Field) -> str:
        """A text that a field may hold, at the edge of what makes sense or well inside."""
        if field.required and self.dice.random() < 0.5:
            return field.example
        if field.choices:
            return self.dice.choice((*field.choices, "unknown"))
        if field.key in ("member", "joist", "stud", "top_plate"):
            return self.dice.choice(MEMBERS)
        if field.dimension is None:
            told = (field.example or "a word", "post 1", "post 2", "post 1, post 2")
            return self.dice.choice(told if self.dice.random() < 0.7 else WORDS)
        edges = (field.least, field.most, 0.0, self.dice.uniform(field.least, min(field.most, field.least + 200)))
        unit = field.unit if field.unit not in ("1", "lb/in") else {"1": "", "lb/in": "lb/in"}[field.unit]
        shown = f"{self.dice.choice(edges):.6g} {unit}".strip()
        return self.dice.choice((field.example, shown, shown, "unknown"))


def put_fitting(m: Mutator, lines: Lines) -> None:
    """Put an entry of the section that a line belongs to, with a value that it may have."""
    at = m.place(lines)
    start = max((n for n in range(at + 1) if lines[n].startswith("[")), default=-1)
    end = next((n for n in range(start + 1, len(lines)) if lines[n].startswith("[")), len(lines))
    held = {lines[n].partition("=")[0].strip(): n for n in range(start + 1, end)}
    section = KEYS.get(lines[start].strip("[] ") if start >= 0 else "", m.dice.choice(SECTIONS))
    kind = lines[held["kind"]].partition('"')[2].rstrip('" ') if "kind" in held else ""
    fields = [field for field in section.fields if not field.kinds or kind in field.kinds]
    field = m.dice.choice(fields or section.fields)
    value = m.fitting(field).replace("\\", "\\\\").replace('"', '\\"')
    entry = f'{field.key} = "{value}"'
    if m.dice.random() < 0.15:
        trust = m.dice.choice(("measured", "assumed", "looked up", "unknown"))
        entry = f'{field.key} = {{ value = "{value}", trust = "{trust}" }}'
    if field.key in held:
        lines[held[field.key]] = entry
    else:
        lines.insert(start + 1, entry)


def put_section(m: Mutator, lines: Lines) -> None:
    """Add a section with some of its keys at values that they may have."""
    section = m.dice.choice(SECTIONS)
    head = f"[[{section.key}]]" if section.repeated else f"[{section.key}]"
    lines.append(head)
    for field in section.fields:
        if field.required or m.dice.random() < 0.4:
            value = m.fitting(field).replace("\\", "\\\\").replace('"', '\\"')
            lines.append(f'{field.key} = "{value}"')


def spoil_value(m: Mutator, lines: Lines) -> None:
    """Give an entry a quantity that may be nonsense."""
    at = m.place(lines)
    key = lines[at].partition("=")[0]
    lines[at] = f'{key}= "{m.quantity()}"'


def spoil_type(m: Mutator, lines: Lines) -> None:
    """Give an entry a value of another type."""
    at = m.place(lines)
    lines[at] = f"{lines[at].partition('=')[0]}= {m.dice.choice(VALUES)}"


def swap_values(m: Mutator, lines: Lines) -> None:
    """Exchange what two entries hold."""
    a, b = m.place(lines), m.place(lines)
    (key_a, _, value_a), (key_b, _, value_b) = lines[a].partition("="), lines[b].partition("=")
    lines[a], lines[b] = f"{key_a}={value_b}", f"{key_b}={value_a}"


def drop_line(m: Mutator, lines: Lines) -> None:
    """Leave a line out."""
    lines.pop(m.dice.randrange(len(lines)))


def repeat_line(m: Mutator, lines: Lines) -> None:
    """Write a line twice: a key given twice, or an empty table."""
    at = m.dice.randrange(len(lines))
    lines.insert(at, lines[at])


def move_line(m: Mutator, lines: Lines) -> None:
    """Put a line elsewhere."""
    line = lines.pop(m.dice.randrange(len(lines)))
    lines.insert(m.dice.randrange(len(lines) + 1), line)


def other_key(m: Mutator, lines: Lines) -> None:
    """Give an entry another key."""
    at = m.place(lines)
    _, field = m.dice.choice(EVERY)
    key = m.dice.choice((field.key, "where", "colour", '"a b"', "a.b.c", "__class__", "é"))
    lines[at] = f"{key} ={lines[at].partition('=')[2]}"


def repeat_section(m: Mutator, lines: Lines) -> None:
    """Write a section again, many times over now and then."""
    heads = [n for n, line in enumerate(lines) if line.startswith("[")]
    if heads:
        start = m.dice.choice(heads)
        end = next((n for n in heads if n > start), len(lines))
        times = m.dice.choice((1, 1, 1, 2, 5, 70))
        lines[end:end] = lines[start:end] * times


def drop_section(m: Mutator, lines: Lines) -> None:
    """Leave a section out."""
    heads = [n for n, line in enumerate(lines) if line.startswith("[")]
    if heads:
        start = m.dice.choice(heads)
        end = next((n for n in heads if n > start), len(lines))
        del lines[start:end]


def nest(m: Mutator, lines: Lines) -> None:
    """Add tables or lists that go deep."""
    deep = m.dice.choice((3, 30, 900, 3000))
    kinds = (
        f"[{'.'.join('a' * deep)}]",
        f"x = {'[' * deep}{']' * deep}",
        f"x = {'{ a = ' * deep}1{' }' * deep}",
        f"wall.{'.'.join('b' * deep)} = 1",
        f"[[post.{'.'.join('c' * min(deep, 30))}]]",
    )
    lines.insert(m.dice.randrange(len(lines) + 1), m.dice.choice(kinds))


def spoil_signs(m: Mutator, lines: Lines) -> None:
    """Put odd signs into a line."""
    at = m.dice.randrange(len(lines))
    spot = m.dice.randrange(len(lines[at]) + 1)
    odd = m.dice.choice(
        ("\x00", "\x1b[31m", "\ufeff", "\u202e", "\ud800", '"', "'", "#", "=", "\r", "\u2028", "\\", "]", "½")
    )
    lines[at] = lines[at][:spot] + odd + lines[at][spot:]


def cut_off(m: Mutator, data: bytes) -> bytes:
    """The file ends early."""
    return data[: m.dice.randrange(len(data) + 1)]


def flip(m: Mutator, data: bytes) -> bytes:
    """Some bytes are others."""
    found = bytearray(data)
    for _ in range(m.dice.randint(1, 6)):
        if found:
            found[m.dice.randrange(len(found))] = m.dice.randrange(256)
    return bytes(found)


def encode(m: Mutator, data: bytes) -> bytes:
    """The text in another encoding."""
    return data.decode("utf-8", "replace").encode(m.dice.choice(ENCODINGS), "replace")


def doubled(m: Mutator, data: bytes) -> bytes:
    """The file twice, or its start after its end."""
    return data + m.dice.choice((data, data[:200], b"\x00" * 50, b"\xff\xfe", b"\n" * 5000))


BY_LINE: tuple[Callable[[Mutator, Lines], None], ...] = (
    put_fitting,
    put_section,
    spoil_value,
    spoil_type,
    swap_values,
    drop_line,
    repeat_line,
    move_line,
    other_key,
    repeat_section,
    drop_section,
    nest,
    spoil_signs,
)
BY_LINE_WEIGHTS = (24, 4, 6, 3, 3, 3, 1, 2, 1, 1, 1, 1, 2)
BY_BYTE: tuple[Callable[[Mutator, bytes], bytes], ...] = (cut_off, flip, encode, doubled)


def unit_text(dice: random.Random) -> str:
    """A text that may or may not be a quantity."""
    way = dice.random()
    if way < 0.35:
        return f"{dice.choice(NUMBERS)}{dice.choice((' ', '', '  '))}{dice.choice(UNITS)}"
    if way < 0.55:
        feet = f"{dice.randint(0, 40)}{dice.choice((' ft ', chr(39), '-', ' feet '))}"
        return f"{feet}{dice.choice(NUMBERS)}{dice.choice(UNITS)}"
    if way < 0.9:
        return "".join(dice.choice(SCRAPS) for _ in range(dice.randint(1, 8)))
    odd = (dice.choice((dice.randint(0, 127), dice.randint(0, 0x2FF), dice.randint(0, 0x10FFFF))) for _ in range(8))
    return "".join(map(chr, odd))
