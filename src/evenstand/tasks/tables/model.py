"""Tables of what is kept: a line for each thing or part of one, a column for each fact."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from typing import Any, Literal

from evenstand.book.book import Book
from evenstand.book.kinds.bodies import Newer
from evenstand.book.kinds.shape import Typed
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.phrases import Phrase, Style
from evenstand.engine.quantities.units import Kind, Unit

Value = str | int | float | bool | date | datetime | None
Sort = Literal["text", "number", "yes", "month", "time"]
Units = Literal["si", "us", "metric"]

DIGITS = 12  # significant ones of a number in a table: what was typed comes back
NAMED = ("drill", "field", "lot", "mix", "job")
_SI = {"mass": "kg", "length": "m", "area": "m²", "volume": "m³", "time": "s", "money": "$"}
_SI |= {"turns": "turn", "share": "1"}


@dataclass(frozen=True, slots=True)
class TableLine:
    """A line of a table: the thing, what it says, and which part of it the line is about.

    There is no ``thing`` yet where a file is looked at.
    """

    thing: Any
    body: Any
    names: Callable[[str | None], str]
    part: Any = None
    number: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column of a table.

    ``key`` is the field of the form that reads it, ``name`` its name for
    programs, ``also`` are other headings it is known by. An amount has a ``measure``;
    ``spare`` columns stand only where a line has something in them.
    """

    key: str
    label: Phrase
    value: Callable[[TableLine], Any]
    measure: Kind | None = None
    sort: Sort = "text"
    also: tuple[str, ...] = ()
    spare: bool = False
    needed: bool = False
    read: bool = True
    called: str = ""

    @property
    def name(self) -> str:
        """Its name for programs."""
        return self.called or self.key


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table: its name, the kind of thing it is about, its columns and lines."""

    name: str
    kind: str
    label: Phrase
    columns: tuple[Column, ...]
    parts: Callable[[Any], Sequence[Any]] | None = None

    def lines(self, book: Book, names: "Names | None" = None) -> Iterator[TableLine]:
        """Yield the lines of what stands in a book, the oldest first."""
        called = names or Names(book)
        for thing in reversed(book.things(self.kind)):
            if not isinstance(thing.body, Newer):
                yield from self.of(thing, called)

    def of(self, thing: Thing, names: "Names") -> Iterator[TableLine]:
        """Yield the lines of one thing."""
        if self.parts is None:
            yield TableLine(thing, thing.body, names)
            return
        for i, part in enumerate(self.parts(thing.body), 1):
            yield TableLine(thing, thing.body, names, part, i)


@dataclass(frozen=True, slots=True)
class Filled:
    """A table that is filled in.

    ``keys`` name the columns for programs, ``headings`` for people, with the
    unit; ``units`` has the unit of each column that has one.
    """

    table: Table
    keys: tuple[str, ...]
    headings: tuple[str, ...]
    rows: tuple[tuple[Value, ...], ...]
    units: Mapping[str, str] = field(default_factory=dict)


def records(filled: Filled) -> list[dict[str, Value]]:
    """Return a table as one record for each line."""
    return [dict(zip(filled.keys, row, strict=True)) for row in filled.rows]


def plain_records(filled: Filled) -> list[dict[str, Any]]:
    """Return a table as records that JSON holds: dates are text."""
    return [
        {k: v.isoformat() if isinstance(v, date) else v for k, v in record.items()}
        for record in records(filled)
    ]


class Names:
    """How things are called in a table: by name, by their id where two have the same."""

    def __init__(self, book: Book) -> None:
        self._book = book
        self._names: dict[str, str] = {}
        for kind in NAMED:
            pairs = book.many.names(kind) if kind != "lot" else _lots(book)
            taken = [name.casefold() for _, name in pairs]
            self._names |= {i: n if taken.count(n.casefold()) == 1 else i for i, n in pairs if n}

    def __call__(self, id: str | None) -> str:
        """Return the name of a thing, a removed one too; its id where it has none."""
        if id and id not in self._names:
            gone = self._book.many.things([id]).get(id)
            self._names[id] = (getattr(gone.body, "name", "") if gone else "") or id
        return self._names[id] if id else ""


def _lots(book: Book) -> list[tuple[str, str]]:
    things = book.things("lot")
    return [(t.id, getattr(t.body, "name", "") or getattr(t.body, "species", "")) for t in things]


def fill(table: Table, lines: Sequence[TableLine], style: Style, *, units: Units) -> Filled:
    """Fill in a table.

    Parameters
    ----------
    style : Style
        Of the reader, for the headings.
    units : "si", "us" or "metric"
    """
    columns = [_Numbers(column, units) for column in table.columns]
    written = [column.cells(lines) for column in columns]
    keys: list[str] = []
    headings: list[str] = []
    kept: list[list[Value]] = []
    symbols: dict[str, str] = {}
    for column, (cells, limits) in zip(columns, written, strict=True):
        if column.of.spare and all(cell is None for cell in cells):
            continue
        parts = [(column.of.name, "", cells)]
        parts += [(f"{column.of.name}_limits", " ±", limits)] if any(limits) else []
        for key, sign, some in parts:
            keys.append(key)
            headings.append(column.heading(style, sign))
            kept.append(some)
            symbols |= {key: column.symbol} if column.symbol else {}
    rows = tuple(zip(*kept, strict=True)) if lines else ()
    return Filled(table, tuple(keys), tuple(headings), rows, symbols)


@dataclass(frozen=True, slots=True)
class _Numbers:
    """A column with the unit its numbers are written in."""

    of: Column
    units: Units

    @property
    def unit(self) -> Unit:
        kind = self.of.measure
        if kind is None or self.units == "si":
            return Unit(si_unit(kind) if kind else "", 1.0)
        return kind.us if self.units == "us" else kind.metric

    @property
    def symbol(self) -> str:
        return self.unit.symbol

    def heading(self, style: Style, sign: str) -> str:
        label = style.write(self.of.label) + sign
        return f"{label} [{self.symbol}]" if self.symbol else label

    def cells(self, lines: Sequence[TableLine]) -> tuple[list[Value], list[Value]]:
        """Return the values of a column, and what is taken for their limits."""
        found = [self.of.value(line) for line in lines]
        return [self._cell(each) for each in found], [self._limit(each) for each in found]

    def _cell(self, value: Any) -> Value:
        if isinstance(value, Typed):
            return self._number(value.value)
        if self.of.measure and value is not None:
            return self._number(value)
        return None if value == "" else value

    def _limit(self, value: Any) -> Value:
        limited = isinstance(value, Typed) and value.give_or_take
        return self._number(value.give_or_take) if limited else None

    def _number(self, value: float) -> float:
        return float(f"{value / self.unit.size:.{DIGITS}g}")


def si_unit(kind: Kind) -> str:
    """Return how the SI unit of a kind is written, 1 for a share, empty for a bare number.

    Examples
    --------
    >>> from evenstand.engine.quantities.units import RATE, DENSITY
    >>> si_unit(RATE), si_unit(DENSITY)
    ('kg/m²', '1/m²')
    """
    above, _, below = kind.dimension.partition("/")
    if not below:
        return _SI.get(above, "")
    return f"{_SI.get(above, '1')}/{_SI.get(below, '1')}" if below in _SI else _SI.get(above, "1")


def yes(value: bool | None) -> str | None:
    """Write yes or no as a table has it."""
    return None if value is None else "yes" if value else "no"


def made(line: TableLine) -> datetime:
    """Return when a thing was first written down, UTC, to the second."""
    return datetime.fromtimestamp(line.thing.born.ms // 1000, UTC).replace(tzinfo=None)
