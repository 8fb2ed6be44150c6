"""The printed summary as a PDF: walk the page's own markup, write Typst, compile it tagged and self-contained.

Every text becomes a Typst string, never markup, so nothing a user writes is read as code. A tag that has no rule
here is an error, not a gap on the paper. The same study gives the same bytes: no clock, embedded fonts only.
"""

import tempfile
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from typing import Any

from beamcheck.errors import BeamcheckError, Fault, InputError
from beamcheck.study.registers import Unknown
from beamcheck.study.types import Study
from beamcheck.views.contents import HASH
from beamcheck.views.sheet import TEMPLATES, Book, Paper, rendered
from beamcheck.views.steps import paper_maths
from beamcheck.views.words import SHORT_CAUTION, STATUS

_XHTML = "{http://www.w3.org/1999/xhtml}"
_SVG = "{http://www.w3.org/2000/svg}"
_PAPERS = {"letter": "us-letter", "a4": "a4"}
_HEADINGS = {"h1": 1, "h2": 2, "h3": 3}
_MARKS = {"b": "strong", "i": "emph", "sub": "sub", "sup": "super", "small": "small"}
_TABLES = {"ruled": "ruled", "boxes": "boxes", "chain": "chain"}
_FRAMES = {"box": "boxed", "blank": "blank"}
_BAR = "44pt"
_LINE = 78  # letters that about go on a line of half a page
_FONTS = "Some letters are set in fonts of the computer that made this page."


def sheet_pdf(
    study: Study, paper: Paper = "letter", book: Book = Book.NO, asked: tuple[Unknown, ...] = ()
) -> bytes:
    """The summary as a tagged PDF; ``asked`` stands first among the unknowns.

    Where the embedded fonts lack a letter of the survey, this machine's fonts are used too, and the page says so.
    Raises BeamcheckError where the typesetter is not installed, InputError for a letter that no font has.
    """
    failed = ""
    for system_fonts in (False, True):
        files = sources(study, paper, book, asked, _FONTS if system_fonts else "")
        made = _compiled(files, system_fonts=system_fonts)
        if isinstance(made, bytes):
            return made
        failed = made
    mend = "use plain letters there, or write the page instead, open it and print it"
    raise InputError([Fault("PDF", f"cannot be set: {failed}", mend)])


def sources(
    study: Study, paper: Paper, book: Book, asked: tuple[Unknown, ...] = (), note: str = ""
) -> dict[str, bytes]:
    """Typst's files: the page in ``main.typ``, and its drawings. note: printed over the caution at the foot."""
    walker = _Walker()
    body = walker.page(rendered(study, paper, book, paper_maths, asked))
    style = (TEMPLATES / "sheet.typ").read_text("utf-8")
    return {"main.typ": "\n".join((_head(study, paper, note), style, body)).encode(), **walker.files}


def _head(study: Study, paper: Paper, note: str) -> str:
    """What the style sheet wants to know of the document."""
    told = {
        "doc-title": study.survey.about.title,
        "doc-paper": _PAPERS[paper],
        "doc-status": STATUS,
        "doc-caution": SHORT_CAUTION,
        "doc-hash": study.survey.sha256[:HASH],
        "doc-note": note,
    }
    return "\n".join(f"#let {name} = {quoted(text)}" for name, text in told.items())


def _compiled(files: dict[str, bytes], *, system_fonts: bool) -> bytes | str:
    """The PDF, or why it cannot be set. Typst sees these files and an empty folder, nothing else."""
    try:
        import typst
    except ImportError:
        told = "PDF: the typesetter is not installed on this machine\n  write the page instead, open it and print it"
        raise BeamcheckError(told) from None
    compiler: Any = typst.compile  # its stubs do not know that it takes a dict of files
    with tempfile.TemporaryDirectory() as empty:
        try:
            made = compiler(files, root=empty, ignore_system_fonts=not system_fonts, format="pdf", pdf_standards="ua-1")
        except typst.TypstError as error:
            return error.message
    assert isinstance(made, bytes)
    return made


def quoted(text: str) -> str:
    """A Typst string."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


class _Walker:
    """Turns elements into Typst; ``files`` gathers the drawings."""

    def __init__(self) -> None:
        self.files: dict[str, bytes] = {}

    def page(self, xhtml: str) -> str:
        """The body of a page as Typst source."""
        body = ET.fromstring(xhtml).find(f"{_XHTML}body")  # noqa: S314  our own page
        assert body is not None
        return self.blocks(body)

    def blocks(self, parent: ET.Element) -> str:
        """Children that stand under each other; runs of words between them are paragraphs."""
        return "\n".join(self.block(child) for child in parent)

    def block(self, element: ET.Element) -> str:
        """One block."""
        tag, cls = _tag(element), (element.get("class") or "").split()
        match tag:
            case "main" | "section" | "header":
                return f"{'#pagebreak(weak: true)' if 'turn' in cls else ''}\n{self.blocks(element)}"
            case "h1" | "h2" | "h3":
                return f"#heading(level: {_HEADINGS[tag]})[{self.words(element)}]"
            case "p":
                words = self.words(element)
                return f"#block(sticky: true)[{words}]" if "lead" in cls else f"#par[{words}]"
            case "figure":
                return "".join(self.drawing(svg, "100%") for svg in element)
            case "div":
                return self.division(element, cls)
            case _:
                return self.many(element, cls)

    def many(self, element: ET.Element, cls: list[str]) -> str:
        """What holds several things of one kind."""
        tag = _tag(element)
        match tag:
            case "ul" | "ol":
                return self.listed(element, "list" if tag == "ul" else "enum")
            case "dl":
                return self.facts(element)
            case "table":
                return self.table(element, cls)
            case _:
                raise ValueError(f"no rule for <{tag} class={cls}>")

    def division(self, element: ET.Element, cls: list[str]) -> str:
        """A box, two columns, or a frame that only the screen needs."""
        if "pair" in cls:
            cells = ", ".join(f"[{self.blocks(child)}]" for child in element)
            pair = f"pair({_columns(element)}, {cells})"
            return f"#whole({pair})" if "whole" in cls else f"#{pair}"
        for name, frame in _FRAMES.items():
            if name in cls:
                return f"#{frame}[{self.blocks(element)}]"
        if not cls or "wide" in cls:
            return self.blocks(element)
        raise ValueError(f"no rule for <div class={cls}>")

    def facts(self, element: ET.Element) -> str:
        """Names with what stands beside them, in columns: each column is a list of its own."""
        columns = _columns(element)
        count = columns.count(",")
        points = [f"terms.item[{self.words(term)}][{self.words(told)}]" for term, told in element]
        lists = (f"terms({', '.join(points[column::count])})" for column in range(count))
        return f"#facts({columns}, {', '.join(lists)})"

    def listed(self, element: ET.Element, kind: str) -> str:
        """A list. A run of points goes in two columns, down one and then the other."""
        cls = (element.get("class") or "").split()
        size = next((name for name in ("fine", "close") if name in cls), "usual")
        points = [f"[{self.words(item)}]" for item in element]
        if "run" not in cls:
            return f"#{size}({kind}({', '.join(points)}))"
        half = _half([1 + len("".join(item.itertext())) // _LINE for item in element])
        first = "start: 1, " * (kind == "enum")
        second = f"start: {half + 1}, " * (kind == "enum")
        columns = f"{kind}({first}{', '.join(points[:half])}), {kind}({second}{', '.join(points[half:])})"
        return f"#{size}(pair((1fr, 1fr), {columns}))"

    def table(self, element: ET.Element, cls: list[str]) -> str:
        """A table; its heads come again on the next page. Lines of a calculation need no cells on paper."""
        if "steps" in cls:
            return f"#steps[{''.join(self.step(*row) for row in element[1])}]"
        cells = []
        for group in element:
            rows = [", ".join(self.cell(cell) for cell in row) for row in group]
            if _tag(group) == "thead":
                cells.append(f"table.header({', '.join(rows)})")
            elif _tag(group) == "tbody":
                cells += [
                    f"table.header(level: 2, {cell})" if _heads_others(row) else cell
                    for row, cell in zip(group, rows, strict=True)
                ]
            else:
                raise ValueError(f"no rule for <{_tag(group)}> in a table")
        kind = next((_TABLES[name] for name in reversed(cls) if name in _TABLES), None)
        if kind is None:
            raise ValueError(f"no rule for <table class={cls}>")
        return f"#{kind}({_columns(element)}, {', '.join(cells)})"

    def step(self, formula: ET.Element, told: ET.Element) -> str:
        """A line of a calculation, and what it is: beside it where there is room."""
        return f"#step({self.equation(formula[0])}, [{self.words(told)}])"

    def equation(self, element: ET.Element) -> str:
        """A formula: in one line, and broken into several if one line is too long for the paper."""
        told = quoted(element.get("alttext") or "")
        lines = dict.fromkeys((element.text or "", element.get("data-broken") or ""))
        return ", ".join((f"alt: {told}", *(f"$ {line} $" for line in lines if line)))

    def cell(self, element: ET.Element) -> str:
        """One cell of a table."""
        tag, cls = _tag(element), (element.get("class") or "").split()
        if tag not in ("td", "th"):
            raise ValueError(f"no rule for <{tag}> in a row")
        inside = self.words(element)
        options = [f"colspan: {int(element.get('colspan', '1'))}"]
        if "n" in cls:
            options.append("align: right")
        if "blank" in cls:
            inside = f"#block(height: 8pt)[{inside}]"
        if tag == "th" and element.get("scope") != "row":
            inside = f"#head[{inside}]"
        return f"table.cell({', '.join(options)})[{inside}]"

    def words(self, element: ET.Element) -> str:
        """Text and what stands in the line with it."""
        return "".join(self.inline(element)).strip()

    def inline(self, element: ET.Element) -> Iterator[str]:
        """The parts of a run of words."""
        yield _text(element.text)
        for child in element:
            yield self.within(child)
            yield _text(child.tail)

    def within(self, element: ET.Element) -> str:
        """One element in a line of words."""
        tag = _tag(element)
        match tag:
            case "b" | "i" | "sub" | "sup" | "small":
                return f"#{_MARKS[tag]}[{self.words(element)}]"
            case "br":
                return "#linebreak()"
            case "span":
                return "".join(f"#box({self.drawing(svg, _BAR)[1:]})" for svg in element)
            case _:
                raise ValueError(f"no rule for <{tag}> in a line")

    def drawing(self, svg: ET.Element, width: str) -> str:
        """A drawing as a file of its own, with its title and description for those who cannot see it."""
        if svg.tag != f"{_SVG}svg":
            raise ValueError(f"no rule for <{_tag(svg)}> in a figure")
        told = ". ".join(text for name in ("title", "desc") if (text := svg.findtext(f"{_SVG}{name}")))
        data = ET.tostring(svg, encoding="utf-8").strip()
        name = next(
            (known for known, content in self.files.items() if content == data), f"drawing-{len(self.files)}.svg"
        )
        self.files[name] = data
        return f"#image({quoted(name)}, width: {width}, alt: {quoted(told)})"


def _tag(element: ET.Element) -> str:
    return element.tag.rpartition("}")[2]


def _heads_others(row: ET.Element) -> bool:
    """Whether a row is the head of those under it: it stays with them, and comes again on the next page."""
    return all(cell.get("scope") in ("col", "colgroup") for cell in row)


def _half(sizes: list[int]) -> int:
    """How many points go to the left column, so that both are about as long."""
    splits = range(1, len(sizes) + 1)
    return min(splits, key=lambda count: abs(sum(sizes[:count]) - sum(sizes[count:])), default=0)


def _columns(element: ET.Element) -> str:
    """The widths that the page asks for, as a Typst array of plain lengths."""
    widths = (element.get("data-columns") or "").split()
    if not widths or any(
        not (width == "auto" or width.removesuffix("fr").replace(".", "", 1).isdigit()) for width in widths
    ):
        raise ValueError(f"no rule for columns {widths}")
    return f"({', '.join(widths)},)"


def _text(text: str | None) -> str:
    """Words as a Typst string, white space squeezed as a browser does."""
    if not text:
        return ""
    squeezed = " ".join(text.split())
    if not squeezed:
        return " "
    lead, trail = " " * text[0].isspace(), " " * text[-1].isspace()
    return f"{lead}#{quoted(squeezed)};{trail}"
