"""The console that draws trees and listings."""

from rich.console import Console

from beamcheck.views.plain import WIDTH


def console() -> Console:
    """A console of fixed width without colour, so that the same study prints the same bytes anywhere."""
    return Console(width=WIDTH, highlight=False, color_system=None, markup=False, emoji=False)
