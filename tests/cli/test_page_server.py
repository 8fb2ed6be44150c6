"""The local page as a process: this machine only, nothing written, one slow caller in nobody's way."""

import http.client
import os
import re
import signal
import socket
import subprocess
import sys
import threading
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from beamcheck.views.page.routes import opened
from beamcheck.views.page.server import PageServer

DEMO = (files("beamcheck.survey") / "demo.toml").read_bytes()
KIND = {"Content-Type": "application/x-www-form-urlencoded"}


@pytest.fixture
def server() -> Iterator[PageServer]:
    """The server in this process."""
    with PageServer(opened("demo.toml", DEMO)) as made:
        thread = threading.Thread(target=made.serve_forever, daemon=True)
        thread.start()
        yield made
        made.shutdown()
        thread.join()


def ask(server: PageServer, method: str = "GET", body: str = "", **headers: str) -> http.client.HTTPResponse:
    """An answer over a real connection."""
    connection = http.client.HTTPConnection("127.0.0.1", server.server_port, timeout=20)
    given = {name.replace("_", "-"): text for name, text in headers.items()}
    connection.request(method, urlsplit(server.address).path, body, {**(KIND if body else {}), **given})
    answer = connection.getresponse()
    answer.text = answer.read().decode()
    connection.close()
    return answer


def said(server: PageServer, request: bytes) -> str:
    """What comes back for raw bytes."""
    with socket.create_connection(("127.0.0.1", server.server_port), timeout=20) as line:
        line.sendall(request)
        line.shutdown(socket.SHUT_WR)
        return b"".join(iter(lambda: line.recv(65536), b"")).decode()


def test_it_listens_on_this_machine_only(server: PageServer) -> None:
    """It is bound to the loopback address and to no other, on a port and under a token that nobody chose."""
    assert server.server_address[0] == "127.0.0.1"
    with socket.socket() as line:
        line.settimeout(5)
        assert line.connect_ex(("127.0.0.2", server.server_port)) != 0
    with PageServer(opened("demo.toml", DEMO)) as other:
        assert other.server_port != server.server_port
        assert other.site.token != server.site.token
        assert len(other.site.token) >= 32


def test_the_page_comes_over_the_wire(server: PageServer) -> None:
    """A page is answered whole, with a fresh nonce each time, under the program's own name."""
    first, second = ask(server), ask(server)
    assert first.status == 200
    assert first.text.rstrip().endswith("</html>")
    nonce = re.compile(r'nonce="([^"]{20,})"')
    assert set(nonce.findall(first.text)).isdisjoint(nonce.findall(second.text))
    assert first.getheader("Server") == "bearline"


def test_a_form_over_the_wire(server: PageServer) -> None:
    """A form with its origin is read to its last byte; without one it is refused."""
    body = "study.title=Wire&wall.clear_opening=12"
    assert 'value="Wire"' in ask(server, "POST", body, Origin=f"http://127.0.0.1:{server.server_port}").text
    assert ask(server, "POST", body).status == 403
    assert ask(server, "POST", body, Origin="http://evil.example").status == 403
    assert ask(server, Host="evil.example").status == 421
    assert ask(server, "DELETE").status == 405
    assert ask(server, "HEAD").text == ""


def test_what_is_no_request_is_answered_in_a_sentence(server: PageServer) -> None:
    """Broken requests get a refusal with the strict headers, no page of the library's, no traceback."""
    for request in (
        b"nonsense\r\n\r\n",
        b"GET / HTTP/9.9\r\n\r\n",
        b"GET / HTTP/1.1\r\n" + b"a: b\r\n" * 200 + b"\r\n",
    ):
        answer = said(server, request)
        assert "bearline: this request cannot be read" in answer
        assert "default-src 'none'" in answer
        assert "Traceback" not in answer
    assert " 421 " in said(server, b"GET / HTTP/1.0\r\n\r\n").splitlines()[0]


def test_a_silent_caller_is_in_nobodys_way(server: PageServer) -> None:
    """While one connection says nothing and another sends half a form, a third is answered."""
    path = urlsplit(server.address).path
    half = f"POST {path} HTTP/1.1\r\nHost: 127.0.0.1:{server.server_port}\r\nContent-Length: 100\r\n\r\nstudy"
    with (
        socket.create_connection(("127.0.0.1", server.server_port)),
        socket.create_connection(("127.0.0.1", server.server_port)) as slow,
    ):
        slow.sendall(half.encode())
        assert ask(server).status == 200


def test_the_command_serves_and_writes_nothing(tmp_path: Path) -> None:
    """The command prints its address, serves it, writes nothing, and ends on an interrupt with code 0."""
    house = tmp_path / "house.toml"
    house.write_bytes(DEMO)
    running = subprocess.Popen(
        [sys.executable, "-m", "beamcheck", "page", "house.toml", "--no-open"],
        cwd=tmp_path,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1"},
    )
    try:
        assert running.stdout is not None
        address = urlsplit(re.search(r"http://\S+", running.stdout.readline())[0])
        assert address.hostname == "127.0.0.1"
        connection = http.client.HTTPConnection("127.0.0.1", address.port, timeout=30)
        connection.request(
            "POST",
            f"{address.path}survey.toml",
            "study.title=x",
            {**KIND, "Origin": f"http://{address.netloc}"},
        )
        answer = connection.getresponse()
        assert answer.status == 200
        assert b'title = "x"' in answer.read()
        connection.close()
    finally:
        running.send_signal(signal.SIGINT)
        out, err = running.communicate(timeout=30)
    assert running.returncode == 0, err
    assert "the page is closed" in out
    assert err == ""
    assert [path.name for path in tmp_path.iterdir()] == ["house.toml"]
    assert house.read_bytes() == DEMO


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (None, "cannot be read"),
        (b"x = [", "is not TOML"),
        (b"[wal]\n", "is not a part of a survey"),
        (b"[wall]\nhight = '8 ft'\n", "nearest"),
    ],
)
def test_a_file_that_no_form_holds_is_not_opened(tmp_path: Path, text: bytes | None, told: str) -> None:
    """A file that is not there, or holds more than the form can, ends in code 2 with its faults."""
    house = tmp_path / "house.toml"
    if text is not None:
        house.write_bytes(text)
    done = subprocess.run(
        [sys.executable, "-m", "beamcheck", "page", str(house), "--no-open"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    assert told in done.stderr
    assert "Traceback" not in done.stderr
