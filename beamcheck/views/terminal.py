"""Draw a study for the terminal: words, numbers and bar patterns, so that nothing hangs on colour."""

from typing import TYPE_CHECKING

from beamcheck.trace import Check, Item, Looked, Missing, Note, Refer, Schedule, Sheet, Value
from beamcheck.views.plain import WIDTH, Plain
from beamcheck.views.words import CAUTIONS, SHORT_CAUTION, STATUS, bar, figure, headline, ratio, under

if TYPE_CHECKING:
    from beamcheck.study.types import Study

_FIGURES = frozenset({"demand", "limit", "utilisation", "psf", "tributary ft", "factor", "plf or lb", "down"})
_CHECK_HEADS = ("check", "demand", "limit", "utilisation", "", "", "governed by")
_BARRED = 5  # the column of the bar among them
_BAR, _SHORT_BAR = 20, 12


def part_text(sheet: Sheet, width: int = WIDTH) -> str:
    """One sheet by itself, under the cautions."""
    out = Plain(width)
    cautions(out)
    draw(out, sheet)
    out.text()
    out.text(SHORT_CAUTION, "! ")
    return str(out)


def study_text(study: "Study", width: int = WIDTH) -> str:
    """The whole study: cautions, result, chain, then link by link, and what was assumed."""
    out = Plain(width)
    cautions(out)
    out.text(f"{study.survey.about.title}. {study.survey.about.address}")
    _result(out, study)
    for stop in study.mixed:
        out.text(f"{stop.title}. {stop.why}.", "! ")
    _chain(out, study)
    for link in study.links:
        draw(out, link.sheet, study.survey.about.dimensions)
    _assumed(out, study)
    out.text()
    out.text(f"bearline {study.version}; survey {study.survey.file}, sha256 {study.survey.sha256[:16]}")
    out.text(SHORT_CAUTION, "! ")
    return str(out)


def cautions(out: Plain) -> None:
    """The status line and the cautions, on top of every output."""
    out.rule(STATUS, "=")
    for sentence in CAUTIONS:
        out.text(sentence, "! ")
    out.rule(mark="=")


def _result(out: Plain, study: "Study") -> None:
    governing = study.governing
    told = f"Result of the study: {headline(study)}. "
    if governing is None:
        out.text(f"{told}No utilisation can be shown yet.")
        return
    worked = f"{governing.title} ({governing.key}), utilisation {ratio(governing)}, {governing.word}"
    out.text(f"{told}Of what could be checked, the hardest-working link: {worked}.")
    beside = [f"{link.title}, {ratio(link.governing)}" for link in study.over_beside if link.governing is not None]
    if beside:
        out.text(f"Over beside the chain: {'; '.join(beside)}.")


def _chain(out: Plain, study: "Study") -> None:
    rows = []
    for link in study.links:
        check = link.governing
        if check is None:
            rows.append((link.title, link.said, "", "", ""))
        else:
            drawn = bar(float(check.ratio), _BAR if out.width >= WIDTH else _SHORT_BAR)
            rows.append((link.title, link.said, ratio(check), drawn, check.title))
    out.text()
    out.rule("The chain from the roof to the ground")
    out.table(("link", "result", "utilisation", "", "governed by"), rows, _FIGURES)


def _assumed(out: Plain, study: "Study") -> None:
    from beamcheck.study.registers import assumed, clauses_used, from_memory, rows_from_memory

    out.text()
    out.rule("Assumed, because it was not known")
    for entry in assumed(study):
        change = f" What would change it: {entry.flips}." if entry.flips else ""
        lean = f", {entry.lean}" if entry.lean else ""
        out.text(f"{entry.where} = {entry.text} ({entry.trust}){lean}.{change}", "  ")
    memory = [f"{value.name} of {_row(value)}" for value in from_memory(study)]
    memory += [f"clause {part.key} ({part.reference})" for part in clauses_used(study) if part.row.seen == "memory"]
    memory += [f"{row.table.name}, {row.label} ({row.source})" for row in rows_from_memory(study)]
    out.text()
    out.rule("From memory: have these looked up before relying on them")
    for told in memory or ["nothing"]:
        out.text(told, "  ")


def _row(value: Value) -> str:
    assert isinstance(value.origin, Looked)
    return f"{value.origin.row.table.name}, {value.origin.row.label} ({value.origin.reference})"


def draw(out: Plain, sheet: Sheet, dimensions: str = "feet") -> None:
    """A sheet: its checks as one table, the rest in order; lengths in feet and inches or metric."""
    out.text()
    out.rule(sheet.title)
    checks = [item for item in sheet.items if isinstance(item, Check)]
    if checks:
        rows = [_check(check, dimensions) for check in checks]
        if out.width < WIDTH:  # the bar draws what the number beside it says
            out.table(_without_bar(_CHECK_HEADS), [_without_bar(row) for row in rows], _FIGURES)
        else:
            out.table(_CHECK_HEADS, rows, _FIGURES)
    for item in sheet.items:
        _draw_other(out, item, dimensions)


def _check(check: Check, dimensions: str) -> tuple[str, ...]:
    demand, limit = check.instead or figure(check.demand, dimensions), figure(check.limit, dimensions)
    return (check.title, demand, limit, ratio(check), check.word, bar(float(check.ratio)), under(check, dimensions))


def _without_bar(cells: tuple[str, ...]) -> tuple[str, ...]:
    return (*cells[:_BARRED], *cells[_BARRED + 1 :])


def _draw_other(out: Plain, item: Item, dimensions: str) -> None:
    match item:
        case Sheet():
            draw(out, item, dimensions)
        case Value():
            out.text(f"{item.called}: {figure(item, dimensions)}", "  ")
        case Schedule():
            rows = [_cells(row, item.heads, dimensions) for row in item.rows]
            out.text()
            out.text(item.title)
            out.table(item.heads, rows, _FIGURES)
        case Refer():
            out.text(f"REFER  {item.title}. {item.why}.", "  ")
            out.text(f"Ask the engineer: {item.ask}", "         ")
        case Missing():
            out.text(f"NOT SHOWN  {item.title}: {item.need}", "  ")
        case Note():
            out.text(f"note: {item.text}", "  ")


def _cells(row: tuple[str | Value, ...], heads: tuple[str, ...], dimensions: str) -> list[str]:
    """Words, and figures; a length under a head that names feet stays in feet, to multiply with."""
    found = []
    for cell, head in zip(row, heads, strict=True):
        wanted = "feet" if head.endswith(" ft") else dimensions
        found.append(cell if isinstance(cell, str) else figure(cell, wanted))
    return found
