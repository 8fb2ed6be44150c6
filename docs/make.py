"""Make docs/reference/ and the man page from tables, clauses, the fields of a survey and commands:  docs/make.py"""

from collections import defaultdict
from pathlib import Path

import manual

from beamcheck import tables
from beamcheck.survey.fields import SECTIONS
from beamcheck.tables import Row
from beamcheck.views.formula import line

HERE = Path(__file__).parent
MADE = "<!-- made by docs/make.py: change the tables and the code, not this page -->\n"


def main() -> None:
    """Write every page that is made."""
    for name, text in pages().items():
        (HERE / name).write_text(text, encoding="utf-8")


def pages() -> dict[str, str]:
    """The pages by file name."""
    return {
        "reference/README.md": _contents(),
        "reference/clauses.md": _clauses(),
        "reference/tables.md": _tables(),
        "reference/survey.md": _survey(),
        "reference/commands.md": f"{MADE}\n{manual.commands_page()}",
        "bearline.1": manual.man_page(),
    }


def _contents() -> str:
    return f"""{MADE}
# Reference

* [Clauses](clauses.md): every clause that bearline computes, with its formula, and what of each document is left out
* [Tables](tables.md): every table of figures with its source and how it was verified
* [Survey](survey.md): every key that a survey may hold
* [Commands](commands.md): every command with its options, exit codes and examples; the same as a man page is
  [bearline.1](../bearline.1)
"""


def _clauses() -> str:
    from beamcheck.standards import clauses

    found = {clause.key: clause for clause in clauses()}
    by_document: dict[str, list[str]] = defaultdict(list)
    for row in tables.load("clauses").rows:
        clause = found[row.text("clause")]
        document = tables.cited(row.text("document"), row.text("edition"))
        by_document[document].append(f"| {row.text('place')} | {row.text('title')} | `{line(clause)}` | {row.seen} |")
    told = "Each is one function; `seen` says how the rule was seen. None was read in the printed document."
    parts = [MADE, f"# Clauses\n\n{told}\n"]
    for document, lines in sorted(by_document.items()):
        parts.append(f"\n## {document}\n\n| place | gives | formula | seen |\n|---|---|---|---|\n")
        parts.append("\n".join(lines) + "\n")
    parts.append("\n## Not done, and why\n\n| document | place | what | state | why |\n|---|---|---|---|---|\n")
    parts += [_cells(row, "document", "place", "title", "state", "why") for row in tables.load("coverage").rows]
    return "".join(parts)


def _tables() -> str:
    parts = [MADE, "# Tables\n\n| table | what | source | rows | verified | from memory |\n|---|---|---|---|---|---|\n"]
    for name in tables.names():
        table = tables.load(name)
        memory = sum(row.seen == "memory" for row in table.rows)
        source = f"{tables.cited(table.document, table.edition)}, {table.place}"
        cells = (f"`{name}`", table.title, source, str(len(table.rows)), table.verified, str(memory or "none"))
        parts.append(f"| {' | '.join(cells)} |\n")
    return "".join(parts)


def _survey() -> str:
    parts = [MADE, "# Survey\n\nWhere a key may be unknown, the last column is what stands in.\n"]
    for section in SECTIONS:
        parts.append(f"\n## {section.key}\n\n{section.about}\n\n")
        parts.append("| key | what | example | if unknown |\n|---|---|---|---|\n")
        for field in section.fields:
            kinds = f" ({', '.join(field.kinds)})" if field.kinds else ""
            words = f" {'Any' if field.many else 'One'} of: {', '.join(field.choices)}." if field.choices else ""
            stands = "needed" if field.required else _stand_in(field.register, field.kinds)
            parts.append(f"| `{field.key}`{kinds} | {field.about}{words} | `{field.example}` | {stands} |\n")
    return "".join(parts)


def _stand_in(register: str, kinds: tuple[str, ...]) -> str:
    if not register:
        return ""
    items = [register.replace("*", kind.replace(" ", "_")) for kind in kinds or ("",)]
    return "; ".join(dict.fromkeys(tables.lookup("practice/defaults", item=item).text("value") for item in items))


def _cells(row: Row, *columns: str) -> str:
    return f"| {' | '.join(row.text(column) for column in columns)} |\n"


if __name__ == "__main__":
    main()
