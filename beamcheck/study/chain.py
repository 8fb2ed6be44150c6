"""The whole chain on one page: take-down, beam, and for each post its seat, itself, its foot and what is below."""

from functools import partial
from typing import NamedTuple

from beamcheck import __version__
from beamcheck.catalogue.members import Kind, Member
from beamcheck.catalogue.reading import read_member
from beamcheck.checks.lines import Loaded, load_line
from beamcheck.errors import InputError, all_read
from beamcheck.study.agree import agree, notches, plies_asked, splices
from beamcheck.study.below import below_links, unshown_below
from beamcheck.study.designs import beam_design
from beamcheck.study.editions import editions
from beamcheck.study.ground import Ground, ground
from beamcheck.study.lateral import lateral_items
from beamcheck.study.layout import Layout, lay_out
from beamcheck.study.materials import as_beam, check_any_beam, own_weight
from beamcheck.study.posts import Above, post_links
from beamcheck.study.rest import beside
from beamcheck.study.seat_sheet import over_post
from beamcheck.study.stops import question
from beamcheck.study.takedown_sheet import takedown_sheet
from beamcheck.study.types import Link, Placed, Study, of_member, sheet
from beamcheck.study.yardsticks import yardsticks
from beamcheck.survey.model import Survey
from beamcheck.takedown.carried import all_sources
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import EDITIONS, Source
from beamcheck.trace import Item, Missing, Note

_FROM_ABOVE = (
    "The fasteners between the plies are not checked: what a dropped beam carries comes from above, on all plies alike."
)


class _Worked(NamedTuple):
    """The links of a survey, the beam and its line, solved where its loads are known."""

    links: tuple[Link, ...]
    member: Member
    layout: Layout
    loaded: Loaded | None


def study(survey: Survey) -> Study:
    """The study of a survey: pure, so the same survey and version give the same tree.

    Raises InputError for members and stations that contradict each other or no table knows.
    """
    worked = _worked(survey)
    links = (*worked.links, _house(survey, worked.member, worked.links))
    whole = sheet("study", survey.about.title, *(link.sheet for link in links))
    placed = tuple(
        Placed(number, float(station.to("in")), post)
        for number, (station, post) in enumerate(zip(worked.layout.stations, worked.layout.posts, strict=True), 1)
    )
    return Study(survey, __version__, whole, links, worked.member, placed, worked.loaded)


def links_but_house(survey: Survey) -> tuple[Link, ...]:
    """The links of a study but for the questions about the house around it. Raises as ``study`` does."""
    return _worked(survey).links


def _worked(survey: Survey) -> _Worked:
    member = as_beam(read_member(survey.beam.member, "beam.member"), "beam.member")
    try:
        layout, land = lay_out(survey, member), ground(survey)
        agree(survey)
    except InputError:  # of several things that contradict each other all are told
        all_read(partial(lay_out, survey, member), partial(ground, survey), partial(agree, survey))
        raise
    rows, missing = _rows(survey, member, layout)
    links = [Link("takedown", "What comes down on the beam", takedown_sheet(survey, rows, missing, layout.reach))]
    loaded = None
    if missing:
        links += [*_unshown(survey), *unshown_below(land, survey.pads)]
    else:
        loaded = _solve(survey, rows, layout)
        links += _checked(survey, member, layout, loaded, land)
    if survey.beam.position == "flush":
        from beamcheck.study.flush import flush_link

        links.append(flush_link(survey, member, layout))
    links += beside(survey, member, layout)
    if survey.about.second_method == "LRFD" and not missing:
        from beamcheck.study.lrfd import lrfd_link

        links.append(lrfd_link(survey, member, layout, rows))
    return _Worked(tuple(links), member, layout, loaded)


def _house(survey: Survey, member: Member, links: tuple[Link, ...]) -> Link:
    parts = sheet("house", "The house around it", *editions(survey, links), *_around(survey, member))
    return Link("house", parts.title, parts, in_chain=False, always_asks=True)


def _rows(survey: Survey, member: Member, layout: Layout) -> tuple[tuple[Source, ...], tuple[Missing, ...]]:
    rows, missing = all_sources(survey.carried, survey.site, layout.reach)
    return (*rows, Source("beam", "the beam itself", "D", w=own_weight(member))), missing


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


def _checked(survey: Survey, member: Member, layout: Layout, loaded: Loaded, land: Ground) -> list[Link]:
    design = beam_design(survey, member, layout, loaded)
    found = check_any_beam(design)
    seated = [item for item in found if any(over_post(item, number) for number in range(len(survey.posts)))]
    notes = tuple(Note(remark) for remark in member.remarks)
    own = (item for item in found if item not in seated)
    parts = (*own, *yardsticks(design), *splices(survey, layout), *notches(survey, member), *notes)
    links = [of_member("beam", "Beam", member, *parts)]
    above = Above(survey, member, layout, loaded)
    for number in range(len(survey.posts)):
        links += post_links(above, number, tuple(seated), land)
    return [*links, *below_links(above, land)]


def _around(survey: Survey, member: Member) -> list[Item]:
    """The questions that every such study ends in."""
    keys = ["temporary"] if survey.temporary is None else []
    if any(item.kind in ("roof", "strut") for item in survey.carried):
        keys.append("unbalanced snow")
    asked, dropped = plies_asked(survey), survey.beam.position == "dropped"
    if member.plies > 1 and (dropped or not asked):
        keys.append("plies")
    if survey.beam.moisture == "wet" and member.kind is Kind.COMPOSITE:
        keys.append("wet composite")
    told = [Note(_FROM_ABOVE)] if dropped and asked else []
    return [*lateral_items(survey), *(question(f"house.{key.replace(' ', '_')}", key) for key in keys), *told]

