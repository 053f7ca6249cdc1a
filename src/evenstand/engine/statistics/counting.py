"""What counts can tell: the probability of a count, and the range of a share."""

from math import fsum, sqrt

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import say
from .distributions import beta_quantile, normal_quantile
from .elementary import exp, log
from .incomplete import beta_tails, beta_weight, gamma_tails
from .quantile import require_probability


def binomial_pmf(k: int, *, n: int, p: float) -> float:
    """Probability of exactly ``k`` successes of ``n``.

    C(n, k) pᵏ (1 − p)ⁿ⁻ᵏ

    Parameters
    ----------
    k, n : int
        Successes and trials. [-]
    p : float
        Probability of success in each trial, from 0 to 1. [-]

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For ``p`` outside 0 to 1, or ``n`` below 1.

    References
    ----------
    C. Loader (2000), Fast and Accurate Computation of Binomial Probabilities.

    Examples
    --------
    >>> print(f"{binomial_pmf(2, n=4, p=0.5):.9f}")  # 6 of 16
    0.375000000
    """
    require_probability("p", p)
    require_positive("n", n)
    if not 0 <= k <= n:
        return 0.0
    if p in (0, 1):
        return 1.0 if k == n * p else 0.0
    if k in (0, n):
        return exp(n * log(p if k else 1 - p))
    return beta_weight(p, rest=1 - p, a=k, b=n - k) * n / (k * (n - k))


def binomial_cdf(k: int, *, n: int, p: float) -> float:
    """Probability of at most ``k`` successes of ``n``.

    I_{1−p}(n − k, k + 1)

    Parameters
    ----------
    k, n : int
        Successes and trials. [-]
    p : float
        Probability of success in each trial, from 0 to 1. [-]

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For ``p`` outside 0 to 1, or ``n`` below 1.

    References
    ----------
    NIST Digital Library of Mathematical Functions, 8.17.5.

    Examples
    --------
    >>> print(f"{binomial_cdf(1, n=4, p=0.5):.9f}")  # 5 of 16
    0.312500000
    """
    require_probability("p", p)
    require_positive("n", n)
    if not 0 <= k < n:
        return 0.0 if k < 0 else 1.0
    return beta_tails(1 - p, rest=p, a=n - k, b=k + 1).lower


def poisson_cdf(k: int, *, mean: float) -> float:
    """Probability of at most ``k`` events where ``mean`` are expected.

    Q(k + 1, mean)

    Parameters
    ----------
    k : int [-]
    mean : float
        At least 0. [-]

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For ``mean`` below 0.

    References
    ----------
    NIST Digital Library of Mathematical Functions, 8.4.10.

    Examples
    --------
    >>> print(f"{poisson_cdf(1, mean=1.0):.9f}")  # 2/e
    0.735758882
    """
    if not mean >= 0:
        raise MeasurementError("mean", mean, say("enter a number of 0 or more"))
    return 0.0 if k < 0 else gamma_tails(mean, shape=k + 1).upper


def beta_binomial_pmf(k: int, *, n: int, a: float, b: float) -> float:
    """Probability of exactly ``k`` successes of ``n`` whose probability is itself uncertain.

    C(n, k) B(k + a, n − k + b) / B(a, b), that is, at any one p, the probability of k successes
    times the density of p before, divided by its density after

    Parameters
    ----------
    k, n : int
        Successes and trials. [-]
    a, b : float
        Shapes of the beta distribution of the probability, above 0. [-]

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For ``n``, ``a`` or ``b`` not above 0.

    References
    ----------
    J. G. Skellam (1948), Journal of the Royal Statistical Society B 10, 257–261.

    Examples
    --------
    >>> print(f"{beta_binomial_pmf(3, n=4, a=1.0, b=1.0):.9f}")  # all alike
    0.200000000
    """
    require_positive("n", n)
    require_positive("a", a)
    require_positive("b", b)
    if not 0 <= k <= n:
        return 0.0
    whole = n + a + b
    p, rest = (k + a) / whole, (n - k + b) / whole
    before, after = (
        beta_weight(p, rest=rest, a=successes, b=failures)
        for successes, failures in ((a, b), (k + a, n - k + b))
    )
    return binomial_pmf(k, n=n, p=p) * before / after


def beta_binomial_cdf(k: int, *, n: int, a: float, b: float) -> float:
    """Probability of at most ``k`` successes of ``n`` whose probability is itself uncertain.

    The sum of ``beta_binomial_pmf`` from the end that is nearer, each term from
    its neighbour.
    """
    if not 0 <= k < n:
        return 0.0 if k < 0 else 1.0
    if k * (a + b) > n * a:
        return 1 - beta_binomial_cdf(n - k - 1, n=n, a=b, b=a)
    terms = [beta_binomial_pmf(k, n=n, a=a, b=b)]
    for j in range(k, 0, -1):
        terms.append(terms[-1] * (j / (n - j + 1) * ((n - j + b) / (j - 1 + a))))
    return fsum(terms)


def clopper_pearson(k: int, *, n: int, level: float = 0.95) -> tuple[float, float]:
    """Range of a share that is never too narrow.

    Beta quantiles: α/2 of (k, n − k + 1) and 1 − α/2 of (k + 1, n − k)

    Parameters
    ----------
    k, n : int
        Successes and trials, 0 ≤ k ≤ n. [-]
    level : float
        Coverage of the range, 1 − α. [-]

    Returns
    -------
    tuple of float, low and high [-]

    Raises
    ------
    MeasurementError
        For ``n`` below 1, ``k`` outside 0 to ``n``, ``level`` outside 0 to 1.

    References
    ----------
    C. J. Clopper and E. S. Pearson (1934), Biometrika 26, 404–413.

    Examples
    --------
    >>> low, high = clopper_pearson(86, n=100)
    >>> print(f"{low:.4f} to {high:.4f}")
    0.7763 to 0.9213
    """
    _require_counts(k, n, level)
    tail = (1 - level) / 2
    low = beta_quantile(tail, a=k, b=n - k + 1) if k else 0.0
    return low, beta_quantile(1 - tail, a=k + 1, b=n - k) if k < n else 1.0


def wilson(k: int, *, n: int, level: float = 0.95) -> tuple[float, float]:
    """Range of a share that is right on average.

    (p + z²/2n ± z √(p (1 − p)/n + z²/4n²)) / (1 + z²/n), p = k/n

    Parameters
    ----------
    k, n : int
        Successes and trials, 0 ≤ k ≤ n. [-]
    level : float
        Coverage of the range. [-]

    Returns
    -------
    tuple of float, low and high [-]

    Raises
    ------
    MeasurementError
        For ``n`` below 1, ``k`` outside 0 to ``n``, ``level`` outside 0 to 1.

    References
    ----------
    E. B. Wilson (1927), Journal of the American Statistical Association 22, 209–212.

    Examples
    --------
    >>> low, high = wilson(86, n=100)
    >>> print(f"{low:.4f} to {high:.4f}")
    0.7786 to 0.9147
    """
    _require_counts(k, n, level)
    z = normal_quantile((1 + level) / 2)
    middle = k + z * z / 2
    reach = z * sqrt(k * (n - k) / n + z * z / 4)
    whole = n + z * z
    low = (middle - reach) / whole if k else 0.0
    return low, (middle + reach) / whole if k < n else 1.0


def _require_counts(k: int, n: int, level: float) -> None:
    require_positive("n", n)
    require_probability("level", level)
    if not 0 <= k <= n:
        raise MeasurementError("k", k, say("enter 0 to {n}, the number tested", n=n))
