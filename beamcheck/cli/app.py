"""The command itself: its front page, its exit codes, and what happens to faults."""

import errno
import os
import shutil
import sys
from collections.abc import Callable
from typing import Annotated

import typer

from beamcheck.cli.foot import front_foot
from beamcheck.errors import BeamcheckError, InputError

WITHIN, OVER, BAD_INPUT, INTERNAL, STOPPED = 0, 1, 2, 3, 130
_NO_ROOM = (errno.ENOSPC, errno.EFBIG, errno.EIO)

app = typer.Typer(
    name="bearline",
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    no_args_is_help=True,
    epilog=front_foot(),
)


@app.callback(invoke_without_command=True)
def front(version: Annotated[bool, typer.Option("--version", help="Print the version.")] = False) -> None:
    """A structural pre-check for removing an interior wall. A study aid to take to a licensed engineer."""
    if version:
        guard(_print_version)


def _print_version() -> int:
    from beamcheck import __version__

    print(f"bearline {__version__}")
    return WITHIN


def screen_width() -> int:
    """The columns to lay out for: those of the terminal within reason; into files and pipes always the same."""
    from beamcheck.views.plain import NARROW, WIDTH

    if not sys.stdout.isatty():
        return WIDTH
    return min(max(shutil.get_terminal_size((WIDTH, 24)).columns, NARROW), WIDTH)


def guard(run: Callable[[], int]) -> None:
    """Run a command; its faults become sentences and exit codes, never a traceback."""
    try:
        code = run()
        sys.stdout.flush()
    except InputError as error:
        head = f"{error.file}: " if error.file else ""
        print(f"{head}{len(error.faults)} thing{'s' if len(error.faults) != 1 else ''} to mend", file=sys.stderr)
        print(error, file=sys.stderr)
        code = BAD_INPUT
    except BeamcheckError as error:
        print(error, file=sys.stderr)
        code = BAD_INPUT
    except BrokenPipeError:  # the reader, such as  head, has seen enough
        _print_nowhere()
        code = WITHIN
    except KeyboardInterrupt:
        print("stopped; nothing was left half-written", file=sys.stderr)
        code = STOPPED
    except Exception as error:
        if isinstance(error, OSError) and error.errno in _NO_ROOM:
            _print_nowhere()
            told = f"the output cannot be written: {error.strerror}"
            print(f"{told}\n  make room for it, or send it elsewhere", file=sys.stderr)
            raise typer.Exit(BAD_INPUT) from None
        if "BEARLINE_TRACEBACK" in os.environ:
            raise
        _confess(error)
        code = INTERNAL
    raise typer.Exit(code)


def _print_nowhere() -> None:
    """Let what is still to be printed go, so that the end of the process does not stumble over it."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _confess(error: Exception) -> None:
    told = f"{type(error).__name__}: {error}"
    print(f"bearline: a fault of the tool itself, not of your survey: {told}", file=sys.stderr)
    print("  please report it with the survey; set BEARLINE_TRACEBACK=1 to see where", file=sys.stderr)
