"""Whether the rules that a study quotes are of the editions that its survey names: if not, which, and a question."""

import re
from collections.abc import Iterable

from beamcheck.study.types import EDITION, Link
from beamcheck.survey.model import Survey
from beamcheck.tables import cited
from beamcheck.trace import Computed, Looked, Refer, Sheet, values

_HOUSE, _LOADS = "International Residential Code", "ASCE/SEI 7"
# a pattern stays text, which re compiles only for a survey that names a code
_NAMED = r"\b(?:IRC|International Residential Code)\D{0,3}(\d{4})|(\d{4})\D{0,3}(?:IRC|International Res)"


def editions(survey: Survey, links: Iterable[Link]) -> list[Refer]:
    """A stop for each document of which another edition is quoted than the survey names; none where none is named."""
    wanted = {_LOADS: (survey.site.loads, survey.site.loads.removeprefix("ASCE "))}
    if survey.about.code:
        named = re.search(_NAMED, survey.about.code)
        wanted[_HOUSE] = (survey.about.code, (named[1] or named[2]) if named else "")
    quoted = _quoted(links, frozenset(wanted))
    stops = []
    for document, (text, edition) in wanted.items():
        for other in sorted({edition for name, edition in quoted if name == document} - {edition}):
            key = f"{EDITION}_{'loads' if document == _LOADS else 'code'}"
            stops.append(_stop(key, text, cited(document, other), quoted[document, other]))
    return stops


def _stop(key: str, named: str, quoted: str, places: set[str]) -> Refer:
    why = f"The survey names {named}, but these rules are quoted from {quoted}: {'; '.join(sorted(places))}"
    return Refer(key, "Another edition than the one named", why, f"Does {named} say the same at these places?")


def _quoted(links: Iterable[Link], documents: frozenset[str]) -> dict[tuple[str, str], set[str]]:
    """The places of some documents that figures of the links rest on, by document and edition."""
    origins = [value.origin for value in values(Sheet("links", "", tuple(link.sheet for link in links)))]
    rows = [origin.row for origin in origins if isinstance(origin, Looked)]
    quoted = [(row.table.document, row.table.edition, row.place) for row in rows]
    for clause in {origin.clause for origin in origins if isinstance(origin, Computed)}:
        row = clause.row
        quoted.append((row.text("document"), row.text("edition"), row.text("place")))
    found: dict[tuple[str, str], set[str]] = {}
    for document, edition, place in quoted:
        if document in documents:
            found.setdefault((document, edition), set()).add(place)
    return found
