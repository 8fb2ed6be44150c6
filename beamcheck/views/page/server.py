"""A thin adapter from the standard library's server to ``answered``: this machine only, one answer at a time.

The library calls its server basic; it is bound to the loopback address, and no option binds it elsewhere.
"""

import os
import secrets
import socketserver
import threading
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import Any

from beamcheck.views.page.asked import Answer, Asked, length, plain
from beamcheck.views.page.routes import Site, Start, answered

_SECONDS = 20.0
"""How long a connection may stay silent."""


class PageServer(ThreadingHTTPServer):
    """Serves one survey under an address that nobody can guess."""

    daemon_threads = True

    def __init__(self, start: Start) -> None:
        super().__init__(("127.0.0.1", 0), _Handler)
        self.site = Site(self.server_port, secrets.token_urlsafe(24), start)
        self.turn = threading.Lock()

    def server_bind(self) -> None:
        """Bind without asking the network for this machine's name, as the library would."""
        socketserver.TCPServer.server_bind(self)
        self.server_name, self.server_port = "127.0.0.1", int(self.server_address[1])

    @property
    def address(self) -> str:
        """What to open in a browser."""
        return f"http://127.0.0.1:{self.site.port}/{self.site.token}/"

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A browser that hangs up is nothing to tell about."""


class _Handler(BaseHTTPRequestHandler):
    server: PageServer
    timeout = _SECONDS
    disable_nagle_algorithm = True  # or the end of an answer waits for the browser to confirm its beginning
    default_request_version = "HTTP/1.0"

    def version_string(self) -> str:
        return "bearline"

    def log_message(self, format: str, *args: Any) -> None:  # noqa: A002  the library's name for it
        """Say nothing: the address is a secret."""

    def send_error(self, code: int, *_told: str | None) -> None:
        """What the library itself cannot read is answered like everything else."""
        self._send(plain(code, "this request cannot be read"), head_only=False)

    def __getattr__(self, name: str) -> Any:
        if name.startswith("do_"):
            return self._reply
        raise AttributeError(name)

    def _reply(self) -> None:
        headers = tuple((name.lower(), text) for name, text in self.headers.items())
        asked = Asked(self.command, self.path, headers, b"", secrets.token_urlsafe(18))
        size = length(asked) if self.command == "POST" else None
        asked = asked._replace(body=self.rfile.read(size) if size else b"")
        try:
            with self.server.turn:
                answer = answered(self.server.site, asked)
        except Exception as error:
            if "BEARLINE_TRACEBACK" in os.environ:
                raise
            answer = plain(500, f"a fault of the tool itself: {type(error).__name__}: {error}")
        self._send(answer, head_only=self.command == "HEAD")

    def _send(self, answer: Answer, *, head_only: bool) -> None:
        self.send_response(answer.status)
        for name, text in answer.headers.items():
            self.send_header(name, text)
        self.end_headers()
        if not head_only:
            self.wfile.write(answer.body)
