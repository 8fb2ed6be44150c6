"""What may be asked of the page and by whom: its address, its origin, its forms; and what every answer bears.

There is no login, no cookie and nothing kept, so there is nothing to forge; a page of another site that finds
the address still gets nothing, because its host, its origin or its token is not ours.
"""

import hmac
from collections.abc import Mapping
from typing import NamedTuple

from beamcheck.views.words import SHORT_CAUTION

MOST_BODY = 500_000
MOST_NAMES = 10_000
MOST_TARGET = 200

_OWN = ("none", "same-origin")
_FORM = "application/x-www-form-urlencoded"

Headers = tuple[tuple[str, str], ...]


class Asked(NamedTuple):
    """One request: its target as sent, names of headers in small letters; the nonce is fresh for each."""

    method: str
    target: str
    headers: Headers
    body: bytes
    nonce: str

    def header(self, name: str) -> str | None:
        """A header that may come but once; "" if it came twice, None if it did not come."""
        found = [text for key, text in self.headers if key == name]
        return None if not found else found[0].strip() if len(found) == 1 else ""


class Answer(NamedTuple):
    """A whole answer."""

    status: int
    headers: Mapping[str, str]
    body: bytes


def refused(asked: Asked, port: int, token: str) -> Answer | None:
    """The answer to what is not ours to answer, by host, origin, method, size and place; None if it is."""
    hosts = (f"127.0.0.1:{port}", f"localhost:{port}")
    if asked.header("host") not in hosts:
        return plain(421, "this page answers only under its own address on this machine")
    if not _from_here(asked):
        return plain(403, "this page answers only its own forms and the address bar")
    if asked.method not in ("GET", "HEAD", "POST"):
        return plain(405, "this page is read and sent, nothing else", {"Allow": "GET, HEAD, POST"})
    if len(asked.target) > MOST_TARGET or "?" in asked.target:
        return plain(414, "this page takes no query")
    if asked.method == "POST" and (no := _unreadable(asked)):
        return no
    if not hmac.compare_digest("".join(asked.target.split("/")[1:2]).encode(), token.encode()):
        return plain(404, "there is nothing here")
    return None


def length(asked: Asked) -> int | None:
    """How many bytes of a body are announced and may be read; None if that is not said, or is too many."""
    told = asked.header("content-length") or ""
    known = told.isascii() and told.isdecimal() and len(told) < 12
    whole = asked.header("transfer-encoding") is None
    return int(told) if known and whole and int(told) <= MOST_BODY else None


def _unreadable(asked: Asked) -> Answer | None:
    if length(asked) is None or len(asked.body) > MOST_BODY:
        return plain(413, f"a form says how long it is, and has at most {MOST_BODY:,} bytes")
    if (asked.header("content-type") or "").partition(";")[0].strip().lower() != _FORM:
        return plain(415, "a form is sent as a form")
    return None


def _from_here(asked: Asked) -> bool:
    """Whether the browser says that the request comes from this page or from the address bar.

    A form under ``no-referrer`` sends the origin "null"; then Sec-Fetch-Site tells, which no script writes.
    """
    site, origin = asked.header("sec-fetch-site"), asked.header("origin")
    if site is not None and site not in _OWN:
        return False
    if origin == "null":
        return site == "same-origin"
    if origin is not None:
        return origin == f"http://{asked.header('host')}"
    return asked.method != "POST" or site == "same-origin"


def answer(
    status: int, kind: str, body: bytes, more: Mapping[str, str] | None = None, nonce: str = ""
) -> Answer:
    """An answer with the headers that every one bears; with a nonce its own style and script may run."""
    own = f"'nonce-{nonce}'" if nonce else "'none'"
    policy = (
        f"default-src 'none'; script-src {own}; style-src {own}; img-src 'self'; connect-src 'self'; "
        "form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
    )
    headers = {
        "Content-Type": kind,
        "Content-Length": str(len(body)),
        "Content-Security-Policy": policy,
        "X-Content-Type-Options": "nosniff",
        "X-Frame-Options": "DENY",
        "Referrer-Policy": "no-referrer",
        "Cache-Control": "no-store",
        "Cross-Origin-Resource-Policy": "same-origin",
        "Cross-Origin-Opener-Policy": "same-origin",
        **(more or {}),
    }
    return Answer(status, headers, body)


def plain(status: int, sentence: str, more: Mapping[str, str] | None = None) -> Answer:
    """An answer of one sentence."""
    body = f"bearline: {sentence}\n{SHORT_CAUTION}\n".encode()
    return answer(status, "text/plain; charset=utf-8", body, more)
