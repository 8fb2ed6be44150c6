"""Changes that change nothing anybody could see: how a change reads, and the reasons told in ``same.csv``.

A row holds by the text of the line before and after, not by its number, so that it lasts as long as the line does.
"""

import csv
import difflib
from pathlib import Path

KNOWN = Path(__file__).with_name("same.csv")


def reads(source: str, text: str) -> tuple[str, str]:
    """The lines that a change takes out, and those that it puts in, without their margins."""
    before, after = [], []
    for line in difflib.unified_diff(source.splitlines(), text.splitlines(), n=0, lineterm=""):
        if line.startswith("-") and not line.startswith("---"):
            before.append(" ".join(line[1:].split()))
        elif line.startswith("+") and not line.startswith("+++"):
            after.append(" ".join(line[1:].split()))
    return " / ".join(before), " / ".join(after)


def reasons() -> dict[tuple[str, str, str], str]:
    """Why a change of a file is none, by file, line before and line after."""
    with KNOWN.open(encoding="utf-8", newline="") as rows:
        return {(row["path"], row["before"], row["after"]): row["reason"] for row in csv.DictReader(rows)}
