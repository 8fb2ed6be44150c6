"""Draw a sheet in the terminal: words, numbers and bar patterns, so that nothing hangs on colour."""

from rich.console import Console
from rich.table import Table

from beamcheck.study.registers import assumed, clauses_used, from_memory
from beamcheck.study.types import Study
from beamcheck.trace import Check, Item, Looked, Missing, Note, Refer, Schedule, Sheet, Value
from beamcheck.views.words import CAUTIONS, SHORT_CAUTION, STATUS, bar, figure, ratio

WIDTH = 110


def console() -> Console:
    """A console of fixed width without colour, so that the same study prints the same bytes anywhere."""
    return Console(width=WIDTH, highlight=False, color_system=None, markup=False, emoji=False)


def cautions(out: Console) -> None:
    """The status line and the cautions, on top of every output."""
    out.rule(STATUS, characters="=")
    for sentence in CAUTIONS:
        out.print(f"! {sentence}")
    out.rule(characters="=")


def short_caution(out: Console) -> None:
    """The one-line caution, for outputs of a few lines."""
    out.print(f"! {SHORT_CAUTION}")


def show(out: Console, study: Study) -> None:
    """The whole study: cautions, result, chain, then link by link, and what was assumed."""
    cautions(out)
    out.print(f"{study.survey.about.title}. {study.survey.about.address}")
    _result(out, study)
    _chain(out, study)
    for link in study.links:
        draw(out, link.sheet)
    _assumed(out, study)
    out.print()
    out.print(f"bearline {study.version}; survey {study.survey.file} sha256 {study.survey.sha256[:16]}")
    short_caution(out)


def _result(out: Console, study: Study) -> None:
    governing = study.governing
    out.print(f"Result of the study: {study.settled.upper()}.", end=" ")
    if governing is not None:
        worked = f"{governing.title} ({governing.key}), utilisation {ratio(governing)}, {governing.word}"
        out.print(f"The hardest-working link: {worked}.")
    else:
        out.print("No utilisation can be shown yet.")


def _chain(out: Console, study: Study) -> None:
    table = _table("link", "result", "utilisation", "", "governed by")
    for link in study.links:
        check = link.governing
        if check is None or link.word == "not shown":
            table.add_row(link.title, link.word, "", "", "")
        else:
            table.add_row(link.title, link.word, ratio(check), bar(float(check.ratio)), check.title)
    out.print()
    out.rule("The chain from the roof to the ground", characters="-", align="left")
    out.print(table)


def _assumed(out: Console, study: Study) -> None:
    out.print()
    out.rule("Assumed, because it was not known", characters="-", align="left")
    for entry in assumed(study):
        change = f" What would change it: {entry.flips}." if entry.flips else ""
        out.print(f"  {entry.where} = {entry.text} ({entry.trust}) {entry.lean}.{change}")
    memory = [f"{value.name} of {_row(value)}" for value in from_memory(study)]
    memory += [
        f"clause {clause.key} ({clause.reference})" for clause in clauses_used(study) if clause.row.seen == "memory"
    ]
    out.print()
    out.rule("From memory: have these looked up before relying on them", characters="-", align="left")
    for told in memory or ["nothing"]:
        out.print(f"  {told}")


def _row(value: Value) -> str:
    assert isinstance(value.origin, Looked)
    return f"{value.origin.row.table.name}, {value.origin.row.label} ({value.origin.reference})"


def draw(out: Console, sheet: Sheet) -> None:
    """A sheet: its checks as one table, the rest in order."""
    out.print()
    out.rule(sheet.title, characters="-", align="left")
    checks = [item for item in sheet.items if isinstance(item, Check)]
    if checks:
        out.print(_checks(checks))
    for item in sheet.items:
        _draw_other(out, item)


def _checks(checks: list[Check]) -> Table:
    table = _table("check", "demand", "limit", "utilisation", "", "", "governed by")
    for check in checks:
        table.add_row(
            check.title,
            figure(check.demand),
            figure(check.limit),
            ratio(check),
            check.word,
            bar(float(check.ratio)),
            check.when,
        )
    return table


def _draw_other(out: Console, item: Item) -> None:
    match item:
        case Sheet():
            draw(out, item)
        case Value():
            out.print(f"  {item.title or item.name}: {figure(item)}")
        case Schedule():
            table = _table(*item.heads)
            for row in item.rows:
                table.add_row(*(cell if isinstance(cell, str) else figure(cell) for cell in row))
            out.print(table)
        case Refer():
            out.print(f"  REFER  {item.title}. {item.why}.")
            out.print(f"         Ask the engineer: {item.ask}")
        case Missing():
            out.print(f"  NOT SHOWN  {item.title}: {item.need}")
        case Note():
            out.print(f"  note: {item.text}")


def _table(*heads: str) -> Table:
    table = Table(box=None, pad_edge=True, padding=(0, 1), show_edge=False)
    for head in heads:
        numeric = head in (
            "demand",
            "limit",
            "utilisation",
            "psf",
            "tributary ft",
            "factor",
            "plf or lb",
            "down",
        )
        table.add_column(head, justify="right" if numeric else "left", overflow="fold")
    return table
