"""The documentation is in step with the code, and its links lead somewhere."""

import importlib
import re
from pathlib import Path

import pytest

from beamcheck import __version__

ROOT = Path(__file__).parents[2]
PAGES = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted((ROOT / "docs").rglob("*.md"))]


def test_the_reference_is_made_from_the_code(monkeypatch) -> None:
    """Making the reference and the man page anew changes nothing:  python docs/make.py"""
    monkeypatch.syspath_prepend(ROOT / "docs")
    for name, text in importlib.import_module("make").pages().items():
        assert (ROOT / "docs" / name).read_text(encoding="utf-8") == text, name


def test_the_man_page_has_no_line_that_is_taken_for_a_command() -> None:
    """A line of the man page that begins with a dot is one of the macros it is written in."""
    lines = (ROOT / "docs" / "bearline.1").read_text(encoding="utf-8").splitlines()
    macros = {line.split()[0] for line in lines if line.startswith((".", "'"))}
    assert macros == {".TH", ".SH", ".SS", ".TP", ".PP", ".B", ".br", ".nf", ".fi"}
    assert not any("-" in line.replace("\\-", "") for line in lines)


def links(page: Path) -> list[str]:
    """Where the links of a page lead, outside code: written in line, with a title or as a reference."""
    text = re.sub(r"```.*?```|`[^`\n]*`", "", page.read_text(encoding="utf-8"), flags=re.DOTALL)
    return re.findall(r"\]\(<?([^)\s>]+)", text) + re.findall(r"^\[[^]]+\]:\s*(\S+)", text, re.MULTILINE)


def anchors(page: Path) -> set[str]:
    """The anchors that the headings of a page make; the second of one name is numbered."""
    text = re.sub(r"```.*?```", "", page.read_text(encoding="utf-8"), flags=re.DOTALL)
    made: list[str] = []
    for heading in re.findall(r"^#+ (.+)$", text, re.MULTILINE):
        plain = re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-")
        before = sum(re.fullmatch(re.escape(plain) + r"(-\d+)?", one) is not None for one in made)
        made.append(f"{plain}-{before}" if before else plain)
    return set(made)


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.relative_to(ROOT).as_posix())
def test_links_lead_somewhere(page: Path) -> None:
    """Every relative link of a page names a file or folder of the project, and its anchor a heading there."""
    for target in links(page):
        if re.match(r"https?:", target):
            continue
        name, _, anchor = target.partition("#")
        there = (page.parent / name).resolve() if name else page
        assert there.exists(), target
        assert there.is_relative_to(ROOT), target
        assert not anchor or anchor in anchors(there), target


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.relative_to(ROOT).as_posix())
def test_files_that_a_page_names_are_there(page: Path) -> None:
    """A path in a page's code marks that begins like one of the project's is one of the project's."""
    text = page.read_text(encoding="utf-8")
    for name in re.findall(r"`((?:beamcheck|tables|tests|docs|\.ci)/[\w./*-]+)`", text):
        assert any(ROOT.glob(name.rstrip("/"))), name


def test_every_page_of_the_docs_can_be_reached() -> None:
    """Following links from README leads to every page there is."""
    seen, waiting = set(), [ROOT / "README.md", ROOT / "DEVELOPERS.md"]
    while waiting:
        page = waiting.pop().resolve()
        if page in seen or page.suffix != ".md":
            continue
        seen.add(page)
        found = [page.parent / target.partition("#")[0] for target in links(page)]
        waiting += [path / "README.md" if path.is_dir() else path for path in found if path.exists()]
    assert {path.resolve() for path in PAGES} - seen == set()


def test_changes_lead_with_the_numbers() -> None:
    """Every version says first which printed figures change; the first version listed is the one in the code."""
    _, *versions = re.split(r"^## ", (ROOT / "docs" / "changes.md").read_text(encoding="utf-8"), flags=re.MULTILINE)
    assert versions[0].split()[0] == __version__
    for version in versions:
        kinds = re.findall(r"^\*\*(\w+)\.\*\* \w", version, re.MULTILINE)
        assert kinds[0] == "Numbers", version[:40]
        assert "Numbers" not in kinds[kinds.count("Numbers") :], f"{version[:40]}: numbers stand first"


def test_the_top_level_is_as_agreed() -> None:
    """The top level holds just these, dot-files beside them."""
    top = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    made = {"dist", "build", "mutants", "demo.toml", "demo.html"}
    assert top - made == {"README.md", "DEVELOPERS.md", "pyproject.toml", "beamcheck", "tables", "tests", "docs"}


def test_the_readme_shows_what_the_demonstration_prints() -> None:
    """The chain in README is the one that the demonstration prints, line by line."""
    from beamcheck.study.chain import study
    from beamcheck.survey.reader import read
    from beamcheck.views.terminal import study_text

    shown = re.search(r"```\n(-- The chain.*?)\n```", (ROOT / "README.md").read_text(encoding="utf-8"), re.DOTALL)
    assert shown is not None
    printed = study_text(study(read(ROOT / "beamcheck" / "survey" / "demo.toml")))
    assert shown[1] in "\n".join(line.rstrip() for line in printed.splitlines())
