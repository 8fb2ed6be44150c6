"""Words of a survey that a study rests on: none that stands in for what is not there, or that the seat overrules."""

from collections.abc import Iterator

from beamcheck.catalogue.reading import read_member
from beamcheck.study.types import Study
from beamcheck.survey.model import Post, Word
from beamcheck.trace import NOT_SEEN, Check, ancestry, items

_SHARE = "r_e"


def words_that_matter(study: Study) -> tuple[Word, ...]:
    """The words of a survey without the stand-ins on which nothing of its study rests."""
    idle = set(_idle(study))
    return tuple(word for word in study.survey.words if word.where not in idle or word.trust not in NOT_SEEN)


def words_overruled(study: Study) -> tuple[Word, ...]:
    """Shares that stand in for how far off its post the beam lies, where its seat puts it farther off."""
    places = set(_by_seat(study))
    return tuple(word for word in study.survey.words if word.where in places and word.trust in NOT_SEEN)


def _idle(study: Study) -> Iterator[str]:
    """Joints of a post in one piece, the pier on a pad without one, the share of an eccentricity that a seat sets."""
    yield from _by_seat(study)
    for post in study.survey.posts:
        if read_member(post.member, f"{post.where}.member").plies == 1:
            yield f"{post.where}.fastening"
    for pad in study.survey.pads:
        if study.survey.post_on(pad) is not None:
            yield f"{pad.where}.pier_material"


def _by_seat(study: Study) -> Iterator[str]:
    """The eccentricities that a seat sets."""
    for post in study.survey.posts:
        if post.held == "in wall" and _overruled(study, post):
            yield f"{post.where}.eccentricity"


def _overruled(study: Study, post: Post) -> bool:
    """Whether the check of a post off its centre, about the one axis that a wall leaves it, goes by no share."""
    found = [item for item in items(study.sheet) if isinstance(item, Check) and item.key == f"{post.where}.eccentric"]
    return bool(found) and all(value.name != _SHARE for check in found for value in ancestry(check.demand))
