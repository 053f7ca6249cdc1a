"""What would make a stand surer: how many more places, or what to measure better."""

from collections.abc import Mapping
from math import fsum, sqrt

from ..quantities.phrases import Phrase, say
from ..quantities.units import NUMBER, SHARE
from ..statistics.budget import Share
from ..statistics.distributions import t_quantile
from .stand import BETWEEN, OWN_SCATTER_FROM, Stand

HALF_RANGE = 0.10  # half the 95 % range that counting usually aims at, as a share of the stand
MOST_PLACES = 200  # more is no morning's work

_CURES: Mapping[str, Phrase] = {
    "row spacing": say(
        "measure from the first opener to the last and divide by the number of gaps"
    ),
    "length of row": say("measure with a tape the row length you counted"),
    "live seed planted": say("weigh the seed left after a known area, and have the lot tested"),
    "hoop": say("measure the hoop itself"),
}

_NAMED: Mapping[str, Phrase] = {
    "row spacing": say("the row spacing"),
    "length of row": say("the row length"),
    "live seed planted": say("the live seed planted"),
    "hoop": say("the hoop size"),
}


def places_needed(cv: float, *, wanted: float = HALF_RANGE, common: float = 0.0) -> int | None:
    """Places to count so that the range is no wider than wanted.

    The least n with t(97.5%, n − 1) × √(cv² ÷ n + common²) ≤ wanted

    Parameters
    ----------
    cv : float
        Relative scatter of single places. [-]
    wanted : float
        Half the 95% range, as a share of the stand. [-]
    common : float
        Relative standard uncertainty that all places share. [-]

    Returns
    -------
    int or None
        None where 200 places would not do.

    Examples
    --------
    >>> places_needed(0.175)  # t(14) = 2.145: 2.145 × 0.175 ÷ √15 = 0.097
    15
    """
    for n in range(2, MOST_PLACES + 1):
        if t_quantile(0.975, dof=n - 1.0) * sqrt(cv * cv / n + common * common) <= wanted:
            return n
    return None


def more_places(stand: Stand, *, wanted: float = HALF_RANGE) -> int | None:
    """Places to count beyond those counted, of the same size; None where that is too many.

    Parameters
    ----------
    wanted : float
        Half the 95% range, as a share of the stand. [-]
    """
    value = stand.range.value
    if not value:
        return None
    squares = {share.name: share.u * share.u for share in stand.budget}
    between = squares.pop(BETWEEN, 0.0)
    cv, common = sqrt(between * stand.places) / value, sqrt(fsum(squares.values())) / value
    needed = places_needed(cv, wanted=wanted, common=common)
    return None if needed is None else max(needed - stand.places, 0)


def largest_reason(
    budget: tuple[Share, ...], *, more: int | None, longer: bool = False
) -> tuple[Phrase, ...]:
    """Say what most of the range comes from, and what makes it smaller.

    Parameters
    ----------
    budget : tuple of Share, largest first
    more : int or None
        Places still to count; None where no number of them is enough.
    longer : bool
        Whether longer pieces are the better cure.
    """
    if not budget:
        return ()
    first = budget[0]
    part = SHARE(first.part, 2)
    if first.name == BETWEEN:
        text = "{part} of the uncertainty comes from differences between spots: {cure}."
        return (say(text, part=part, cure=_counting(more, longer)),)
    if first.name in _CURES:
        text = "{part} of the uncertainty comes from {name}: {cure}."
        named = _NAMED[first.name]
        return (say(text, part=part, name=named, cure=_CURES[first.name]),)
    return ()


def in_places(n: int) -> Phrase:
    """Say a number of places."""
    return say("1 spot") if n == 1 else say("{n} spots", n=NUMBER(n, 6))


def _counting(more: int | None, longer: bool) -> Phrase:
    if longer or more is None:
        return say("count longer strips across several rows")
    if not more:
        return say("each extra spot narrows it")
    text = "count another {places} to reach ± {wanted}"
    return say(text, places=in_places(more), wanted=SHARE(HALF_RANGE))


def fewest_more(stand: Stand) -> int:
    """Places that are missing to those from which counts speak for themselves."""
    return max(OWN_SCATTER_FROM - stand.places, 0)
