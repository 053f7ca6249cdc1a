"""Values that do not belong to the others, with the false alarms held in check."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import isfinite, sqrt

from ..quantities.errors import MeasurementError
from ..quantities.phrases import say
from .distributions import t_quantile
from .quantile import require_probability
from .variance import mean_and_sd


@dataclass(frozen=True, slots=True)
class Extreme:
    """The value farthest from the mean: its place from 0, and how many standard deviations."""

    index: int
    statistic: float


@dataclass(frozen=True, slots=True)
class EsdStep:
    """One step of the generalized ESD test: the farthest value left, and the limit for it."""

    index: int
    statistic: float
    critical: float


@dataclass(frozen=True, slots=True)
class Outliers:
    """Steps of a generalized ESD test; ``indices`` are the values that lie out, worst first."""

    steps: tuple[EsdStep, ...]
    indices: tuple[int, ...]


def grubbs(values: Sequence[float]) -> Extreme:
    """Find the value that is farthest from the mean.

    G = max |x − x̄| / s, at most (n − 1) / √n whatever the values

    Parameters
    ----------
    values : sequence of float, length n ≥ 3
        [any]

    Returns
    -------
    Extreme [-]

    Raises
    ------
    MeasurementError
        For ``values`` that are fewer than 3 or all the same.

    References
    ----------
    NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.1.

    Examples
    --------
    >>> worst = grubbs([25.2, 24.9, 25.4, 21.0, 25.1, 25.0])
    >>> print(f"number {worst.index}, G {worst.statistic:.3f}")
    number 3, G 2.031
    """
    _require_enough(values, 3)
    worst = _farthest(range(len(values)), values)
    if not worst:
        raise MeasurementError(
            "values", tuple(values), say("enter values that are not all the same")
        )
    return worst


def grubbs_critical(n: int, *, alpha: float = 0.05, one_sided: bool = False) -> float:
    """Limit that Grubbs' statistic passes by chance with probability ``alpha``.

    (n − 1)/√n · √(t² / (n − 2 + t²)), t Student's with n − 2 dof and α/2n above it, or α/n

    Parameters
    ----------
    n : int
        Number of values, at least 3. [-]
    alpha : float
        Probability of a false alarm. [-]
    one_sided : bool
        Whether only one side was looked at, chosen beforehand.

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For ``n`` below 3, or ``alpha`` outside 0 to 1.

    References
    ----------
    NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.1.

    Examples
    --------
    >>> print(f"{grubbs_critical(8, one_sided=True):.3f}")
    2.032
    """
    require_probability("alpha", alpha)
    if not n >= 3:
        raise MeasurementError("n", n, say("enter at least 3 values"))
    t = t_quantile(alpha / (n if one_sided else 2 * n), dof=n - 2)
    return (n - 1) / sqrt(n * (1 + (n - 2) / (t * t)))


def generalized_esd(values: Sequence[float], *, most: int, alpha: float = 0.05) -> Outliers:
    """Find up to ``most`` outliers, also where they hide each other.

    The farthest value is taken away ``most`` times; the outliers are all that
    were taken up to the last step whose statistic is above its limit.

    Parameters
    ----------
    values : sequence of float, length n ≥ most + 2
        [any]
    most : int
        Outliers to look for, at least 1. [-]
    alpha : float
        Probability of any false alarm. [-]

    Raises
    ------
    MeasurementError
        For too few ``values``, ``most`` below 1, ``alpha`` outside 0 to 1.

    Notes
    -----
    The limit is exact enough for 25 values, fair for 15.

    References
    ----------
    B. Rosner (1983), Technometrics 25, 165–172; NIST/SEMATECH e-Handbook of Statistical Methods,
    1.3.5.17.3.

    Examples
    --------
    >>> generalized_esd([9, 10, 11, 10, 9, 11, 10, 30, 31, 10, 9, 11], most=3).indices
    (8, 7)
    """
    if not most >= 1:
        raise MeasurementError("most", most, say("enter 1 or more"))
    _require_enough(values, most + 2)
    left, steps, outliers = list(range(len(values))), list[EsdStep](), 0
    for _ in range(most):
        worst = _farthest(left, values)
        if not worst:
            break
        critical = grubbs_critical(len(left), alpha=alpha)
        steps.append(EsdStep(worst.index, worst.statistic, critical))
        left.remove(worst.index)
        if steps[-1].statistic > steps[-1].critical:
            outliers = len(steps)
    return Outliers(tuple(steps), tuple(step.index for step in steps[:outliers]))


def holm(p_values: Sequence[float]) -> tuple[float, ...]:
    """Adjust the p values of several tests for their number.

    The smallest times m, the next times m − 1, …; none below one before it, none above 1

    Parameters
    ----------
    p_values : sequence of float, length m
        From 0 to 1 each. [-]

    Returns
    -------
    tuple of float, in the order given [-]
        Rejecting those below α holds the probability of any false alarm to α.

    Raises
    ------
    MeasurementError
        For ``p_values`` outside 0 to 1.

    References
    ----------
    S. Holm (1979), A simple sequentially rejective multiple test procedure, Scandinavian Journal
    of Statistics 6, 65–70.

    Examples
    --------
    >>> holm([0.25, 0.01, 0.5])
    (0.5, 0.03, 0.5)
    """
    if not all(0 <= p <= 1 for p in p_values):
        raise MeasurementError("p_values", tuple(p_values), say("enter probabilities from 0 to 1"))
    adjusted = [0.0] * len(p_values)
    floor = 0.0
    order = sorted(range(len(p_values)), key=lambda i: p_values[i])
    for tests_before, i in enumerate(order):
        floor = max(floor, min(1.0, (len(order) - tests_before) * p_values[i]))
        adjusted[i] = floor
    return tuple(adjusted)


def _farthest(places: Sequence[int], values: Sequence[float]) -> Extreme | None:
    """Farthest of the values at these places, none where they are all the same."""
    mean, sd = mean_and_sd([values[i] for i in places])
    worst = max(places, key=lambda i: abs(values[i] - mean))
    return Extreme(worst, abs(values[worst] - mean) / sd) if sd > 0 else None


def _require_enough(values: Sequence[float], least: int) -> None:
    if len(values) < least or not all(isfinite(x) for x in values):
        raise MeasurementError("values", tuple(values), say("enter at least {n} numbers", n=least))
