"""The printed summary as one self-contained page: strict XHTML from one template, drawings and formulas inside it.

The same markup is what ``pdf`` walks, so paper and screen cannot drift apart.
"""

import re
from collections.abc import Mapping
from enum import StrEnum
from functools import cache
from pathlib import Path
from typing import Any, Literal

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from beamcheck.study import registers
from beamcheck.study.types import Study
from beamcheck.tables import Row
from beamcheck.trace import Looked, Taken, Value
from beamcheck.views import contents, grids, steps
from beamcheck.views.diagrams import diagrams
from beamcheck.views.elevation import after, before
from beamcheck.views.marked import symbol_markup, with_symbols
from beamcheck.views.mathml import STYLE
from beamcheck.views.plan import plan
from beamcheck.views.printed import shown
from beamcheck.views.steps import Typeset
from beamcheck.views.words import CAUTIONS, SHORT_CAUTION, STATUS

TEMPLATES = Path(__file__).parent / "templates"

Paper = Literal["letter", "a4"]
_UNKNOWN, _ASKED, _BESIDE_ASKED = 3, 3, 1  # that stand on the first page: at least, of those that tip, beside them


class Book(StrEnum):
    """Whether the calculation of every check follows the summary."""

    NO = "no"
    FULL = "full"


def sheet_html(
    study: Study, paper: Paper = "letter", book: Book = Book.NO, asked: tuple[registers.Unknown, ...] = ()
) -> str:
    """The summary as one page without scripts or outside files; prints on the paper named.

    asked: what stands first among the unknowns, since it would tip a link.
    """
    return rendered(study, paper, book, steps.page_maths, asked)


def rendered(
    study: Study, paper: Paper, book: Book, typeset: Typeset, asked: tuple[registers.Unknown, ...] = ()
) -> str:
    """The summary with its formulas written by ``typeset``: for the page, or for the walker that makes the PDF."""
    inner, outer = registers.core(study), registers.around(study)
    page = {
        "css": Markup(style_sheet(paper)),  # noqa: S704  our own file
        "calculations": steps.calculations(steps.governing(inner), typeset, study.survey.about.dimensions),
        "full": book is Book.FULL,
        "annex": _annex(outer, inner) if book is Book.FULL else {},
        "book": _book(study, typeset) if book is Book.FULL else (),
        **_front(study, inner, asked),
        **_loads(inner),
        **_leaning(inner),
        **_house(study, inner, outer),
    }
    return _environment().get_template("sheet.xhtml").render(page)


def _front(study: Study, inner: Study, asked: tuple[registers.Unknown, ...]) -> Mapping[str, Any]:
    return {
        "about": study.survey.about,
        "title_block": contents.title_block(study),
        "status": STATUS,
        "cautions": CAUTIONS,
        "question": contents.question(study),
        "mixed": study.mixed,
        "before": Markup(before(study)),  # noqa: S704  our own drawing, which escapes
        "after": Markup(after(study)),  # noqa: S704
        "plan": Markup(plan(study)),  # noqa: S704
        "chain": contents.chain(study),
        "tally": contents.tally(study),
        "governs": contents.governs(inner),
        "asked": asked[:_ASKED],
        "foremost": _others(study, asked[:_ASKED]),
    }


def _others(study: Study, asked: tuple[registers.Unknown, ...]) -> tuple[registers.Unknown, ...]:
    """The foremost unknowns that are not asked already; fewer of them beside what is asked."""
    names = {unknown.name for unknown in asked}
    others = (unknown for unknown in registers.foremost(study, _UNKNOWN + len(names)) if unknown.name not in names)
    return tuple(others)[: max(_UNKNOWN - len(asked), _BESIDE_ASKED)]


def _loads(study: Study) -> Mapping[str, Any]:
    combinations = "; ".join(c.name for c in study.loaded.combinations) if study.loaded else "not shown"
    return {
        "takedown": grids.takedown(study),
        "movement": grids.movement(study),
        "reactions": grids.reaction_grid(study),
        "parts": grids.parts(study),
        "pads": grids.pads(study),
        "checks": grids.side_by_side(grids.parts(study)),
        "tables_of_chain": grids.tables_of_chain(study),
        "combinations": combinations,
        "diagrams": tuple(Markup(drawn) for drawn in diagrams(study)),  # noqa: S704  our own drawings, which escape
        "notes": contents.notes(study),
    }


def _leaning(study: Study) -> Mapping[str, Any]:
    """What figures lean on beside clauses: factors of 1.0, memory, tables."""
    dimensions, clauses = study.survey.about.dimensions, registers.clauses_used(study)
    return {
        "ones": tuple(_one(value) for value in registers.ones(study)),
        "memory": tuple(_memory(value, dimensions) for value in registers.from_memory(study)),
        "memory_clauses": (
            *((c.row.text("title"), c.reference) for c in clauses if c.row.seen == "memory"),
            *_joints(registers.rows_from_memory(study)),
        ),
        "tables": registers.tables_used(study),
        "documents": contents.documents(registers.tables_used(study)),
    }


def _joints(rows: tuple[Row, ...]) -> tuple[tuple[str, str], ...]:
    """What holds the joints of the posts, all of them in one line, for they come from one table."""
    names = ", ".join(dict.fromkeys(row.text("where") for row in rows))
    return ((f"joints: {names}", rows[0].source),) if rows else ()


def _annex(study: Study, inner: Study) -> Mapping[str, Any]:
    """What lies around the chain, link by link, with what it leans on and what is to be measured for it."""
    known = {entry.where for entry in (*registers.to_measure(inner), *registers.told(inner))}
    return {
        "parts": grids.parts(study),
        "notes": contents.notes(study),
        "stops": contents.stops(study),
        "told": contents.trusted(tuple(entry for entry in registers.told(study) if entry.where not in known)),
        "to_measure": tuple(entry for entry in registers.to_measure(study) if entry.where not in known),
        **_leaning(study),
    }


def _house(study: Study, inner: Study, outer: Study) -> Mapping[str, Any]:
    return {
        "assumed": contents.assumed(study),
        "told": contents.trusted(registers.told(inner)),
        "stops": (*contents.stops(inner), *(stop.short() for stop in contents.stops(outer))),
        "plies": study.beam.plies,
        "flush": study.survey.beam.position == "flush",
        "to_measure": registers.to_measure(inner),
        "version": study.version,
        "sha256": study.survey.sha256,
        "file": study.survey.file,
    }


def _one(value: Value) -> tuple[Markup, str, str]:
    assert isinstance(value.origin, Taken)
    return symbol_markup(value.name), value.origin.reason, value.origin.place


def _memory(value: Value, dimensions: str) -> tuple[Markup, str, str]:
    assert isinstance(value.origin, Looked)
    told = f"{value.origin.row.label}: {value.origin.reference}"
    return symbol_markup(value.name), shown(value, dimensions), told


def _book(study: Study, typeset: Typeset) -> tuple[tuple[str, tuple[steps.Calculation, ...]], ...]:
    dimensions = study.survey.about.dimensions
    return tuple((title, steps.calculations(wanted, typeset, dimensions)) for title, wanted in steps.every(study))


def style_sheet(paper: Paper) -> str:
    """The style sheet, with the caution and the page number on every printed page."""
    box = 'font: 6.8pt "DejaVu Sans Mono", "Liberation Mono", Menlo, Consolas, monospace'
    margins = (
        f'@top-left {{ content: "{STATUS}"; {box}; }}'
        f'@bottom-left {{ content: "{SHORT_CAUTION}"; {box}; width: 85%; }}'
        f'@bottom-right {{ content: "page " counter(page) " of " counter(pages); {box}; }}'
    )
    page = f"@page {{ size: {paper}; margin: 0.55in 0.52in 0.55in; {margins} }}\n"
    return page + (TEMPLATES / "sheet.css").read_text("utf-8") + STYLE


def _sentence(words: str) -> str:
    """Words as a sentence: a full stop last and a capital first, unless they begin with a key of the survey."""
    first = words[:1] if "." in words.partition(" ")[0] else words[:1].upper()
    return words and f"{first}{words[1:].rstrip('.')}."


def _gist(title: str) -> str:
    """A table's title up to where it begins to explain itself."""
    return re.split(r"[:;]| = ", title)[0]


@cache
def _environment() -> Environment:
    made = Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters["sentence"] = _sentence
    made.filters["gist"] = _gist
    made.filters["cited"] = contents.document
    made.filters["symbols"] = with_symbols
    return made
