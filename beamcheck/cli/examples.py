"""Worked examples at the foot of each command's help: lines to type as they stand, each run by a test.

house.toml stands for a survey of your own; the demonstration's does as well.
"""

from collections.abc import Mapping
from types import MappingProxyType

EXAMPLES: Mapping[str, tuple[str, ...]] = MappingProxyType({
    "demo": ("bearline demo", "bearline demo some-folder"),
    "new": ("bearline new house.toml",),
    "ask": ("bearline ask house.toml",),
    "page": ("bearline page house.toml", "bearline page house.toml --no-open"),
    "check": ("bearline check house.toml", "bearline check house.toml --keys", "bearline check house.toml --json"),
    "why": ("bearline why house.toml beam.bending_sagging", "bearline why house.toml wall.clear_opening"),
    "sheet": ("bearline sheet house.toml -o summary.pdf", "bearline sheet house.toml -o book.html --book --paper a4"),
    "options": ("bearline options house.toml",),
    "compare": ("bearline compare house.toml other.toml",),
    "margins": ("bearline margins house.toml", "bearline margins house.toml --samples 0"),
    "signs": ("bearline signs house.toml",),
    "beam": (
        'bearline beam --span "13 ft 6 in" --dead "210 plf" --live "480 plf" --member "3-ply 2x12 Hem-Fir No.2"',
        'bearline beam --span "9 ft" --dead "150 plf" --point "900 lb snow at 4 ft" --member "W8x18"',
    ),
    "post": ('bearline post --height "7 ft 6 in" --dead "2100 lb" --live "3400 lb" --member "6x6 Hem-Fir No.1"',),
    "tables": ("bearline tables", "bearline tables nds_2018/sawn_4a"),
})  # fmt: skip


def examples(command: str) -> str:
    """The foot of a command's help; each example keeps its own line, which the mark in front of them asks for."""
    return "\n".join(("Examples:", "", "\b", *(f"  {line}" for line in EXAMPLES[command])))
