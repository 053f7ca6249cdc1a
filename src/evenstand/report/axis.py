"""From values to places on paper, and the round numbers that stand along it."""

from dataclasses import dataclass
from math import ceil, floor

from evenstand.engine.statistics.elementary import log


@dataclass(frozen=True)
class Axis:
    """Values from one edge of a drawing to the other, in the reader's unit."""

    low: float
    high: float
    cells: int

    def cell(self, value: float) -> int:
        """Return the column of a value, the edge's where it lies beyond."""
        part = (value - self.low) / (self.high - self.low)
        return min(self.cells - 1, max(0, round(part * (self.cells - 1))))

    def ticks(self, most: int) -> list[float]:
        """Return round numbers along the axis, at most so many."""
        step = round_step((self.high - self.low) / most)
        first = ceil(self.low / step - 1e-9)
        return [n * step for n in range(first, floor(self.high / step + 1e-9) + 1)]


def round_step(least: float) -> float:
    """Return the smallest of 1, 2 and 5 times a power of ten that is not below ``least``."""
    power = 10.0 ** floor(log(least) / log(10.0))
    return next(n * power for n in (1, 2, 5, 10) if n * power >= least * (1 - 1e-9))
