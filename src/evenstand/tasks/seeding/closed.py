"""What each box of a field laid down, once the field is done."""

import json
from collections.abc import Mapping
from functools import lru_cache

from evenstand.book.book import Book
from evenstand.engine.seeding.closing import Closed
from evenstand.engine.statistics.budget import standard_uncertainty

from .kept import sow_tables
from .on_the_way import OnTheWay
from .seeding import read_sow

REMEMBERED = 256  # fields


def closed_boxes(book: Book, way: OnTheWay) -> Mapping[str, Closed]:
    """Close every box of a field over its ground; none of a field that is not done.

    Raises
    ------
    MeasurementError
        Named as in a job file, for what cannot be.
    """
    return _closed(json.dumps(sow_tables(book, way)[0])) if way.finished else {}


@lru_cache(maxsize=REMEMBERED)
def _closed(tables: str) -> Mapping[str, Closed]:
    """Remember what the same tables came to: a drill's page and its jobs ask again and again."""
    closed = {box.name: box.closed for box in read_sow(json.loads(tables)).boxes if box.closed}
    for each in closed.values():
        if each.ratio is not None:  # worked out here, where only one asks: it lasts
            standard_uncertainty(each.ratio)
    return closed
