"""The demonstration's summary, word for word, as a person has read it through.

To write it anew after a change that is meant:  python tests/houses/make.py  (and a line in docs/changes.md).
"""

import textwrap
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from difflib import unified_diff
from importlib.resources import files
from pathlib import Path

from beamcheck.study.chain import study
from beamcheck.survey.reader import read_text
from beamcheck.views.asked_first import asked_first
from beamcheck.views.sheet import sheet_html

GOLDEN = Path(__file__).parent / "demo_summary.txt"
_XHTML = "{http://www.w3.org/1999/xhtml}"
_SVG = "{http://www.w3.org/2000/svg}"
_WIDTH = 112
_MARKS = {"h1": "# ", "h2": "## ", "h3": "### ", "li": "- "}


def summary() -> str:
    """The page as plain text: a paragraph, point, row or label a line, formulas as they are read aloud."""
    survey = (files("beamcheck.survey") / "demo.toml").read_bytes()
    made = study(read_text(survey, "demo.toml"))
    page = ET.fromstring(sheet_html(made, asked=asked_first(made)))  # noqa: S314  our own page
    body = page.find(f"{_XHTML}body")
    assert body is not None
    return "\n".join(wrapped for line in lines(body) for wrapped in folded(line)) + "\n"


def folded(line: str) -> list[str]:
    """A line cut to the width of a screen, what runs over set in."""
    return textwrap.wrap(line, _WIDTH, subsequent_indent="    ", break_long_words=False, break_on_hyphens=False) or [""]


def lines(element: ET.Element) -> Iterator[str]:
    """Blocks of the page in reading order."""
    for child in element:
        tag = child.tag.rpartition("}")[2]
        match tag:
            case "h1" | "h2" | "h3":
                yield from ("", f"{_MARKS[tag]}{words(child)}")
            case "p" | "li":
                yield f"{_MARKS.get(tag, '')}{words(child)}"
            case "tr":
                yield " | ".join(words(cell) for cell in child)
            case "dl":
                yield from (": ".join(words(part) for part in pair) for pair in child)
            case "svg":
                yield from drawing(child)
            case _:
                yield from lines(child)


def words(element: ET.Element) -> str:
    """Text in one line; a bar as a bracket, a formula as it is read aloud."""
    return " ".join("".join(parts(element)).split())


def parts(element: ET.Element) -> Iterator[str]:
    """The pieces of a run of text."""
    yield element.text or ""
    for child in element:
        tag = child.tag.rpartition("}")[2]
        if tag == "svg":
            yield f"[{child.findtext(f'{_SVG}title')}]"
        elif tag == "math":
            yield child.get("alttext") or ""
        elif tag == "br":
            yield " / "
        else:
            yield from parts(child)
        yield child.tail or ""


def drawing(svg: ET.Element) -> Iterator[str]:
    """Title and description of a drawing, and its labels."""
    yield f"[{svg.findtext(f'{_SVG}title')}] {svg.findtext(f'{_SVG}desc')}"
    yield "    labels: " + "; ".join(label.text or "" for label in svg.iter(f"{_SVG}text"))


def test_the_summary_reads_as_it_was_reviewed() -> None:
    """Not a word or figure of the demonstration's summary changes unnoticed."""
    pinned = GOLDEN.read_text(encoding="utf-8")
    now = summary()
    changed = "\n".join(unified_diff(pinned.splitlines(), now.splitlines(), "as reviewed", "now", lineterm="", n=1))
    told = "change it only with a line in docs/changes.md; read it through, then:  python tests/houses/make.py"
    assert now == pinned, f"{told}\n{changed}"
