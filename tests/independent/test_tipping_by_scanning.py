"""Everything that tips a link is named: found a second way, by writing other figures and words into the file.

A plain grid over the range of each figure, and every other word, each read and studied anew; no lanes, no solving.
"""

import copy
import csv
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from beamcheck.errors import BeamcheckError
from beamcheck.explore.margins import margins, tipping
from beamcheck.explore.questions import questions
from beamcheck.study.chain import study
from beamcheck.survey.fields import SECTIONS
from beamcheck.survey.reader import from_document

HERE = Path(__file__).parent
TABLES = HERE.parents[1] / "tables"
DEMO = HERE.parents[1] / "beamcheck" / "survey" / "demo.toml"
SHARES = (-1.0, -0.75, -0.5, -0.25, 0.25, 0.5, 0.75, 1.0)  # of the way from the figure to an end of its range
LEFT_OUT = ("variant", "room", "neighbour", "hole", "heavy", "other_wall", "signs", "girder", "pad", "options")
TINY = 1e-4  # a utilisation so near 1.00 tips by rounding of what is written

SMALL = """
[study]
title = "A small house"
[site]
loads = "ASCE 7-16"
soil_bearing = { value = "1500 psf", trust = "assumed" }
[wall]
clear_opening = { value = "10 ft", trust = "measured" }
ceiling_height = { value = "8 ft", trust = "assumed", low = "7 ft 6 in", high = "9 ft 6 in" }
[[carried]]
name = "floor"
kind = "floor"
span_a = { value = "12 ft", trust = "assumed", low = "9 ft", high = "15 ft" }
span_b = { value = "11 ft", trust = "measured" }
continuity = "lapped"
use = "sleeping rooms"
dead = { value = "14 psf", trust = "assumed", low = "8 psf", high = "30 psf" }
[beam]
member = "3-ply 2x12 Douglas Fir-Larch No.2"
position = "dropped"
top_edge = "held"
moisture = "dry"
ceiling_below = "gypsum"
[[post]]
member = "4x4 Douglas Fir-Larch No.2"
held = "free"
seat = { value = "cap", trust = "assumed" }
stands_on = "pad"
[[post]]
member = "4x4 unknown"
held = "free"
seat = "cap"
eccentricity = { value = "1/2 in", trust = "assumed", low = "1/4 in", high = "2 in" }
stands_on = "pad"
[[pad]]
under = "post 1"
state = "existing"
length = { value = "22 in", trust = "assumed", low = "16 in", high = "30 in" }
breadth = "22 in"
thickness = { value = "8 in", trust = "assumed", low = "4 in", high = "12 in" }
strength = { value = "2500 psi", trust = "assumed" }
[temporary]
set_back_a = "3 ft"
set_back_b = { value = "5 ft", trust = "assumed", low = "4 ft 10 in", high = "6 ft 6 in" }
wall_line_loads = "shared"
stud = "2x4 Spruce-Pine-Fir Stud"
stud_spacing = { value = "16 in", trust = "assumed", low = "12 in", high = "24 in" }
rail = "yes"
top_plate = "2-ply 2x4 Spruce-Pine-Fir No.2"
studs_under_joists = "no"
joist_spacing = { value = "16 in", trust = "assumed" }
joist_breadth = "1-1/2 in"
stands_on = "joists across"
[[heavy]]
name = "piano"
weight = { value = "900 lb", trust = "assumed", low = "500 lb", high = "1400 lb" }
along = { value = "4 ft", trust = "assumed", low = "1 ft", high = "9 ft" }
across = "4 ft"
legs = "3"
joist = "2x10 unknown"
joist_span = { value = "10 ft", trust = "assumed", low = "8 ft", high = "13 ft" }
joist_spacing = "16 in"
dead = "12 psf"
finish = "wood or carpet"
top = "other"
joists_changed = "no"
"""


def document(which: str) -> dict[str, Any]:
    """The file of a name: the small house; or the demonstration's own with a set-back that nobody has measured."""
    if which == "small":
        return tomllib.loads(SMALL)
    demo = tomllib.loads(DEMO.read_text(encoding="utf-8"))
    demo["carried"] = [one for one in demo["carried"] if one["kind"] != "strut"]
    demo["wall"]["no_other"] = "roof, ceiling"
    demo["carried"][0]["dead"] = {"value": "30 psf", "trust": "measured"}
    demo["temporary"] |= {
        "set_back_a": "3 ft",
        "set_back_b": {"value": "5 ft", "trust": "assumed", "low": "4 ft 10 in", "high": "5 ft 6 in"},
        "wall_line_loads": "shared",
        "snow": "out of season",
        "rooms_above": "in use",
        "stands_on": "joists across",
    }
    demo["temporary"].pop("live", None)
    return {key: part for key, part in demo.items() if key not in LEFT_OUT}


def made(written: dict[str, Any]):
    """The study of a file, or None where the file contradicts itself."""
    try:
        return study(from_document(copy.deepcopy(written), "", "scan.toml"))
    except BeamcheckError:
        return None


def shown(one) -> dict[str, float]:
    """Utilisation of each link that has one."""
    return {link.key: float(link.governing.ratio) for link in one.links if link.governing is not None}


def entries(written: dict[str, Any]) -> Iterator[tuple[str, Any, dict[str, Any], str]]:
    """Each key that a file has or may have: its path, its field, the table it lies in and the key."""
    for section in SECTIONS:
        found = written.get(section.key, [] if section.repeated else {})
        for number, table in enumerate(found if section.repeated else [found], 1):
            head = f"{section.key}[{number}]" if section.repeated else section.key
            if table or not section.optional:
                yield from ((f"{head}.{field.key}", field, table, field.key) for field in section.fields)


def inches(text: str) -> float:
    """A length as the files above write it: feet and whole inches, or a fraction of an inch."""
    feet, _, rest = text.rpartition(" ft")
    feet, rest = (feet, rest) if feet else ("0", text)
    rest = rest.removesuffix("in").strip() or "0"
    above, _, below = rest.partition("/")
    return 12 * float(feet) + float(above) / float(below or 1)


def number(text: str) -> tuple[float, str]:
    """The figure of an entry, and its unit."""
    if text.endswith(("in", "ft")):
        return inches(text), "in"
    figure, unit = text.split(" ")
    return float(figure), unit


def rows(table: str) -> list[dict[str, str]]:
    """The rows of a table, read plainly."""
    lines = (TABLES / f"{table}.csv").read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def spread(figure: float, unit: str) -> tuple[float, float]:
    """The range of an assumed figure by the table of spreads, read plainly."""
    kind = {"in": "length", "psf": "area load", "lb": "force", "psi": "stress"}[unit]
    row = next(row for row in rows("practice/spreads") if (row["trust"], row["kind"]) == ("assumed", kind))
    least = min(inches(row["at_least"]) if row["at_least"] else 0.0, figure / 2)
    return figure - max(figure * float(row["down"]), least), figure + max(figure * float(row["up"]), least)


def scanned_figures(written: dict[str, Any], which: str) -> set[tuple[str, str]]:
    """Assumed figures with the links that each tips somewhere on a plain grid over its range."""
    likely = shown(made(written))
    found = set()
    for where, field, table, key in entries(written):
        entry = table.get(key)
        if field.dimension is None or not isinstance(entry, dict) or entry.get("trust") != "assumed":
            continue
        figure, unit = number(entry["value"])
        low, high = (number(entry[end])[0] for end in ("low", "high")) if "low" in entry else spread(figure, unit)
        for share in SHARES:
            at = figure + abs(share) * ((high if share > 0 else low) - figure)
            table[key] = {"value": f"{at:.9f} {unit}", "trust": "assumed"}
            anew = made(written)
            table[key] = entry
            found |= {(where, link) for link in tipped(likely, shown(anew) if anew else {})}
    assert found, which
    return found


def tipped(before: dict[str, float], after: dict[str, float]) -> set[str]:
    """Links of both that stand on different sides of 1.00, by more than rounding."""
    both = before.keys() & after.keys()
    return {link for link in both if (before[link] > 1) != (after[link] > 1) and abs(after[link] - 1) > TINY}


def species() -> tuple[str, ...]:
    """Species of the two tables of dimension lumber, read plainly."""
    return tuple({row["species"]: None for name in ("sawn_4a", "sawn_4b") for row in rows(f"nds_2018/{name}")})


def scanned_words(written: dict[str, Any]) -> set[tuple[str, str, str]]:
    """Words that are left out, unknown or assumed, with each other word and the links that it tips."""
    likely = shown(made(written))
    found = set()
    for where, field, table, key in entries(written):
        entry = table.get(key)
        unseen = entry in (None, "unknown") or (isinstance(entry, dict) and entry.get("trust") == "assumed")
        told = {"eccentricity": ("0 in",), "plate": species()}.get(key, field.choices)
        if not unseen or not (field.register or isinstance(entry, dict)) or not told or field.key == "kind":
            continue
        for word in (word for word in told if word != "unknown"):
            table[key] = word
            anew = made(written)
            found |= {(where, word, link) for link in tipped(likely, shown(anew) if anew else {})}
            table.pop(key) if entry is None else table.update({key: entry})
    return found


@pytest.fixture(scope="module", params=["small", "set back"])
def case(request) -> tuple[dict[str, Any], Any, str]:
    """A file, its study and its name."""
    written = document(request.param)
    return written, made(written), request.param


def test_the_margins_name_every_figure_that_a_scan_finds(case) -> None:
    """Each assumed figure that tips a link on a plain grid over its range is a flip within its range."""
    written, likely, which = case
    scanned = scanned_figures(written, which)
    assert not scanned - {(flip.input.where, flip.link) for flip in margins(likely).flips if flip.reach <= 1.0}
    assert not scanned - {(flip.input.where, flip.link) for flip in tipping(likely)}


def test_the_questions_ask_for_every_word_that_a_scan_finds(case) -> None:
    """Each other word that tips a link when it is written into the file is asked for."""
    written, likely, _ = case
    asked = {(one.where, one.instead, link.link) for one in questions(likely) for link in one.tipped}
    scanned = scanned_words(written)
    assert scanned
    assert not scanned - asked
