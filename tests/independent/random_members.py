"""Dice for random surveys, and members of every kind, as the yard names them."""

import random

from second_road.printed_tables import rows

SIXTEENTHS = 16
NARROW = ("Construction", "Standard", "Utility")


class Dice:
    """A seeded source of trade lengths, loads and words."""

    def __init__(self, seed):
        self.roll = random.Random(seed)  # noqa: S311  a repeatable draw

    def chance(self, share):
        return self.roll.random() < share

    def one(self, choices, weights=None):
        return self.roll.choices(choices, weights)[0]

    def inches(self, least, most):
        """A length to the sixteenth of an inch."""
        return self.roll.randint(round(least * SIXTEENTHS), round(most * SIXTEENTHS)) / SIXTEENTHS

    def load(self, least, most, unit):
        """A load to a tenth, as text."""
        return f"{self.roll.uniform(least, most):.1f} {unit}"


def dimension(dice, sizes, plies):
    """Dimension lumber of any listed species and grade that the size may have."""
    size = dice.one(sizes)
    found = dice.one([*rows("nds_2018/sawn_4a")] + [r for r in rows("nds_2018/sawn_4b") if r["width"] == "12"] * 3)
    grade = found["grade"]
    wide = int(size.split("x")[1])
    if wide > 4 and grade in NARROW:
        grade = "No.3"
    if wide > 6 and grade == "Stud":
        grade = "No.3"
    if found["species"] == "Southern Pine" and grade in ("No.3", "Stud", "No.3 and Stud"):
        grade = "No.3"
    if grade == "No.1/No.2" and dice.chance(0.5):
        grade = "No.2"
    name = "unknown" if dice.chance(0.05) else f"{found['species']} {grade}"
    if name == "unknown" and wide % 4 == 0:
        name = "unknown No.3"
    full = "full " if dice.chance(0.06) and grade not in (*NARROW, "Stud") else ""
    return f"{_plies(dice, plies)}{full}{size} {name}"


def _plies(dice, plies):
    count = dice.one(plies)
    return f"{count}-ply " if count > 1 else ""


def timber(dice, sizes):
    """A timber of any listed species and grade, dressed or full sawn."""
    size = dice.one(sizes)
    a, b = (int(side) for side in size.split("x"))
    shapes = ("Beams & Stringers" if b - a > 2 else "Posts & Timbers", "5x5 and larger")
    found = dice.one([r for r in rows("nds_2018/timber_4d") if r["size_class"] in shapes])
    name = "unknown" if dice.chance(0.05) else f"{found['species']} {found['grade']}"
    return f"{'full ' if dice.chance(0.2) else ''}{size} {name}"


def composite(dice, ply, depths, plies):
    """Composite lumber of a listed class, or of none."""
    found = dice.one(rows("scl_generic/grades"))
    grade = "" if dice.chance(0.4) else f" {found['grade']}"
    return f"{_plies(dice, plies)}{ply}x{dice.one(depths)} {found['material']}{grade}"


def glulam(dice, widths, depths, plies=(1,)):
    """Glued laminated timber of a listed combination."""
    found = dice.one(rows("nds_2018/glulam_5a"))
    return f"{_plies(dice, plies)}{dice.one(widths)}x{dice.one(depths)} glulam {found['combination']}"


def beam_member(dice):
    """A member for the beam."""
    way = dice.one(("dimension", "timber", "composite", "glulam", "steel"), (4, 3, 4, 3, 1))
    if way == "dimension":
        return dimension(dice, ("2x8", "2x10", "2x12", "2x14", "4x8", "4x10", "4x12", "4x14", "3x12"), (1, 2, 3, 4, 5))
    if way == "timber":
        return timber(dice, ("6x8", "6x10", "6x12", "6x14", "8x8", "8x12", "8x14", "10x10"))
    if way == "composite":
        depths = ("7-1/4", "9-1/4", "9-1/2", "11-7/8", "14", "16", "18")
        return composite(dice, dice.one(("1-3/4", "3-1/2", "1-1/2")), depths, (1, 2, 3, 4))
    if way == "glulam":
        widths, depths = ("3-1/8", "3-1/2", "5-1/8", "5-1/2", "6-3/4"), ("9", "10.5", "12", "13.5", "18")
        return glulam(dice, widths, depths, (1, 1, 1, 2))
    return dice.one(("W8x18", "W8x24 A992", "W10x22 A36", "W12x26 A992", "W6x15", "W10x12 A992"))


def post_member(dice):
    """A member for a post."""
    way = dice.one(("dimension", "timber", "composite", "glulam", "steel"), (5, 4, 2, 1, 1))
    if way == "dimension":
        return dimension(dice, ("2x4", "2x6", "4x4", "4x6", "3x4", "2x8"), (1, 2, 3, 3, 4, 5, 6))
    if way == "timber":
        return timber(dice, ("5x5", "6x6", "6x8", "6x10", "8x8", "8x12"))
    if way == "composite":
        return composite(dice, dice.one(("3-1/2", "5-1/4", "1-3/4")), ("3-1/2", "5-1/4", "7"), (1, 1, 2))
    if way == "glulam":
        return glulam(dice, ("3-1/2", "5-1/8"), ("6", "7-1/2"))
    return dice.one(("Pipe 3STD", "Pipe 4STD", "Pipe 3-1/2XS", "HSS3X3X1/4", "HSS4X4X1/4", "HSS3X3X1/8"))
