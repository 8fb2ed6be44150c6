"""Rows of the CSV tables as dictionaries of text, found by their cells."""

import csv
from functools import cache
from pathlib import Path

TABLES = Path(__file__).parents[3] / "tables"


@cache
def rows(name):
    """Every row of a table; the header lines that begin with # are left aside."""
    lines = (TABLES / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    body = [line for line in lines if not line.startswith("#")]
    return tuple(csv.DictReader(body))


def row(name, **cells):
    """The first row whose cells are those asked for."""
    for found in rows(name):
        if all(found[key] == text for key, text in cells.items()):
            return found
    raise LookupError(f"{name}: {cells}")


def figure(name, column, **cells):
    """One figure of one row."""
    return float(row(name, **cells)[column])
