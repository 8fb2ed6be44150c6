"""On which part of the beam a carried item lies."""

from beamcheck.maths import everywhere
from beamcheck.standards import statics
from beamcheck.survey.model import Carried
from beamcheck.takedown.sources import Reach
from beamcheck.trace import Value, either, taken


def ends(item: Carried, beam: Reach) -> tuple[Value, Value]:
    """The stations between which it lies: its own, or the ends of the beam."""
    far = beam.start.to("in") + beam.length.to("in")
    x_a = item.start if item.start is not None else beam.start
    x_b = item.end if item.end is not None else taken("x_b", far, "right end of the beam", unit="in")
    return x_a, x_b


def shortest_stretch(item: Carried, beam: Reach) -> Value:
    """The shortest piece of one bay on which it lies, bays that it does not reach left aside."""
    x_a, x_b = ends(item, beam)
    pieces = [statics.stretch_in_bay(x_a=x_a, x_b=x_b, x_1=x_1, x_2=x_2) for x_1, x_2 in beam.bays]
    shortest, *rest = [piece for piece in pieces if not everywhere(piece.number <= 0)] or pieces
    for piece in rest:
        nearer = (piece.number > 0) & ((piece.number < shortest.number) | (shortest.number <= 0))
        shortest = either(nearer, piece, shortest)
    return shortest
