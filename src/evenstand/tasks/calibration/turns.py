"""How many turns of the wheel stand for a piece of ground."""

from dataclasses import dataclass
from typing import Annotated

from evenstand.engine.drill.course import Course, course, seconds_per_turn
from evenstand.engine.drill.drill import Drill
from evenstand.engine.drill.travel import Wheel
from evenstand.engine.quantities.phrases import Phrase
from evenstand.engine.quantities.units import FIELD, SECONDS
from evenstand.engine.quantities.written import inside, put

from ..drill.machines import WHEEL_NEEDED, engine_drill, value_of
from ..job.said import drill_in, wheel_in
from ..parsing.given import Given
from ..parsing.reading import refuse_strays, slip_as_written
from ..parsing.warned import Warned, ask_about


@dataclass(frozen=True)
class Turns:
    """What to turn, and at what pace. [s/turn]"""

    KEYS = (
        *inside(("course",), "width", "distance", "turns", "working"),
        *(put("taken_as", "assumed"), "warnings"),
        put("seconds_per_turn", "seconds", optional=True),
    )

    course: Course
    seconds: Annotated[float, SECONDS] | None
    assumed: tuple[Phrase, ...]
    warnings: tuple[Warned, ...] = ()


def turns(drill: Drill, wheel: Wheel, *, area: float, speed: float | None = None) -> Turns:
    """Lay out the turns for a piece of ground.

    Parameters
    ----------
    area : float
        Ground to stand for. [m²]
    speed : float, optional
        Planned speed, to pace the turns. [m/s]
    """
    laid = course(drill, wheel, area=area, speed=speed)
    seconds = None if speed is None else seconds_per_turn(wheel, speed)
    return Turns(laid, seconds, laid.assumed + slip_as_written(wheel))


def read_turns(given: Given) -> Turns:
    """Read what was written for it, and lay out the turns."""
    refuse_strays(given)
    (machine, job), wheel = drill_in(given), wheel_in(given)
    if wheel is None:
        raise given.refuse("rolled", WHEEL_NEEDED)
    with given.pointing():
        drill = engine_drill(machine, job)
    found = turns(drill, wheel, area=given.exact("area", FIELD), speed=value_of(job.speed))
    return Turns(found.course, found.seconds, found.assumed, ask_about(given))
