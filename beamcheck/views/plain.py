"""Plain text of fixed width: paragraphs, rules and tables, the same bytes on any terminal.

rich draws nicer tables but takes a third of the time in which ``bearline beam`` has to answer: see docs/decisions.
"""

import textwrap
from collections.abc import Iterable, Sequence

WIDTH = 110
_GAP = "  "
_NARROWEST = 8


class Plain:
    """Lines of text as they are to be printed."""

    __slots__ = ("lines",)

    def __init__(self) -> None:
        self.lines: list[str] = []

    def text(self, sentence: str = "", indent: str = "") -> None:
        """A paragraph, wrapped; further lines stand under the first one's words."""
        line = indent + sentence
        if len(line) <= WIDTH and line.isprintable() and line == line.rstrip():  # as most do: nothing to wrap
            self.lines.append(line)
            return
        hang = indent + " " * (len(sentence) - len(sentence.lstrip()))
        wrapped = textwrap.wrap(sentence, WIDTH, initial_indent=indent, subsequent_indent=hang, break_on_hyphens=False)
        self.lines += wrapped or [""]

    def rule(self, title: str = "", mark: str = "-") -> None:
        """A rule across, with a title in it."""
        self.lines.append(f"{mark * 2} {title} ".ljust(WIDTH, mark) if title else mark * WIDTH)

    def table(self, heads: Sequence[str], rows: Iterable[Sequence[str]], right: frozenset[str] = frozenset()) -> None:
        """Columns as wide as their cells, the widest ones wrapped until all fit; heads in ``right`` stand right."""
        cells = [tuple(heads), *(tuple(row) for row in rows)]
        widths = _fitted([max(1, *(len(row[column]) for row in cells)) for column in range(len(heads))])
        for row in cells:
            wrapped = [_wrapped(cell, width) for cell, width in zip(row, widths, strict=True)]
            for number in range(max(map(len, wrapped))):
                parts = [lines[number] if number < len(lines) else "" for lines in wrapped]
                set_out = [
                    part.rjust(width) if head in right else part.ljust(width)
                    for part, width, head in zip(parts, widths, heads, strict=True)
                ]
                self.lines.append(f" {_GAP.join(set_out)}".rstrip())

    def __str__(self) -> str:
        return "\n".join(self.lines)


def _wrapped(cell: str, width: int) -> list[str]:
    return [cell] if len(cell) <= width else textwrap.wrap(cell, width, break_on_hyphens=False) or [""]


def _fitted(widths: list[int]) -> list[int]:
    """The widest columns narrowed until all stand side by side."""
    room = WIDTH - 1 - len(_GAP) * (len(widths) - 1)
    while sum(widths) > room and max(widths) > _NARROWEST:
        widths[widths.index(max(widths))] -= 1
    return widths
