"""Every figure on paper is the figure in the data: page and PDF against the JSON, by the printing rule alone."""

import json
import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from importlib.resources import files
from io import BytesIO
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from pypdf import PdfReader

from beamcheck.study.chain import study
from beamcheck.survey.reader import read_text
from beamcheck.units import parse_length
from beamcheck.views.data import study_data
from beamcheck.views.pdf import sheet_pdf
from beamcheck.views.sheet import Book, sheet_html

HERE = Path(__file__).parent
SURVEYS = {path.stem: path.read_text("utf-8") for path in sorted((HERE / "sheets").glob("*.toml"))}
SURVEYS |= {path.stem: path.read_text("utf-8") for path in sorted((HERE.parent / "houses").glob("*.toml"))}
SURVEYS["demo"] = (files("beamcheck.survey") / "demo.toml").read_text("utf-8")
LENGTH = re.compile(r"\b(?:\d+ ft(?!\^)(?: \d+(?:-\d+/\d+)? in)?|\d+(?:-\d+/\d+)? in|\d+/\d+ in)(?![\w^])")
SURVEYS["metric"] = LENGTH.sub(lambda told: f"{parse_length(told[0]) * 25.4:.0f} mm", SURVEYS["demo"]).replace(
    "[study]", '[study]\ndimensions = "metric"'
)

XHTML = "{http://www.w3.org/1999/xhtml}"
SVG = "{http://www.w3.org/2000/svg}"
MATHS = "{http://www.w3.org/1998/Math/MathML}"
FEET = re.compile(r"(?:(-?\d+) ft)? ?(?:(\d+)(?:-(\d+)/(\d+))?|(\d+)/(\d+))? ?(?:in)?")
PLAIN = re.compile(r"([-\u2212]?[\d,]+(?:\.\d+)?)(?: ?([^\d\s].*))?")
IN_BASE = {
    "": ("1", 1.0), "psi": ("psi", 1.0), "psf": ("psf", 1.0), "pcf": ("pcf", 1.0), "lb": ("lb", 1.0),
    "in": ("in", 1.0), "ft": ("in", 12.0), "mm": ("in", 1 / 25.4), "in²": ("in^2", 1.0), "ft²": ("in^2", 144.0),
    "in³": ("in^3", 1.0), "in⁴": ("in^4", 1.0), "lb·in": ("lb*in", 1.0), "lb·ft": ("lb*in", 12.0),
    "plf": ("lb/in", 1 / 12), "lb/in": ("lb/in", 1.0), "°": ("deg", 1.0), "%": ("1", 0.01),
}  # fmt: skip
FROM_DATA = {"ft": ("in", 12.0), "ft^2": ("in^2", 144.0), "plf": ("lb/in", 1 / 12)}
AROUND = ("temporary", "signs", "room", "heavy", "house")


class Printed(NamedTuple):
    """A figure read back from paper: number and unit of the data, and half of the last digit or sixteenth shown."""

    number: float
    unit: str
    half: float


def read_back(text: str) -> Printed:
    """The figure that a reader of the paper takes from its letters."""
    feet = FEET.fullmatch(text)
    if feet and any(feet.groups()) and (feet[1] or "/" in text):
        whole, part = float(feet[2] or 0), float(feet[3] or feet[5] or 0) / float(feet[4] or feet[6] or 1)
        return Printed(12 * float(feet[1] or 0) + whole + part, "in", 1 / 32)
    plain = PLAIN.fullmatch(text)
    assert plain, f"{text!r} is no figure"
    number, (unit, factor) = plain[1].replace(",", "").replace("\u2212", "-"), IN_BASE[plain[2] or ""]
    return Printed(float(number) * factor, unit, 0.5 * 10 ** -len(number.partition(".")[2]) * factor)


def agrees(text: str, value: dict[str, Any]) -> bool:
    """Whether what is printed is the number of the data, to half of the last digit shown."""
    if value["number"] is None or "∞" in text:
        return value["number"] is None and "∞" in text
    unit, factor = FROM_DATA.get(value["unit"], (value["unit"], 1.0))
    printed = read_back(text)
    return printed.unit == unit and abs(printed.number - value["number"] * factor) <= printed.half * (1 + 1e-6) + 1e-9


def rounded_up(text: str, number: float | None) -> bool:
    """Whether a utilisation is printed upwards to the hundredth, nothing over 1.00 as 1.00, the endless in words."""
    if number is None or number > 999:
        return text == "> 999"
    short = float(text) - number
    return -1e-9 <= short < 0.01 + 1e-9 and (number <= 1) == (float(text) <= 1)


@pytest.fixture(scope="module", params=sorted(SURVEYS))
def house(request):
    """Each survey's study, its data as it is written out, and its page with the calculation book."""
    made = study(read_text(SURVEYS[request.param].encode()))
    data = json.loads(json.dumps(study_data(made)))
    return made, data, ET.fromstring(sheet_html(made, book=Book.FULL))  # noqa: S314  our own page


def found(item: dict[str, Any], key: str) -> Iterator[dict[str, Any]]:
    """Every item of one kind in the data, in reading order."""
    if key in item:
        yield item
    for part in item.get("items", ()):
        yield from found(part, key)


def text_of(element: ET.Element) -> str:
    """All text of an element, white space squeezed."""
    return " ".join("".join(element.itertext()).split())


def rows(page: ET.Element, *first: str) -> list[list[str]]:
    """Cells of the rows in every table whose heads begin with the words given, rows that head others left out."""
    found_rows = []
    for table in page.iter(f"{XHTML}table"):
        head = table.find(f"{XHTML}thead")
        if head is None or [text_of(cell) for cell in head[0]][: len(first)] != list(first):
            continue
        body = table.find(f"{XHTML}tbody")
        found_rows += [[text_of(cell) for cell in row] for row in body if row[0].get("scope") != "colgroup"]
    return found_rows


def test_demand_limit_and_utilisation_on_the_page_are_those_of_the_data(house) -> None:
    """Every check is printed once, in the order of the data, with its own demand, limit, utilisation and word."""
    _, data, page = house
    links = list(zip(data["chain"], data["sheet"]["items"], strict=True))
    links.sort(key=lambda link: re.split(r"[.\[]", link[0]["key"])[0] in AROUND)  # what lies around is in the annex
    checks = [check for _, sheet in links for check in found(sheet, "check")]
    printed = rows(page, "check", "demand", "limit", "ratio", "word")
    assert [row[0] for row in printed] == [check["title"] for check in checks]
    for row, check in zip(printed, checks, strict=True):
        demand, limit = (data["values"][check[part]] for part in ("demand", "limit"))
        words = check.get("instead_of_demand")
        assert row[1] == words if words else agrees(row[1], demand), (check["check"], row[1], demand["number"])
        assert agrees(row[2], limit), (check["check"], row[2], limit["number"])
        assert rounded_up(row[3], check["utilisation"]), (check["check"], row[3], check["utilisation"])
        assert row[4] == check["word"]


def test_utilisations_of_the_data_are_demand_over_limit(house) -> None:
    """The data holds together: each utilisation is its own demand over its own limit."""
    _, data, _ = house
    for check in found(data["sheet"], "check"):
        demand, limit = (data["values"][check[part]] for part in ("demand", "limit"))
        scale = [FROM_DATA.get(value["unit"], (value["unit"], 1.0)) for value in (demand, limit)]
        assert scale[0][0] == scale[1][0]
        if limit["number"] and check["utilisation"] is not None:
            ratio = demand["number"] * scale[0][1] / (limit["number"] * scale[1][1])
            assert check["utilisation"] == pytest.approx(ratio, rel=1e-9, abs=1e-12)


def test_figures_in_tables_are_those_of_the_data(house) -> None:
    """Each table of the data is on the page, and each of its figures is the one of the data."""
    _, data, page = house
    for schedule in found(data["sheet"], "schedule"):
        if schedule["schedule"].endswith(".movement"):
            continue  # a table of another shape: see below
        printed = [row for row in rows(page, *schedule["heads"]) if len(row) == len(schedule["heads"])]
        for row in schedule["rows"]:
            assert any(same(row, cells, data) for cells in printed), (schedule["schedule"], row, printed)


def same(row: list[Any], cells: list[str], data: dict[str, Any]) -> bool:
    """Whether cells of the page are a row of the data; the take-down names an item in the first of its rows only."""
    pairs = list(zip(row, cells, strict=True))
    words = [(place, part, cell) for place, (part, cell) in enumerate(pairs) if is_word(part)]
    if any(cell != part and (place, cell) != (0, "") for place, part, cell in words):
        return False
    return all(cell and agrees(cell, data["values"][part]) for part, cell in pairs if not is_word(part))


def is_word(part: Any) -> bool:
    """Whether a cell of the data holds words and no number of a value."""
    return isinstance(part, str)


def test_movements_are_those_of_the_data(house) -> None:
    """The table of movements, turned so that bays stand beside each other, holds the data's figures."""
    _, data, page = house
    for schedule in found(data["sheet"], "schedule"):
        if schedule["schedule"] != "beam.movement":
            continue
        bays = list(dict.fromkeys(row[0] for row in schedule["rows"]))
        printed = {row[0]: dict(zip(bays, row[1:], strict=False)) for row in rows(page, "when", *bays)}
        for bay, occasion, number in schedule["rows"]:
            assert agrees(printed[occasion][bay], data["values"][number]), (bay, occasion)


def test_titled_figures_are_those_of_the_data(house) -> None:
    """Each figure that bears a title is printed behind it, in the annex or under the take-down."""
    _, data, page = house
    printed = [text_of(item) for tag in ("li", "p") for item in page.iter(f"{XHTML}{tag}")]
    for item in found(data["sheet"], "value"):
        value = data["values"][item["value"]]
        title = f"{item['title']}, {value['case']}" if value["case"] else item["title"]
        told = [text.rpartition(": ")[2] for text in printed if f"{title}: " in text]
        assert any(agrees(text, value) for text in told if PLAIN.fullmatch(text)), (item["title"], told)


def test_the_pdf_shows_the_rows_of_the_page(house) -> None:
    """The PDF holds, in the same order, each check with the figures that the page has."""
    made, _, _ = house
    page = ET.fromstring(sheet_html(made))  # noqa: S314  our own page
    paper = "".join("".join(sheet.extract_text().split()) for sheet in PdfReader(BytesIO(sheet_pdf(made))).pages)
    printed = rows(page, "check", "demand", "limit", "ratio", "word")
    assert printed or made.loaded is None
    place = 0
    for row in printed:
        wanted = "".join("".join(cell.split()) for cell in row[:5])
        place = paper.find(wanted, place)
        assert place >= 0, row


def test_the_chain_strip_shows_the_data(house) -> None:
    """Each link in the strip of page one bears the word of the data, and the utilisation of the check it names."""
    _, data, page = house
    checks = {check["check"]: check for check in found(data["sheet"], "check")}
    strip = next(table for table in page.iter(f"{XHTML}table") if table.get("class") == "chain")
    cells = [text_of(cell) for cell in strip.iter(f"{XHTML}td") if text_of(cell)]
    for link in data["chain"]:
        told = [cell for cell in cells if cell.startswith(link["word"])]
        assert told, link["title"]
        if link["governing"]:
            check = checks[link["governing"]]
            numbers = [re.findall(r"> 999|\d+\.\d\d", cell)[0] for cell in told if check["title"] in cell]
            assert any(rounded_up(number, check["utilisation"]) for number in numbers), link["title"]


def test_a_metric_survey_is_printed_in_metric() -> None:
    """No length in feet or inches stands on a metric sheet but in formulas, what goes into them, and rules."""
    made = study(read_text(SURVEYS["metric"].encode()))
    page = ET.fromstring(sheet_html(made))  # noqa: S314  our own page
    for parent in [*page.iter()]:
        for child in [child for child in parent if child.tag.startswith(MATHS)]:
            parent.remove(child)
    tags = [f"{XHTML}{tag}" for tag in ("h1", "h2", "h3", "p", "dd", "li", "td", "th")]
    told = [text_of(element) for tag in (*tags, f"{SVG}text", f"{SVG}desc") for element in page.iter(tag)]
    feet = [text for text in told if re.search(r"\d (?:ft|in)\b(?!²)", text)]
    ours = re.compile(r"\S+ = [\d.,]+ (?:in|ft): |refer: Ceiling or opening|[\d.]+ ft$|.*from memory|.* in \(")
    assert [text for text in feet if not ours.match(text)] == []
    assert any("mm" in text for text in told)
