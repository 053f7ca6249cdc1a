"""Whether counts of several kinds agree with the shares that were expected."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum

from ..quantities.errors import MeasurementError
from ..quantities.phrases import say
from .distributions import chi_square_survival

LEAST_EXPECTED = 5.0


@dataclass(frozen=True, slots=True)
class Fit:
    """How well counts agree with their expected shares.

    ``classes`` are the places, from 0, of the counts that make up each class
    compared; a class of several was pooled because few were expected of each.
    ``p`` is the probability of a worse agreement by chance alone.
    """

    statistic: float
    dof: int
    p: float
    classes: tuple[tuple[int, ...], ...]


def fit(counts: Sequence[int], *, shares: Sequence[float], least: float = LEAST_EXPECTED) -> Fit:
    """Compare counts with expected shares, Pearson's chi-square.

    χ² = Σ (count − expected)² / expected, expected = share × total

    Parameters
    ----------
    counts : sequence of int, length c
        Seeds or plants of each kind: counts, never weights.
    shares : sequence of float, length c
        Expected parts of the total, in any scale. [-]
    least : float
        Kinds of which fewer are expected are pooled with each other, and with
        the next kind where that is not enough. [seeds]

    Raises
    ------
    MeasurementError
        ``shares`` that do not fit the counts; ``counts`` too few for two classes.

    References
    ----------
    K. Pearson (1900), Philosophical Magazine 50, 157–175; W. G. Cochran (1954), Biometrics 10,
    417–451, on small expectations, whose limit of 5 is kept here.

    Examples
    --------
    >>> peas = fit([315, 108, 101, 32], shares=[9, 3, 3, 1])
    >>> print(f"{peas.statistic:.2f}, p {peas.p:.3f}")
    0.47, p 0.925
    """
    expected = _expected(counts, shares)
    classes = _pooled(expected, least)
    if len(classes) < 2:
        raise MeasurementError("counts", tuple(counts), say("count more seeds of each kind"))
    parts = []
    for members in classes:
        mean = total_of(expected, members)
        gap = total_of(counts, members) - mean
        parts.append(gap * gap / mean)
    statistic, dof = fsum(parts), len(classes) - 1
    return Fit(statistic, dof, chi_square_survival(statistic, dof=dof), classes)


def _expected(counts: Sequence[int], shares: Sequence[float]) -> list[float]:
    if len(shares) != len(counts) or not all(share >= 0 for share in shares):
        need = say("enter one share of 0 or more for each of {n} kinds", n=len(counts))
        raise MeasurementError("shares", tuple(shares), need)
    whole = fsum(shares)
    if not whole > 0:
        raise MeasurementError("shares", tuple(shares), say("enter at least one share above 0"))
    total = fsum(counts)
    return [share * total / whole for share in shares]


def _pooled(expected: Sequence[float], least: float) -> tuple[tuple[int, ...], ...]:
    """Classes of at least ``least`` each, the pooled one last."""
    order = sorted(range(len(expected)), key=lambda i: (expected[i], i))
    pool: list[int] = []
    while order and (expected[order[0]] < least or (pool and total_of(expected, pool) < least)):
        pool.append(order.pop(0))
    whole = [(i,) for i in sorted(order)]
    return (*whole, tuple(sorted(pool))) if pool else tuple(whole)


def total_of(values: Sequence[float], members: Sequence[int]) -> float:
    """Add up those values that belong together."""
    return fsum(values[i] for i in members)
