"""What comes from elsewhere, by a file or a phone: let in where a page could have written it.

Only what an entry says by itself is asked: what it names may be on its way still.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date
from time import time
from typing import cast

from msgspec import to_builtins

from evenstand.book.book import Book
from evenstand.book.errors import BookError
from evenstand.book.kinds import machine, seed, work
from evenstand.book.kinds.bodies import Content, Photo, Removal
from evenstand.book.log.entries import Entry
from evenstand.book.log.stamp import MOST_AHEAD
from evenstand.engine.parsing.parse import LEAST, MOST
from evenstand.engine.quantities.errors import MeasurementError, Path
from evenstand.engine.quantities.phrases import say
from evenstand.engine.seed.tag import Month

from ..drill.rules import check_drill
from ..seed.kept import read_kept
from ..seed.photo import check_pixels
from .checking import check_field


def admitted(book: Book, entries: Iterable[Entry]) -> Iterator[Entry]:
    """Yield entries, and stop at one that no page would have written; what is here already passes.

    Raises
    ------
    MeasurementError
        Naming the entry, what it says and what is wanted.
    """
    kinds: dict[str, str] = {}
    for entry in entries:
        if not book.has(entry):
            _check_kind(entry, kinds.get(entry.about) or _kind(book, entry.about))
            _check(entry)
        if entry.kind != Removal.kind:
            kinds.setdefault(entry.about, entry.kind)
        yield entry


def _check_kind(entry: Entry, there: str) -> None:
    """Refuse another kind of a thing; a removal may come before the thing itself."""
    if Removal.kind not in (entry.kind, there) and there not in ("", entry.kind):
        need = say("enter {kind}, just as it is", kind=there)
        raise MeasurementError(Path("entry", "kind"), entry.kind, need)


def _kind(book: Book, thing: str) -> str:
    try:
        return book.get(thing).kind
    except BookError:
        return ""


def _check(entry: Entry) -> None:
    if entry.made.ms > time() * 1000 + MOST_AHEAD:
        need = say("set the clocks right: this is more than a day ahead of this computer's")
        raise MeasurementError(Path("entry", "made"), str(entry.made), need)
    for number in _numbers(to_builtins(entry.body)):
        if number and not LEAST <= abs(number) <= MOST:
            raise MeasurementError("entry", number, say("enter a realistic amount"))
    if rule := _RULES.get(type(entry.body)):
        try:
            rule(entry)
        except MeasurementError as refused:
            raise refused.at(Path("entry", entry.kind, *refused.path)) from None


def _numbers(body: object) -> Iterator[float]:
    if isinstance(body, dict | list):
        for part in body.values() if isinstance(body, dict) else body:
            yield from _numbers(part)
    elif isinstance(body, float):
        yield body


def _lot(entry: Entry) -> None:
    """See that a lot is one; its tests are no younger than its entry."""
    day = date.fromtimestamp((entry.made.ms + MOST_AHEAD) / 1000)
    read_kept(cast(seed.Lot, entry.body), today=Month(day.year, day.month))


def _photo(entry: Entry) -> None:
    """See that a picture does not fill the memory; one that is cut off was kept once."""
    photo = cast(Photo, entry.body)
    check_pixels(photo.data, photo.media)


_RULES: Mapping[type[Content], Callable[[Entry], None]] = {
    machine.Drill: lambda entry: check_drill(cast(machine.Drill, entry.body)),
    seed.Lot: _lot,
    work.Field: lambda entry: check_field(cast(work.Field, entry.body)),
    Photo: _photo,
}
