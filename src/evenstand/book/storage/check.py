"""Whether a book is sound: its file, its entries, and what they add up to."""

from collections.abc import Iterator

import msgspec
from msgspec import Struct

from evenstand.engine.quantities.phrases import Phrase, say

from ..errors import BookError
from ..log.entries import read
from .projection import project
from .store import PER_FETCH, Row, Store


class Loose(Struct, frozen=True):
    """A thing that names another which is not in this book."""

    thing: str
    kind: str
    target: str


class Checked(Struct, frozen=True):
    """What was looked at, and what was found.

    ``faults`` are damage. ``loose`` is none: the thing that is missing may
    still come from another device. ``newer`` counts entries in which a newer
    Evenstand wrote what this one does not know.
    """

    entries: int
    things: dict[str, int]
    newer: int
    faults: tuple[Phrase, ...]
    loose: tuple[Loose, ...]


def examine(store: Store) -> Checked:
    """Look through a whole book as it stands at one moment."""
    seen: dict[bool, int] = {True: 0, False: 0}
    faults = [say("the file: {said}", said=said) for said in store.faults()]
    with store.reading():
        for row in store.every_entry():
            newer, fault = _entry(row)
            seen[newer] += 1
            faults += [fault] if fault else []
        faults += _sums(store)
        loose = tuple(Loose(*row) for row in store.loose_links())
        things: dict[str, int] = dict(store.counts())
    return Checked(sum(seen.values()), things, seen[True], tuple(faults), loose)


def _entry(row: Row) -> tuple[bool, Phrase | None]:
    id, about, kind, made, sha256, text = row
    try:
        entry = read(text.encode())
    except BookError as refused:
        return False, say("entry {id}: {said}", id=id, said=str(refused))
    if entry.sha256 != sha256:
        return False, say(
            "entry {id} has changed since it was written: its hash does not match", id=id
        )
    if (entry.id, entry.about, entry.kind, str(entry.made)) != (id, about, kind, made):
        return False, say("entry {id} is filed in the wrong place", id=id)
    return entry.newer, None


def _sums(store: Store) -> Iterator[Phrase]:
    """Yield the things whose row is not what their entries add up to."""
    for n, about in enumerate(store.abouts(), 1):
        if n % PER_FETCH == 0:
            store.pause()
        try:
            found = project(store, about)
        except (BookError, msgspec.DecodeError):
            continue  # said of the entry itself
        if found and store.row(about) != (found.row, found.targets):
            yield say("item {id} does not match its entries", id=about)
