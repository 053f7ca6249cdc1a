"""What entries add up to, and what a book gives back."""

from msgspec import Struct

from .bodies import Content
from .entries import Entry, read
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
