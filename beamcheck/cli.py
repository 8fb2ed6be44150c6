"""The command line: each command calls one function and picks a view.

Exit codes: 0 every link within or close; 1 something over or not shown; 2 the input cannot be used; 3 a fault of ours.
"""

import os
import sys
from collections.abc import Callable
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from beamcheck.errors import BeamcheckError, InputError

if TYPE_CHECKING:
    from beamcheck.study.types import Study
    from beamcheck.trace import Sheet

app = typer.Typer(
    name="bearline",
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    no_args_is_help=True,
    add_completion=False,
    help="A structural pre-check for removing an interior wall: a study aid for a licensed engineer. It decides nothing.",
)

WITHIN, OVER, BAD_INPUT, INTERNAL = 0, 1, 2, 3


class Position(StrEnum):
    """Under the joists or within their depth."""

    DROPPED = "dropped"
    FLUSH = "flush"


class Edition(StrEnum):
    """Edition of ASCE 7 that the snow belongs to."""

    ASCE_7_16 = "ASCE 7-16"
    ASCE_7_22 = "ASCE 7-22"


class Held(StrEnum):
    """How a post is held."""

    FREE = "free"
    IN_WALL = "in wall"


class Fastening(StrEnum):
    """How the plies of a built-up post are joined."""

    NAILED = "nailed"
    BOLTED = "bolted"
    NOT_FASTENED = "not fastened"


class Paper(StrEnum):
    """Paper to print on."""

    LETTER = "letter"
    A4 = "a4"


@app.command()
def beam(
    span: Annotated[str, typer.Option(help='Centre to centre of bearings, such as "13 ft 6 in".')],
    member: Annotated[str, typer.Option(help='Such as "3-ply 2x12 Douglas Fir-Larch No.2".')],
    dead: Annotated[str, typer.Option(help='Dead load along the beam, such as "210 plf".')],
    live: Annotated[str, typer.Option(help='Live load, such as "480 plf".')] = "0 plf",
    roof_live: Annotated[str, typer.Option(help="Roof live load.")] = "0 plf",
    snow: Annotated[str, typer.Option(help="Snow load.")] = "0 plf",
    point: Annotated[
        list[str] | None, typer.Option(help='Point load, such as "3200 lb dead at 5 ft"; may be repeated.')
    ] = None,
    unbraced: Annotated[
        str,
        typer.Option(help='Length over which nothing holds the top edge, or "held". Left out: the whole span.'),
    ] = "",
    bearing: Annotated[str, typer.Option(help="Length of beam on each post.")] = "",
    position: Annotated[Position, typer.Option(help="Under the joists, or within their depth.")] = Position.FLUSH,
    edition: Annotated[Edition, typer.Option(help="Edition of ASCE 7 that the snow belongs to.")] = Edition.ASCE_7_16,
    wet: Annotated[bool, typer.Option("--wet", help="Wet in use.")] = False,
    share: Annotated[bool, typer.Option("--share", help="Count load sharing among three or more plies.")] = False,
) -> None:
    """Enter a span and loads, see utilisations."""
    from beamcheck.catalogue.reading import read_member
    from beamcheck.checks.wood import Conditions
    from beamcheck.study import quick
    from beamcheck.units import Dimension

    def run() -> int:
        typed = {
            "D": ("--dead", dead),
            "L": ("--live", live),
            "Lr": ("--roof-live", roof_live),
            "S": ("--snow", snow),
        }
        sources = [quick.line_source(option, text, name) for name, (option, text) in typed.items()]
        sources = [
            source for source in sources if source.load_type == "D" or (source.w is not None and source.w.number)
        ]
        sources += [quick.point(text, number) for number, text in enumerate(point or [], 1)]
        length = quick.given("--span", span, Dimension.LENGTH, least=12.0, most=720.0)
        free = quick.given("--unbraced", unbraced, Dimension.LENGTH) if unbraced not in ("", "held") else length
        asked = quick.BeamAsked(
            edition.value,
            None if unbraced == "held" else free,
            quick.given("--bearing", bearing, Dimension.LENGTH, least=0.25, most=48.0) if bearing else None,
            position.value,
            Conditions("wet" if wet else "dry", "yes" if share else "no"),
        )
        return _show(quick.beam_sheet(read_member(member, "--member"), length, tuple(sources), asked))

    _guard(run)


@app.command()
def post(
    height: Annotated[str, typer.Option(help='Unbraced height, such as "7 ft 6 in".')],
    member: Annotated[str, typer.Option(help='Such as "6x6 Douglas Fir-Larch No.1".')],
    dead: Annotated[str, typer.Option(help='Dead part of its load, such as "2,100 lb".')],
    live: Annotated[str, typer.Option(help="Live part.")] = "0 lb",
    roof_live: Annotated[str, typer.Option(help="Roof live part.")] = "0 lb",
    snow: Annotated[str, typer.Option(help="Snow part.")] = "0 lb",
    eccentricity: Annotated[
        str, typer.Option(help="How far off its centre the load sits. Left out: a sixth of its side.")
    ] = "",
    held: Annotated[Held, typer.Option(help="Free-standing, or held by a wall along the beam.")] = Held.FREE,
    fastening: Annotated[Fastening, typer.Option(help="How plies are joined.")] = Fastening.NOT_FASTENED,
    plate: Annotated[str, typer.Option(help="Species of the plate under it.")] = "Spruce-Pine-Fir (South)",
    edition: Annotated[Edition, typer.Option(help="Edition of ASCE 7 that the snow belongs to.")] = Edition.ASCE_7_16,
    wet: Annotated[bool, typer.Option("--wet", help="Wet in use.")] = False,
) -> None:
    """Enter a post and its load, see utilisations."""
    from beamcheck.catalogue.reading import read_member
    from beamcheck.checks.wood import Conditions
    from beamcheck.study import quick
    from beamcheck.units import Dimension

    def run() -> int:
        typed = {
            "D": ("--dead", dead),
            "L": ("--live", live),
            "Lr": ("--roof-live", roof_live),
            "S": ("--snow", snow),
        }
        loads = {name: quick.given(option, text, Dimension.FORCE) for name, (option, text) in typed.items()}
        asked = quick.PostAsked(
            edition.value,
            held.value,
            fastening.value,
            quick.given("--eccentricity", eccentricity, Dimension.LENGTH) if eccentricity else None,
            plate,
            Conditions("wet" if wet else "dry"),
        )
        tall = quick.given("--height", height, Dimension.LENGTH, least=6.0, most=480.0)
        present = {name: load for name, load in loads.items() if name == "D" or load.number}
        return _show(quick.post_sheet(read_member(member, "--member"), tall, present, asked))

    _guard(run)


@app.command()
def check(
    survey: Annotated[Path, typer.Argument(help="The survey file.")],
    as_json: Annotated[bool, typer.Option("--json", help="Print the whole tree as data.")] = False,
    keys: Annotated[bool, typer.Option("--keys", help="List every key that  bearline why  opens.")] = False,
) -> None:
    """Check the whole chain of a survey, from the roof to what each post comes down on."""

    def run() -> int:
        study = _study(survey)
        if keys:
            from beamcheck.study.find import keys as all_keys

            print("\n".join(all_keys(study)))
        elif as_json:
            import json

            from beamcheck.views.data import study_data

            print(json.dumps(study_data(study), indent=1, ensure_ascii=False))
        else:
            from beamcheck.views import terminal

            terminal.show(terminal.console(), study)
        return WITHIN if study.settled in ("within", "close") else OVER

    _guard(run)


@app.command()
def why(
    survey: Annotated[Path, typer.Argument(help="The survey file.")],
    key: Annotated[str, typer.Argument(help="What to open, such as beam.bending_sagging or wall.clear_opening.")],
) -> None:
    """Open one number: formula, inputs, their origins, down to the tape measure."""

    def run() -> int:
        from beamcheck.study.find import find
        from beamcheck.views import terminal
        from beamcheck.views.why import explain

        out = terminal.console()
        found = find(_study(survey), key)
        terminal.short_caution(out)
        explain(out, found)
        return WITHIN

    _guard(run)


@app.command()
def sheet(
    survey: Annotated[Path, typer.Argument(help="The survey file.")],
    output: Annotated[Path, typer.Option("-o", "--output", help="The file to write: .html or .pdf.")],
    paper: Annotated[Paper, typer.Option(help="Paper to print on.")] = Paper.LETTER,
    book: Annotated[bool, typer.Option("--book", help="Add every calculation step.")] = False,
) -> None:
    """Write the summary to print and take to the engineer."""

    def run() -> int:
        study = _study(survey)
        _write_sheet(study, output, paper, book=book)
        print(f"written: {output}")
        return WITHIN if study.settled in ("within", "close") else OVER

    _guard(run)


@app.command()
def new(survey: Annotated[Path, typer.Argument(help="The survey file to write.")]) -> None:
    """Write a commented survey to fill in."""

    def run() -> int:
        from beamcheck.files import write_new
        from beamcheck.survey.blank import blank

        write_new(survey, blank().encode())
        print(f"written: {survey}\nfill it in, then:  bearline check {survey}")
        return WITHIN

    _guard(run)


@app.command()
def tables(
    name: Annotated[str, typer.Argument(help="A table, such as nds_2018/sawn_4a; left out: all of them.")] = "",
) -> None:
    """List what the tool knows and where each figure comes from."""

    def run() -> int:
        from beamcheck.views import table_list, terminal

        table_list.show(terminal.console(), name)
        return WITHIN

    _guard(run)


@app.command()
def demo(folder: Annotated[Path, typer.Argument(help="Where to write it.")] = Path()) -> None:
    """Write the demonstration survey, check it, and write the summary beside it."""

    def run() -> int:
        from importlib.resources import files as resources

        from beamcheck.errors import Fault
        from beamcheck.files import write, write_new
        from beamcheck.views import terminal

        if not folder.is_dir():
            raise InputError([Fault(str(folder), "is not a folder", "name a folder that is there")])
        survey, summary = folder / "demo.toml", folder / "demo.html"
        text = (resources("beamcheck.survey") / "demo.toml").read_bytes()
        if survey.is_file() and survey.read_bytes() == text:
            print(f"there already: {survey}")
        else:
            write_new(survey, text)
        study = _study(survey)
        terminal.show(terminal.console(), study)
        from beamcheck.views.sheet import sheet_html

        page = sheet_html(study).encode()
        if summary.exists() and summary.read_bytes() != page:
            write_new(summary, page)
        write(summary, page)
        print(f"\nwritten: {survey} and {summary}: open the second one in a browser and print it")
        return WITHIN if study.settled in ("within", "close") else OVER

    _guard(run)


def _study(path: Path) -> "Study":
    from beamcheck.study.chain import study
    from beamcheck.survey.reader import read

    survey = read(path)
    try:
        return study(survey)
    except InputError as error:
        raise InputError(error.faults, path.name) from None


def _write_sheet(study: "Study", output: Path, paper: Paper, *, book: bool) -> None:
    from beamcheck.errors import Fault
    from beamcheck.files import write
    from beamcheck.views.sheet import Book, sheet_html

    extent = Book.FULL if book else Book.NO
    match output.suffix.lower():
        case ".html" | ".htm":
            write(output, sheet_html(study, paper.value, extent).encode())
        case ".pdf":
            from beamcheck.views.pdf import sheet_pdf

            write(output, sheet_pdf(study, paper.value, extent))
        case other:
            raise InputError(
                [
                    Fault(
                        "--output",
                        f"{other or 'no ending'!r} is not a kind of summary",
                        "name a file that ends in .html or .pdf",
                    )
                ]
            )


def _show(part: "Sheet") -> int:
    from beamcheck.trace import Check, items
    from beamcheck.views import terminal

    out = terminal.console()
    terminal.cautions(out)
    terminal.draw(out, part)
    checks = [item for item in items(part) if isinstance(item, Check)]
    return OVER if any(check.word == "over" for check in checks) else WITHIN


def _guard(run: Callable[[], int]) -> None:
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


@app.callback(invoke_without_command=True)
def front(version: Annotated[bool, typer.Option("--version", help="Print the version.")] = False) -> None:
    """A structural pre-check for removing an interior wall. A study aid to take to a licensed engineer."""
    if version:
        from beamcheck import __version__

        print(f"bearline {__version__}")
        raise typer.Exit(WITHIN)


def main() -> None:
    """Entry point of ``bearline``."""
    app()
