"""What to turn: the ground to stand for, the wheel turns, and their pace."""

from dataclasses import dataclass
from typing import Annotated

from ..quantities.errors import require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import FIELD as FIELD_AREA
from ..quantities.units import (
    LENGTH,
    NUMBER,
    ROWS,
    SECONDS,
    SHARE,
    SPACING,
    SPEED,
    TRAVEL,
    TURNS,
    Terms,
)
from ..quantities.working import PRACTICE, Line
from ..statistics.budget import Quantity, nominal
from .drill import Drill
from .travel import Wheel


def seconds_per_turn(wheel: Wheel, speed: float) -> float:
    """Time one wheel turn takes at field speed.

    t = ground per turn ÷ speed

    Parameters
    ----------
    speed : float
        Planned speed. [m/s]

    Returns
    -------
    float [s/turn]
    """
    require_positive("speed", speed, "m/s")
    return nominal(wheel.ground) / speed


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """What to turn: width, ground to stand for, wheel turns, and the working."""

    width: Annotated[Quantity, LENGTH]
    distance: Annotated[Quantity, LENGTH]
    turns: Annotated[Quantity, TURNS]
    working: tuple[Line, ...]
    assumed: tuple[Phrase, ...]


def course(drill: Drill, wheel: Wheel, *, area: float, speed: float | None = None) -> Course:
    """Lay out the turns that stand for a piece of ground.

    turns = area ÷ width ÷ ground per turn

    Parameters
    ----------
    area : float
        Ground to stand for, such as 1/20 acre. [m²]
    speed : float, optional
        Planned speed, to pace the turns. [m/s]

    Returns
    -------
    Course
        Width and distance [m], turns [turn].

    Raises
    ------
    MeasurementError
        For an area that is not above zero.

    References
    ----------
    Common practice, no source.
    """
    require_positive("area", area, "m²")
    width = drill.width
    distance = area / width
    turns = distance / wheel.ground
    lines = [
        _width_line(drill),
        Line(
            say("Distance to cover {area}", area=FIELD_AREA(area)),
            LENGTH(nominal(distance)),
            FIELD_AREA(area, 3) / LENGTH(nominal(width), 5),
            PRACTICE,
        ),
        *ground_lines(wheel),
        Line(
            say("Wheel turns"),
            TURNS(nominal(turns)),
            LENGTH(nominal(distance)) / TRAVEL(nominal(wheel.ground), 5),
        ),
    ]
    if speed is not None:
        lines.append(_pace_line(wheel, speed))
    return Course(
        width=width,
        distance=distance,
        turns=turns,
        working=tuple(lines),
        assumed=wheel.assumed + drill.assumed,
    )


def ground_lines(wheel: Wheel) -> tuple[Line, ...]:
    """Show what one turn covers, and where slip is counted."""
    per_turn = SPACING(nominal(wheel.per_turn), 5)
    ground = TRAVEL(nominal(wheel.ground), 5)
    if not wheel.taped:
        text = say("Distance per wheel turn, rolled: slip already included")
        return (Line(text, ground, Terms(per_turn)),)
    left = 1 - nominal(wheel.slip)
    return (
        Line(
            say("After {slip} slip", slip=SHARE(nominal(wheel.slip))),
            NUMBER(left),
            NUMBER(1.0, 3) - NUMBER(nominal(wheel.slip), 3),
        ),
        Line(
            say("Distance per wheel turn, taped: slip counted here only"),
            ground,
            per_turn / NUMBER(left),
        ),
    )


def _width_line(drill: Drill) -> Line:
    text = say("Width: rows × row spacing")
    if drill.blocked_end:
        text = say("Width without the {n} shut off at the end", n=ROWS(drill.blocked_end))
    elif drill.blocked:
        text = say("Width: the {n} shut off still count", n=ROWS(drill.blocked))
    return Line(
        text,
        LENGTH(nominal(drill.width), 5),
        ROWS(drill.covered_rows) * SPACING(nominal(drill.spacing)),
        PRACTICE,
    )


def _pace_line(wheel: Wheel, speed: float) -> Line:
    return Line(
        say("Time for one turn at field speed"),
        SECONDS(seconds_per_turn(wheel, speed), 3),
        TRAVEL(nominal(wheel.ground), 5) / SPEED(speed, 3),
    )
