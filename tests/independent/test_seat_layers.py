"""The layers under a beam by hand: the steel plate that nobody measured, and the one that is there."""

import math

import pytest

from beamcheck.catalogue.reading import read_member
from beamcheck.checks.beam import Seat
from beamcheck.checks.post import AxialCase
from beamcheck.checks.seat import SeatDesign, check_seat
from beamcheck.checks.wood import Conditions
from beamcheck.trace import Check, Item, Value, taken


def figure(name: str, number: float, unit: str) -> Value:
    """A figure for a test."""
    return taken(name, number, "a figure for a test", unit=unit)


def seated(length: float, across: float | None, thickness: float | None) -> tuple[Item, ...]:
    """The layers of a beam 3-1/2 in broad on a steel plate on a 4x6 post, its load 6,000 or 9,000 lb."""
    C_D = figure("C_D", 1.0, "1")
    return check_seat(
        SeatDesign(
            "post[1]",
            "steel plate",
            read_member("4x6 Douglas Fir-Larch No.2", "post[1].member"),
            Seat(figure("l_b", length, "in"), figure("b_seat", 3.5, "in")),
            (AxialCase(figure("P", 6000.0, "lb"), C_D, "D"), AxialCase(figure("P", 9000.0, "lb"), C_D, "D + L")),
            None,
            Conditions(),
            None if thickness is None else figure("t", thickness, "in"),
            None if across is None else figure("b_plate", across, "in"),
        )
    )


@pytest.mark.parametrize(("length", "across"), [(8.0, 6.0), (4.0, 9.5), (6.5, 8.5)])
def test_a_steel_plate_bends_beyond_the_post(length: float, across: float) -> None:
    """The longer reach beyond a 3-1/2 x 5-1/2 in post is a cantilever: f c^2/2 = F_y t^2/(4 x 1.67), F_y 36 ksi."""
    reach, pressure = max((length - 3.5) / 2, (across - 5.5) / 2), 9000 / (3.5 * length)
    needed = math.sqrt(pressure * reach**2 / 2 * 4 * 1.67 / 36_000)
    (told,) = (item for item in seated(length, across, None) if isinstance(item, Value) and item.unit == "in")
    assert told.number == pytest.approx(needed)
    (check,) = (item for item in seated(length, across, 0.75) if getattr(item, "key", "").endswith("plate_thickness"))
    assert isinstance(check, Check)
    assert (check.demand.number, check.limit.number) == (pytest.approx(needed), 0.75)
    assert check.when == "D + L"


def test_a_plate_that_is_measured_is_not_asked_for() -> None:
    """A plate of known thickness is checked and no other thickness is told; an unknown one is told and not checked."""
    measured, unknown = seated(8.0, 6.0, 0.75), seated(8.0, 6.0, None)
    assert not [item for item in measured if isinstance(item, Value) and item.unit == "in"]
    assert not [item for item in unknown if isinstance(item, Check) and "plate_thickness" in item.key]


@pytest.mark.parametrize("thickness", [None, 0.75])
def test_a_plate_of_unknown_breadth_is_not_judged(thickness: float | None) -> None:
    """How far a plate reaches decides its thickness: where that is not known, none is told or checked."""
    items = seated(8.0, None, thickness)
    assert not [item for item in items if isinstance(item, Value) and item.unit == "in"]
    assert not [item for item in items if isinstance(item, Check) and "plate_thickness" in item.key]
