"""Everything that can go wrong on purpose, in one tree.

    BeamcheckError
    ├── InputError     the survey, or a command's option, cannot be read as written (holds every fault found)
    ├── TableError     a table under tables/ is not what its own header says
    └── OutOfRange     a figure lies outside what a table, a clause or the beam solver covers

Engineering doubt is not an error: it is a ``Refer`` or a ``Missing`` on the sheet.
"""

from __future__ import annotations

from collections.abc import Callable


class BeamcheckError(Exception):
    """Base of all errors that carry a message meant for the person at the keyboard."""


class Fault:
    """One thing wrong with the input: where it stands, on which line of its file, what is wrong, and what would do.

    line is 0 where there is no file or the place is not in it.
    """

    __slots__ = ("line", "mend", "what", "where")

    def __init__(self, where: str, what: str, mend: str, line: int = 0) -> None:
        self.where = where
        self.what = what
        self.mend = mend
        self.line = line

    def __str__(self) -> str:
        place = f"{self.where} (line {self.line})" if self.line else self.where
        return f"{place}: {self.what}\n  {self.mend}"


class InputError(BeamcheckError):
    """The input as written cannot be used; ``faults`` lists every fault, in the order of the file.

    Those without a line come first, sorted by their key path.
    """

    def __init__(self, faults: list[Fault] | tuple[Fault, ...], file: str = "") -> None:
        self.faults = tuple(sorted(faults, key=lambda fault: (fault.line, fault.where)))
        self.file = file
        super().__init__("\n".join(str(fault) for fault in self.faults))


def all_read(*readings: Callable[[], object]) -> None:
    """Try every reading. Raises InputError with the faults of all that cannot be read, not only of the first."""
    faults: list[Fault] = []
    for reading in readings:
        try:
            reading()
        except InputError as error:
            faults += error.faults
    if faults:
        raise InputError(faults)


class TableError(BeamcheckError):
    """A table file contradicts its header, or a row that was asked for is not in it."""


class OutOfRange(BeamcheckError):
    """A figure lies outside the range that the source covers; nothing is clamped or guessed."""
