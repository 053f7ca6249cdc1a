"""Marks: what tells a book from all others, and from itself gone back to an older copy."""

import re
from hashlib import sha256

from .store import Store

MARK = re.compile(r"([0-9]{1,15}):[0-9a-f]+")


class Marks:
    """Tells by its mark whether a book is the one it was."""

    def __init__(self, store: Store) -> None:
        self._store = store

    def now(self) -> str:
        """Return the mark of the book as it is now."""
        return self._mark(self._store.last())

    def was(self, mark: str) -> bool:
        """Whether a mark is of this book, as it is or as it was with fewer entries."""
        found = MARK.fullmatch(mark)
        return found is not None and self._mark(int(found[1])) == mark

    def _mark(self, cursor: int) -> str:
        """Return a cursor and the hash of the ids up to it, in the order they came in."""
        hashed = sha256()
        for id in self._store.ids(cursor):
            hashed.update(id.encode())
        return f"{cursor}:{hashed.hexdigest()}"
