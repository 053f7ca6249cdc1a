"""Whether a line of a file is in the book already."""

import json
from collections.abc import Callable, Iterator
from math import isclose
from typing import Any, Literal

from evenstand.book.book import Book
from evenstand.book.kinds.shape import Body, Typed

from .model import Table, TableLine

SAME = 1e-9  # between numbers: one may have been through other units
DIGITS = 9
NOT_SAID = ("id", "chart", "made")  # columns that say which thing it is, not what it says

Words = tuple[str, ...]
Numbers = tuple[float, ...]
State = Literal["new", "known", "twice"]


class SeenRows:
    """Remembers what is in the book and what came before in the file."""

    def __init__(self, book: Book, table: Table) -> None:
        self._book, self._table = book, table
        self._here: dict[Words, list[tuple[Numbers, State]]] = {}
        for thing in book.things(table.kind):
            if isinstance(thing.body, Body):
                self._remember(thing.body, "known")

    def look(self, body: Body, make_id: Callable[[str, str], str]) -> tuple[str, State]:
        """Return the id a body gets, and whether it is new."""
        words, numbers = said(self._table, body)
        content = json.dumps([words, [f"{each:.{DIGITS}g}" for each in numbers]])
        id = make_id(self._table.name, content)
        for other, state in self._here.get(words, ()):
            if _close(numbers, other):
                return id, state
        self._remember(body, "twice")
        return id, "known" if self._book.many.things([id]) else "new"

    def _remember(self, body: Body, state: State) -> None:
        words, numbers = said(self._table, body)
        self._here.setdefault(words, []).append((numbers, state))


def said(table: Table, body: Body) -> tuple[Words, Numbers]:
    """Return what a table has of a body: its words with a sign for each number, its numbers."""
    words: list[str] = []
    numbers: list[float] = []
    for value in _values(table, body):
        parts = (value.value, value.give_or_take) if isinstance(value, Typed) else (value,)
        for part in parts:
            counts = isinstance(part, int | float) and not isinstance(part, bool)
            words.append("#" if counts else "" if part is None else str(part))
            numbers += [float(part)] if counts else []
    return tuple(words), tuple(numbers)


def _values(table: Table, body: Body) -> Iterator[Any]:
    parts = table.parts(body) if table.parts else (None,)
    for i, part in enumerate(parts, 1):
        line = TableLine(None, body, _by_id, part, i)
        for column in table.columns:
            if column.key not in NOT_SAID:
                yield column.value(line)


def _by_id(id: str | None) -> str:
    return id or ""


def _close(a: Numbers, b: Numbers) -> bool:
    return len(a) == len(b) and all(isclose(x, y, rel_tol=SAME) for x, y in zip(a, b, strict=True))
