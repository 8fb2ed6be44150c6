"""The page of licences names what the package asks for, what comes along, and terms that let anyone use it."""

import re
import tomllib
from importlib.metadata import requires
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "licences.md").read_text(encoding="utf-8")
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
FREE = {"MIT", "BSD-2-Clause", "BSD-3-Clause", "Apache-2.0", "ISC", "PSF-2.0"}
FREE_UNCHANGED = {"MPL-2.0"}  # changes to the library itself are to be shared: for tests, which are not shipped


def rows(heading: str) -> dict[str, str]:
    """Package and licence of each row of the table under a heading."""
    part = re.search(rf"^## {heading}\n(.*?)(?=^## |\Z)", PAGE, re.MULTILINE | re.DOTALL)
    assert part is not None, heading
    return dict(re.findall(r"^\| ([a-z0-9-]+) \| ([A-Z][\w.-]*) \| \w.* \|$", part[1], re.MULTILINE))


def named(needs: list[str]) -> set[str]:
    """Names of what a list of requirements asks for."""
    return {canonicalize_name(Requirement(need).name) for need in needs}


@pytest.mark.parametrize(
    ("heading", "needs"),
    [
        ("Needed to run", PROJECT["dependencies"]),
        ("Needed by the tests", PROJECT["optional-dependencies"]["test"]),
    ],
)
def test_what_is_asked_for_is_on_the_page(heading: str, needs: list[str]) -> None:
    """Every direct dependency has its row, and no row is left of one that is gone."""
    assert set(rows(heading)) == named(needs)


def test_what_comes_along_at_run_time_is_on_the_page() -> None:
    """Whatever an installed dependency asks for in turn, here and without extras, has a row as well."""
    waiting, found = list(rows("Needed to run")), set()
    while waiting:
        name = waiting.pop()
        found.add(name)
        needs = [Requirement(need) for need in requires(name) or []]
        asked = {
            canonicalize_name(need.name) for need in needs if not need.marker or need.marker.evaluate({"extra": ""})
        }
        waiting += asked - found
    assert len(found) > len(PROJECT["dependencies"])
    assert found - set(rows("Needed to run")) <= set(rows("Brought along by these"))


def test_terms_let_anyone_use_it() -> None:
    """What is shipped or needed to run stands under terms that ask for a notice at most; tests may take MPL-2.0 too."""
    shipped = rows("Needed to run") | rows("Brought along by these")
    assert set(shipped.values()) <= FREE
    assert set(rows("Needed by the tests").values()) <= FREE | FREE_UNCHANGED
