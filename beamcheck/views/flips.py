"""Where a figure tips a link, in words: the printed figure is one with which the link is not over 1.00."""

from beamcheck.explore.margins import Flip
from beamcheck.trace import Value
from beamcheck.views.words import figure, last_figure


def beyond(flip: Flip, dimensions: str) -> str:
    """From where on the link is over, or within again: "more than 21.5 psf", "9 ft 2 in or less"."""
    value = flip.input.value
    more = flip.at > flip.input.likely
    over = flip.goes == "over"
    at = Value(value.name, flip.at, value.unit, value.origin)
    last = figure(last_figure(at, -1 if more == over else 1, dimensions), dimensions)
    if over:
        return f"{'more' if more else 'less'} than {last}"
    return f"{last} or {'more' if more else 'less'}"


def tips(flip: Flip) -> str:
    """What the link does there."""
    return "goes over" if flip.goes == "over" else "comes back within 1.00"
