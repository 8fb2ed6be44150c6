"""The summary as a PDF: tagged, short, the same bytes everywhere, and honest where it cannot be set."""

import hashlib
import os
import subprocess
import sys
import xml.etree.ElementTree as ET
from importlib.resources import files
from io import BytesIO
from pathlib import Path

import pytest
from pdfua import validate
from pypdf import PdfReader

from beamcheck.errors import BeamcheckError, InputError
from beamcheck.study.chain import study
from beamcheck.survey.reader import read_text
from beamcheck.views import pdf
from beamcheck.views.sheet import Book, Paper, sheet_html
from beamcheck.views.words import SHORT_CAUTION, STATUS

XHTML = "{http://www.w3.org/1999/xhtml}"
HERE = Path(__file__).parent
SURVEYS = {path.stem: path.read_bytes() for path in sorted((HERE / "sheets").glob("*.toml"))}
SURVEYS |= {path.stem: path.read_bytes() for path in sorted((HERE.parent / "houses").glob("*.toml"))}
SURVEYS["demo"] = (files("beamcheck.survey") / "demo.toml").read_bytes()
HASHED = """
import hashlib, sys
from beamcheck.study.chain import study
from beamcheck.survey.reader import read_text
from beamcheck.views.pdf import sheet_pdf
from beamcheck.views.sheet import sheet_html
made = study(read_text(open(sys.argv[1], "rb").read()))
print(hashlib.sha256(sheet_html(made).encode()).hexdigest(), hashlib.sha256(sheet_pdf(made)).hexdigest())
"""


@pytest.fixture(scope="module", params=[*((name, "letter") for name in SURVEYS), ("demo", "a4"), ("one_span", "a4")])
def printed(request):
    """Each survey on paper: its name, the PDF's bytes, and the lines of each page in reading order."""
    name, paper = request.param
    data = pdf.sheet_pdf(study(read_text(SURVEYS[name])), paper)
    return name, data, [page.extract_text().splitlines() for page in PdfReader(BytesIO(data)).pages]


def complaints(data: bytes, path: Path) -> list[str]:
    """What the outside validator says against a PDF. A rule of its own that breaks down says nothing."""
    path.write_bytes(data)
    report = validate(str(path))
    skipped = [outcome for outcome in report.outcomes if outcome.skipped]
    assert len(report.outcomes) - len(skipped) >= 10, "too few rules were looked at"
    return [f"{finding.rule_id} at {finding.location}: {finding.message}" for finding in report.findings]


def test_the_pdf_is_tagged_and_without_a_clock(printed) -> None:
    """The whole page is set on both papers under the standard for accessible files, with no clock in it."""
    _, data, _ = printed
    assert data.startswith(b"%PDF-1.7")
    assert b"/StructTreeRoot" in data
    assert b"/CreationDate" not in data


def test_an_outside_validator_finds_nothing(printed, tmp_path) -> None:
    """A program of other people that checks accessible files has nothing to say against the summary."""
    _, data, _ = printed
    assert complaints(data, tmp_path / "summary.pdf") == []


def test_the_validator_finds_nothing_in_the_book(tmp_path) -> None:
    """Nor against the summary with its annex and calculation book."""
    data = pdf.sheet_pdf(study(read_text(SURVEYS["demo"])), "letter", Book.FULL)
    assert complaints(data, tmp_path / "book.pdf") == []


def test_the_validator_would_find_a_table_without_heads(tmp_path) -> None:
    """The same validator does complain where there is something to complain of."""
    source = b'#set document(title: "t")\n#table(columns: 2, [a], [b], [c], [d])'
    bare = pdf._compiled({"main.typ": source}, system_fonts=False)
    assert isinstance(bare, bytes)
    assert any("header cell" in complaint for complaint in complaints(bare, tmp_path / "bare.pdf"))


@pytest.mark.parametrize("name", ["one_span", "demo"])
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_the_summary_is_short(name: str, paper: Paper) -> None:
    """Two to four pages: one span on two posts, and the demonstration with all that lies around it."""
    data = pdf.sheet_pdf(study(read_text(SURVEYS[name])), paper)
    assert 2 <= len(PdfReader(BytesIO(data)).pages) <= 4


def test_every_page_bears_status_caution_and_number(printed) -> None:
    """The status stands at the head of each page, the caution and the page number at its foot."""
    _, _, pages = printed
    for number, lines in enumerate(pages, 1):
        text = " ".join(" ".join(lines).split())
        assert STATUS in text
        assert SHORT_CAUTION in text
        assert f"page {number} of {len(pages)}" in text


def test_no_heading_stands_alone_at_the_foot_of_a_page(printed) -> None:
    """The last line over the foot of a page is never a heading."""
    name, _, pages = printed
    body = ET.fromstring(sheet_html(study(read_text(SURVEYS[name]))))  # noqa: S314  our own page
    heads = {" ".join(head.itertext()) for level in ("h1", "h2", "h3") for head in body.iter(f"{XHTML}{level}")}
    for lines in pages:
        foot = next(number for number, line in enumerate(lines) if line.startswith(SHORT_CAUTION[:40]))
        above = [line.strip() for line in lines[:foot] if line.strip()]
        assert not {above[-1], " ".join(above[-2:])} & heads


def test_same_input_same_bytes(tmp_path) -> None:
    """Another process, folder, hash seed, time zone and language write the same page and the same PDF."""
    survey = tmp_path / "survey.toml"
    survey.write_bytes(SURVEYS["three_posts"])
    root = str(Path(__file__).parents[2])
    told = set()
    for seed, folder, zone, language in (("1", tmp_path, "UTC", "C"), ("2", Path(root), "Asia/Tokyo", "C.UTF-8")):
        done = subprocess.run(
            [sys.executable, "-c", HASHED, str(survey)],
            capture_output=True,
            text=True,
            check=True,
            cwd=folder,
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": root, "TZ": zone, "LC_ALL": language},
        )
        told.add(done.stdout)
    here = study(read_text(SURVEYS["three_posts"]))
    assert told == {
        f"{hashlib.sha256(sheet_html(here).encode()).hexdigest()} {hashlib.sha256(pdf.sheet_pdf(here)).hexdigest()}\n"
    }


@pytest.mark.parametrize(
    "markup",
    ["<p><u>x</u></p>", "<aside>x</aside>", '<div class="odd"><p>x</p></div>', "<table><tbody></tbody></table>"],
)
def test_markup_without_a_rule_is_an_error(markup) -> None:
    """The walker leaves nothing out in silence: what it has no rule for raises."""
    page = f'<html xmlns="http://www.w3.org/1999/xhtml"><body><main>{markup}</main></body></html>'
    with pytest.raises(ValueError, match="no rule"):
        pdf._Walker().page(page)


def test_a_letter_that_no_font_has_is_refused(monkeypatch) -> None:
    """Where no font has a letter, nothing is printed, and the message says which text it was."""
    monkeypatch.setattr(pdf, "_compiled", lambda files, *, system_fonts: "the text X could not be displayed")
    with pytest.raises(InputError, match="the text X could not be displayed"):
        pdf.sheet_pdf(study(read_text(SURVEYS["demo"])))


def test_other_fonts_are_owned_up_to(monkeypatch) -> None:
    """Where this machine's fonts had to help, the page says so; else it does not."""
    seen = []

    def compiled(source: dict[str, bytes], *, system_fonts: bool) -> bytes | str:
        seen.append((system_fonts, pdf._FONTS in source["main.typ"].decode()))
        return b"made" if system_fonts else "no such letter"

    monkeypatch.setattr(pdf, "_compiled", compiled)
    assert pdf.sheet_pdf(study(read_text(SURVEYS["demo"]))) == b"made"
    assert seen == [(False, False), (True, True)]


def test_without_the_typesetter_the_message_says_what_would_do(monkeypatch) -> None:
    """On a machine without the typesetter the PDF is refused with a sentence, not a traceback."""
    monkeypatch.setitem(sys.modules, "typst", None)
    with pytest.raises(BeamcheckError, match="write the page instead"):
        pdf.sheet_pdf(study(read_text(SURVEYS["demo"])))
