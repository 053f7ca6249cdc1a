"""Time at the drill: field capacity, stops to refill, hours for the field."""

from dataclasses import dataclass
from math import ceil
from typing import Annotated

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import FIELD, HOUR, HOURS, LENGTH, MINUTES, SHARE, SPEED, WORK_RATE
from ..quantities.working import Line

# A grain drill's field efficiency, and its limits: ASABE D497, not read.
TYPICAL_EFFICIENCY = 0.70
EFFICIENCY_RANGE = (0.55, 0.80)
_TYPICAL = say(
    "assumes {share} field efficiency, typical for a grain drill (common "
    "practice; compare ASABE D497)",
    share=SHARE(TYPICAL_EFFICIENCY),
)
ROUNDING = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkRate:
    """How long a field takes.

    ``moving`` is speed × width and ``effective`` that × efficiency [m²/s];
    ``hours`` is the time by efficiency, ``sowing`` that of moving alone and
    ``refilling`` that of the stops [s]; ``every`` is the time from one stop
    to the next while moving [s], and ``cap`` the efficiency that refilling
    alone would leave.
    """

    KEYS = ("hours", "sowing", "stops", "refilling", "say")

    moving: float
    effective: float
    hours: Annotated[float, HOURS]
    sowing: Annotated[float, HOURS]
    stops: int
    every: float | None
    refilling: Annotated[float, HOURS]
    cap: float | None
    say: Phrase
    assumed: tuple[Phrase, ...]
    warnings: tuple[Phrase, ...]
    working: tuple[Line, ...]


def theoretical(*, speed: float, width: float) -> float:
    """Ground covered while moving: speed × width.

    Parameters
    ----------
    speed : float
        [m/s]
    width : float
        [m]

    Returns
    -------
    float [m²/s]

    Raises
    ------
    MeasurementError
        For a speed or a width that is not above zero.

    References
    ----------
    Iowa State University Extension, Ag Decision Maker A3-24; acres per hour =
    mph × ft ÷ 8.25.

    Examples
    --------
    >>> from evenstand.engine.quantities.units import ACRE, FOOT, HOUR, MILE_PER_HOUR
    >>> print(f"{theoretical(speed=5 * MILE_PER_HOUR, width=15 * FOOT) / ACRE * HOUR:.2f} ac/h")
    9.09 ac/h
    """
    require_positive("speed", speed, "m/s")
    require_positive("width", width, "m")
    return speed * width


def refill_cap(every: float, refill: float) -> float:
    """Efficiency that refilling alone leaves: moving ÷ (moving + refilling).

    Parameters
    ----------
    every : float
        Time from one stop to the next, moving. [s]
    refill : float
        Time that a stop takes. [s]

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For times that are not above zero.
    """
    require_positive("every", every, "s")
    require_positive("refill", refill, "s")
    return every / (every + refill)


def work_rate(
    ground: float,
    *,
    speed: float,
    width: float,
    efficiency: float | None = None,
    per_load: float | None = None,
    refill: float | None = None,
) -> WorkRate:
    """Tell how long a field takes, and how much of it refilling takes.

    hours = ground ÷ (speed × width × efficiency); stops = ground ÷ ground per
    load, to the next whole number, less the first fill

    Parameters
    ----------
    ground : float
        With the overlap. [m²]
    speed : float
        [m/s]
    width : float
        [m]
    efficiency : float, optional
        Share of the time that is not lost to turns, stops and overlap; 70%,
        typical of a grain drill, where not given. [-]
    per_load : float, optional
        Ground that the box soonest empty sows on one load. [m²]
    refill : float, optional
        Time that a stop takes. [s]

    Raises
    ------
    MeasurementError
        For values that are not above zero, or an efficiency above 100%.

    References
    ----------
    Iowa State University Extension, Ag Decision Maker A3-24. Typical
    efficiency of a grain drill 70%, 55 to 80%: ASABE D497, not read.
    """
    require_positive("ground", ground, "m²")
    assumed: tuple[Phrase, ...] = ()
    if efficiency is None:
        efficiency, assumed = TYPICAL_EFFICIENCY, (_TYPICAL,)
    if not 0 < efficiency <= 1:
        raise MeasurementError("efficiency", efficiency, say("enter a share, such as 70%"))
    moving = theoretical(speed=speed, width=width)
    stops, every = 0, None
    if per_load is not None:
        require_positive("per_load", per_load, "m²")
        stops, every = ceil(ground / per_load - ROUNDING) - 1, per_load / moving
    cap = None if every is None or refill is None else refill_cap(every, refill)
    refilling = stops * (refill or 0.0)
    hours, sowing = ground / (moving * efficiency), ground / moving
    return WorkRate(
        moving=moving,
        effective=moving * efficiency,
        hours=hours,
        sowing=sowing,
        stops=stops,
        every=every,
        refilling=refilling,
        cap=cap,
        say=_headline(hours, stops=stops, every=every),
        assumed=assumed,
        warnings=_warnings(efficiency, hours=hours, least=sowing + refilling),
        working=_working(ground, speed=speed, width=width, efficiency=efficiency),
    )


def _headline(hours: float, *, stops: int, every: float | None) -> Phrase:
    time = HOURS(hours, 2)
    if every is None:
        return say("About {time} at the drill.", time=time)
    if not stops:
        return say("About {time} at the drill with no refill stops.", time=time)
    text = "About {time} at the drill with {stops} refill stops, one for every {every} of driving."
    if stops == 1:
        text = "About {time} at the drill with one refill stop, after {every} of driving."
    unit = HOURS if every >= HOUR else MINUTES
    return say(text, time=time, stops=stops, every=unit(every, 2))


def _warnings(efficiency: float, *, hours: float, least: float) -> tuple[Phrase, ...]:
    said = []
    low, high = EFFICIENCY_RANGE
    if not low <= efficiency <= high:
        text = "{given} efficiency is outside the {low} to {high} usual for a grain drill"
        given = SHARE(efficiency)
        said.append(say(text, given=given, low=SHARE(low), high=SHARE(high)))
    if least > hours:
        text = "driving and refilling alone take {least}: plan on that, plus time for turns"
        said.append(say(text, least=HOURS(least, 2)))
    return tuple(said)


def _working(ground: float, *, speed: float, width: float, efficiency: float) -> tuple[Line, ...]:
    effective = speed * width * efficiency
    return (
        Line(
            say("Work rate: speed × width × efficiency"),
            WORK_RATE(effective),
            SPEED(speed) * LENGTH(width) * SHARE(efficiency),
            "Iowa State University Extension, Ag Decision Maker A3-24",
        ),
        Line(
            say("Time: area ÷ work rate"),
            HOURS(ground / effective),
            FIELD(ground) / WORK_RATE(effective),
        ),
    )
