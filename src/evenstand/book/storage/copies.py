"""Copies of a book: one before the first entry of a day, checked, and those of two weeks kept."""

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from msgspec import Struct

from evenstand.engine.quantities.phrases import say

from ..errors import BookError
from .files import new_file
from .store import MEMORY, Store

KEPT = 14
FOLDER, END = ".copies", ".evenstand"
DAY = 24 * 3_600_000  # ms


class Missing(Struct, frozen=True):
    """What a copy does not have of a book: entries, the things they are about, the newest stamp."""

    entries: int
    things: int
    newest: str | None


class Copies:
    """The copies beside a book; a book in memory has none."""

    def __init__(self, store: Store, *, clock: Callable[[], int]) -> None:
        self._store, self._clock = store, clock
        self._day = -1
        self._known = store.where == MEMORY

    @property
    def folder(self) -> Path:
        """Where they lie."""
        where = Path(self._store.where)
        return where.with_name(where.name + FOLDER)

    def all(self) -> list[Path]:
        """Return them, the newest first."""
        return sorted(self.folder.glob(f"????-??-??*{END}"), reverse=True)

    def last(self) -> datetime | None:
        """Return when the last one was made, None where there is none."""
        found = [] if self._known else self.all()
        return datetime.fromtimestamp(found[0].stat().st_mtime, tz=UTC) if found else None

    def daily(self) -> None:
        """Make that of today before the first entry of the day, where there is something to keep.

        What stands in its way, such as a full disk, keeps nobody from writing.
        """
        day = self._clock() // DAY
        if self._known or day == self._day:
            return
        self._day = day
        name = self.folder / f"{self._today()}{END}"
        if self._store.last() and not name.exists():
            try:
                self._make(name)
            except (BookError, OSError):
                return

    def make(self) -> Path:
        """Make one now.

        Raises
        ------
        BookError
            For a book in memory, one that is damaged, and a disk that takes no more.
        """
        if self._known:
            raise BookError("book", MEMORY, say("copy the office computer's book"))
        path = self.folder / f"{self._today()}-{self._clock() % DAY // 1000:05d}{END}"
        path.unlink(missing_ok=True)
        self._make(path)
        return path

    def _today(self) -> str:
        return datetime.fromtimestamp(self._clock() / 1000, tz=UTC).strftime("%Y-%m-%d")

    def _make(self, path: Path) -> None:
        """Copy the book and have SQLite look through the copy; one that is damaged is not kept."""
        path.parent.mkdir(mode=0o700, exist_ok=True)
        with new_file(path) as beside:
            with self._store.aside() as store:
                store.copy_to(beside)
            check_copy(beside)
        for old in self.all()[KEPT:]:
            old.unlink(missing_ok=True)


def check_copy(path: Path) -> None:
    """Have SQLite look through a copy.

    Raises
    ------
    BookError
        For one that is no book, or is damaged.
    """
    store = Store(str(path), create=False)
    try:
        faults = store.faults()
    finally:
        store.close()
    if faults:
        raise BookError("copy", str(path), say("choose another copy: {said}", said=faults[0]))


def missing(book: Store, copy: Store) -> Missing:
    """Return what a copy does not have of a book."""
    there = {id for _, id in copy.ids(0, copy.last())}
    lost = [row for row in book.every_entry() if row[0] not in there]
    return Missing(
        entries=len(lost),
        things=len({about for _, about, *_ in lost}),
        newest=max((made for _, _, _, made, *_ in lost), default=None),
    )
