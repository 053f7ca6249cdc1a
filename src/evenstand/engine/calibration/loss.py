"""What a miss costs, when one side may cost more than the other."""

from math import inf, pi, sqrt
from typing import Literal

from ..statistics.distributions import normal_cdf
from ..statistics.elementary import exp

Dearer = Literal["thin stand", "wasted seed", "neither"]
DEARER_BY = 3.0  # how much dearer a miss on the dear side is


def expected_loss(off: float, sd: float, *, dof: float, dearer: Dearer) -> float:
    """Expected squared miss of a notch, the dear side weighted.

    off² + sd²·ν ÷ (ν − 2), split at zero by a normal of that spread.

    Parameters
    ----------
    off : float
        Expected rate ÷ target − 1. [-]
    sd : float
        Its standard uncertainty. [-]
    dof : float, > 2
    dearer : "thin stand", "wasted seed" or "neither"
    """
    variance = sd * sd * (dof / (dof - 2) if dof < inf else 1.0)
    whole = off * off + variance
    if dearer == "neither" or not variance:
        heavy_only = off > 0 and dearer == "wasted seed"
        light_only = off < 0 and dearer == "thin stand"
        return whole * (DEARER_BY if heavy_only or light_only else 1.0)
    spread = sqrt(variance)
    z = off / spread
    density = exp(-z * z / 2) / sqrt(2 * pi)
    heavy = whole * normal_cdf(z) + off * spread * density
    dear = heavy if dearer == "wasted seed" else whole - heavy
    return whole + (DEARER_BY - 1) * dear
