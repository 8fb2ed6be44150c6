"""Write files whole or not at all, and never over what is there unless asked."""

import os
import tempfile
from pathlib import Path

from beamcheck.errors import Fault, InputError


def write(path: Path, data: bytes) -> None:
    """Write a file in one step: an interrupted run leaves the old file or none. Raises InputError where it cannot."""
    try:
        handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".part")
    except OSError as error:
        raise _refused(path, error) from None
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
        Path(name).chmod(0o644)
        os.replace(name, path)  # noqa: PTH105  one step on every system
    except OSError as error:
        Path(name).unlink(missing_ok=True)
        raise _refused(path, error) from None
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def write_new(path: Path, data: bytes) -> None:
    """As ``write``, but raises InputError where the file exists."""
    if path.exists() or path.is_symlink():
        raise InputError(
            [Fault(str(path), "is there already and is not written over", "move it, or name another file")]
        )
    write(path, data)


def _refused(path: Path, error: OSError) -> InputError:
    return InputError(
        [
            Fault(
                str(path),
                f"cannot be written: {error.strerror or error}",
                "name a file in a folder you may write to",
            )
        ]
    )
