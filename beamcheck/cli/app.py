"""The command itself: its front page, its exit codes, and what happens to faults."""

import os
import sys
from collections.abc import Callable
from typing import Annotated

import typer

from beamcheck.errors import BeamcheckError, InputError

WITHIN, OVER, BAD_INPUT, INTERNAL, STOPPED = 0, 1, 2, 3, 130

app = typer.Typer(
    name="bearline",
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    no_args_is_help=True,
    add_completion=False,
)


@app.callback(invoke_without_command=True)
def front(version: Annotated[bool, typer.Option("--version", help="Print the version.")] = False) -> None:
    """A structural pre-check for removing an interior wall. A study aid to take to a licensed engineer."""
    if version:
        from beamcheck import __version__

        print(f"bearline {__version__}")
        raise typer.Exit(WITHIN)


def guard(run: Callable[[], int]) -> None:
    """Run a command; its faults become sentences and exit codes, never a traceback."""
    try:
        code = run()
    except InputError as error:
        head = f"{error.file}: " if error.file else ""
        print(f"{head}{len(error.faults)} thing{'s' if len(error.faults) != 1 else ''} to mend", file=sys.stderr)
        print(error, file=sys.stderr)
        code = BAD_INPUT
    except BeamcheckError as error:
        print(error, file=sys.stderr)
        code = BAD_INPUT
    except BrokenPipeError:  # the reader, such as  head, has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        code = WITHIN
    except KeyboardInterrupt:
        print("stopped; nothing was left half-written", file=sys.stderr)
        code = STOPPED
    except Exception as error:
        if "BEARLINE_TRACEBACK" in os.environ:
            raise
        print(
            f"bearline: a fault of the tool itself, not of your survey: {type(error).__name__}: {error}",
            file=sys.stderr,
        )
        print("  please report it with the survey; set BEARLINE_TRACEBACK=1 to see where", file=sys.stderr)
        code = INTERNAL
    raise typer.Exit(code)
