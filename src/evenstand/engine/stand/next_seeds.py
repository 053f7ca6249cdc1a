"""How many live seeds to sow for a stand, from an emergence that falls as the rate rises."""

from dataclasses import replace
from math import sqrt

from ..quantities.errors import require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import DENSITY, PLANTS
from ..statistics.budget import Estimate
from ..statistics.distributions import Z95
from ..statistics.elementary import exp, log
from .learned import Season

# Change of ln(plants ÷ seeds) with ln(seeds): −0.14 within eight trials of barley at five rates
# (McLeod 1982). Hard red spring wheat at 0.5 and 1.5 million live seeds an acre, 95 and 85 %
# (NDSU 2013), gives −0.10.
CROWDING = 0.14
CROWDING_U = 0.078  # standard deviation of the eight trials about it, −0.06 to −0.27


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


def season_at(season: Season, *, seeds: float, counted_at: float) -> Season:
    """Return a season as it would have been at another seed rate.

    u² = (E · u(counted) ÷ counted)² + (E · ln(seeds ÷ counted at) · 0.078)²

    Where all would have come up it is left as it was counted.

    Parameters
    ----------
    seeds, counted_at : float
        Live seeds on the ground. [1/m²]
    """
    then = emergence_at(season.emergence, seeds=seeds, counted_at=counted_at)
    if then >= 1:
        return season
    crowding = abs(log(seeds / counted_at)) * CROWDING_U
    u = then * _reach(season.u / season.emergence, crowding)
    return replace(season, emergence=then, u=u)


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
        Its range is that of the emergence, and of how crowding differs from
        field to field the farther the rate is from the counted one; never
        fewer seeds than plants.

    Raises
    ------
    MeasurementError
        For an input that is not above zero.

    Examples
    --------
    >>> found = seeds_for(240.0, Estimate(0.8, 0.7, 0.9, 0.05), counted_at=300.0)
    >>> print(f"{found.value:.0f}, {found.low:.0f} to {found.high:.0f}")
    300, 262 to 350

    Notes
    -----
    u²(ln seeds) = (u(E) ÷ E ÷ 0.86)² + (ln(wish ÷ (E × counted at)) × 0.078 ÷ 0.86²)²
    """
    require_positive("wish", wish, "plants/m²")
    require_positive("emergence", emergence.low)
    require_positive("counted_at", counted_at, "seeds/m²")
    away = log(wish / (emergence.value * counted_at))
    value = counted_at * exp(away / (1 - CROWDING))
    crowding = abs(away) * CROWDING_U / ((1 - CROWDING) * (1 - CROWDING))
    up, down = (
        _reach(log(emergence.value / share) / (1 - CROWDING), Z95 * crowding)
        for share in (emergence.low, emergence.high)
    )
    u = value * _reach(emergence.u / emergence.value / (1 - CROWDING), crowding)
    low, most_likely, high = (max(wish, x) for x in (value * exp(-down), value, value * exp(up)))
    return Estimate(most_likely, low, high, u, emergence.dof)


def _reach(one: float, other: float) -> float:
    return sqrt(one * one + other * other)


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
        "To reach {wish}, seed {seeds} live next time; {low} to {high}, depending"
        " on how much comes up.",
        wish=PLANTS(wish),
        seeds=DENSITY(seeds.value, 2),
        low=DENSITY(seeds.low, 2),
        high=DENSITY(seeds.high, 2),
    )
