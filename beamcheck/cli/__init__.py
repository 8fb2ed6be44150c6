"""The command line: each command calls one function and picks a view.

Exit codes: 0 every link within or close; 1 something over, not shown or refer; 2 the input cannot be used; 3 a fault
of ours; 130 stopped by the user.
"""

import io
import sys
from copy import copy

from typer.models import CommandInfo

from beamcheck.cli import ask, explore, page, quick, room, survey
from beamcheck.cli.app import app

__all__ = ["app", "ask", "explore", "page", "quick", "room", "run", "survey"]

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


def _name(command: CommandInfo) -> str:
    return command.name or (command.callback.__name__ if command.callback else "")


app.registered_commands.sort(key=lambda command: _ORDER.index(_name(command)))


def run() -> None:
    """Run the command that ``sys.argv`` asks for."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            _set_letters(stream)
    named = [command for command in app.registered_commands if [_name(command)] == sys.argv[1:2]]
    asked = copy(app)
    asked.registered_commands = named or app.registered_commands  # one is made in a tenth of the time of them all
    asked(prog_name="bearline")


def _set_letters(stream: io.TextIOWrapper) -> None:
    """In a file or a pipe the same bytes whatever the locale; on a terminal a ? for each letter that it lacks."""
    if stream.isatty():
        stream.reconfigure(errors="replace")
    else:
        stream.reconfigure(encoding="utf-8", errors="backslashreplace", newline="\n")
