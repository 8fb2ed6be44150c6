"""A survey to fill in, made from the list of fields: every key with what it is, an example and its cautious default."""

from beamcheck.survey.fields import SECTIONS, Field, Section
from beamcheck.tables import lookup

_HEAD = """\
# A survey for bearline. Write each length, load and weight as text with its unit: "13 ft 6-1/2 in", "40 psf".
# A plain text counts as stated. To say how you know it, write a table instead:
#   clear_opening = { value = "13 ft 6 in", trust = "measured", low = "13 ft 5 in", high = "13 ft 7 in" }
# trust is one of: measured, seen, looked up, stated, assumed, unknown. Write "unknown" where you do not know:
# a cautious figure then stands in where there is one, and the summary lists it as assumed.
# What comes out is a study aid to take to a licensed engineer. It decides nothing.
"""

_KINDS = ("floor", "roof", "strut", "wall above")


def blank() -> str:
    """The text of a commented survey, keys that may be left out commented out."""
    return "\n".join([_HEAD, *(part for section in SECTIONS for part in _section(section))])


def _section(section: Section) -> list[str]:
    kinds = _KINDS if section.key == "carried" else ("",)
    times = 2 if section.key == "post" else 1
    lines = [f"# {section.about}"]
    for kind in kinds * times:
        lines.append(f"[[{section.key}]]" if section.repeated else f"[{section.key}]")
        for field in section.fields:
            if not field.kinds or kind in field.kinds:
                lines += _field(field, kind)
        lines.append("")
    if section.optional:
        return [line if line.startswith("#") or not line else f"# {line}" for line in lines]
    return lines


def _field(field: Field, kind: str) -> list[str]:
    lines = [f"# {field.about}"]
    if field.choices:
        lines.append(f"#   one of: {', '.join(field.choices)}")
    item = field.register.replace("*", kind.replace(" ", "_"))
    if item:
        row = lookup("practice/defaults", item=item)
        lines.append(f"#   if unknown: {row.text('value')} ({row.text('lean')})")
    example = kind if field.key == "kind" else field.example
    quoted = '"' + example.replace("\\", "\\\\").replace('"', '\\"') + '"'
    lines.append(f"{field.key} = {quoted}" if field.required else f"# {field.key} = {quoted}")
    return lines
