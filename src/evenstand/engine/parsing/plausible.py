"""Amounts that are possible but rarely meant: a question, never a refusal.

The limits catch a unit mixed up, a digit too many, half of a turn; they judge
neither seed nor drill.
"""

from dataclasses import dataclass
from math import inf, sqrt

from ..quantities import units as u
from ..quantities.phrases import Phrase, say
from ..quantities.units import SHARE, Kind
from ..quantities.working import PRACTICE

FEWEST_STEPS = 30  # of the scale in one catch: rounding is then below 1 % of it, 1 ÷ (30 √12)


@dataclass(frozen=True, slots=True)
class Limits:
    """What an amount usually lies between, in SI, and what to ask where it does not."""

    question: str
    low: float = -inf
    high: float = inf
    source: str = PRACTICE


# By kind of amount; shares by the name of their field.
USUAL = {
    "rate": Limits(
        "is the unit the one that is meant?",
        low=0.1 * u.POUND_PER_ACRE,
        high=300 * u.POUND_PER_ACRE,
    ),
    "density": Limits(
        "is it counted on the ground that is meant?",
        low=0.1 / u.SQUARE_FOOT,
        high=500 / u.SQUARE_FOOT,
    ),
    "travel": Limits("is it one whole turn of the wheel?", low=3 * u.FOOT, high=15 * u.FOOT),
    "spacing": Limits("is it from one row to the next?", low=4 * u.INCH, high=40 * u.INCH),
    "rows": Limits("is it the number of rows?", high=100),
    "test weight": Limits(
        "is it the weight that fills the measure?",
        low=5 * u.POUND_PER_BUSHEL,
        high=70 * u.POUND_PER_BUSHEL,
    ),
    "speed": Limits("is the unit the one that is meant?", high=12 * u.MILE_PER_HOUR),
    "slip": Limits("is it the part of the turns that skid?", high=0.20),
    "tolerance": Limits("is it the part that the rate may be off by?", high=0.25),
}


def warn(field: str, value: float, kind: Kind) -> tuple[Phrase, ...]:
    """Ask about a value outside what is usual.

    Parameters
    ----------
    field : str
        Name of the input; tells shares apart.
    value : float
        As read. [SI unit of the kind]
    kind : Kind
        What it measures.

    Returns
    -------
    tuple of Phrase
        Empty where nothing is odd or no limits are known.

    Examples
    --------
    >>> print(*warn("spacing", 75 * u.INCH, u.SPACING))
    75 in is above 40 in, which is unusual: is it from one row to the next?
    """
    limits = USUAL.get(field if kind == SHARE else kind.name)
    if limits is None:
        return ()
    template, limit = "{value} is above {limit}, which is unusual: {question}", limits.high
    if value < limits.low:
        template, limit = "{value} is below {limit}, which is unusual: {question}", limits.low
    elif not value > limits.high:
        return ()
    given = kind(value), kind(limit)
    return (say(template, value=given[0], limit=given[1], question=say(limits.question)),)


def warn_of_small_catch(catch: float, *, resolution: float) -> tuple[Phrase, ...]:
    """Ask for more seed where the steps of the scale are coarse for the catch.

    share = 1 ÷ (√12 × catch ÷ resolution)

    Parameters
    ----------
    catch : float
        Net seed on the scale at one time. [kg]
    resolution : float
        Smallest step of the weighing scale. [kg]

    Returns
    -------
    tuple of Phrase
        Empty from ``FEWEST_STEPS`` steps on.

    References
    ----------
    JCGM 100:2008 (GUM), F.2.2.1: a step d leaves a standard uncertainty of d ÷ √12.
    """
    if not 0 < catch < FEWEST_STEPS * resolution:
        return ()
    rounding = SHARE(resolution / catch / sqrt(12), 2)
    return (
        say(
            "{catch} is only a few steps on this scale, so rounding alone makes "
            "it uncertain by {rounding}: make more turns or catch more rows",
            catch=u.CATCH(catch),
            rounding=rounding,
        ),
    )
