"""The book against bare sqlite3: entries written one by one, and lists as a book grows.

Everything is a ratio within one run on one machine. The peer is Python's own
sqlite3 with the same pragmas and one plain table; each write is committed, and
so on disk, before the next.
"""

import sqlite3
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from statistics import median

from evenstand.book.book import Book
from evenstand.book.kinds.shape import Typed
from evenstand.book.kinds.work import Bag, Catch, Job
from evenstand.book.log.entries import Entry, read
from evenstand.book.opening import open_book
from evenstand.book.storage.store import PRAGMAS

SIZES = (100, 10_000, 100_000)
CATCHES_PER_JOB = 20
SYNC_OFF = "PRAGMA synchronous = OFF"


def catch(job: str, setting: float) -> Catch:
    """A catch of four rows."""
    bags = tuple(Bag(weight=Typed(value=0.0565, text="56.5 g"), row=n) for n in (1, 2, 3, 4))
    return Catch(job=job, setting=setting, turns=Typed(value=20, text="20"), bags=bags)


def seconds(work: Callable[[], object]) -> float:
    """Time of one call."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


class Bare:
    """One table, one row for each text, each committed."""

    def __init__(self, path: Path) -> None:
        self.sqlite = sqlite3.connect(path, isolation_level=None)
        for pragma in PRAGMAS:
            self.sqlite.execute(pragma)
        self.sqlite.execute("CREATE TABLE entry (id TEXT PRIMARY KEY, text TEXT) WITHOUT ROWID")

    def add(self, id: str, text: str) -> None:
        """Write one text."""
        self.sqlite.execute("BEGIN IMMEDIATE")
        self.sqlite.execute("INSERT INTO entry VALUES (?, ?)", (id, text))
        self.sqlite.execute("COMMIT")


def writing(folder: Path, *, number: int, on_disk: bool) -> tuple[float, float]:
    """Entries per second of the book and of the peer, taking turns."""
    book, bare = open_book(folder / f"book{on_disk}", device="bench"), Bare(folder / f"b{on_disk}")
    if not on_disk:
        book._store._sqlite.execute(SYNC_OFF)
        bare.sqlite.execute(SYNC_OFF)
    job = book.add(Job(name="Alder Bench")).about
    text = book.add(catch(job, 0)).text
    ours, theirs = [], []
    for i in range(number):
        ours.append(seconds(lambda i=i: book.add(catch(job, i))))
        theirs.append(seconds(lambda i=i: bare.add(str(i), text)))
    book.close()
    return 1 / median(ours), 1 / median(theirs)


def many(first: Entry, job_ids: list[str], number: int) -> list[Entry]:
    """Catches, twenty for each job."""
    found = []
    for n in range(number):
        id = f"{first.id[:-12]}{n:012x}"
        text = first.text.replace(first.id, id).replace(job_ids[0], job_ids[n // CATCHES_PER_JOB])
        found.append(read(text.encode()))
    return found


def grown(size: int) -> tuple[Book, str]:
    """A book with so many catches, and the job in its middle."""
    source = open_book(":memory:", device="bench")
    jobs = [source.add(Job(name=f"job {n}")) for n in range(size // CATCHES_PER_JOB)]
    ids = [job.about for job in jobs]
    book = open_book(":memory:", device="bench")
    book.merge([*jobs, *many(source.add(catch(ids[0], 14)), ids, size)])
    return book, ids[len(ids) // 2]


def listing(book: Book, job: str) -> tuple[float, float, float]:
    """Median seconds of a job's catches, of the newest five jobs, of one entry more."""
    works = (
        lambda: book.things("catch", of=job),
        lambda: book.things("job", limit=5),
        lambda: book.add(catch(job, 15)),
    )
    catches, jobs, more = (median(seconds(work) for _ in range(50)) for work in works)
    return catches, jobs, more


def main(number: int = 1000) -> None:
    """Print two tables."""
    with tempfile.TemporaryDirectory() as folder:
        print(f"{number} entries one by one, each committed; medians\n")
        print("| | book, entries/s | bare sqlite3, rows/s | book ÷ bare |")
        print("|---|---|---|---|")
        for on_disk in (True, False):
            ours, theirs = writing(Path(folder), number=number, on_disk=on_disk)
            name = "synchronous FULL" if on_disk else "no synchronising (arithmetic alone)"
            print(f"| {name} | {ours:,.0f} | {theirs:,.0f} | {ours / theirs:.2f} |")
    print(f"\nGrowth, in memory: times against a book of {SIZES[0]} catches\n")
    print("| catches | a job's 20 catches | newest 5 jobs | one entry more |")
    print("|---|---|---|---|")
    first: tuple[float, ...] = ()
    for size in SIZES:
        times = listing(*grown(size))
        first = first or times
        cells = (f"{now / then:.2f}" for now, then in zip(times, first, strict=True))
        print(f"| {size:,} | " + " | ".join(cells) + " |", flush=True)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
