"""The user's own limit for a row: what crosses it, and how often chance alone does.

A limit is a wish, not a test: rows outside it are told, never called faulty.
"""

from dataclasses import dataclass
from math import prod

from ..statistics.distributions import normal_cdf
from .odd import Spread


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """Rows outside a limit.

    ``by_chance`` is how often a drill whose sound rows differ as much as
    these has at least one row outside, with nothing wrong. [-]
    """

    limit: float
    rows: tuple[int, ...]
    by_chance: float


def crossing(offs: dict[int, float], limit: float, sound: Spread) -> Crossing:
    """Find the rows outside a limit.

    by chance = 1 − (1 − 2Φ(−limit ÷ sd))ᴿ

    Parameters
    ----------
    offs : dict of int to float
        How far each row is from the mean. [-]
    limit : float
        Share of the mean (±). [-]
    sound : Spread
        Of rows in which nothing was found.
    """
    inside = 1 - 2 * normal_cdf(-limit / sound.sd)
    return Crossing(
        limit=limit,
        rows=tuple(row for row, off in offs.items() if abs(off) > limit),
        by_chance=1 - prod([inside] * len(offs)),
    )
