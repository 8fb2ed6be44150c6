"""Stops from the table of questions, what holds the ends of a post, and the plate that stands in under it."""

from collections.abc import Iterator

from beamcheck.catalogue.grade_names import is_species
from beamcheck.errors import Fault, InputError
from beamcheck.survey.model import Post
from beamcheck.tables import Row, load, lookup
from beamcheck.trace import Refer, Value, looked


def question(key: str, which: str) -> Refer:
    """A stop from the table of questions."""
    row = lookup("practice/questions", key=which)
    return Refer(key, row.text("title"), row.text("why"), row.text("ask"))


def joints(post: Post) -> tuple[Row, ...]:
    """What the seat and the foot of a post need to be held by, as far as it is known what they are."""
    known = (joint for joint in (post.seat, post.stands_on) if joint not in ("", "unknown"))
    return tuple(lookup("practice/joints", joint=joint) for joint in known)


def plate_species() -> tuple[str, ...]:
    """Every species that a plate may be of."""
    return tuple(dict.fromkeys(row.text("species") for row in _graded()))


def _graded() -> Iterator[Row]:
    yield from (row for table in ("nds_2018/sawn_4a", "nds_2018/sawn_4b") for row in load(table).rows)


def plate_value(species: str, where: str) -> Value:
    """Across the grain of a plate's species: the lowest of its grades. Raises InputError for no species."""
    named = {name for name in plate_species() if is_species(species, name)}
    rows = [row for row in _graded() if row.text("species") in named]
    if not rows:
        mend = "list the species with  bearline tables nds_2018/sawn_4a"
        raise InputError([Fault(where, f"{species!r} is not a species of the tables", mend)])
    return looked(min(rows, key=lambda row: row.number("F_c_perp")), "F_c_perp")
