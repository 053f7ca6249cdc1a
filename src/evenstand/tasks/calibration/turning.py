"""What to turn for a catch, and at what pace."""

from dataclasses import dataclass, replace

from evenstand.engine.quantities.phrases import Phrase, Style, System, say
from evenstand.engine.quantities.units import FIELD, NUMBER, TURNS
from evenstand.engine.quantities.working import Line
from evenstand.engine.statistics.budget import nominal

from ..job.kept import Kept, job_drill, job_wheel
from ..parsing.given import Given
from .turns import turns

# Ground to stand for, by the reader's units; the first is offered.
GROUNDS: dict[System, tuple[str, ...]] = {
    "us": ("1/20 ac", "1/40 ac", "1/10 ac", "1/100 ac"),
    "metric": ("1/50 ha", "1/100 ha", "1/25 ha", "1/200 ha"),
}


@dataclass(frozen=True)
class Turning:
    """Turns for a piece of ground [turn], and the time of each at field speed [s].

    They are those of the crank where the drill has one.
    """

    ground: str
    grounds: tuple[str, ...]
    turns: float
    seconds: float | None
    by_crank: bool
    working: tuple[Line, ...]


def heading(*, by_crank: bool) -> Phrase:
    """Say what is turned, over what a paper tells of it."""
    return say("Crank turns") if by_crank else say("Wheel turns")


def turning(kept: Kept, ground: str, *, style: Style) -> Turning | None:
    """Lay out the turns for a job; None where its wheel is not known.

    Parameters
    ----------
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
    area = Given({"ground": chosen}, decimal=style.decimal).exact("ground", FIELD)
    speed = kept.body.speed.value if kept.body.speed else None
    laid = turns(job_drill(kept), wheel, area=area, speed=speed)
    of_wheel, ratio = nominal(laid.course.turns), kept.drill.crank_per_wheel
    found = Turning(
        ground=chosen,
        grounds=grounds if chosen in grounds else (chosen, *grounds),
        turns=of_wheel,
        seconds=laid.seconds,
        by_crank=False,
        working=laid.course.working,
    )
    return _cranked(found, ratio.value) if ratio else found


def _cranked(found: Turning, ratio: float) -> Turning:
    turns = found.turns * ratio
    line = Line(
        say("Crank turns: wheel turns × crank turns per wheel turn"),
        TURNS(turns, 5),
        TURNS(found.turns, 5) * NUMBER(ratio, 5),
    )
    seconds = found.seconds / ratio if found.seconds else None
    working = (*found.working, line)
    return replace(found, turns=turns, seconds=seconds, by_crank=True, working=working)
