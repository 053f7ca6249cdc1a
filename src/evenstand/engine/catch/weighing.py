"""Weighing what was caught: bags, the scale, and what is expected to scatter."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import fsum, inf, sqrt

from ..parsing.parse import Reading
from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import Phrase, say
from ..quantities.units import CATCH, GRAM, LOAD, SCALE_STEP, Kind, Unit


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
    typed_in : Unit, optional
        Of the weights, where the step was read off their digits.

    References
    ----------
    OIML R 76-1 (2006), table 6 and 3.5.2, class III, twice the errors at
    initial verification.
    """

    resolution: float = GRAM
    tolerance: float | None = None
    typed_in: Unit | None = None

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

    @property
    def read_to(self) -> Phrase:
        """To what it reads, and where that is known from."""
        if self.typed_in is None:
            return say("scale reads to {step}", step=SCALE_STEP(self.resolution, 2))
        kind = Kind(SCALE_STEP.name, SCALE_STEP.dimension, self.typed_in, self.typed_in)
        return say("scale read to {step}, as you typed it", step=kind(self.resolution, 2))


_UNITS = (CATCH.us, CATCH.metric, LOAD.us, LOAD.metric)
_FIVES = 5  # many scales step by fives of their last digit


def read_off(weighed: Sequence[Sequence[Reading]], usual: WeighScale) -> tuple[WeighScale, ...]:
    """Return the scale of each catch, its step read off the digits of its weights.

    The step is the finest last digit among all weights in one unit; five of
    it where several were typed so finely and all are whole fives; of grams one
    is enough, for kitchen scales often step by 5 g.

    Parameters
    ----------
    weighed : sequence of sequences of Reading
        As typed, catch by catch; none where the digits of a catch are not known.
    usual : WeighScale
        The scale of a catch without digits; its tolerance is that of all.
    """
    typed: dict[float, list[Reading]] = {}
    for reading in (each for catch in weighed for each in catch):
        typed.setdefault(reading.of, []).append(reading)
    steps = {of: _step(readings) for of, readings in typed.items()}
    return tuple(_scale({each.of: steps[each.of] for each in catch}, usual) for catch in weighed)


def _step(readings: Sequence[Reading]) -> float:
    step = min(reading.step for reading in readings)
    finest = [reading.value for reading in readings if reading.value and reading.step == step]
    fives = [value / (_FIVES * step) for value in finest]
    enough = len(fives) >= (1 if step == GRAM else 2)
    whole = enough and all(abs(each - round(each)) < 1e-6 for each in fives)
    return _FIVES * step if whole else step


def _scale(steps: Mapping[float, float], usual: WeighScale) -> WeighScale:
    """Take the coarsest, where the bags of a catch were weighed in several units."""
    if not steps:
        return usual
    of, step = max(steps.items(), key=lambda each: each[1])
    unit = next((each for each in _UNITS if each.size == of), SCALE_STEP.us)
    return replace(usual, resolution=step, typed_in=unit)


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
