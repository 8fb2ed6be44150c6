"""The command line: each command calls one function and picks a view.

Exit codes: 0 every link within or close; 1 something over or not shown; 2 the input cannot be used; 3 a fault of ours.
"""

from beamcheck.cli import ask, explore, page, quick, room, survey
from beamcheck.cli.app import app

__all__ = ["app", "ask", "explore", "main", "page", "quick", "room", "survey"]


def main() -> None:
    """Entry point of ``bearline``."""
    app()
