"""Opening a book: where it lies, and who writes in it."""

import os
import time
from collections.abc import Callable
from pathlib import Path

from evenstand.engine.quantities.phrases import say

from .book import Book
from .errors import BookError
from .log.stamp import Stamp
from .storage.store import MEMORY, Store


def wall_clock() -> int:
    """Return milliseconds since 1970, UTC, by this device's own clock."""
    return time.time_ns() // 1_000_000


def open_book(
    where: str | Path,
    *,
    device: str,
    who: str = "",
    clock: Callable[[], int] = wall_clock,
    random: Callable[[int], bytes] = os.urandom,
    create: bool = True,
) -> Book:
    """Open a book, or begin one.

    Parameters
    ----------
    where : str or Path
        File of the book, or ``:memory:``.
    device : str
        Small letters, digits and hyphens: no other device that shares the
        book should have the same name.
    who : str
        Who writes, where a call does not say it.
    clock : callable
        Milliseconds since 1970, UTC.
    random : callable
        So many random bytes.
    create : bool
        Whether to begin a book where there is none.

    Raises
    ------
    BookError
        For a file that is not there (``create=False``), is no book, or was
        made by a newer Evenstand, and for a device that cannot stand in a
        stamp.
    """
    Stamp(0, 0, device)
    place = str(where)
    if "://" in place:
        raise BookError("book", place, say("enter the path to a file"))
    if not create and place != MEMORY and not Path(place).is_file():
        raise BookError("book", place, say("enter the path to a book: no such file"))
    return Book(Store(place, create=create), device=device, who=who, clock=clock, random=random)
