"""How values spread: between and within groups, and relative to their mean."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, inf, isfinite, sqrt

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import say
from .distributions import chi_square_quantile
from .incomplete import beta_tails
from .quantile import require_number, require_probability


@dataclass(frozen=True, slots=True)
class Anova:
    """One-way analysis of variance.

    ``between`` and ``within`` are mean squares; ``per_group`` is the number of
    values in each group, or what stands for it where groups differ in size.
    ``p`` is the probability of a larger ``f`` if the groups did not differ.
    """

    between: float
    within: float
    dof_between: int
    dof_within: int
    per_group: float
    f: float
    p: float

    @property
    def residual_sd(self) -> float:
        """Standard deviation within groups."""
        return sqrt(self.within)

    @property
    def group_sd(self) -> float:
        """Standard deviation of the groups' true means, 0 where noise alone would explain them."""
        return sqrt(max(0.0, (self.between - self.within) / self.per_group))


def one_way(groups: Sequence[Sequence[float]]) -> Anova:
    """Separate differences between groups from the noise within them.

    F = [Σ nᵢ (x̄ᵢ − x̄)² / (g − 1)] / [Σ Σ (x − x̄ᵢ)² / (N − g)]

    Parameters
    ----------
    groups : sequence of g ≥ 2 sequences of nᵢ ≥ 1 floats, N > g in all
        [any, all the same]

    Returns
    -------
    Anova [square of the values' unit]

    Raises
    ------
    MeasurementError
        For ``groups`` too few, empty, without a repeat, or all of one value.

    References
    ----------
    NIST/SEMATECH e-Handbook of Statistical Methods, 7.4.3; S. R. Searle (1971), Linear Models,
    ch. 9, for ``per_group`` where groups differ in size.

    Examples
    --------
    >>> rows = one_way([[25.1, 24.9], [27.0, 27.4], [24.2, 23.8]])
    >>> print(f"F {rows.f:.1f}, p {rows.p:.4f}")
    F 89.3, p 0.0021
    """
    _require_groups(groups)
    origin = groups[0][0]  # differences from one of the values keep the digits that all share
    offsets = [[x - origin for x in group] for group in groups]
    n, g = sum(len(group) for group in groups), len(groups)
    mean = fsum(x for group in offsets for x in group) / n
    means = [fsum(group) / len(group) for group in offsets]
    pairs = list(zip(offsets, means, strict=True))
    between = fsum(len(group) * _square(m - mean) for group, m in pairs) / (g - 1)
    within = fsum(_square(x - m) for group, m in pairs for x in group) / (n - g)
    if not between and not within:
        raise MeasurementError("groups", origin, say("enter values that are not all the same"))
    f = between / within if within else inf
    p = f_survival(f, dof1=g - 1, dof2=n - g)
    per_group = (n - fsum(len(group) * len(group) for group in groups) / n) / (g - 1)
    return Anova(between, within, g - 1, n - g, per_group, f, p)


def f_survival(x: float, *, dof1: float, dof2: float) -> float:
    """Probability that a ratio of two variances, F, is above ``x``.

    P(F > x) = I_y(ν₂/2, ν₁/2), y = ν₂ / (ν₂ + ν₁ x)

    Parameters
    ----------
    x : float
        Ratio of the variances. [-]
    dof1, dof2 : float
        Degrees of freedom of the upper and the lower variance, above 0. [-]

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For degrees of freedom not above 0, or ``x`` not a number.

    References
    ----------
    M. Abramowitz and I. A. Stegun (1964), Handbook of Mathematical Functions, 26.6.2.

    Examples
    --------
    >>> print(f"{f_survival(3.0, dof1=2.0, dof2=2.0):.9f}")  # 1 / (1 + x)
    0.250000000
    """
    require_number("x", x)
    require_positive("dof1", dof1)
    require_positive("dof2", dof2)
    if x <= 0:
        return 1.0
    ratio = dof1 * x / dof2
    return beta_tails(1 / (1 + ratio), rest=1 / (1 + 1 / ratio), a=dof2 / 2, b=dof1 / 2).lower


def mean_and_sd(values: Sequence[float]) -> tuple[float, float]:
    """Mean and standard deviation of at least two values.

    s = √(Σ (x − x̄)² / (n − 1))

    Raises
    ------
    MeasurementError
        For fewer than two ``values``, or one that is not a number.
    """
    if len(values) < 2 or not all(isfinite(x) for x in values):
        raise MeasurementError("values", tuple(values), say("enter at least 2 numbers"))
    mean = fsum(values) / len(values)
    return mean, sqrt(fsum(_square(x - mean) for x in values) / (len(values) - 1))


def cv_range(cv: float, *, n: int, level: float = 0.95) -> tuple[float, float]:
    """Range of a coefficient of variation, Vangel's modification of McKay's.

    K / √[((u + 2)/n − 1) K² + u/(n − 1)], u a chi-square quantile of n − 1 dof

    Parameters
    ----------
    cv : float
        The K of the formula: standard deviation ÷ mean of ``n`` values, at least 0. [-]
    n : int
        At least 2. [-]
    level : float
        Coverage of the range. [-]

    Returns
    -------
    tuple of float, low and high [-]
        High is infinite where so few values set no upper limit.

    Raises
    ------
    MeasurementError
        For an input outside its range; ``field`` names it.

    Notes
    -----
    For normal values whose coefficient of variation is below about a third.

    References
    ----------
    M. G. Vangel (1996), Confidence intervals for a normal coefficient of variation, The American
    Statistician 50, 21–26, eq. (16).

    Examples
    --------
    >>> low, high = cv_range(0.08, n=12)
    >>> print(f"{100 * low:.2f}% to {100 * high:.2f}%")
    5.66% to 13.65%
    """
    require_probability("level", level)
    if not cv >= 0:
        raise MeasurementError("cv", cv, say("enter 0 or more"))
    if not n >= 2:
        raise MeasurementError("n", n, say("enter at least 2 values"))
    quantiles = (chi_square_quantile((1 + sign * level) / 2, dof=n - 1) for sign in (1, -1))
    squares = [((u + 2) / n - 1) * cv * cv + u / (n - 1) for u in quantiles]
    low, high = (cv / sqrt(square) if square > 0 else inf for square in squares)
    return low, high


def _require_groups(groups: Sequence[Sequence[float]]) -> None:
    if len(groups) < 2 or not all(groups):
        raise MeasurementError("groups", len(groups), say("enter at least 2 groups, none empty"))
    if all(len(group) == 1 for group in groups):
        raise MeasurementError("groups", len(groups), say("enter a repeat in at least one group"))
    if not all(isfinite(x) for group in groups for x in group):
        raise MeasurementError("groups", groups, say("enter numbers"))


def _square(x: float) -> float:
    return x * x
