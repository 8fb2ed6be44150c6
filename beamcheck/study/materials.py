"""Wood or steel: the checks, the weight and the movements of a member, whatever it is made of."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from beamcheck.catalogue.members import Kind, Member
from beamcheck.catalogue.steel import is_w_shape
from beamcheck.checks import beam as wood_beams
from beamcheck.checks.beam import BeamDesign
from beamcheck.errors import Fault, InputError
from beamcheck.standards import nds_2018 as nds
from beamcheck.standards import statics
from beamcheck.takedown.sources import LOAD_WORDS
from beamcheck.trace import Item, Value

if TYPE_CHECKING:
    from beamcheck.checks.post import PostDesign

_SHAPES = "a beam of steel is a W shape, a post of steel a pipe or a tube"


def check_any_beam(design: BeamDesign) -> tuple[Item, ...]:
    """Every check of a beam of wood or of steel."""
    if design.member.kind is not Kind.STEEL:
        return wood_beams.check_beam(design)
    from beamcheck.checks.steel import check_steel_beam

    return check_steel_beam(design)


def check_any_post(design: PostDesign) -> tuple[Item, ...]:
    """Every check of a post of wood or of steel."""
    if design.member.kind is not Kind.STEEL:
        from beamcheck.checks.post import check_post

        return check_post(design)
    from beamcheck.checks.steel_post import check_steel_post, steel_post

    return check_steel_post(steel_post(design))


def own_weight(member: Member) -> Value:
    """Weight per foot of a beam, all plies together."""
    if member.density is None:
        return member["W"]
    return statics.self_weight(gamma=member.density, A=nds.area(b=member.b, d=member.d))


def as_beam(member: Member, where: str) -> Member:
    """The member, if it can be a beam. Raises InputError for a pipe or a tube."""
    if member.kind is Kind.STEEL and not is_w_shape(member):
        raise InputError([Fault(where, f"{member.text!r} is no beam that can be checked", _SHAPES)])
    return member


def as_post(member: Member, where: str) -> Member:
    """The member, if it can be a post. Raises InputError for a W shape."""
    if is_w_shape(member):
        raise InputError([Fault(where, f"{member.text!r} is no post that can be checked", _SHAPES)])
    return member


def movements(design: BeamDesign, bay: int) -> Iterator[tuple[str, Value]]:
    """How far a bay moves, and when: as the shoring goes, under each live load, and, of wood, in the long run."""
    steel = design.member.kind is Kind.STEEL
    if steel:
        from beamcheck.checks.steel import movement
    else:
        movement = wood_beams.movement
    drop = movement(design, {"D": 1.0}, bay)
    yield "when the temporary support is let go (dead load)", drop
    for name in design.loaded.transient:
        yield f"down and up again under {LOAD_WORDS[name]} load", movement(design, {name: 1.0}, bay)
    if not steel:
        nothing = movement(design, {}, bay)
        creep = wood_beams.creep(design)
        yield "after years, with creep (dead load)", nds.total_deflection(K_cr=creep, delta_LT=drop, delta_ST=nothing)
