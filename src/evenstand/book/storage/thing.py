"""What entries add up to, and what a book gives back."""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Generic, TypeVar

import msgspec
from msgspec import Struct

from evenstand.engine.quantities.phrases import say

from ..errors import BookError
from ..kinds.bodies import Content
from ..kinds.shape import Body
from ..log.entries import Entry, content, read
from ..log.merging import look
from ..log.said import said
from ..log.stamp import Stamp, read_stamp
from .store import Row


class Thing(Struct, frozen=True):
    """What the entries about a thing add up to.

    ``body`` is its state field by field, ``entry`` the newest that is no
    removal, ``born`` the stamp of the oldest. ``heads`` are the entries that
    no other about it has seen: whoever changes it has seen them all.
    ``clashes`` counts fields that two people changed without knowing of each
    other, and nobody has settled.
    """

    id: str
    body: Content
    entry: Entry
    born: Stamp
    removed: bool
    heads: tuple[str, ...]
    clashes: int

    @property
    def kind(self) -> str:
        """Kind of the thing."""
        return self.entry.kind

    @property
    def newer(self) -> bool:
        """Whether a newer Evenstand wrote something here that this one does not know."""
        return self.entry.newer


class Merged(Struct, frozen=True):
    """What a merge brought: entries that were new here, and those known already."""

    new: int
    known: int


class Text(Struct, frozen=True):
    """An entry as it was written."""

    id: str
    text: str


Item = TypeVar("Item", Entry, Text)


class Batch(Struct, Generic[Item], frozen=True):
    """Entries in the order they came into this book, and where to go on."""

    entries: tuple[Item, ...]
    cursor: int
    more: bool


_made: ContextVar[set[str] | None] = ContextVar("things made", default=None)


@contextmanager
def things_made() -> Iterator[set[str]]:
    """Gather the ids of all things that a book gives while this is open: what a result rests on."""
    made: set[str] = set()
    before = _made.set(made)
    try:
        yield made
    finally:
        _made.reset(before)


def thing_of(row: Row) -> Thing:
    """Make a thing of what the store says: id, removed, born, text, body, heads, clashes."""
    id, removed, born, text, body, heads, clashes = row
    if (made := _made.get()) is not None:
        made.add(id)
    entry = read(text.encode())
    return Thing(
        id=id,
        body=entry.body if body is None else content(entry.kind, body.encode(), newer=True),
        entry=entry,
        born=read_stamp(born),
        removed=bool(removed),
        heads=tuple(heads.split()) if heads else (entry.id,),
        clashes=clashes,
    )


def the_same(entry: Entry, body: Body, *, about: str) -> Entry:
    """Return an entry that says this of this thing, as far as its writer changed it.

    Raises
    ------
    BookError
        For one that stands for something else.
    """
    if entry.about != about or not _says(entry, body):
        need = say("enter a new ID: this one already belongs to something else in this book")
        raise BookError("entry", entry.id, need)
    return entry


def _says(entry: Entry, body: Body) -> bool:
    if entry.changed is None:
        return entry.body == body
    [own] = said([entry.text])
    new = msgspec.json.decode(msgspec.json.encode(body))
    return all(look(own.body, field) == look(new, field) for field in entry.changed)
