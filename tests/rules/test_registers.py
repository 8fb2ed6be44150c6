"""The registers that a summary lists are walks over the study's tree: nothing is left out, nothing is twice."""

import re
from importlib.resources import files
from pathlib import Path

import pytest

from beamcheck.frozen import replace
from beamcheck.study import registers, shapes, working
from beamcheck.study.chain import study
from beamcheck.study.idle import words_that_matter
from beamcheck.survey.reader import read_text
from beamcheck.takedown.sources import LOAD_WORDS
from beamcheck.trace import Check, Computed, Given, Looked, Missing, Sheet, Taken, ancestry, items, values
from beamcheck.views.sheet import sheet_html
from beamcheck.views.terminal import study_text

SURVEYS = {path.stem: path.read_bytes() for path in sorted((Path(__file__).parent / "sheets").glob("*.toml"))}
SURVEYS["demo"] = (files("beamcheck.survey") / "demo.toml").read_bytes()


@pytest.fixture(scope="module", params=sorted(SURVEYS))
def made(request):
    """Each survey, studied."""
    return study(read_text(SURVEYS[request.param]))


def test_every_given_figure_is_known_or_registered(made) -> None:
    """A figure of the survey is measured, or it stands in the register of assumptions or of what was told."""
    listed = {entry.where for entry in (*registers.assumed(made), *registers.told(made))}
    for value in values(made.sheet):
        if isinstance(value.origin, Given) and value.origin.trust != "measured":
            assert value.origin.where in listed


def test_assumed_words_are_registered_with_what_would_change_them(made) -> None:
    """Each word that the register of defaults put in is listed with its lean and with what would change it."""
    listed = {entry.where: entry for entry in registers.assumed(made)}
    words = words_that_matter(made)
    defaults = [word for word in words if word.trust == "assumed" and word.lean]
    assert defaults
    for word in defaults:
        assert (listed[word.where].lean, listed[word.where].flips) == (word.lean, word.flips)


def test_nothing_stands_in_for_what_is_not_there() -> None:
    """Plies that may be loose are assumed of a post of plies, never of one in one piece: a solid 6x6, a pipe."""
    whole = study(read_text(SURVEYS["demo"]))
    assert "post[2].fastening" in {word.where for word in whole.survey.words}
    assert "post[2].fastening" not in {entry.where for entry in registers.assumed(whole)}
    loose = study(read_text(SURVEYS["demo"].replace(b'fastening = "nailed"\n', b"", 1)))
    assert "post[1].fastening" in {entry.where for entry in registers.assumed(loose)}


def test_a_share_that_the_seat_overrules_is_no_assumption() -> None:
    """The seat of post 1 sets 7/8 in, so a sixth of its side stands in for nothing; of a 6x6 there it does."""
    where = "post[1].eccentricity"
    assert where not in {entry.where for entry in registers.assumed(study(read_text(SURVEYS["demo"])))}
    broad = SURVEYS["demo"].replace(b"3-ply 2x4 Douglas Fir-Larch No.2", b"6x6 Douglas Fir-Larch No.1", 1)
    assert where in {entry.where for entry in registers.assumed(study(read_text(broad)))}


def test_no_entry_is_twice(made) -> None:
    """Each register lists a key of the survey once, and what was measured in none of them but the field sheet."""
    for register in (registers.assumed, registers.told, registers.to_measure):
        wheres = [entry.where for entry in register(made)]
        assert len(wheres) == len(set(wheres))
    assert {"wall.clear_opening", "wall.ceiling_height"} <= {entry.where for entry in registers.to_measure(made)}


def test_figures_from_memory_are_all_of_them(made) -> None:
    """The list of figures from memory holds every such table cell that the study rests on, and no other."""
    cells = {
        (value.origin.row.table.name, value.origin.row.line, value.origin.column)
        for value in values(made.sheet)
        if isinstance(value.origin, Looked) and value.origin.row.seen == "memory"
    }
    listed = [value.origin for value in registers.from_memory(made)]
    assert {(origin.row.table.name, origin.row.line, origin.column) for origin in listed} == cells
    assert len(listed) == len(cells)


def test_factors_of_one_have_reasons(made) -> None:
    """Every factor that a rule sets to 1.0 is listed once with its reason; a limit of 1.0 is not one of them."""
    listed = {(value.name, value.origin.reason) for value in registers.ones(made)}
    assert len(listed) == len(registers.ones(made))
    for value in values(made.sheet):
        if isinstance(value.origin, Taken) and value.unit == "1" and value.number == 1:
            assert ((value.name, value.origin.reason) in listed) is not value.name.endswith("_lim")
            assert value.origin.reason


def test_tables_used_are_those_of_the_figures(made) -> None:
    """Every table that a figure comes from is named among the sources."""
    names = [table.name for table in registers.tables_used(made)]
    assert len(names) == len(set(names))
    assert {value.origin.row.table.name for value in values(made.sheet) if isinstance(value.origin, Looked)} <= set(
        names
    )


def test_steps_run_from_inputs_to_results(made) -> None:
    """A clause line comes after the lines that its inputs come from, and the last line makes demand or limit."""
    for check in (item for item in items(made.sheet) if isinstance(item, Check)):
        steps = working.steps((check.demand, check.limit))
        place = {working.identity(value): number for number, value in enumerate(steps)}
        assert len(place) == len(steps)
        for number, value in enumerate(steps):
            for _, parent in value.inputs:
                if isinstance(parent.origin, Computed):
                    assert place[working.identity(parent)] < number
        for root in (check.demand, check.limit):
            if isinstance(root.origin, Computed):
                assert working.identity(root) in place


def test_steps_and_leaves_hold_every_input(made) -> None:
    """Each input of a printed line is itself a printed line or stands among the figures that go in."""
    for check in (item for item in items(made.sheet) if isinstance(item, Check)):
        roots = (check.demand, check.limit)
        lines = {working.identity(value) for value in working.steps(roots)}
        goes_in = {(leaf.name, *working.identity(leaf.value)) for leaf in working.leaves(roots)}
        for value in working.steps(roots):
            for name, parent in value.inputs:
                key = working.identity(parent)
                assert key in lines or (name, *key) in goes_in


def test_what_matters_most_begins_with_what_is_missing(made) -> None:
    """Of the unknowns shown first, missing links come before assumptions, each kind once, three at most."""
    found = registers.foremost(made)
    assert 0 < len(found) <= 3
    kinds: dict[str, list[Missing]] = {}
    for stop in (stop for stop in made.stops if isinstance(stop, Missing)):
        kinds.setdefault("".join(letter for letter in stop.key if not letter.isdigit()), []).append(stop)
    first = list(kinds.values())[:3]
    assert [unknown.settle for unknown in found][: len(first)] == [alike[0].need for alike in first]
    assert [unknown.stands == "not shown" for unknown in found] == [True] * len(first) + [False] * (
        len(found) - len(first)
    )
    for unknown, alike in zip(found, first, strict=False):
        assert alike[0].title in unknown.name
        assert len(alike) < 3 or f"{len(alike) - 1} more" in unknown.name


def test_the_governing_members_assumptions_come_next(made) -> None:
    """Behind the missing links stand the assumptions about the member that governs and what its check rests on."""
    governing = registers.core(made).governing
    if governing is None:
        assert made.loaded is None
        return
    found = [unknown for unknown in registers.foremost(made, 1000) if unknown.stands != "not shown"]
    rests_on = {
        value.origin.where
        for root in (governing.demand, governing.limit)
        for value in ancestry(root)
        if isinstance(value.origin, Given)
    }
    member = governing.key.partition(".")[0]
    near = [
        entry.where.startswith(f"{member}.") or entry.where in rests_on
        for unknown in found
        for entry in registers.assumed(made)
        if entry.name == unknown.name
    ]
    assert near == sorted(near, reverse=True)
    assert any(near)


def test_core_and_around_are_the_whole(made) -> None:
    """What is printed in the summary and what in the annex make up the study, each link once, in order."""
    inner, outer = registers.core(made).links, registers.around(made).links
    assert sorted(made.links.index(link) for link in (*inner, *outer)) == list(range(len(made.links)))
    assert {link.key.partition("[")[0].partition(".")[0] for link in inner} >= {"takedown", "beam", "post"}
    assert [made.links.index(link) for link in inner] == sorted(made.links.index(link) for link in inner)


def test_drawn_curves_are_those_of_the_checks(made) -> None:
    """The moment diagram shows the case that the bending check names, with the check's own moment as its peak."""
    drawn = {shape.name: shape for shape in shapes.moment_shapes(made)}
    checks = {item.key: item for item in items(made.sheet) if isinstance(item, Check)}
    assert bool(drawn) is (made.loaded is not None)
    for name, shape in drawn.items():
        check = checks[f"beam.bending_{name}"]
        moments = [value.number for value in ancestry(check.demand) if value.name == "M"]
        assert moments == [abs(shape.peak)]
        assert abs(shape.response.moment(shape.station) - shape.peak) <= 1e-6 * abs(shape.peak)
        assert check.when.startswith(shape.case)


def test_a_case_that_no_check_names_is_not_drawn(made) -> None:
    """Where the check names a case that the line has not got, no other case is drawn in its place."""
    if made.loaded is None:
        return
    check = next(item for item in items(made.sheet) if isinstance(item, Check) and item.key == "beam.bending_sagging")
    stray = replace(made, sheet=Sheet("study", "", (replace(check, when="no such case"),)))
    with pytest.raises(LookupError, match=r"beam\.bending_sagging"):
        shapes.moment_shapes(stray)
    with pytest.raises(LookupError, match="movement table"):
        shapes.deflection_shapes(stray)


def test_reactions_balance_the_loads(made) -> None:
    """Under dead load, which comes in one pattern only, the printed reactions add up to the dead load."""
    found = shapes.reactions(made)
    if made.loaded is None:
        assert found == ()
        return
    line = made.loaded.line
    total = 0.0
    for source in (source for source in made.loaded.sources if source.load_type == "D"):
        start = float(source.start.to("in")) if source.start is not None else line.start
        end = float(source.end.to("in")) if source.end is not None else line.end
        total += float(source.P.to("lb")) if source.P is not None else float(source.w.to("lb/in")) * (end - start)
    assert sum(dict(one.by_type)["D"] for one in found) == pytest.approx(total, rel=1e-9)


def test_deflection_figures_are_those_of_the_movement_table(made) -> None:
    """Each deflected shape carries the figure of the movement table for its own load type, before creep."""
    found = shapes.deflection_shapes(made)
    acting = {source.load_type for source in made.loaded.sources} if made.loaded is not None else set()
    assert [shape.name for shape in found][:1] == (["dead load"] if acting else [])
    passing = {f"{LOAD_WORDS[name]} load" for name in acting - {"D"}}
    assert len(found) == bool(acting) + bool(passing)
    assert {shape.name for shape in found[1:]} <= passing
    for shape in found:
        stiffness = {value.name: value.number for value in ancestry(shape.figure) if value.name in ("E_adj", "I")}
        bending = shape.peak / (stiffness["E_adj"] * stiffness["I"])
        parts = {value.name: value.number for value in ancestry(shape.figure) if value.name in ("delta_b", "delta_s")}
        assert parts["delta_b"] == pytest.approx(bending, rel=1e-9)
        assert shape.figure.number == pytest.approx(bending + parts.get("delta_s", 0.0), rel=1e-9)


HOUSE = (Path(__file__).parent / "sheets" / "three_posts.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("code", "loads", "named"),
    [
        ("IRC 2021", "ASCE 7-16", []),
        ("2021 IRC with local changes", "ASCE 7-16", []),
        ("", "ASCE 7-16", []),
        ("IRC 2018", "ASCE 7-16", ["house.edition_code"]),
        ("the code of the town", "ASCE 7-16", ["house.edition_code"]),
        ("IRC 2021", "ASCE 7-22", ["house.edition_loads"]),
        ("IRC 2015", "ASCE 7-22", ["house.edition_code", "house.edition_loads"]),
    ],
)
def test_another_edition_than_the_named_is_told_at_the_head(code: str, loads: str, named: list[str]) -> None:
    """What is quoted of an edition that the survey does not name stands under the result, with its places."""
    text = re.sub(r'code = "[^"]*"', f'code = "{code}"', HOUSE)
    made = study(read_text(re.sub(r'loads = "[^"]*"', f'loads = "{loads}"', text).encode()))
    assert sorted(stop.key for stop in made.mixed) == named
    head = " ".join(study_text(made).partition("The chain from the roof")[0].split())
    front = " ".join(sheet_html(made).partition("The chain, from roof")[0].split())
    for stop in made.mixed:
        assert stop.why.replace("! ", "") in head.replace("! ", "")
        assert stop.why in front
        assert "2021: " in stop.why if stop.key.endswith("code") else "7-16: 4.8.2" in stop.why
