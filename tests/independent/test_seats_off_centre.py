"""Where a beam of plies lies on a post narrower than itself: the plies that bear, and how far off centre they put it.

By hand from the edges of the plies: geometry. The post's own check beside it by NDS 2018 15.4.1, on paper.
"""

import math
import sys
from importlib.resources import files
from pathlib import Path

import pytest

from beamcheck.catalogue.reading import read_member
from beamcheck.errors import InputError
from beamcheck.study.seats import hanging_plies, seat_of
from beamcheck.study.types import Study
from beamcheck.survey.model import Post
from beamcheck.trace import Check, Refer, items

sys.path.insert(0, str(Path(__file__).parent))

from changed_houses import studied

DEMO = files("beamcheck.survey").joinpath("demo.toml").read_text(encoding="utf-8")
PACK = 'eccentricity = { value = "7/8 in", trust = "stated" }'


def made(*changes: tuple[str, str]) -> Study:
    """The demonstration with some of its text changed."""
    return studied(DEMO, *changes)


def post(seat: str, told: str | None) -> Post:
    """The first post of the demonstration with another seat and offset."""
    off = f'\neccentricity = "{told}"' if told is not None else ""
    plate = '\nseat_length = "5 in"\nseat_breadth = "4 in"' if seat == "steel plate" else ""
    old = 'seat = { value = "stud pack", trust = "stated" }'
    return made((old, f'seat = "{seat}"{off}{plate}')).survey.posts[0]


@pytest.mark.parametrize(
    ("beam", "on", "told", "breadth", "off"),
    [
        ("3-ply 1-3/4x14 LVL", "3-ply 2x4 Douglas Fir-Larch No.2", None, 3.5, 0.875),  # (3 x 1.75 - 3.5)/2
        ("3-ply 1-3/4x14 LVL", "3-ply 2x4 Douglas Fir-Larch No.2", "7/8 in", 3.5, None),
        ("3-ply 1-3/4x14 LVL", "3-ply 2x4 Douglas Fir-Larch No.2", "0 in", 1.75, None),  # the middle ply alone
        ("3-ply 1-3/4x14 LVL", "6x6 Douglas Fir-Larch No.1", None, 5.25, None),
        ("3-ply 1-3/4x14 LVL", "6x6 Douglas Fir-Larch No.1", "1/8 in", 5.25, None),  # flush with one face
        ("3-ply 1-3/4x14 LVL", "6x6 Douglas Fir-Larch No.1", "1/4 in", 3.5, None),  # one ply stands over by 1/8 in
        ("4-ply 1-3/4x14 LVL", "3-ply 2x4 Douglas Fir-Larch No.2", None, 3.5, None),  # the two in the middle
        ("4-ply 1-3/4x14 LVL", "6x6 Douglas Fir-Larch No.1", None, 5.25, 0.75),  # (7 - 5.5)/2
        ("2-ply 1-3/4x14 LVL", "2x4 Douglas Fir-Larch No.2", None, 3.5, None),
        ("6x12 Douglas Fir-Larch No.1", "6x6 Douglas Fir-Larch No.1", "1 in", 4.5, None),  # 5.5/2 + 5.5/2 - 1
    ],
)
def test_plies_that_bear_and_how_far_off_they_put_the_beam(
    beam: str, on: str, told: str | None, breadth: float, off: float | None
) -> None:
    """Untold, the beam lies for the most whole plies, and as near to the centre as they let it; told, as told."""
    seat = seat_of(read_member(beam, "beam"), read_member(on, "post[1]"), post("cap", told), "end")
    assert seat.breadth is not None
    assert float(seat.breadth.to("in")) == pytest.approx(breadth)
    assert (None if seat.off is None else float(seat.off.to("in"))) == pytest.approx(off)


def test_a_steel_plate_bears_whole_plies_too() -> None:
    """Of three plies of 1-3/4 in a plate of 4 in bears two; (5.25 - 4)/2 = 5/8 in off its middle."""
    beam, on = read_member("3-ply 1-3/4x14 LVL", "beam"), read_member("Pipe 3 Std", "post[1]")
    told = post("steel plate", None)
    seat = seat_of(beam, on, told, "end")
    assert seat.breadth is not None and seat.off is not None
    assert (float(seat.breadth.to("in")), float(seat.off.to("in"))) == pytest.approx((3.5, 0.625))
    assert hanging_plies(beam, on, told) == 1


def test_a_beam_beside_its_post_is_refused() -> None:
    """Farther off than half of both breadths, (5.25 + 3.5)/2 = 4.375 in, nothing of the beam is on the post."""
    with pytest.raises(InputError) as refused:
        made(('fastening = "nailed"\nseat', 'fastening = "nailed"\neccentricity = "4-3/8 in"\nseat'))
    assert [fault.where for fault in refused.value.faults] == ["post[1].eccentricity"]


def test_the_post_of_the_demonstration_takes_what_its_seat_makes_of_it() -> None:
    """P 5,121 lb, 3-ply 2x4 DF-L No.2, 97.5 in, 7/8 in off: 1.208 on paper, more than a sixth of the side gave."""
    P, A, d, h = 5121.0, 15.75, 3.5, 97.5
    f_c, F_c, F_b = P / A, 1350 * 1.15, 900 * 1.5
    F_cE = 0.822 * 580_000 / (h / d) ** 2
    middle = (1 + F_cE / F_c) / 1.6
    C_P = middle - math.sqrt(middle**2 - F_cE / F_c / 0.8)
    bent = f_c * 6 * 0.875 / d * (1 + 0.234 * f_c / F_cE) / (F_b * (1 - f_c / F_cE))
    hand = (f_c / (F_c * C_P)) ** 2 + bent
    assert hand == pytest.approx(1.208, abs=0.001)
    found = {item.key: item for item in items(made().sheet) if isinstance(item, Check)}
    assert float(found["post[1].eccentric"].ratio) == pytest.approx(hand, rel=1e-3)


def test_an_offset_beyond_the_kern_is_asked_about() -> None:
    """7/8 in is more than 3-1/2 in over six: what stands on one side of the foot unloads (textbook)."""
    asked = {item.key for item in items(made().sheet) if isinstance(item, Refer)}
    assert "post[1].kern" in asked
    assert "post[2].kern" not in asked


def test_told_and_untold_seats_give_the_same_where_they_lie_the_same() -> None:
    """Telling the 7/8 in that the seat makes anyway changes no check of the post."""
    as_told = made(('fastening = "nailed"\nseat', f'fastening = "nailed"\n{PACK}\nseat'))
    ratios = [
        {item.key: float(item.ratio) for item in items(one.sheet) if isinstance(item, Check)}
        for one in (made(), as_told)
    ]
    assert ratios[0] == pytest.approx(ratios[1])
