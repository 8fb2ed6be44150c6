"""The rest of the study with each beam of a list: its figures are those of studies of surveys written anew."""

import re
import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import pytest

from beamcheck.explore.options import options
from beamcheck.explore.whole import whole
from beamcheck.study.chain import study
from beamcheck.study.types import WORST_FIRST
from beamcheck.survey.reader import read_text

HERE = Path(__file__).parent
LONG = HERE / "explore" / "long_line.toml"
SLAB = HERE.parent / "houses" / "slab_house.toml"
DEMO = Path(str(files("beamcheck.survey") / "demo.toml"))

def run(path: Path, *more: str) -> subprocess.CompletedProcess[str]:
    """The command as a person types it."""
    words = [sys.executable, "-m", "beamcheck", "options", str(path), *more]
    return subprocess.run(words, capture_output=True, text=True, check=False)


def table(text: str) -> str:
    """What is printed of the whole study with the beams of the lists."""
    return text.partition("The whole study, with each of these")[2].partition("\n-- ")[0]


def anew(path: Path, option) -> dict[str, object]:
    """The links of a study of the survey's text with the option's beam, and its middle posts, written into it."""
    survey = read_text(path.read_bytes(), path.name)
    text = path.read_text(encoding="utf-8")
    beam = next(line for line in text.partition("[beam]")[2].splitlines() if line.startswith("member"))
    head, _, tail = text.partition("[beam]")
    written = f'member = "{option.text}"'
    text = f"{head}[beam]{tail.replace(beam, written, 1)}"
    for post, station in zip(survey.posts, option.stations, strict=True):
        if post.station is not None and abs(float(post.station.number) - station) > 1e-9:
            text = text.replace(f'"{post.station.origin.text}"', f'"{station:g} in"', 1)
    return {link.key: link for link in study(read_text(text.encode(), path.name)).links}


@pytest.mark.parametrize("path", [LONG, SLAB, DEMO], ids=lambda path: path.stem)
def test_each_link_is_that_of_studies_of_surveys_written_anew(path: Path) -> None:
    """Least and greatest utilisation, the worst word and the count of beams it is over with, by one study a beam."""
    survey = read_text(path.read_bytes(), path.name)
    listed = options(survey).listed
    found = whole(survey, listed)
    studies = [anew(path, option) for option in listed]
    assert len(found.beams) == len(studies) > 5
    assert not found.refused
    assert len(found.rest) > 5
    for rest in found.rest:
        links = [links[rest.key] for links in studies if rest.key in links]
        checks = [link.governing for link in links if link.governing is not None]
        ratios = [float(check.ratio) for check in checks]
        if ratios:
            assert (rest.least, rest.most) == pytest.approx((min(ratios), max(ratios)), rel=1e-9)
            assert rest.check in {check.title for check in checks}
        else:
            assert rest.least is rest.most is None
        with_beams = zip((option.text for option in listed), studies, strict=True)
        over = [text for text, links in with_beams if rest.key in links and links[rest.key].word == "over"]
        assert [option.text for option in rest.over] == over
        words = [link.word for link in links]
        assert rest.said.split(",")[0] == next(w for w in WORST_FIRST if w in words)
        assert rest.beams == sum(link.word in WORST_FIRST for link in links)
    listed_links = {key for links in studies for key, link in links.items() if link.word in WORST_FIRST}
    left_out = listed_links - {rest.key for rest in found.rest}
    assert left_out <= {"signs", "house"}
    for key in left_out:
        assert {links[key].word for links in studies} == {"refer"}


def test_what_is_not_shown_with_any_beam_is_a_row_and_keeps_the_exit_code(tmp_path) -> None:
    """A splice inside a span and signs that nobody looked for are told, not left out as always asked."""
    text = SLAB.read_text(encoding="utf-8")
    spliced = text.replace("[beam]", '[beam]\nsplices = "6 ft"', 1)
    head, _, tail = text.partition("[signs]")
    unsigned = head + "".join(tail.partition("\n[")[1:])
    for name, written, row, plainly in (("a", spliced, "Beam", True), ("b", unsigned, "Is the wall", False)):
        path = tmp_path / f"{name}.toml"
        path.write_text(written, encoding="utf-8")
        done = run(path, "--whole")
        line = next(line for line in table(done.stdout).splitlines() if line.strip().startswith(row))
        assert "not shown" in line
        assert done.returncode == 1
        assert ("NOT SHOWN" in run(path).stdout) == plainly


def test_a_plate_of_unknown_thickness_is_not_told_of_as_a_seat_that_is(tmp_path) -> None:
    """The list says that the seat is not shown, as a check does, and ends in 1."""
    path = tmp_path / "thin.toml"
    lines = SLAB.read_text(encoding="utf-8").splitlines()
    path.write_text("\n".join(line for line in lines if not line.startswith("seat_thickness")), encoding="utf-8")
    done = run(path)
    assert "NOT SHOWN  Thickness of the steel plate: measure post[2].seat_thickness" in done.stdout
    assert done.returncode == 1


def test_a_station_that_does_not_fit_is_told_at_its_own_key(tmp_path) -> None:
    """A station to try past the next post is a fault of try_stations, not of that post."""
    path = tmp_path / "past.toml"
    text = LONG.read_text(encoding="utf-8")
    old = next(line for line in text.splitlines() if line.startswith("try_stations"))
    path.write_text(text.replace(old, 'try_stations = "40 ft"'), encoding="utf-8")
    done = run(path)
    assert done.returncode == 2
    assert "post[2].try_stations" in done.stderr


def test_a_beam_that_the_survey_does_not_take_is_told_with_the_reason() -> None:
    """An option that contradicts the survey is no silent gap in the table, and nothing is settled with it."""
    survey = read_text(SLAB.read_bytes(), SLAB.name)
    listed = options(survey).ranked[:2]
    unfit = listed[0]._replace(text="1-ply 2x4 Nowhere Wood No.9")
    found = whole(survey, (unfit, listed[1]))
    assert found.beams == (listed[1],)
    ((why, refused),) = found.refused.items()
    assert refused == (unfit,)
    assert "Nowhere" in why
    assert (found.first, found.questions) == ("not shown", 0)
    assert all(rest.beams == 1 for rest in found.rest)
    assert whole(survey, listed).first == "within"


def test_a_beam_of_one_piece_has_no_plies_to_join(tmp_path) -> None:
    """Fasteners of the survey's plies are left out for steel and other beams of one piece, and kept for plies."""
    text = SLAB.read_text(encoding="utf-8").replace('position = "dropped"', 'position = "flush"')
    joined = '[beam]\nplies_joined_by = "16d common"\nfastener_rows = "2"\nfastener_spacing = "12 in"'
    survey = read_text(text.replace("[beam]", joined, 1).encode(), "joined.toml")
    found = whole(survey, options(survey).listed)
    assert not found.refused
    assert {option.text[:2] for option in found.beams} >= {"W6", "2-"}


def test_the_command_puts_the_rest_under_the_list_and_into_its_exit_code() -> None:
    """The demonstration's girder is over with every beam: the table says so, and the command ends in 1."""
    done = run(DEMO, "--whole")
    assert done.returncode == 1
    told = table(done.stdout)
    girder = next(line.split() for line in told.splitlines() if line.strip().startswith("Girder below"))
    assert girder[4:8] == ["1.56", "1.57", "over", "19"]
    assert re.search(r"^Post 1: over with 3-ply .+LVL.+, 3-ply .+LVL.+, 3-ply .+$", told, re.MULTILINE)
    assert re.search(r"asks the engineer questions \(\d+ with the first beam\)", told)
    assert "of no use on posts, a girder or soil that are over" in " ".join(done.stdout.split())
    plain = " ".join(run(DEMO).stdout.split())
    assert "The whole study" not in plain
    assert "options FILE --whole" in plain
    assert "from 0.97 to 1.22, over" in plain
    assert "over under 3 of these 19 beams" in plain


def test_where_no_beam_stays_no_study_is_worked(tmp_path) -> None:
    """The list says that there was nothing to work, and how the posts are under the nearest."""
    path = tmp_path / "low.toml"
    path.write_text(SLAB.read_text(encoding="utf-8") + '\n[options]\ngreatest_depth = "3 in"\n', encoding="utf-8")
    done = run(path, "--whole")
    assert done.returncode == 1
    assert "none to work the whole study with" in " ".join(done.stdout.split())
    assert "The whole study, with" not in done.stdout
