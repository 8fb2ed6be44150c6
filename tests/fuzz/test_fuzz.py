"""A short run of the fuzzer, always the same one: the full numbers are those of ``python tests/fuzz/run.py``."""

import random
import sys
from pathlib import Path

import pytest

FOLDER = Path(__file__).parent
ROOT = FOLDER.parents[1]
sys.path[:0] = [str(FOLDER), str(ROOT / "tests" / "independent")]

from laws import survey_fault, unit_fault  # noqa: E402  the folders above come first
from mutation import Mutator, unit_text  # noqa: E402
from run import SMALL, bases  # noqa: E402

from beamcheck.errors import InputError  # noqa: E402
from beamcheck.survey.documents import MOST_BYTES  # noqa: E402
from beamcheck.survey.reader import read, read_text  # noqa: E402
from beamcheck.units import Dimension  # noqa: E402

PATIENCE = 120.0  # seconds: here only an endless loop counts, whatever else the machine is doing
DEMO = (ROOT / "beamcheck" / "survey" / "demo.toml").read_bytes()


def tried(data: bytes) -> tuple[str, str]:
    """What came of a survey, and which law it broke."""
    return survey_fault(data, PATIENCE)


def test_four_hundred_spoilt_surveys_break_no_law() -> None:
    """Bytes that are no survey are refused fault by fault; what is one is studied without a false comfort."""
    mutator = Mutator(*bases(), seed=0)
    found = [tried(mutator.survey(number)) for number in range(400)]
    assert [(number, law) for number, (_, law) in enumerate(found) if law] == []
    assert {outcome for outcome, _ in found} == {"refused", "studied"}


def test_five_thousand_unit_strings_break_no_law() -> None:
    """A text is a finite quantity of at least nothing, or a fault that says what is wrong and what would do."""
    dice = random.Random(0)  # noqa: S311  a repeatable draw
    dimensions = tuple(Dimension)
    assert [law for _ in range(5000) if (law := unit_fault(unit_text(dice), dice.choice(dimensions)))] == []


def test_the_laws_can_be_broken() -> None:
    """The laws of units see what is no number, what is below nothing, and what is said without a figure."""
    for number in (float("nan"), float("inf"), -1.0):
        assert unit_fault("1 in", Dimension.LENGTH, lambda *_, told=number: told)
    assert unit_fault("an inch", Dimension.LENGTH, lambda *_: 1.0)
    assert unit_fault("1 in", Dimension.LENGTH, lambda *_: 1 / 0)
    assert tried(DEMO) == ("studied", "")


LENGTHS = (
    "0 in",
    "-1 in",
    "1e9 in",
    "1000000000 in",
    "nan in",
    "inf in",
    "nan",
    "1e400 ft",
    "٣ ft",
    "",
    "9" * 70 + " in",
)


@pytest.mark.parametrize("length", LENGTHS)
@pytest.mark.parametrize("key", ["clear_opening", "ceiling_height"])
def test_a_length_that_is_none_is_a_fault_at_its_key(key: str, length: str) -> None:
    """Lengths of nothing, below nothing, of a thousand miles and of no number are refused by name."""
    text = SMALL.replace(f'{key} = "10 ft"' if key == "clear_opening" else f'{key} = "8 ft"', f'{key} = "{length}"')
    assert text != SMALL
    with pytest.raises(InputError) as refused:
        read_text(text.encode())
    assert [fault.where for fault in refused.value.faults] == [f"wall.{key}"]


def _spoilt() -> dict[str, bytes]:
    text = SMALL.encode()
    return {
        "nothing": b"",
        "a NUL": text.replace(b"10 ft", b"10\x00ft"),
        "UTF-16": SMALL.encode("utf-16"),
        "UTF-32": SMALL.encode("utf-32"),
        "Latin-1": SMALL.replace("floor", "plancher à côté").encode("latin-1"),
        "EBCDIC": SMALL.encode("cp037"),
        "a key given twice": text + b'state = "new"\n',
        "a table given twice": text + b'[wall]\nclear_opening = "10 ft"\n',
        "lists that go deep": b"x = " + b"[" * 20_000 + b"]" * 20_000,
        "tables that go deep": b"[" + b".".join([b"a"] * 20_000) + b"]",
        "inline tables that go deep": b"x = " + b"{a=" * 5_000 + b"1" + b"}" * 5_000,
        "a key of many parts": b"wall." + b".".join([b"b"] * 5_000) + b" = 1\n",
        "a date for a length": text.replace(b'"10 ft"', b"1979-05-27"),
        "a list for a table": text.replace(b"[wall]", b"[[wall]]"),
        "a table for a list": text.replace(b"[[carried]]", b"[carried]"),
        "a table for a text": text.replace(b'"a small house"', b"{ value = { value = 1 } }"),
        "tables in tables": text.replace(b'"10 ft"', b'{ value = "10 ft", note = { note = [1, 2] } }'),
        "posts without end": text + b'[[post]]\nmember = "6x6 unknown"\n' * 500,
    }


SPOILT = _spoilt()


@pytest.mark.parametrize("how", SPOILT)
def test_nested_garbage_and_odd_encodings_are_refused_with_faults(how: str) -> None:
    """Each of these is refused in time, with a fault that says where, what and what would do."""
    assert tried(SPOILT[how]) == ("refused", "")


def test_a_byte_order_mark_does_no_harm() -> None:
    """A file saved with a mark in front is the same survey."""
    assert tried(b"\xef\xbb\xbf" + DEMO) == ("studied", "")


@pytest.mark.parametrize("size", [MOST_BYTES + 1, 10_000_000])
def test_a_file_of_many_bytes_is_refused_before_it_is_read(tmp_path: Path, size: int) -> None:
    """A file longer than any survey is refused by its size."""
    path = tmp_path / "long.toml"
    path.write_bytes(DEMO + b"# more\n" * (size // 7))
    with pytest.raises(InputError, match="bytes"):
        read(path)


def test_a_file_without_an_end_is_refused() -> None:
    """A device that never ends is read no further than a survey may be long."""
    endless = Path("/dev/zero")
    if not endless.exists():
        pytest.skip("this system has no /dev/zero")
    with pytest.raises(InputError, match="bytes"):
        read(endless)


def test_links_to_a_survey_are_followed_and_broken_or_circular_ones_are_faults(tmp_path: Path) -> None:
    """A symbolic link to a survey is that survey; one to nothing, or to itself, is a fault."""
    (tmp_path / "house.toml").write_bytes(DEMO)
    good, broken, circle = (tmp_path / name for name in ("good.toml", "broken.toml", "circle.toml"))
    good.symlink_to(tmp_path / "house.toml")
    broken.symlink_to(tmp_path / "nothing.toml")
    circle.symlink_to(circle)
    assert read(good).sha256 == read(tmp_path / "house.toml").sha256
    for path in (broken, circle, tmp_path):
        with pytest.raises(InputError, match="cannot be read"):
            read(path)


def test_a_file_that_may_not_be_read_is_a_fault(ordinary_user: Path) -> None:
    """A survey without leave to read it is refused by name."""
    path = ordinary_user / "locked.toml"
    path.write_bytes(DEMO)
    path.chmod(0)
    with pytest.raises(InputError, match="cannot be read"):
        read(path)


def test_more_girders_than_a_house_has_are_refused() -> None:
    """Every girder is solved under every pattern, so their number is kept to what a house may have."""
    girder = '[[girder]]\nname = "girder {}"\nmember = "6x8 unknown"\nsupports = "0 ft, 8 ft"\ndead_line = "9 plf"\n'
    text = SMALL + "".join(girder.format(number) for number in range(11))
    with pytest.raises(InputError, match="at most 10"):
        read_text(text.encode())


def test_of_very_many_faults_the_first_hundred_are_told() -> None:
    """A file with thousands of faults is refused with a hundred of them and a word about the rest."""
    with pytest.raises(InputError) as refused:
        read_text(SMALL.replace("[wall]", "\n".join(f"colour_{n} = 1" for n in range(5000)) + "\n[wall]").encode())
    assert len(refused.value.faults) == 101
    assert "more than 100 things to mend" in str(refused.value)


def test_a_number_of_thousands_of_digits_is_a_fault() -> None:
    """A whole number too long to be one is refused as no survey, not as a fault of the program."""
    assert tried(SMALL.replace('"10 ft"', "9" * 5000).encode()) == ("refused", "")
