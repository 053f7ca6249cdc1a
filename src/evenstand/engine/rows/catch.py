"""A catch weighed row by row, once or more, and the rows in it that are plugged."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, inf

from ..quantities.errors import MeasurementError
from ..quantities.phrases import say

PLUGGED = 0.25  # a row this share below the middle row is as good as plugged: judgement
FEWEST = 3  # rows that a scatter and a row apart from it need
MOST = 120  # rows of one drill: what is compared grows with their cube


@dataclass(frozen=True, slots=True, kw_only=True)
class RowCatch:
    """What each row dropped. Rows are counted from 1; ``numbers`` are those that were caught.

    ``mean`` is the mean weight of a running row in a catch [kg]; ``off`` how
    far each row is from it, and ``relative`` the catches of the running rows,
    each ÷ its own mean, so that catches of any length stand side by side.
    """

    weights: tuple[tuple[float, ...], ...]
    numbers: tuple[int, ...]
    plugged: frozenset[int]
    mean: float
    off: dict[int, float]
    relative: tuple[tuple[float, ...], ...]

    @property
    def running(self) -> dict[int, float]:
        """How far the rows that run are from their mean. [-]"""
        return {row: off for row, off in self.off.items() if row not in self.plugged}

    def stopped_once(self, row: int) -> bool:
        """Whether a row dropped nothing in one catch and ran in another."""
        place = self.numbers.index(row)
        own = [catch[place] for catch in self.weights]
        return min(own) == 0 < max(own)


def row_catch(weights: Sequence[Sequence[float]], numbers: Sequence[int] | None = None) -> RowCatch:
    """Lay the rows' weights against their mean, plugged rows apart.

    off = mean over catches of (weight ÷ mean of the running rows) − 1

    Parameters
    ----------
    weights : sequence of k sequences of R floats
        Net seed of each row, catch by catch, R ≥ 3. [kg]
    numbers : sequence of R ints, optional
        Which rows they are, from the left; all from 1 on without.

    Raises
    ------
    MeasurementError
        For fewer than 3 rows, or fewer than 3 that run; for catches of
        unequal length, weights below 0 or not a number, a catch with no
        seed (field ``weights``).
    """
    catches = tuple(tuple(catch) for catch in weights)
    _check(catches)
    rows = tuple(numbers or range(1, len(catches[0]) + 1))
    _, low = far_below([fsum(row) for row in zip(*catches, strict=True)])
    plugged = frozenset(rows[i] for i in low)
    runs = [i for i in range(len(rows)) if i not in low]
    if len(runs) < FEWEST:
        need = say(
            "stop the drive, unplug rows {rows}, then catch again: at least 3 "
            "rows must be running to compare",
            rows=", ".join(str(row) for row in sorted(plugged)),
        )
        raise MeasurementError("weights", catches, need)
    means = [fsum(catch[i] for i in runs) / len(runs) for catch in catches]
    if not min(means) > 0:
        raise MeasurementError("weights", catches, say("leave out catches with no seed"))
    pairs = list(zip(catches, means, strict=True))
    return RowCatch(
        weights=catches,
        numbers=rows,
        plugged=plugged,
        mean=fsum(means) / len(means),
        off={
            row: fsum(catch[i] / mean for catch, mean in pairs) / len(pairs) - 1
            for i, row in enumerate(rows)
        },
        relative=tuple(tuple(catch[i] / mean for i in runs) for catch, mean in pairs),
    )


def _check(catches: Sequence[Sequence[float]]) -> None:
    lengths = {len(catch) for catch in catches}
    if len(lengths) > 1:
        raise MeasurementError("weights", catches, say("use the same rows in every catch"))
    if not catches or min(lengths) < FEWEST:
        raise MeasurementError("weights", catches, say("enter at least 3 rows"))
    if max(lengths) > MOST:
        need = say("compare at most {n} rows at a time", n=MOST)
        raise MeasurementError("weights", max(lengths), need)
    if not all(0 <= weight < inf for catch in catches for weight in catch):
        raise MeasurementError("weights", catches, say("enter weights of 0 or more"))
    if not any(weight > 0 for catch in catches for weight in catch):
        raise MeasurementError("weights", catches, say("enter a catch with seed in it"))


def far_below(weights: Sequence[float]) -> tuple[float, frozenset[int]]:
    """Return the middle of the weights above 0, and which lie more than a quarter below it.

    Of two alone the larger is the middle: seed does not come from nowhere.
    """
    some = sorted(weight for weight in weights if weight > 0)
    n = len(some)
    middle = some[-1] if n == len(weights) == 2 else (some[(n - 1) // 2] + some[n // 2]) / 2
    lowest = (1 - PLUGGED) * middle
    return middle, frozenset(i for i, weight in enumerate(weights) if weight < lowest)
