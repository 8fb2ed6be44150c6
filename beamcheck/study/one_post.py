"""One post from figures typed on the command line: the same checks as in a whole study."""

from beamcheck import units
from beamcheck.catalogue.members import Member
from beamcheck.checks.post import AxialCase, PostDesign
from beamcheck.checks.wood import Conditions
from beamcheck.frozen import dataclass
from beamcheck.study.brought import combined
from beamcheck.study.materials import as_post, check_any_post
from beamcheck.study.stops import plate_value
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import EDITIONS
from beamcheck.trace import Note, Sheet, Value


@dataclass(frozen=True, slots=True, eq=False)
class PostAsked:
    """Options of one post. eccentricity: None for the register's share; plate: the species under it."""

    edition: str
    held: str
    fastening: str
    eccentricity: Value | None
    plate: str
    at: Conditions


def post_sheet(member: Member, height: Value, loads: dict[str, Value], asked: PostAsked) -> Sheet:
    """A post with its checks under every combination of its loads by type. Raises InputError for no post."""
    as_post(member, "--member")
    cases = tuple(
        AxialCase(combined("P", combination.name, combination.factors, loads), combination.C_D, combination.name)
        for combination in combinations(EDITIONS[asked.edition], frozenset(loads))
    )
    plate = plate_value(asked.plate, "--plate")
    design = PostDesign("post", member, height, cases, asked.held, asked.fastening, asked.eccentricity, plate, asked.at)
    parts = (*check_any_post(design), *(Note(remark) for remark in member.remarks))
    return Sheet("post", f"Post: {member.text}, {units.format_length(float(height.number))} high", parts)
