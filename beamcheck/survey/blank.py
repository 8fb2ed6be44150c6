"""A survey to fill in, made from the list of fields: every key with what it is and an example, none of them a value."""

import textwrap
from collections.abc import Iterator, Mapping
from types import MappingProxyType

from beamcheck.survey.fields import SECTIONS, Field, Section
from beamcheck.tables import lookup

_HEAD = """\
## A survey for bearline. Nothing in this file counts until you write it.
##
## Lines that begin with ## explain. A line that begins with one # shows a key with an example: take the # away and
## write, between the quotes, what you measured or know. So
##   # some_length = "13 ft 6 in"      becomes      some_length = "12 ft 9-1/2 in"
## Leave the # before what does not concern you. First do what is marked NEEDED;  bearline check  then tells the rest.
##
## Write each length, load and weight with its unit: "13 ft 6-1/2 in", "40 psf", "8:12" for a roof pitch.
## A plain text counts as stated. To say how you know it, write a table instead:
##   some_length = { value = "12 ft 9 in", trust = "measured", low = "12 ft 8 in", high = "12 ft 10 in" }
## trust is one of: measured, seen, looked up, stated, assumed, unknown. Write "unknown" where you do not know:
## a cautious figure then stands in where there is one, and the summary lists it as assumed.
## What comes out is a study aid to take to a licensed engineer. It decides nothing.
"""

_NAMES: Mapping[str, str] = MappingProxyType({
    "roof": "roof over the wall",
    "ceiling": "attic joists",
    "floor": "bedroom floor",
    "wall above": "wall between the bedrooms",
    "strut": "roof brace",
    "point": "post from above",
    "line": "load of the porch roof",
})  # fmt: skip
_BLOCKS: Mapping[str, str] = MappingProxyType({
    "carried": "NEEDED, one or more: take the # from the heading of each block below that comes down on this wall, and "
    "from its lines. For a second floor or brace copy the block.",
    "post": "Two are here, for the ends of the opening; write a post between them as a [[post]] of its own.",
})  # fmt: skip
_POSTS = ("post[1], at the left end", "post[2], at the right end")
_WIDTH = 116


def blank() -> str:
    """The text of a commented survey without a single value in it."""
    return "\n".join([_HEAD, *(line for section in SECTIONS for line in _section(section))])


def _section(section: Section) -> Iterator[str]:
    yield f"## ---------- {section.key} ----------"
    yield from _told(section.about)
    yield from _told(_BLOCKS.get(section.key, "This part may be left out." if section.optional else ""))
    kinds = next((field.choices for field in section.fields if field.key == "kind"), ())
    out = "# " if section.optional or kinds else ""
    told: set[str] = set()
    for block in kinds or (_POSTS if section.key == "post" else ("",)):
        if block:
            yield ""
            yield from _told(block)
        yield f"{out}[[{section.key}]]" if section.repeated else f"{out}[{section.key}]"
        for field in section.fields:
            if not field.kinds or block in field.kinds:
                yield from _field(field, block, again=field.key in told)
                told.add(field.key)
    yield ""


def _field(field: Field, kind: str, *, again: bool) -> Iterator[str]:
    yield from _told(f"{'NEEDED. ' if field.required else ''}{field.about}")
    if field.choices and not (again and field.key == "kind"):
        yield from _told(f"{'any' if field.many else 'one'} of: {', '.join(field.choices)}", "  ")
    if field.measure and not again:
        yield from _told(f"to find out: {field.measure}", "  ")
    item = field.register.replace("*", kind.replace(" ", "_"))
    if item:
        row = lookup("practice/defaults", item=item)
        yield from _told(f"if unknown: {row.text('value')} ({row.text('lean')})", "  ")
    example = {"kind": kind, "name": _NAMES.get(kind, field.example)}.get(field.key, field.example)
    quoted = '"' + example.replace("\\", "\\\\").replace('"', '\\"') + '"'
    yield f"# {field.key} = {quoted}"


def _told(sentence: str, indent: str = "") -> Iterator[str]:
    """A sentence as comment lines."""
    for line in textwrap.wrap(sentence, _WIDTH - len(indent), break_on_hyphens=False):
        yield f"## {indent}{line}"
