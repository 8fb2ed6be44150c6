"""The terminal as an interview needs it: wrapped sentences out, one line in."""

import textwrap
from collections.abc import Callable, Iterable
from typing import TextIO

_NARROWEST, _BROADEST = 40, 90


class Voice:
    """Says sentences and asks for lines. ``typed`` reads one line after a prompt; ``echo`` shows what was read.

    Echo is for answers that come through a pipe: without it the record of the talk would hold no answers.
    """

    __slots__ = ("echo", "out", "typed", "width")

    def __init__(self, typed: Callable[[str], str], out: TextIO, width: int, echo: bool) -> None:  # noqa: FBT001
        self.typed = typed
        self.out = out
        self.width = min(max(width, _NARROWEST), _BROADEST)
        self.echo = echo

    def say(self, sentence: str = "", indent: str = "") -> None:
        """A paragraph; further lines stand under the first one."""
        further = " " * len(indent)
        for line in textwrap.wrap(sentence, self.width, initial_indent=indent, subsequent_indent=further) or [""]:
            self._line(line)

    def points(self, points: Iterable[tuple[str, str]]) -> None:
        """Sentences, each with a short head left of it or none."""
        listed = tuple(points)
        broad = max((len(head) for head, _ in listed), default=0)
        for head, sentence in listed:
            self.say(sentence, f"  {head.ljust(broad)}  " if head else "")

    def rule(self, title: str = "", mark: str = "-") -> None:
        """A rule across, with a title in it."""
        self._line(f"{mark * 2} {title} ".ljust(self.width, mark) if title else mark * self.width)

    def ask(self, prompt: str) -> str:
        """The line typed. Raises EOFError at the end of what is typed, KeyboardInterrupt when stopped."""
        line = self.typed(f"{prompt} > ")
        if self.echo:
            self._line("".join(letter if letter.isprintable() else "?" for letter in line))
        return line

    def _line(self, text: str) -> None:
        self.out.write(f"{text}\n")
        self.out.flush()
