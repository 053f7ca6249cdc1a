"""Points of a distribution below or above which a given share lies."""

from collections.abc import Callable
from functools import lru_cache
from math import copysign, inf

from ..quantities.errors import MeasurementError
from ..quantities.phrases import say
from .elementary import exp, log
from .incomplete import Tails, beta_tails, gamma_tails

_CLOSE = 1e-10  # a Newton step this short leaves nothing but rounding behind
_LONGEST_STEP = 8.0
KEPT = 4096  # points remembered: a job asks for the same few again and again
_MOST_STEPS = 200  # reached only where the point lies beyond the range of a float


@lru_cache(maxsize=KEPT)
def log_gamma_quantile(share: float, *, shape: float, upper: bool = False) -> float:
    """Logarithm of the gamma variable that leaves ``share`` below it, or above it."""
    return solve_tail(
        lambda u: gamma_tails(exp(u), shape=shape), share, start=log(shape), upper=upper
    )


@lru_cache(maxsize=KEPT)
def log_odds_quantile(
    share: float, *, a: float, b: float, upper: bool = False, start: float | None = None
) -> float:
    """Logarithm of the odds of the beta variable that leaves ``share`` below it, or above it.

    ``start`` is about where it lies; without it the search starts at the mean.
    """

    def tails(u: float) -> Tails:
        return beta_tails(1 / (1 + exp(-u)), rest=1 / (1 + exp(u)), a=a, b=b)

    return solve_tail(tails, share, start=log(a / b) if start is None else start, upper=upper)


def symmetric_cdf(x: float, *, beyond: float) -> float:
    """Share below ``x``, where ``beyond`` is the share farther from 0 than ``x`` is."""
    return 1 - beyond / 2 if x > 0 else beyond / 2


def symmetric_quantile(p: float, distance: Callable[[float, bool], float]) -> float:
    """Quantile of a variable that is symmetric about 0.

    Parameters
    ----------
    p : float
        Probability, from 0 to 1. [-]
    distance : callable
        Distance from 0 within which a share lies or, where its second
        argument is true, beyond which it lies on both sides together.

    Returns
    -------
    float [-]
        Infinite at 0 and 1.
    """
    require_probability("p", p)
    tail = min(p, 1 - p)
    if tail in (0, 0.5):
        return 0.0 if tail else inf if p else -inf
    size = distance(2 * tail, True) if tail < 0.25 else distance(1 - 2 * tail, False)
    return size if p > 0.5 else -size


def require_number(field: str, value: float) -> None:
    """Raise MeasurementError for NaN."""
    if value != value:
        raise MeasurementError(field, value, say("enter a number"))


def require_probability(field: str, value: float) -> None:
    """Raise MeasurementError unless ``value`` lies from 0 to 1; NaN does not."""
    if not 0 <= value <= 1:
        raise MeasurementError(field, value, say("enter a probability from 0 to 1"))


def solve_tail(
    tails: Callable[[float], Tails], share: float, *, start: float, upper: bool = False
) -> float:
    """Find the point that leaves a given share below it, or above it.

    Newton's method on the logarithm of the share, inside a bracket. The gamma
    and beta distributions are log-concave in the logarithm of the variable
    and of its odds, so that it closes in from one side.

    Parameters
    ----------
    tails : callable
        Tails at a point; the point is a logarithm, or a logarithm of odds.
    share : float
        Above 0 and below 1. [-]
    start : float
        A point where the share is neither 0 nor 1. [-]
    upper : bool
        Whether the share lies above the point.

    Returns
    -------
    float [-]
    """
    point, low, high = start, -inf, inf
    sign = -1 if upper else 1
    for _ in range(_MOST_STEPS):
        here = tails(point)
        at = here.upper if upper else here.lower
        gap = log(at / share) if at > 0 else -inf
        if sign * gap < 0:
            low = point
        else:
            high = point
        step = sign * _newton_step(gap, here.weight / at if at > 0 else 0.0)
        if abs(step) > _CLOSE and not low < point + step < high:
            step = (low + high) / 2 - point
        point += step
        if abs(step) <= _CLOSE:
            break
    return point


def _newton_step(gap: float, slope: float) -> float:
    step = -gap / slope if slope > 0 else copysign(inf, -gap)
    return max(-_LONGEST_STEP, min(_LONGEST_STEP, step))
