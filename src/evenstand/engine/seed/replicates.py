"""Whether the replicates of one germination test agree with each other."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import floor, fsum

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import SEEDS, SHARE
from ..statistics.counting import binomial_cdf
from ..statistics.distributions import chi_square_survival
from ..statistics.elementary import log
from ..statistics.quantile import require_probability
from .tolerance_tables import RANGES

REPLICATE_SEEDS = 100
RARE = 0.025  # odds below which dishes are said to disagree, as behind the table of ranges


@dataclass(frozen=True, slots=True)
class Dish:
    """One dish, towel or replicate: seeds that sprouted, of seeds laid out."""

    sprouted: int
    seeds: int

    def __post_init__(self) -> None:
        require_positive("seeds", self.seeds, "seeds")
        if not 0 <= self.sprouted <= self.seeds:
            need = say("enter 0 to {n} (the number laid out)", n=SEEDS(self.seeds, 6))
            raise MeasurementError("sprouted", self.sprouted, need)


@dataclass(frozen=True, slots=True)
class DishScatter:
    """How far dishes that should be alike differ.

    ``deviance`` and ``chi_square`` are two measures of it with ``dof`` degrees
    of freedom; ``p`` are the odds of a larger chi-square by luck of the draw.
    """

    deviance: float
    chi_square: float
    dof: int
    p: float

    @property
    def factor(self) -> float:
        """Variance between dishes ÷ what the luck of the draw gives, Pearson's φ."""
        return self.chi_square / self.dof


def largest_range(mean: float, *, replicates: int) -> float:
    """Range that replicates of 100 seeds may have before the test is done again.

    Parameters
    ----------
    mean : float
        Mean of the replicates, taken to the nearest whole per cent. [-]
    replicates : int
        4 or 2.

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For another number of replicates, or a mean the table does not have.

    References
    ----------
    7 CFR 201.55 (a), annual edition of 2015.

    Examples
    --------
    >>> print(f"{largest_range(0.904, replicates=4):.0%}")
    12%
    """
    if replicates not in RANGES:
        raise MeasurementError(
            "replicates", replicates, say("enter 4 or 2 replicates of 100 seeds")
        )
    if not 0 <= mean <= 1:
        raise MeasurementError("mean", mean, say("enter a share from 0% to 100%"))
    percent = floor(mean * 100 + 0.5)
    percent = percent if percent >= 51 else 101 - percent
    last = 99 if replicates == 4 else 97
    if percent > last:
        need = say("compare them as counts: the tolerance table stops short of this average")
        raise MeasurementError("mean", mean, need)
    return next(points for low, points in RANGES[replicates] if percent >= low) / 100


def range_by_chance(
    p: float, *, replicates: int = 4, seeds: int = REPLICATE_SEEDS, level: float = 1 - RARE
) -> int:
    """Smallest range that replicates of one lot keep to with these odds, exactly.

    P(range ≤ w) = Σ [(F(m + w) − F(m − 1))ʳ − (F(m + w) − F(m))ʳ], F binomial

    Parameters
    ----------
    p : float
        Germination of the lot. [-]
    replicates, seeds : int
        Replicates, r, and the seeds of each.
    level : float
        Odds that the range keeps to it. [-]

    Returns
    -------
    int [seeds]

    Raises
    ------
    MeasurementError
        For odds outside 0 to 1, or fewer than two replicates.

    References
    ----------
    I. W. Burr (1955), Calculation of exact sampling distribution of ranges from a discrete
    population, Annals of Mathematical Statistics 26, 530–532 (not read). The level is that
    of ISTA table 5B (not read).

    Examples
    --------
    >>> range_by_chance(0.9)
    12
    """
    require_probability("p", p)
    require_probability("level", level)
    if replicates < 2:
        raise MeasurementError("replicates", replicates, say("enter at least 2 replicates"))
    below = [0.0, *(binomial_cdf(k, n=seeds, p=p) for k in range(seeds + 1))]
    for width in range(seeds):
        terms = []
        for m in range(seeds + 1):
            top = below[min(m + width, seeds) + 1]
            terms.append(_power(top - below[m], replicates))
            terms.append(-_power(top - below[m + 1], replicates))
        if fsum(terms) >= level:
            return width
    return seeds


def scatter(groups: Sequence[Sequence[Dish]]) -> DishScatter:
    """Measure how far dishes of one group differ beyond the luck of the draw.

    deviance = 2 Σ [y ln(y/μ) + (n − y) ln((n − y)/(n − μ))],
    χ² = Σ (y − μ)² ÷ (μ (n − μ)/n), μ = n × the group's share

    Parameters
    ----------
    groups : sequence of sequences of Dish
        Dishes that should be alike, in one or more groups.

    Raises
    ------
    MeasurementError
        For dishes that leave nothing to compare.

    References
    ----------
    P. McCullagh and J. A. Nelder (1989), Generalized Linear Models, 4.4.3 and 4.5.
    """
    dof = sum(len(group) for group in groups) - len(groups)
    if not all(groups) or dof < 1:
        raise MeasurementError("dishes", len(groups), say("enter at least two towels to compare"))
    cells = [cell for group in groups for cell in _cells(group)]
    deviance = fsum(2 * seen * log(seen / expected) for seen, expected in cells if seen)
    gaps = ((seen - expected, expected) for seen, expected in cells if expected)
    chi_square = fsum(gap * gap / expected for gap, expected in gaps)
    return DishScatter(deviance, chi_square, dof, chi_square_survival(chi_square, dof=dof))


def agree(dishes: Sequence[Dish]) -> Phrase | None:
    """Say what is wrong where the dishes of one test differ too much.

    Four or two replicates of 100 seeds are held to the table of ranges, others
    to the odds of their chi-square.

    Parameters
    ----------
    dishes : sequence of Dish, length ≥ 2

    Raises
    ------
    MeasurementError
        For fewer than two dishes.

    References
    ----------
    7 CFR 201.55 (a), annual edition of 2015.
    """
    found = scatter([dishes])
    allowed = _allowed(dishes)
    if allowed is None:
        return None if found.p >= RARE else _again(say("more than chance allows"))
    shares = [dish.sprouted / dish.seeds for dish in dishes]
    spread = max(shares) - min(shares)
    if spread <= allowed + 1e-9:
        return None
    return _again(
        say(
            "they vary by {spread}, and 7 CFR 201.55 allows {allowed}",
            spread=SHARE(spread),
            allowed=SHARE(allowed),
        )
    )


def _cells(group: Sequence[Dish]) -> Iterator[tuple[int, float]]:
    """Seeds that sprouted and that did not, as seen and as the group's share has them."""
    seeds = sum(dish.seeds for dish in group)
    share = fsum(dish.sprouted for dish in group) / seeds
    for dish in group:
        yield dish.sprouted, dish.seeds * share
        yield dish.seeds - dish.sprouted, dish.seeds * (1 - share)


def _allowed(dishes: Sequence[Dish]) -> float | None:
    """Return the range of the table, None where the table does not speak of these dishes."""
    if len(dishes) not in RANGES or any(dish.seeds != REPLICATE_SEEDS for dish in dishes):
        return None
    mean = fsum(dish.sprouted for dish in dishes) / len(dishes) / REPLICATE_SEEDS
    try:
        return largest_range(mean, replicates=len(dishes))
    except MeasurementError:
        return None


def _again(why: Phrase) -> Phrase:
    return say("The towels in this test do not agree: {why}. Test again.", why=why)


def _power(x: float, times: int) -> float:
    product = x
    for _ in range(times - 1):
        product *= x
    return product
