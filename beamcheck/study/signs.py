"""Is the wall bearing? The signs with their weights, and a conclusion that never says that it is not."""

from collections.abc import Iterator

from beamcheck.frozen import names
from beamcheck.study.stops import question
from beamcheck.study.types import sheet
from beamcheck.survey.around import Signs
from beamcheck.survey.model import Carried, Word
from beamcheck.tables import Row, load
from beamcheck.trace import NOT_SEEN, Missing, Note, Schedule, Sheet

BEARING = "Treat it as bearing"
PARTITION = "The signs lean to a partition: have it confirmed"
BEARS, PARTS = "bearing", "partition"
TITLE = "Is the wall bearing?"
WEIGHTS = ("misleading", "weak", "moderate", "strong", "near-decisive")

_APART = (
    (
        "joists_end",
        "joists_need_it",
        "that joists end, lap or are spliced on the wall, and that they run over it unbroken",
    ),
    ("along_joists", "crosses_joists", "that the joists run along the wall, and that it crosses them"),
)
_AGAIN = "Both hold only if they change on the way: look again along the whole wall, and note where which is so"


def no_signs() -> Sheet:
    """What to look at where the survey has no section of signs: the weightiest signs of bearing."""
    rows = load("practice/signs").rows
    first = [row.text("sign") for row in rows if row.text("leans") == BEARS and _rank(row) >= WEIGHTS.index("strong")]
    need = (
        "the survey has no [signs]. Until someone has looked, treat it as bearing. Look along the whole wall, from the "
        f"cellar to the roof, and write what is there and what is not: {'; '.join(first)}"
    )
    missing = Missing("signs.looked", "Signs of bearing", need)
    return sheet("signs", TITLE, missing, question("signs.bearing", "bearing"))


def signs_sheet(signs: Signs, words: tuple[Word, ...], carried: tuple[Carried, ...] = ()) -> Sheet:
    """The weighed list, what it comes to, and the question for the engineer. words: how each answer is known."""
    rows = load("practice/signs").rows
    guessed = {word.where for word in words if word.trust in NOT_SEEN}
    answers = {
        name: "unknown" if f"signs.{name}" in guessed else getattr(signs, name) or "unknown"
        for name in names(Signs)
    }
    listed = tuple(
        (row.text("sign"), answers[row.text("key")], row.text("leans"), row.text("weight"), row.text("why"))
        for row in rows
    )
    heads = ("sign", "seen", "leans to", "weight", "why")
    return sheet(
        "signs",
        TITLE,
        Note(conclusion(rows, answers)),
        *(Note(text) for text in contradictions(answers, carried)),
        Schedule("signs.list", "Signs and what each is worth", heads, listed),
        question("signs.bearing", "bearing"),
    )


def conclusion(rows: tuple[Row, ...], answers: dict[str, str]) -> str:
    """Treat it as bearing, or the signs lean to a partition, with the reason.

    A near-decisive or strong sign of bearing decides, found or not looked for. Otherwise the weightiest sign of a
    partition must be found, be moderate at least, and outweigh the weightiest sign of bearing that is not ruled out.
    """
    against = [row for row in rows if row.text("leans") == BEARS and answers[row.text("key")] != "no"]
    towards = [row for row in rows if row.text("leans") == PARTS and answers[row.text("key")] == "yes"]
    weightiest = max(against, key=_rank, default=None)
    most, need = max(map(_rank, towards), default=0), _rank(weightiest) if weightiest is not None else 0
    if most >= WEIGHTS.index("moderate") and most > need and need <= WEIGHTS.index("moderate"):
        return f"{PARTITION}. A partition may still brace the house, and may have taken up load over the years."
    if weightiest is None:
        return f"{BEARING}: no sign of weight says that it is a partition."
    found = answers[weightiest.text("key")] == "yes"
    return f"{BEARING}: {'' if found else 'nobody knows yet whether '}{weightiest.text('sign')}."


def contradictions(answers: dict[str, str], carried: tuple[Carried, ...]) -> Iterator[str]:
    """Answers that cannot both hold of the same joists, one beside the other or beside what is carried."""
    for one, other, both in _APART:
        if answers[one] == answers[other] == "yes":
            yield f"signs.{one} and signs.{other} say {both}. {_AGAIN}"
    runs = {item.continuity for item in carried if item.kind in ("floor", "ceiling")}
    for sign, words, told in (
        ("joists_need_it", {"lapped", "butted"}, "that joists run over the wall unbroken"),
        ("joists_end", {"one piece"}, "that joists end, lap or are spliced on the wall"),
    ):
        if runs and runs <= words and answers[sign] == "yes":
            how = " or ".join(sorted(runs))
            yield f"signs.{sign} says {told}, but every joist under [[carried]] is {how}. {_AGAIN}"


def _rank(row: Row) -> int:
    return WEIGHTS.index(row.text("weight"))
