"""Turns of the drive wheel as a document."""

from evenstand.engine.drill.safety import BEFORE_TURNING
from evenstand.engine.quantities.units import LENGTH, SECONDS, TURNS
from evenstand.engine.statistics.budget import nominal
from evenstand.report.document import Document
from evenstand.report.pen import Pen

from ..calibration.turns import Turns
from .parts import points, taken, working

FRACTIONS = ((1, 2, "½"), (1, 3, "⅓"), (2, 3, "⅔"), (1, 4, "¼"), (3, 4, "¾"))
NEAR = 0.02  # turns; a mark on the tire is not read closer


def turns_shown(found: Turns, pen: Pen) -> Document:
    """Tell what to turn."""
    course = found.course
    turns = nominal(course.turns)
    distance, width = (
        pen.write(LENGTH(nominal(length), 4)) for length in (course.distance, course.width)
    )
    rest = f"They cover {distance} at a width of {width}."
    if found.seconds is not None:
        rest += f" Turn at a steady {pen.write(SECONDS(found.seconds, 2))} per turn."
    counted = pen.write(TURNS(turns, 4)) + _as_marked(turns)
    return Document(
        title="Turns",
        lead=f"Make {counted} of the drive wheel.",
        also=rest,
        notes=(points(pen, BEFORE_TURNING, alert=True),),
        sections=tuple(taken(pen, found.assumed)),
        working=working(pen, course.working, "turns"),
    )


def _as_marked(turns: float) -> str:
    """Write a turn count with the fraction of a turn that it is next to."""
    whole, part = divmod(turns, 1)
    for above, below, sign in FRACTIONS:
        if abs(part - above / below) < NEAR:
            return f" ({int(whole)}{sign})"
    return ""
