"""Distributions of statistics: the share below a point, and the point below a share."""

from math import inf, isinf, sqrt

from ..quantities.errors import require_positive
from .elementary import exp, log
from .incomplete import beta_tails, gamma_tails
from .quantile import (
    log_gamma_quantile,
    log_odds_quantile,
    require_number,
    require_probability,
    symmetric_cdf,
    symmetric_quantile,
)

Z95 = 1.959963984540054  # normal_quantile(0.975)


def normal_cdf(z: float) -> float:
    """Probability that a standard normal variable is at most ``z``.

    Φ(−z) = ½ Q(½, z² / 2) for z ≥ 0

    Parameters
    ----------
    z : float
        Distance from the mean in standard deviations. [-]

    Returns
    -------
    float [-]

    References
    ----------
    NIST Digital Library of Mathematical Functions, 7.11.2.

    Examples
    --------
    >>> print(f"{normal_cdf(1.959963984540054):.9f}")
    0.975000000
    """
    require_number("z", z)
    return symmetric_cdf(z, beyond=gamma_tails(z * z / 2, shape=0.5).upper)


def normal_quantile(p: float) -> float:
    """Point that a standard normal variable is at most with probability ``p``.

    Parameters
    ----------
    p : float
        Probability, from 0 to 1. [-]

    Returns
    -------
    float [-]
        Infinite at 0 and 1.

    Examples
    --------
    >>> print(f"{normal_quantile(0.975):.9f}")
    1.959963985
    """

    def distance(share: float, upper: bool) -> float:
        return sqrt(2 * exp(log_gamma_quantile(share, shape=0.5, upper=upper)))

    return symmetric_quantile(p, distance)


def t_cdf(x: float, *, dof: float) -> float:
    """Probability that Student's t is at most ``x``.

    F(−t) = ½ I_y(ν/2, ½), y = ν / (ν + t²), for t ≥ 0

    Parameters
    ----------
    x : float [-]
    dof : float
        Degrees of freedom, above 0; infinite for the normal distribution. [-]

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For ``dof`` not above 0 or ``x`` not a number; ``field`` names it.

    References
    ----------
    M. Abramowitz and I. A. Stegun (1964), Handbook of Mathematical Functions, 26.7.1 and 26.5.27.

    Examples
    --------
    >>> print(f"{t_cdf(1.0, dof=1.0):.9f}")
    0.750000000
    """
    require_number("x", x)
    require_positive("dof", dof)
    if isinf(dof):
        return normal_cdf(x)
    square = x * x / dof
    rest = 1 / (1 + 1 / square) if square else 0.0
    return symmetric_cdf(x, beyond=beta_tails(1 / (1 + square), rest=rest, a=dof / 2, b=0.5).lower)


def t_quantile(p: float, *, dof: float) -> float:
    """Point that Student's t is at most with probability ``p``.

    Parameters
    ----------
    p : float
        Probability, from 0 to 1. [-]
    dof : float
        Degrees of freedom, above 0; infinite for the normal distribution. [-]

    Returns
    -------
    float [-]
        Infinite at 0 and 1.

    Raises
    ------
    MeasurementError
        For ``p`` or ``dof`` outside its range; ``field`` names it.

    References
    ----------
    JCGM 100:2008 (GUM), G.3 and table G.2. The search starts at the expansion in M. Abramowitz
    and I. A. Stegun (1964), Handbook of Mathematical Functions, 26.7.5.

    Examples
    --------
    >>> print(f"{t_quantile(0.975, dof=16.0):.2f}")
    2.12
    """
    require_positive("dof", dof)
    if isinf(dof):
        return normal_quantile(p)

    def distance(share: float, upper: bool) -> float:
        near = log(dof) - 2 * log(_about(abs(normal_quantile(p)), max(dof, 1.0)))
        if upper:  # of t² / (ν + t²) is lower of ν / (ν + t²)
            return sqrt(dof) * exp(-log_odds_quantile(share, a=dof / 2, b=0.5, start=near) / 2)
        return sqrt(dof) * exp(log_odds_quantile(share, a=0.5, b=dof / 2, start=-near) / 2)

    return symmetric_quantile(p, distance)


def _about(z: float, dof: float) -> float:
    """Quantile of t to the third power of 1/ν, from that of the normal distribution."""
    square = z * z
    first = (square + 1) / 4
    second = ((5 * square + 16) * square + 3) / 96
    third = (((3 * square + 19) * square + 17) * square - 15) / 384
    return z * (1 + (first + (second + max(third, 0.0) / dof) / dof) / dof)


def gamma_cdf(x: float, *, shape: float, scale: float = 1.0) -> float:
    """Probability that a gamma variable is at most ``x``.

    F = P(shape, x / scale)

    Parameters
    ----------
    x : float
        [any]
    shape : float
        Above 0. [-]
    scale : float
        Above 0; mean = shape × scale. [any, as x]

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For ``shape`` or ``scale`` not above 0, or ``x`` not a number.

    Examples
    --------
    >>> print(f"{gamma_cdf(2.0, shape=1.0, scale=2.0):.9f}")  # 1 − 1/e
    0.632120559
    """
    require_number("x", x)
    require_positive("shape", shape)
    require_positive("scale", scale)
    return gamma_tails(x / scale, shape=shape).lower


def gamma_quantile(p: float, *, shape: float, scale: float = 1.0) -> float:
    """Point that a gamma variable is at most with probability ``p``.

    Parameters
    ----------
    p : float
        Probability, from 0 to 1. [-]
    shape : float
        Above 0. [-]
    scale : float
        Above 0; mean = shape × scale. [any]

    Returns
    -------
    float [as scale]

    Raises
    ------
    MeasurementError
        For an input outside its range; ``field`` names it.

    Examples
    --------
    >>> print(f"{gamma_quantile(0.5, shape=1.0):.9f}")  # ln 2
    0.693147181
    """
    require_probability("p", p)
    require_positive("shape", shape)
    require_positive("scale", scale)
    if p in (0, 1):
        return inf if p else 0.0
    upper = p > 0.5
    return scale * exp(log_gamma_quantile(1 - p if upper else p, shape=shape, upper=upper))


def chi_square_cdf(x: float, *, dof: float) -> float:
    """Probability that chi-square is at most ``x``, with ``dof`` degrees of freedom."""
    require_positive("dof", dof)
    return gamma_cdf(x, shape=dof / 2, scale=2.0)


def chi_square_survival(x: float, *, dof: float) -> float:
    """Probability that chi-square is above ``x``, with ``dof`` degrees of freedom."""
    require_number("x", x)
    require_positive("dof", dof)
    return gamma_tails(x / 2, shape=dof / 2).upper


def chi_square_quantile(p: float, *, dof: float) -> float:
    """Point that chi-square is at most with probability ``p``."""
    require_positive("dof", dof)
    return gamma_quantile(p, shape=dof / 2, scale=2.0)


def beta_cdf(x: float, *, a: float, b: float) -> float:
    """Probability that a beta variable is at most ``x``.

    F = Iₓ(a, b)

    Parameters
    ----------
    x : float [-]
    a, b : float
        Above 0; mean = a / (a + b). [-]

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For ``a`` or ``b`` not above 0, or ``x`` not a number.

    Examples
    --------
    >>> print(f"{beta_cdf(0.5, a=2.0, b=1.0):.9f}")  # x²
    0.250000000
    """
    require_number("x", x)
    require_positive("a", a)
    require_positive("b", b)
    return beta_tails(x, rest=1 - x, a=a, b=b).lower


def beta_quantile(p: float, *, a: float, b: float) -> float:
    """Point that a beta variable is at most with probability ``p``.

    Parameters
    ----------
    p : float
        Probability, from 0 to 1. [-]
    a, b : float
        Above 0; mean = a / (a + b). [-]

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For an input outside its range; ``field`` names it.

    Examples
    --------
    >>> print(f"{beta_quantile(0.25, a=2.0, b=1.0):.9f}")  # √p
    0.500000000
    """
    require_probability("p", p)
    require_positive("a", a)
    require_positive("b", b)
    if p in (0, 1):
        return float(p)
    upper = p > 0.5
    log_odds = log_odds_quantile(1 - p if upper else p, a=a, b=b, upper=upper)
    return 1 / (1 + exp(-log_odds))
