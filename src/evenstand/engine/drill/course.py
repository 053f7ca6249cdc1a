"""What to turn: the ground to stand for, the wheel turns, and their pace."""

from dataclasses import dataclass

from ..quantities.errors import require_positive
from ..quantities.phrases import Amount, Phrase, say
from ..quantities.units import FIELD as FIELD_AREA
from ..quantities.units import LENGTH, NUMBER, ROWS, SECONDS, SHARE, SPACING, SPEED, TRAVEL, TURNS
from ..quantities.working import Line, divide, multiply
from ..statistics.budget import Quantity, nominal
from .drill import Drill
from .travel import Wheel


def seconds_per_turn(wheel: Wheel, speed: float) -> float:
    """Time one wheel turn takes at field speed.

    t = ground per turn ÷ speed

    Parameters
    ----------
    wheel : Wheel
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

    width: Quantity
    distance: Quantity
    turns: Quantity
    working: tuple[Line, ...]
    assumed: tuple[Phrase, ...]


def course(drill: Drill, wheel: Wheel, *, area: float, speed: float | None = None) -> Course:
    """Lay out the turns that stand for a piece of ground.

    turns = area ÷ width ÷ ground per turn

    Parameters
    ----------
    drill : Drill
    wheel : Wheel
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
            say("Run for {area}", area=Amount(area, FIELD_AREA)),
            Amount(nominal(distance), LENGTH, 4),
            (*multiply(Amount(area, FIELD_AREA)), *divide(Amount(nominal(width), LENGTH, 5))),
            "common practice, no source",
        ),
        *ground_lines(wheel),
        Line(
            say("Wheel turns"),
            Amount(nominal(turns), TURNS, 4),
            (
                *multiply(Amount(nominal(distance), LENGTH, 4)),
                *divide(Amount(nominal(wheel.ground), TRAVEL, 5)),
            ),
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
    per_turn = Amount(nominal(wheel.per_turn), SPACING, 5)
    ground = Amount(nominal(wheel.ground), TRAVEL, 5)
    if not wheel.taped:
        text = say("Ground per wheel turn, as rolled: slip is inside it")
        return (Line(text, ground, multiply(per_turn)),)
    left = 1 - nominal(wheel.slip)
    return (
        Line(
            say("Slip {slip} leaves", slip=Amount(nominal(wheel.slip), SHARE)),
            Amount(left, NUMBER, 4),
            (("+", Amount(1.0, NUMBER)), ("−", Amount(nominal(wheel.slip), NUMBER))),
        ),
        Line(
            say("Ground per wheel turn: tape, slip counted here and nowhere else"),
            ground,
            (*multiply(per_turn), *divide(Amount(left, NUMBER, 4))),
        ),
    )


def _width_line(drill: Drill) -> Line:
    text = say("Width: rows × spacing")
    if drill.blocked_end:
        text = say("Width without {n} shut off at the end", n=Amount(drill.blocked_end, ROWS))
    elif drill.blocked:
        text = say("Width: {n} shut off still take their ground", n=Amount(drill.blocked, ROWS))
    return Line(
        text,
        Amount(nominal(drill.width), LENGTH, 5),
        multiply(Amount(drill.covered_rows, ROWS), Amount(nominal(drill.spacing), SPACING, 4)),
        "common practice, no source",
    )


def _pace_line(wheel: Wheel, speed: float) -> Line:
    return Line(
        say("Time for one turn at field speed"),
        Amount(seconds_per_turn(wheel, speed), SECONDS),
        (
            *multiply(Amount(nominal(wheel.ground), TRAVEL, 5)),
            *divide(Amount(speed, SPEED)),
        ),
    )
