"""Commands round a survey: write it, check it, open its numbers, print its summary, list the tables."""

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from beamcheck.cli import completion
from beamcheck.cli.app import OVER, WITHIN, app, guard, screen_width
from beamcheck.cli.foot import foot
from beamcheck.errors import InputError

if TYPE_CHECKING:
    from beamcheck.study.types import Study

_ASKING = 0.7  # share of a summary's time that goes into trying what is not known


class Paper(StrEnum):
    """Paper to print on."""

    LETTER = "letter"
    A4 = "a4"


@app.command(epilog=foot("check"))
def check(
    survey: Annotated[Path, typer.Argument(help="The survey file.")],
    as_json: Annotated[bool, typer.Option("--json", help="Print the whole tree as data.")] = False,
    keys: Annotated[bool, typer.Option("--keys", help="List every key that  bearline why  opens.")] = False,
) -> None:
    """Check the whole chain, from the roof to the ground."""

    def run() -> int:
        study = read_study(survey)
        if keys:
            from beamcheck.study.find import keys as all_keys

            print("\n".join(all_keys(study)))
        elif as_json:
            import json

            from beamcheck.views.data import study_data

            print(json.dumps(study_data(study), indent=1, ensure_ascii=False))
        else:
            from beamcheck.views.terminal import study_text

            print(study_text(study, screen_width()))
        return WITHIN if study.settled in ("within", "close") else OVER

    guard(run)


@app.command(epilog=foot("why"))
def why(
    survey: Annotated[Path, typer.Argument(help="The survey file.")],
    key: Annotated[
        str,
        typer.Argument(
            help="What to open, such as beam.bending_sagging or wall.clear_opening.", autocompletion=completion.keys
        ),
    ],
) -> None:
    """Open one number, down to the tape measure.

    Its formula, its inputs, and where each of them comes from.
    """

    def run() -> int:
        from beamcheck.study.find import find
        from beamcheck.views.why import explain

        study = read_study(survey)
        explain(find(study, key), study.survey.about.dimensions, screen_width())
        return WITHIN

    guard(run)


@app.command(epilog=foot("sheet"))
def sheet(
    survey: Annotated[Path, typer.Argument(help="The survey file.")],
    output: Annotated[Path, typer.Option("-o", "--output", help="The file to write: .html or .pdf.")],
    paper: Annotated[Paper, typer.Option(help="Paper to print on.")] = Paper.LETTER,
    book: Annotated[bool, typer.Option("--book", help="Add every calculation step.")] = False,
) -> None:
    """Write the summary to print and take to the engineer."""

    def run() -> int:
        study = read_study(survey)
        _write_sheet(study, output, paper, book=book)
        print(f"written: {output}")
        return WITHIN if study.settled in ("within", "close") else OVER

    guard(run)


@app.command(epilog=foot("new"))
def new(survey: Annotated[Path, typer.Argument(help="The survey file to write.")]) -> None:
    """Write a commented survey to fill in."""

    def run() -> int:
        from beamcheck.files import write_new
        from beamcheck.survey.blank import blank

        write_new(survey, blank().encode())
        print(f"written: {survey}\nfill it in, then:  bearline check {survey}")
        return WITHIN

    guard(run)


@app.command(epilog=foot("tables"))
def tables(
    name: Annotated[
        str,
        typer.Argument(
            help="A table, such as nds_2018/sawn_4a; left out: all of them.", autocompletion=completion.table_names
        ),
    ] = "",
) -> None:
    """List what the tool knows and where each figure comes from."""

    def run() -> int:
        from beamcheck.views.table_list import show

        show(name)
        return WITHIN

    guard(run)


@app.command(epilog=foot("demo"))
def demo(folder: Annotated[Path, typer.Argument(help="Where to write it.")] = Path()) -> None:
    """Write the demonstration survey and its summary, and check it."""

    def run() -> int:
        from importlib.resources import files as resources

        from beamcheck.errors import Fault
        from beamcheck.files import write, write_new
        from beamcheck.views.terminal import study_text

        if not folder.is_dir():
            raise InputError([Fault(str(folder), "is not a folder", "name a folder that is there")])
        survey, summary = folder / "demo.toml", folder / "demo.html"
        text = (resources("beamcheck.survey") / "demo.toml").read_bytes()
        if survey.is_file() and survey.read_bytes() == text:
            print(f"there already: {survey}")
        else:
            write_new(survey, text)
        study = read_study(survey)
        print(study_text(study, screen_width()))
        from beamcheck.cli.bar import Bar
        from beamcheck.views.asked_first import asked_first
        from beamcheck.views.sheet import sheet_html

        with Bar("summary made") as bar:
            page = sheet_html(study, asked=asked_first(study, bar)).encode()
        if summary.exists() and summary.read_bytes() != page:
            write_new(summary, page)
        write(summary, page)
        print(f"\nwritten: {survey} and {summary}: open the second one in a browser and print it")
        return WITHIN if study.settled in ("within", "close") else OVER

    guard(run)


def read_study(path: Path) -> "Study":
    """The study of a survey file. Raises InputError, naming the file."""
    from beamcheck.study.chain import study
    from beamcheck.survey.reader import read

    survey = read(path)
    try:
        return study(survey)
    except InputError as error:
        raise in_file(error, path) from None


def in_file(error: InputError, path: Path) -> InputError:
    """What is wrong with a survey as a whole, with its file and lines."""
    from beamcheck.survey.documents import file_bytes
    from beamcheck.survey.lines import with_lines

    return with_lines(InputError(error.faults, path.name), file_bytes(path))


def _write_sheet(study: "Study", output: Path, paper: Paper, *, book: bool) -> None:
    from beamcheck.cli.bar import Bar
    from beamcheck.errors import Fault
    from beamcheck.files import write
    from beamcheck.views.asked_first import asked_first
    from beamcheck.views.sheet import Book, sheet_html

    ending = output.suffix.lower()
    if ending not in (".html", ".htm", ".pdf"):
        what = f"{ending or 'no ending'!r} is not a kind of summary"
        raise InputError([Fault("--output", what, "name a file that ends in .html or .pdf")])
    extent = Book.FULL if book else Book.NO
    with Bar("summary made") as bar:
        asked = asked_first(study, lambda share: bar(_ASKING * share))
        if ending == ".pdf":
            from beamcheck.views.pdf import sheet_pdf

            made = sheet_pdf(study, paper.value, extent, asked)
        else:
            made = sheet_html(study, paper.value, extent, asked).encode()
    write(output, made)
