"""Rows that name a thing of the book by its id: what a file changes of it, and nothing else.

Columns that the file does not have stay as they are, and so does what no table has. A number that
went through other units is the same number.
"""

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass
from math import isclose

import msgspec

from evenstand.book.book import Book
from evenstand.book.kinds.shape import Body
from evenstand.book.log.merging import Json, Pointer, changes, look, put
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.phrases import Phrase, Value

from ..parsing.told import as_json, label, value
from .forms import Row, Texts
from .model import Names, Table
from .same import SAME

JOINED = " ± "
ID = "id"
Written = Collection[tuple[str, bool]]  # keys of the columns of a file, and whether they are limits


@dataclass(frozen=True, slots=True)
class FieldUpdate:
    """A field that a file changes, in words."""

    name: str
    field: Phrase
    before: Value
    after: Value


@dataclass(frozen=True, slots=True)
class Update:
    """A thing by its id, as a file would have it, and what that changes."""

    id: str
    body: Body
    changes: tuple[FieldUpdate, ...]


@dataclass(frozen=True, slots=True)
class Named:
    """A thing of the book that rows name: these rows made whole, and what stands now read alike."""

    thing: Thing
    rows: Sequence[Row]
    now: Body
    names: Names

    def updated(self, body: Body) -> Update:
        """Put what the rows say differently into the thing."""
        before, after = as_json(self.now), as_json(body)
        fields = [
            each
            for each in changes(before, after)
            if not _same(look(before, each), look(after, each))
        ]
        stands = as_json(self.thing.body)
        merged = put(stands, after, fields)
        return Update(
            self.thing.id,
            msgspec.convert(merged, type(body)),
            tuple(self._told(fields, stands, merged)),
        )

    def _told(self, fields: Sequence[Pointer], before: Json, after: Json) -> Iterator[FieldUpdate]:
        kind, name = self.thing.kind, self.names(self.thing.id)
        for field in fields:
            was, is_ = (value(kind, field, each, names=self.names) for each in (before, after))
            yield FieldUpdate(name, label(kind, field), was, is_)


@dataclass(frozen=True, slots=True)
class Here:
    """Finds the things of a book that rows name by their id.

    ``texts`` writes a thing as the rows of its table, ``read`` reads such rows.
    """

    book: Book
    table: Table
    names: Names
    texts: Callable[[Thing], Sequence[Row]]
    read: Callable[[Sequence[Row]], Body | None]

    def named(self, rows: Sequence[Row], written: Written) -> Named | None:
        """Return the thing that rows name, None where they name none that stands in the book."""
        _, first = rows[0]
        id = first.pop(ID, "") or first.get("chart", "")
        thing = self.book.many.things([id]).get(id) if id else None
        if thing is None or thing.removed or thing.kind != self.table.kind:
            return None
        own = self.texts(thing)
        whole = [(number, _whole(texts, own[0][1], written)) for number, texts in rows]
        for _, texts in own:
            texts.pop(ID, None)
        now = self.read(own)
        return Named(thing, whole, now, self.names) if now is not None else None


def _whole(texts: Texts, own: Texts, written: Written) -> Texts:
    """Add to the texts of a row those of the columns that its file does not have."""
    found = {key: text for key, text in own.items() if (key, False) not in written and key != ID}
    for key, text in texts.items():
        _, joined, limits = own.get(key, "").partition(JOINED)
        keep = joined and JOINED not in text and (key, True) not in written
        found[key] = f"{text}{joined}{limits}" if keep else text
    return found


def _same(was: Json, is_: Json) -> bool:
    """Whether two states are alike: an amount is what it is worth, in whatever words."""
    if isinstance(was, dict) and isinstance(is_, dict):
        keys = (was.keys() | is_.keys()) - ({"text"} if "value" in was else set())
        return all(_same(was.get(key, 0), is_.get(key, 0)) for key in keys)
    if isinstance(was, list) and isinstance(is_, list):
        return len(was) == len(is_) and all(map(_same, was, is_))
    if isinstance(was, int | float) and isinstance(is_, int | float):
        return isclose(was, is_, rel_tol=SAME)
    return bool(was == is_)
