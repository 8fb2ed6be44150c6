"""Factors of wood members at the bounds that the standard prints (NDS Supplement 2018, NDS 2018)."""

from dataclasses import replace

import pytest

from beamcheck import tables
from beamcheck.catalogue.members import Member
from beamcheck.catalogue.reading import read_member
from beamcheck.checks.wood import Bracing, Conditions, beam_stability, bending, repetitive, wet_service
from beamcheck.errors import InputError
from beamcheck.trace import Value, taken

HELD = Bracing(None)

WET = Conditions(moisture="wet")


def figure(name: str, number: float, unit: str = "psi") -> Value:
    """A figure for a test."""
    return taken(name, number, "a figure for a test", unit=unit)


def joist(**figures: float) -> Member:
    """A 2x12, C_F 1.0, with other reference values."""
    member = read_member("2x12 Douglas Fir-Larch No.2", "beam.member")
    return replace(member, figures={**member.figures, **{name: figure(name, F) for name, F in figures.items()}})


@pytest.mark.parametrize(("F_b", "C_M"), [(875.0, 1.0), (1150.0, 1.0), (1151.0, 0.85), (1500.0, 0.85)])
def test_weak_lumber_does_not_lose_by_wetness_in_bending(F_b: float, C_M: float) -> None:
    """Where F_b C_F is at most 1,150 psi C_M is 1.0, else 0.85 (footnote of Table 4A)."""
    assert wet_service(joist(F_b=F_b), "F_b", WET).number == C_M


@pytest.mark.parametrize(("F_c", "C_M"), [(650.0, 1.0), (750.0, 1.0), (751.0, 0.8), (1350.0, 0.8)])
def test_weak_lumber_does_not_lose_by_wetness_in_compression(F_c: float, C_M: float) -> None:
    """Where F_c C_F is at most 750 psi C_M is 1.0, else 0.8 (footnote of Table 4A)."""
    assert wet_service(joist(F_c=F_c), "F_c", WET).number == C_M


@pytest.mark.parametrize(("prop", "C_M"), [("F_v", 0.97), ("F_c_perp", 0.67), ("E", 0.9), ("E_min", 0.9)])
def test_other_values_lose_always(prop: str, C_M: float) -> None:
    """Shear, bearing and stiffness have one wet factor, whatever the grade (footnote of Table 4A)."""
    assert wet_service(joist(), prop, WET).number == C_M
    assert wet_service(joist(), prop, Conditions()).number == 1.0


GLULAM = read_member("5-1/8x18 glulam 24F-V4", "beam.member")


def test_a_glulam_of_unknown_moment_length_is_taken_as_of_twenty_one_feet() -> None:
    """At 21 ft and 5-1/8 in only the depth is left in C_V: (12/18)^(1/10) of the reference value (5.3.6)."""
    C_D = figure("C_D", 1.0, "1")
    F_b, _ = bending(GLULAM, C_D, HELD, Conditions())
    whole, _ = bending(GLULAM, C_D, HELD, Conditions(), figure("l_0", 252.0, "in"))
    assert F_b.number == whole.number == pytest.approx(2400 * (12 / 18) ** 0.1)
    shorter, _ = bending(GLULAM, C_D, HELD, Conditions(), figure("l_0", 126.0, "in"))
    assert shorter.number == pytest.approx(2400 * min(1.0, (2 * 12 / 18) ** 0.1))


@pytest.mark.parametrize(
    ("text", "sharing", "C_r"),
    [
        ("2-ply 2x12 Douglas Fir-Larch No.2", "plies", 1.0),
        ("3-ply 2x12 Douglas Fir-Larch No.2", "plies", 1.15),
        ("2x12 Douglas Fir-Larch No.2", "joists", 1.15),
        ("3-ply 2x12 Douglas Fir-Larch No.2", "no", 1.0),
        ("3-ply 1-3/4x14 LVL", "plies", 1.04),
        ("2-ply 1-3/4x14 LVL", "plies", 1.0),
        ("6x12 Douglas Fir-Larch No.1", "plies", 1.0),
    ],
)
def test_load_is_shared_by_three(text: str, sharing: str, C_r: float) -> None:
    """Three plies and more, or joists side by side, share load: 1.15 of dimension lumber, 1.04 of composite (4.3.9)."""
    assert repetitive(read_member(text, "beam.member"), Conditions(sharing=sharing)).number == C_r


@pytest.mark.parametrize("text", ["6x6 Douglas Fir-Larch No.1", "4-ply 2x6 Douglas Fir-Larch No.2"])
def test_what_is_not_deeper_than_broad_cannot_roll(text: str) -> None:
    """A member not deeper than broad has C_L 1.0 whatever its free length (3.3.3.1)."""
    free = Bracing(figure("l_u", 240.0, "in"))
    C_L, slenderness = beam_stability(read_member(text, "beam.member"), figure("F_b_star", 1000.0), free, Conditions())
    assert (C_L.number, slenderness) == (1.0, None)


def test_unknown_wood_takes_the_lowest_figure_of_any_species() -> None:
    """No.2 of Table 4A (NDS Supplement 2018), by eye: F_b 575 of three eastern groups, F_v 110 of Northern Species.

    F_c 625 of Red Oak, E 1,000,000 and E_min 370,000 of four groups, F_c_perp 335; heavy, and soft to nails.
    """
    names = ("F_b", "F_t", "F_v", "F_c_perp", "F_c", "E", "E_min", "G")
    found = read_member("3-ply 2x10 unknown", "girder[1].member")
    assert [found[name].number for name in names] == [575, 275, 110, 335, 625, 1_000_000, 370_000, 0.35]
    assert found.density is not None
    assert found.density.number == 45
    poorer = read_member("3-ply 2x10 unknown No.3", "girder[1].member")
    assert [poorer[name].number for name in names] == [350, 150, 110, 335, 375, 900_000, 330_000, 0.35]
    post = read_member("6x6 unknown", "post[1].member")
    assert [post[name].number for name in names] == [500, 325, 125, 375, 375, 1_000_000, 370_000, 0.42]


def test_no_figure_of_a_no_2_is_below_that_of_unknown_wood() -> None:
    """Whatever species a No.2 turns out to be, by table and with its size factors, no value falls."""
    for size in ("2x4", "2x6", "2x8", "2x10", "2x12", "4x8"):
        unknown = read_member(f"{size} unknown", "beam.member")
        for row in tables.load("nds_2018/sawn_4a").rows:
            if "No.2" not in row.text("grade"):
                continue
            known = read_member(f"{size} {row.text('species')} {row.text('grade')}", "beam.member")
            assert all(unknown[name].number <= known[name].number for name in ("F_v", "F_c_perp", "E", "E_min"))
            for name in ("F_b", "F_c"):
                factor = f"C_{'F_b' if name == 'F_b' else 'F_c'}"
                assert unknown[name].number * unknown[factor].number <= known[name].number * known[factor].number


def test_a_grade_that_no_lumber_has_is_refused_though_the_species_is_unknown() -> None:
    """Unknown wood still has a grade of the tables, or none told."""
    with pytest.raises(InputError, match=r"No\.7"):
        read_member("2x10 unknown No.7", "beam.member")
