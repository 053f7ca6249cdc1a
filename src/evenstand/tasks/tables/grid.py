"""What came out of a file: cells by row and column, and how much of it is read."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Decimal, Phrase, say

Cell = str | int | float | bool | date | datetime | None
MOST_FILE = 10 * 1024 * 1024  # bytes
MOST_ROWS, MOST_COLUMNS = 5_000, 200  # rows with something in them
MOST_SEEN = 100_000  # rows, empty ones too
MOST_CELL = 10_000  # characters; an outline may have more
MOST_OUTLINE = 200_000


class TableError(MeasurementError):
    """A file that cannot be read as a table."""

    def __init__(self, given: object, need: Phrase) -> None:
        super().__init__("file", given, need)


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """Cells of a sheet, row by row, as far as something stands in them.

    ``numbers`` are the rows' own numbers, from 1. ``faults`` tells what is
    wrong with a cell by its row's number and column; ``merged`` are ranges
    joined into one cell: first and last row, first column, name. ``notes``
    say how the file was read, ``sheets`` can be chosen.
    """

    rows: tuple[tuple[Cell, ...], ...]
    numbers: tuple[int, ...]
    decimal: Decimal = "."
    faults: Mapping[tuple[int, int], Phrase] = field(default_factory=dict)
    merged: tuple[tuple[int, int, int, str], ...] = ()
    notes: tuple[Phrase, ...] = ()
    sheets: tuple[str, ...] = ()
    sheet: str = ""


def letter(column: int) -> str:
    """Name a column as a spreadsheet does.

    Examples
    --------
    >>> letter(0), letter(25), letter(26), letter(199)
    ('A', 'Z', 'AA', 'GR')
    """
    name = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        name = chr(ord("A") + rest) + name
    return name


def too_many_rows(given: int) -> TableError:
    """Refuse a table that is too long."""
    need = say("use at most {n} filled rows at a time: split the file", n=MOST_ROWS)
    return TableError(given, need)


def too_many_columns(given: int) -> TableError:
    """Refuse a table that is too wide."""
    return TableError(given, say("use at most {n} columns", n=MOST_COLUMNS))


def too_long() -> TableError:
    """Refuse a sheet whose rows go on and on."""
    need = say("delete the empty rows: a sheet is read up to {n} rows", n=MOST_SEEN)
    return TableError(None, need)


def check_cell(text: str, row: int, column: int) -> None:
    """Refuse a cell that holds a book."""
    if len(text) > MOST_OUTLINE:
        need = say(
            "row {row}, column {column}: use at most {n} characters",
            row=row,
            column=letter(column),
            n=MOST_OUTLINE,
        )
        raise TableError(None, need)
