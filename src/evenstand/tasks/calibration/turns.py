"""How many turns of the wheel stand for a piece of ground."""

from dataclasses import dataclass
from typing import Annotated

from evenstand.engine.drill.course import Course, course, seconds_per_turn
from evenstand.engine.drill.drill import Drill
from evenstand.engine.drill.travel import Wheel
from evenstand.engine.quantities.phrases import Phrase
from evenstand.engine.quantities.units import FIELD, SECONDS, SPEED
from evenstand.engine.quantities.written import inside, put

from ..parsing.given import Given
from ..parsing.reading import drill, refuse_strays, slip_as_written, wheel_needed
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
    speed = given.exact("speed", SPEED) if "speed" in given else None
    found = turns(drill(given), wheel_needed(given), area=given.exact("area", FIELD), speed=speed)
    return Turns(found.course, found.seconds, found.assumed, ask_about(given))
