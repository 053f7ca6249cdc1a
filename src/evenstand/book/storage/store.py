"""Where entries lie: one SQLite file, or memory. Only this folder speaks SQL.

What is committed is on disk before the call returns: write-ahead log,
synchronous FULL.
"""

import sqlite3
import threading
import time
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from evenstand.engine.quantities.phrases import say

from ..errors import BookError, FullError, NotKeptError
from .files import own
from .migrations import APPLICATION, STEPS

PRAGMAS = (
    "PRAGMA busy_timeout = 10000",
    "PRAGMA journal_mode = WAL",
    "PRAGMA synchronous = FULL",
    "PRAGMA fullfsync = ON",
    "PRAGMA foreign_keys = ON",
)
READING = (PRAGMAS[0], "PRAGMA query_only = ON")
MEMORY = ":memory:"
PER_FETCH = 100
PAUSE = 0.002  # s after each fetch of a long look: an answer to somebody goes before

Row = tuple[Any, ...]
# What makes a thing, of ``thing JOIN entry``; body and heads are NULL where the entry says them.
THING = "thing.id, thing.removed, thing.born, text, thing.body, heads, clashes"


class Store:
    """A connection to one book, used by one thread at a time.

    Parameters
    ----------
    where : str
        Path of the file, or ``:memory:``.
    create : bool
        Whether an empty file is the beginning of a book.
    reader : bool
        Whether it only reads, beside a connection that has opened the book.

    Raises
    ------
    BookError
        For a file that is no book, is damaged, or was made by a newer
        Evenstand.
    """

    def __init__(self, where: str, *, create: bool = True, reader: bool = False) -> None:
        self.where, self._lock, self._reader = where, threading.RLock(), reader
        self._settled = self._seen = 0  # how much was written, when it was asked
        if where != MEMORY and not reader:
            own(Path(where), create=create)
        with self._speaking():
            self._sqlite = sqlite3.connect(where, isolation_level=None, check_same_thread=False)
        try:
            with self._speaking():
                self._check_is_book(create=create)
                for pragma in READING if reader else PRAGMAS:
                    self._sqlite.execute(pragma)
                if not reader:
                    self._migrate()
        except BookError:
            self._sqlite.close()
            raise

    def close(self) -> None:
        """Let go of the file."""
        with self._lock:
            self._sqlite.close()

    def settle(self) -> None:
        """Empty the log into the file, where nothing was written since this was last called."""
        with self._lock, self._speaking():
            written = self._sqlite.total_changes
            if written == self._seen != self._settled:
                self._sqlite.execute("PRAGMA busy_timeout = 0")  # a long reader: the next time
                [(busy, *_)] = self._sqlite.execute("PRAGMA wal_checkpoint(TRUNCATE)")
                self._sqlite.execute(PRAGMAS[0])
                self._settled = self._settled if busy else written
            self._seen = written

    @contextmanager
    def aside(self) -> Iterator["Store"]:
        """Give a connection of its own for a long look, so that nobody waits; in memory this one.

        It only reads, and now and then lets others go first.
        """
        if self.where == MEMORY:
            yield self
            return
        other = Store(self.where, reader=True)
        try:
            yield other
        finally:
            other.close()

    @contextmanager
    def writing(self) -> Iterator[None]:
        """Keep all that is written inside, or nothing; kept means on disk."""
        with self._lock, self._speaking():
            self._sqlite.execute("BEGIN IMMEDIATE")
            try:
                yield
                self._sqlite.execute("COMMIT")
            except BaseException:
                if self._sqlite.in_transaction:
                    self._sqlite.execute("ROLLBACK")
                raise

    @contextmanager
    def reading(self) -> Iterator[None]:
        """See the book as it stands at one moment."""
        with self._lock, self._speaking():
            self._sqlite.execute("BEGIN")
            try:
                yield
            finally:
                self._sqlite.execute("ROLLBACK")

    def insert(self, entry: Row) -> int:
        """Write an entry (id, about, kind, made, sha256, text); gives its place in this book."""
        sql = "INSERT INTO entry (id, about, kind, made, sha256, text) VALUES (?, ?, ?, ?, ?, ?)"
        return self._sqlite.execute(sql, entry).lastrowid or 0

    def hash_of(self, id: str) -> bytes | None:
        """Return the hash of an entry, None where it is not here."""
        found: bytes | None = self._value("SELECT sha256 FROM entry WHERE id = ?", id)
        return found

    def text_of(self, id: str) -> str | None:
        """Return the text of an entry, None where it is not here."""
        found: str | None = self._value("SELECT text FROM entry WHERE id = ?", id)
        return found

    def entries_about(self, about: str) -> list[Row]:
        """Return (place, id, text) of all entries about a thing, in the order all books share."""
        return self._all("SELECT seq, id, text FROM entry WHERE about = ? ORDER BY made, id", about)

    def keep(self, thing: Row, targets: Iterable[str]) -> None:
        """Write the row of a thing and what it links to, in place of what stood there."""
        id, kind, removed, born, *_ = thing
        self._sqlite.execute("DELETE FROM link WHERE thing = ?", (id,))
        sql = (
            "INSERT INTO thing (id, kind, removed, born, entry, body, heads, clashes) "
            "VALUES (?, ?, ?, ?, ?, ?, ?, ?) "
            "ON CONFLICT (id) DO UPDATE SET kind = excluded.kind, removed = excluded.removed, "
            "born = excluded.born, entry = excluded.entry, body = excluded.body, "
            "heads = excluded.heads, clashes = excluded.clashes"
        )
        self._sqlite.execute(sql, thing)
        sql = "INSERT INTO link (target, kind, removed, born, thing) VALUES (?, ?, ?, ?, ?)"
        rows = [(target, kind, removed, born, id) for target in targets]
        self._sqlite.executemany(sql, rows)

    def thing(self, id: str) -> Row | None:
        """Return the `THING` columns of a thing."""
        sql = f"SELECT {THING} FROM thing JOIN entry ON entry.seq = thing.entry WHERE thing.id = ?"
        with self._lock, self._speaking():
            return self._one(sql, id)

    def things(
        self, kind: str, *, of: str | None, removed: bool, after: tuple[str, str], limit: int
    ) -> list[Row]:
        """Return the `THING` columns of things of a kind, newest first."""
        if of is None:
            sql = (
                f"SELECT {THING} FROM thing "
                "JOIN entry ON entry.seq = thing.entry "
                "WHERE thing.kind = ? AND removed = ? AND (born, thing.id) < (?, ?) "
                "ORDER BY born DESC, thing.id DESC LIMIT ?"
            )
            return self._all(sql, kind, int(removed), *after, limit)
        sql = (
            f"SELECT {THING} FROM link "
            "JOIN thing ON thing.id = link.thing JOIN entry ON entry.seq = thing.entry "
            "WHERE target = ? AND link.kind = ? AND link.removed = ? "
            "AND (link.born, thing) < (?, ?) "
            "ORDER BY link.born DESC, thing DESC LIMIT ?"
        )
        return self._all(sql, of, kind, int(removed), *after, limit)

    def counts(self) -> list[Row]:
        """Return (kind, number) of the things that stand."""
        sql = "SELECT kind, count(*) FROM thing WHERE removed = 0 GROUP BY kind ORDER BY kind"
        return self._all(sql)

    def history(self, about: str) -> list[str]:
        """Return the texts of all entries about a thing, oldest first."""
        rows = self._all("SELECT text FROM entry WHERE about = ? ORDER BY made, id", about)
        return [text for (text,) in rows]

    def newest(self, before: str, *, limit: int) -> list[str]:
        """Return the texts of the entries made before a stamp, newest first."""
        sql = "SELECT text FROM entry WHERE made < ? ORDER BY made DESC, id DESC LIMIT ?"
        return [text for (text,) in self._all(sql, before, limit)]

    def newest_stamp(self, about: str) -> str | None:
        """Return the newest stamp of the entries about a thing."""
        found: str | None = self._value("SELECT max(made) FROM entry WHERE about = ?", about)
        return found

    def since(self, cursor: int, *, limit: int) -> list[Row]:
        """Return (seq, id, text) in the order in which entries came into this book."""
        sql = "SELECT seq, id, text FROM entry WHERE seq > ? ORDER BY seq LIMIT ?"
        return self._all(sql, cursor, limit)

    def ids(self, after: int, cursor: int) -> list[Row]:
        """Return (seq, id) of the entries after a place, up to another, as they came in."""
        sql = "SELECT seq, id FROM entry WHERE seq > ? AND seq <= ? ORDER BY seq"
        return self._all(sql, after, cursor)

    def last(self) -> int:
        """Return the place of the entry that came in last, 0 where there is none."""
        return int(self._value("SELECT coalesce(max(seq), 0) FROM entry"))

    def every_entry(self) -> Iterator[Row]:
        """Yield (id, about, kind, made, sha256, text) in the order that all books share."""
        sql = "SELECT id, about, kind, made, sha256, text FROM entry ORDER BY made, id"
        return self._stream(sql)

    def abouts(self) -> list[str]:
        """Return all ids that entries are about."""
        return [about for (about,) in self._all("SELECT DISTINCT about FROM entry")]

    def row(self, id: str) -> tuple[Row | None, frozenset[str]]:
        """Return the row of a thing as it stands, and its links."""
        sql = "SELECT id, kind, removed, born, entry, body, heads, clashes FROM thing WHERE id = ?"
        targets = self._all("SELECT target FROM link WHERE thing = ?", id)
        return self._one(sql, id), frozenset(target for (target,) in targets)

    def clashing(self) -> list[str]:
        """Return the ids of things with fields that two people changed apart."""
        return [id for (id,) in self._all("SELECT id FROM thing WHERE clashes > 0 ORDER BY id")]

    def loose_links(self) -> list[Row]:
        """Return (thing, kind, target) where the target is not in this book."""
        sql = (
            "SELECT thing, kind, target FROM link "
            "WHERE target NOT IN (SELECT id FROM thing) ORDER BY target, thing"
        )
        return self._all(sql)

    def faults(self) -> list[str]:
        """Return what SQLite itself finds wrong with the file."""
        found = [str(said) for (said,) in self._all("PRAGMA integrity_check") if said != "ok"]
        keys = self._all("PRAGMA foreign_key_check")
        return found + [f"{table} row {row}: no such {parent}" for table, row, parent, _ in keys]

    def state(self, name: str) -> str | None:
        """Return something this book remembers for itself."""
        found: str | None = self._value("SELECT value FROM state WHERE name = ?", name)
        return found

    def remember(self, name: str, value: str) -> None:
        """Keep something for this book itself."""
        sql = (
            "INSERT INTO state (name, value) VALUES (?, ?) "
            "ON CONFLICT (name) DO UPDATE SET value = excluded.value"
        )
        self._sqlite.execute(sql, (name, value))

    def copy_to(self, path: Path) -> None:
        """Copy the whole book, as it stands at one moment, into a new file."""
        with self._lock, self._speaking():
            copy = sqlite3.connect(path)
            try:
                self._sqlite.backup(copy)
            finally:
                copy.close()

    def go_back_to(self, copy: "Store") -> None:
        """Take the place of everything here with what stands in a copy."""
        with self._lock, self._speaking():
            copy._sqlite.backup(self._sqlite)

    def ask(self, sql: str, *values: Any) -> list[Row]:
        """Read any table, or write those that hold no entries; gives the rows."""
        return self._all(sql, *values)

    def pause(self) -> None:
        """Let others go first in the middle of a long look."""
        if self._reader:
            time.sleep(PAUSE)

    def _one(self, sql: str, *values: Any) -> Row | None:
        with self._lock, self._speaking():
            row: Row | None = self._sqlite.execute(sql, values).fetchone()
            return row

    def _value(self, sql: str, *values: Any) -> Any:
        row = self._one(sql, *values)
        return row and row[0]

    def _all(self, sql: str, *values: Any) -> list[Row]:
        with self._lock, self._speaking():
            return self._sqlite.execute(sql, values).fetchall()

    def _stream(self, sql: str, values: Sequence[Any] = ()) -> Iterator[Row]:
        with self._lock, self._speaking():
            found = self._sqlite.execute(sql, values)
            while rows := found.fetchmany(PER_FETCH):
                yield from rows
                self.pause()

    def _check_is_book(self, *, create: bool) -> None:
        [(application,)] = self._sqlite.execute("PRAGMA application_id")
        [(version,)] = self._sqlite.execute("PRAGMA user_version")
        [(tables,)] = self._sqlite.execute("SELECT count(*) FROM sqlite_master")
        if (tables or version or application) and application != APPLICATION:
            raise BookError("book", self.where, say("choose a book: this file is not a book"))
        if not application and not create:
            need = say("choose a book: this file is empty; copy its -wal file along with it")
            raise BookError("book", self.where, need)
        if version > len(STEPS):
            need = say(
                "open it with a newer Evenstand: its tables are version "
                "{version}, and this one reads only up to {known}",
                version=version,
                known=len(STEPS),
            )
            raise BookError("book", self.where, need)

    def _migrate(self) -> None:
        with self.writing():
            [(version,)] = self._sqlite.execute("PRAGMA user_version")
            for step in STEPS[version:]:
                for sql in step:
                    self._sqlite.execute(sql)
            if version < len(STEPS):
                self._sqlite.execute(f"PRAGMA application_id = {APPLICATION}")
                self._sqlite.execute(f"PRAGMA user_version = {len(STEPS)}")

    @contextmanager
    def _speaking(self) -> Iterator[None]:
        try:
            yield
        except sqlite3.Error as refused:
            need = say("check the file, nothing was saved: {said}", said=str(refused))
            raise _KINDS.get(_name(refused), BookError)("book", self.where, need) from None


def _name(refused: sqlite3.Error) -> str:
    """Return the main part of what SQLite calls an error, such as IOERR of IOERR_WRITE."""
    return getattr(refused, "sqlite_errorname", "").removeprefix("SQLITE_").partition("_")[0]


_KINDS: dict[str, type[BookError]] = {
    "FULL": FullError,
    **dict.fromkeys(("BUSY", "LOCKED", "IOERR", "READONLY", "CANTOPEN"), NotKeptError),
}
