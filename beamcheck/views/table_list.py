"""List the tables, one table with its provenance, or the layers by name."""

from rich.table import Table

from beamcheck import tables, units
from beamcheck.tables import Row
from beamcheck.views.console import console

LAYERS = "layers"


def show(name: str) -> None:
    """All tables by name and title; or one: its provenance and its rows. Raises TableError for no such table."""
    if name == LAYERS:
        _layers()
        return
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
        out.print(f"What the layers of a floor, ceiling, roof or wall weigh:  bearline tables {LAYERS}")
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


def _layers() -> None:
    """Every name that may stand in a list of layers, with its weight and where that is from."""
    from beamcheck.catalogue.layers import named_layers

    out = console()
    out.print('Names for  layers = "hardwood 7/8 in, 2x10 at 16 in Hem-Fir, plaster on wood lath"')
    out.print("Where a thickness or a cubic foot stands, write the thickness behind the name. Framing is size, spacing")
    out.print("and species: sizes of sections/dressed, species of practice/densities. Anything else: name and psf.")
    listing = Table(box=None, padding=(0, 1))
    for head in ("layer", "weight", "table", "seen"):
        listing.add_column(head, overflow="fold")
    for name, row in named_layers():
        listing.add_row(name, _weight(name, row), row.table.name, row.seen)
    out.print(listing)


def _weight(name: str, row: Row) -> str:
    own = row.text(row.table.key[0])
    if name != own:
        return f"{own}: {_weight(own, row)}"
    if row.has("density"):
        return f"{row.text('density')} lb/ft³"
    thickness = f" at {units.format_length(row.number('per'))}" if row.has("per") else ""
    return f"{row.text('q')} psf{thickness}"
