"""Files are written whole or not at all: full disks, folders without leave, interruptions, and processes that die."""

import errno
import os
import signal
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from beamcheck import files
from beamcheck.errors import InputError

OLD, NEW = b"what was there before\n", b"what is written now\n" * 100


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """A file that is there already."""
    path = tmp_path / "house.toml"
    path.write_bytes(OLD)
    return path


def names(folder: Path) -> list[str]:
    """Everything in a folder, hidden or not."""
    return sorted(path.name for path in folder.iterdir())


class Failing:
    """A stream to a file that takes some bytes and then fails."""

    def __init__(self, handle: int, error: BaseException, *, on_close: bool) -> None:
        self.handle, self.error, self.on_close = handle, error, on_close

    def __enter__(self):
        return self

    def write(self, data: bytes) -> None:
        os.write(self.handle, data[:10])
        if not self.on_close:
            raise self.error

    def __exit__(self, *_: object) -> None:
        os.close(self.handle)
        if self.on_close:
            raise self.error


def failing(monkeypatch: pytest.MonkeyPatch, error: BaseException, *, on_close: bool = False) -> None:
    """Let every write through a file handle fail half way."""
    monkeypatch.setattr(os, "fdopen", lambda handle, _: Failing(handle, error, on_close=on_close))


def test_a_write_replaces_the_whole_file_and_leaves_nothing_beside_it(old: Path) -> None:
    """After a write the file holds the new bytes, and its folder nothing else."""
    files.write(old, NEW)
    assert old.read_bytes() == NEW
    assert names(old.parent) == [old.name]


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EIO, errno.EDQUOT])
@pytest.mark.parametrize("on_close", [False, True])
def test_a_full_disk_keeps_the_old_file(old: Path, monkeypatch, number: int, on_close: bool) -> None:
    """Where the disk is full the old file stays whole, no part is left, and the fault says why."""
    failing(monkeypatch, OSError(number, os.strerror(number)), on_close=on_close)
    with pytest.raises(InputError, match="cannot be written") as refused:
        files.write(old, NEW)
    assert os.strerror(number) in str(refused.value)
    assert old.read_bytes() == OLD
    assert names(old.parent) == [old.name]


@pytest.mark.parametrize("error", [KeyboardInterrupt(), SystemExit(1), MemoryError()])
def test_an_interrupted_write_keeps_the_old_file(old: Path, monkeypatch, error: BaseException) -> None:
    """An interruption goes on its way, the old file stays whole, and no part is left."""
    failing(monkeypatch, error)
    with pytest.raises(type(error)):
        files.write(old, NEW)
    assert old.read_bytes() == OLD
    assert names(old.parent) == [old.name]


def test_a_replacement_that_fails_keeps_the_old_file(old: Path, monkeypatch) -> None:
    """Where the last step is refused the old file stays whole, and no part is left."""

    def refuse(*_: object) -> None:
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))

    monkeypatch.setattr(os, "replace", refuse)
    with pytest.raises(InputError, match="cannot be written"):
        files.write(old, NEW)
    assert old.read_bytes() == OLD
    assert names(old.parent) == [old.name]


@pytest.mark.parametrize("number", [errno.EACCES, errno.EROFS, errno.ENOSPC])
def test_a_folder_without_leave_to_write_is_a_fault(old: Path, monkeypatch, number: int) -> None:
    """A folder that takes no file is a fault by name; what is in it stays."""

    def refuse(**_: object) -> None:
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(tempfile, "mkstemp", refuse)
    with pytest.raises(InputError, match="cannot be written") as refused:
        files.write(old, NEW)
    assert refused.value.faults[0].where == str(old)
    assert old.read_bytes() == OLD


def test_a_read_only_folder_is_a_fault(ordinary_user: Path) -> None:
    """A real folder that may not be written to refuses, and keeps what it has."""
    old = ordinary_user / "house.toml"
    old.write_bytes(OLD)
    ordinary_user.chmod(0o500)
    try:
        with pytest.raises(InputError, match="cannot be written"):
            files.write(old, NEW)
    finally:
        ordinary_user.chmod(0o700)
    assert old.read_bytes() == OLD


@pytest.mark.parametrize("name", ["no folder/house.toml", "house.toml/inside.toml", "x" * 300 + ".toml"])
def test_a_name_that_cannot_be_is_a_fault(old: Path, name: str) -> None:
    """A folder that is not there, a file taken for a folder and a name too long are faults."""
    with pytest.raises(InputError, match="cannot be written"):
        files.write(old.parent / name, NEW)
    assert names(old.parent) == [old.name]


def test_a_folder_is_not_written_over(tmp_path: Path) -> None:
    """A folder in the place of the file stays, and no part is left."""
    (tmp_path / "house.toml").mkdir()
    with pytest.raises(InputError, match="cannot be written"):
        files.write(tmp_path / "house.toml", NEW)
    assert names(tmp_path) == ["house.toml"]


def test_a_new_file_is_never_written_over_one_that_is_there(old: Path) -> None:
    """A new file refuses the place of an old one, and of a link that leads nowhere."""
    link = old.parent / "link.toml"
    link.symlink_to(old.parent / "nothing.toml")
    for path in (old, link):
        with pytest.raises(InputError, match="there already"):
            files.write_new(path, NEW)
    assert old.read_bytes() == OLD
    assert not (old.parent / "nothing.toml").exists()


def test_a_link_is_replaced_and_what_it_led_to_stays(old: Path) -> None:
    """Writing where a link stands puts a file in its place and leaves the other file alone."""
    link = old.parent / "link.toml"
    link.symlink_to(old)
    files.write(link, NEW)
    assert link.read_bytes() == NEW
    assert not link.is_symlink()
    assert old.read_bytes() == OLD


KILLED = """
import os, signal, sys
from pathlib import Path
from beamcheck import files
os.replace = lambda *_: os.kill(os.getpid(), signal.SIGKILL)
files.write(Path(sys.argv[1]), b"what is written now")
"""


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="no such signal on this system")
def test_a_process_that_dies_before_the_last_step_keeps_the_old_file(old: Path) -> None:
    """Killed between writing and replacing, the process leaves the old file whole under its name."""
    done = subprocess.run([sys.executable, "-c", KILLED, str(old)], check=False)
    assert done.returncode == -signal.SIGKILL
    assert old.read_bytes() == OLD


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no device that is always full")
@pytest.mark.parametrize("command", [["tables"], ["--version"], ["tables", "nds_2018/creep"]])
def test_output_that_finds_no_room_is_a_sentence(command: list[str]) -> None:
    """Printing to a full disk ends with exit code two and a sentence, not with a traceback."""
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(
            [sys.executable, "-m", "beamcheck", *command], stdout=full, stderr=subprocess.PIPE, text=True, check=False
        )
    assert done.returncode == 2
    assert "the output cannot be written: No space left on device" in done.stderr
    assert "Traceback" not in done.stderr
