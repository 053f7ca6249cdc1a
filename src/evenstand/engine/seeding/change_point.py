"""Where along the acres a drill began to sow differently."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, sqrt
from typing import Annotated

from ..catch.target import SURE, odds_in_words
from ..quantities.phrases import Phrase, say
from ..quantities.units import FIELD, RATE
from ..statistics.budget import Estimate
from ..statistics.cusum import cusum, false_alarm
from ..statistics.elementary import exp
from .balance import Balance, follow, log_likelihood
from .events import Change as LeverMoved

BEFOREHAND = 0.1  # judgement: odds, before any reading, that a drill changes within a field
PLACES = 60
MOST_GAIN = 500.0  # in logarithms of likelihood; beyond it odds are 1 to the last digit


@dataclass(frozen=True, slots=True, kw_only=True)
class Turning:
    """A change that nobody made.

    ``place`` is the ground sown by then, with its 95% range [m²], ``shown``
    what the meter showed there; ``before`` and ``after`` are the rates
    [kg/m²]; ``odds`` those of a change at all, ``by_chance`` those that a
    sound drill signals within so many readings.
    """

    KEYS = ("place", "before", "after", "odds", "by_chance", "say")

    place: Annotated[Estimate, FIELD]
    shown: float
    before: Annotated[Estimate, RATE]
    after: Annotated[Estimate, RATE]
    odds: float
    by_chance: float
    say: Phrase


def find_turning(balance: Balance) -> Turning | None:
    """Look for a change that nobody made, and place it.

    The sums of the readings' misfits signal it (CUSUM, k = 0.5, h = 4); the
    likelihood of all readings, with a change of 10% of the target (one
    standard deviation) at each of many places, tells how likely it is and where.

    Parameters
    ----------
    balance : Balance
        Followed without any such change.

    Returns
    -------
    Turning or None
        None where nothing signals, or a change is less likely than 9 in 10.

    References
    ----------
    NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3, for the sums;
    Bayes' theorem over places, every acre as likely as another.
    """
    misfits = balance.innovations
    if cusum(misfits).side is None:
        return None
    places = _places(balance)
    without = log_likelihood(balance.events, balance.known, jumps=())
    gains = [
        log_likelihood(balance.events, balance.known, jumps=(place,)) - without for place in places
    ]
    odds = _odds(gains)
    if odds < SURE:
        return None
    shown = places[gains.index(max(gains))]
    zero, scale = balance.events[0].at, balance.known.scale
    place = _placed([p - zero for p in places], gains, scale=scale)
    changed = follow(balance.events, balance.known, jumps=(shown,))
    before = [p.rate for p in changed.points if p.ground <= (shown - zero) * scale][-1]
    return Turning(
        place=place,
        shown=shown,
        before=before,
        after=changed.rate,
        odds=odds,
        by_chance=false_alarm(len(misfits)),
        say=_headline(place, before, after=changed.rate, odds=odds),
    )


def _places(balance: Balance) -> list[float]:
    """Places evenly along the acres since the lever was last moved."""
    moved = [event.at for event in balance.events if isinstance(event, LeverMoved)]
    start, end = max(moved, default=balance.events[0].at), balance.events[-1].at
    return [start + (end - start) * (i + 0.5) / PLACES for i in range(PLACES)]


def _odds(gains: Sequence[float]) -> float:
    top = max(gains)
    mean = fsum(exp(gain - top) for gain in gains) / len(gains)
    ratio = mean * exp(min(top, MOST_GAIN)) * BEFOREHAND / (1 - BEFOREHAND)
    return ratio / (1 + ratio)


def _placed(places: Sequence[float], gains: Sequence[float], *, scale: float) -> Estimate:
    """Mean and 95% range over the places, each as likely as its readings are."""
    top, width = max(gains), places[1] - places[0]
    weights = [exp(gain - top) for gain in gains]
    whole = fsum(weights)
    shares = [weight / whole for weight in weights]
    mean = fsum(p * w for p, w in zip(places, shares, strict=True))
    square = fsum((p - mean) * (p - mean) * w for p, w in zip(places, shares, strict=True))
    low = _quantile(places, shares, 0.025) - width / 2
    high = _quantile(places, shares, 0.975) + width / 2
    return Estimate(mean * scale, low * scale, high * scale, sqrt(square) * scale)


def _quantile(places: Sequence[float], shares: Sequence[float], part: float) -> float:
    below = 0.0
    for place, share in zip(places, shares, strict=True):
        below += share
        if below >= part:
            return place
    return places[-1]


def _headline(place: Estimate, before: Estimate, *, after: Estimate, odds: float) -> Phrase:
    text = (
        "Something changed around {place} ({low} to {high}): {before} before, "
        "{after} since. {odds} odds of a real change."
    )
    return say(
        text,
        place=FIELD(place.value, 2),
        low=FIELD(place.low, 2),
        high=FIELD(place.high, 2),
        before=RATE(before.value),
        after=RATE(after.value),
        odds=odds_in_words(odds),
    )
