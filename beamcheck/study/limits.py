"""Which deflection limits apply to what the beam carries and to the finishes on it."""

from beamcheck.survey.model import Survey
from beamcheck.tables import Row, lookup


def deflection_rows(survey: Survey) -> tuple[Row, ...]:
    """Rows of the deflection tables that apply to what the beam carries and to the finishes on it."""
    floors = any(item.kind == "floor" for item in survey.carried)
    rows = []
    if floors:
        rows.append(lookup("irc_2021/deflection", member="floors"))
    ceiling = {"plaster": "ceilings, plaster or stucco", "gypsum": "ceilings, gypsum board"}.get(
        survey.beam.ceiling_below
    )
    if ceiling and not (floors and ceiling.endswith("gypsum board")):
        rows.append(lookup("irc_2021/deflection", member=ceiling))
    if not rows:
        rows.append(lookup("irc_2021/deflection", member="all other structural members"))
    rows.append(lookup("ibc_2021/deflection", member="floor member", load="D+L"))
    if floors and survey.beam.floor_above == "stone":
        rows.append(lookup("practice/deflection", member="floor under stone"))
    first = {(row.text("load"), row.number("n")): row for row in reversed(rows)}
    return tuple(row for row in rows if row in first.values())
