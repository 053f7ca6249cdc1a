"""The end of a field: what is left is weighed, and the balance is closed."""

from dataclasses import dataclass
from typing import Annotated

from ..catch.target import Verdict, judge, odds_in_words
from ..quantities.errors import MeasurementError
from ..quantities.phrases import Phrase, join, say
from ..quantities.units import FIELD, LOAD, NUMBER, RATE, SHARE
from ..quantities.working import Line
from ..statistics.budget import (
    Estimate,
    Quantity,
    Share,
    budget,
    estimate,
    nominal,
    ranged,
    uncertain,
)
from .balance import Balance, rate_line, used_line
from .cures import cure_of
from .events import Level
from .field_area import AreaMeter, SownGround, checked_meter
from .field_ratio import closed_ratio, ratio_line


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """A field that is done.

    ``used`` [kg] ÷ ground is the mean ``rate`` with its 95% range [kg/m²];
    ``ratio`` is field rate ÷ what the stand promised, None where no catch was
    made [-]; ``meter`` is what the area meter is known for from now on.
    """

    KEYS = "used ground rate budget=shares field_ratio=ratio area_meter=meter.factor say"

    used: Annotated[Estimate, LOAD]
    left: float
    ground: Annotated[Estimate, FIELD]
    rate: Annotated[Estimate, RATE]
    shares: tuple[Share, ...]
    verdict: Verdict
    ratio: Annotated[Quantity, NUMBER] | None
    meter: AreaMeter | None
    next: Phrase
    say: Phrase
    cure: Phrase | None
    assumed: tuple[Phrase, ...]
    working: tuple[Line, ...]


def close_field(balance: Balance, sown: SownGround, *, static: Quantity | None = None) -> Closed:
    """Close the balance of a box over a field of known ground.

    rate = (loaded − left) ÷ ground; field ratio = rate ÷ static rate

    Parameters
    ----------
    balance : Balance
        Its last event is what was left.
    sown : SownGround
        Ground by the map or by passes.
    static : Quantity, optional
        Rate that the stand promised for the setting in use. [kg/m²]

    Raises
    ------
    MeasurementError
        Where what is left was not read last, or nothing was used.

    References
    ----------
    JCGM 100:2008 (GUM), 5.1 and G.4.
    """
    first, last = balance.events[0], balance.events[-1]
    if not isinstance(last, Level):
        raise MeasurementError("left", None, say("weigh what is left in the box (0 if empty)"))
    left = _left(balance, last)
    used = balance.loaded - left
    if not nominal(used) > 0:
        raise MeasurementError("left", last.seed.weight, say("enter less than was loaded"))
    rate = used / sown.area
    shares = budget(rate, {})
    field_rate = estimate(rate, shares)
    ratio = None if static is None else closed_ratio(rate, static=static)
    verdict = judge(field_rate, balance.known.target)
    return Closed(
        used=ranged(used),
        left=nominal(left),
        ground=sown.range,
        rate=field_rate,
        shares=shares,
        verdict=verdict,
        ratio=ratio,
        meter=checked_meter(sown.area, shown=last.at - first.at) if last.at > first.at else None,
        next=_next(field_rate.value, verdict, wanted=balance.known.target.rate),
        say=_headline(field_rate, verdict, used=nominal(used), ground=sown.range, ratio=ratio),
        cure=cure_of(shares),
        assumed=sown.assumed,
        working=_working(nominal(balance.loaded), nominal(left), sown=sown, static=static),
    )


def _left(balance: Balance, last: Level) -> Quantity:
    """What was left as it was read, no promise mixed in."""
    seed = last.seed
    left = uncertain(seed.weight, seed.u, "box levels")
    if not seed.by_volume:
        return left
    return left + seed.weight * uncertain(0.0, balance.known.test_weight_error, "test weight")


def _next(rate: float, verdict: Verdict, *, wanted: float) -> Phrase:
    text = "The field got {rate}; the target was {wanted}."
    if verdict.word == "on target":
        text = "The field got {rate}, within the target band around {wanted}."
    return say(text, rate=RATE(rate), wanted=RATE(wanted))


def _headline(
    rate: Estimate, verdict: Verdict, *, used: float, ground: Estimate, ratio: Quantity | None
) -> Phrase:
    text = (
        "{used} went out on {ground}: {rate} ({low} to {high}), {odds} odds it is "
        "within the target band."
    )
    closed = say(
        text,
        used=LOAD(used, 4),
        ground=FIELD(ground.value),
        rate=RATE(rate.value),
        low=RATE(rate.low),
        high=RATE(rate.high),
        odds=odds_in_words(verdict.odds_within),
    )
    if ratio is None:
        return closed
    text = "The field got {ratio} of the stationary rate."
    return join([closed, say(text, ratio=SHARE(nominal(ratio)))])


def _working(
    loaded: float, left: float, *, sown: SownGround, static: Quantity | None
) -> tuple[Line, ...]:
    ground = nominal(sown.area)
    ratio = () if static is None else (ratio_line((loaded - left) / ground, nominal(static)),)
    return (
        used_line(loaded, left),
        *sown.working,
        rate_line(say("Field rate: seed used ÷ area"), used=loaded - left, ground=ground),
        *ratio,
    )
