"""Marks: what tells a book from all others, and from itself gone back to an older copy."""

import re
from bisect import bisect_right
from hashlib import sha256
from threading import Lock

from .store import Store

STRIDE = 100  # entries: from the nearest place known no more are hashed anew
MARK = re.compile(r"([0-9]{1,15}):[0-9a-f]+")


class Marks:
    """Tells by its mark whether a book is the one it was."""

    def __init__(self, store: Store) -> None:
        self._store, self._lock = store, Lock()
        self._places, self._hashes = [0], [sha256()]  # of some entries on the way, in their order

    def now(self) -> str:
        """Return the mark of the book as it is now."""
        return self._mark(self._store.last())

    def was(self, mark: str) -> bool:
        """Whether a mark is of this book, as it is or as it was with fewer entries."""
        found = MARK.fullmatch(mark)
        return found is not None and self._mark(int(found[1])) == mark

    def _mark(self, cursor: int) -> str:
        """Return a cursor and the hash of the ids up to it, in the order they came in."""
        with self._lock:
            nearest = bisect_right(self._places, cursor) - 1
            place, hashed = self._places[nearest], self._hashes[nearest].copy()
            rows = self._store.ids(place, cursor)
            hashed.update("".join(id for _, id in rows).encode())
            if len(rows) >= STRIDE:
                self._places.insert(nearest + 1, rows[-1][0])
                self._hashes.insert(nearest + 1, hashed.copy())
            return f"{cursor}:{hashed.hexdigest()}"
