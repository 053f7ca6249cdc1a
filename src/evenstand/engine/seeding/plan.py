"""The day at the drill: hours, stops, seed to have at the edge, and hands to pour it."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, fsum

from ..order.loads import Loads
from ..order.work_rate import WorkRate, work_rate
from ..quantities.errors import require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import BAGS, HOURS, LOAD, MINUTE, MINUTES, SHARE

BAG_TIME = 1 * MINUTE  # judgement: one person opens and pours a bag
STOP_TIME = 5 * MINUTE  # judgement: to stop, open, look into the box, close and write it down
SPARE = 0.05  # judgement: seed at the edge beyond what is reckoned
ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class SowPlan:
    """What the day asks for.

    ``edge`` is seed to have at the edge of the field [kg], ``bags`` the same
    in bags; ``stop`` is how long a stop takes on the mean [s].
    """

    work: WorkRate
    edge: float
    bags: int
    people: int
    stop: float
    say: Phrase
    next: Phrase
    assumed: tuple[Phrase, ...]


def plan_sowing(
    boxes: Sequence[Loads],
    ground: float,
    *,
    speed: float,
    width: float,
    bag: float,
    people: int = 1,
    refill: float | None = None,
) -> SowPlan:
    """Plan a field: how long, how many stops, what must stand at the edge.

    stop = 5 min + bags of all loads but the first ÷ stops × 1 min ÷ people

    Parameters
    ----------
    boxes : sequence of Loads, at least one
    ground : float
        With the overlap. [m²]
    speed : float
        [m/s]
    width : float
        [m]
    bag : float
        Net seed in a bag. [kg]
    people : int
        Hands that pour. [-]
    refill : float, optional
        How long a stop takes, where somebody knows. [s]

    Raises
    ------
    MeasurementError
        For values not above zero.

    References
    ----------
    Time of bags and stops: common practice, no source.
    """
    require_positive("bag", bag, "kg")
    require_positive("people", people)
    soonest = min(box.per_load.value for box in boxes)
    stops = max(1, ceil(ground / soonest - ROUNDING) - 1)
    poured = fsum(load.weight for box in boxes for load in box.loads[1:])
    pouring = ceil(poured / bag - ROUNDING) / stops * BAG_TIME / people
    stop = STOP_TIME + pouring if refill is None else refill
    work = work_rate(ground, speed=speed, width=width, per_load=soonest, refill=stop)
    edge = fsum(box.weight for box in boxes) * (1 + SPARE)
    bags = ceil(edge / bag - ROUNDING)
    return SowPlan(
        work=work,
        edge=edge,
        bags=bags,
        people=people,
        stop=stop,
        say=_headline(work, edge, bags=bags, people=people),
        next=_next(work, stop),
        assumed=(*work.assumed, *_assumed(reckoned=refill is None)),
    )


def _headline(work: WorkRate, edge: float, *, bags: int, people: int) -> Phrase:
    text = "{work} Stage {edge} ({bags}) at the edge of the field, with {people} people to pour."
    if people == 1:
        text = "{work} Stage {edge} ({bags}) at the edge of the field, with one person to pour."
    return say(text, work=work.say, edge=LOAD(edge), bags=BAGS(bags, 9), people=people)


def _next(work: WorkRate, stop: float) -> Phrase:
    if not work.stops:
        return say("Start: one fill will do the field.")
    text = "Stage the seed where the box runs low: each stop takes about {stop}, {all} in total."
    together = HOURS if work.refilling >= 60 * MINUTE else MINUTES
    return say(text, stop=MINUTES(stop, 2), all=together(work.refilling, 2))


def _assumed(*, reckoned: bool) -> tuple[Phrase, ...]:
    spare = say("enough seed for {spare} more than calculated", spare=SHARE(SPARE))
    if not reckoned:
        return (spare,)
    text = "a stop takes {stop}, plus {bag} per bag per person"
    stop = say(text, stop=MINUTES(STOP_TIME, 2), bag=MINUTES(BAG_TIME, 2))
    return (stop, spare)
