"""How many more samples of a lot to count before its seeds are known well enough."""

from math import sqrt

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import say
from ..statistics.distributions import t_quantile

MOST_SAMPLES = 99  # beyond it the lot itself is too uneven to be known so well


def samples_for(within: float, *, cv: float, dof: float, samples: int) -> int | None:
    """Samples in all after which the mean of a count lies within a wanted range.

    Smallest n ≥ samples with t(97.5 %, ν + n − samples) × cv ÷ √n ≤ within

    Parameters
    ----------
    within : float
        Half width of the range wanted, as a share of the count. [-]
    cv : float
        Standard deviation of one sample, as a share of the count. [-]
    dof : float
        Degrees of freedom ν behind the cv now. [-]
    samples : int
        Counted so far.

    Returns
    -------
    int or None
        None where not even 99 are enough.

    Raises
    ------
    MeasurementError
        For a range, a cv or samples that are not above zero.

    Examples
    --------
    One sample of a lot whose samples scatter by 2 %, to be known within 3 %:

    >>> samples_for(0.03, cv=0.0201, dof=7, samples=1)
    3
    """
    if not 0 < within < 1:
        need = say("give a share above 0 % and below 100 %")
        raise MeasurementError("within", within, need)
    require_positive("cv", cv, "of the count")
    require_positive("samples", samples, "samples")
    for n in range(samples, MOST_SAMPLES + 1):
        if t_quantile(0.975, dof=dof + n - samples) * cv / sqrt(n) <= within:
            return n
    return None
