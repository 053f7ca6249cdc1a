"""The metering curve: what is believed of it, and how a catch changes that.

Rate = gear ratio × (a + b·opening + c·4·opening·(1 − opening)), with a gear
effect where the drill has several gears. The coefficients are uncertain
together (normal), the scatter of catches too (inverse gamma), and each catch
changes both in one step.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, inf, sqrt

from ..quantities.errors import require_positive
from ..statistics.budget import Estimate
from ..statistics.distributions import t_quantile
from ..statistics.vectors import Matrix, Vector, dot


@dataclass(frozen=True, slots=True)
class Belief:
    """What is believed of the coefficients and of the scatter.

    Parameters
    ----------
    mean : tuple of float, length n
        Coefficients. [kg/m²]
    spread : tuple of tuple of float, n × n
        Their covariance ÷ scatter². [kg²/m⁴]
    scatter : float
        Relative scatter of a catch of weight rate². [-]
    dof : float
        Degrees of freedom behind the scatter.
    """

    mean: Vector
    spread: Matrix
    scatter: float
    dof: float


def features(opening: float, *, ratio: float, gear_effect: Sequence[float] = ()) -> Vector:
    """Return what the coefficients are multiplied by at one setting.

    Parameters
    ----------
    opening : float, 0 to 1
    ratio : float
        Gear ratio. [-]
    gear_effect : sequence of float
        One per gear, the expected rate at this setting for the gear in use
        and 0 for the others; empty with one gear.
    """
    return (ratio, ratio * opening, ratio * 4 * opening * (1 - opening), *gear_effect)


def predict(belief: Belief, x: Vector) -> tuple[float, float]:
    """Rate to expect, and its standard uncertainty. [kg/m²]

    x·m and s·√(x·V·x)
    """
    variance = fsum(a * dot(row, x) for a, row in zip(x, belief.spread, strict=True))
    return dot(x, belief.mean), belief.scatter * sqrt(max(variance, 0.0))


def update(belief: Belief, x: Vector, *, rate: float, weight: float) -> Belief:
    """Learn from one catch (conjugate normal–inverse gamma, rank one).

    f = x·V·x + w; e = rate − x·m; K = V·x ÷ f; m ← m + K·e;
    V ← V − K·(V·x)ᵀ; s² ← (ν·s² + e² ÷ f) ÷ (ν + 1); ν ← ν + 1

    Parameters
    ----------
    x : tuple of float, length n
        Features of the setting caught.
    rate : float
        Static rate of the catch. [kg/m²]
    weight : float
        w, variance of the catch ÷ scatter². [kg²/m⁴]

    Raises
    ------
    MeasurementError
        For a rate or weight that is not above zero.

    References
    ----------
    Gelman et al., Bayesian Data Analysis, 3rd ed., ch. 14: linear regression
    with a conjugate prior (not read).
    """
    require_positive("rate", rate, "kg/m²")
    require_positive("weight", weight)
    vx = tuple(dot(row, x) for row in belief.spread)
    f = dot(x, vx) + weight
    error = rate - dot(x, belief.mean)
    mean = tuple(m + v / f * error for m, v in zip(belief.mean, vx, strict=True))
    spread = tuple(
        tuple(v - a * b / f for v, b in zip(row, vx, strict=True))
        for row, a in zip(belief.spread, vx, strict=True)
    )
    square = (belief.dof * belief.scatter * belief.scatter + error * error / f) / (belief.dof + 1)
    return Belief(mean, spread, sqrt(square), belief.dof + 1)


def surprise(belief: Belief, x: Vector, *, rate: float, weight: float) -> float:
    """How many standard deviations a catch lies from what was expected. [-]"""
    expected, sd = predict(belief, x)
    s = belief.scatter
    return (rate - expected) / sqrt(sd * sd + s * s * weight)


def widen(belief: Belief, factor: float) -> Belief:
    """Return the same belief held with ``factor`` times the variance."""
    spread = tuple(tuple(v * factor for v in row) for row in belief.spread)
    return Belief(belief.mean, spread, belief.scatter, belief.dof)


def expected_rate(
    belief: Belief, x: Vector, *, common: float = 0.0, factor: float = 1.0
) -> Estimate:
    """Rate at a setting with its range, errors common to all catches included.

    Parameters
    ----------
    common : float
        Relative uncertainty that all catches share. [-]
    factor : float
        Rate wanted ÷ static rate, such as (1 − slip) × field ratio. [-]

    Returns
    -------
    Estimate [kg/m²]
        Degrees of freedom by Welch–Satterthwaite, the common part a judgement.
    """
    mean, sd = predict(belief, x)
    value, own, shared = factor * mean, factor * sd, factor * mean * common
    u = sqrt(own * own + shared * shared)
    part = own * own / (u * u) if u else 0.0
    dof = belief.dof / (part * part) if part else inf
    reach = t_quantile(0.975, dof=dof) * u
    return Estimate(value, value - reach, value + reach, u, dof)
