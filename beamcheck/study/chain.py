"""The whole chain on one page: take-down, beam, and for each post its seat, itself, its foot and what is below."""

from beamcheck import __version__
from beamcheck.catalogue.members import Kind, Member
from beamcheck.catalogue.reading import read_member
from beamcheck.checks import beam as beams
from beamcheck.checks.lines import Loaded, load_line
from beamcheck.checks.post import AxialCase, check_post
from beamcheck.standards import nds_2018 as nds
from beamcheck.standards import statics
from beamcheck.study.designs import axial_cases, beam_design, post_design, shortest_seat
from beamcheck.study.lateral import lateral_items
from beamcheck.study.layout import Layout, lay_out
from beamcheck.study.rest import beside
from beamcheck.study.stops import question
from beamcheck.study.takedown_sheet import takedown_sheet
from beamcheck.study.types import Link, Placed, Study, sheet
from beamcheck.study.yardsticks import yardsticks
from beamcheck.survey.model import Post, Survey
from beamcheck.takedown.carried import all_sources
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import EDITIONS, Source
from beamcheck.trace import Item, Missing, Note


def study(survey: Survey) -> Study:
    """The study of a survey: pure, so the same survey and version give the same tree.

    Raises InputError for members and stations that contradict each other or no table knows.
    """
    member = read_member(survey.beam.member, "beam.member")
    layout = lay_out(survey, member)
    rows, missing = _rows(survey, member, layout)
    links = [Link("takedown", "What comes down on the beam", takedown_sheet(survey, rows, missing, layout))]
    loaded = None
    if missing:
        links += _unshown(survey)
    else:
        loaded = _solve(survey, rows, layout)
        links += _checked(survey, member, layout, loaded)
    links += beside(survey, member, layout)
    links.append(Link("house", "The house around it", sheet("house", "The house around it", *_around(survey, member))))
    whole = sheet("study", survey.about.title, *(link.sheet for link in links))
    placed = tuple(
        Placed(number, float(station.to("in")), post)
        for number, (station, post) in enumerate(zip(layout.stations, layout.posts, strict=True), 1)
    )
    return Study(survey, __version__, whole, tuple(links), member, placed, loaded)


def _rows(survey: Survey, member: Member, layout: Layout) -> tuple[tuple[Source, ...], tuple[Missing, ...]]:
    rows, missing = all_sources(survey.carried, survey.site, layout.length)
    if member.density is None:
        return rows, missing
    weight = statics.self_weight(gamma=member.density, A=nds.area(b=member.b, d=member.d))
    return (*rows, Source("beam", "the beam itself", "D", w=weight)), missing


def _solve(survey: Survey, rows: tuple[Source, ...], layout: Layout) -> Loaded:
    present = frozenset(row.load_type for row in rows)
    return load_line(layout.line, layout.spans, rows, combinations(EDITIONS[survey.site.loads], present))


def _unshown(survey: Survey) -> list[Link]:
    need = "the take-down above is not complete, so nothing that rests on it can be shown"
    keys = [
        ("beam", "Beam"),
        *((post.where, f"Post {number}") for number, post in enumerate(survey.posts, 1)),
    ]
    return [Link(key, title, sheet(key, title, Missing(f"{key}.unshown", title, need))) for key, title in keys]


def _checked(survey: Survey, member: Member, layout: Layout, loaded: Loaded) -> list[Link]:
    design = beam_design(survey, member, layout, loaded)
    found = beams.check_beam(design)
    seats = tuple(item for item in found if _key(item).startswith("beam.bearing"))
    notes = tuple(Note(remark) for remark in member.remarks)
    parts = (*(item for item in found if item not in seats), yardsticks(design), *notes)
    links = [Link("beam", f"Beam: {member.text}", sheet("beam", f"Beam: {member.text}", *parts))]
    for number in range(len(survey.posts)):
        links += _post_links(survey, number, layout, loaded, seats)
    return links


def _post_links(
    survey: Survey, number: int, layout: Layout, loaded: Loaded, seats: tuple[Item, ...]
) -> list[Link]:
    post, member, key, name = (
        survey.posts[number],
        layout.posts[number],
        f"post[{number + 1}]",
        f"Post {number + 1}",
    )
    seat = [item for item in seats if _key(item) == f"beam.bearing[{number + 1}]"]
    shortest = shortest_seat(number, layout)
    cases = axial_cases(loaded, number)
    design = post_design(survey, number, layout, cases)
    found = check_post(design)
    foot = tuple(item for item in found if _key(item).endswith((".plate", ".end_grain")))
    body = tuple(item for item in found if item not in foot)
    notes = tuple(Note(text) for text in (*member.remarks, post.note) if text)
    return [
        Link(
            f"{key}.seat",
            f"Seat on post {number + 1}",
            sheet(f"{key}.seat", f"Seat of the beam on post {number + 1}", *seat, shortest),
        ),
        Link(key, f"{name}: {member.text}", sheet(key, f"{name}: {member.text}", *body, *notes)),
        Link(
            f"{key}.foot",
            f"Foot of post {number + 1}",
            sheet(f"{key}.foot", f"Foot of post {number + 1}", *foot),
        ),
        Link(
            f"{key}.below",
            f"Below post {number + 1}",
            sheet(f"{key}.below", f"Below post {number + 1}", *below(post, key, cases)),
        ),
    ]


def below(post: Post, key: str, cases: tuple[AxialCase, ...]) -> tuple[Item, ...]:
    """What the post comes down on: a stop with its question and the load, or not shown."""
    greatest = max(cases, key=lambda case: float(case.P.number))
    if post.stands_on == "unknown":
        need = "nobody has seen what is under this post; go below, or open the floor, and look"
        return greatest.P, Missing(f"{key}.below", "What the post stands on", need)
    return greatest.P, question(f"{key}.below", post.stands_on)


def _around(survey: Survey, member: Member) -> list[Item]:
    """The questions that every such study ends in."""
    keys = ["temporary"] if survey.temporary is None else []
    if any(item.kind in ("roof", "strut") for item in survey.carried):
        keys.append("unbalanced snow")
    if survey.beam.position == "flush":
        keys += ["hangers", "ties"]
    if member.plies > 1:
        keys.append("plies")
    if survey.beam.moisture == "wet" and member.kind is Kind.COMPOSITE:
        keys.append("wet composite")
    return [*lateral_items(survey), *(question(f"house.{key.replace(' ', '_')}", key) for key in keys)]


def _key(item: Item) -> str:
    return getattr(item, "key", "")
