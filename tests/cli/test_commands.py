"""The commands as a person runs them: real processes, exit codes, and sentences in place of tracebacks."""

import json
import os
import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

BEAM = [
    "beam",
    "--span",
    "13 ft 6 in",
    "--dead",
    "210 plf",
    "--live",
    "480 plf",
    "--member",
    "3-ply 2x12 Douglas Fir-Larch No.2",
]
POST = [
    "post",
    "--height",
    "7 ft 6 in",
    "--dead",
    "2,100 lb",
    "--live",
    "3,400 lb",
    "--member",
    "6x6 Douglas Fir-Larch No.1",
]
FORBIDDEN = re.compile(r"\b(approved|safe|ok to build|pass(es|ed)?|not bearing)\b", re.IGNORECASE)


def run(*arguments: str, cwd: Path | None = None, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run the command in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "beamcheck", *arguments],
        capture_output=True,
        text=True,
        check=False,
        cwd=cwd,
        env={**os.environ, **environment},
    )


@pytest.fixture(scope="module")
def house(tmp_path_factory) -> Path:
    """The demonstration, written once."""
    folder = tmp_path_factory.mktemp("house")
    done = run("demo", str(folder))
    assert done.returncode in (0, 1), done.stderr
    return folder / "demo.toml"


def test_one_beam_is_over_and_says_so_under_the_cautions() -> None:
    """A beam over its limit ends with exit code 1, and the cautions stand first."""
    done = run(*BEAM)
    assert done.returncode == 1
    assert "STUDY AID" in done.stdout.splitlines()[0]
    assert re.search(r"Bending .* over", done.stdout)
    assert not FORBIDDEN.search(done.stdout)


def test_one_beam_within_ends_with_nothing_wrong() -> None:
    """The same beam under a light load, held on top, is within: exit code 0."""
    done = run(
        "beam",
        "--span",
        "10 ft",
        "--dead",
        "50 plf",
        "--live",
        "100 plf",
        "--member",
        BEAM[-1],
        "--unbraced",
        "held",
        "--bearing",
        "3 in",
    )
    assert done.returncode == 0, done.stdout
    assert not re.search(r"\bover\b", done.stdout.split("Beam:")[1])
    assert re.search(r"Bending .* within", done.stdout)


def test_the_moment_of_one_beam_is_that_of_the_textbook() -> None:
    """Moment w l^2/8 over the section modulus, own weight included: 34 pcf x 50.625 in2 / 144 (textbook)."""
    w = 210 + 480 + 34 * 3 * 1.5 * 11.25 / 144
    stress = w * 13.5**2 / 8 * 12 / (4.5 * 11.25**2 / 6)
    shown = re.search(r"Bending\s+([\d,]+) psi", run(*BEAM).stdout)
    assert shown is not None
    assert shown[1] == f"{stress:,.0f}"


def test_one_post(house: Path) -> None:
    """A post shows buckling, slenderness about both axes, the load off centre, end grain and the plate."""
    done = run(*POST)
    assert done.returncode == 0, done.stdout
    for words in (
        "Post buckling",
        "Slenderness across",
        "Slenderness along",
        "off centre",
        "End grain",
        "Plate crushing",
    ):
        assert words in done.stdout


BAD = {
    "bare span": (["--span", "13.5"], "13.5 has no unit"),
    "wrong dimension": (["--span", "40 psf"], "is not a length"),
    "no such grade": (["--member", "3-ply 2x12 Hem-Fir No.9"], "nearest"),
    "no such size": (["--member", "3-ply 2x13 Hem-Fir No.2"], "not a dressed size"),
    "no size": (["--member", "a big beam"], "has no size"),
    "nan": (["--dead", "nan plf"], "nan plf"),
    "endless": (["--span", "1e9 ft"], "--span"),
    "far too long": (["--span", "900 ft"], "outside 1 ft to 60 ft"),
    "point off the beam": (["--point", "500 lb dead at 20 ft"], "is off the beam"),
    "point unread": (["--point", "500 at 5 ft"], "cannot be read"),
    "negative": (["--span", "-3 ft"], "outside 1 ft to 60 ft"),
    "negative load": (["--dead", "-210 plf"], '"-210 plf" is less than 0 plf'),
    "control character": (["--member", "2x12\x07 Hem-Fir No.2"], "--member"),
}


@pytest.mark.parametrize("case", BAD.values(), ids=BAD)
def test_bad_options_get_a_sentence_and_exit_code_two(case) -> None:
    """What cannot be used is named with its option and what would do; never a traceback."""
    options, said = case
    done = run(*BEAM, *options)
    assert done.returncode == 2
    assert said in done.stderr
    assert options[0] in done.stderr
    assert "Traceback" not in done.stderr
    assert done.stdout == ""


def test_the_demonstration_writes_once_and_never_over(house: Path, tmp_path: Path) -> None:
    """Demo leaves its own files as they are when run twice, and refuses to write over another file."""
    before = {path.name: path.read_bytes() for path in house.parent.iterdir()}
    assert run("demo", str(house.parent)).returncode in (0, 1)
    assert {path.name: path.read_bytes() for path in house.parent.iterdir()} == before
    mine = tmp_path / "demo.toml"
    mine.write_text("mine")
    done = run("demo", str(tmp_path))
    assert done.returncode == 2
    assert "not written over" in done.stderr
    assert mine.read_text() == "mine"


def test_check_shows_chain_takedown_and_register(house: Path) -> None:
    """The study shows the chain, the take-down table, what was assumed and what is from memory, without verdicts."""
    done = run("check", str(house))
    assert done.returncode == 1
    for words in (
        "The chain from the roof to the ground",
        "tributary ft",
        "Assumed, because it was not known",
        "From memory",
    ):
        assert words in done.stdout
    assert not FORBIDDEN.search(done.stdout)


def test_json_is_the_same_tree_with_every_origin(house: Path) -> None:
    """The data has a schema, the input's hash, and an origin for every value; every check points at two values."""
    data = json.loads(run("check", str(house), "--json").stdout)
    assert data["schema"] == "bearline-study/1"
    assert re.fullmatch(r"[0-9a-f]{64}", data["input"]["sha256"])
    values = {value["id"]: value for value in data["values"]}
    assert all(value["origin"] for value in values.values())

    def checks(item):
        if "check" in item:
            yield item
        for part in item.get("items", ()):
            yield from checks(part)

    found = list(checks(data["sheet"]))
    assert len(found) > 10
    for check in found:
        demand, limit = values[check["demand"]], values[check["limit"]]
        assert check["utilisation"] == pytest.approx(demand["number"] / limit["number"], rel=1e-12)


def test_two_runs_print_the_same_bytes(house: Path) -> None:
    """Locale, hash seed, width and time zone of the terminal change nothing."""
    first = run("check", str(house), PYTHONHASHSEED="1", COLUMNS="40", LC_ALL="C.UTF-8", TZ="UTC")
    second = run(
        "check", str(house), PYTHONHASHSEED="2", COLUMNS="200", LC_ALL="POSIX", TZ="Asia/Tokyo", PYTHONUTF8="1"
    )
    assert first.stdout == second.stdout


@pytest.mark.parametrize(
    "key", ["beam.bending_sagging", "wall.clear_opening", "beam.bending_sagging.M", "takedown.table[1]"]
)
def test_why_opens_a_number_down_to_the_tape_measure(house: Path, key: str) -> None:
    """Every key opens; a computed figure ends in entries of the survey and rows of tables."""
    done = run("why", str(house), key)
    assert done.returncode == 0, done.stderr
    if key.startswith("beam"):
        assert "wall.clear_opening" in done.stdout
        assert "measured" in done.stdout


def test_every_option_that_cannot_be_read_is_told_at_once() -> None:
    """A beam or a post with several bad options is answered with all of them."""
    asked = ["--span", "13.5", "--dead", "210", "--point", "900", "--bearing", "x", "--unbraced", "y", "--live", "1"]
    done = run("beam", "--member", "2x12 oak", *asked)
    assert done.returncode == 2
    for option in ("--member", "--span", "--dead", "--point 1", "--bearing", "--unbraced", "--live"):
        assert f"{option}: " in done.stderr, option
    done = run("post", "--height", "7", "--dead", "2100", "--member", "6x6 oak", "--eccentricity", "z")
    for option in ("--height", "--dead", "--member", "--eccentricity"):
        assert f"{option}: " in done.stderr, option


def test_why_names_the_nearest_key(house: Path) -> None:
    """An unknown key is a fault that names its neighbours."""
    done = run("why", str(house), "beam.bendin_sagging")
    assert done.returncode == 2
    assert "beam.bending_sagging" in done.stderr


def test_every_key_that_is_listed_opens(house: Path) -> None:
    """Whatever  check --keys  lists,  why  opens (in one process: the same two functions)."""
    from beamcheck.study.chain import study
    from beamcheck.study.find import find, keys
    from beamcheck.survey.reader import read

    made = study(read(house))
    listed = keys(made)
    assert len(listed) > 40
    for key in listed:
        find(made, key)


def test_new_writes_a_survey_to_fill_in(tmp_path: Path, filled_starter: str) -> None:
    """The starter is written once; checked as it is, it asks for what is needed; filled in, it is studied."""
    survey = tmp_path / "mine.toml"
    assert run("new", str(survey)).returncode == 0
    assert run("new", str(survey)).returncode == 2
    untouched = run("check", str(survey))
    assert untouched.returncode == 2
    assert "8 things to mend" in untouched.stderr
    assert not untouched.stdout
    survey.write_text(filled_starter)
    assert run("check", str(survey)).returncode == 1


def test_faults_of_a_survey_come_at_once(tmp_path: Path) -> None:
    """A bad survey is answered with every fault, its file, and exit code 2."""
    survey = tmp_path / "bad.toml"
    survey.write_text("[wall]\nclear_opening = 13.5\n[beam]\npositon = 'dropped'\n")
    done = run("check", str(survey))
    assert done.returncode == 2
    assert "bad.toml" in done.stderr
    assert "wall.clear_opening (line 2): 13.5 has no unit" in done.stderr
    assert "nearest: 'position'" in done.stderr


def test_unknown_ground_snow_leaves_the_chain_not_shown(house: Path, tmp_path: Path) -> None:
    """Nothing stands in for the ground snow: without it no link from the take-down to the posts shows a utilisation."""
    text = house.read_text()
    survey = tmp_path / "nosnow.toml"
    survey.write_text(re.sub(r"ground_snow = .*", 'ground_snow = "unknown"', text))
    done = run("check", str(survey), "--json")
    assert done.returncode == 1
    chain = {link["key"]: link for link in json.loads(done.stdout)["chain"]}
    for key, link in chain.items():
        if key.startswith(("takedown", "beam", "post")):
            assert link["word"] == "not shown", key
            assert link["governing"] is None, key
    assert chain["beam"]["word"] == "not shown"


def test_tables_list_their_source() -> None:
    """The list names every table with its document; one table shows its rows and how it was verified."""
    assert "nds_2018/sawn_4a" in run("tables").stdout
    one = run("tables", "nds_2018/sawn_4a").stdout
    assert "verified:" in one
    assert "Douglas Fir-Larch" in one
    assert run("tables", "nds_2018/nothing").returncode == 2


@pytest.mark.parametrize(
    "command",
    [
        "",
        "beam",
        "post",
        "check",
        "why",
        "sheet",
        "new",
        "tables",
        "demo",
        "ask",
        "page",
        "signs",
        "options",
        "compare",
        "margins",
    ],
)
def test_help_of_every_command(command: str) -> None:
    """Every command explains itself."""
    done = run(*filter(None, [command]), "--help")
    assert done.returncode == 0
    assert "Usage" in done.stdout


@pytest.mark.parametrize(
    ("command", "options"),
    [
        (BEAM, ("--unbraced", "--edition", "--position", "--wet")),
        (POST, ("--eccentricity", "--edition", "--held", "--fastening", "--plate", "--wet")),
    ],
    ids=["beam", "post"],
)
def test_what_stands_in_for_an_option_left_out_is_told(command, options) -> None:
    """Each option left out is told as assumed, with what would change it; one that is given is not."""
    told = re.sub(r"\s+", " ", run(*command).stdout)
    for option in options:
        assert f"ASSUMED: {option} was left out;" in told, option
    given = re.sub(r"\s+", " ", run(*command, "--edition", "ASCE 7-22").stdout)
    assert "--edition was left out" not in given


def _shown(terminal: int) -> bytes:
    """What a terminal shows next; nothing once its program has ended."""
    try:
        return os.read(terminal, 65536)
    except OSError:
        return b""


def test_the_first_lines_name_what_is_over_beside_the_chain(house) -> None:
    """The hardest-working link is one of the chain; what is over beside it is told next to it, not only far below."""
    told = " ".join(run("check", str(house)).stdout.partition("-- The chain")[0].split())
    assert "Result of the study: over in 4 links, not shown in 2, refer in 4." in told
    assert "the hardest-working link: Bending over a support" in told
    assert re.search(r"Over beside the chain: Temporary support, 2\.\d\d; The rest of the room, 1\.\d\d\.", told)


@pytest.fixture(scope="module")
def texts(house: Path) -> Callable[[int], tuple[str, ...]]:
    """A check, an option list, a comparison and the margins of the demonstration, laid out for a width."""
    from beamcheck.explore.compare import Side, compared
    from beamcheck.explore.margins import margins
    from beamcheck.explore.options import options
    from beamcheck.study.chain import study
    from beamcheck.survey.reader import read
    from beamcheck.views.explore_text import compare_text, margins_text
    from beamcheck.views.options_text import options_text
    from beamcheck.views.terminal import study_text

    survey = read(house)
    made = study(survey)
    sides = (Side("as written", (), made), Side("the same", (), made))
    tried, beside, found = options(survey), compared(sides), margins(made)
    return lambda width: (
        study_text(made, width),
        options_text(survey, tried, width),
        compare_text(sides, beside, width),
        margins_text(made, found, (), None, width),
    )


@pytest.mark.parametrize("width", [80, 96, 110])
def test_text_keeps_to_the_width_that_it_is_laid_out_for(texts, width: int) -> None:
    """No line of a check, an option list, a comparison or the margins is wider; words and figures stay the same."""
    from beamcheck.views.words import STATUS

    laid_out = texts(width)
    for text in laid_out:
        assert max(map(len, text.splitlines())) <= width
        assert STATUS in " ".join(text.split())
    squeezed = re.sub(r"\s+", "", laid_out[0])
    for word in ("1,291psi", "2,543psi", "utilisation1.57,over", "229.2plf", "1,198lb"):
        assert word in squeezed
    assert not re.search(r"utili$|deflec$|\bdefle\b", laid_out[0], re.MULTILINE)


@pytest.mark.skipif(sys.platform == "win32", reason="no such terminal on this system")
@pytest.mark.parametrize(("columns", "wide"), [("80", 80), ("40", 80), ("200", 110)])
def test_a_terminal_gets_its_own_width(house: Path, columns: str, wide: int) -> None:
    """On a terminal a check is as wide as the terminal, from 80 to 110; a pipe, whatever its width, gets 110."""
    import pty

    ours, theirs = pty.openpty()
    words = [sys.executable, "-m", "beamcheck", "check", str(house)]
    with subprocess.Popen(words, stdout=theirs, env={**os.environ, "COLUMNS": columns}) as shown:
        os.close(theirs)
        parts = []
        while part := _shown(ours):
            parts.append(part)
        shown.wait(timeout=60)
    os.close(ours)
    lines = b"".join(parts).decode().splitlines()
    assert max(map(len, lines)) == wide
