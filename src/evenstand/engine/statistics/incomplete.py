"""The incomplete gamma and beta functions, from which the odds of statistics are made."""

from math import inf, pi, sqrt
from typing import NamedTuple

from .elementary import exp, log, stirling_error

_SETTLED = 1e-15  # a factor this close to 1 may be 1 but for rounding
_NEGLIGIBLE = 1e-16


class Tails(NamedTuple):
    """Both shares of a distribution that a point divides, and how fast it divides.

    ``weight`` is what the lower share gains as the logarithm of the point, or
    of its odds, moves by a unit.
    """

    lower: float
    upper: float
    weight: float


def gamma_tails(x: float, *, shape: float) -> Tails:
    """Regularised incomplete gamma functions.

    lower = P(a, x) = γ(a, x) / Γ(a), upper = Q(a, x), weight = xᵃ e⁻ˣ / Γ(a)

    Parameters
    ----------
    x : float
        At least 0. [-]
    shape : float
        The a of the formula, above 0. [-]

    Returns
    -------
    Tails [-]

    References
    ----------
    NIST Digital Library of Mathematical Functions, 8.7.1 below a + 1, else
    the even part of 8.9.2; C. Loader (2000), Fast and Accurate Computation of Binomial
    Probabilities, for the weight.

    Examples
    --------
    >>> print(f"{gamma_tails(1.0, shape=1.0).upper:.12f}")  # 1/e
    0.367879441171
    """
    if not 0 < x < inf:
        return Tails(1.0, 0.0, 0.0) if x > 0 else Tails(0.0, 1.0, 0.0)
    weight = sqrt(shape / (2 * pi)) * exp(-stirling_error(shape) - deviance(shape, mean=x))
    if x < shape + 1:
        lower = weight * _gamma_series(x, shape)
        return Tails(lower, 1 - lower, weight)
    upper = weight * _gamma_fraction(x, shape)
    return Tails(1 - upper, upper, weight)


def beta_tails(x: float, *, rest: float, a: float, b: float) -> Tails:
    """Regularised incomplete beta functions.

    lower = Iₓ(a, b), upper = 1 − Iₓ(a, b), weight = xᵃ (1 − x)ᵇ / B(a, b)

    Parameters
    ----------
    x : float
        From 0 to 1. [-]
    rest : float
        1 − x, from a source that does not lose its digits where x is next to 1. [-]
    a, b : float
        Above 0. [-]

    Returns
    -------
    Tails [-]

    References
    ----------
    A. R. DiDonato and A. H. Morris (1992), Algorithm 708, ACM Transactions on Mathematical
    Software 18, BFRAC, for the shares, with 1 − Iₓ(a, b) = I₁₋ₓ(b, a) above the mean;
    C. Loader (2000), Fast and Accurate Computation of Binomial Probabilities, for the weight.

    Examples
    --------
    >>> print(f"{beta_tails(0.25, rest=0.75, a=2.0, b=1.0).lower:.12f}")  # x²
    0.062500000000
    """
    if x <= 0 or rest <= 0:
        return Tails(0.0, 1.0, 0.0) if x <= 0 else Tails(1.0, 0.0, 0.0)
    weight = beta_weight(x, rest=rest, a=a, b=b)
    if b * x <= a * rest:
        lower = weight * _beta_fraction(x, rest=rest, a=a, b=b)
        return Tails(lower, 1 - lower, weight)
    upper = weight * _beta_fraction(rest, rest=x, a=b, b=a)
    return Tails(1 - upper, upper, weight)


def beta_weight(x: float, *, rest: float, a: float, b: float) -> float:
    """Weight of ``beta_tails`` alone, for x and rest above 0.

    xᵃ (1 − x)ᵇ / B(a, b), which times n / ab is the probability of a successes of n = a + b
    """
    n = a + b
    short = stirling_error(n) - stirling_error(a) - stirling_error(b)
    gap = deviance(a, mean=n * x) + deviance(b, mean=n * rest)
    return sqrt(a / (2 * pi) * (b / n)) * exp(short - gap)


def deviance(x: float, *, mean: float) -> float:
    """How far a count is from its mean, as the exponent of its probability.

    D = x ln(x / mean) + mean − x, without cancellation where the two are close

    Parameters
    ----------
    x : float
        Above 0. [-]
    mean : float
        At least 0. [-]

    Returns
    -------
    float [-]
        Infinite where the mean is 0.

    References
    ----------
    C. Loader (2000), Fast and Accurate Computation of Binomial Probabilities.
    """
    difference = x - mean
    if abs(difference) > 0.1 * (x + mean):
        return x * log(x / mean) - difference if mean else inf
    v = difference / (x + mean)
    term, total, n = 2 * x * v, difference * v, 1
    while True:
        term *= v * v
        n += 2
        longer = total + term / n
        if longer == total:
            return total
        total = longer


def _gamma_series(x: float, a: float) -> float:
    """Sum of xⁿ / (a (a + 1) … (a + n))."""
    term = total = 1 / a
    while term > total * _NEGLIGIBLE:
        a += 1
        term *= x / a
        total += term
    return total


def _gamma_fraction(x: float, a: float) -> float:
    """Continued fraction 1/(x + 1 − a − 1(1 − a)/(x + 3 − a − …)), Lentz's algorithm."""
    b = x + 1 - a
    c, d = inf, 1 / b
    total, n = d, 0
    while True:
        n += 1
        numerator = n * (a - n)
        b += 2
        d = 1 / (numerator * d + b)
        c = b + numerator / c
        total *= c * d
        if abs(c * d - 1) <= _SETTLED:
            return total


def _beta_fraction(x: float, *, rest: float, a: float, b: float) -> float:
    """Continued fraction 1/(β₀ + α₁/(β₁ + α₂/(β₂ + …))), Lentz's algorithm."""
    ahead = a * rest - b * x + 1
    total = a * ahead / (a + 1)
    c, d, m = total, 0.0, 0
    while True:
        m += 1
        last = a + 2 * m - 1
        gain = m * (b - m) * x / last
        alpha = (a + m - 1) * (a + b + m - 1) / last * x * gain
        beta = m + gain + (a + m) * (ahead + m * (1 + rest)) / (last + 2)
        d = 1 / (beta + alpha * d)
        c = beta + alpha / c
        total *= c * d
        if abs(c * d - 1) <= _SETTLED:
            return 1 / total
