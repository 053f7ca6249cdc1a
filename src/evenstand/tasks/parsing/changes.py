"""What the entries about a thing changed, in words: field by field, from what to what."""

from collections.abc import Iterator
from functools import partial

from msgspec import Struct

from evenstand.book.log.entries import Entry
from evenstand.book.log.merging import WHOLE, changes_of, put
from evenstand.book.log.said import said
from evenstand.engine.quantities.phrases import Phrase, Value

from .told import Names, label, value


class Changed(Struct, frozen=True):
    """A field of an entry: what it is called, what it was, what it became."""

    field: Phrase
    before: Value
    after: Value


def changed_by(entries: list[Entry], *, names: Names) -> dict[str, tuple[Changed, ...]]:
    """Return what each entry about a thing changed, by its id; a new thing and a removal nothing.

    Parameters
    ----------
    entries : list of Entry
        All about the thing.
    names : callable
        Returns the name of a thing by its id.
    """
    found: dict[str, tuple[Changed, ...]] = {}
    state = None
    kind = next((each.kind for each in entries if each.kind != "removal"), "")
    for entry, fields in changes_of(said(each.text for each in entries)):
        if entry.removal:
            continue
        after = entry.body if state is None else put(state, entry.body, fields)
        if state is not None:
            found[entry.id] = tuple(_changed(kind, fields, before=state, after=after, names=names))
        state = after
    return found


def _changed(
    kind: str, fields: tuple[str, ...], *, before: object, after: object, names: Names
) -> Iterator[Changed]:
    for field in fields:
        tell = partial(value, kind, field, names=names)
        if field != WHOLE and tell(before) != tell(after):
            yield Changed(label(kind, field), tell(before), tell(after))
