"""Is the wall bearing? The signs with their weights, and a conclusion that never says that it is not."""

from beamcheck.frozen import names
from beamcheck.study.stops import question
from beamcheck.study.types import sheet
from beamcheck.survey.around import Signs
from beamcheck.survey.model import Word
from beamcheck.tables import Row, load
from beamcheck.trace import NOT_SEEN, Note, Schedule, Sheet

BEARING = "Treat it as bearing"
PARTITION = "The signs lean to a partition: have it confirmed"
BEARS, PARTS = "bearing", "partition"
WEIGHTS = ("misleading", "weak", "moderate", "strong", "near-decisive")


def signs_sheet(signs: Signs, words: tuple[Word, ...]) -> Sheet:
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
        "Is the wall bearing?",
        Note(conclusion(rows, answers)),
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


def _rank(row: Row) -> int:
    return WEIGHTS.index(row.text("weight"))
