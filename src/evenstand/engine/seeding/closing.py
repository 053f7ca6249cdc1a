"""The end of a field: what is left is weighed, and the balance is closed."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated

from ..catch.target import Verdict, judge, odds_in_words
from ..quantities.errors import MeasurementError
from ..quantities.phrases import Phrase, join, say
from ..quantities.units import FIELD, LOAD, NUMBER, RATE, SHARE
from ..quantities.working import Line
from ..quantities.written import put
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
    ``driven`` is the ground that the drill went over, overlap twice [m²].
    ``ratio`` is the rate on that ÷ what the stand promised, None where no
    catch was made [-]; ``meter`` is what the area meter is known for from now on.
    """

    KEYS = (
        *("used", "ground", "driven", "rate", put("budget", "shares")),
        *(put("field_ratio", "ratio"), put("area_meter", "meter", "factor"), "say"),
    )

    used: Annotated[Estimate, LOAD]
    left: float
    ground: Annotated[Estimate, FIELD]
    driven: Annotated[Estimate, FIELD]
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

    rate = (loaded − left) ÷ ground; field ratio = (loaded − left) ÷ ground driven ÷ static rate

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
    rate, shown = used / sown.area, last.at - first.at
    driven = sown.driven(shown=shown)
    shares = budget(rate, {})
    field_rate = estimate(rate, shares)
    ratio = None if static is None else closed_ratio(used / driven, static=static)
    verdict = judge(field_rate, balance.known.target)
    return Closed(
        used=ranged(used),
        left=nominal(left),
        ground=sown.range,
        driven=ranged(driven),
        rate=field_rate,
        shares=shares,
        verdict=verdict,
        ratio=ratio,
        meter=checked_meter(driven, shown=shown) if shown > 0 else None,
        next=_next(field_rate.value, verdict, wanted=balance.known.target.rate),
        say=_headline(field_rate, verdict, used=nominal(used), ground=sown.range, ratio=ratio),
        cure=cure_of(shares),
        assumed=sown.assumed,
        working=(
            used_line(nominal(balance.loaded), nominal(left)),
            *sown.working,
            *_rates(nominal(used), nominal(sown.area), nominal(driven), static=static),
        ),
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


def _rates(used: float, ground: float, driven: float, *, static: Quantity | None) -> Iterator[Line]:
    yield rate_line(say("Field rate: seed used ÷ area"), used=used, ground=ground)
    if static is not None and driven > ground:
        twice = driven / ground - 1
        yield Line(
            say("Area the drill covered: area × (1 + overlap)"),
            FIELD(driven),
            FIELD(ground) / NUMBER(1 / (1 + twice)),
        )
        yield rate_line(say("Rate on that area: seed used ÷ area"), used=used, ground=driven)
    if static is not None:
        yield ratio_line(used / driven, nominal(static))
