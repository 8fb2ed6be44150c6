"""Commands round the wall and the room: is the wall bearing?"""

from pathlib import Path
from typing import Annotated

import typer

from beamcheck.cli.app import WITHIN, app, guard, screen_width
from beamcheck.cli.foot import foot
from beamcheck.errors import Fault, InputError

_QUESTIONS = """\
add the section and answer what you have looked at; bearline new FILE writes all its questions:
  [signs]
  joists_end = "yes"
  roof_brace = "no"
  beam_ends_in_it = "unknown\""""


@app.command(epilog=foot("signs"))
def signs(
    survey: Annotated[Path, typer.Argument(help="A survey with a section [signs]; the rest may be unfinished.")],
) -> None:
    """Weigh the signs of whether the wall bears.

    The answer is to treat it as bearing, or to have it confirmed; never that it does not bear.
    """

    def run() -> int:
        from beamcheck.study.signs import signs_sheet
        from beamcheck.survey.around import Signs
        from beamcheck.survey.reader import read_section
        from beamcheck.views.terminal import part_text

        entries, words = read_section(survey, "signs")
        if not entries:
            raise InputError([Fault("signs", "is not in this survey", _QUESTIONS)], survey.name)
        print(part_text(signs_sheet(Signs(**entries[0]), words), screen_width()))
        return WITHIN

    guard(run)
