"""Roof live load and snow on the roof that the wall carries, by the edition that the ground snow belongs to."""

from beamcheck.errors import OutOfRange
from beamcheck.standards import asce7_16, asce7_22, statics
from beamcheck.survey.model import Site
from beamcheck.tables import lookup
from beamcheck.takedown.sources import EDITIONS
from beamcheck.trace import Value, either, looked

_ORDINARY = {"asce7_16": {"rule": "all risk categories"}, "asce7_22": {"risk_category": "II"}}


def roof_snow(site: Site, theta: Value) -> Value:
    """Balanced snow on the roof's horizontal projection, the low-slope minimum where it is greater.

    Raises OutOfRange where the ground snow is not known.
    """
    if site.ground_snow is None:
        raise OutOfRange("site.ground_snow: the ground snow load is not known; ask the building department")
    folder = EDITIONS[site.loads]
    C_e = looked(lookup(f"{folder}/snow", item=f"C_e {site.exposure}"), "factor", "C_e")
    C_t = looked(lookup(f"{folder}/snow", item=f"C_t {site.roof_warmth}"), "factor", "C_t_snow")
    minimum = lookup(f"{folder}/snow_minimum", **_ORDINARY[folder])
    p_m_max = looked(minimum, "p_m_max")
    if folder == "asce7_22":
        p_f = asce7_22.flat_roof_snow(C_e=C_e, C_t_snow=C_t, p_g=site.ground_snow)
        least = asce7_22.minimum_snow(p_g=site.ground_snow, p_m_max=p_m_max)
    else:
        I_s = looked(lookup(f"{folder}/snow", item="I_s risk category II"), "factor", "I_s")
        p_f = asce7_16.flat_roof_snow(C_e=C_e, C_t_snow=C_t, I_s=I_s, p_g=site.ground_snow)
        least = asce7_16.minimum_snow(I_s=I_s, p_g=site.ground_snow, p_m_max=p_m_max)
    line = lookup(f"{folder}/snow_slope", thermal=_thermal(C_t.number), surface=site.roof_surface)
    C_s = asce7_16.roof_slope(
        theta=theta, theta_0=looked(line, "full_to", "theta_0"), theta_run=looked(line, "run", "theta_run")
    )
    balanced = asce7_16.sloped_roof_snow(C_s=C_s, p_f=p_f)
    low = theta.number < minimum.number("slope_limit")
    return either(low & (least.number > balanced.number), least, balanced)


def roof_live(site: Site, theta: Value, A_T: Value) -> Value:
    """Roof live load on the horizontal projection, reduced for area and slope.

    A_T: what the member gathers; of a line on several posts the least that any of its members does.
    """
    L_o = looked(lookup(f"{EDITIONS[site.loads]}/live_roof", rule="ordinary roof"), "L_o")
    R_1 = asce7_16.roof_live_area(A_T=A_T)
    R_2 = asce7_16.roof_live_slope(F_r=statics.rise_in_twelve(theta=theta))
    return asce7_16.roof_live(L_o=L_o, R_1=R_1, R_2=R_2)


def _thermal(C_t: float) -> str:
    """The line of the slope figure: warm up to 1.0, 1.1 between, cold from 1.2 on; between lines the colder one."""
    if C_t <= 1.0:
        return "C_t<=1.0"
    return "C_t=1.1" if C_t <= 1.1 else "C_t>=1.2"
