"""Temporary walls: load per foot under each combination, the studs, the top plate, and how far lapped joists reach."""

from collections.abc import Iterable
from itertools import chain

from beamcheck.catalogue.members import Member
from beamcheck.checks import wood
from beamcheck.checks.beam import governing, worst
from beamcheck.checks.post import AxialCase, PostDesign, check_post
from beamcheck.checks.shoring_loads import TemporaryWall
from beamcheck.checks.shoring_points import Spot
from beamcheck.frozen import dataclass, replace
from beamcheck.standards import nds_2018 as nds
from beamcheck.standards import shoring
from beamcheck.trace import Check, Item, Refer, Value, as_one, taken

BETWEEN = ", between floor, rail and plate"
UNDER = ", under a point load"


@dataclass(frozen=True, slots=True, eq=False)
class StudWall:
    """Studs and top plate of a temporary wall, the load per foot under each combination, and spacings.

    rail: whether the studs are held sideways at half height; soft: the lowest value across the grain of what meets
    at the top plate; under_joists: whether each joist has a stud right under it; spots: where point loads come down;
    point_stud: what stands right under each of them, None for one of the studs wherever that is.
    """

    cases: tuple[AxialCase, ...]
    height: Value
    stud: Member
    stud_spacing: Value
    rail: bool
    plate: Member | None
    soft: Value
    joist_spacing: Value
    joist_breadth: Value
    under_joists: bool
    spots: tuple[Spot, ...] = ()
    point_stud: Member | None = None


def at_spacing(cases: tuple[AxialCase, ...], spacing: Value) -> tuple[AxialCase, ...]:
    """Loads per foot gathered at a spacing: by a stud or post, or brought by a joist."""
    return tuple(replace(case, P=shoring.load_at_spacing(w_c=case.P, s_o=spacing)) for case in cases)


def greatest(cases: tuple[AxialCase, ...]) -> Value:
    """The greatest load of all cases."""
    return max((case.P for case in cases), key=lambda value: float(value.number))


def check_studs(wall: StudWall) -> list[Item]:
    """The studs under what lies all along the wall, and the one under each point load, which takes the whole of it."""
    cases = at_spacing(wall.cases, wall.stud_spacing)
    items = _titled(_stud(wall, "temporary.stud", cases))
    under = replace(wall, stud=wall.point_stud or wall.stud)
    for spot in wall.spots:
        pointed = _titled(_stud(under, "temporary.point_stud", spot.under(cases)))
        checks = (_pointed(item) for item in pointed if isinstance(item, Check))
        items += governing(item for item in checks if wall.point_stud is not None or not _of_shape(item))
        items += [item for item in pointed if isinstance(item, Refer)]
    return items


def _pointed(check: Check) -> Check:
    """A check of the stud under a point load: of its two ways to buckle the worse one stands for both."""
    title = check.title.replace(BETWEEN, "")
    return replace(check, key=check.key.replace("_between.", "."), title=f"{title}{UNDER}")


def _stud(wall: StudWall, key: str, cases: tuple[AxialCase, ...]) -> list[Item]:
    """Buckling across the wall over the whole height, and along it between floor, rail and plate; crushing."""
    design = PostDesign(key, wall.stud, wall.height, cases, "in wall", "not fastened", None, wall.soft, wood.DRY)
    if not wall.rail:
        return list(check_post(replace(design, held="free")))
    half = shoring.height_between(h=wall.height)
    between = replace(design, key=f"{key}_between", height=half, held="free", plate=None)
    return [*check_post(design), *(item for item in check_post(between) if _sideways(item))]


def _sideways(item: Item) -> bool:
    return isinstance(item, Check) and not item.key.endswith((".end_grain", ".slenderness_across"))


def _of_shape(check: Check) -> bool:
    """Whether a check says the same of every stud, whatever its load."""
    return ".slenderness_" in check.key


def worst_of_sides(found: Iterable[Item]) -> list[Item]:
    """The worst check of each key, whichever wall it is of, and each stop once."""
    items = list(found)
    stops = {item.key: item for item in items if isinstance(item, Refer)}
    return [*governing(item for item in items if isinstance(item, Check)), *stops.values()]


def _titled(items: tuple[Item, ...] | list[Item]) -> list[Item]:
    """The checks of a post under the name of a stud."""
    told = {
        "Post buckling": "Stud buckling",
        "Post with": "Stud with",
        "under the post": "at the stud",
        "across the beam": "across the wall",
        "along the beam": "along the wall",
    }
    found: list[Item] = []
    for item in items:
        if isinstance(item, Check):
            title = item.title
            for old, new in told.items():
                title = title.replace(old, new)
            where = BETWEEN if "_between." in item.key else ""
            found.append(replace(item, title=f"{title}{where}"))
        else:
            found.append(item)
    return found


def check_plate(wall: StudWall) -> list[Item]:
    """The top plate under one joist, and under the joist that brings each point load, the whole of it."""
    assert wall.plate is not None
    cases = at_spacing(wall.cases, wall.joist_spacing)
    items: list[Item] = [*_plate(wall, wall.plate, cases)]
    under = replace(wall, under_joists=wall.under_joists or wall.point_stud is not None)
    for spot in wall.spots:
        for check in _plate(under, wall.plate, spot.under(cases)):
            key = check.key.replace("temporary.plate_", "temporary.point_plate_")
            items.append(replace(check, key=key, title=f"{check.title}{UNDER}"))
    return items


def _plate(wall: StudWall, plate: Member, cases: tuple[AxialCase, ...]) -> list[Check]:
    """Bending and shear of the top plate between studs, unless each joist has a stud under it; crushing by a joist."""
    found: list[Check] = []
    if not wall.under_joists:
        found.append(worst([_bending(wall, plate, case) for case in cases]))
        found.append(worst([_shear(plate, case) for case in cases]))
    return [*found, worst([_crushing(wall, plate, case) for case in cases])]


def _bending(wall: StudWall, plate: Member, case: AxialCase) -> Check:
    n = taken("n", float(plate.plies), "plies laid flat, each bending by itself")
    S = shoring.stacked_section_modulus(n=n, b=plate.d, d=plate.b_ply)
    M = shoring.plate_moment(P_s=case.P, s_stud=wall.stud_spacing)
    star = nds.bending_star(
        F_b=plate["F_b"],
        C_D=case.C_D,
        C_M=wood.wet_service(plate, "F_b", wood.DRY),
        C_t=wood.temperature(),
        C_F=plate["C_F_b"],
        C_i=wood.incising(),
        C_r=as_one("C_r", "load sharing among plies is not counted", "NDS 2018 4.3.9"),
    )
    flat = as_one("C_fu", "flat use would raise it; it is not counted", "NDS 2018 4.3.7")
    held = as_one("C_L", "not deeper than broad", "NDS 2018 3.3.3.1")
    limit = nds.bending_sawn(F_b_star=star, C_L=held, C_fu=flat)
    stress = nds.bending_stress(M=M, S=S)
    return Check("temporary.plate_bending", "Top plate bending between studs", stress, limit, case.when)


def _shear(plate: Member, case: AxialCase) -> Check:
    stress = nds.shear_stress(V=case.P, b=plate.d, d=plate.b)
    title = "Top plate shear, the whole joist beside one stud"
    return Check("temporary.plate_shear", title, stress, wood.shear(plate, case.C_D, wood.DRY), case.when)


def _crushing(wall: StudWall, plate: Member, case: AxialCase) -> Check:
    stress = nds.bearing_stress(R=case.P, b=wall.joist_breadth, l_b=plate.d)
    C_b = as_one("C_b", "joist or plate may end there", "NDS 2018 3.10.4")
    limit = wood.pressed(wall.soft, as_one("C_M", "dry in use"), C_b)
    return Check("temporary.plate_crushing", "Joist and top plate crushing each other", stress, limit, case.when)


def check_reach(a_set: Value, plate_width: Value, lap: Value) -> Check:
    """Whether joists of the other side run far enough past the old wall to rest on the only temporary wall."""
    needed = shoring.reach_needed(a_set=a_set, b_plate=plate_width)
    return Check("temporary.reach", "Lapped joists reach the only temporary wall", needed, lap)


def softest(*found: Value) -> Value:
    """The lowest of several values across the grain: the layer that crushes first."""
    return min(found, key=lambda value: float(value.number))


def types_present(walls: tuple[TemporaryWall, ...]) -> frozenset[str]:
    """Load types that act on any temporary wall."""
    return frozenset(source.load_type for source in chain.from_iterable((*wall.rows, *wall.points) for wall in walls))
