"""Counts against uncertain expectations, and counts of several samples side by side."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, sqrt

from ..quantities.errors import MeasurementError
from ..quantities.phrases import say
from .composition import LEAST_EXPECTED, Fit, fit, total_of
from .distributions import chi_square_survival, normal_cdf

Matrix = list[list[float]]


@dataclass(frozen=True, slots=True)
class Trend:
    """Whether a share changes along a scale.

    ``slope`` is the change of the share for one unit of the scale and ``u``
    its standard uncertainty; ``p`` is the odds of a steeper one by chance.
    """

    slope: float
    u: float
    z: float
    p: float


def shares_spread(shares: Sequence[float], relative: Sequence[float]) -> Matrix:
    """Covariance of shares whose parts are each uncertain on their own.

    cov(πᵢ, πⱼ) = πᵢ πⱼ Σₘ (δᵢₘ − πₘ)(δⱼₘ − πₘ) uₘ²

    Parameters
    ----------
    shares : sequence of float, length c
        They add up to 1. [-]
    relative : sequence of float, length c
        Relative standard uncertainty of each part. [-]

    Returns
    -------
    list of c lists of c floats [-]
    """
    places = range(len(shares))

    def factor(i: int, m: int) -> float:
        return (shares[i] if i == m else 0.0) - shares[i] * shares[m]

    return [
        [
            fsum(factor(i, m) * factor(j, m) * relative[m] * relative[m] for m in places)
            for j in places
        ]
        for i in places
    ]


def uncertain_fit(
    counts: Sequence[int],
    *,
    shares: Sequence[float],
    spread: Matrix,
    classes: Sequence[tuple[int, ...]],
) -> Fit:
    """Compare counts with expected shares that are themselves uncertain.

    χ² = d V⁻¹ d, d = count − n π, V = n (diag π − π πᵀ) + n² C; without C this
    is Pearson's chi-square

    Parameters
    ----------
    counts : sequence of int, length c
    shares : sequence of float, length c
        They add up to 1. [-]
    spread : c by c matrix
        Covariance C of the shares. [-]
    classes : sequence of tuple of int
        Places that are counted together, as from `composition.fit`.

    References
    ----------
    The quadratic form of a multinomial: Pearson (1900). That the covariance of
    the expectation adds to it is ours, checked by simulation.
    """
    n = fsum(counts)
    kept = classes[:-1]  # the last follows from the others
    expected = [total_of(shares, each) for each in kept]
    gaps = [total_of(counts, each) - n * share for each, share in zip(kept, expected, strict=True)]
    covariance = [
        [
            n * ((expected[a] if a == b else 0.0) - expected[a] * expected[b])
            + n * n * fsum(spread[i][j] for i in kept[a] for j in kept[b])
            for b in range(len(kept))
        ]
        for a in range(len(kept))
    ]
    statistic = fsum(gap * x for gap, x in zip(gaps, solve(covariance, gaps), strict=True))
    dof = len(kept)
    return Fit(statistic, dof, chi_square_survival(statistic, dof=dof), tuple(classes))


def solve(matrix: Matrix, right: Sequence[float]) -> list[float]:
    """Solve a positive definite system by elimination.

    Examples
    --------
    >>> solve([[2.0, 1.0], [1.0, 3.0]], [5.0, 10.0])
    [1.0, 3.0]
    """
    rows = [[*row, value] for row, value in zip(matrix, right, strict=True)]
    size = len(rows)
    for i in range(size):
        for j in range(i + 1, size):
            factor = rows[j][i] / rows[i][i]
            rows[j] = [x - factor * y for x, y in zip(rows[j], rows[i], strict=True)]
    found = [0.0] * size
    for i in reversed(range(size)):
        known = fsum(rows[i][j] * found[j] for j in range(i + 1, size))
        found[i] = (rows[i][size] - known) / rows[i][i]
    return found


def contingency(table: Sequence[Sequence[int]], *, least: float = LEAST_EXPECTED) -> Fit:
    """Compare the make-up of several samples with each other.

    χ² = Σ (count − expected)² / expected, expected = row total × column total
    ÷ n, on (samples − 1)(classes − 1) degrees of freedom

    Parameters
    ----------
    table : sequence of s sequences of c ints
        For each sample the seeds of each kind.
    least : float
        Kinds of which fewer are expected in some sample are pooled. [seeds]

    Raises
    ------
    MeasurementError
        For fewer than two ``samples``, an empty one, or ``counts`` too few to
        make two classes.

    References
    ----------
    NIST/SEMATECH e-Handbook of Statistical Methods, 7.4.5.
    """
    totals = [fsum(row) for row in table]
    if len(table) < 2 or not all(total > 0 for total in totals):
        raise MeasurementError("samples", totals, say("enter at least two samples, none empty"))
    whole, kinds = fsum(totals), [fsum(column) for column in zip(*table, strict=True)]
    smallest = min(table, key=fsum)  # where the fewest are expected
    classes = fit(smallest, shares=kinds, least=least).classes
    parts = []
    for row, total in zip(table, totals, strict=True):
        for each in classes:
            expected = total * total_of(kinds, each) / whole
            gap = total_of(row, each) - expected
            parts.append(gap * gap / expected)
    statistic, dof = fsum(parts), (len(table) - 1) * (len(classes) - 1)
    return Fit(statistic, dof, chi_square_survival(statistic, dof=dof), classes)


def linear_trend(counts: Sequence[int], totals: Sequence[int], *, at: Sequence[float]) -> Trend:
    """Tell whether a share rises or falls along a scale.

    z = Σ k (x − x̄) ÷ √(p (1 − p) Σ n (x − x̄)²), x̄ = Σ n x ÷ Σ n

    Parameters
    ----------
    counts, totals : sequence of int, length s
        Seeds of one kind, and of all, in each sample.
    at : sequence of float, length s
        Place of each sample on the scale. [any]

    Returns
    -------
    Trend
        Flat where no place differs, or where all or none are of the kind.

    References
    ----------
    Cochran (1954), Biometrics 10, 417–451; Armitage (1955), Biometrics 11,
    375–386.
    """
    n, k = fsum(totals), fsum(counts)
    mean = fsum(total * x for total, x in zip(totals, at, strict=True)) / n
    spread = fsum(total * (x - mean) * (x - mean) for total, x in zip(totals, at, strict=True))
    share = k / n
    chance = share * (1 - share)
    if not spread * chance > 0:
        return Trend(0.0, 0.0, 0.0, 1.0)
    lean = fsum(count * (x - mean) for count, x in zip(counts, at, strict=True))
    z = lean / sqrt(chance * spread)
    return Trend(lean / spread, sqrt(chance / spread), z, 2 * normal_cdf(-abs(z)))
