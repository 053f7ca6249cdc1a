"""Seeing what a result is made of, and showing the book again as it stood then."""

import hashlib
from collections.abc import Iterable

from evenstand.engine.quantities.phrases import say

from .book import Book
from .errors import BookError
from .log.entries import Entry
from .opening import open_book
from .storage.store import MEMORY

DEVICE = "frozen"


def rested_on(book: Book, things: Iterable[str]) -> list[Entry]:
    """Return all entries about some things, each once, as they stand now."""
    return [entry for thing in sorted(set(things)) for entry in book.history(thing)]


def fingerprint(entries: Iterable[Entry]) -> str:
    """Return the SHA-256 of what entries say, in whatever order they are."""
    lines = sorted(entry.sha256.hex() for entry in entries)
    return hashlib.sha256("".join(f"{line}\n" for line in lines).encode()).hexdigest()


def as_it_stood(book: Book, entries: Iterable[str], *, sha256: str) -> Book:
    """Open a book in memory that has some entries of this one, and no others.

    Raises
    ------
    BookError
        Where an entry is missing here, or is not what it was.
    """
    found = book.many.entries(entries)
    if fingerprint(found) != sha256:
        need = say("get the rest by sync or import: not all that this record rests on is here")
        raise BookError("record", None, need)
    before = open_book(MEMORY, device=DEVICE, who="")
    before.merge(found)
    return before
