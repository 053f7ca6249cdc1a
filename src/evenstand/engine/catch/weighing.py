"""Weighing what was caught: bags, the scale, and what is expected to scatter."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, inf, sqrt

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import say
from ..quantities.units import GRAM


@dataclass(frozen=True, slots=True, kw_only=True)
class Bag:
    """Net seed from one row, or from some neighbors together. [kg]

    ``first`` is the number of its first row, from the left behind the drill;
    0 where it is not known.
    """

    weight: float
    rows: int = 1
    first: int = 0

    def __post_init__(self) -> None:
        if not 0 <= self.weight < inf:
            raise MeasurementError("weight", self.weight, say("enter a weight of 0 or more"))
        require_positive("rows_caught", self.rows, "rows")

    @property
    def numbers(self) -> tuple[int, ...]:
        """Its rows by number; empty where they are not known."""
        return tuple(range(self.first, self.first + self.rows)) if self.first else ()


Catch = tuple[Bag, ...]  # the bags of one run of turns


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighScale:
    """The scale that weighs the seed.

    Parameters
    ----------
    resolution : float
        Its smallest step. [kg]
    tolerance : float, optional
        Limits of its error (±). Without one, a trade scale in service is
        taken: 1 step up to 500 of them, 2 up to 2,000, 3 beyond. [kg]

    References
    ----------
    OIML R 76-1 (2006), table 6 and 3.5.2, class III, twice the errors at
    initial verification.
    """

    resolution: float = GRAM
    tolerance: float | None = None

    def __post_init__(self) -> None:
        require_positive("resolution", self.resolution, "kg")
        if self.tolerance is not None and not self.tolerance >= 0:
            raise MeasurementError("scale_tolerance", self.tolerance, say("enter 0 or more"))

    def limits(self, weight: float) -> float:
        """Limits of the error of one weighing. [kg]"""
        if self.tolerance is not None:
            return self.tolerance
        steps = weight / self.resolution
        return self.resolution * (1 if steps <= 500 else 2 if steps <= 2000 else 3)


@dataclass(frozen=True, slots=True, kw_only=True)
class Prior:
    """What is expected before anything repeats: judgements, pooled with data.

    Parameters
    ----------
    repeat_cv : float
        Scatter of long catches of one drill at one setting. [-]
    repeat_length : float
        How short runs add to it: variance = repeat_length ÷ row length. [m]
    row_cv : float
        Spread of a drill's rows about their mean. [-]
    dof : float
        Weight of each judgement, in repeats. [-]

    References
    ----------
    Published scatter of flow 0.8–3.7% and across rows 1.1–8.9% (Yazgi et
    al., Appl. Eng. Agric. 33(1), 2017); single units more than 10% off
    (University of Kentucky). The values between are our judgement.
    """

    repeat_cv: float = 0.0144
    repeat_length: float = 0.0302
    row_cv: float = 0.05
    dof: float = 12.0

    def repeat(self, row_length: float) -> float:
        """Expected relative scatter of catches over some row length. [-]"""
        return sqrt(self.repeat_cv * self.repeat_cv + self.repeat_length / row_length)


def net(gross: float, tare: float) -> float:
    """Seed without its bag. [kg]

    Raises
    ------
    MeasurementError
        For a gross weight below the tare.
    """
    if not gross >= tare:
        raise MeasurementError("gross", gross, say("enter at least the tare, or swap the two"))
    return gross - tare


def repeat_scatter(
    weights: Sequence[float], *, row_length: float, scale: WeighScale, prior: Prior
) -> tuple[float, float]:
    """Relative scatter of single catches and its degrees of freedom, pooled.

    s² = (ν₀ s₀² + Σ(x/x̄ − 1)²) ÷ (ν₀ + k − 1), never less than the scale's step.
    """
    mean = fsum(weights) / len(weights)
    expected = prior.repeat(row_length)
    squares = fsum((w / mean - 1) * (w / mean - 1) for w in weights)
    dof = prior.dof + len(weights) - 1
    pooled = sqrt((prior.dof * expected * expected + squares) / dof) if dof else 0.0
    return max(pooled, scale.resolution / sqrt(12) / mean), max(dof, 1.0)


def row_spread(catches: Sequence[Catch], prior: Prior) -> tuple[float, float]:
    """Spread of rows about their mean, pooled with the prior, and its dof.

    Rows are told apart only where every bag holds one row; else the prior
    stands alone.
    """
    bags = catches[0]
    if len(bags) < 2 or any(bag.rows > 1 for catch in catches for bag in catch):
        return prior.row_cv, inf
    means = [fsum(catch[i].weight for catch in catches) for i in range(len(bags))]
    mean = fsum(means) / len(means)
    squares = fsum((m / mean - 1) * (m / mean - 1) for m in means)
    dof = prior.dof + len(means) - 1
    return sqrt((prior.dof * prior.row_cv * prior.row_cv + squares) / dof), dof
