"""A layer of a floor, ceiling, roof or wall as its owner names it, and what it weighs per square foot.

A layer is a name with one weight ("asphalt shingles"), a name with its thickness ("gypsum board 1/2 in"), framing by
size and spacing ("2x10 at 16 in Hem-Fir"), or anything with its weight ("sound mat 1.2 psf").
"""

import re
from functools import cache
from typing import NamedTuple

from beamcheck import tables, units
from beamcheck.catalogue.wording import NUMBER, nearest
from beamcheck.errors import Fault, InputError, TableError
from beamcheck.standards import statics
from beamcheck.tables import Row
from beamcheck.trace import Value, looked, taken

WALL = "wall above"
_WEIGHTS = ("asce7_16/dead_loads", "practice/dead_loads")
_DENSITIES, _NAMES = "practice/densities", "practice/layer_names"
_OF_WALLS = ("partition", "wall")
_PRODUCTS = ("LVL", "PSL", "LSL")
_LENGTH = rf"{NUMBER}\s*(?:in|ft|cm|mm|m|\"|')"
_LAST = re.compile(rf"(?P<what>\S.*?),?\s+(?P<size>{_LENGTH})\.?", re.IGNORECASE)
_FIRST = re.compile(rf"(?P<size>{_LENGTH})\.?\s+(?:of\s+)?(?P<what>\S.*)", re.IGNORECASE)
_STATED = re.compile(r"\S.*?\s+(?P<weight>[\d.]+\s*(?:psf|kPa))", re.IGNORECASE)
_FRAMING = re.compile(
    rf"(?P<full>full\s+|rough\s+)?(?P<b>{NUMBER})\s*[x×]\s*(?P<d>{NUMBER})(?:\s*in\b)?(?:\s+at\s+|\s*@\s*)"
    rf"(?P<spacing>{_LENGTH})(?:\s*o\.?c\.?|\s+on center)?(?:\s+(?P<species>\S.*))?",
    re.IGNORECASE,
)
_LONGEST = 100
_THICKEST, _WIDEST, _HEAVIEST = 36.0, 96.0, 500.0
_EXAMPLE = 'write it as "hardwood 7/8 in", "2x10 at 16 in Hem-Fir", "plaster on wood lath" or "sound mat 1.2 psf"'
_LISTED = "bearline tables layers"


class Layer(NamedTuple):
    """One layer: its weight per square foot, and the register's row where a species that is not told is assumed."""

    weight: Value
    assumed: Row | None = None


class Wording(NamedTuple):
    """A layer as written: ``where`` is its key path, ``kind`` that of the carried item."""

    text: str
    where: str
    kind: str

    def fault(self, what: str, mend: str) -> InputError:
        """The error that this wording is not what was meant."""
        return InputError([Fault(self.where, what, mend)])

    def written(self, name: str, text: str, most: float) -> Value:
        """A length of the wording. Raises InputError for nothing and for more than a layer can have."""
        try:
            inches = units.parse_length(text)
        except units.UnitFault as fault:
            raise self.fault(str(fault), fault.wanted) from None
        if not 0 < inches <= most:
            raise self.fault(f"{text} in {self.text[:60]!r}", f"lengths up to {most:g} in can be taken")
        return taken(name, inches, f"written in {self.where}", unit="in")


def read_layer(text: str, where: str, kind: str) -> Layer:
    """The layer that a few plain words name. Raises InputError, naming the nearest, for what no table has."""
    wording = Wording(" ".join(text.split()), where, kind)
    if len(wording.text) > _LONGEST or not wording.text.isprintable():
        raise wording.fault(f"{wording.text[:30]!r}... is too long for a layer, or does not print", _EXAMPLE)
    row = _row(wording.text)
    if row is not None and row.has("q") and not row.has("per"):
        layer = Layer(looked(_for_kind(wording, row), "q", "q_layer"))
    elif framing := _FRAMING.fullmatch(wording.text):
        layer = _framing(wording, framing)
    elif stated := _STATED.fullmatch(wording.text):
        layer = Layer(_stated(wording, stated["weight"]))
    else:
        layer = Layer(_by_thickness(wording))
    return layer._replace(weight=layer.weight.named(wording.text))


def named_layers() -> tuple[tuple[str, Row], ...]:
    """Every name of a layer in the tables, with its row, in the order of the tables; short names last."""
    whole = ((row.text(row.table.key[0]), row) for row in _rows())
    short = (row.text("alias") for row in tables.load(_NAMES).rows)
    return (*whole, *((name, _by_name()[_plain(name)]) for name in short))


def _rows() -> tuple[Row, ...]:
    return tuple(row for name in (*_WEIGHTS, _DENSITIES) for row in tables.load(name).rows)


@cache
def _by_name() -> dict[str, Row]:
    """Rows by plain name and by short name, the standard before practice and the weights before the densities."""
    found: dict[str, Row] = {}
    for row in _rows():
        found.setdefault(_plain(row.text(row.table.key[0])), row)
    for short in tables.load(_NAMES).rows:
        found.setdefault(_plain(short.text("alias")), found[_plain(short.text("item"))])
    return found


def _row(name: str) -> Row | None:
    return _by_name().get(_plain(name))


def _plain(name: str) -> str:
    return " ".join(name.casefold().split())


def _for_kind(wording: Wording, row: Row) -> Row:
    """The row, if it weighs by the area that the item has: walls weigh by their face."""
    if row.written_under("group") in _OF_WALLS and wording.kind != WALL:
        what = f"{row.label!r} weighs by the face of a wall, not by the area of a {wording.kind or 'floor'}"
        raise wording.fault(what, "describe the wall as a carried item of kind 'wall above'")
    return row


def _by_thickness(wording: Wording) -> Value:
    """A layer whose weight goes by its thickness, the thickness behind its name or before it."""
    match = _LAST.fullmatch(wording.text) or _FIRST.fullmatch(wording.text)
    what = match["what"] if match else wording.text
    row = _row(what)
    if row is None:
        names = [name for name, _ in named_layers()]
        mend = nearest(what, names, example=_EXAMPLE, listed=_LISTED)
        raise wording.fault(f"{wording.text[:60]!r} is not a layer of the tables", mend)
    if match is None:
        mend = f"write its thickness behind it, for example {f'{what} 1/2 in'!r}"
        raise wording.fault(f"{wording.text[:60]!r} weighs by its thickness", mend)
    if row.has("q") and not row.has("per"):
        mend = f"write it as {what!r}, or with its own weight: {f'{what} 5 psf'!r}"
        raise wording.fault(f"{what[:60]!r} has one weight, whatever its thickness", mend)
    t = wording.written("t_layer", match["size"], _THICKEST)
    if row.has("density"):
        return statics.slab_weight(gamma=looked(row, "density", "gamma"), t_layer=t)
    return statics.sheet_weight(q_0=looked(row, "q", "q_0"), t_layer=t, t_0=looked(row, "per", "t_0"))


def _stated(wording: Wording, text: str) -> Value:
    """The weight that the owner wrote behind a name of his own."""
    try:
        weight = units.parse(text, units.Dimension.AREA_LOAD)
    except units.UnitFault as fault:
        raise wording.fault(str(fault), fault.wanted) from None
    if weight > _HEAVIEST:
        raise wording.fault(f"{text} for one layer", f"weights up to {_HEAVIEST:g} psf can be taken")
    return taken("q_layer", weight, f"written in {wording.where}", unit="psf")


def _framing(wording: Wording, match: re.Match[str]) -> Layer:
    o_j = wording.written("o_j", match["spacing"], _WIDEST)
    b, d = _sides(wording, match)
    if o_j.to("in") < b.to("in"):
        mend = "write the distance from the middle of one to the middle of the next"
        raise wording.fault(f"{match['spacing']} is less than the breadth", mend)
    density, assumed = _density(wording, match["species"] or "unknown")
    gamma = looked(density, "density", "gamma")
    return Layer(statics.framing_weight(gamma=gamma, b=b, d=d, o_j=o_j), assumed)


def _sides(wording: Wording, match: re.Match[str]) -> tuple[Value, Value]:
    """Breadth and depth: dressed by the table, the larger where sources disagree; else as measured."""
    if match["full"] or not (match["b"].isdecimal() and match["d"].isdecimal()):
        b, d = (f"{match[side]} in" for side in ("b", "d"))
        return wording.written("b", b, _THICKEST), wording.written("d", d, _THICKEST)
    size = f"{match['b']}x{match['d']}"
    try:
        row = tables.lookup("sections/dressed", size=size)
    except TableError:
        mend = nearest(size, tables.column("sections/dressed", "size"), example=_EXAMPLE)
        raise wording.fault(f"{size!r} is not a dressed size", mend) from None
    return looked(row, "b"), looked(row, "d")


def _density(wording: Wording, species: str) -> tuple[Row, Row | None]:
    """The row of a species or product of lumber; of the stand-in, with the register's row, where it is not known."""
    if species.casefold() == "unknown":
        assumed = tables.lookup("practice/defaults", item="framing_species")
        return tables.lookup(_DENSITIES, material=assumed.text("value")), assumed
    woods = [row for row in tables.load(_DENSITIES).rows if row.has("G") or row.text("material") in _PRODUCTS]
    by_name = {_plain(row.text("material")): row for row in woods}
    short = {_plain(row.text("alias")): _plain(row.text("species")) for row in tables.load("practice/aliases").rows}
    row = by_name.get(short.get(_plain(species), _plain(species)))
    if row is None:
        mend = nearest(species, [row.text("material") for row in woods], listed="bearline tables practice/densities")
        raise wording.fault(f"{species[:60]!r} is not a species of lumber", mend)
    return row, None
