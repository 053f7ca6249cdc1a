"""The rows of the latest catch, where each was weighed apart."""

from functools import lru_cache

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
    return _judged(tuple(bag.weight for bag in bags), job.scale.resolution)


@lru_cache(maxsize=REMEMBERED)
def _judged(weights: tuple[float, ...], resolution: float) -> Evenness | None:
    """Judge them once: each page of the job shows them again."""
    try:
        return evenness([weights], resolution=resolution)
    except MeasurementError:
        return None
