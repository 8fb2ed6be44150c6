"""Plain text of one width: paragraphs, rules and tables, the same bytes into any file and pipe.

rich draws nicer tables but takes a third of the time in which ``bearline beam`` has to answer: see docs/decisions.
"""

import textwrap
from collections.abc import Iterable, Sequence

WIDTH = 110  # into files and pipes, and the most on a terminal
NARROW = 80  # the least that is laid out for
_GAP = "  "
_NARROWEST, _LONGEST = 8, 20


class Plain:
    """Lines of text as they are to be printed."""

    __slots__ = ("lines", "width")

    def __init__(self, width: int = WIDTH) -> None:
        self.lines: list[str] = []
        self.width = width

    def text(self, sentence: str = "", indent: str = "") -> None:
        """A paragraph, wrapped; further lines stand under the first one's words."""
        line = indent + sentence
        if len(line) <= self.width and line.isprintable() and line == line.rstrip():  # as most do: nothing to wrap
            self.lines.append(line)
            return
        hang = indent + " " * (len(sentence) - len(sentence.lstrip()))
        wrapped = textwrap.wrap(
            sentence, self.width, initial_indent=indent, subsequent_indent=hang, break_on_hyphens=False
        )
        self.lines += wrapped or [""]

    def rule(self, title: str = "", mark: str = "-") -> None:
        """A rule across, with a title in it."""
        if len(title) > self.width - 4:
            self.lines.append(mark * self.width)
            self.text(title)
            return
        self.lines.append(f"{mark * 2} {title} ".ljust(self.width, mark) if title else mark * self.width)

    def table(self, heads: Sequence[str], rows: Iterable[Sequence[str]], right: frozenset[str] = frozenset()) -> None:
        """Columns as wide as their cells, the widest ones wrapped until all fit; heads in ``right`` stand right."""
        cells = [tuple(heads), *(tuple(row) for row in rows)]
        columns = tuple(zip(*cells, strict=True))
        widths = [max(1, *map(len, column)) for column in columns]
        _fit(widths, [_longest_word(column) for column in columns], self.width)
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


def _longest_word(column: Iterable[str]) -> int:
    """How broad a column must be to break none of its words; of very long words a part will do."""
    return max(_NARROWEST, min(_LONGEST, max((len(word) for cell in column for word in cell.split()), default=0)))


def _fit(widths: list[int], words: list[int], whole: int) -> None:
    """Narrow the widest columns until all stand side by side, words kept whole as long as that can be."""
    room = whole - 1 - len(_GAP) * (len(widths) - 1)
    for least in (words, [_NARROWEST] * len(widths)):
        while sum(widths) > room:
            spare = [(width, -number) for number, width in enumerate(widths) if width > least[number]]
            if not spare:
                break
            widths[-max(spare)[1]] -= 1
