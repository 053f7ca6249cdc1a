"""Rows that drop more or less than the others, told from chance.

The odds that a sound drill shows any odd row at all are held at 5%,
however many rows it has.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from math import fsum, inf, sqrt
from typing import Annotated

from ..quantities.written import PER_CENT, put
from ..statistics.distributions import normal_quantile, t_cdf, t_quantile
from ..statistics.outliers import generalized_esd
from ..statistics.variance import mean_and_sd
from .catch import RowCatch
from .patterns import FALSE_ALARM
from .scatter import RowScatter

ROWS_PER_ODD = 8  # of so many rows one may be odd, where their spread is judged from themselves
FOUND = 0.9  # odds at which a row is said to be found


@dataclass(frozen=True, slots=True, kw_only=True)
class OddRow:
    """A row that is odd.

    ``off`` is how far it is from the mean of the rows that run, as a share of
    it; ``z`` the same in standard deviations of a sound row; ``p`` is
    adjusted for all rows. ``stopped_once``: it dropped nothing in one catch
    and ran in another.
    """

    KEYS = ("row", put("percent", "off"), "p", "plugged")

    row: int
    off: Annotated[float, PER_CENT]
    z: float
    p: float
    plugged: bool = False
    stopped_once: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """What sound rows differ by: standard deviation and degrees of freedom. [-]"""

    sd: float
    dof: float = inf

    def p(self, distance: float, *, among: int) -> float:
        """Odds of one so far off among so many. [-]"""
        return min(1.0, among * 2 * t_cdf(-distance / self.sd, dof=self.dof))


def usual_spread(row_cv: float, scatter: RowScatter) -> Spread:
    """Spread of sound rows where the drill's own is known: √(row_cv² + noise²).

    Parameters
    ----------
    row_cv : float
        What the rows differ by when all is well, noise not in it. [-]

    References
    ----------
    JCGM 100:2008 (GUM), eq. (G.2b), for the degrees of freedom.
    """
    noise = scatter.noise * scatter.noise
    variance = row_cv * row_cv + noise
    return Spread(sd=sqrt(variance), dof=scatter.dof * (variance / noise) * (variance / noise))


def odd_rows(catch: RowCatch, scatter: RowScatter, usual: Spread | None) -> tuple[OddRow, ...]:
    """Find the odd rows, the plugged ones among them.

    Parameters
    ----------
    usual : Spread or None
        Known spread of sound rows; without it they are judged against each
        other, and a row is odd only if the noise of the catch cannot have
        done it either.

    Returns
    -------
    tuple of OddRow, by row
    """
    running = catch.running
    found = beyond_known(running, usual) if usual else beyond_sample(running, scatter)
    spread = usual or sample_spread(running, found, scatter)
    apart = sqrt(1 + 1 / (len(running) - len(found)))  # plugged rows are not in the mean
    for row in catch.plugged:
        found[row] = spread.p(abs(catch.off[row]) / apart, among=len(catch.off))
    return tuple(
        OddRow(
            row=row,
            off=catch.off[row],
            z=abs(catch.off[row]) / spread.sd,
            p=found[row],
            plugged=row in catch.plugged,
            stopped_once=catch.stopped_once(row),
        )
        for row in sorted(found)
    )


def sample_spread(offs: Mapping[int, float], found: Collection[int], scatter: RowScatter) -> Spread:
    """Spread of the rows in which nothing was found, not below the noise of the catch."""
    sound = [off for row, off in offs.items() if row not in found]
    return Spread(sd=max(mean_and_sd(sound)[1], scatter.noise), dof=float(len(sound) - 1))


def smallest_found(spread: Spread, rows: int) -> float:
    """How far off a row must be to be found 9 times in 10.

    off = (t(1 − 0.05 ÷ 2R) + z(0.9)) · sd ÷ √(1 − 1/R)

    Parameters
    ----------
    rows : int
        Rows that run. [row]

    Returns
    -------
    float [-]
        A little too small for a spread of few degrees of freedom.
    """
    limit = t_quantile(1 - FALSE_ALARM / (2 * rows), dof=spread.dof)
    return (limit + normal_quantile(FOUND)) * spread.sd / sqrt(1 - 1 / rows)


def beyond_known(offs: Mapping[int, float], spread: Spread) -> dict[int, float]:
    """Find rows too far off for a spread that is known.

    The row farthest from the mean of those left is judged by
    n · P(|Z| > distance ÷ (sd √(1 − 1/n))), below 5%, and taken out before
    the next: Holm's steps, with the mean freed of what was found.

    Parameters
    ----------
    offs : mapping of int to float
        How far each row is from the mean. [-]

    Returns
    -------
    dict of int to float
        Adjusted p of each row found.

    References
    ----------
    Holm (1979), Scand. J. Statist. 6, 65–70.
    """
    left, found, worst = dict(offs), dict[int, float](), 0.0
    while len(left) > 2:
        n, mean = len(left), fsum(left.values()) / len(left)
        row = max(left, key=lambda each: abs(left[each] - mean))
        worst = max(worst, spread.p(abs(left[row] - mean) / sqrt(1 - 1 / n), among=n))
        if worst >= FALSE_ALARM:
            break
        found[row] = worst
        del left[row]
    return found


def beyond_sample(offs: Mapping[int, float], scatter: RowScatter) -> dict[int, float]:
    """Find rows too far off for the spread of the others, by generalized ESD.

    One row in eight may be odd, at least one. The adjusted p of a row is the
    least of its own step's and all later ones', so that rows that mask each
    other are found together; it is not below what the noise of the catch
    allows.

    Parameters
    ----------
    offs : mapping of int to float
        How far each row is from the mean. [-]

    Returns
    -------
    dict of int to float
        Adjusted p of each row found.

    References
    ----------
    Rosner (1983), Technometrics 25, 165–172; NIST/SEMATECH e-Handbook of
    Statistical Methods, 1.3.5.17.3.
    """
    noise = beyond_known(offs, Spread(sd=scatter.noise, dof=scatter.dof))
    rows = list(offs)
    outliers = generalized_esd(list(offs.values()), most=max(1, len(rows) // ROWS_PER_ODD))
    found, least = dict[int, float](), 1.0
    for taken, step in reversed(list(enumerate(outliers.steps))):
        least = min(least, _p(step.statistic, len(rows) - taken))
        row = rows[step.index]
        if row in noise and least < FALSE_ALARM:
            found[row] = max(least, noise[row])
    return found


def _p(distance: float, n: int) -> float:
    """Grubbs' two-sided p: that the farthest of n lies so many deviations out."""
    short = (n - 1) * (n - 1) - n * distance * distance
    if short <= 0:  # as far as it can: the others are all alike
        return 0.0
    t = distance * sqrt(n * (n - 2) / short)
    return min(1.0, n * 2 * t_cdf(-t, dof=float(n - 2)))
