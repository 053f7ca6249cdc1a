"""The rows of the latest catch, where each was weighed apart."""

from functools import lru_cache

from evenstand.engine.catch.weighing import Catch
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.rows.evenness import Evenness, evenness

from ..job.calibration import Job

FEWEST_ROWS = 3
REMEMBERED = 64  # catches


def last_rows(job: Job) -> Evenness | None:
    """Judge the rows of the latest catch; None where they were not weighed apart."""
    if not job.catches:
        return None
    bags = job.catches[-1].bags
    running = [bag for bag in bags if bag.weight > 0]
    if len(running) < FEWEST_ROWS or any(bag.rows > 1 for bag in bags):
        return None
    return _judged(bags, of=job.drill.rows, resolution=job.catches[-1].scale.resolution)


@lru_cache(maxsize=REMEMBERED)
def _judged(bags: Catch, *, of: int, resolution: float) -> Evenness | None:
    """Judge them once: each page of the job shows them again."""
    weights = [bag.weight for bag in bags]
    numbers = [bag.first for bag in bags] if all(bag.first for bag in bags) else None
    try:
        return evenness(
            [weights], numbers=numbers, of=of if numbers else None, resolution=resolution
        )
    except MeasurementError:
        return None
