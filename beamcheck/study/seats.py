"""How the beam sits on each post: which part of it is seated, and how far off the post's centre.

What contradicts itself raises InputError. What is not known leaves the seat without length and breadth, and
``unknown_seat`` says what would show it.
"""

from beamcheck import units
from beamcheck.catalogue.members import Kind, Member
from beamcheck.checks.beam import Seat
from beamcheck.errors import Fault, InputError
from beamcheck.standards import statics
from beamcheck.survey.model import Post
from beamcheck.trace import Missing, Value, either, taken

_SLACK = 1e-9


def seat_of(beam: Member, member: Member, post: Post, end: str) -> Seat:
    """Length and breadth of the seat; None for what is not known. Raises InputError for a seat that cannot be."""
    _contradictions(beam, member, post)
    if _need(beam, member, post):
        return Seat(None, None, end)
    if post.seat == "steel plate":
        assert post.seat_breadth is not None
        return Seat(post.seat_length, statics.shared_breadth(b=beam.b, d_post=post.seat_breadth), end)
    length = post.seat_length
    if length is None:
        length = member.b.named("whole side of the post along the beam")
    return Seat(length, _breadth(beam, member, post), end)


def unknown_seat(key: str, beam: Member, member: Member, post: Post) -> Missing | None:
    """What is missing of the seat, if anything."""
    need = _need(beam, member, post)
    return Missing(f"{key}.seat", "How the beam rests on the post", need) if need else None


def hanging_plies(beam: Member, member: Member, post: Post) -> int:
    """How many plies do not rest on the seat with their whole thickness."""
    if beam.plies == 1 or post.seat in ("", "unknown"):
        return 0
    if post.seat == "notch":
        return beam.plies - int(post.seated_plies or beam.plies)
    side = post.seat_breadth if post.seat == "steel plate" else member.d
    return 0 if side is None else beam.plies - _whole(beam, float(side.to("in")))


def seat_eccentricity(seat: Seat, member: Member, post: Post) -> Value | None:
    """How far off centre the load is: of a notch from its seat, else as told; None if neither is known."""
    told = post.eccentricity
    if post.seat != "notch" or seat.breadth is None:
        return told
    e = statics.eccentricity_in_notch(d_post=member.d, b_seat=seat.breadth)
    return e if told is None else either(told.to("in") > e.number, told, e)


def _breadth(beam: Member, member: Member, post: Post) -> Value:
    if post.seat == "notch":
        assert post.notch_depth is not None
        if beam.plies == 1:
            return statics.notch_seat(b=beam.b, d_cut=post.notch_depth)
        return _plies(int(post.seated_plies), beam, f"{post.where}.seated_plies")
    if not hanging_plies(beam, member, post):
        return statics.shared_breadth(b=beam.b, d_post=member.d)
    return _plies(_whole(beam, float(member.d.to("in"))), beam, "the plies that the post is broad enough for")


def _plies(count: int, beam: Member, reason: str) -> Value:
    return statics.breadth_of_plies(n=taken("n", float(count), reason), b_ply=beam.b_ply)


def _whole(beam: Member, side: float) -> int:
    """Plies that lie on a side with their whole thickness, one at least."""
    return min(beam.plies, max(1, int((side + _SLACK) // float(beam.b_ply.to("in")))))


def _need(beam: Member, member: Member, post: Post) -> str:
    """What would show the seat; empty if it is known."""
    if post.seat in ("", "unknown"):
        return f"say in {post.where}.seat how the beam rests on this post"
    if post.seat == "steel plate":
        if post.seat_length is None or post.seat_breadth is None:
            return f"measure the steel plate: {post.where}.seat_length along the beam, seat_breadth across it"
        return ""
    if member.kind is Kind.STEEL:
        return f'a steel post needs a plate under the beam: {post.where}.seat = "steel plate" and its size'
    if post.seat == "notch":
        if post.notch_depth is None:
            return f"measure {post.where}.notch_depth, how deep the notch goes into the post"
        if beam.plies > 1 and not post.seated_plies:
            return f"count {post.where}.seated_plies, the plies that rest on the seat with their whole thickness"
    return ""


def _contradictions(beam: Member, member: Member, post: Post) -> None:
    if post.seat in ("", "unknown"):
        return
    faults = [] if post.seat == "steel plate" else _too_long(member, post)
    faults += _bad_notch(beam, member, post) if post.seat == "notch" else []
    faults += _strange(post, "steel plate", ("seat_breadth", "seat_thickness"))
    faults += _strange(post, "notch", ("notch_depth", "seated_plies"))
    if faults:
        raise InputError(faults)


def _strange(post: Post, kind: str, keys: tuple[str, ...]) -> list[Fault]:
    """Entries that belong to another kind of seat than the one told."""
    told = [key for key in keys if post.seat != kind and getattr(post, key) not in (None, "")]
    mend = f'leave it out, or write {post.where}.seat = "{kind}"'
    return [Fault(f"{post.where}.{key}", f"goes with a {kind}, and the seat is a {post.seat}", mend) for key in told]


def _too_long(member: Member, post: Post) -> list[Fault]:
    if post.seat_length is None:
        return []
    side, rests = float(member.b.to("in")), float(post.seat_length.to("in"))
    if rests <= side + _SLACK:
        return []
    longer = f"{units.format_length(rests)} is longer than the post's side of {units.format_length(side)}"
    mend = 'the seat cannot be longer than the post, unless it is a "steel plate"'
    return [Fault(f"{post.where}.seat_length", f"{longer} along the beam", mend)]


def _bad_notch(beam: Member, member: Member, post: Post) -> list[Fault]:
    if post.notch_depth is None:
        return []
    cut, side = float(post.notch_depth.to("in")), float(member.d.to("in"))
    if cut >= side - _SLACK:
        what = f"{units.format_length(cut)} goes through the post, whose side is {units.format_length(side)}"
        return [Fault(f"{post.where}.notch_depth", what, "measure across the beam; a seat on the whole post is a cap")]
    if not post.seated_plies or beam.plies == 1:
        return []
    count = int(post.seated_plies)
    if count > beam.plies:
        what = f"{count} plies, and the beam has {beam.plies}"
        return [Fault(f"{post.where}.seated_plies", what, "count the plies that rest on the seat")]
    broad = count * float(beam.b_ply.to("in"))
    if broad > cut + _SLACK:
        what = f"{count} plies are {units.format_length(broad)} broad, and the notch is {units.format_length(cut)} deep"
        return [Fault(f"{post.where}.seated_plies", what, "count only plies that rest with their whole thickness")]
    return []
