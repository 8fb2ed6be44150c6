"""More load, a longer span, a poorer seat: none of them ever lowers a utilisation."""

from hypothesis import given, settings
from hypothesis import strategies as st

from beamcheck.catalogue.reading import read_member
from beamcheck.checks.wood import Conditions
from beamcheck.study.one_beam import BeamAsked, beam_sheet
from beamcheck.study.one_post import PostAsked, post_sheet
from beamcheck.study.options import given as option
from beamcheck.study.options import line_source, point_source
from beamcheck.trace import Check, items
from beamcheck.units import Dimension

MEMBERS = ("3-ply 2x12 Douglas Fir-Larch No.2", "2-ply 1-3/4x14 LVL", "3-1/2x11-7/8 glulam 24F-V4", "6x10 Hem-Fir No.1")
POSTS = ("6x6 Douglas Fir-Larch No.1", "3-ply 2x4 SPF No.2", "3-1/2x5-1/4 PSL", "4x4 Southern Pine No.2")
PROFILE = settings(derandomize=True, deadline=None, max_examples=60)


def beam_ratios(member: str, span: float, live: float, dead: float, point: float, unbraced: float) -> dict[str, float]:
    """Utilisation of every check of a simple beam by key."""
    sources = (
        line_source("--dead", f"{dead} plf", "D"),
        line_source("--live", f"{live} plf", "L"),
        point_source(f"{point} lb snow at 3 ft", 1),
    )
    asked = BeamAsked(
        "ASCE 7-16",
        option("--unbraced", f"{unbraced} in", Dimension.LENGTH),
        option("--bearing", "3 in", Dimension.LENGTH),
        "dropped",
        Conditions(),
    )
    sheet = beam_sheet(read_member(member, "x"), option("--span", f"{span} in", Dimension.LENGTH), sources, asked)
    return {item.key: float(item.ratio) for item in items(sheet) if isinstance(item, Check)}


figures = st.floats(1, 2000).map(lambda number: round(number, 1))


@PROFILE
@given(st.sampled_from(MEMBERS), st.integers(60, 300), figures, figures, figures, figures, st.sampled_from(range(4)))
def test_more_of_anything_never_lowers_a_beam_check(member, span, live, dead, point, more, which) -> None:
    """Raising one load of a beam, its span apart, raises or keeps every utilisation."""
    loads = [live, dead, point]
    before = beam_ratios(member, span, *loads, 48)
    if which < 3:
        loads[which] += more
        after = beam_ratios(member, span, *loads, 48)
    else:
        after = beam_ratios(member, span, *loads, 48 + more / 10)
    for key, ratio in before.items():
        assert after[key] >= ratio * (1 - 1e-12), key


@PROFILE
@given(st.sampled_from(MEMBERS), st.integers(60, 280), st.integers(1, 60), figures, figures)
def test_a_longer_span_never_lowers_bending_or_deflection(member, span, longer, live, dead) -> None:
    """Under uniform loads a longer span raises bending, shear, bearing and deflection."""
    before, after = (beam_ratios(member, length, live, dead, 0.1, 48) for length in (span, span + longer))
    for key, ratio in before.items():
        assert after[key] >= ratio * (1 - 1e-9), key


def post_ratios(member: str, height: float, live: float, e: float, held: str, fastening: str) -> dict[str, float]:
    """Utilisation of every check of a post by key."""
    loads = {name: option(f"--{name}", f"{P} lb", Dimension.FORCE) for name, P in (("D", 1000.0), ("L", live))}
    asked = PostAsked(
        "ASCE 7-16", held, fastening, option("--eccentricity", f"{e} in", Dimension.LENGTH), "Hem-Fir", Conditions()
    )
    sheet = post_sheet(read_member(member, "x"), option("--height", f"{height} in", Dimension.LENGTH), loads, asked)
    return {item.key: float(item.ratio) for item in items(sheet) if isinstance(item, Check)}


@PROFILE
@given(
    st.sampled_from(POSTS),
    st.integers(24, 160),
    st.integers(0, 60),
    figures,
    figures,
    st.floats(0, 1.5).map(lambda e: round(e, 2)),
    st.floats(0, 1).map(lambda e: round(e, 2)),
)
def test_more_of_anything_never_lowers_a_post_check(member, height, taller, live, more, e, further) -> None:
    """A taller post, more load and a load further off centre raise or keep every utilisation."""
    before = post_ratios(member, height, live, e, "free", "nailed")
    after = post_ratios(member, height + taller, live + more, e + further, "free", "nailed")
    for key, ratio in before.items():
        assert after[key] >= ratio * (1 - 1e-12), key


@PROFILE
@given(st.integers(24, 140), figures)
def test_a_wall_and_nails_never_hurt_a_stud_pack(height, live) -> None:
    """Held in a wall is no worse than free and nailed, and that no worse than free and not fastened."""
    packs = [
        max(post_ratios("3-ply 2x4 SPF No.2", height, live, 0.0, held, fastening).values())
        for held, fastening in (("in wall", "nailed"), ("free", "nailed"), ("free", "not fastened"))
    ]
    assert packs == sorted(packs)
