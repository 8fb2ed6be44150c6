"""The command that asks for a survey, one question at a time."""

import contextlib
import os
import shutil
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from beamcheck.cli.app import BAD_INPUT, STOPPED, WITHIN, app, guard
from beamcheck.cli.foot import foot
from beamcheck.errors import Fault, InputError

if TYPE_CHECKING:
    from beamcheck.views.interview import Draft, Voice


@app.command(epilog=foot("ask"))
def ask(
    survey: Annotated[Path, typer.Argument(help="The survey file to write; a draft of it is gone on with.")],
) -> None:
    """Ask for a survey, one question at a time.

    Answers are kept as a draft until all is there.
    """

    def run() -> int:
        from beamcheck.views.interview import Draft, Ended, interview, survey_beside

        path = survey_beside(survey)
        _open_to(path)
        draft = Draft(path)
        try:
            ended = interview(_voice(), draft)
        except KeyboardInterrupt:
            print(flush=True)
            print(f"stopped; {_kept(draft)}", file=sys.stderr)
            return STOPPED
        except EOFError:
            print(flush=True)
            print(f"the answers ended before the survey was complete; {_kept(draft)}", file=sys.stderr)
            return BAD_INPUT
        if ended is Ended.QUIT:
            print(_kept(draft))
            return WITHIN
        print(f"written: {path}\nnow check it:  bearline check {_typed(path)}")
        return WITHIN

    guard(run)


def _kept(draft: "Draft") -> str:
    if not draft.there:
        return "nothing was kept"
    return f"the answers are kept in {draft.path}; go on with:  bearline ask {_typed(draft.survey)}"


def _typed(path: Path) -> str:
    """A path as it is typed into a command."""
    return f'"{path}"' if " " in str(path) else str(path)


def _open_to(path: Path) -> None:
    """Refuse, before anything is asked, what could not be written in the end."""
    if path.exists() or path.is_symlink():
        raise InputError(
            [Fault(str(path), "is there already and is not written over", "name another file, or  bearline check  it")]
        )
    if not path.parent.is_dir():
        raise InputError([Fault(str(path.parent), "is not a folder", "name a file in a folder that is there")])
    if not os.access(path.parent, os.W_OK):
        raise InputError([Fault(str(path.parent), "cannot be written to", "name a file in a folder you may write to")])


def _voice() -> "Voice":
    from beamcheck.views.interview import Voice

    typed = sys.stdin.isatty()
    if typed:
        with contextlib.suppress(ImportError):
            import readline  # noqa: F401  lets the line be edited
    for stream, errors in ((sys.stdin, "surrogateescape"), (sys.stdout, "replace")):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors=errors)
    return Voice(input, sys.stdout, shutil.get_terminal_size((80, 24)).columns, echo=not typed)
