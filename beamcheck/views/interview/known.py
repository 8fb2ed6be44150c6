"""How an answer is known: one key for the trust, and on request a range and a note."""

from collections.abc import Mapping
from types import MappingProxyType

from beamcheck.trace import Trust
from beamcheck.views.interview.order import Answer, Ask, Step
from beamcheck.views.interview.replies import Change, Said, command, first_fault
from beamcheck.views.interview.voice import Voice

# entries of which it is asked; of plans and names it is not
ASKED_HOW: Mapping[str, tuple[str, ...]] = MappingProxyType({
    "wall": ("clear_opening", "ceiling_height", "thickness", "house_width", "no_other"),
    "carried": (
        "from", "to", "span_a", "span_b", "continuity", "spacing", "dead", "live", "pitch", "area", "height", "weight",
        "layers", "station", "dead_load", "live_load", "roof_live_load", "snow_load",
        "dead_line", "live_line", "roof_live_line", "snow_line",
    ),
    "site": ("loads", "ground_snow", "exposure", "roof_warmth", "roof_surface", "soil_bearing"),
    "beam": ("moisture", "ceiling_below", "floor_above"),
    "post": ("height", "stands_on"),
    "girder": ("supports", "post_stations", "bearing_length", "position", "top_edge", "moisture", "span_a", "span_b",
               "continuity", "dead", "live", "dead_line", "live_line", "roof_live_line", "snow_line"),
    "pad": ("length", "breadth", "thickness", "depth", "strength", "pier_length", "pier_breadth", "pier_height",
            "pier_material"),
    "ties": ("span", "pitch", "spacing", "dead"),
    "temporary": ("lap", "joist_spacing", "joist_breadth", "stands_on"),
    "room": ("door_width", "turn_width", "straight_run"),
    "neighbour": ("gap",),
    "heavy": ("weight", "top_layers", "top_area", "along", "across", "joist_span", "joist_spacing", "dead", "finish"),
    "other_wall": ("length", "distance", "braced"),
})  # fmt: skip

_TRUSTS = MappingProxyType({"m": Trust.MEASURED, "s": Trust.SEEN, "l": Trust.LOOKED_UP, "t": Trust.STATED})
_PROMPT = "how known: m, s, l or Enter"
_EXTRAS = (
    ("r", "low", "least it may be"),
    ("r", "high", "most it may be"),
    ("n", "note", "note"),
)
KEYS = (
    ("", "How do you know it? One letter says so to the engineer:"),
    ("m", "measured, with a tape, a level or a scale"),
    ("s", "seen with your own eyes, but not measured"),
    ("l", "looked up in a paper, or asked at an office"),
    ("Enter", "stated: told, remembered or planned; it claims least"),
    ("r", "adds the least and the most that a figure may be: mr is measured, with a range"),
    ("n", "adds a note, such as where it was measured: sn is seen, with a note"),
)


def asked_how(step: Step) -> bool:
    """Whether it is asked how the answer is known."""
    if step.ask is not Ask.ENTRY or step.section is None:
        return False
    return step.field.key in ASKED_HOW.get(step.section.key, ())


def how_known(voice: Voice, step: Step, answer: Answer) -> Answer | Said | Change:
    """The answer with how it is known; ``back`` where the answer itself is to be given again."""
    ranged = step.field.dimension is not None and not step.field.many
    while True:
        line = voice.ask(_PROMPT)
        typed = command(line)
        if typed is Said.MORE:
            voice.points(KEYS)
            continue
        if typed is not None and typed is not Said.REVIEW:
            return typed
        keys = _keys(line)
        if not _fit(keys, "mslt" + ("rn" if ranged else "n")):
            voice.say("write  m, s, l  or  t, or nothing for stated;  ?  says more", "  ")
            continue
        trust = next((trust for key, trust in _TRUSTS.items() if key in keys), Trust.STATED)
        fuller = _extended(voice, step, answer._replace(trust=trust), keys)
        if fuller is not Said.BACK:
            return fuller


def _keys(line: str) -> str:
    text = " ".join(line.casefold().split())
    return next((key for key, trust in _TRUSTS.items() if text == trust), text.replace(" ", "").replace(",", ""))


def _fit(keys: str, allowed: str) -> bool:
    once = len(set(keys)) == len(keys) and set(keys) <= set(allowed)
    return once and sum(key in _TRUSTS for key in keys) <= 1


def _extended(voice: Voice, step: Step, answer: Answer, keys: str) -> Answer | Said:
    """The answer with the range and the note asked for."""
    for key, part, prompt in _EXTRAS:
        while key in keys:
            line = voice.ask(f"{prompt} [Enter leaves it out]")
            typed = command(line)
            if typed is Said.QUIT or typed is Said.BACK:
                return typed
            fuller = answer._replace(**{part: line.strip()})
            fault = first_fault(step, fuller)
            if fault is None:
                answer = fuller
                break
            voice.say(f"{fault.what}; {fault.mend}", "  ")
    return answer
