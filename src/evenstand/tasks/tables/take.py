"""Taking in a table: what was understood, what is refused and where, and then all or nothing."""

import hashlib
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from evenstand.book.book import Book
from evenstand.book.kinds.identity import uuid7
from evenstand.book.kinds.shape import Body
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, Style, say
from evenstand.engine.seed.tag import Month

from .cells import CellError, Refusal, plain, texts_of
from .forms import FORMS, Reader, Row, Texts
from .grid import Grid, letter
from .match import Choices, Matched, headings, match
from .model import Names, Table, fill
from .same import SeenRows
from .update import ID, JOINED, FieldUpdate, Here, Named, Update

# What tells two things of a table apart for people.
NAMES: Mapping[str, tuple[str, ...]] = {"drills": ("name",), "lots": ("species", "name")}
HASHED = 10  # bytes of the hash that make an id


@dataclass(frozen=True, slots=True)
class Preview:
    """What a file would bring.

    ``head`` is the number of the row of headings, ``rows`` how many follow
    it. ``new`` are bodies by the id they get, ``changed`` newer states by the
    id that a row names, ``changes`` what is new in them; ``known`` are lines
    that are in the book already, ``twice`` those that stand in the file before;
    ``twins`` are names of what is new and already called so in the book.
    """

    table: Table
    head: int
    matched: tuple[Matched, ...]
    rows: int
    new: Mapping[str, Body]
    changed: Mapping[str, Body]
    changes: tuple[FieldUpdate, ...]
    known: int
    twice: int
    twins: tuple[str, ...]
    refused: tuple[Refusal, ...]

    @property
    def say(self) -> Phrase:
        """What would be taken in, in a sentence."""
        if self.refused:
            return say("Nothing is imported while any row has an error.")
        return say(
            "{new} new, {changed} changed, {known} already in the book, {twice} repeated in the "
            "file.",
            new=len(self.new),
            changed=len(self.changed),
            known=self.known,
            twice=self.twice,
        )


def preview(
    grid: Grid,
    table: Table,
    book: Book,
    *,
    today: Month,
    style: Style | None = None,
    choices: Choices | None = None,
) -> Preview:
    """See what a file would bring, without writing anything.

    Parameters
    ----------
    table : Table
        One of `tables_all.READ`.
    today : Month
        No test of seed can be younger.
    style : Style, optional
        Of the reader: the language headings may be in, units of what is worked out.
    choices : Choices, optional
        Where headings do not tell what a column says.
    """
    hand = style or Style()
    matched = tuple(match(grid, table, hand, choices=choices))
    reader = Reader(book, today=today, units=hand.system, decimal=grid.decimal)
    found = _Taking(grid, table, matched, headings(grid, table, hand))
    names, form = Names(book), FORMS[table.name]
    found.read(
        reader,
        Here(
            book,
            table,
            names,
            texts=lambda thing: _as_rows(table, thing, names),
            read=lambda rows: form.read(reader, rows),
        ),
    )
    seen = SeenRows(book, table)
    new: dict[str, Body] = {}
    known = twice = 0
    for body in found.bodies:
        id, state = seen.look(body, made_id)
        known += state == "known"
        twice += state == "twice"
        if state == "new":
            new[id] = body
    return Preview(
        table=table,
        head=grid.numbers[found.head] if grid.numbers else 0,
        matched=matched,
        rows=len(found.body_rows),
        new=new,
        changed={each.id: each.body for each in found.updates if each.changes},
        changes=tuple(change for each in found.updates for change in each.changes),
        known=known + sum(not each.changes for each in found.updates),
        twice=twice,
        twins=tuple(_twins(book, table, new.values())),
        refused=tuple(sorted(found.refused, key=lambda each: (each.row, each.column))),
    )


def _twins(book: Book, table: Table, new: Iterable[Body]) -> Iterator[str]:
    """Yield the names of what is new, where something else here has them already."""
    here = {_named(table, thing.body) for thing in book.things(table.kind)}
    for body in new:
        names = _named(table, body)
        if all(names) and names in here:
            yield str(getattr(body, "name", ""))


def _named(table: Table, body: object) -> tuple[str, ...]:
    keys = NAMES.get(table.name, ("",))
    return tuple(str(getattr(body, key, "")).strip().casefold() for key in keys)


def _as_rows(table: Table, thing: Thing, names: Names) -> list[Row]:
    """Return the rows of a table that a thing is, as texts for a form."""
    written = fill(table, list(table.of(thing, names)), Style(), units="us")
    rows = (written.headings, *written.rows)
    grid = Grid(rows=rows, numbers=tuple(range(1, len(rows) + 1)))
    return _Taking(grid, table, tuple(match(grid, table, Style())), 0).texts()


def take(book: Book, found: Preview, *, by: str | None = None) -> None:
    """Keep all that is new, or nothing.

    Raises
    ------
    MeasurementError
        Where something was refused: the first of it.
    """
    if found.refused:
        first = found.refused[0]
        raise MeasurementError(where(first), first.given, first.need)
    book.keep_all(found.new, found.changed, by=by)


def where(refused: Refusal) -> str:
    """Name the place of a refusal."""
    return f"row {refused.row}, column {refused.column}" if refused.column else f"row {refused.row}"


def made_id(table: str, content: str) -> str:
    """Make the id of a thing from what it says: the same from the same file, on any device."""
    return uuid7(0, hashlib.sha256(f"{table}\n{content}".encode()).digest()[:HASHED])


class _Taking:
    """Reads the rows below the headings and gathers what is refused."""

    def __init__(self, grid: Grid, table: Table, matched: tuple[Matched, ...], head: int) -> None:  # noqa: PLR0917
        self.grid, self.table, self.matched, self.head = grid, table, matched, head
        self.body_rows = range(head + 1, len(grid.rows))
        self.bodies: list[Body] = []
        self.updates: list[Update] = []
        self.refused: list[Refusal] = []

    def read(self, reader: Reader, here: Here) -> None:
        """Read all rows; those that name a thing of the book by its id update it."""
        self.refused += [*self._faults(), *self._twice(), *self._missing(), *self._strange()]
        if self.refused:
            return
        written = {(m.column.key, m.limits) for m in self.matched if m.column}
        for rows in FORMS[self.table.name].gather(self.texts()):
            self._read_one(rows, reader, here.named(rows, written))

    def texts(self) -> list[Row]:
        """Return what stands in the rows that are not empty, as texts for a form."""
        read = ((self.grid.numbers[i], self._texts(i)) for i in self.body_rows)
        return [row for row in read if row[1]]

    def _read_one(self, rows: Sequence[Row], reader: Reader, named: Named | None) -> None:
        form = FORMS[self.table.name]
        try:
            body = form.read(reader, named.rows if named else rows)
        except MeasurementError as error:
            for each in getattr(error, "each", (error,)):
                row, key = form.place(each.path, rows[0])
                self.refused.append(self._refusal(row, key, each))
            return
        if body is not None and named:
            self.updates.append(named.updated(body))
        elif body is not None:
            self.bodies.append(body)

    def _refusal(self, row: int, key: str, error: MeasurementError) -> Refusal:
        column = next((m for m in self.matched if m.column and m.column.key == key), None)
        named = column.named if column else _label(self.table, key)
        given = error.given
        if isinstance(given, float):
            given = plain(given, self.grid.decimal)
        return Refusal(row, named, "" if given is None else str(given)[:200], error.need)

    def _texts(self, i: int) -> Texts:
        number, texts, limits = self.grid.numbers[i], {}, {}
        for matched, text in texts_of(self.grid.rows[i], self.matched, decimal=self.grid.decimal):
            if matched.column is None:
                continue
            if isinstance(text, CellError):
                given = str(self.grid.rows[i][matched.index])[:200]
                self.refused.append(Refusal(number, matched.named, given, text.need))
            elif matched.limits:
                limits[matched.column.key] = text
            else:
                texts[matched.column.key] = text
        for key, text in limits.items():
            texts[key] = f"{texts.get(key, '')}{JOINED}{text}"
        return texts

    def _faults(self) -> Iterator[Refusal]:
        """Yield cells that cannot be read, and cells joined into one."""
        used = {m.index: m for m in self.matched if m.column}
        first = self.grid.numbers[self.head] if self.grid.numbers else 1
        for (row, index), need in sorted(self.grid.faults.items()):
            if row >= first and index in used:
                yield Refusal(row, used[index].named, "", need)
        for top, bottom, index, name in self.grid.merged:
            if bottom >= first:
                need = say("unmerge the cells {cells} and fill in each one", cells=name)
                yield Refusal(top, letter(index), name, need)

    def _twice(self) -> Iterator[Refusal]:
        """Yield columns that say what another one says."""
        seen: dict[tuple[str, bool], Matched] = {}
        for matched in self.matched:
            if matched.column is None or not matched.column.read:
                continue
            key = (matched.column.key, matched.limits)
            if key in seen:
                need = say(
                    "leave this column out: column {other} already has it", other=seen[key].named
                )
                yield Refusal(self._head_number(), matched.named, matched.heading, need)
            seen.setdefault(key, matched)

    def _strange(self) -> Iterator[Refusal]:
        """Yield columns whose unit does not fit."""
        for matched in self.matched:
            kind = matched.column.measure if matched.column else None
            if matched.strange and kind:
                need = say(
                    "enter a unit that fits, such as {us} or {metric}, in parentheses",
                    us=kind.us.symbol,
                    metric=kind.metric.symbol,
                )
                yield Refusal(self._head_number(), matched.named, matched.strange, need)

    def _missing(self) -> Iterator[Refusal]:
        """Yield columns that must be there; rows with an id have them from what they name."""
        there = {matched.column.key for matched in self.matched if matched.column}
        for column in () if ID in there else self.table.columns:
            if column.needed and column.key not in there:
                need = say(
                    "no column has “{name}”: choose the one that does, or add it", name=column.label
                )
                yield Refusal(self._head_number(), str(column.label), "", need)

    def _head_number(self) -> int:
        return self.grid.numbers[self.head] if self.grid.numbers else 1


def _label(table: Table, key: str) -> str:
    labels: Iterable[str] = (str(c.label) for c in table.columns if c.key == key)
    return next(iter(labels), "")
