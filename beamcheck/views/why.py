"""Open one number: formula, inputs, their origins, down to the tape measure."""

from rich.tree import Tree

from beamcheck.study.find import Found
from beamcheck.survey.model import Word
from beamcheck.trace import Check, Computed, Given, Looked, Missing, Refer, Solved, Taken, Value
from beamcheck.views.console import console
from beamcheck.views.formula import line
from beamcheck.views.plain import WIDTH
from beamcheck.views.words import SHORT_CAUTION, figure, ratio, solved, under


def explain(found: Found, dimensions: str = "feet", width: int = WIDTH) -> None:
    """The thing and all it rests on, as a tree; what was opened once is not opened again."""
    out = console(width)
    out.print(f"! {SHORT_CAUTION}")
    match found:
        case Check():
            out.print(f"{found.title}: utilisation {ratio(found)}, {found.word}. {under(found, dimensions)}")
            demand = found.instead or figure(found.demand, dimensions)
            tree = Tree(f"demand / limit = {demand} / {figure(found.limit, dimensions)}")
            seen: set[int] = set()
            _grow(tree, "demand", found.demand, seen, dimensions)
            _grow(tree, "limit", found.limit, seen, dimensions)
            out.print(tree)
        case Value():
            tree = Tree(found.called)
            _grow(tree, "", found, set(), dimensions)
            out.print(tree)
        case Word():
            out.print(f"{found.where}: {found.text} ({found.trust}) {found.note}")
            if found.lean:
                out.print(f"  {found.lean}. What would change it: {found.flips}.")
        case Refer():
            out.print(f"REFER  {found.title}. {found.why}. Ask the engineer: {found.ask}")
        case Missing():
            out.print(f"NOT SHOWN  {found.title}: {found.need}")


def _grow(tree: Tree, role: str, value: Value, seen: set[int], dimensions: str) -> None:
    label = f"{role}: " if role and role != value.name else ""
    if id(value) in seen:
        tree.add(f"{label}{value.name} = {figure(value, dimensions)}  (opened above)")
        return
    seen.add(id(value))
    branch = tree.add(f"{label}{_told(value, dimensions)}")
    for name, parent in value.inputs:
        _grow(branch, name, parent, seen, dimensions)


def _told(value: Value, dimensions: str) -> str:
    origin = value.origin
    shown = f"{value.name} = {figure(value, dimensions)}"
    match origin:
        case Computed():
            seen = origin.clause.row.seen
            flag = "; clause from memory" if seen == "memory" else ""
            return f"{line(origin.clause, origin.inputs)}   [{origin.clause.reference}{flag}]"
        case Looked():
            flag = "; FROM MEMORY, look it up before relying on it" if origin.seen == "memory" else ""
            return f"{shown}   [{origin.reference}: {origin.row.label}; table {origin.row.table.name}{flag}]"
        case Given():
            note = f"; {origin.note}" if origin.note else ""
            because = f"; register of defaults: {origin.default.text('lean')}" if origin.default is not None else ""
            return f"{shown}   [{origin.where}: {origin.text!r}, {origin.trust}{note}{because}]"
        case Taken():
            return f"{shown}   [{origin.reason}{f'; {origin.place}' if origin.place else ''}]"
        case Solved():
            how = f"beam line: {solved(origin, dimensions)}"
            return f"{shown}   [{how}; equilibrium left over {origin.residual:.0e} of the load]"
