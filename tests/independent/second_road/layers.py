"""Weight of what is told layer by layer, pounds per square foot."""

import re
from fractions import Fraction

from .entries import number, register, told
from .printed_tables import figure, row, rows

LISTS = ("asce7_16/dead_loads", "practice/dead_loads")
SIZE = r"[\d./-]+ (?:in|cm)"


def weight(item):
    """The sum of the layers of a carried item; nothing where none are told."""
    text = told(item, "layers")
    return None if text is None else sum(_layer(part.strip()) for part in text.split(","))


def _layer(text):
    framing = re.fullmatch(rf"(full )?([\d./-]+)x([\d./-]+) at ({SIZE})(?: (.+))?", text)
    whole = _whole(text)
    if whole is not None:
        return whole
    if framing:
        return _framing(*framing.groups())
    name, size = re.fullmatch(rf"(.+?) ({SIZE}|[\d.]+ psf)", text).groups()
    if size.endswith("psf"):
        return number(size)
    return _inches(size) * _each_inch(_meant(name))


def _inches(size):
    return number(size) if size.endswith("in") else float(size.split()[0]) / 2.54


def _meant(name):
    """The row's name that a short name stands for."""
    return next((r["item"] for r in rows("practice/layer_names") if r["alias"] == name), name)


def _whole(text):
    """Weight of a layer that has one, whatever its thickness."""
    name = _meant(text)
    return next((float(r["q"]) for table in LISTS for r in rows(table) if r["item"] == name and not r["per"]), None)


def _each_inch(name):
    for table in LISTS:
        for r in rows(table):
            if r["item"] == name and r["per"]:
                return float(r["q"]) / float(r["per"])
    return figure("practice/densities", "density", material=name) / 12


def _framing(full, b_text, d_text, spacing, species):
    if full or not (b_text.isdigit() and d_text.isdigit()):
        b, d = (float(sum(Fraction(part) for part in side.split("-"))) for side in (b_text, d_text))
    else:
        sides = row("sections/dressed", size=f"{b_text}x{d_text}")
        b, d = float(sides["b"]), float(sides["d"])
    species = species or register("framing_species")
    species = next((r["species"] for r in rows("practice/aliases") if r["alias"] == species), species)
    volume = b * d * 12 / 1728  # cubic feet in each foot of one joist
    return volume * figure("practice/densities", "density", material=species) * 12 / _inches(spacing)
