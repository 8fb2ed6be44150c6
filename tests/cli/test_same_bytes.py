"""The same input gives the same bytes: another run, folder, locale, time zone, hash seed or width changes nothing."""

import os
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from beamcheck.cli.foot import EXAMPLES

ROOT = Path(__file__).parents[2]
HERE = {
    "PYTHONHASHSEED": "1",
    "COLUMNS": "40",
    "LC_ALL": "C.UTF-8",
    "TZ": "UTC",
    "TERM": "dumb",
}
ELSEWHERE = {
    "PYTHONHASHSEED": "2",
    "COLUMNS": "200",
    "LINES": "10",
    "LC_ALL": "de_DE.ISO-8859-1",
    "LANGUAGE": "de",
    "TZ": "Asia/Tokyo",
    "TERM": "xterm-256color",
    "FORCE_COLOR": "1",
    "PYTHONIOENCODING": "latin-1",
    "PYTHONOPTIMIZE": "1",
    "SOURCE_DATE_EPOCH": "0",
}
INTERACTIVE = {"ask", "page"}
TYPED = [line for name, lines in EXAMPLES.items() if name not in INTERACTIVE for line in lines]
TYPED += ["bearline sheet house.toml -o summary.html", "bearline check other.toml", "bearline check long_line.toml"]


def run(line: str, folder: Path, env: dict[str, str]) -> tuple[int, bytes, bytes, dict[str, bytes]]:
    """Run a line in a new folder: exit code, what it printed, and every file that is there in the end."""
    (folder / "some-folder").mkdir(parents=True)
    demo, slab = ROOT / "beamcheck" / "survey" / "demo.toml", ROOT / "tests" / "houses" / "slab_house.toml"
    # margins and summaries work the demonstration for many seconds; its own summary is that of  bearline demo
    quick = line.startswith(("bearline margins", "bearline sheet"))
    (folder / "house.toml").write_bytes((slab if quick else demo).read_bytes())
    (folder / "other.toml").write_bytes(slab.read_bytes())
    (folder / "long_line.toml").write_bytes((ROOT / "tests" / "houses" / "long_line.toml").read_bytes())
    if line.startswith("bearline new"):
        (folder / "house.toml").unlink()
    words = [sys.executable, "-m", "beamcheck", *shlex.split(line)[1:]]
    done = subprocess.run(words, capture_output=True, check=False, cwd=folder, env={**os.environ, **env})
    files = {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    return done.returncode, done.stdout, done.stderr, files


@pytest.mark.parametrize("line", TYPED)
def test_another_place_prints_and_writes_the_same_bytes(line: str, tmp_path: Path) -> None:
    """What a command prints and every file that it writes are the same to the byte here and elsewhere."""
    here = run(line, tmp_path / "here", HERE)
    elsewhere = run(line, tmp_path / "a folder elsewhere", ELSEWHERE)
    assert here == elsewhere
    assert here[0] in (0, 1)
    assert here[1]
    assert not here[2]


def test_the_draft_of_an_interview_is_the_same_bytes(tmp_path: Path) -> None:
    """The same answers, which end before the survey is complete, leave the same draft here and elsewhere."""
    drafts = []
    for name, env in (("here", HERE), ("elsewhere", ELSEWHERE)):
        folder = tmp_path / name
        folder.mkdir()
        words = [sys.executable, "-m", "beamcheck", "ask", "house.toml"]
        there = {**os.environ, **env}
        done = subprocess.run(
            words, input=b"Elm Street 12\n?\n", capture_output=True, check=False, cwd=folder, env=there
        )
        assert done.returncode == 2, done.stderr
        drafts.append({path.name: path.read_bytes() for path in folder.iterdir()})
    assert b"Elm Street 12" in drafts[0]["house.draft.toml"]
    assert drafts[0] == drafts[1]


@pytest.mark.skipif(sys.platform == "win32", reason="no such terminal on this system")
def test_a_terminal_without_the_letters_is_shown_other_ones(tmp_path: Path) -> None:
    """On a terminal of an older alphabet the bars become question marks; the command still answers."""
    import pty

    (tmp_path / "house.toml").write_bytes((ROOT / "beamcheck" / "survey" / "demo.toml").read_bytes())
    ours, theirs = pty.openpty()
    words = [sys.executable, "-m", "beamcheck", "check", "house.toml"]
    with subprocess.Popen(
        words, stdout=theirs, stderr=subprocess.PIPE, cwd=tmp_path, env={**os.environ, "PYTHONIOENCODING": "latin-1"}
    ) as shown:
        os.close(theirs)
        text = b"".join(iter(lambda: read(ours), b""))
        assert shown.wait(timeout=60) == 1
        assert shown.stderr is not None
        assert shown.stderr.read() == b""
    os.close(ours)
    assert b"within" in text
    assert b"????" in text


def read(terminal: int) -> bytes:
    """What the terminal shows next; nothing once its program has ended."""
    try:
        return os.read(terminal, 65536)
    except OSError:
        return b""
