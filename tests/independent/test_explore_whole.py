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
from beamcheck.survey.reader import read_text

HERE = Path(__file__).parent
LONG = HERE / "explore" / "long_line.toml"
SLAB = HERE.parent / "houses" / "slab_house.toml"
DEMO = Path(str(files("beamcheck.survey") / "demo.toml"))
OF_THE_LIST = {"takedown", "beam"}


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
    listed = options(survey).ranked
    found = whole(survey, listed)
    studies = [anew(path, option) for option in listed]
    assert found.worked == len(studies) > 5
    assert not found.refused
    assert {rest.key for rest in found.rest}.isdisjoint(OF_THE_LIST)
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
        over = (text for text, links in with_beams if rest.key in links and links[rest.key].word == "over")
        assert rest.over == tuple(over)
        words = [link.word for link in links]
        assert rest.word == next(w for w in ("over", "not shown", "refer", "close", "within") if w in words)
    left_out = {
        key for links in studies for key, link in links.items() if link.governing is not None
    } - {rest.key for rest in found.rest}  # fmt: skip
    assert left_out <= OF_THE_LIST


def test_a_beam_that_the_survey_does_not_take_is_told_with_the_reason() -> None:
    """An option that contradicts the survey is no silent gap in the table, and nothing is settled with it."""
    survey = read_text(SLAB.read_bytes(), SLAB.name)
    listed = options(survey).ranked[:2]
    unfit = listed[0]._replace(text="1-ply 2x4 Nowhere Wood No.9")
    found = whole(survey, (unfit, listed[1]))
    assert found.worked == 1
    assert found.refused[0][0] == "1-ply 2x4 Nowhere Wood No.9"
    assert "Nowhere" in found.refused[0][1]
    assert found.first == "not shown"
    assert all(len(rest.over) <= 1 for rest in found.rest)


def test_the_command_puts_the_rest_under_the_list_and_into_its_exit_code() -> None:
    """The demonstration's girder is over with every beam: the table says so, and the command ends in 1."""
    words = [sys.executable, "-m", "beamcheck", "options", str(DEMO), "--whole"]
    done = subprocess.run(words, capture_output=True, text=True, check=False)
    assert done.returncode == 1
    told = done.stdout.partition("The rest of the study, with each of these 15")[2].partition("The shallowest")[0]
    girder = next(line.split() for line in told.splitlines() if line.strip().startswith("Girder below"))
    assert girder[4:8] == ["1.56", "1.57", "over", "15"]
    assert re.search(r"^Post 1: over with \S.+ and \S.+\.$", told, re.MULTILINE)
    assert "of no use on posts, a girder or soil that are over" in " ".join(done.stdout.split())
    plain = subprocess.run(words[:-1], capture_output=True, text=True, check=False)
    assert "The rest of the study" not in plain.stdout
    assert "options FILE --whole" in " ".join(plain.stdout.split())
