"""The page as one pure function: a request goes in, a whole answer comes out, and nothing is kept or written.

The form holds the survey, so each request brings all that its answer needs; only the file given at the start
is known besides, and as long as nothing in it was changed its own bytes are what is studied and handed back.
"""

import json
import os
import re
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple, cast
from urllib.parse import parse_qsl, quote

from beamcheck.errors import BeamcheckError, Fault, InputError
from beamcheck.study.chain import study
from beamcheck.study.types import Study
from beamcheck.survey.documents import parsed
from beamcheck.survey.reader import DRAFT, VARIANT, read_text
from beamcheck.survey.writer import tidied, write_survey
from beamcheck.views.asked_first import asked_first
from beamcheck.views.page.asked import MOST_NAMES, Answer, Asked, answer, plain, refused
from beamcheck.views.page.edits import edited, focus
from beamcheck.views.page.form import BadForm, Filled, form_entries, read_form
from beamcheck.views.page.screen import ICON, Screen, change, page
from beamcheck.views.sheet import Book, Paper, sheet_html

_HTML = "text/html; charset=utf-8"


class Start(NamedTuple):
    """The survey as the page was opened with it: name of the file, its bytes, and what the form holds."""

    file: str
    data: bytes
    entries: Mapping[str, Any]


class Site(NamedTuple):
    """Where the page is served, and what it was opened with."""

    port: int
    token: str
    start: Start


class Held(NamedTuple):
    """A survey as the form holds it, with its study or with what must be mended first."""

    entries: Mapping[str, Any]
    data: bytes
    study: Study | None
    faults: tuple[Fault, ...]


def opened(file: str, data: bytes) -> Start:
    """What the page starts with, be it an interview's draft. Raises InputError for what no form can hold."""
    shown = "".join(letter if letter.isprintable() else "_" for letter in file)
    document = parsed(data, file)
    entries = form_entries({key: written for key, written in document.items() if key != DRAFT})
    return Start(shown, write_survey(entries).encode() if DRAFT in document else data, entries)


def answered(site: Site, asked: Asked) -> Answer:
    """The answer to one request."""
    no = refused(asked, site.port, site.token)
    if no is not None:
        return no
    place = asked.target.removeprefix(f"/{site.token}/")
    if asked.method != "POST":
        return _read(site, asked, place)
    try:
        filled = read_form(_pairs(asked.body))
        entries = tidied(edited(filled.entries, filled.do)) if filled.do else filled.entries
    except (BadForm, ValueError) as odd:
        return plain(400, f"this is not a form of this page: {odd}")
    held = _held(site.start, entries)
    if place == "":
        return _page(site, asked, held, filled)
    if place in (_SURVEY, *_MADE):
        return _download(site, asked, held, filled, place)
    return plain(404, "there is nothing here")


def _pairs(body: bytes) -> list[tuple[str, str]]:
    return parse_qsl(body.decode(), keep_blank_values=True, errors="strict", max_num_fields=MOST_NAMES)


def _read(site: Site, asked: Asked, place: str) -> Answer:
    if place == "icon.svg":
        return answer(200, "image/svg+xml", ICON)
    if place in ("", _SURVEY, *_MADE):
        return _page(site, asked, _held(site.start, site.start.entries), Filled(dict(site.start.entries)))
    return plain(404, "there is nothing here")


def _held(start: Start, entries: Mapping[str, Any]) -> Held:
    """The survey in the form and its study, or every fault of either."""
    same = entries == start.entries
    data = start.data if same else write_survey(entries).encode()
    try:
        return Held(entries, data, study(read_text(data, start.file)), ())
    except InputError as error:
        return Held(entries, data, None, error.faults)
    except BeamcheckError as error:
        return Held(entries, data, None, (_fault("survey", error),))
    except Exception as error:  # noqa: BLE001  the form with all that was typed must come back even then
        return Held(entries, data, None, (_own_fault(error),))


def _page(site: Site, asked: Asked, held: Held, filled: Filled, status: int = 200) -> Answer:
    """The page, or what changed on it for its script, which says what shape its form has."""
    screen = Screen(
        site.start.file,
        held.entries,
        held.study,
        held.faults,
        cast("Paper", filled.paper),
        filled.book,
        focus(filled.do),
        json.dumps(held.entries[VARIANT]) if VARIANT in held.entries else "",
    )
    shape = asked.header("x-shape")
    try:
        drawn = page(screen, asked.nonce) if shape is None else change(screen, shape)
    except Exception as error:
        if held.study is None:
            raise
        return _page(site, asked, Held(held.entries, held.data, None, (_own_fault(error),)), filled, status)
    return answer(status, _HTML, drawn.encode(), nonce=asked.nonce)


def _download(site: Site, asked: Asked, held: Held, filled: Filled, place: str) -> Answer:
    """A file of the survey as it stands; with faults in it only the survey itself, as a marked draft."""
    name = f"{site.start.file.rpartition('.')[0] or site.start.file}.{place.rpartition('.')[2]}"
    if place == _SURVEY:
        return _file(name, "application/toml; charset=utf-8", _survey(held))
    if held.study is None:
        return _page(site, asked, held, filled, 422)
    kind, make = _MADE[place]
    try:
        return _file(name, kind, make(held.study, cast("Paper", filled.paper), _BOOK[filled.book]))
    except InputError as error:
        return _page(site, asked, held._replace(faults=error.faults), filled, 422)
    except BeamcheckError as error:
        return _page(site, asked, held._replace(faults=(_fault(place, error),)), filled, 422)


def _own_fault(error: Exception) -> Fault:
    """A fault of ours: the form with all that was typed must come back even then."""
    if "BEARLINE_TRACEBACK" in os.environ:
        raise error
    what = f"a fault of the tool itself, not of your survey: {type(error).__name__}: {error}"
    return Fault("bearline", what, "please report it with the survey; set BEARLINE_TRACEBACK=1 to see where")


def _fault(where: str, error: BeamcheckError) -> Fault:
    what, _, mend = str(error).partition("\n")
    return Fault(where, what, mend.strip())


def _survey(held: Held) -> bytes:
    if not held.faults:
        return held.data
    count = len(held.faults)
    told = f"DRAFT: {count} thing{'s' * (count != 1)} to mend"
    # the lines of the faults are not those of this file, which has these remarks on top
    faults = (str(Fault(fault.where, fault.what, fault.mend)) for fault in held.faults)
    return write_survey(held.entries, (told, *faults)).encode()


def _file(name: str, kind: str, body: bytes) -> Answer:
    simple = re.sub(r"[^A-Za-z0-9._-]", "_", name)
    told = f"attachment; filename=\"{simple}\"; filename*=UTF-8''{quote(name, safe='')}"
    return answer(200, kind, body, {"Content-Disposition": told})


def _pdf(made: Study, paper: Paper, book: Book) -> bytes:
    from beamcheck.views.pdf import sheet_pdf

    return sheet_pdf(made, paper, book, asked_first(made))


def _html(made: Study, paper: Paper, book: Book) -> bytes:
    return sheet_html(made, paper, book, asked_first(made)).encode()


def _json(made: Study, _paper: Paper, _book: Book) -> bytes:
    from beamcheck.views.data import study_data

    return (json.dumps(study_data(made), indent=1, ensure_ascii=False) + "\n").encode()


_BOOK: Mapping[bool, Book] = {False: Book.NO, True: Book.FULL}
_SURVEY = "survey.toml"
_MADE: Mapping[str, tuple[str, Callable[[Study, Paper, Book], bytes]]] = {
    "summary.pdf": ("application/pdf", _pdf),
    "summary.html": (_HTML, _html),
    "study.json": ("application/json; charset=utf-8", _json),
}
