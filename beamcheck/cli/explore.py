"""Commands beyond one study: other beams, surveys side by side, and how sure a result is."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from beamcheck.cli.app import OVER, WITHIN, app, guard, screen_width
from beamcheck.cli.bar import Bar
from beamcheck.cli.foot import foot
from beamcheck.errors import Fault, InputError

if TYPE_CHECKING:
    from beamcheck.explore.compare import Side
    from beamcheck.explore.options import Options
    from beamcheck.explore.whole import Whole
    from beamcheck.survey.model import Survey

_MOST_SIDES = 6


@app.command(epilog=foot("options"))
def options(
    survey: Annotated[Path, typer.Argument(help="The survey file; its section [options] sets the limits.")],
    in_whole: Annotated[
        bool, typer.Option("--whole", help="Work the whole study, down to the soil, with each beam that is listed.")
    ] = False,
) -> None:
    """Try the yard's beams in place of the survey's.

    Which of them stay within the limits, and what stops the others.
    """

    def run() -> int:
        from beamcheck.cli.survey import in_file
        from beamcheck.explore.options import options as tried
        from beamcheck.survey.reader import read
        from beamcheck.views.options_text import options_text

        read_survey = read(survey)
        try:
            with Bar("beams tried") as bar:
                found = tried(read_survey, bar)
        except InputError as error:
            raise in_file(error, survey) from None
        rest = _whole(read_survey, found) if in_whole else None
        print(options_text(read_survey, found, screen_width(), rest))
        stopped = found.stopped or (rest is not None and rest.first not in ("within", "close"))
        return WITHIN if found.found and not stopped else OVER

    guard(run)


def _whole(survey: "Survey", found: "Options") -> "Whole":
    from beamcheck.explore.whole import whole

    with Bar("beams put into the study") as bar:
        return whole(survey, found.listed, bar)


@app.command(epilog=foot("compare"))
def compare(
    surveys: Annotated[list[Path], typer.Argument(help="Survey files; each [[variant]] in one is a side of its own.")],
) -> None:
    """Put surveys, and the variants inside them, side by side.

    What differs is marked.
    """

    def run() -> int:
        from beamcheck.explore.compare import compared
        from beamcheck.views.explore_text import compare_text

        sides = tuple(side for path in surveys for side in _sides(path, alone=len(surveys) == 1))
        if not 2 <= len(sides) <= _MOST_SIDES:
            what = f"{len(sides)} to put side by side"
            mend = f"name two to {_MOST_SIDES} surveys, or one that has [[variant]] tables"
            raise InputError([Fault("compare", what, mend)])
        print(compare_text(sides, compared(sides), screen_width()))
        return WITHIN if all(side.study.settled in ("within", "close") for side in sides) else OVER

    guard(run)


@app.command(epilog=foot("margins"))
def margins(
    survey: Annotated[Path, typer.Argument(help="The survey file.")],
    samples: Annotated[int, typer.Option(min=0, max=10_000_000, help="Draws for the chances; 0: none.")] = 100_000,
    seed: Annotated[int, typer.Option(min=0, help="The same seed draws the same figures.")] = 20_260_314,
) -> None:
    """How near each figure comes to tipping a result.

    And how likely that is, by drawing every figure within its spread.
    """

    def run() -> int:
        from beamcheck.cli.survey import read_study
        from beamcheck.explore.chance import chance
        from beamcheck.explore.margins import margins as moved
        from beamcheck.explore.questions import questions
        from beamcheck.views.explore_text import margins_text

        study = read_study(survey)
        with Bar("words changed") as bar:
            asked = questions(study, bar)
        with Bar("figures moved") as bar:
            found = moved(study, bar)
        drawn = None
        if samples and study.loaded is not None:
            with Bar("draws worked") as bar:
                drawn = chance(study, samples, seed, bar)
        print(margins_text(study, found, asked, drawn, screen_width()))
        return WITHIN if study.settled in ("within", "close") else OVER

    guard(run)


def _sides(path: Path, *, alone: bool) -> "list[Side]":
    """The survey as written and its variants, each with its study."""
    from beamcheck.explore.compare import Side
    from beamcheck.study.chain import study
    from beamcheck.survey.variants import AS_WRITTEN, read_variants

    sides = []
    for variant in read_variants(path):
        try:
            studied = study(variant.survey)
        except InputError as error:
            raise InputError(error.faults, f"{path.name}, {variant.name}") from None
        name = variant.name if alone else path.name if variant.name == AS_WRITTEN else f"{path.name}: {variant.name}"
        sides.append(Side(name, variant.changes, studied))
    return sides
