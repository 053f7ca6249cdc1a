"""Will the seed suffice, and if not, how much is short and where it ends."""

from dataclasses import dataclass, replace
from math import inf
from typing import Annotated

from ..catch.target import odds_in_words
from ..order.loads import Passes, PassPlace
from ..quantities.errors import require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import FIELD, LENGTH, LOAD, RATE
from ..quantities.working import Line
from ..statistics.budget import Estimate, Quantity, nominal, ranged, standard_uncertainty
from ..statistics.distributions import normal_cdf, normal_quantile
from ..statistics.quantile import require_probability
from .field_area import Shown
from .large import Large

AS_IT_IS = Shown()  # a meter that shows the ground as it is, from 0
SUFFICES = 0.95  # odds that the seed is to suffice with


@dataclass(frozen=True, slots=True, kw_only=True)
class RunOut:
    """Seed against ground still to sow.

    ``need`` is what the rest asks for [kg]; ``short`` what lacks on balance,
    below zero what is left over [kg]; ``more`` what brings the odds of
    sufficing to ``sure`` [kg]; ``end`` the ground from here on that the seed
    sows [m²], and ``place`` where in the field that is.
    """

    KEYS = ("odds", "need", "short", "more", "say")

    odds: float
    need: Annotated[Estimate, LOAD]
    short: Annotated[float, LOAD]
    more: Annotated[float, LOAD]
    sure: float
    end: Estimate
    place: PassPlace | None
    say: Phrase
    working: tuple[Line, ...]


def run_out(
    seed: Quantity,
    *,
    rate: Quantity,
    ground: float,
    done: float = 0.0,
    shown: Shown = AS_IT_IS,
    passes: Passes | None = None,
    sure: float = SUFFICES,
) -> RunOut:
    """Tell the odds that seed runs out before the field is done.

    P = Φ((A · r − S) ÷ √(A² u²(r) + u²(S))); what more is needed brings it to 1 − sure

    Parameters
    ----------
    seed : Quantity
        That can still be sown: in the box, less what must stay in it, and at
        the edge of the field. [kg]
    rate : Quantity
        Field rate now; what it shares with ``seed`` is counted once. [kg/m²]
    ground : float
        Still to sow, overlap twice. [m²]
    done : float
        Ground sown before, for the place in the field. [m²]
    shown : Shown
        The area meter, in whose acres it is told where the seed ends.
    sure : float
        Odds that the seed is to suffice with. [-]

    Raises
    ------
    MeasurementError
        For ground or a rate not above zero, seed below zero, or odds outside
        0 to 1.

    Examples
    --------
    Thirty units of ground at 60 ± 1.2, and 1,850 ± 10 of seed:

    >>> from uncertainties import ufloat
    >>> found = run_out(ufloat(1850.0, 10.0), rate=ufloat(60.0, 1.2), ground=30.0)
    >>> print(f"{found.odds:.3f}, {found.more:.1f} more")
    0.090, 11.5 more
    """
    require_positive("ground", ground, "m²")
    require_positive("rate", nominal(rate), "kg/m²")
    require_probability("sure", sure)
    need = rate * ground
    gap = need - seed
    short, u = nominal(gap), standard_uncertainty(gap)
    odds = normal_cdf(short / u) if u else float(short > 0)
    more = max(0.0, short + (normal_quantile(sure) * u if u else 0.0))
    left = max(0.0, nominal(seed))
    end = ranged(seed / rate) if left else Estimate(0.0, 0.0, 0.0, 0.0)
    place = None if passes is None else passes.place(done + end.value)
    return RunOut(
        odds=odds,
        need=ranged(need),
        short=short,
        more=more,
        sure=sure,
        end=end,
        place=place,
        say=_headline(odds, short, more=more, sure=sure, at=shown.after(end.value), place=place),
        working=_working(ground, nominal(rate), seed=left),
    )


@dataclass(frozen=True, slots=True)
class NextLoad:
    """When the box is down to what must stay in it.

    ``ground`` is what it still sows, ``shown`` what the area meter
    shows then. [m²]
    """

    ground: Estimate
    shown: Estimate

    def say(self, *, to_sow: float = inf) -> Phrase:
        """Say when to look into the box again, with so much ground still to sow. [m²]"""
        if self.ground.low >= to_sow:
            return say("What is in the box will finish the field.")
        if not self.ground.value:
            return say("Fill the box now.")
        return say(
            "Fill the box at {at} on the acre meter; start checking it at {low}.",
            at=FIELD(self.shown.value),
            low=FIELD(self.shown.low),
        )

    def large(self, *, to_sow: float = inf) -> Large | None:
        """The same with the area large, None where no more is to be filled in."""
        if self.ground.low >= to_sow or not self.ground.value:
            return None
        after = say("on the acre meter; start checking it at {low}", low=FIELD(self.shown.low))
        return Large(say("Fill the box at"), FIELD(self.shown.value), (after,))


def next_load(seed: Quantity, *, rate: Quantity, shown: Shown) -> NextLoad:
    """Tell when the box is down to what must stay in it.

    Parameters
    ----------
    seed : Quantity
        In the box, less what must stay. [kg]
    rate : Quantity
        [kg/m²]
    shown : Shown
        The area meter; what its factor shares with ``rate`` cancels.

    Raises
    ------
    MeasurementError
        For a rate not above zero.
    """
    require_positive("rate", nominal(rate), "kg/m²")
    if not nominal(seed) > 0:
        now = shown.now
        return NextLoad(Estimate(0.0, 0.0, 0.0, 0.0), Estimate(now, now, now, 0.0))
    at = ranged(shown.after(seed / rate))
    return NextLoad(ranged(seed / rate), replace(at, low=max(shown.now, at.low)))


def _headline(
    odds: float, short: float, *, more: float, sure: float, at: Quantity, place: PassPlace | None
) -> Phrase:
    if odds <= 1 - sure + 1e-9:
        text = "You have enough seed, with {odds} odds; about {left} will be left over."
        return say(text, left=LOAD(max(0.0, -short)), odds=odds_in_words(1 - odds))
    if short <= 0:
        text = "You may run out of seed, with {odds} odds. {more} more makes it safe."
        return say(text, odds=odds_in_words(odds), more=LOAD(more))
    text = (
        "You will run out at about {at} on the acre meter, {short} short. {more} "
        "more makes it safe."
    )
    words = say(text, at=FIELD(nominal(at)), short=LOAD(short), more=LOAD(more))
    if place is None:
        return words
    text = "{words} That is in pass {number}, {along} in."
    return say(text, words=words, number=place.number, along=LENGTH(place.along))


def _working(ground: float, rate: float, *, seed: float) -> tuple[Line, ...]:
    need = Line(
        say("Seed for the rest: area × rate"), LOAD(ground * rate), FIELD(ground) * RATE(rate)
    )
    end = Line(
        say("Area the seed will cover: seed ÷ rate"), FIELD(seed / rate), LOAD(seed) / RATE(rate)
    )
    return (need, end)
