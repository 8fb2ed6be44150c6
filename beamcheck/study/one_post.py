"""One post from figures typed on the command line: the same checks as in a whole study."""

from beamcheck import units
from beamcheck.catalogue.members import Member
from beamcheck.checks.post import AxialCase, PostDesign
from beamcheck.checks.wood import Conditions
from beamcheck.frozen import dataclass
from beamcheck.study.materials import as_post, check_any_post
from beamcheck.study.stops import plate_value
from beamcheck.takedown.combinations import combinations
from beamcheck.takedown.sources import EDITIONS, Combination
from beamcheck.trace import Note, Sheet, Solved, Value


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
        AxialCase(summed(combination, loads), combination.C_D, combination.name)
        for combination in combinations(EDITIONS[asked.edition], frozenset(loads))
    )
    plate = plate_value(asked.plate, "--plate")
    design = PostDesign("post", member, height, cases, asked.held, asked.fastening, asked.eccentricity, plate, asked.at)
    parts = (*check_any_post(design), *(Note(remark) for remark in member.remarks))
    return Sheet("post", f"Post: {member.text}, {units.format_length(float(height.number))} high", parts)


def summed(combination: Combination, loads: dict[str, Value]) -> Value:
    """The load of a post under a combination."""
    terms = [(name, g) for name, g in combination.factors.items() if name in loads]
    number = sum(float(g.number) * float(loads[name].number) for name, g in terms)
    inputs = tuple((f"g_{name}", g) for name, g in terms) + tuple((f"P_{name}", loads[name]) for name, _ in terms)
    return Value("P", number, "lb", Solved(f"sum of {combination.name}", inputs))
