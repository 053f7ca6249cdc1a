"""The history of a thing: who said what of it, and what it changed."""

import re
from collections.abc import Iterator, Sequence
from contextlib import suppress
from datetime import UTC, datetime
from typing import Any

from msgspec import Struct
from msgspec.structs import fields

from evenstand.book.book import Book
from evenstand.book.errors import BookError
from evenstand.book.kinds.bodies import Newer, Removal
from evenstand.book.kinds.identity import ID
from evenstand.book.kinds.shape import Typed
from evenstand.book.log.entries import Entry
from evenstand.engine.quantities.phrases import Style, say

NAMED = ("drill", "field", "lot", "mix", "job")


def find(book: Book, text: str) -> str:
    """Return the id of a thing given by it, or by a name.

    Raises
    ------
    BookError
        For a name that nothing has, or several things.
    """
    if re.fullmatch(ID, text):
        return text
    named = [
        thing
        for kind in NAMED
        for thing in book.things(kind)
        if getattr(thing.body, "name", "").casefold() == text.casefold()
    ]
    if not named:
        need = say("enter the name of a drill, field, lot, mix or job, or any ID")
        raise BookError("THING", text, need)
    if len(named) > 1:
        ids = ", ".join(f"{thing.kind} {thing.id}" for thing in named)
        raise BookError("THING", text, say("choose one of these by its ID: {ids}", ids=ids))
    return named[0].id


def history_lines(entries: Sequence[Entry], style: Style) -> Iterator[str]:
    """Write each entry with what it changed."""
    before: dict[str, Any] = {}
    for number, entry in enumerate(entries):
        time = style.moment(datetime.fromtimestamp(entry.made.ms / 1000, tz=UTC))
        yield f"{time} UTC, {entry.by or 'somebody'} on {entry.made.device}: {_what(entry, number)}"
        if entry.why:
            yield f"  why: {entry.why}"
        if entry.newer:
            yield "  made by a newer Evenstand: not all of it can be shown here"
        if isinstance(entry.body, Removal):
            continue
        after = _fields(entry.body)
        for name in [*after, *(name for name in before if name not in after)]:
            if before.get(name) != after.get(name):
                was = f"{before[name]} → " if name in before else ""
                yield f"  {name}: {was}{after.get(name, 'nothing')}"
        before = after


def with_names(line: str, book: Book) -> str:
    """Write the names of things in place of their ids."""
    return re.sub(ID, lambda id: _name(book, id[0]), line)


def _name(book: Book, id: str) -> str:
    with suppress(BookError):
        return str(getattr(book.get(id).body, "name", "") or id)
    return id


def _what(entry: Entry, number: int) -> str:
    if isinstance(entry.body, Removal):
        return "removed"
    return f"{entry.kind} changed" if number else f"{entry.kind} made"


def _fields(body: Any) -> dict[str, str]:
    """Write what a body says beyond its defaults."""
    if isinstance(body, Newer):
        return {"text": body.text}
    return {
        field.name.replace("_", " "): _shown(getattr(body, field.name))
        for field in fields(body)
        if getattr(body, field.name) != field.default
    }


def _shown(value: Any) -> str:
    match value:
        case Typed():
            return value.text or f"{value.value:g}"
        case Struct():
            said = _fields(value).items()
            return " ".join(text if name == "name" else f"{name} {text}" for name, text in said)
        case tuple():
            return "; ".join(_shown(each) for each in value)
        case bytes():
            return f"{len(value):,} bytes"
        case bool():
            return "yes" if value else "no"
        case float():
            return f"{value:g}"
        case _:
            return str(value)
