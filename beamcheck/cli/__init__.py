"""The command line: each command calls one function and picks a view.

Exit codes: 0 every link within or close; 1 something over or not shown; 2 the input cannot be used; 3 a fault of ours;
130 stopped by the user.
"""

import gc

from beamcheck.cli import ask, explore, page, quick, room, survey
from beamcheck.cli.app import app

__all__ = ["app", "ask", "explore", "main", "page", "quick", "room", "survey"]

# the front page lists them as a person needs them, not as the modules come
_ORDER = (
    "demo",
    "new",
    "ask",
    "page",
    "check",
    "why",
    "sheet",
    "options",
    "compare",
    "margins",
    "signs",
    "beam",
    "post",
    "tables",
)
app.registered_commands.sort(
    key=lambda command: _ORDER.index(command.name or (command.callback.__name__ if command.callback else ""))
)


def main() -> None:
    """Entry point of ``bearline``."""
    gc.set_threshold(_YOUNG)
    app(prog_name="bearline")


_YOUNG = 50_000  # a start makes many objects that live to the end: looking through them costs a tenth of a check
