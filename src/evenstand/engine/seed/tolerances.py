"""How far two tests of one lot may differ before the difference is taken as real."""

from math import floor, sqrt

from ..quantities.errors import MeasurementError
from ..quantities.phrases import say
from ..quantities.units import PERCENT
from .tolerance_tables import COUNT_SEEDS, COUNTS, GERMINATION, GERMINATION_AOSA, NOXIOUS, PURITY

FEW_SEEDS_MORE = 2  # points more where 200 seeds of a component of a mixture were tested
ONE_IN_TWENTY = 1.645  # normal deviate passed by chance in one direction, P = 0.05
_DIGIT = 0.01  # last digit of the purity table's classes


def germination_tolerance(mean: float, *, seeds: int = 400) -> float:
    """Tolerance for germination, with or without hard seed, in federal enforcement.

    Parameters
    ----------
    mean : float
        Mean of the two results. [-]
    seeds : int
        Seeds of the smaller test: 400 or more, or at least 200 of a component
        of a mixture.

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For a mean outside 0 to 1, or fewer than 200 seeds.

    References
    ----------
    7 CFR 201.59 and 201.63, annual edition of 2015.

    Examples
    --------
    A tag of 92% against 84% found: the mean is 88%, the difference 8 points.

    >>> print(f"{germination_tolerance(0.88):.0%}")
    7%
    """
    points = _points("mean", mean)
    more = _more_for(seeds)
    return (next(t for low, t in GERMINATION if points >= low) + more) * PERCENT


def germination_tolerance_aosa(mean: float, *, seeds: int = 400) -> float:
    """Tolerance for germination in the seed analysts' table, as Louisiana adopted it.

    Parameters
    ----------
    mean : float
        Mean of the two results, taken to the nearest whole per cent. [-]
    seeds : int
        Seeds of the smaller test.

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For a mean outside the table, 2% to 99%, or fewer than 200 seeds.

    References
    ----------
    Louisiana Administrative Code 7:XIII.139, current to November 2024.
    """
    average = floor(_points("mean", mean) + 0.5)
    average = average if average >= 51 else 101 - average
    if average > 99:
        raise MeasurementError(
            "mean", mean, say("enter an average from 2% to 99%: the table stops there")
        )
    more = _more_for(seeds)
    return (next(t for low, t in GERMINATION_AOSA if average >= low) + more) * PERCENT


def purity_tolerance(mean: float, *, chaffy: bool) -> float:
    """Tolerance for any part of a purity analysis.

    Parameters
    ----------
    mean : float
        Mean of the two results. [-]
    chaffy : bool
        Whether a third or more of the sample is a chaffy kind.

    Returns
    -------
    float [-]
        Between two classes of the table, interpolated.

    Raises
    ------
    MeasurementError
        For a mean outside 0 to 1.

    References
    ----------
    7 CFR 201.60 (a) and (b), table 3, annual edition of 2015: unmixed seed, or mixtures
    of particles of nearly one weight.

    Examples
    --------
    >>> print(f"{100 * purity_tolerance(0.98, chaffy=False):.2f} points")
    0.82 points
    """
    points = round(_points("mean", mean), 9)
    if points < PURITY[-1][0]:  # column B of the table, whose classes end one digit later
        points = max(100 - points - _DIGIT, PURITY[-1][0])
    column = 2 if chaffy else 1
    above = PURITY[0]
    for row in PURITY:
        if points >= row[0]:
            break
        above = row
    into = max(0.0, points - (above[0] - _DIGIT)) / _DIGIT if above[0] > points else 0.0
    return (row[column] + (above[column] - row[column]) * into) * PERCENT


def purity_u(purity: float, *, chaffy: bool = False) -> float:
    """Standard uncertainty of one purity analysis, from the tolerance between two.

    u = tolerance ÷ (1.645 √2), a tolerance being passed by chance once in twenty

    Parameters
    ----------
    purity : float
        Pure seed by weight. [-]
    chaffy : bool
        Whether a third or more of the sample is a chaffy kind.

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For a purity outside 0 to 1.

    References
    ----------
    7 CFR 201.60. The odds of one in twenty are printed for noxious seeds, 201.65, and fit
    201.62; that they hold for table 3 is taken over from there.
    """
    return purity_tolerance(purity, chaffy=chaffy) / (ONE_IN_TWENTY * sqrt(2))


def count_tolerance(share: float, *, seeds: int) -> float:
    """Tolerance for a share found by counting seeds, seedlings or plants.

    Parameters
    ----------
    share : float
        Share found, of one kind or variety. [-]
    seeds : int
        Seeds counted: 10, 20, 30, 50, 75, 100, 150, 200, 400, 800 or 1,000.

    Returns
    -------
    float [-]
        Between two rows of the table, interpolated.

    Raises
    ------
    MeasurementError
        For a share outside 0 to 1, or a number of seeds the table does not have.

    References
    ----------
    7 CFR 201.62, table 4, annual edition of 2015; half of the purity tolerance is added
    to it there, except for hybrids labelled by pure seed.
    """
    points = _points("share", share)
    points = max(points, 100 - points)
    if seeds not in COUNT_SEEDS:
        columns = ", ".join(f"{n}" for n in COUNT_SEEDS)
        raise MeasurementError("seeds", seeds, say("choose one of {columns}", columns=columns))
    column = COUNT_SEEDS.index(seeds)
    above = COUNTS[0]
    for row in COUNTS:
        if points >= row[0]:
            break
        above = row
    step = max(above[0] - row[0], 1)
    into = (points - row[0]) / step
    return (row[1][column] + (above[1][column] - row[1][column]) * into) * PERCENT


def noxious_tolerance(labelled: int) -> int:
    """Most noxious-weed seeds found that still agree with the number on the label.

    Y = X + 1.65 √X + 0.03 above 100; the table below, which is a little stricter

    Parameters
    ----------
    labelled : int
        Seeds labelled, X, in the weight that is examined.

    Returns
    -------
    int [seeds]

    Raises
    ------
    MeasurementError
        For a number below zero.

    References
    ----------
    7 CFR 201.65, as amended by 76 FR 31794 (2011). Seeds that 201.16 (b) forbids outright
    have no tolerance.

    Examples
    --------
    >>> noxious_tolerance(10), noxious_tolerance(400)
    (14, 433)
    """
    if not labelled >= 0:
        raise MeasurementError("noxious", labelled, say("enter 0 or more"))
    if labelled < len(NOXIOUS):
        return NOXIOUS[labelled]
    return floor(labelled + 1.65 * sqrt(labelled) + 0.03)


def _points(field: str, share: float) -> float:
    if not 0 <= share <= 1:
        raise MeasurementError(field, share, say("enter a share from 0% to 100%"))
    return share / PERCENT


def _more_for(seeds: int) -> int:
    if not seeds >= 200:
        need = say("enter at least 200 seeds: no tolerance is published for fewer")
        raise MeasurementError("seeds", seeds, need)
    return 0 if seeds >= 400 else FEW_SEEDS_MORE
