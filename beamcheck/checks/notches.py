"""A beam notched over its end bearings: how deep the notch may be, and the shear that it leaves (NDS 3.4.3.2, 4.4.3).

The shear is that at the bearing itself: nothing near it is left out. Leaves out: notches between the supports.
"""

from collections.abc import Iterator

from beamcheck.catalogue.members import Kind, Member
from beamcheck.checks import wood
from beamcheck.checks.beam import BeamDesign, EndNotch
from beamcheck.standards import nds_2018 as nds
from beamcheck.tables import Row, lookup
from beamcheck.trace import Check, Value, either, looked, taken


def notched_ends(design: BeamDesign, notch: EndNotch) -> Iterator[Check]:
    """The notch beside the greatest that is allowed, and the shear of both ends under every combination."""
    member, ends = design.member, (0, len(design.loaded.line.supports) - 1)
    title = f"Depth of the notch from {notch.side}"
    yield Check(f"{design.key}.notch", title, notch.d_cut, deepest(member, notch))
    for number, combination in enumerate(design.loaded.combinations):
        limit = _capacity(member, notch, wood.shear(member, combination.C_D, design.at))
        for face in design.loaded.faces(number):
            if face.support in ends:
                yield Check(f"{design.key}.shear_notched", "Shear at the notched end", face.V, limit, face.when)


def deepest(member: Member, notch: EndNotch) -> Value:
    """The greatest notch at an end of the member, by what it is made of."""
    row = _rule(member, notch)
    if row.number("fraction") == 0:
        return taken("d_notch", 0.0, "none but by the product's own report", row.source, "in")
    share = nds.notch_depth(k_cut=looked(row, "fraction", "k_cut"), d=member.d)
    if not row.has("most"):
        return share
    most = looked(row, "most", "d_notch")
    return either(share.number <= most.number, share, most)


def _rule(member: Member, notch: EndNotch) -> Row:
    tension = notch.side == "below"
    match member.kind:
        case Kind.GLULAM:
            product, which = "glulam", f"end, {'tension' if tension else 'compression'} side"
        case Kind.COMPOSITE:
            product, which = "scl", "end, tension side" if tension else "elsewhere"
        case _:
            product, which = "sawn", "end"
    return lookup("nds_2018/notch_limits", product=product, notch=which)


def _capacity(member: Member, notch: EndNotch, F_v_adj: Value) -> Value:
    b, d = member.b, member.d
    d_n = nds.depth_at_notch(d=d, d_cut=notch.d_cut)
    if notch.side == "below":
        return nds.notched_tension_shear(F_v_adj=F_v_adj, b=b, d=d, d_n=d_n)
    reach = d_n.named("reach not told: so far that only the depth at the notch counts")
    return nds.notched_compression_shear(F_v_adj=F_v_adj, b=b, d=d, d_n=d_n, e_n=notch.reach or reach)
