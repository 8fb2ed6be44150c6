"""How the plies of a free-standing built-up post are nailed or bolted so that they count as one (NDS 15.3)."""

from collections.abc import Iterator

from beamcheck.checks.post import PostDesign
from beamcheck.standards import nds_2018 as nds
from beamcheck.tables import Row, load, lookup
from beamcheck.trace import Check, Item, Missing, Schedule, Value, looked, taken

_HEADS = ("rule", "at least", "at most")


def needs_fastening(design: PostDesign) -> bool:
    """Whether the post counts on the fasteners between its plies: built-up, fastened, and free to buckle sideways."""
    return design.member.plies > 1 and design.held == "free" and design.fastening != "not fastened"


def fits(fastening: str, fastener: str) -> bool:
    """Whether a fastener is of the kind that joins the plies."""
    kind = lookup("nds_2018/column_fasteners", fastener=fastener).text("kind")
    return fastening == ("nailed" if kind == "nail" else "bolted")


def fastening(design: PostDesign, fastener: str) -> tuple[Item, ...]:
    """Schedule of distances for the fastener, and the check that a nail is long enough; not shown without one."""
    key = f"{design.key}.fastening"
    if not fastener:
        need = f"name {design.key}.fastener, the nail or bolt between the plies: the post counts on it"
        return (Missing(key, "Fasteners between the plies", need),)
    row = lookup("nds_2018/column_fasteners", fastener=fastener)
    kind = row.text("kind")  # "bolt, softwood" goes by the rules of that and by those of any bolt
    alike = (kind, kind.partition(",")[0])
    rules = [rule for rule in load("nds_2018/built_up_columns").rows if rule.text("fastener") in alike]
    D = looked(row, "D")
    rows = tuple(_distances(design, rule, D) for rule in rules if rule.text("rule") != "penetration into last ply")
    title = f"Fastening of {design.member.plies} plies with {fastener}"
    table = Schedule(key, title, _HEADS, (("diameter", D, ""), *rows))
    return (*_long_enough(design, row, rules), table)


def _long_enough(design: PostDesign, row: Row, rules: list[Row]) -> Iterator[Check]:
    """The nail goes through all plies but the last, and far enough into that."""
    for rule in rules:
        if rule.text("rule") == "penetration into last ply":
            n = taken("n", float(design.member.plies), "plies of the post")
            k_last = looked(rule, "lower", "k_last")
            needed = nds.nail_length_needed(n=n, k_last=k_last, b_ply=design.member.b_ply)
            title = "Length of the nail through the plies"
            yield Check(f"{design.key}.nail", title, needed, looked(row, "length", "l_nail"))


def _distances(design: PostDesign, rule: Row, D: Value) -> tuple[str | Value, ...]:
    return rule.text("rule"), _distance(design, rule, "lower", D), _distance(design, rule, "upper", D)


def _distance(design: PostDesign, rule: Row, end: str, D: Value) -> str | Value:
    match rule.text(f"{end}_unit"):
        case "D":
            return nds.distance_by_diameter(k_D=looked(rule, end, "k_D"), D=D)
        case "t_min":
            return nds.distance_by_ply(k_ply=looked(rule, end, "k_ply"), b_ply=design.member.b_ply)
    return ""
