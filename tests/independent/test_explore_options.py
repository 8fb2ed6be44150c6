"""The sweep of beams: each of its figures is that of a study of the same beam, and its choice keeps to the limits."""

import os
import random
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

sys.path.insert(0, str(Path(__file__).parent))

from random_surveys import survey as random_survey

from beamcheck.catalogue.members import Kind
from beamcheck.catalogue.reading import read_member
from beamcheck.errors import InputError
from beamcheck.explore.front import front
from beamcheck.explore.options import LISTED, options
from beamcheck.explore.stock import inches, stock
from beamcheck.explore.trials import arrangements, tried
from beamcheck.study.chain import study
from beamcheck.survey.reader import read, read_text
from beamcheck.trace import Check, items

HERE = Path(__file__).parent
LONG = HERE / "explore" / "long_line.toml"
PLAIN = HERE / "explore" / "plain_house.toml"
HOUSES = HERE.parent / "houses"
SURVEYS = (LONG, PLAIN, HOUSES / "slab_house.toml", HOUSES / "long_line.toml")
SAMPLE = 8


def changed(path: Path, *pairs: tuple[str, str]):
    """A survey whose text differs in the given places."""
    text = path.read_text(encoding="utf-8")
    for old, new in pairs:
        assert old in text, old
        text = text.replace(old, new)
    return read_text(text.encode(), path.name)


def dice(seed: int | str) -> random.Random:
    """A reproducible draw."""
    return random.Random(seed)  # noqa: S311


_WOOD_POST = """member = "6x6 Douglas Fir-Larch No.1"
station = { value = "18 ft 6 in", trust = "stated" }
held = "free"
seat = "cap"
"""
_STEEL_POST = """member = "HSS4x4x1/4"
station = { value = "18 ft 6 in", trust = "stated" }
held = "free"
seat = "steel plate"
seat_length = "6 in"
seat_breadth = "6 in"
seat_thickness = "3/4 in"
"""
CONDITIONS = {
    "as written": (),
    "flush": (('position = "dropped"', 'position = "flush"'),),
    "wet": (('moisture = "dry"', 'moisture = "wet"'),),
    "held": (('top_edge = "not held"', 'top_edge = "held"'),),
    "plies share": (('moisture = "dry"', 'moisture = "dry"\nplies_share = "yes"'),),
    "load that lifts": (('dead_load = { value = "350 lb"', 'dead_load = { value = "-9000 lb"'),),
    "edition": (('"ASCE 7-22"', '"ASCE 7-16"'),),
}


def compare_with_studies(survey, drawn: random.Random, sample: int = SAMPLE) -> int:
    """How many figures of a sample of beams were compared; each must be that of the study."""
    batches = stock(survey)
    beams = [text for batch in batches for text in batch.texts]
    counted = 0
    for one in arrangements(survey):
        trial = tried(one, batches)
        for beam in drawn.sample(range(len(beams)), sample):
            if beam in trial.unfit:
                continue
            batch, number = trial.batch_of(beam)
            sheet = study(replace(one, beam=replace(one.beam, member=beams[beam]))).sheet
            found = {item.key: float(item.ratio) for item in items(sheet) if isinstance(item, Check)}
            for checks, lane in ((trial.of_beam[batch], number), (trial.of_posts, beam)):
                for key, check in checks.items():
                    if key in found:
                        assert check.ratio[lane] == pytest.approx(found[key], abs=1e-9, rel=1e-9), (beams[beam], key)
                        counted += 1
                    else:
                        assert np.isnan(check.ratio[lane]) or check.ratio[lane] <= 1e-9, (beams[beam], key)
            swept = trial.of_beam[batch].keys() | trial.of_posts.keys()
            of_beam = {key for key in found if key.startswith("beam.")}
            assert of_beam <= swept, of_beam - swept
    return counted


@pytest.mark.parametrize("path", SURVEYS, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_every_utilisation_of_the_sweep_is_that_of_the_study(path) -> None:
    """On a random sample of beams the sweep and the study of one beam agree within 1e-9 in every check."""
    assert compare_with_studies(read(path), dice(path.stem)) > 5 * SAMPLE


@pytest.mark.parametrize("pairs", CONDITIONS.values(), ids=CONDITIONS)
def test_sweep_and_study_agree_in_other_conditions(pairs) -> None:
    """They agree flush and dropped, wet and dry, held and free, with uplift, and under both editions of ASCE 7."""
    assert compare_with_studies(changed(LONG, *pairs), dice(5), sample=3) > 50


OF_STEEL = {
    "as written": (),
    "held": (('top_edge = "not held"', 'top_edge = "held"'),),
    "far from the end": (('overhang_right = { value = "2 ft"', 'overhang_right = { value = "9 in"'),),
    "load that lifts": (('dead_load = { value = "350 lb"', 'dead_load = { value = "-9000 lb"'),),
    "on a post of steel": ((_WOOD_POST, _STEEL_POST),),
}


@pytest.mark.parametrize("pairs", OF_STEEL.values(), ids=OF_STEEL)
def test_sweep_and_study_agree_on_steel(pairs) -> None:
    """So they do on W shapes, held or not, near a free end (web) and far from it, over posts of wood and of steel."""
    survey = changed(LONG, ('most_plies = "3"', 'families = "steel"'), *pairs)
    assert {batch.member.kind for batch in stock(survey)} == {Kind.STEEL}
    assert compare_with_studies(survey, dice(7), sample=4) > 100


def test_wood_and_steel_stand_in_one_list() -> None:
    """The rank of a beam does not ask what it is made of: depth, then weight, then utilisation."""
    found = options(changed(LONG, ('greatest_depth = "16 in"', 'greatest_depth = "30 in"')))
    assert {one.family for one in found.first} > {"steel", "LVL"}
    order = [(one.depth, one.weight, one.ratio) for one in found.ranked]
    assert order == sorted(order)
    for one in found.first:
        assert all(other.depth >= one.depth for other in found.ranked if other.family == one.family)
        assert one.ratio <= found.limit


def test_a_batch_holds_the_figures_of_its_members() -> None:
    """Breadth, depth, weight and every design value of a beam in a batch are those that its text reads to."""
    drawn = dice(8)
    for batch in stock(read(LONG)):
        for number in drawn.sample(range(len(batch.texts)), min(8, len(batch.texts))):
            member = read_member(batch.texts[number], "beam.member")
            pairs = [(batch.member.b, member.b), (batch.member.d, member.d)]
            assert (batch.member.density is None) is (member.density is None)
            if member.density is not None:
                pairs.append((batch.member.density, member.density))
            pairs += [(value, member[name]) for name, value in batch.member.figures.items()]
            for many, one in pairs:
                assert np.broadcast_to(many.number, (len(batch.texts),))[number] == one.number
            assert batch.plies[number] == member.plies
            assert batch.member.kind is member.kind


def test_every_beam_of_the_list_is_read() -> None:
    """The yard's list holds no size or grade that the tables do not have."""
    texts = [text for batch in stock(read(PLAIN)) for text in batch.texts]
    assert len(texts) == len(set(texts)) > 400
    assert {read_member(text, "beam.member").text for text in texts} == set(texts)


@pytest.mark.parametrize(("size", "text"), [(14.0, "14"), (11.875, "11-7/8"), (0.5, "1/2"), (2.6875, "2.6875")])
def test_sizes_are_written_as_the_yard_does(size, text) -> None:
    """Eighths of an inch stand as fractions, what they do not hold in decimals."""
    assert inches(size) == text


def test_ranked_beams_keep_to_every_limit() -> None:
    """Depth, breadth, weight of a piece, plies, family, species and utilisation are within what the survey asks."""
    limits = """
greatest_depth = "11.5 in"
greatest_breadth = "5-1/2 in"
greatest_piece_weight = "100 lb"
greatest_utilisation = "0.8"
most_plies = "3"
families = "sawn, LVL"
species = "Southern Pine"
"""
    before = '[[variant]]\nname = "deeper'
    plain, full = read(PLAIN), changed(PLAIN, (before, f"[options]{limits}\n{before}"))
    free, found = options(plain), options(full)
    assert 0 < found.found < free.found
    assert found.tried < free.tried
    for one in (*found.ranked, *found.front):
        assert one.depth <= 11.5
        assert one.breadth <= 5.5
        assert one.piece <= 100
        assert one.ratio <= 0.8
        assert one.family == "LVL" or "Southern Pine" in one.text
        assert not one.text.startswith(("4-ply", "5-ply"))
    order = [(one.depth, one.weight, one.ratio) for one in found.ranked]
    assert order == sorted(order)
    assert len(found.ranked) == min(found.found, LISTED)


def test_what_is_rejected_says_why() -> None:
    """A family of which nothing will do is told with its nearest beam and the limit or check that stops it."""
    survey = changed(LONG, ('greatest_depth = "16 in"', 'greatest_depth = "6 in"\ngreatest_utilisation = "0.3"'))
    found = options(survey)
    assert not found.ranked
    assert {one.family for one in found.rejected} >= {"sawn", "timber", "LVL", "glulam"}
    for one in found.rejected:
        assert "deeper than 6 in" in one.why or one.why == one.nearest.governed_by
        assert one.nearest.depth > 6 or one.nearest.ratio > 0.3


def test_the_front_is_what_nothing_beats() -> None:
    """Every row left out is beaten by one of the front, and no row of the front by any."""
    figures = np.random.default_rng(4).integers(0, 6, (200, 3)).astype(float)
    kept = front(figures)

    def beats(a, b) -> bool:
        return bool((a <= b).all() and (a < b).any())

    assert kept
    for number, row in enumerate(figures):
        if number in kept:
            assert not any(beats(other, row) for other in figures)
        else:
            assert any(beats(figures[k], row) or (figures[k] == row).all() for k in kept)


def test_posts_are_tried_at_every_station() -> None:
    """Each station of a post between the ends makes an arrangement, the survey's own first."""
    survey = read(LONG)
    stations = [float(one.posts[1].station.number) for one in arrangements(survey)]
    assert stations == [108.0, 102.0, 114.0]
    assert {one.stations[1] for one in options(survey).front} <= set(stations)


def test_stations_of_an_end_post_are_refused() -> None:
    """The end posts stand at the ends of the opening: stations to try there are a fault with its key path."""
    survey = changed(PLAIN, ('plate = "Southern Pine"', 'plate = "Southern Pine"\ntry_stations = "4 ft"'))
    with pytest.raises(InputError) as caught:
        arrangements(survey)
    assert caught.value.faults[0].where == "post[1].try_stations"


def test_options_need_the_whole_take_down() -> None:
    """Where something carried is not known there is nothing to sweep, and the fault says what is missing."""
    text = LONG.read_text(encoding="utf-8")
    line = next(line for line in text.splitlines() if line.startswith("ground_snow"))
    with pytest.raises(InputError) as caught:
        options(read_text(text.replace(line, "").encode()))
    assert "ground snow" in str(caught.value)


@pytest.mark.parametrize("path", SURVEYS, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_the_list_stops_where_it_leaves_something_of_its_own_open(path) -> None:
    """Loads or seats that nobody told of, and posts that are over under the first, by studies of the same house."""
    found = options(read(path))
    links = {link.key: link for link in study(read(path)).links}
    seats = [link for key, link in links.items() if key.endswith(".seat")]
    open_ = links["takedown"].word == "not shown" or any(seat.word == "not shown" for seat in seats)
    assert bool(found.not_told or found.unknown_seats) == open_
    assert found.stopped == (open_ or (bool(found.ranked) and found.ranked[0].post_ratio > 1))


def test_a_beam_whose_seat_is_not_known_does_not_stay() -> None:
    """In a notch nobody knows how many of several plies are seated: only beams of one piece stay, and why is told."""
    seat = 'seat = "notch"\nnotch_depth = "2 in"'
    survey = changed(HOUSES / "slab_house.toml", ('seat = "cap"', seat))
    found = options(survey)
    assert found.ranked
    assert not [option.text for option in found.listed if "-ply" in option.text]
    for option in found.listed[:3]:
        links = study(replace(survey, beam=replace(survey.beam, member=option.text))).links
        assert "not shown" not in {link.word for link in links if link.key.endswith(".seat")}
    several = study(replace(survey, beam=replace(survey.beam, member="2-ply 1-3/4x14 LVL 2.0E-2900F"))).links
    assert "not shown" in {link.word for link in several if link.key == "post[1].seat"}
    batches = stock(survey)
    told = tried(survey, batches).unfit
    texts = [text for batch in batches for text in batch.texts]
    assert {texts[number] for number, why in told.items() if "count post[1].seated_plies" in why} == {
        text for text in texts if "-ply" in text
    }


@pytest.mark.parametrize("seed", [9058, 9088])
def test_glulam_that_nowhere_sags_divides_by_nothing(seed) -> None:
    """Where no moment sags under a combination there is no length between zeros; the list still tells of glulam."""
    survey_ = read_text(random_survey(seed).encode())
    found = options(survey_)
    assert {one.family for one in (*found.first, *(rejected.nearest for rejected in found.rejected))} >= {"glulam"}
    assert compare_with_studies(survey_, dice(seed), 4)


_ELSEWHERE = """
import sys
from pathlib import Path
from beamcheck.explore.options import options
from beamcheck.survey.reader import read
print(repr(options(read(Path(sys.argv[1])))))
"""


def test_options_are_the_same_in_another_process() -> None:
    """The same survey gives the same list, figure by figure, though sets and hashes lie in another order there."""
    words = [sys.executable, "-c", _ELSEWHERE, str(LONG)]
    env = {**os.environ, "PYTHONHASHSEED": "1"}
    done = subprocess.run(words, capture_output=True, text=True, check=True, env=env)
    assert done.stdout.strip() == repr(options(read(LONG)))
