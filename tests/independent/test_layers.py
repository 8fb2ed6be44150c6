"""Dead loads built up layer by layer: hand sums, other people's assemblies, and what a wrong layer is told."""

import random
from dataclasses import replace

import numpy as np
import pytest

from beamcheck import tables
from beamcheck.catalogue.layers import named_layers, read_layer
from beamcheck.errors import InputError
from beamcheck.explore.chain_lanes import chain_lanes
from beamcheck.explore.inputs import inputs, with_numbers
from beamcheck.standards import fit, statics
from beamcheck.study.chain import study
from beamcheck.study.find import find
from beamcheck.study.registers import assumed, from_memory
from beamcheck.survey.reader import read_text
from beamcheck.trace import Check, Computed, Looked, Schedule, Trust, Value, ancestry, items

HOUSE = """
[study]
title = "a test"
[site]
ground_snow = "30 psf"
[wall]
clear_opening = "13 ft 6 in"
ceiling_height = "8 ft"
[beam]
member = "3-ply 1-3/4x14 LVL"
position = "flush"
[[post]]
member = "4x6 Douglas Fir-Larch No.2"
stands_on = "pier"
[[post]]
member = "4x6 Douglas Fir-Larch No.2"
stands_on = "pier"
[[carried]]
name = "thing"
"""
KINDS = {
    "floor": 'kind = "floor"\nspan_a = "12 ft"\nspan_b = "10 ft"\ncontinuity = "lapped"\nspacing = "16 in"\n',
    "ceiling": 'kind = "ceiling"\nspan_a = "12 ft"\nspan_b = "10 ft"\ncontinuity = "one piece"\n',
    "roof": 'kind = "roof"\nspan_a = "12 ft"\nspan_b = "10 ft"\npitch = "9:12"\n',
    "strut": 'kind = "strut"\nstation = "5 ft"\narea = "40 ft^2"\npitch = "9:12"\n',
    "wall above": 'kind = "wall above"\nheight = "8 ft"\n',
}
FLOOR = "hardwood 7/8 in, subfloor 3/4 in, 2x10 at 16 in Douglas Fir-Larch, plaster on wood lath"


def made(kind: str, told: str):
    """The study of a small house that carries one thing."""
    return study(read_text((HOUSE + KINDS[kind] + told).encode()))


def ratios(found) -> dict[str, float]:
    """Utilisation of every check by key."""
    return {item.key: float(item.ratio) for item in items(found.sheet) if isinstance(item, Check)}


def psf(text: str, kind: str = "wall above") -> float:
    """Weight of layers with commas between them."""
    return sum(read_layer(part, "here", kind).weight.number for part in text.split(","))


@pytest.mark.parametrize("kind", KINDS)
def test_layers_weigh_like_their_sum(kind: str) -> None:
    """A house told layer by layer works exactly as hard as one whose item is told the sum of the hand sums."""
    joists = 34 * 1.5 * 9.25 / 144 / (16 / 12)
    key = "weight" if kind == "wall above" else "dead"
    told = made(kind, f'{key} = "{4.0 + 3.0 + joists + 8.0!r} psf"')
    built = made(kind, f'layers = "{FLOOR}"')
    assert ratios(built) == pytest.approx(ratios(told), rel=1e-9)


def test_the_order_of_layers_changes_nothing() -> None:
    """Whichever way round the layers are told, the whole weighs the same."""
    parts = FLOOR.split(", ")
    random.Random(3).shuffle(parts)  # noqa: S311  a repeatable draw
    one, other = (made("floor", f'layers = "{text}"') for text in (FLOOR, ", ".join(parts)))
    assert ratios(one) == pytest.approx(ratios(other), rel=1e-12)


def test_every_layer_can_be_opened_down_to_its_row() -> None:
    """The dead load leads down to the table rows of its layers, and the schedule shows each of them and the sum."""
    found = made("floor", f'layers = "{FLOOR}"')
    row = find(found, "takedown.table[1]")
    assert isinstance(row, Value)
    looked = {leaf.origin.row.label for leaf in ancestry(row) if isinstance(leaf.origin, Looked)}
    assert looked == {"hardwood", "subfloor", "2x10", "Douglas Fir-Larch", "plaster on wood lath"}
    clauses = {value.origin.clause for value in ancestry(row) if isinstance(value.origin, Computed)}
    assert clauses >= {statics.sheet_weight, statics.framing_weight, statics.layer_added, statics.assembly_weight}
    key = "takedown.carried[1].layers"
    table = next(item for item in items(found.sheet) if isinstance(item, Schedule) and item.key == key)
    assert [row[0] for row in table.rows] == [*FLOOR.split(", "), "all layers"]
    *layers, whole = (row[1].number for row in table.rows)
    assert whole == pytest.approx(sum(layers))
    assert find(found, f"{key}[3]").number == pytest.approx(2.457, abs=5e-4)


@pytest.mark.parametrize(
    ("text", "weight"),
    [
        ("gypsum board 1/2 in", 2.2),
        ("1/2 in drywall", 2.2),
        ("5/8 in. gypsum board", 2.75),
        ("Drywall  12.7 mm", 2.2),
        ("asphalt shingles", 2.0),
        ("tile on mortar", 23.0),
        ("mortar bed 1-1/4 in", 15.0),
        ("granite 1 1/4 in", 170 * 1.25 / 12),
        ("granite 3 cm", 18.0),
        ("slate 3/16 in", 7.0),
        ("marble 3/4 in", 170 / 16),
        ("2x6 at 24 in HF", 30 * 8.25 / 288),
        ("2x6@24in hem-fir", 30 * 8.25 / 288),
        ("full 2x10 at 16 in o.c. SPF", 29 * 20 / 192),
        ("2x10 at 16 in on center SPF", 29 * 1.5 * 9.25 / 192),
        ("1-3/4x9-1/2 at 400 mm LVL", 42 * 1.75 * 9.5 / (12 * 400 / 25.4)),
        ("2x8 at 16 in unknown", 45 * 1.5 * 7.25 / 192),
        ("2x10 at 16 in with double wood floor", 6.0),
        ("2x4 plastered two sides", 20.0),
        ("sound mat 1.2 psf", 1.2),
        ("two 5/8 in boards 6 psf", 6.0),
    ],
)
def test_a_layer_in_plain_words(text: str, weight: float) -> None:
    """A name, a name with its thickness, framing, or a weight of one's own: each as a person would write it."""
    assert psf(text) == pytest.approx(weight, rel=1e-6)


@pytest.mark.parametrize(
    ("text", "what", "mend"),
    [
        ("hradwood 3/4 in", "'hradwood 3/4 in' is not a layer of the tables", "'hardwood'"),
        ("zzz", "'zzz' is not a layer of the tables", "sound mat 1.2 psf"),
        ("gypsum board", "weighs by its thickness", "'gypsum board 1/2 in'"),
        ("asphalt shingles 1/4 in", "one weight, whatever its thickness", "'asphalt shingles'"),
        ("2x4 plastered two sides", "weighs by the face of a wall, not by the area of a floor", "wall above"),
        ("2x9 at 16 in", "'2x9' is not a dressed size", "'2x8'"),
        ("2x10 at 1 in", "less than the breadth", "middle of the next"),
        ("2x10 at 16 in pine", "'pine' is not a species of lumber", "'Southern Pine'"),
        ("2x10 at 9 ft", "9 ft in '2x10 at 9 ft'", "up to 96 in"),
        ("gypsum board 40 in", "40 in in", "up to 36 in"),
        ("gypsum board 1/0 in", "not a fraction", "part of an inch"),
        ("lead 900 psf", "900 psf for one layer", "up to 500 psf"),
        ("sound\\u001b mat 1.2 psf", "does not print", "write it as"),
        ("oak " * 40 + "1 in", "too long for a layer", "write it as"),
        (", ".join(["drywall 1/2 in"] * 30), "more than 30 layers", "one kind"),
        ("٣x10 at 16 in", "not a dressed size", "nearest"),
        ("drywall ½ in", "not a layer", "drywall"),
        ("2x10 at 1e9 in", "not a layer", "nearest"),
        ("", "'' is not a layer of the tables", "hardwood 7/8 in"),
    ],
)
def test_a_wrong_layer_is_named_with_its_cure(text: str, what: str, mend: str) -> None:
    """What no table has is told with its key path, what is wrong with it, and the nearest that would do."""
    with pytest.raises(InputError) as error:
        made("floor", f'layers = "hardwood 3/4 in, {text}"')
    fault = error.value.faults[0]
    assert fault.where.startswith("carried[1].layers")
    assert what in fault.what
    assert mend in fault.mend


def test_weight_and_layers_together_are_a_contradiction() -> None:
    """The whole weight and the layers that add up to it cannot both be told; an unknown weight gives way to layers."""
    for kind in KINDS:
        key = "weight" if kind == "wall above" else "dead"
        with pytest.raises(InputError, match=rf"carried\[1\].layers \(line \d+\): are told, and so is {key}: 12"):
            made(kind, f'{key} = "12 psf"\nlayers = "stucco 7/8 in"')
        assert made(kind, f'{key} = "unknown"\nlayers = "stucco 7/8 in"').survey.carried[0].layers


@pytest.mark.parametrize("told", ["", 'layers = "unknown"'])
def test_without_layers_the_cautious_weight_stands_in(told: str) -> None:
    """Layers that are not known, or not told, leave the register's weight where it is."""
    dead = made("floor", told).survey.carried[0].dead
    assert dead is not None
    assert dead.number == 20.0
    assert dead.origin.default is not None


def test_a_species_that_is_not_told_is_assumed_heavy() -> None:
    """Framing without its species weighs like the heaviest wood of the table, and the register says so."""
    found = made("floor", 'layers = "subfloor 3/4 in, 2x10 at 16 in"')
    entry = next(entry for entry in assumed(found) if entry.where == "carried[1].layers[2]")
    assert entry.text == "Red Oak in 2x10 at 16 in"
    assert entry.trust == Trust.ASSUMED
    assert entry.flips
    woods = [row for row in tables.load("practice/densities").rows if row.has("G")]
    assert all(psf(f"2x10 at 16 in {row.text('material')}") <= psf("2x10 at 16 in") for row in woods)


def test_a_layer_from_memory_is_listed_as_such() -> None:
    """A layer whose row was seen in no copy stands among the figures from memory."""
    found = made("floor", 'layers = "carpet and pad, subfloor 3/4 in"')
    rows = {value.origin.row.label for value in from_memory(found) if isinstance(value.origin, Looked)}
    assert "carpet and pad" in rows
    assert "subfloor" not in rows


def test_the_sum_of_layers_may_be_off_as_a_whole() -> None:
    """Margins move the sum by one factor, by how the layers are known; thicknesses have no range of theirs."""
    found = made("floor", f'layers = {{ value = "{FLOOR}", trust = "seen" }}')
    ranged = {one.where: one for one in inputs(found)}
    one = ranged["carried[1].layers"]
    assert (one.low, one.likely, one.high) == pytest.approx((0.85, 1.0, 1.15))
    assert not [where for where in ranged if where.startswith("carried[1].layers[")]
    heavier = with_numbers(found.survey, {"carried[1].layers": 1.15}).carried[0].dead
    assert heavier is not None
    assert heavier.number == pytest.approx(1.15 * psf(FLOOR))


def test_lanes_of_layers_are_studies() -> None:
    """Layers drawn anew side by side give in every lane what a study of that figure gives."""
    found = made("floor", f'layers = "{FLOOR}"')
    found = study(replace(found.survey, beam=replace(found.survey.beam, position="dropped")))
    factors = np.array([0.7, 1.0, 1.3])
    lanes = chain_lanes(found, {"carried[1].layers": factors}, 3)
    for lane, factor in enumerate(factors):
        one = ratios(study(with_numbers(found.survey, {"carried[1].layers": float(factor)})))
        assert one["beam.bending_sagging"] == pytest.approx(lanes["beam.bending_sagging"].ratio[lane], rel=1e-9)
    assert lanes["beam.bending_sagging"].ratio[2] > lanes["beam.bending_sagging"].ratio[0]


DOUBLE = {f"{size} at {o} in": q for size, *row in (
    ("2x6", 6, 5, 5), ("2x8", 6, 6, 5), ("2x10", 7, 6, 6), ("2x12", 8, 7, 6)
) for o, q in zip((12, 16, 24), row, strict=True)}  # fmt: skip


@pytest.mark.parametrize("framing", DOUBLE)
def test_floors_of_the_standard_within_a_pound(framing: str) -> None:
    """ASCE 7-16, C3.1: joists with double wood floor, here two layers of boards, within 1 psf and not lighter."""
    ours = psf(f"boards 3/4 in, boards 3/4 in, {framing} Douglas Fir-Larch")
    assert -0.1 <= ours - DOUBLE[framing] <= 1.1
    assert psf(f"{framing} with double wood floor") == DOUBLE[framing]


HUD = {
    "2x12 floor, 3/4 panel, 1/2 gypsum ceiling, carpet or vinyl": "carpet and pad, plywood 3/4 in, {floor}",
    "2x12 floor, 3/4 panel, 1/2 gypsum ceiling, wood flooring": "hardwood 3/4 in, plywood 3/4 in, {floor}",
    "2x12 floor, 3/4 panel, 1/2 gypsum ceiling, ceramic tile": "tile in thin-set, plywood 3/4 in, {floor}",
    "2x12 floor, 3/4 panel, 1/2 gypsum ceiling, slate": "slate flooring 3/8 in, mortar 1/2 in, plywood 3/4 in, {floor}",
    "2x4, 1/2 panel sheathing, 1/2 gypsum": "{wall}",
    "2x4 wall, 1/2 panel sheathing, 1/2 gypsum, vinyl or aluminium siding": "vinyl siding, {wall}",
    "2x4 wall, 1/2 panel sheathing, 1/2 gypsum, lap wood siding": "wood siding 3/4 in, {wall}",
    "2x4 wall, 1/2 panel sheathing, 1/2 gypsum, 7/8 stucco": "stucco 7/8 in, {wall}",
    "interior partition 2x4, 1/2 gypsum both sides": "drywall 1/2 in, 2x4 at 16 in SPF, drywall 1/2 in",
}
PARTS = {
    "floor": "2x12 at 16 in Douglas Fir-Larch, gypsum board 1/2 in",
    "wall": "plywood 1/2 in, 2x4 at 16 in Douglas Fir-Larch, gypsum board 1/2 in",
}


@pytest.mark.parametrize("item", HUD)
def test_assemblies_of_the_design_guide_within_two_pounds(item: str) -> None:
    """HUD, Residential Structural Design Guide, Table 3.2: floors and walls as it prints them, within 2 psf."""
    printed = tables.lookup("hud_2017/dead_loads", item=item).number("q")
    assert psf(HUD[item].format(**PARTS)) == pytest.approx(printed, abs=2.0)


def test_every_name_can_be_written() -> None:
    """Each name of the list is read as a layer, by itself or with a thickness, and weighs what its row says."""
    for name, row in named_layers():
        by_thickness = row.has("density") or row.has("per")
        weight = psf(f"{name} 3/4 in" if by_thickness else name)
        if row.has("density"):
            assert weight == pytest.approx(row.number("density") / 16), name
        elif by_thickness:
            assert weight == pytest.approx(row.number("q") * 0.75 / row.number("per")), name
        else:
            assert weight == row.number("q"), name


def test_names_are_unlike_and_without_commas() -> None:
    """No two layers share a name, and none holds the comma that stands between layers."""
    names = [name.casefold() for name, _ in named_layers()]
    assert len(set(names)) == len(names)
    assert not [name for name in names if "," in name]


HEAVY = """
[[heavy]]
name = "island"
along = "6 ft"
across = "3 ft"
joist = "2x10 Hem-Fir No.2"
joist_span = "12 ft"
"""


def island(told: str):
    """The study of a house with an island on its floor."""
    return study(read_text((HOUSE + KINDS["floor"] + HEAVY + told).encode()))


def test_a_stone_top_weighs_by_its_layers_and_its_area() -> None:
    """Cabinets of 300 lb under 20 ft2 of granite (18 psf) on 3/4 in plywood (2.4 psf) are a thing of 708 lb."""
    built = island('weight = "300 lb"\ntop_layers = "granite 3 cm, plywood 3/4 in"\ntop_area = "20 ft^2"')
    told = island('weight = "708 lb"')
    assert ratios(built) == pytest.approx(ratios(told), rel=1e-9)
    whole = next(item for item in items(built.sheet) if isinstance(item, Value) and "with its top" in item.title)
    assert whole.number == pytest.approx(708.0)
    assert {fit.weight_with_top, statics.assembly_weight} <= {
        v.origin.clause for v in ancestry(whole) if isinstance(v.origin, Computed)
    }
    heavier = with_numbers(built.survey, {"heavy[1].top_layers": 2.0}).heavy[0].weight
    assert heavier.number == pytest.approx(300 + 2 * 408)


@pytest.mark.parametrize(
    ("told", "where"),
    [
        ('top_layers = "granite 3 cm"', "heavy[1].top_layers"),
        ('top_area = "20 ft^2"', "heavy[1].top_area"),
        ('top_layers = "granit"\ntop_area = "20 ft^2"', "heavy[1].top_layers[1]"),
    ],
)
def test_half_a_top_is_a_fault(told: str, where: str) -> None:
    """Layers without the area, the area without layers, and a layer that is none are each told."""
    with pytest.raises(InputError) as error:
        island(f'weight = "300 lb"\n{told}')
    assert [fault.where for fault in error.value.faults] == [where]
