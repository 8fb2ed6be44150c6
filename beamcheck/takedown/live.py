"""Live load of what is carried: as the owner or the table has it, and what of it the beam is checked for."""

from beamcheck.standards import asce7_16, statics
from beamcheck.survey.model import Carried, Site
from beamcheck.tables import lookup
from beamcheck.takedown.extent import shortest_stretch
from beamcheck.takedown.sources import EDITIONS, Reach
from beamcheck.trace import Value, either, looked

BY_AREA = "by area"


def live_of(item: Carried) -> Value:
    """Live load of a floor or attic: the owner's figure, or the table's for the use."""
    if item.live is not None:
        return item.live
    return looked(lookup("irc_2021/live_loads", use=item.use), "q", "q_L")


def live_on_beam(item: Carried, site: Site, beam: Reach, t_w: Value) -> Value:
    """Live load of a floor on the beam, reduced for the area that the beam gathers where the survey asks for it.

    The area is that of the shortest bay: what a longer bay, or a post, could be spared beyond that is left out. So is
    the lower bound for members under two floors and more.
    """
    L_o = live_of(item)
    if item.live_reduction != BY_AREA:
        return L_o
    row = lookup(f"{EDITIONS[site.loads]}/live_reduction", member="interior beam")
    reduced = asce7_16.reduced_live(
        L_o=L_o,
        K_LL=looked(row, "K_LL"),
        A_T=statics.gathered_area(t_w=t_w, l=shortest_stretch(item, beam)),
        k_floor=looked(row, "one_floor", "k_floor"),
    )
    return either(L_o.to("psf") <= row.number("live_most"), reduced, L_o)
