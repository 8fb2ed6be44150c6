"""The printed summary: what stands on it, in which order, that nothing a user writes is read as code."""

import re
import xml.etree.ElementTree as ET
from importlib.resources import files
from pathlib import Path

import pytest

from beamcheck.study.chain import study
from beamcheck.study.registers import assumed, core
from beamcheck.survey.reader import read_text
from beamcheck.trace import Check, Missing, Note, Refer, Schedule, Value, items
from beamcheck.views import pdf
from beamcheck.views.contents import chain, tally
from beamcheck.views.sheet import Book, sheet_html
from beamcheck.views.words import CAUTIONS, SHORT_CAUTION, STATUS, ratio

SURVEYS = {path.stem: path.read_bytes() for path in sorted((Path(__file__).parent / "sheets").glob("*.toml"))}
SURVEYS |= {path.stem: path.read_bytes() for path in sorted((Path(__file__).parents[1] / "houses").glob("*.toml"))}
SURVEYS["demo"] = (files("beamcheck.survey") / "demo.toml").read_bytes()
FORBIDDEN = re.compile(r"\b(approved|safe|safely|ok|pass(es|ed)?|not bearing)\b", re.IGNORECASE)
XHTML = "{http://www.w3.org/1999/xhtml}"
MATHS = "{http://www.w3.org/1998/Math/MathML}"


@pytest.fixture(scope="module", params=sorted(SURVEYS))
def made(request):
    """Each survey, studied."""
    return study(read_text(SURVEYS[request.param]))


@pytest.fixture(scope="module")
def page(made) -> ET.Element:
    """Its page as a tree: parsing it is the proof that it is strict XML."""
    return tree_of(sheet_html(made))


def tree_of(source: str) -> ET.Element:
    """A page as a tree; anything but strict XML raises."""
    return ET.fromstring(source)  # noqa: S314  our own page


def words(page: ET.Element) -> str:
    """All text of the body, white space squeezed."""
    body = page.find(f"{XHTML}body")
    return " ".join("".join(body.itertext()).split())


def test_status_and_every_caution_stand_on_the_page(page) -> None:
    """The status line and all the cautions are printed in full, and on every printed page by the style sheet."""
    text, style = words(page), page.find(f".//{XHTML}style").text
    for sentence in (STATUS, *CAUTIONS):
        assert sentence in text
    assert f'@top-left {{ content: "{STATUS}"' in style
    assert f'@bottom-left {{ content: "{SHORT_CAUTION}"' in style
    assert "counter(page)" in style


def test_no_word_of_approval(made, page) -> None:
    """No output says that anything is fit to build; what the user wrote is the user's."""
    ours = words(page)
    for text in (made.survey.about.title, made.survey.about.question):
        ours = ours.replace(" ".join(text.split()), "")
    assert FORBIDDEN.search(ours) is None


def test_page_one_lets_an_engineer_start(made, page) -> None:
    """Question, drawings, chain, what governs and the unknowns come first and in this order."""
    front = page.find(f".//{XHTML}section")
    assert front.get("class") == "front"
    text = " ".join("".join(front.itertext()).split())
    marks = ["The question.", "Elevation before", "Plan", "Elevation after", "The chain, from roof to soil"]
    marks += ["The result, and what governs", "Not known, and matters most"]
    places = [text.index(mark) for mark in marks]
    assert places == sorted(places)
    assert made.survey.sha256[:12] in text
    governing = core(made).governing
    if governing is not None:
        assert f"{governing.word} {ratio(governing)}" in text


def test_sections_follow_in_their_order(page) -> None:
    """The parts behind page one come in the order in which they are checked."""
    heads = [head.text for head in page.iter(f"{XHTML}h2")]
    wanted = ["Take-down: what comes down on the beam", "Every check of the chain", "Assumed, because it was not known"]
    wanted += ["Factors taken as 1.0", "From memory: look these up first"]
    wanted += ["Questions to the engineer", "Connections to be designed", "For the inspector, before it is covered"]
    wanted += ["To be measured again on site", "Temporary support: refer", "For the engineer"]
    wanted += ["Where the figures come from"]
    assert [head for head in heads if head in wanted] == wanted


def test_every_link_stands_in_the_strip_with_its_own_word(made) -> None:
    """The chain strip and the tally hold each link once, under the word that the study gives it."""
    strip = chain(made)
    cells = [*strip.before, *(cell for _, row in strip.levels for cell in row if cell is not None)]
    cells += [cell for _, group in strip.after for cell in group]
    assert sorted((cell.title, cell.word) for cell in cells) == sorted((link.title, link.word) for link in made.links)
    for cell in cells:
        link = next(link for link in made.links if link.title == cell.title)
        assert cell.ratio == (ratio(link.governing) if link.governing is not None else "")
    counted = {word for word, _ in tally(made)} | {"counted"}
    assert {link.word for link in made.links} <= counted


def test_every_check_is_printed_with_its_ratio_and_word(made, page) -> None:
    """Each check of the study is a row: title, utilisation rounded up, word."""
    rows = [["".join(cell.itertext()) for cell in row] for row in page.iter(f"{XHTML}tr")]
    for check in (item for item in items(core(made).sheet) if isinstance(item, Check)):
        assert any(row[0] == check.title and ratio(check) in row and check.word in row for row in rows), check.key


def test_every_stop_is_a_question(made, page) -> None:
    """Each refer and each missing link is printed with what is asked or needed."""
    text = words(page)
    for item in made.stops:
        assert item.title in text
        told = item.need if isinstance(item, Missing) else item.ask
        assert told.rstrip(".")[1:] in text
    assert len([item for item in made.stops if isinstance(item, Refer)]) > 0


def test_take_down_figures_are_printed(made, page) -> None:
    """Each row of the take-down shows its load in plf or its force in lb, to the last digit shown."""
    rows = [["".join(cell.itertext()) for cell in row] for row in page.iter(f"{XHTML}tr")]
    table = next(item for item in items(made.sheet) if isinstance(item, Schedule) and item.key == "takedown.table")
    column = table.heads.index("plf or lb")
    printed = next(number for number, row in enumerate(rows) if tuple(row) == table.heads)
    for number, row in enumerate(table.rows, printed + 1):
        load = row[column]
        assert isinstance(load, Value)
        figure, unit = rows[number][column].split()
        assert unit == ("lb" if load.unit == "lb" else "plf")
        digits = len(figure.partition(".")[2])
        assert float(figure.replace(",", "")) == pytest.approx(load.to(unit), abs=0.5 * 10**-digits + 1e-9)


def test_the_page_is_one_file_without_scripts(made) -> None:
    """Nothing is loaded from outside, nothing runs, and the user's text is text."""
    source = sheet_html(made, book=Book.FULL)
    tree = tree_of(source)
    tags = {element.tag.rpartition("}")[2] for element in tree.iter()}
    assert not tags & {"script", "link", "img", "iframe", "object", "form", "input", "a"}
    names = {name for element in tree.iter() for name in element.attrib}
    assert not {name for name in names if name.startswith("on")} | names & {"src", "href"}
    assert "url(" not in source
    assert "@import" not in source
    assert set(re.findall(r"https?://[^\"<\s]+", source)) <= {
        "http://www.w3.org/1999/xhtml",
        "http://www.w3.org/2000/svg",
        "http://www.w3.org/1998/Math/MathML",
    }


def test_what_a_user_writes_is_read_as_text() -> None:
    """Template, markup and typesetting code in a title comes out letter by letter, on the page and in Typst."""
    nasty = study(read_text(SURVEYS["three_posts"]))
    title = nasty.survey.about.title
    assert "{{ 7*7 }}" in title and "#read(" in title and "<script>" in title
    assert title in words(tree_of(sheet_html(nasty)))
    source = pdf.sources(nasty, "letter", Book.NO)["main.typ"].decode()
    assert pdf.quoted(title) in source
    assert title not in source.replace(pdf.quoted(title), "")


def test_every_formula_says_its_line(made) -> None:
    """Each formula of the full book carries its line for those who cannot see it."""
    tree = tree_of(sheet_html(made, book=Book.FULL))
    formulas = list(tree.iter(f"{MATHS}math"))
    assert all(" = " in formula.get("alttext") for formula in formulas)
    assert len(formulas) >= len([item for item in items(made.sheet) if isinstance(item, Check)])


def test_the_book_adds_every_check(made) -> None:
    """The full book opens the calculation of every check; the summary only that of the governing ones."""
    short, full = (tree_of(sheet_html(made, book=book)) for book in (Book.NO, Book.FULL))
    heads = [head.text for head in full.iter(f"{XHTML}h3")]
    for check in (item for item in items(made.sheet) if isinstance(item, Check)):
        assert f"{check.title}: {ratio(check)}, {check.word}" in heads
    assert len(heads) > len(list(short.iter(f"{XHTML}h3")))


def test_the_book_holds_all_tables_and_figures(made) -> None:
    """Nothing of the study is lost: with the book, every table's title, titled figure and note is printed."""
    text = words(tree_of(sheet_html(made, book=Book.FULL)))
    for item in items(made.sheet):
        match item:
            case Schedule() if item.key != "takedown.table":
                assert item.title in text
            case Note() if not any(entry.lean and entry.lean in item.text for entry in assumed(made)):
                assert item.text.rstrip(".") in text
            case Value() if item.title:
                assert f"{item.called}: " in text
