"""A germination test made at home, beside the one on the tag."""

from dataclasses import dataclass
from math import fsum, sqrt

from ..quantities.errors import MeasurementError
from ..quantities.phrases import Phrase, say
from ..quantities.units import NUMBER, PERCENT, SEEDS, Amount
from ..statistics.budget import Estimate, Quantity, uncertain
from ..statistics.counting import clopper_pearson
from ..statistics.distributions import beta_quantile
from .germination import beta_u, evidence
from .replicates import Dish, agree
from .tolerances import germination_tolerance

LEAST_PUBLISHED = 200  # seeds below which no tolerance is published
INDICATIVE = 1.959963984540054  # normal deviate of a two-sided range of 95 %
_HAIR = 1e-9  # what binary fractions make of two whole per cents


@dataclass(frozen=True, slots=True, kw_only=True)
class HomeTest:
    """Seeds of a lot laid out at home, in one dish or in several.

    Parameters
    ----------
    dishes : tuple of Dish
        Sprouted of laid out, dish by dish.
    hard : int, optional
        Seeds left over in all dishes that are firm and not rotten. Asked for
        where the tag has hard or dormant seed that is to count.

    Raises
    ------
    MeasurementError
        For no dish, or more hard seeds than did not sprout.
    """

    dishes: tuple[Dish, ...]
    hard: int | None = None

    def __post_init__(self) -> None:
        if not self.dishes:
            raise MeasurementError(
                "home_test", (), say("enter how many sprouted out of those laid out")
            )
        if self.hard is not None and not 0 <= self.hard <= self.seeds - self.sprouted:
            need = say(
                "enter 0 to {n} (the ones that did not sprout)",
                n=SEEDS(self.seeds - self.sprouted, 6),
            )
            raise MeasurementError("home_hard", self.hard, need)

    @property
    def seeds(self) -> int:
        """Seeds laid out in all dishes."""
        return sum(dish.seeds for dish in self.dishes)

    @property
    def sprouted(self) -> int:
        """Seeds that sprouted in all dishes."""
        return round(fsum(dish.sprouted for dish in self.dishes))

    @property
    def viable(self) -> int:
        """Seeds that sprouted or are hard.

        Raises
        ------
        MeasurementError
            Where the hard seeds were not counted.
        """
        if self.hard is None:
            need = say("count the leftover firm seeds too: this tag counts them as live")
            raise MeasurementError("home_hard", self.hard, need)
        return self.sprouted + self.hard


@dataclass(frozen=True, slots=True)
class Together:
    """Tag and home test as one.

    ``germination`` has the range of both together; ``alone`` is the exact
    range of the home test's own count. ``allowed`` is how far the two may
    differ, ``said`` what to know about it.
    """

    germination: Estimate
    alone: Estimate
    difference: float
    allowed: float
    published: bool
    said: tuple[Phrase, ...]

    @property
    def agrees(self) -> bool:
        """Whether the two tests differ by no more than is allowed."""
        return abs(self.difference) <= self.allowed + _HAIR

    def quantity(self) -> Quantity:
        """Return the germination of both together, with its uncertainty."""
        return uncertain(self.germination.value, self.germination.u, "germination")


def combine(share: float, *, seeds: int, home: HomeTest, hard_too: bool = False) -> Together:
    """Put the share on a tag and the count of a home test together.

    Beta(½ + Σ for, ½ + Σ against): each test speaks with its effective seeds,
    n ÷ (1 + (n − 1) ρ), the kitchen being no steadier than a laboratory.

    Parameters
    ----------
    share : float
        Germination on the tag, or its total of live seed. [-]
    seeds : int
        Seeds behind it.
    hard_too : bool
        Whether ``share`` has hard and dormant seed in it.

    Returns
    -------
    Together
        Where the two disagree, its range is stretched to reach both.

    Raises
    ------
    MeasurementError
        For a share outside 0 to 1, or hard seed that was not counted at home.

    References
    ----------
    J. G. Skellam (1948), Journal of the Royal Statistical Society B 10, 257–261. Tolerance:
    7 CFR 201.63 from 200 seeds on; below, the binomial range of a difference, indicative only.

    Examples
    --------
    A tag of 92%, and 80 of 100 seeds up at home:

    >>> both = combine(0.92, seeds=400, home=HomeTest(dishes=(Dish(80, 100),)))
    >>> print(f"{both.germination.value:.1%}, {both.difference:+.0%}, {both.agrees}")
    88.0%, -12%, False
    """
    found, of = home.viable if hard_too else home.sprouted, home.seeds
    tag, kitchen = evidence(share, seeds=seeds), evidence(found / of, seeds=of)
    living, dead = tag[0] + kitchen[0], tag[1] + kitchen[1]
    value, difference = living / (living + dead), found / of - share
    allowed, published = _allowed((share + found / of) / 2, seeds, of)
    agrees = abs(difference) <= allowed + _HAIR
    if not agrees:
        living, dead = _stretched(value, abs(difference) / 2)
    apart = agree(home.dishes) if len(home.dishes) > 1 else None
    said = _compare(abs(difference), allowed, agrees=agrees, published=published)
    return Together(
        germination=_beta_range(value, living, dead),
        alone=_alone(found, of),
        difference=difference,
        allowed=allowed,
        published=published,
        said=(said, apart) if apart else (said,),
    )


def _allowed(mean: float, seeds: int, of: int) -> tuple[float, bool]:
    """Return how far tag and home test may differ, and whether that is published."""
    if min(of, seeds) >= LEAST_PUBLISHED:
        return germination_tolerance(mean, seeds=min(of, seeds)), True
    return INDICATIVE * sqrt(mean * (1 - mean) * (1 / seeds + 1 / of)), False


def _stretched(value: float, u: float) -> tuple[float, float]:
    """Seeds for and against that would leave a share as uncertain as ``u``."""
    seeds = max(value * (1 - value) / (u * u) - 2, 0.0)
    return seeds * value, seeds * (1 - value)


def _beta_range(value: float, living: float, dead: float) -> Estimate:
    low, high = (beta_quantile(p, a=living + 0.5, b=dead + 0.5) for p in (0.025, 0.975))
    return Estimate(value, low, high, beta_u(living, dead))


def _alone(found: int, of: int) -> Estimate:
    low, high = clopper_pearson(found, n=of)
    return Estimate(found / of, low, high, beta_u(found, of - found))


def _compare(difference: float, allowed: float, *, agrees: bool, published: bool) -> Phrase:
    limit = (
        say("{allowed} points, as 7 CFR 201.63 allows", allowed=_points(allowed))
        if published
        else say(
            "{allowed} points, a rough guide: no tolerance is published below 200 seeds",
            allowed=_points(allowed),
        )
    )
    if agrees:
        template = "Tag and home test differ by {difference} points, within {limit}."
    else:
        template = (
            "Tag and home test differ by {difference} points, more than {limit}. "
            "The range is widened to cover both; test again, or send it to a lab,"
            " before you rely on either."
        )
    return say(template, difference=_points(difference), limit=limit)


def _points(share: float) -> Amount:
    return NUMBER(share / PERCENT)
