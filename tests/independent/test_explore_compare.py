"""Variants inside a survey, and surveys side by side: what is set otherwise changes, and only that."""

from pathlib import Path

import pytest

from beamcheck.errors import InputError
from beamcheck.explore.compare import Row, Side, Standing, compared
from beamcheck.explore.options import options
from beamcheck.study.chain import study
from beamcheck.survey.model import Survey
from beamcheck.survey.reader import read, read_text
from beamcheck.survey.variants import AS_WRITTEN, read_variants
from beamcheck.views.options_text import options_text

HERE = Path(__file__).parent
PLAIN = HERE / "explore" / "plain_house.toml"
LONG = HERE / "explore" / "long_line.toml"
GIRDERS = """
[[girder]]
name = "weak girder"
member = "2-ply 2x6 Spruce-Pine-Fir No.2"
supports = "0 ft, 7 ft"
posts = "post 2"
post_stations = "3 ft 6 in"
bearing_length = "8 in"
span_a = "12 ft"
span_b = "12 ft"

[[girder]]
name = "idle girder"
member = "4-ply 2x12 Douglas Fir-Larch No.1"
supports = "0 ft, 7 ft"
bearing_length = "8 in"
span_a = "2 ft"
span_b = "2 ft"
"""
DEMO = HERE.parents[1] / "beamcheck" / "survey" / "demo.toml"
SNOW = """ground_snow = "10 psf"
exposure = "partly exposed"
roof_warmth = "cold ventilated"
soil_bearing = "1500 psf"
"""
ROOF = """
[[carried]]
name = "roof strut"
kind = "strut"
station = "5 ft"
area = "60 ft^2"
pitch = "10:12"
dead = "15 psf"
"""
PADS = """
[[pad]]
under = "post 2"
state = "new"
thickness = "12 in"
pier_length = "8 in"
pier_breadth = "16 in"

"""
PIANO = """
[[heavy]]
name = "{}"
weight = "800 lb"
along = "4 ft"
across = "4 ft"
"""
HEADROOM = ("headroom under the beam", "which leaves for")


def parsed(text: str) -> Survey:
    """The survey in a text, its variants left aside."""
    return read_text(text.encode())


def sides(*paths: Path) -> tuple[Side, ...]:
    """Surveys as written and their variants, each with its study."""
    return tuple(
        Side(variant.name, variant.changes, study(variant.survey)) for path in paths for variant in read_variants(path)
    )


def differing(found: tuple[Side, ...]) -> set[str]:
    """Titles of the rows in which the sides differ."""
    return {row.title for part in compared(found) for row in part.rows if row.differs}


def by_title(found: tuple[Side, ...]) -> dict[str, Row]:
    """Rows by part and title, of which no two are alike; of links by name alone."""
    rows = [row for part in compared(found) for row in part.rows]
    titles = [row.title for row in rows]
    assert len(set(titles)) == len(titles)
    return dict(zip(titles, rows, strict=True))


def on_girders(text: str) -> str:
    """A plain house with its second post on a girder, and another girder beside it."""
    before, _, after = text.rpartition('stands_on = "pier"')
    return f'{before}stands_on = "girder"{after}'.replace("[[variant]]", f"{GIRDERS}\n[[variant]]", 1)


def test_a_variant_sets_its_keys_and_no_others() -> None:
    """The survey as written comes first; each variant differs from it in the keys that it sets, and in trust."""
    written, deeper, heavy = read_variants(PLAIN)
    assert (written.name, deeper.name) == (AS_WRITTEN, "deeper beam")
    assert deeper.survey.beam.member == "3-ply 2x14 Douglas Fir-Larch No.1"
    assert deeper.survey.posts[0].member == written.survey.posts[0].member
    assert heavy.survey.beam.top_edge == "not held"
    assert heavy.survey.carried[0].dead.number == 25
    assert heavy.changes == (("carried[1].dead", "25 psf"), ("beam.top_edge", "not held"))
    assert written.survey.sha256 == deeper.survey.sha256 == read(PLAIN).sha256


def test_a_study_of_the_file_leaves_variants_aside() -> None:
    """``check`` reads the survey as written, whatever variants stand in it."""
    assert read(PLAIN).beam.member == read_variants(PLAIN)[0].survey.beam.member


def test_the_same_survey_twice_does_not_differ() -> None:
    """Side by side with itself a survey differs in nothing."""
    (one, *_), (again, *_) = sides(LONG), sides(LONG)
    assert differing((one, again)) == set()


def test_a_deeper_beam_differs_where_it_must() -> None:
    """Another beam changes its own lines, its weight and the headroom, and leaves the live load alone."""
    written, deeper, _ = sides(PLAIN)
    found = differing((written, deeper))
    assert {"beam", "Beam", "dead load, all of it", "headroom under the beam", "one piece carried in weighs"} <= found
    assert found.isdisjoint({"post 1", "live load, all of it", "clear opening"})


def test_cells_are_those_of_the_studies() -> None:
    """Utilisations, words and loads in the table are the studies' own, in the order of the sides."""
    found = sides(PLAIN)
    rows = by_title(found)
    for side, cell in zip(found, rows["Beam"].cells, strict=True):
        link = next(link for link in side.study.links if link.key == "beam")
        assert isinstance(cell, Standing)
        assert (cell.word, cell.ratio) == (link.word, float(link.governing.ratio))
    loads = [row for title, row in rows.items() if title.endswith("load, all of it")]
    for number, side in enumerate(found):
        total = sum(float(row.cells[number].number) for row in loads)
        every = tuple(range(len(side.study.loaded.line.bays)))
        reactions = [side.study.loaded.single.response(f"{name} alone", every).reactions for name in ("D", "L")]
        assert total == pytest.approx(sum(map(sum, reactions)))


def test_surveys_of_different_length_stand_side_by_side() -> None:
    """What one survey has not got stands empty, and differs."""
    one, other = sides(PLAIN)[0], sides(LONG)[0]
    row = next(row for part in compared((one, other)) for row in part.rows if row.title == "post 4")
    assert row.cells[0] is None
    assert row.differs


def test_of_two_girders_each_has_its_row(tmp_path) -> None:
    """Two links of a kind stay two rows, and the one that is over is seen to be over."""
    path = tmp_path / "two.toml"
    path.write_text(on_girders(PLAIN.read_text(encoding="utf-8")), encoding="utf-8")
    found = sides(path)
    (part,) = [part for part in compared(found) if part.title == "How hard each link works"]
    for number, side in enumerate(found):
        told = [link for link in side.study.links if link.governing is not None or link.word in ("not shown", "refer")]
        cells = [row.cells[number] for row in part.rows if isinstance(row.cells[number], Standing)]
        expected = [(link.word, link.governing and float(link.governing.ratio)) for link in told]
        assert [(cell.word, cell.ratio) for cell in cells] == expected
    rows = {row.title: row.cells[0] for row in part.rows}
    assert rows["Girder below (weak girder)"].word == "over"
    assert rows["Girder below (idle girder)"].word == "within"


@pytest.mark.parametrize("path", [PLAIN, LONG, DEMO], ids=lambda path: path.stem)
def test_no_two_links_of_a_study_are_called_the_same(path) -> None:
    """What tells one link from another is its name, so every name is there once, and holds no member."""
    links = study(read(path)).links
    names = [link.name for link in links]
    assert len(set(names)) == len(names)
    assert all(link.title == (f"{link.name}: {link.member}" if link.member else link.name) for link in links)


def test_two_heavy_things_of_one_name_are_sent_back() -> None:
    """Two results under one name could not be told apart: the message names both entries."""
    text = PLAIN.read_text(encoding="utf-8") + PIANO.format("piano") + PIANO.format(" Piano")
    with pytest.raises(InputError, match="is the name of heavy"):
        study(read_text(text.encode(), "two.toml"))


def test_one_load_on_a_pad_stands_in_one_row_whatever_governs_it(tmp_path) -> None:
    """Where snow takes over from people, the load on the pad has another case, and still one row."""
    text = PLAIN.read_text(encoding="utf-8").partition("[[variant]]")[0]
    text = text.replace('loads = "ASCE 7-16"', f'loads = "ASCE 7-16"\n{SNOW}')
    text = f'{text}{ROOF}{PADS}[[variant]]\nname = "deep snow"\nset = {{ "site.ground_snow" = "90 psf" }}\n'
    path = tmp_path / "snow.toml"
    path.write_text(text, encoding="utf-8")
    rows = by_title(sides(path))
    for title in ("greatest load on the pad", "greatest factored load"):
        written, deep = rows[f"Pad under post 2: {title}"].cells
        assert written.case != deep.case
        assert "S" in deep.case.split()
        assert rows[f"Pad under post 2: {title}"].differs


BAD = {
    "no name": ('set = { "beam.member" = "x" }', "variant[1].name", "is needed"),
    "nothing set": ('name = "a"', "variant[1].set", "sets nothing"),
    "other key": ('name = "a"\nset = { "beam.member" = "x" }\nwhy = "b"', "variant[1].why", "is not a key"),
    "not a path": ('name = "a"\nset = { "beam member" = "x" }', "variant[1].set.beam member", "is not a key path"),
    "no such": ('name = "a"\nset = { "post[9].held" = "free" }', "variant[1].set.post[9].held", "there is no post[9]"),
    "which one": ('name = "a"\nset = { "post.held" = "free" }', "variant[1].set.post.held", "is a list"),
    "unknown key": ('name = "a"\nset = { "beam.colour" = "red" }', "variant[1]: beam.colour", "is not a key"),
    "bad figure": ('name = "a"\nset = { "wall.clear_opening" = "wide" }', "variant[1]: wall.clear_opening", ""),
}


@pytest.mark.parametrize("case", BAD.values(), ids=BAD)
def test_a_bad_variant_is_told_with_its_key_path(case, tmp_path) -> None:
    """Each fault of a variant says in which variant and at which key, what is wrong, and what would do."""
    text, where, what = case
    written = PLAIN.read_text(encoding="utf-8").partition("[[variant]]")[0]
    path = tmp_path / "bad.toml"
    path.write_text(f"{written}\n[[variant]]\n{text}\n", encoding="utf-8")
    with pytest.raises(InputError) as caught:
        read_variants(path)
    fault = next(fault for fault in caught.value.faults if fault.where == where)
    assert what in fault.what
    assert fault.mend


def test_the_headroom_is_the_same_without_a_section_as_with_an_empty_one() -> None:
    """8 ft less 11-1/4 in of 2x12 and the register's two allowances of 3/4 in: 83-1/4 in, and said to be assumed."""
    text = PLAIN.read_text(encoding="utf-8")
    assert "[room]" not in text
    told = (text, f"{text}\n[room]\n", f'{text}\n[room]\nbeam_wrap = "5/8 in"\nfloor_added = "0 in"\n')
    cells = []
    for one in told:
        rows = [row for part in compared((Side("", (), study(parsed(one))),)) for row in part.rows]
        cells.append([next(row.cells[0] for row in rows if row.title == title) for title in HEADROOM])
    assert [float(clear.number) for clear, _ in cells] == [83.25, 83.25, 96 - 11.25 - 0.625]
    assumed = "finish 3/4 in assumed, new floor 3/4 in assumed"
    assert [finish for _, finish in cells] == [assumed, assumed, "finish 5/8 in, new floor 0 in"]


def test_options_have_the_headroom_of_compare_and_what_is_not_told() -> None:
    """Each beam of the list stands under the same finish as in a comparison; what nobody told of is not shown there."""
    found = options(read(PLAIN))
    assert found.ranked
    for one in (*found.ranked, *found.first):
        assert one.headroom == pytest.approx(96 - one.depth - 1.5)
    text = options_text(read(PLAIN), found)
    assert "less finish 3/4 in assumed, new floor 3/4 in assumed" in text
    assert text.count("NOT SHOWN  ") == 3  # roof, ceiling, wall above
