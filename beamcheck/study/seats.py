"""How the beam sits on each post: which part of it is seated, and how far off the post's centre.

What contradicts itself raises InputError. What is not known leaves the seat without length and breadth, and
``unknown_seat`` says what would show it.
"""

from beamcheck import units
from beamcheck.catalogue.members import Kind, Member
from beamcheck.checks.beam import Seat
from beamcheck.errors import Fault, InputError
from beamcheck.frozen import replace
from beamcheck.maths import least, most, where
from beamcheck.standards import statics
from beamcheck.survey.model import Post
from beamcheck.trace import Missing, Num, Taken, Value, either, taken

_SLACK = 1e-9


def seat_of(beam: Member, member: Member, post: Post, end: str) -> Seat:
    """Length and breadth of the seat; None for what is not known. Raises InputError for a seat that cannot be."""
    _contradictions(beam, member, post)
    if _need(beam, member, post):
        return Seat(None, None, end)
    length = post.seat_length
    if length is None:
        length = member.b.named("whole side of the post along the beam")
    if post.seat == "notch":
        breadth = _notched(beam, post)
        return Seat(length, breadth, end, statics.eccentricity_in_notch(d_post=member.d, b_seat=breadth))
    side = _side(member, post)
    return Seat(length, _breadth(beam, side, post.eccentricity), end, _forced_off(beam, side, post.eccentricity))


def seat_in_lanes(seat: Seat, beam: Member, member: Member, post: Post) -> Seat:
    """A seat of plies on no notch, where how far off it lies or the plate under it differs from lane to lane."""
    side, told = _side(member, post), post.eccentricity
    count, ply = most(_whole_plies(beam, side, told), 1), beam.b_ply.to("in")
    meets = _meets(beam, side, told)
    lanes = Taken("lane by lane, the plies that lie whole on it")
    breadth = Value(meets.name, least(meets.to("in"), count * ply), "in", lanes)
    if told is not None:
        return replace(seat, breadth=breadth, off=None)
    forced = where((beam.plies - count) % 2 == 0, 0.0, most(0.0, (count + 1) * ply - side.to("in")) / 2)
    return replace(seat, breadth=breadth, off=Value("e", forced, "in", lanes))


def unknown_seat(key: str, beam: Member, member: Member, post: Post) -> Missing | None:
    """What is missing of the seat, if anything."""
    need = _need(beam, member, post)
    return Missing(f"{key}.seat", "How the beam rests on the post", need) if need else None


def hanging_plies(beam: Member, member: Member, post: Post) -> int:
    """How many plies do not rest on the seat with their whole thickness."""
    if beam.plies == 1 or _need(beam, member, post):
        return 0
    if post.seat == "notch":
        return beam.plies - int(post.seated_plies or beam.plies)
    return beam.plies - _whole(beam, _side(member, post), post.eccentricity)


def seat_eccentricity(seat: Seat, post: Post) -> Value | None:
    """How far off centre the load is told to be, of a notch at least as far as its seat; None if neither is known."""
    told = post.eccentricity
    if post.seat != "notch" or seat.off is None:
        return told
    return seat.off if told is None else either(told.to("in") > seat.off.number, told, seat.off)


def _notched(beam: Member, post: Post) -> Value:
    assert post.notch_depth is not None
    if beam.plies == 1:
        return statics.notch_seat(b=beam.b, d_cut=post.notch_depth)
    return _plies(int(post.seated_plies), beam, f"{post.where}.seated_plies")


def _side(member: Member, post: Post) -> Value:
    """The side across the beam of what it rests on: the steel plate, or the post."""
    if post.seat == "steel plate":
        assert post.seat_breadth is not None
        return post.seat_breadth
    return member.d


def _breadth(beam: Member, side: Value, told: Value | None) -> Value:
    """Breadth of the plies that are seated whole; of a beam in one piece, that on which it meets the post."""
    meets = _meets(beam, side, told)
    count = _whole(beam, side, told)
    if beam.plies == count:
        return meets
    where = "that it is broad enough for" if told is None else "that lie whole on it, so far off its centre"
    seated = _plies(max(count, 1), beam, f"the plies {where}")
    return either(meets.number < seated.number, meets, seated)


def _meets(beam: Member, side: Value, told: Value | None) -> Value:
    if told is None:
        return statics.shared_breadth(b=beam.b, d_post=side)
    return statics.lapped_breadth(b=beam.b, d_post=side, e=told)


def _plies(count: int, beam: Member, reason: str) -> Value:
    return statics.breadth_of_plies(n=taken("n", float(count), reason), b_ply=beam.b_ply)


def _forced_off(beam: Member, side: Value, told: Value | None) -> Value | None:
    """How far off centre the plies that are counted put the beam; None as told, or if the middle ones are seated."""
    count = max(_whole(beam, side, told), 1)
    if told is not None or (beam.plies - count) % 2 == 0:
        return None
    n = taken("n", float(count), "plies that are seated whole; one more hangs on one side than on the other")
    return statics.eccentricity_of_plies(n=n, b_ply=beam.b_ply, d_post=side)


def _whole(beam: Member, side: Value, told: Value | None) -> int:
    """Plies that lie on a side with their whole thickness: where the beam is told to lie, else as many as can."""
    return int(_whole_plies(beam, side, told))


def _whole_plies(beam: Member, side: Value, told: Value | None) -> Num:
    if beam.plies == 1:
        return 1
    half, ply = side.to("in") / 2 + _SLACK, beam.b_ply.to("in")
    if told is None:
        return least(beam.plies, 2 * half // ply)
    left = told.to("in") - beam.plies * ply / 2
    edges = [(left + number * ply, left + (number + 1) * ply) for number in range(beam.plies)]
    return sum(1 * ((-half <= start) & (end <= half)) for start, end in edges)


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
    faults += _bad_notch(beam, member, post) if post.seat == "notch" else _beside(beam, member, post)
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


def _beside(beam: Member, member: Member, post: Post) -> list[Fault]:
    """A beam that is told to lie so far off centre that nothing of it is on the post."""
    if post.eccentricity is None or _need(beam, member, post):
        return []
    off, side = float(post.eccentricity.to("in")), float(_side(member, post).to("in"))
    if off < (float(beam.b.to("in")) + side) / 2 - _SLACK:
        return []
    what = f"{units.format_length(off)} off centre puts the beam beside its seat, which is {units.format_length(side)}"
    return [Fault(f"{post.where}.eccentricity", what, "measure from the post's centre to the beam's, across the beam")]


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
