"""What the user gets: the study, its chain of links and its sheet."""

from beamcheck.catalogue.members import Member
from beamcheck.checks.lines import Loaded
from beamcheck.frozen import dataclass, replace
from beamcheck.survey.fields import field_at
from beamcheck.survey.model import Survey
from beamcheck.trace import Check, Item, Missing, Refer, Sheet, items

EDITION = "house.edition"
"""How the keys begin of stops that say of which document another edition is quoted than the survey names."""

WORST_FIRST = ("over", "not shown", "refer", "close", "within")
"""The words that a study is said in, the worst first; a link without any of them is counted and no more."""


@dataclass(frozen=True, slots=True, eq=False)
class Link:
    """One link of the chain from the roof to the soil, or beside it, and the items that say how hard it works.

    name: what it is called; no two links of a study are called the same. member: its plies, size and grade, of a link
    that is a member. in_chain: whether the house will rest on it for good; what governs a study is one of these links.
    always_asks: whether it ends in a question for the engineer whatever its figures are, so that the question says
    nothing of this house.
    """

    key: str
    name: str
    sheet: Sheet
    in_chain: bool = True
    member: str = ""
    always_asks: bool = False

    @property
    def title(self) -> str:
        """Its name and, of a member, what it is made of."""
        return f"{self.name}: {self.member}" if self.member else self.name

    @property
    def governing(self) -> Check | None:
        """The check with the greatest utilisation; None where the link has none."""
        checks = [item for item in items(self.sheet) if isinstance(item, Check)]
        return max(checks, key=lambda check: float(check.ratio)) if checks else None

    @property
    def words(self) -> tuple[str, ...]:
        """All that is to be said of it, worst first: what is over stays over, whatever else of it is not shown."""
        check = self.governing
        over = ("over",) if check is not None and check.word == "over" else ()
        if any(isinstance(item, Missing) for item in items(self.sheet)):
            return (*over, "not shown")
        if check is not None:
            return (check.word,)
        return ("refer",) if any(isinstance(item, Refer) for item in items(self.sheet)) else ("counted",)

    @property
    def word(self) -> str:
        """The worst of its words."""
        return self.words[0]

    @property
    def said(self) -> str:
        """How it stands, in words: over, and something not shown."""
        return f"{self.word}{self.besides}"

    @property
    def besides(self) -> str:
        """What is to be said after the worst of its words and its figure."""
        return "".join(f", and something {word}" for word in self.words[1:])


@dataclass(frozen=True, slots=True, eq=False)
class Placed:
    """A post in its place: station, member and bearing."""

    number: int
    station: float
    member: Member


@dataclass(frozen=True, slots=True, eq=False)
class Study:
    """The survey, its sheet, the links of its chain, and the solved line for drawing (None if it was not shown)."""

    survey: Survey
    version: str
    sheet: Sheet
    links: tuple[Link, ...]
    beam: Member
    posts: tuple[Placed, ...]
    loaded: Loaded | None

    @property
    def governing(self) -> Check | None:
        """The check with the greatest utilisation of the whole chain."""
        found = [link.governing for link in self.links if link.in_chain and link.governing is not None]
        return max(found, key=lambda check: float(check.ratio)) if found else None

    @property
    def over_beside(self) -> tuple[Link, ...]:
        """Links beside the chain that are over: the governing check is none of theirs, the study's word may be."""
        return tuple(link for link in self.links if not link.in_chain and link.word == "over")

    @property
    def by_word(self) -> dict[str, tuple[Link, ...]]:
        """The links that stand under each word, worst word first; one that is over and not shown stands under both."""
        said = [(link, link.words) for link in self.links]
        found = {word: tuple(link for link, words in said if word in words) for word in WORST_FIRST}
        return {word: links for word, links in found.items() if links}

    @property
    def settled(self) -> str:
        """The worst word of all links; a question in which every study ends is none about this house."""
        told = (word for word, links in self.by_word.items() if word != "refer" or not all(map(_always, links)))
        return next(told, "within")

    @property
    def mixed(self) -> tuple[Refer, ...]:
        """The stops that say of which document another edition is quoted than the survey names."""
        return tuple(stop for stop in self.stops if isinstance(stop, Refer) and stop.key.startswith(EDITION))

    @property
    def stops(self) -> tuple[Refer | Missing, ...]:
        """Every question for the engineer and every link that is not shown, in reading order."""
        return tuple(item for item in items(self.sheet) if isinstance(item, Refer | Missing))


def _always(link: Link) -> bool:
    return link.always_asks


def sheet(key: str, title: str, *parts: Item) -> Sheet:
    """A sheet of the given items; what is missing names the key of the survey that answers it."""
    return Sheet(key, title, tuple(_answered(part) if isinstance(part, Missing) else part for part in parts))


def _answered(missing: Missing) -> Missing:
    if missing.key.count(".") != 1 or field_at(missing.key) is None or missing.key in missing.need:
        return missing
    return replace(missing, need=f"{missing.need}; in the survey: {missing.key}")


def as_title(name: str) -> str:
    """A name at the head of a line: its first letter large, the rest as its owner writes it."""
    return f"{name[:1].upper()}{name[1:]}"


def of_member(key: str, name: str, member: Member, *parts: Item) -> Link:
    """The link that is a member itself, its sheet under the same title."""
    return Link(key, name, sheet(key, f"{name}: {member.text}", *parts), member=member.text)
