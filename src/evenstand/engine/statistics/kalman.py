"""A few numbers followed over a field, from moves that are known and readings that are not exact.

The Kalman filter of a linear model. Its gains depend on variances alone, so that the
means may be plain floats, or quantities that carry every input's error along: the
budget of what comes out is then exact.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import sqrt

from uncertainties import UFloat

from .budget import Quantity, nominal, total
from .elementary import log
from .vectors import Matrix, Vector, dot

LOG_TWO_PI = 1.8378770664093453


@dataclass(frozen=True, slots=True)
class State:
    """What is held of n numbers: their means, and their covariance."""

    mean: tuple[Quantity, ...]
    spread: Matrix

    def u(self, index: int) -> float:
        """Standard uncertainty of one of them."""
        return sqrt(max(0.0, self.spread[index][index]))


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """A change from one moment to the next: x ← F·x + add.

    ``variances`` are those of what is added, one for each number.
    """

    matrix: Matrix
    add: tuple[Quantity, ...]
    variances: Vector


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A reading of h·x, and the variance of its own error."""

    of: Vector
    value: Quantity
    variance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Filtered:
    """The state after a reading, and how well the reading fitted.

    ``z`` is reading − expected in standard deviations; ``log_likelihood`` the
    logarithm of the density that the reading had.
    """

    state: State
    z: float
    log_likelihood: float


def move(state: State, step: Move) -> State:
    """Carry a state on: mean ← F·m + add; P ← F·P·Fᵀ + diag(variances).

    References
    ----------
    R. E. Kalman (1960), Journal of Basic Engineering 82, 35–45.
    """
    mean = _settled(
        total([f * m for f, m in zip(row, state.mean, strict=True) if f] + [a])
        for row, a in zip(step.matrix, step.add, strict=True)
    )
    half = [[dot(row, column) for column in state.spread] for row in step.matrix]
    spread = tuple(
        tuple(dot(left, row) + (v if i == j else 0.0) for j, row in enumerate(step.matrix))
        for i, (left, v) in enumerate(zip(half, step.variances, strict=True))
    )
    return State(mean, spread)


def observe(state: State, reading: Reading) -> Filtered:
    """Learn from a reading.

    f = h·P·h + v; e = value − h·m; K = P·h ÷ f; m ← m + K·e; P ← P − K·(P·h)ᵀ

    Parameters
    ----------
    reading : Reading
        Of a number that is not known exactly, or with an error of its own.

    References
    ----------
    R. E. Kalman (1960), Journal of Basic Engineering 82, 35–45.
    """
    ph = tuple(dot(row, reading.of) for row in state.spread)
    f = dot(ph, reading.of) + reading.variance
    expected = total([h * m for h, m in zip(reading.of, state.mean, strict=True) if h])
    error = reading.value - expected
    mean = _settled(m + p / f * error if p else m for m, p in zip(state.mean, ph, strict=True))
    spread = tuple(
        tuple(v - a * b / f for v, b in zip(row, ph, strict=True))
        for row, a in zip(state.spread, ph, strict=True)
    )
    z = nominal(error) / sqrt(f)
    return Filtered(
        state=State(mean, spread), z=z, log_likelihood=-0.5 * (LOG_TWO_PI + log(f) + z * z)
    )


def _settled(means: Iterable[Quantity]) -> tuple[Quantity, ...]:
    """Write out each mean's causes now: left nested, they would double with every step."""
    settled = tuple(means)
    for mean in settled:
        if isinstance(mean, UFloat):
            mean.error_components()
    return settled
