"""How many live seeds to sow for a stand, from an emergence that falls as the rate rises."""

from .budget import Estimate
from .elementary import exp, log
from .errors import require_positive
from .units import DENSITY, PLANTS
from .words import Amount, Phrase, say

# Change of ln(plants ÷ seeds) with ln(seeds): −0.14 within eight trials of barley at five rates
# (McLeod 1982). Hard red spring wheat at 0.5 and 1.5 million live seeds an acre, 95 and 85 %
# (NDSU 2013), gives −0.10.
CROWDING = 0.14


def emergence_at(emergence: float, *, seeds: float, counted_at: float) -> float:
    """Emergence at another seed rate than the one it was counted at.

    E × (seeds ÷ counted at) ^ −0.14

    Parameters
    ----------
    emergence : float
        [-]
    seeds, counted_at : float
        Live seeds on the ground. [1/m²]

    Returns
    -------
    float [-]
        At most 1.

    Raises
    ------
    MeasurementError
        For an input that is not above zero.

    Examples
    --------
    >>> print(f"{emergence_at(0.8, seeds=600.0, counted_at=300.0):.3f}")  # 0.8 × 2^−0.14
    0.726
    """
    require_positive("emergence", emergence)
    require_positive("seeds", seeds, "seeds/m²")
    require_positive("counted_at", counted_at, "seeds/m²")
    return min(1.0, emergence * exp(-CROWDING * log(seeds / counted_at)))


def seeds_for(wish: float, emergence: Estimate, *, counted_at: float) -> Estimate:
    """Live seeds to sow for a stand.

    seeds = counted at × (wish ÷ (E × counted at)) ^ (1 ÷ 0.86)

    Parameters
    ----------
    wish : float
        Stand wanted. [1/m²]
    emergence : Estimate
        As counted or learned, at that seed rate. [-]
    counted_at : float
        Live seeds on the ground then. [1/m²]

    Returns
    -------
    Estimate [1/m²]
        Its range is that of the emergence; never fewer seeds than plants.

    Raises
    ------
    MeasurementError
        For an input that is not above zero.

    Examples
    --------
    >>> found = seeds_for(240.0, Estimate(0.8, 0.7, 0.9, 0.05), counted_at=300.0)
    >>> print(f"{found.value:.0f}, {found.low:.0f} to {found.high:.0f}")
    300, 262 to 350
    """
    require_positive("wish", wish, "plants/m²")
    require_positive("emergence", emergence.low)
    require_positive("counted_at", counted_at, "seeds/m²")
    value, high, low = (
        _seeds(wish, share, counted_at)
        for share in (emergence.value, emergence.low, emergence.high)
    )
    u = value * emergence.u / emergence.value / (1 - CROWDING)
    return Estimate(value, low, high, u, emergence.dof)


def _seeds(wish: float, share: float, counted_at: float) -> float:
    seeds = counted_at * exp(log(wish / (share * counted_at)) / (1 - CROWDING))
    return max(seeds, wish)


def in_words(wish: float, seeds: Estimate) -> Phrase:
    """Say what to sow next year for the stand wanted.

    Parameters
    ----------
    wish : float
        [1/m²]
    seeds : Estimate
        [1/m²]
    """
    return say(
        "For {wish} sow {seeds} live next time; {low} to {high} by what may come up.",
        wish=Amount(wish, PLANTS),
        seeds=Amount(seeds.value, DENSITY, 2),
        low=Amount(seeds.low, DENSITY, 2),
        high=Amount(seeds.high, DENSITY, 2),
    )
