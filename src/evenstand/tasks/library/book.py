"""A book for programs: tables, things and results as plain records."""

import platform
from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from pathlib import Path
from typing import Any, Self, overload

import msgspec

from evenstand.book import opening
from evenstand.book.book import Book
from evenstand.book.kinds.work import Job as JobBody
from evenstand.book.place import default_path, device_name
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style, System, say
from evenstand.engine.seed.tag import Month
from evenstand.report.json import as_json

from ..calibration.setting import where_next
from ..job.kept import find
from ..mix.kept import job_mix
from ..mix.mix import read_mix
from ..record.frozen import standing
from ..tables.everything import TABLES, filled
from ..tables.model import Filled, Units, Value, records
from ..whole_job.calibration import set_job

Record = dict[str, Any]


class Records(Sequence[dict[str, Value]]):
    """A table of a book: records in the order they were written down.

    Attributes
    ----------
    names : tuple of str
        Of the columns.
    units : mapping of str to str
        The unit of each column that has one; 1 for a share.
    """

    def __init__(self, filled: Filled) -> None:
        self.name, self.names = filled.table.name, filled.keys
        self.units: Mapping[str, str] = dict(filled.units)
        self._records = records(filled)

    def __len__(self) -> int:
        return len(self._records)

    @overload
    def __getitem__(self, index: int) -> dict[str, Value]: ...
    @overload
    def __getitem__(self, index: slice) -> list[dict[str, Value]]: ...
    def __getitem__(self, index: int | slice) -> dict[str, Value] | list[dict[str, Value]]:
        return self._records[index]

    def __iter__(self) -> Iterator[dict[str, Value]]:
        return iter(self._records)

    def __repr__(self) -> str:
        return f"<Table {self.name}: {len(self)} rows, {len(self.names)} columns>"

    def columns(self) -> dict[str, list[Value]]:
        """Return the values of each column, as a data frame takes them."""
        return {name: [record[name] for record in self._records] for name in self.names}


class WholeJob:
    """A job of a book, and what comes out of it."""

    def __init__(self, book: Book, thing: Thing, style: Style) -> None:
        self._book, self._style = book, style
        self.id = thing.id
        self.record = _record(thing)

    @property
    def name(self) -> str:
        """Its name."""
        return str(self.record["name"])

    def __repr__(self) -> str:
        return f"<Job {self.name}>"

    def setting(self, *, box: str | None = None) -> Record:
        """Return where the lever goes next, as ``evenstand calibrate --json`` writes it.

        Of a finished job, as it was when its record was frozen.

        Raises
        ------
        MeasurementError
            Naming what the job lacks.
        """
        with standing(self._book, self.id, today=_this_month()) as (book, _):
            kept = find(book, self.id, box=box)
            return as_json(where_next(set_job(book, kept)), self._style)

    def mix(self) -> Record:
        """Return its mix on every basis, as ``evenstand mix --json`` writes it.

        Of a finished job, as it was when its record was frozen.

        Raises
        ------
        MeasurementError
            Naming what the job lacks.
        """
        with standing(self._book, self.id, today=_this_month()) as (book, month):
            said = job_mix(book, find(book, self.id))
            return as_json(read_mix(said, today=month), self._style)


class Library:
    """A book open for a program. It reads; what is written goes through pages or commands."""

    def __init__(self, book: Book) -> None:
        self._book = book

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *raised: object) -> None:
        self.close()

    def close(self) -> None:
        """Let go of the file."""
        self._book.close()

    @property
    def tables(self) -> tuple[str, ...]:
        """Names of the tables."""
        return tuple(TABLES)

    def table(self, name: str, *, units: Units = "si") -> Records:
        """Return a table of what is kept.

        Parameters
        ----------
        name : str
            One of `tables`.
        units : "si", "us" or "metric"

        Raises
        ------
        MeasurementError
            For a table that there is not.
        """
        return Records(filled(self._book, name, units=units))

    def things(self, kind: str) -> list[Record]:
        """Return the things of a kind that stand, the oldest first, as they are kept.

        An amount is ``value`` in SI, ``give_or_take`` where limits were given,
        and ``text`` as it was typed.
        """
        return [_record(thing) for thing in reversed(self._book.things(kind))]

    def job(self, name: str, *, units: System = "us") -> WholeJob:
        """Return a job by its name or id.

        Parameters
        ----------
        units : "us" or "metric"
            Of its results.

        Raises
        ------
        MeasurementError
            For a name that no job has, or several.
        """
        named = [
            thing
            for thing in self._book.things("job")
            if isinstance(thing.body, JobBody)
            and (thing.id == name or thing.body.name.casefold() == name.casefold())
        ]
        if not named:
            raise MeasurementError("job", name, say("enter the name of a job in this book"))
        if len(named) > 1:
            raise MeasurementError("job", name, say("several jobs have this name: use its ID"))
        return WholeJob(self._book, named[0], Style(system=units))


def open_book(path: str | Path | None = None) -> Library:
    """Open a book to read in it; without a path that of this person.

    Raises
    ------
    MeasurementError
        For a file that is not there, or is no book.

    Examples
    --------
    >>> import evenstand
    >>> evenstand.open_book("nowhere")
    Traceback (most recent call last):
        ...
    evenstand.book.errors.BookError: book is 'nowhere': enter the path to a book: no such file
    """
    where = default_path() if path is None else path
    return Library(opening.open_book(where, device=device_name(platform.node()), create=False))


def _this_month() -> Month:
    now = date.today()
    return Month(now.year, now.month)


def _record(thing: Thing) -> Record:
    body = msgspec.to_builtins(thing.body)
    return {"id": thing.id, "made": str(thing.born), "by": thing.entry.by, **body}
