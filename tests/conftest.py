"""What holds for every test."""

import os
import signal
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

# started in the background a run ignores Ctrl-C, and so would the commands whose answer to Ctrl-C is tested
if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    signal.signal(signal.SIGINT, signal.default_int_handler)

NOBODY = 65534


@pytest.fixture
def ordinary_user() -> Iterator[Path]:
    """A folder of one's own, and no more rights than an ordinary user has, though root may run the test."""
    with tempfile.TemporaryDirectory() as name:
        rooted = os.geteuid() == 0 if hasattr(os, "geteuid") else False
        if rooted:
            os.chown(name, NOBODY, NOBODY)
            os.seteuid(NOBODY)
        try:
            yield Path(name)
        finally:
            if rooted:
                os.seteuid(0)


@pytest.fixture
def filled_starter() -> str:
    """What  bearline new  writes, followed to the letter: the # is away from all that it marks as NEEDED."""
    from beamcheck.survey.blank import blank

    lines, asked, needed = [], True, False
    for line in blank().splitlines():
        heading = line.removeprefix("# ").startswith("[")
        if heading:
            asked = not line.startswith("#") or line == "# [[carried]]"
        elif line.startswith("##"):
            needed = needed or line.startswith("## NEEDED. ")
        taken = asked and (heading or needed) and line.startswith("# ")
        lines.append(line.removeprefix("# ") if taken else line)
        needed = needed and line.startswith("##")
    return "\n".join(lines)
