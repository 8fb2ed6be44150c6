"""The page as one pure function: a request goes in, a whole answer comes out, and nothing is kept or written.

The form holds the survey, so each request brings all that its answer needs; only the file given at the start is known
besides, and as long as nothing in it was changed its own bytes are what is studied and handed back.
"""

import json
from collections.abc import Callable, Mapping
from typing import Any, Literal, NamedTuple, cast
from urllib.parse import parse_qsl, quote

from beamcheck.errors import BeamcheckError, Fault, InputError
from beamcheck.study.chain import study
from beamcheck.study.types import Study
from beamcheck.survey.reader import MOST_ITEMS, VARIANT, from_document, parsed, read_text
from beamcheck.survey.writer import write_survey
from beamcheck.views.page.asked import MOST_NAMES, Answer, Asked, answer, plain, refused
from beamcheck.views.page.edits import edited, focus
from beamcheck.views.page.form import BadForm, Filled, form_entries, read_form
from beamcheck.views.page.screen import ICON, Screen, drawn
from beamcheck.views.sheet import Book, Paper, sheet_html

_HTML = "text/html; charset=utf-8"


class Start(NamedTuple):
    """The survey as it was when the page was opened: the file's name, its bytes, and what the form holds of it."""

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
    """What the page starts with. Raises InputError for a file that no form can hold."""
    return Start(file, data, form_entries(parsed(data, file)))


def answered(site: Site, asked: Asked) -> Answer:
    """The answer to one request."""
    no = refused(asked, site.port, site.token)
    if no is not None:
        return no
    place = asked.target.removeprefix(f"/{site.token}/")
    if asked.method != "POST":
        return _read(site, asked, place)
    try:
        filled = read_form(parse_qsl(asked.body.decode(), keep_blank_values=True, max_num_fields=MOST_NAMES, errors="strict"))
        entries = edited(filled.entries, filled.do) if filled.do else filled.entries
    except (BadForm, ValueError) as odd:
        return plain(400, f"this is not a form of this page: {odd}")
    held = _held(site.start, entries)
    if place == "":
        return _page(site, asked, held, filled)
    if place in _DOWNLOADS:
        return _download(site, asked, held, filled, place)
    return plain(404, "there is nothing here")


def _read(site: Site, asked: Asked, place: str) -> Answer:
    if place == "icon.svg":
        return answer(200, "image/svg+xml", ICON)
    if place in ("", *_DOWNLOADS):
        return _page(site, asked, _held(site.start, site.start.entries), Filled(dict(site.start.entries)))
    return plain(404, "there is nothing here")


def _held(start: Start, entries: Mapping[str, Any]) -> Held:
    """The survey in the form and its study, or every fault of either."""
    same = entries == start.entries
    data = start.data if same else write_survey(entries).encode()
    try:
        survey = read_text(data, start.file) if same else from_document(_plain(entries), _sha256(data), start.file)
        return Held(entries, data, study(survey), ())
    except InputError as error:
        return Held(entries, data, None, error.faults)
    except BeamcheckError as error:
        what, _, mend = str(error).partition("\n")
        return Held(entries, data, None, (Fault("survey", what, mend.strip()),))


def _page(site: Site, asked: Asked, held: Held, filled: Filled, status: int = 200) -> Answer:
    screen = Screen(
        site.start.file,
        held.entries,
        held.study,
        held.faults,
        cast("Paper", filled.paper),
        filled.book,
        focus(filled.do),
        json.dumps(held.entries[VARIANT]) if VARIANT in held.entries else "",
        MOST_ITEMS,
    )
    return answer(status, _HTML, drawn(screen, asked.nonce).encode(), nonce=asked.nonce)


def _download(site: Site, asked: Asked, held: Held, filled: Filled, place: str) -> Answer:
    """A file of the survey as it stands; with faults in it, the survey itself as a marked draft and nothing else."""
    stem = site.start.file.rpartition(".")[0] or site.start.file
    kind, ending, make = _DOWNLOADS[place]
    if ending == "toml":
        return _file(f"{stem}.toml", kind, _survey(held))
    if held.study is None:
        return _page(site, asked, held, filled, 422)
    try:
        return _file(f"{stem}.{ending}", kind, make(held.study, cast("Paper", filled.paper), _BOOK[filled.book]))
    except InputError as error:
        return _page(site, asked, held._replace(faults=error.faults), filled, 422)
    except BeamcheckError as error:
        what, _, mend = str(error).partition("\n")
        return _page(site, asked, held._replace(faults=(Fault(place, what, mend.strip()),)), filled, 422)


def _survey(held: Held) -> bytes:
    if not held.faults:
        return held.data
    count = len(held.faults)
    told = f"DRAFT: {count} thing{'s' * (count != 1)} to mend"
    return write_survey(held.entries, (told, *(str(fault) for fault in held.faults))).encode()


def _file(name: str, kind: str, body: bytes) -> Answer:
    simple = "".join(letter if letter.isascii() and (letter.isalnum() or letter in "-_.") else "_" for letter in name)
    told = f"attachment; filename=\"{simple}\"; filename*=UTF-8''{quote(name, safe='')}"
    return answer(200, kind, body, {"Content-Disposition": told})


def _pdf(made: Study, paper: Paper, book: Book) -> bytes:
    from beamcheck.views.pdf import sheet_pdf

    return sheet_pdf(made, paper, book)


def _html(made: Study, paper: Paper, book: Book) -> bytes:
    return sheet_html(made, paper, book).encode()


def _json(made: Study, _paper: Paper, _book: Book) -> bytes:
    from beamcheck.views.data import study_data

    return (json.dumps(study_data(made), indent=1, ensure_ascii=False) + "\n").encode()


def _sha256(data: bytes) -> str:
    from hashlib import sha256

    return sha256(data).hexdigest()


def _plain(entries: Mapping[str, Any]) -> dict[str, Any]:
    return {key: written for key, written in entries.items() if key != VARIANT}


_BOOK: Mapping[bool, Book] = {False: Book.NO, True: Book.FULL}
_DOWNLOADS: Mapping[str, tuple[str, Literal["toml", "pdf", "html", "json"], Callable[[Study, Paper, Book], bytes]]] = {
    "survey.toml": ("application/toml; charset=utf-8", "toml", _json),
    "summary.pdf": ("application/pdf", "pdf", _pdf),
    "summary.html": ("text/html; charset=utf-8", "html", _html),
    "study.json": ("application/json; charset=utf-8", "json", _json),
}
