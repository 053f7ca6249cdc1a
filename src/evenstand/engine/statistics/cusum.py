"""A small change that stays, found by adding up what is left over of each reading."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from ..quantities.errors import MeasurementError, require_positive
from ..quantities.phrases import say
from .elementary import exp

REFERENCE, LIMIT = 0.5, 4.0
OVERSHOOT = 1.166  # how far a sum of normal steps goes past its limit, both ends: Siegmund (1985)

Side = Literal["high", "low"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cusum:
    """Sums above and below, reading by reading.

    ``signal`` is the index of the first sum beyond the limit, from 0, and
    ``side`` where it went; both None where none did.
    """

    high: tuple[float, ...]
    low: tuple[float, ...]
    signal: int | None
    side: Side | None


def cusum(values: Sequence[float], *, reference: float = REFERENCE, limit: float = LIMIT) -> Cusum:
    """Add up what goes beyond a small deviation, each side by itself.

    S⁺ ← max(0, S⁺ + x − k); S⁻ ← max(0, S⁻ − x − k)

    Parameters
    ----------
    values : sequence of float
        Deviations from what is expected, in any one unit.
    reference : float
        k, half the change to be found, in the unit of the values. [-]
    limit : float
        h, the sum that signals, in the unit of the values. [-]

    Raises
    ------
    MeasurementError
        For a reference below zero or a limit not above it.

    References
    ----------
    NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3.

    Examples
    --------
    >>> cusum([0.2, 2.1, 2.6, 1.9]).signal
    3
    """
    if not reference >= 0:
        raise MeasurementError("reference", reference, say("enter 0 or more"))
    require_positive("limit", limit)
    high, low = [0.0], [0.0]
    for x in values:
        high.append(max(0.0, high[-1] + x - reference))
        low.append(max(0.0, low[-1] - x - reference))
    del high[0], low[0]
    for index, (up, down) in enumerate(zip(high, low, strict=True)):
        if max(up, down) > limit:
            side: Side = "high" if up > down else "low"
            return Cusum(high=tuple(high), low=tuple(low), signal=index, side=side)
    return Cusum(high=tuple(high), low=tuple(low), signal=None, side=None)


def run_length(shift: float = 0.0, *, reference: float = REFERENCE, limit: float = LIMIT) -> float:
    """Readings to a signal on average, both sides watched.

    ARL of one side = (exp(−2 Δ b) + 2 Δ b − 1) ÷ (2 Δ²), Δ = ± shift − k, b = h + 1.166

    Parameters
    ----------
    shift : float
        Of the readings, in their standard deviations; at 0 every signal is false. [-]
    reference, limit : float
        In standard deviations. [-]

    Returns
    -------
    float [-]

    Raises
    ------
    MeasurementError
        For a limit not above zero.

    References
    ----------
    D. Siegmund (1985), Sequential Analysis, 2.52 and ch. X, not read; within
    2% of exact run lengths for standard normal readings.

    Examples
    --------
    >>> print(f"{run_length(limit=5.0):.0f}")
    469
    """
    require_positive("limit", limit)
    b = limit + OVERSHOOT
    rates = [1 / _one_side(delta, b) for delta in (shift - reference, -shift - reference)]
    return 1 / (rates[0] + rates[1])


def _one_side(delta: float, b: float) -> float:
    if abs(delta) * b < 1e-6:
        return b * b
    return (exp(-2 * delta * b) + 2 * delta * b - 1) / (2 * delta * delta)


def false_alarm(readings: int, *, limit: float = LIMIT) -> float:
    """Odds that so many sound readings signal all the same: 1 − exp(−n ÷ ARL). [-]"""
    return 1 - exp(-readings / run_length(limit=limit))
