"""Evenness of a drill's rows."""

from math import sqrt

from .errors import MeasurementError
from .words import say


def sampling(rows: int, rows_caught: int, cv: float) -> float:
    """How well the caught rows stand for all of them.

    u = CV × √((1 − rows caught ÷ rows) ÷ rows caught)

    Parameters
    ----------
    rows : int
        Rows of the drill that sow, ≥ 1.
    rows_caught : int
        Rows whose seed was caught, from 1 to ``rows``.
    cv : float
        Spread of the drill's rows about their mean, ≥ 0. [-]

    Returns
    -------
    float [-]
        Relative standard uncertainty of the drill's mean; 0 when every row
        was caught.

    Raises
    ------
    MeasurementError
        For any input out of its range; ``field`` names it.

    References
    ----------
    Cochran, Sampling Techniques, 3rd ed. (1977), theorem 2.2: finite
    population correction. From memory, the formula alone.

    Examples
    --------
    >>> [round(100 * sampling(24, r, cv=0.04), 1) for r in (1, 4, 24)]
    [3.9, 1.8, 0.0]
    """
    if not rows >= 1:
        raise MeasurementError("rows", rows, say("give at least 1 row"))
    if not 1 <= rows_caught <= rows:
        need = say("give from 1 row to all {rows} of them", rows=rows)
        raise MeasurementError("rows_caught", rows_caught, need)
    if not cv >= 0:
        raise MeasurementError("cv", cv, say("give 0 or more"))
    return cv * sqrt((1 - rows_caught / rows) / rows_caught)
