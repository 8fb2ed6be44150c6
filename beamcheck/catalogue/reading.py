"""Read a member's trade text and gather its figures. Raises InputError, naming the nearest, for what no table has."""

from functools import lru_cache

from beamcheck.catalogue.glued import COMPOSITES, read_composite, read_glulam
from beamcheck.catalogue.members import Member
from beamcheck.catalogue.sawn import read_sawn
from beamcheck.catalogue.wording import worded

_STEEL = ("w", "p", "h")  # W shapes, pipe and HSS tube begin so, and no wood does


@lru_cache(maxsize=256)  # the reader of a survey asks first, its study and its variants ask again
def read_member(text: str, where: str) -> Member:
    """The member that a line of trade text names; ``where`` is its key path, for messages and origins."""
    if text.lstrip()[:1].lower() in _STEEL:
        from beamcheck.catalogue.steel import read_steel

        shape = read_steel(text, where)
        if shape is not None:
            return shape
    wording = worded(text, where)
    first = wording.grade.split()[0]
    if first.upper() in COMPOSITES:
        return read_composite(wording)
    return read_glulam(wording) if first.lower() == "glulam" else read_sawn(wording)
