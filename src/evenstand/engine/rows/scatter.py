"""Scatter between rows, told apart from the scatter of catching and weighing them."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, inf, sqrt
from typing import Literal

from ..statistics.distributions import chi_square_survival
from ..statistics.variance import f_survival

# Relative variance below which differences are the rounding of floats.
ROUNDING = 1e-24


@dataclass(frozen=True, slots=True, kw_only=True)
class RowScatter:
    """Where the differences between rows come from, all relative to their mean.

    ``cv`` is the scatter of the rows as weighed, ``repeat_cv`` that of one
    row's catch about what the row drops, with ``dof`` degrees of freedom
    (infinite where it was given and not measured), and ``row_cv`` what is
    left for the rows themselves. ``p`` is how often rows that drop all alike
    would look as different as these.
    """

    cv: float
    repeat_cv: float
    dof: float
    row_cv: float
    catches: int
    test: Literal["chi-square", "F"]
    statistic: float
    p: float

    @property
    def noise(self) -> float:
        """Standard deviation of the mean of a row's catches. [-]"""
        return self.repeat_cv / sqrt(self.catches)

    @property
    def kept(self) -> float:
        """Part of a row's deviation that is the row's own, from 0 to 1. [-]"""
        row, noise = self.row_cv * self.row_cv, self.noise * self.noise
        return row / (row + noise)


def scatter(table: Sequence[Sequence[float]], *, repeat_cv: float, reading: float) -> RowScatter:
    """Tell the rows' own differences from the noise of their catches.

    One catch: χ² = Σ(yᵢ − 1)² ÷ e² on R − 1 degrees of freedom, with
    e² = repeat_cv² + reading². More: F = k · var(ȳᵢ) ÷ e² on R − 1 and
    (R − 1)(k − 1), with e² the mean square of rows × catches, not below
    reading²; where they agree to the last digit they show no noise, and it is
    taken as for one catch. Then row_cv² = var(ȳᵢ) − e² ÷ k, not below 0.

    Parameters
    ----------
    table : sequence of k sequences of R floats
        Catches of the rows, each ÷ its own mean: a catch that ran longer
        than another counts the same.
    repeat_cv : float
        Scatter of one row's catch, above 0; not used where catches show it. [-]
    reading : float
        What the step of the scale does to it. [-]

    References
    ----------
    NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.8 (chi-square test
    of a variance) and 7.4.3.8 (two-way analysis of variance without
    replication); variance components by the method of moments.
    """
    catches, rows = len(table), len(table[0])
    means = [fsum(row) / catches for row in zip(*table, strict=True)]
    variance = fsum((mean - 1) * (mean - 1) for mean in means) / (rows - 1)
    variance = variance if variance > ROUNDING else 0.0
    dof = float((rows - 1) * (catches - 1))
    seen = max(_residual(table, means) / dof, reading * reading) if dof else 0.0
    if seen > ROUNDING:
        noise, statistic = seen, catches * variance / seen
        p = f_survival(statistic, dof1=rows - 1, dof2=dof)
    else:
        noise, dof = repeat_cv * repeat_cv + reading * reading, inf
        statistic = catches * (rows - 1) * variance / noise
        p = chi_square_survival(statistic, dof=rows - 1)
    return RowScatter(
        cv=sqrt(variance),
        repeat_cv=sqrt(noise),
        dof=dof,
        row_cv=sqrt(max(0.0, variance - noise / catches)),
        catches=catches,
        test="F" if seen > ROUNDING else "chi-square",
        statistic=statistic,
        p=p,
    )


def _residual(table: Sequence[Sequence[float]], means: Sequence[float]) -> float:
    """Sum of squares that neither rows nor catches explain; every catch has mean 1."""
    return fsum(
        (value - mean) * (value - mean)
        for catch in table
        for value, mean in zip(catch, means, strict=True)
    )
