"""Read the tables of figures: CSV files that carry their own provenance as a header of ``# name: text`` lines.

A table is found by folder and name (``nds_2018/sawn_4a``). Loading refuses what its header does not describe;
looking up refuses what the table does not hold. Nothing is clamped, interpolated or defaulted here.
"""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

from beamcheck.errors import TableError

SEEN = ("printed", "excerpt", "computed", "memory")
_HEADER = ("title", "document", "edition", "place", "verified", "key", "match", "units", "must_hold")


class Row:
    """One row: its table, its line in the file, and its cells as printed."""

    __slots__ = ("line", "table", "written")

    def __init__(self, table: Table, line: int, written: list[str]) -> None:
        self.table = table
        self.line = line
        self.written = written

    def text(self, column: str) -> str:
        """The cell as printed. Raises TableError for a column the table has not got."""
        try:
            return self.written[self.table.places[column]]
        except KeyError:
            raise TableError(
                f"{self.table.name}: there is no column {column!r}; it has {', '.join(self.table.columns)}"
            ) from None

    def number(self, column: str) -> float:
        """The cell as a number. Raises TableError where the cell is blank or a word."""
        text = self.text(column)
        try:
            return float(text)
        except ValueError:
            raise TableError(f"{self.table.name}:{self.line}: {column} = {text!r} is not a figure") from None

    def has(self, column: str) -> bool:
        """Whether the cell holds anything."""
        return self.written_under(column) != ""

    def written_under(self, column: str) -> str:
        """The cell as printed; nothing where the table has no such column."""
        place = self.table.places.get(column)
        return "" if place is None else self.written[place]

    @property
    def seen(self) -> str:
        """How the figure was seen: printed, excerpt, computed or memory."""
        return self.text("seen")

    @property
    def place(self) -> str:
        """Where in the document the row stands."""
        return self.written_under("place") or self.table.place

    @property
    def source(self) -> str:
        """Document, edition and place, as they are quoted."""
        return f"{cited(self.table.document, self.table.edition)}, {self.place}"

    @property
    def label(self) -> str:
        """The row's key in words, for showing beside a figure."""
        return ", ".join(self.text(column) for column in self.table.key)


class Table:
    """A table file: what its header says and its rows in order."""

    __slots__ = (
        "columns",
        "document",
        "edition",
        "key",
        "match",
        "must_hold",
        "name",
        "place",
        "places",
        "rows",
        "title",
        "units",
        "verified",
    )

    def __init__(self, name: str, header: dict[str, list[str]], columns: tuple[str, ...]) -> None:
        def one(field: str) -> str:
            if len(header.get(field, ())) != 1:
                raise TableError(f"{name}: the header needs one line '# {field}: ...'")
            return header[field][0]

        self.name = name
        self.title, self.document, self.edition = one("title"), one("document"), one("edition")
        self.place, self.verified, self.match = one("place"), one("verified"), one("match")
        self.key = tuple(part.strip() for part in one("key").split(","))
        self.units = _pairs(name, header.get("units", [""])[0])
        self.must_hold = tuple(header.get("must_hold", ()))
        self.columns = columns
        self.places = {column: place for place, column in enumerate(columns)}
        self.rows: tuple[Row, ...] = ()


def cited(document: str, edition: str) -> str:
    """Document and edition as they are quoted: "NDS 2018", "ASCE/SEI 7-16"; an edition that is none is left out."""
    if edition in ("none", "any", ""):
        return document
    if edition == "not known":
        return f"{document} (edition not known)"
    first, _, last = document.rpartition(" ")
    return f"{first} {edition}" if edition.startswith(f"{last}-") else f"{document} {edition}"


def names() -> tuple[str, ...]:
    """Names of all tables, in order."""
    root = folder()
    return tuple(sorted(path.relative_to(root).with_suffix("").as_posix() for path in root.rglob("*.csv")))


@cache
def load(name: str) -> Table:
    """Read one table. Raises TableError where the file and its header disagree."""
    path = folder() / f"{name}.csv"
    if not path.is_file():
        raise TableError(f"there is no table {name!r}; list them with  bearline tables")
    return read(name, path.read_text(encoding="utf-8"))


def read(name: str, text: str) -> Table:
    """Read a table from its text: header lines, one line of column names, rows."""
    header: dict[str, list[str]] = {}
    lines = text.splitlines()
    start = 0
    while start < len(lines) and lines[start].startswith("#"):
        field, _, value = lines[start][1:].partition(":")
        if field.strip() not in _HEADER:
            raise TableError(f"{name}:{start + 1}: unknown header line {field.strip()!r}")
        header.setdefault(field.strip(), []).append(value.strip())
        start += 1
    reader = csv.reader(lines[start:])
    columns = tuple(next(reader, ()))
    table = Table(name, header, columns)
    missing = [column for column in (*table.key, *table.units, "seen") if column not in columns]
    if missing:
        raise TableError(f"{name}: the header speaks of columns that are not there: {', '.join(missing)}")
    rows = []
    for offset, cells in enumerate(reader):
        if len(cells) != len(columns):
            raise TableError(f"{name}:{start + offset + 2}: {len(cells)} cells under {len(columns)} columns")
        rows.append(Row(table, start + offset + 2, cells))
    table.rows = tuple(rows)
    return table


def lookup(name: str, /, **keys: str) -> Row:
    """The one row whose cells equal the keys. Raises TableError, naming the nearest, where there is none."""
    found = _index(name, tuple(keys)).get(tuple(keys.values()))
    if found is not None:
        return found
    asked = ", ".join(f"{column} {value!r}" for column, value in keys.items())
    raise TableError(f"{name} has no row for {asked}; list it with  bearline tables {name}")


def column(name: str, which: str) -> tuple[str, ...]:
    """The distinct cells of one column, in the table's order."""
    return tuple(dict.fromkeys(row.text(which) for row in load(name).rows))


@cache
def folder() -> Path:
    """Where the tables lie: inside the installed package, or beside it in a source tree."""
    here = Path(__file__).parent
    packaged = here / "_tables"
    return packaged if packaged.is_dir() else here.parent / "tables"


@cache
def _index(name: str, columns: tuple[str, ...]) -> dict[tuple[str, ...], Row]:
    index: dict[tuple[str, ...], Row] = {}
    for row in load(name).rows:
        index.setdefault(tuple([row.text(column) for column in columns]), row)
    return index


def _pairs(name: str, text: str) -> dict[str, str]:
    pairs = {}
    for part in filter(None, (piece.strip() for piece in text.split(","))):
        column, equals, unit = part.partition("=")
        if not equals:
            raise TableError(f"{name}: the header's units line cannot be read at {part!r}")
        pairs[column.strip()] = unit.strip()
    return pairs
