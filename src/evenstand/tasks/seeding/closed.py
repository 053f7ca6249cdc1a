"""What each box of a field laid down, once the field is done."""

from collections.abc import Mapping
from functools import lru_cache

from evenstand.book.book import Book
from evenstand.book.kinds.machine import Drill
from evenstand.book.kinds.work import Job
from evenstand.engine.seeding.closing import Closed
from evenstand.engine.statistics.budget import standard_uncertainty

from .kept import sow_said
from .on_the_way import OnTheWay
from .said import SowSaid
from .seeding import read_sow

REMEMBERED = 256  # fields


def closed_boxes(book: Book, way: OnTheWay) -> Mapping[str, Closed]:
    """Close every box of a field over its ground; none of a field that is not done.

    Raises
    ------
    MeasurementError
        Named as in a job file, for what cannot be.
    """
    if not way.finished:
        return {}
    return _closed(sow_said(book, way), *((kept.drill, kept.body) for kept in way.boxes[:1]))


@lru_cache(maxsize=REMEMBERED)
def _closed(said: SowSaid, *_: tuple[Drill | None, Job]) -> Mapping[str, Closed]:
    """Remember what the same entries came to: a drill's page and its jobs ask again and again."""
    closed = {box.name: box.closed for box in read_sow(said).boxes if box.closed}
    for each in closed.values():
        if each.ratio is not None:  # worked out here, where only one asks: it lasts
            standard_uncertainty(each.ratio)
    return closed
