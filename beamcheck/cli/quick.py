"""Commands that need no survey: one beam, one post."""

from enum import StrEnum
from functools import partial
from typing import TYPE_CHECKING, Annotated

import typer

from beamcheck.cli.app import OVER, WITHIN, app, guard, screen_width
from beamcheck.cli.foot import foot

if TYPE_CHECKING:
    from beamcheck.trace import Note, Sheet, Value


class Position(StrEnum):
    """Under the joists or within their depth."""

    DROPPED = "dropped"
    FLUSH = "flush"


class Edition(StrEnum):
    """Edition of ASCE 7 that the snow belongs to."""

    ASCE_7_16 = "ASCE 7-16"
    ASCE_7_22 = "ASCE 7-22"


class Held(StrEnum):
    """How a post is held."""

    FREE = "free"
    IN_WALL = "in wall"


class Fastening(StrEnum):
    """How the plies of a built-up post are joined."""

    NAILED = "nailed"
    BOLTED = "bolted"
    NOT_FASTENED = "not fastened"


@app.command(epilog=foot("beam"))
def beam(
    span: Annotated[str, typer.Option(help='Centre to centre of bearings, such as "13 ft 6 in".')],
    member: Annotated[str, typer.Option(help='Such as "3-ply 2x12 Douglas Fir-Larch No.2".')],
    dead: Annotated[str, typer.Option(help='Dead load along the beam, such as "210 plf".')],
    live: Annotated[str, typer.Option(help='Live load, such as "480 plf".')] = "0 plf",
    roof_live: Annotated[str, typer.Option(help="Roof live load.")] = "0 plf",
    snow: Annotated[str, typer.Option(help="Snow load.")] = "0 plf",
    point: Annotated[
        list[str] | None, typer.Option(help='Point load, such as "3200 lb dead at 5 ft"; may be repeated.')
    ] = None,
    unbraced: Annotated[
        str,
        typer.Option(help='Length over which nothing holds the top edge, or "held". Left out: the whole span.'),
    ] = "",
    bearing: Annotated[str, typer.Option(help="Length of beam on each post.")] = "",
    position: Annotated[
        Position | None, typer.Option(help="Under the joists, or within their depth. Left out: flush.")
    ] = None,
    edition: Annotated[
        Edition | None, typer.Option(help="Edition of ASCE 7 that the snow belongs to. Left out: ASCE 7-16.")
    ] = None,
    wet: Annotated[bool, typer.Option("--wet", help="Wet in use.")] = False,
    share: Annotated[bool, typer.Option("--share", help="Count load sharing among three or more plies.")] = False,
) -> None:
    """Enter a span and loads, see utilisations."""
    from beamcheck.catalogue.reading import read_member
    from beamcheck.checks.wood import Conditions
    from beamcheck.errors import all_read
    from beamcheck.study.one_beam import BeamAsked, beam_sheet
    from beamcheck.study.options import StandIns, given, line_source, point_source
    from beamcheck.units import Dimension

    typed = _by_type(dead, live, roof_live, snow)
    points = list(enumerate(point or [], 1))

    def length() -> "Value":
        return given("--span", span, Dimension.LENGTH, least=12.0, most=720.0)

    def free() -> "Value | None":
        return given("--unbraced", unbraced, Dimension.LENGTH, least=1.0) if unbraced not in ("", "held") else None

    def seat() -> "Value | None":
        return given("--bearing", bearing, Dimension.LENGTH, least=0.25, most=48.0) if bearing else None

    def run() -> int:
        all_read(
            length,
            free,
            seat,
            lambda: read_member(member, "--member"),
            *(partial(line_source, option, text, name) for name, (option, text) in typed.items()),
            *(partial(point_source, text, number) for number, text in points),
        )
        lines = [line_source(option, text, name) for name, (option, text) in typed.items()]
        sources = [line for line in lines if line.load_type == "D" or (line.w is not None and line.w.number)]
        sources += [point_source(text, number) for number, text in points]
        whole, stand_ins = length(), StandIns()
        if not unbraced:
            stand_ins.word("--unbraced", "", "top_edge")
        asked = BeamAsked(
            stand_ins.word("--edition", edition, "loads_edition"),
            free() if unbraced else whole,
            seat(),
            stand_ins.word("--position", position, "girder_position"),
            Conditions("wet" if wet else stand_ins.word("--wet", None, "moisture"), "plies" if share else "no"),
        )
        return _show(beam_sheet(read_member(member, "--member"), whole, tuple(sources), asked), stand_ins.notes)

    guard(run)


@app.command(epilog=foot("post"))
def post(
    height: Annotated[str, typer.Option(help='Unbraced height, such as "7 ft 6 in".')],
    member: Annotated[str, typer.Option(help='Such as "6x6 Douglas Fir-Larch No.1".')],
    dead: Annotated[str, typer.Option(help='Dead part of its load, such as "2,100 lb".')],
    live: Annotated[str, typer.Option(help="Live part.")] = "0 lb",
    roof_live: Annotated[str, typer.Option(help="Roof live part.")] = "0 lb",
    snow: Annotated[str, typer.Option(help="Snow part.")] = "0 lb",
    eccentricity: Annotated[
        str, typer.Option(help="How far off its centre the load sits. Left out: a sixth of its side.")
    ] = "",
    held: Annotated[
        Held | None, typer.Option(help="Free-standing, or held by a wall along the beam. Left out: free.")
    ] = None,
    fastening: Annotated[Fastening | None, typer.Option(help="How plies are joined. Left out: not fastened.")] = None,
    plate: Annotated[str, typer.Option(help="Species of the plate under it. Left out: the weakest.")] = "",
    edition: Annotated[
        Edition | None, typer.Option(help="Edition of ASCE 7 that the snow belongs to. Left out: ASCE 7-16.")
    ] = None,
    wet: Annotated[bool, typer.Option("--wet", help="Wet in use.")] = False,
) -> None:
    """Enter a post and its load, see utilisations."""
    from beamcheck.catalogue.reading import read_member
    from beamcheck.checks.wood import Conditions
    from beamcheck.errors import all_read
    from beamcheck.study.one_post import PostAsked, post_sheet
    from beamcheck.study.options import StandIns, given
    from beamcheck.units import Dimension

    typed = _by_type(dead, live, roof_live, snow)

    def tall() -> "Value":
        return given("--height", height, Dimension.LENGTH, least=6.0, most=480.0)

    def off() -> "Value | None":
        return given("--eccentricity", eccentricity, Dimension.LENGTH) if eccentricity else None

    def run() -> int:
        all_read(
            tall,
            off,
            lambda: read_member(member, "--member"),
            *(partial(given, option, text, Dimension.FORCE) for option, text in typed.values()),
        )
        loads = {name: given(option, text, Dimension.FORCE) for name, (option, text) in typed.items()}
        stand_ins = StandIns()
        if not eccentricity:
            stand_ins.word("--eccentricity", None, "post_eccentricity")
        asked = PostAsked(
            stand_ins.word("--edition", edition, "loads_edition"),
            stand_ins.word("--held", held, "post_held"),
            stand_ins.word("--fastening", fastening, "post_fastening"),
            off(),
            stand_ins.word("--plate", plate, "plate_species"),
            Conditions("wet" if wet else stand_ins.word("--wet", None, "moisture")),
        )
        present = {name: load for name, load in loads.items() if name == "D" or load.number}
        return _show(post_sheet(read_member(member, "--member"), tall(), present, asked), stand_ins.notes)

    guard(run)


def _by_type(dead: str, live: str, roof_live: str, snow: str) -> dict[str, tuple[str, str]]:
    """What was typed, with its option, by load type."""
    return {"D": ("--dead", dead), "L": ("--live", live), "Lr": ("--roof-live", roof_live), "S": ("--snow", snow)}


def _show(part: "Sheet", assumed: "tuple[Note, ...]") -> int:
    from beamcheck.trace import Check, Sheet, items
    from beamcheck.views.terminal import part_text

    print(part_text(Sheet(part.key, part.title, (*part.items, *assumed)), screen_width()))
    checks = [item for item in items(part) if isinstance(item, Check)]
    return OVER if any(check.word == "over" for check in checks) else WITHIN
