"""The documentation is in step with the code, and its links lead somewhere."""

import importlib.util
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PAGES = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted((ROOT / "docs").rglob("*.md"))]


def test_the_reference_is_made_from_the_code() -> None:
    """Making the reference anew changes nothing:  python docs/make.py"""
    spec = importlib.util.spec_from_file_location("make", ROOT / "docs" / "make.py")
    assert spec is not None
    assert spec.loader is not None
    make = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(make)
    for name, text in make.pages().items():
        assert (ROOT / "docs" / "reference" / name).read_text(encoding="utf-8") == text, name


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.relative_to(ROOT).as_posix())
def test_links_lead_somewhere(page: Path) -> None:
    """Every relative link of a page names a file or folder that is there."""
    for target in re.findall(r"\]\(([^)#]+)", page.read_text(encoding="utf-8")):
        if not target.startswith(("http:", "https:")):
            assert (page.parent / target).exists(), target


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.relative_to(ROOT).as_posix())
def test_links_to_a_heading_find_it(page: Path) -> None:
    """A link with an anchor leads to a heading of that name, on its own page or another."""
    for target, anchor in re.findall(r"\]\(([^)#:]*)#([^)]+)\)", page.read_text(encoding="utf-8")):
        text = (page.parent / target if target else page).read_text(encoding="utf-8")
        headings = re.findall(r"^#+ (.+)$", text, re.MULTILINE)
        assert anchor in {re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-") for heading in headings}, anchor


def test_every_page_of_the_docs_can_be_reached() -> None:
    """Following links from README leads to every page there is."""
    seen, waiting = set(), [ROOT / "README.md", ROOT / "DEVELOPERS.md"]
    while waiting:
        page = waiting.pop().resolve()
        if page in seen or page.suffix != ".md":
            continue
        seen.add(page)
        targets = re.findall(r"\]\(([^)#:]+)", page.read_text(encoding="utf-8"))
        found = [page.parent / target for target in targets]
        waiting += [path / "README.md" if path.is_dir() else path for path in found if path.exists()]
    assert {path.resolve() for path in PAGES} - seen == set()


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
