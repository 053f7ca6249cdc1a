"""What the stand promised for the settings that a field was sown at."""

from collections.abc import Sequence
from functools import lru_cache
from math import fsum

from evenstand.book.book import Book
from evenstand.book.kinds.machine import Chart
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.statistics.budget import Estimate

from ..job.kept import Kept, chart_for
from .from_book import caught_job
from .setting import bench_rate

Stretch = tuple[tuple[float, str], float]  # (setting, gear), ground [m²]
REMEMBERED = 256  # boxes of closed fields


def stand_rate(book: Book, kept: Kept, stretches: Sequence[Stretch]) -> Estimate | None:
    """Average what the stand promises for some settings over the ground sown at each.

    Only this job's own catches and chart count, slip is counted and no field
    ratio: so it can be divided into what the field got. One setting's error is
    taken to be that of all.

    Parameters
    ----------
    stretches : sequence of ((setting, gear), ground)

    Returns
    -------
    Estimate [kg/m²]
        None where Set cannot be worked out.
    """
    return _averaged(kept, chart_for(book, kept), tuple(stretches))


@lru_cache(maxsize=REMEMBERED)
def _averaged(kept: Kept, chart: Chart | None, stretches: tuple[Stretch, ...]) -> Estimate | None:
    """Work it out once for the same entries: a drill's page and its jobs ask again and again."""
    try:
        job = caught_job(kept, chart)
        rates = [
            (bench_rate(job, setting, job.drill.gear(gear or None)), ground)
            for (setting, gear), ground in stretches
        ]
    except MeasurementError:
        return None
    whole = fsum(ground for _, ground in rates)
    if not whole > 0:
        return rates[0][0]
    value, low, high, u = (
        fsum(getattr(rate, part) * ground for rate, ground in rates) / whole
        for part in ("value", "low", "high", "u")
    )
    return Estimate(value, low, high, u)
