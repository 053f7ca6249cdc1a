"""What a germination test is worth: the seeds that stand behind it, and what else moves it.

Two tests of one lot differ by more than the luck of the draw, because samples,
beds and eyes differ from one laboratory to the next. Each test is taken as
beta-binomial: its own share of sprouts lies about that of the lot.
"""

from math import sqrt

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import say

TEST_SEEDS = 400  # seeds in a laboratory test, 7 CFR 201.54
# Correlation of two seeds of one test. The limit that a difference of two 400-seed tests passes
# by chance once in twenty, 1.645 √(2 p (1 − p) (1/400 + 399/400 × ρ)), lies within a point of
# every entry of the AOSA table (Louisiana 7:XIII.139) from this ρ on; without ρ it falls short
# by up to 5 points. That the table is one-way at 5 % was read in a textbook's excerpt.
BETWEEN_TESTS = 0.0052


def effective_seeds(seeds: float, *, between: float = BETWEEN_TESTS) -> float:
    """Seeds of a perfect test that tell as much as those of a real one.

    n ÷ (1 + (n − 1) ρ)

    Parameters
    ----------
    seeds : float
        Seeds tested, n.
    between : float
        Correlation ρ of two seeds of one test.

    Returns
    -------
    float [seeds]

    Raises
    ------
    MeasurementError
        For seeds that are not above zero.

    References
    ----------
    J. G. Skellam (1948), Journal of the Royal Statistical Society B 10, 257–261, for the
    variance of a beta-binomial share.

    Examples
    --------
    >>> [round(effective_seeds(n)) for n in (50, 100, 200, 400)]
    [40, 66, 98, 130]
    """
    require_positive("seeds_tested", seeds, "seeds")
    return seeds / (1 + (seeds - 1) * between)


def evidence(share: float, *, seeds: float) -> tuple[float, float]:
    """Seeds that speak for and against sprouting, of a test's effective ones.

    Parameters
    ----------
    share : float
        Share that sprouted. [-]
    seeds : float
        Seeds tested.

    Returns
    -------
    tuple of float, for and against [seeds]

    Raises
    ------
    MeasurementError
        For a share outside 0 to 1, or no seeds.
    """
    if not 0 <= share <= 1:
        raise MeasurementError("germination", share, say("enter a share from 0% to 100%"))
    effective = effective_seeds(seeds)
    return effective * share, effective * (1 - share)


def beta_u(sprouted: float, failed: float) -> float:
    """Standard uncertainty of a share behind which these seeds stand.

    That of a beta distribution of (sprouted + ½, failed + ½), Jeffreys' prior:
    above zero even where all seeds sprouted. [-]
    """
    a, b = sprouted + 0.5, failed + 0.5
    return sqrt(a * b / (a + b + 1)) / (a + b)


def germination_u(share: float, *, seeds: float = TEST_SEEDS) -> float:
    """Standard uncertainty of a germination test, between laboratories.

    Parameters
    ----------
    share : float
        Share that sprouted. [-]
    seeds : float
        Seeds tested.

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For a share outside 0 to 1, or no seeds.

    Examples
    --------
    >>> print(f"{100 * germination_u(0.9):.1f} points")
    2.6 points
    """
    return beta_u(*evidence(share, seeds=seeds))
