"""Draw the page: the form on one side, on the other the summary from the very markup that is printed."""

import re
from collections.abc import Iterator, Mapping
from functools import cache
from hashlib import sha256
from typing import Any, NamedTuple

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from beamcheck.errors import Fault
from beamcheck.study.types import Study
from beamcheck.views import contents
from beamcheck.views.grids import Line
from beamcheck.views.page.rows import TRUSTS, Division, anchors, divisions
from beamcheck.views.sheet import TEMPLATES, Paper, sheet_html, style_sheet
from beamcheck.views.words import CAUTIONS, SHORT_CAUTION, STATUS

ICON = (TEMPLATES / "page-icon.svg").read_bytes()

_WIDTHS = re.compile(r' data-columns="([0-9a-z. ]+)" style="--widths: [0-9a-z. ]+"')
_SCROLLED = re.compile(r'<(?:div class="wide"|figure class="broad")')


class Screen(NamedTuple):
    """What is drawn: the survey as the form holds it, its study or its faults, and where the eye goes."""

    file: str
    entries: Mapping[str, Any]
    study: Study | None
    faults: tuple[Fault, ...]
    paper: Paper
    book: bool
    focus: str
    variants: str


class Strip(NamedTuple):
    """The result in one line: how many links stand under which word, and what governs."""

    words: tuple[tuple[str, int], ...]
    governs: tuple[str, Line] | None


def page(screen: Screen, nonce: str) -> str:
    """The page as HTML; its one script and its styles carry the nonce."""
    drawn = _drawn(screen)
    widths = sorted(set(re.findall(r'class="pair[a-z ]*" data-columns="([0-9a-z. ]+)"', drawn["sheet"])))
    rules = "".join(f'.pair[data-columns="{width}"] {{ --widths: {width}; }}\n' for width in widths)
    own = {
        "nonce": nonce,
        "caution": SHORT_CAUTION,
        "sheet_style": Markup(style_sheet(screen.paper) + rules),  # noqa: S704  our own file
        "style": _own("page.css"),
        "script": _own("page.js"),
    }
    return _filled("page.xhtml", drawn | own)


def change(screen: Screen, shape: str) -> str:
    """What the page's script exchanges: the result, and the form too unless its shape is the one named."""
    drawn = _drawn(screen)
    told = {
        "redrawn": drawn["shape"] != shape,
        "said": tuple(_said(drawn["divisions"])),
        "marked": tuple(_marked(drawn["divisions"])),
    }
    return _filled("page-change.xhtml", drawn | told)


def _drawn(screen: Screen) -> dict[str, Any]:
    made = divisions(screen.entries, screen.faults)
    return {
        "file": screen.file,
        "status": STATUS,
        "cautions": CAUTIONS,
        "strip": _strip(screen.study) if screen.study is not None else None,
        "sheet": _sheet(screen.study, screen.paper) if screen.study is not None else Markup(),
        "faults": anchors(screen.entries, screen.faults),
        "divisions": made,
        "shape": _shape(made),
        "trusts": TRUSTS,
        "paper": screen.paper,
        "book": screen.book,
        "focus": screen.focus,
        "variants": screen.variants,
    }


def _sheet(study: Study, paper: Paper) -> Markup:
    """What stands on the printed page, for a screen: what is wider than it can be moved with the keyboard.

    Its column widths become rules, as no tag may have a style here.
    """
    body = sheet_html(study, paper).partition("<main>")[2].partition("</main>")[0]
    strict = _WIDTHS.sub(r' data-columns="\1"', body)
    return Markup(_SCROLLED.sub(r'\g<0> tabindex="0"', strict))  # noqa: S704  our own page, which escapes


def _strip(study: Study) -> Strip:
    return Strip(tuple((word, len(links)) for word, links in study.by_word.items()), contents.governs(study))


def _shape(made: tuple[Division, ...]) -> str:
    """Changes whenever the form has to be drawn anew: other rows, other words to choose, other stand-ins."""
    rows = [
        (part.where, part.misfits, sorted((row.name, row.options, row.stand_in) for row in part.every))
        for division in made
        for part in division.parts
    ]
    return sha256(repr(rows).encode()).hexdigest()[:16]


def _said(made: tuple[Division, ...]) -> Iterator[tuple[str, str]]:
    for division in made:
        for part in division.parts:
            yield f"{part.where}~title", part.title
            for row in part.every:
                if row.gist:
                    yield f"{row.name}~gist", row.gist


def _marked(made: tuple[Division, ...]) -> Iterator[tuple[str, tuple[Fault, ...]]]:
    for division in made:
        if division.faults:
            yield f"{division.key}~faults", division.faults
        for part in division.parts:
            if part.faults:
                yield f"{part.where}~fault", part.faults
            for row in part.every:
                if row.faults:
                    yield f"{row.name}~fault", row.faults


def _own(name: str) -> Markup:
    return Markup((TEMPLATES / name).read_text("utf-8"))  # noqa: S704  our own file


@cache
def _environment() -> Environment:
    return Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def _filled(name: str, context: Mapping[str, Any]) -> str:
    return _environment().get_template(name).render(context)
