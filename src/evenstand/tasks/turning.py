"""What to turn for a catch, and at what pace."""

from dataclasses import dataclass

from evenstand.engine.budget import nominal
from evenstand.engine.units import FIELD
from evenstand.engine.words import Style, System

from .given import Given
from .kept import Kept, job_drill, job_wheel
from .turns import Turns, turns

# Ground to stand for, by the reader's units; the first is offered.
GROUNDS: dict[System, tuple[str, ...]] = {
    "us": ("1/20 ac", "1/40 ac", "1/10 ac", "1/100 ac"),
    "metric": ("1/50 ha", "1/100 ha", "1/25 ha", "1/200 ha"),
}


@dataclass(frozen=True)
class Turning:
    """Turns for a piece of ground [turn], and the time of each at field speed [s]."""

    ground: str
    grounds: tuple[str, ...]
    turns: float
    seconds: float | None
    laid: Turns


def turning(kept: Kept, ground: str, *, style: Style) -> Turning | None:
    """Lay out the turns for a job; None where its wheel is not known.

    Parameters
    ----------
    kept : Kept
    ground : str
        Ground to stand for, as typed; the usual piece where it is empty.
    style : Style
        How its reader writes and reads.
    """
    wheel = job_wheel(kept)
    if wheel is None or kept.drill is None:
        return None
    grounds = GROUNDS[style.system]
    chosen = ground or grounds[0]
    area = Given({"ground": chosen}, str, style.decimal).exact("ground", FIELD)
    speed = kept.body.speed.value if kept.body.speed else None
    laid = turns(job_drill(kept), wheel, area=area, speed=speed)
    others = grounds if chosen in grounds else (chosen, *grounds)
    return Turning(chosen, others, nominal(laid.course.turns), laid.seconds, laid)
