"""What entries add up to, and what a book gives back."""

from msgspec import Struct

from evenstand.engine.quantities.phrases import say

from .bodies import Content
from .entries import Entry, read
from .errors import BookError
from .shape import Body
from .stamp import Stamp, read_stamp
from .store import Row


class Thing(Struct, frozen=True):
    """What the entries about a thing add up to.

    ``body`` is what its newest entry says that is no removal, ``born`` the
    stamp of its oldest.
    """

    id: str
    body: Content
    entry: Entry
    born: Stamp
    removed: bool

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


class Batch(Struct, frozen=True):
    """Entries in the order they came into this book, and where to go on."""

    entries: tuple[Entry, ...]
    cursor: int
    more: bool


def thing_of(row: Row) -> Thing:
    """Make a thing of what the store says: id, removed, born, text."""
    id, removed, born, text = row
    entry = read(text.encode())
    return Thing(id, entry.body, entry, read_stamp(born), bool(removed))


def the_same(entry: Entry, body: Body, *, about: str) -> Entry:
    """Return an entry that says this of this thing.

    Raises
    ------
    BookError
        For one that stands for something else.
    """
    if entry.body != body or entry.about != about:
        need = say("give a new id: this one stands for something else in this book")
        raise BookError("entry", entry.id, need)
    return entry
