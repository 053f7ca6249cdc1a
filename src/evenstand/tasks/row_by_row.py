"""The rows of the latest catch, where each was weighed apart."""

from evenstand.engine.errors import MeasurementError
from evenstand.engine.rows import Evenness, evenness

from .job import Job

FEWEST_ROWS = 3


def last_rows(job: Job) -> Evenness | None:
    """Judge the rows of the latest catch; None where they were not weighed apart."""
    if not job.catches:
        return None
    bags = job.catches[-1].bags
    running = [bag for bag in bags if bag.weight > 0]
    if len(running) < FEWEST_ROWS or any(bag.rows > 1 for bag in bags):
        return None
    try:
        return evenness([[bag.weight for bag in bags]], resolution=job.scale.resolution)
    except MeasurementError:
        return None
