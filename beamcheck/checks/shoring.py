"""Temporary walls: load per foot under each combination, the studs, the top plate, and how far lapped joists reach."""

from itertools import chain

from beamcheck.catalogue.members import Member
from beamcheck.checks import wood
from beamcheck.checks.beam import worst
from beamcheck.checks.post import AxialCase, PostDesign, check_post
from beamcheck.checks.shoring_loads import TemporaryWall
from beamcheck.checks.wood import Conditions
from beamcheck.frozen import dataclass, replace
from beamcheck.standards import nds_2018 as nds
from beamcheck.standards import shoring
from beamcheck.trace import Check, Item, Value, taken

DRY = Conditions()


@dataclass(frozen=True, slots=True, eq=False)
class StudWall:
    """Studs and top plate of a temporary wall, the load per foot under each combination, and spacings.

    rail: whether the studs are held sideways at half height; soft: the lowest value across the grain of what meets
    at the top plate; under_joists: whether each joist has a stud right under it.
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


def at_spacing(cases: tuple[AxialCase, ...], spacing: Value) -> tuple[AxialCase, ...]:
    """Loads per foot gathered at a spacing: by a stud or post, or brought by a joist."""
    return tuple(replace(case, P=shoring.load_at_spacing(w_c=case.P, s_o=spacing)) for case in cases)


def greatest(cases: tuple[AxialCase, ...]) -> Value:
    """The greatest load of all cases."""
    return max((case.P for case in cases), key=lambda value: float(value.number))


def check_studs(wall: StudWall) -> list[Item]:
    """Buckling across the wall over the whole height, and along it between floor, rail and plate; crushing."""
    cases = at_spacing(wall.cases, wall.stud_spacing)
    design = PostDesign(
        "temporary.stud", wall.stud, wall.height, cases, "in wall", "not fastened", None, wall.soft, DRY
    )
    if not wall.rail:
        return _titled(check_post(replace(design, held="free")))
    half = shoring.height_between(h=wall.height)
    between = replace(design, key="temporary.stud_between", height=half, held="free", plate=None)
    return _titled([*check_post(design), *(item for item in check_post(between) if _sideways(item))])


def _sideways(item: Item) -> bool:
    return isinstance(item, Check) and not item.key.endswith((".end_grain", ".slenderness_across"))


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
            where = ", between floor, rail and plate" if item.key.startswith("temporary.stud_between") else ""
            found.append(replace(item, title=f"{title}{where}"))
        else:
            found.append(item)
    return found


def check_plate(wall: StudWall) -> list[Item]:
    """Bending and shear of the top plate between studs, unless each joist has a stud under it; crushing by a joist."""
    assert wall.plate is not None
    cases = at_spacing(wall.cases, wall.joist_spacing)
    items: list[Item] = []
    if not wall.under_joists:
        items.append(worst([_bending(wall, wall.plate, case) for case in cases]))
        items.append(worst([_shear(wall.plate, case) for case in cases]))
    items.append(worst([_crushing(wall, wall.plate, case) for case in cases]))
    return items


def _bending(wall: StudWall, plate: Member, case: AxialCase) -> Check:
    n = taken("n", float(plate.plies), "plies laid flat, each bending by itself")
    S = shoring.stacked_section_modulus(n=n, b=plate.d, d=plate.b_ply)
    M = shoring.plate_moment(P_s=case.P, s_stud=wall.stud_spacing)
    star = nds.bending_star(
        F_b=plate["F_b"],
        C_D=case.C_D,
        C_M=wood.wet_service(plate, "F_b", DRY),
        C_t=wood.temperature(),
        C_F=plate["C_F_b"],
        C_i=wood.incising(),
        C_r=taken("C_r", 1.0, "load sharing among plies is not counted", "NDS 2018 4.3.9"),
    )
    flat = taken("C_fu", 1.0, "flat use would raise it; it is not counted", "NDS 2018 4.3.7")
    held = taken("C_L", 1.0, "not deeper than broad", "NDS 2018 3.3.3.1")
    limit = nds.bending_sawn(F_b_star=star, C_L=held, C_fu=flat)
    stress = nds.bending_stress(M=M, S=S)
    return Check("temporary.plate_bending", "Top plate bending between studs", stress, limit, case.when)


def _shear(plate: Member, case: AxialCase) -> Check:
    stress = nds.shear_stress(V=case.P, b=plate.d, d=plate.b)
    title = "Top plate shear, the whole joist beside one stud"
    return Check("temporary.plate_shear", title, stress, wood.shear(plate, case.C_D, DRY), case.when)


def _crushing(wall: StudWall, plate: Member, case: AxialCase) -> Check:
    stress = nds.bearing_stress(R=case.P, b=wall.joist_breadth, l_b=plate.d)
    C_b = taken("C_b", 1.0, "joist or plate may end there", "NDS 2018 3.10.4")
    limit = wood.pressed(wall.soft, taken("C_M", 1.0, "dry in use"), C_b)
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
