"""The console that draws trees and listings."""

from rich.console import Console

from beamcheck.views.plain import WIDTH


def console(width: int = WIDTH) -> Console:
    """A console of one width without colour, so that the same study prints the same bytes into any file and pipe."""
    return Console(width=width, highlight=False, color_system=None, markup=False, emoji=False)
