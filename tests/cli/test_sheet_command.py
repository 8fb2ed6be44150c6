"""The command that writes the summary, as a person runs it."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

from beamcheck.views.words import STATUS

ONE_SPAN = Path(__file__).parents[1] / "rules" / "sheets" / "one_span.toml"


def sheet(*arguments: str) -> subprocess.CompletedProcess[str]:
    """Run the command in a process of its own."""
    command = [sys.executable, "-m", "beamcheck", "sheet", *arguments]
    return subprocess.run(command, capture_output=True, text=True, check=False)


def test_the_page_is_written_and_printed_twice_the_same(tmp_path) -> None:
    """The page is one file with the status on it; written again it is the same; exit code 1 where a link is over."""
    first, again = tmp_path / "first.html", tmp_path / "again.html"
    for path in (first, again):
        done = sheet(str(ONE_SPAN), "-o", str(path))
        assert done.returncode == 1, done.stderr
        assert str(path) in done.stdout
    assert STATUS in first.read_text("utf-8")
    assert first.read_bytes() == again.read_bytes()


def test_paper_and_book_are_asked_for(tmp_path) -> None:
    """A4 is another page size, and the book makes the summary longer."""
    letter, a4, book = tmp_path / "letter.html", tmp_path / "a4.html", tmp_path / "book.html"
    sheet(str(ONE_SPAN), "-o", str(letter))
    sheet(str(ONE_SPAN), "-o", str(a4), "--paper", "a4")
    sheet(str(ONE_SPAN), "-o", str(book), "--book")
    sizes = [re.search(r"size: (\w+)", path.read_text("utf-8"))[1] for path in (letter, a4)]
    assert sizes == ["letter", "a4"]
    assert "Calculation book" in book.read_text("utf-8")
    assert "Calculation book" not in letter.read_text("utf-8")


def test_the_pdf_is_written(tmp_path) -> None:
    """The same command with another ending writes a PDF."""
    path = tmp_path / "summary.pdf"
    done = sheet(str(ONE_SPAN), "-o", str(path), "--paper", "a4")
    assert done.returncode == 1, done.stderr
    assert path.read_bytes().startswith(b"%PDF-")


@pytest.mark.parametrize("name", ["summary.docx", "summary"])
def test_another_ending_is_refused(tmp_path, name) -> None:
    """What is neither page nor PDF is refused with what would do, and nothing is written."""
    path = tmp_path / name
    done = sheet(str(ONE_SPAN), "-o", str(path))
    assert done.returncode == 2
    assert ".html or .pdf" in done.stderr
    assert not path.exists()
