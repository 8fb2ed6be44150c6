"""List the tables, or one table with its provenance."""

from rich.table import Table

from beamcheck import tables
from beamcheck.views.console import console


def show(name: str) -> None:
    """All tables by name and title; or one: its provenance and its rows. Raises TableError for no such table."""
    out = console()
    if not name:
        listing = Table(box=None, padding=(0, 1))
        for head in ("table", "what", "document", "rows"):
            listing.add_column(head, overflow="fold")
        for one in tables.names():
            table = tables.load(one)
            source = f"{tables.cited(table.document, table.edition)}, {table.place}"
            listing.add_row(one, table.title, source, str(len(table.rows)))
        out.print(listing)
        return
    table = tables.load(name)
    out.print(table.title)
    out.print(f"source: {tables.cited(table.document, table.edition)}, {table.place}")
    out.print(f"verified: {table.verified}")
    units = ", ".join(f"{column} in {unit}" for column, unit in table.units.items() if unit != "1")
    out.print(f"units: {units or 'plain numbers'}")
    listing = Table(box=None, padding=(0, 1))
    for column in table.columns:
        listing.add_column(column, overflow="fold", justify="right" if column in table.units else "left")
    for row in table.rows:
        listing.add_row(*(row.text(column) for column in table.columns))
    out.print(listing)
