"""All tables there are, and everything in a book as JSON."""

from collections.abc import Iterator, Sequence
from typing import Any

import msgspec

from evenstand import __version__
from evenstand.book.book import Book
from evenstand.book.kinds.bodies import Newer
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Style, say

from .machine import CHARTS, DRILLS
from .model import Filled, Names, Table, Units, fill
from .seed import LOTS
from .work import BAGS, CATCHES, COUNTS, FIELDS, JOBS, LOADS, MIXES, SETTINGS

TABLES: dict[str, Table] = {
    table.name: table
    for table in (
        *(FIELDS, DRILLS, CHARTS, LOTS, MIXES, JOBS),
        *(CATCHES, BAGS, SETTINGS, LOADS, COUNTS),
    )
}
ALL = "all"
READ: tuple[str, ...] = ("fields", "drills", "charts", "lots")  # those that are also taken in


def table_named(name: str, among: Sequence[str] = tuple(TABLES)) -> Table:
    """Return a table by its name.

    Raises
    ------
    MeasurementError
        For a table that there is not.
    """
    if name not in among:
        raise MeasurementError("table", name, say("choose one of {names}", names=", ".join(among)))
    return TABLES[name]


def filled(book: Book, name: str, *, units: Units = "us", style: Style | None = None) -> Filled:
    """Fill in a table from a book; what a newer Evenstand wrote is left out.

    Parameters
    ----------
    units : "si", "us" or "metric"
    style : Style, optional
        Of its reader, for the headings.
    """
    table = table_named(name)
    return fill(table, list(table.lines(book)), style or Style(), units=units)


def filled_all(book: Book, *, units: Units = "us", style: Style | None = None) -> Iterator[Filled]:
    """Fill in all tables."""
    names = Names(book)
    for table in TABLES.values():
        yield fill(table, list(table.lines(book, names)), style or Style(), units=units)


def everything(book: Book) -> dict[str, Any]:
    """Return all things that stand, each as it is kept: SI, and amounts as typed.

    Programs read it; another Evenstand takes in the exported book.
    """
    return {
        "evenstand": "things",
        "release": __version__,
        "things": {
            kind: [
                {
                    "id": thing.id,
                    "made": str(thing.born),
                    "by": thing.entry.by,
                    "body": _plain(thing.body),
                }
                for thing in reversed(book.things(kind))
            ]
            for kind in book.counts()
        },
    }


def _plain(body: Any) -> Any:
    return msgspec.json.decode(body.text) if isinstance(body, Newer) else msgspec.to_builtins(body)
