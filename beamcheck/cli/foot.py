"""The foot of each command's help: lines to type as they stand, each run by a test, and what its exit codes mean.

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
    "options": ("bearline options house.toml", "bearline options house.toml --whole"),
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

_CHAIN = (
    "every link is within or close, but for what is always asked",
    "something is over, not shown or referred to the engineer",
)

# what 0 and, where a command has it, 1 stand for
ANSWERS: Mapping[str, tuple[str, ...]] = MappingProxyType({
    "demo": _CHAIN,
    "new": ("the survey is written",),
    "ask": ("the survey is written, or its draft is kept for later",),
    "page": ("the page was shown until it was closed",),
    "check": _CHAIN,
    "why": ("the number is opened",),
    "sheet": _CHAIN,
    "options": (
        "a beam stays within the limits, what it carries and sits on is told, the posts under the first are not over",
        "no beam does, or one of these is not so; with --whole also what ends a check with the first beam so",
    ),
    "compare": (f"of every side {_CHAIN[0]}", f"of some side {_CHAIN[1]}"),
    "margins": _CHAIN,
    "signs": ("the signs are weighed",),
    "beam": ("nothing is over", "something is over"),
    "post": ("nothing is over", "something is over"),
    "tables": ("what was asked for is listed",),
})  # fmt: skip

# what the others stand for, whatever the command
ALWAYS: Mapping[int, str] = MappingProxyType({
    2: "the input cannot be used",
    3: "a fault of bearline itself",
    130: "stopped by the user",
})  # fmt: skip


def foot(command: str) -> str:
    """The foot of a command's help: its examples and its exit codes."""
    return "\n\n".join((_block("Examples:", EXAMPLES[command]), _codes(ANSWERS[command])))


def front_foot() -> str:
    """The foot of the front page: the exit codes as most commands have them."""
    return _codes(_CHAIN)


def _codes(answers: tuple[str, ...]) -> str:
    meant = dict(enumerate(answers)) | dict(ALWAYS)
    return _block("Exit codes:", tuple(f"{code:<4} {words}" for code, words in meant.items()))


def _block(head: str, lines: tuple[str, ...]) -> str:
    """Lines under a head, each kept as it is, which the mark in front of them asks for."""
    return "\n".join((head, "", "\b", *(f"  {line}" for line in lines)))
