"""When a paper was made: by the newest entry told in it, so that the same entries give the same."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta

from evenstand.book.book import Book
from evenstand.book.kinds import seed
from evenstand.book.storage.thing import Thing

from ..job.kept import Kept, named

# What papers of a job are made of, beside what it names.
OF_JOB = (
    "split", "order", "catch", "setting", "record", "note", "count", "stand wish",
    "load", "level", "area", "moved", "check", "finished",
)  # fmt: skip
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


def newest(book: Book, kept: Kept) -> datetime:
    """Return when the newest entry was made of all that a job's papers are made of."""
    return max(_moment(thing) for thing in told_of(book, kept))


def told_of(book: Book, kept: Kept) -> Iterator[Thing]:
    """Yield the things that a job's papers tell of."""
    yield kept.thing
    for kind in OF_JOB:
        yield from book.things(kind, of=kept.thing.id)
    mix = named(book, kept.body.mix, seed.Mix)
    lots = [member.lot for member in mix.members] if mix else []
    ids = [kept.body.field, kept.body.drill, kept.body.mix, *lots]
    yield from book.many.things(ids).values()
    for lot in dict.fromkeys(lots):
        if lot:
            for kind in ("seed count", "germination test", "photo"):
                yield from book.things(kind, of=lot)
    if kept.drill_id:
        yield from book.things("chart", of=kept.drill_id)


def _moment(thing: Thing) -> datetime:
    return moment(thing.entry.made.ms)


def moment(ms: int) -> datetime:
    """Return a moment of a stamp, to the second, as a PDF tells it."""
    return _EPOCH + timedelta(seconds=ms // 1000)
