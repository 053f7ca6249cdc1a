"""What stands in a row of a file, as texts for the form that reads it."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from evenstand.engine.quantities.phrases import Decimal, Phrase, say

from ..parsing.given import lent
from .grid import MOST_CELL, Cell
from .match import Matched
from .model import Column

_YES = ("yes", "y", "true", "si", "sí", "x", "1", "✓")
_NO = ("no", "n", "false", "0", "-")
_EPOCH = date(1899, 12, 30)  # day 0 of spreadsheets, as they count from March 1900 on
_SERIALS = range(20_000, 80_000)  # 1954 to 2119
_SERIAL = re.compile(r"\d{5}(?:[.,]0*)?")


@dataclass(frozen=True, slots=True)
class Refusal:
    """What cannot be taken in: where it stands, what was given, what is wanted."""

    row: int
    column: str
    given: str
    need: Phrase


class CellError(ValueError):
    """A cell cannot be read."""

    def __init__(self, need: Phrase) -> None:
        super().__init__(str(need))
        self.need = need


def texts_of(
    row: Sequence[Cell], matched: Iterable[Matched], *, decimal: Decimal
) -> Iterator[tuple[Matched, str | CellError]]:
    """Yield what stands in the matched cells of a row, those that are empty left out."""
    for column in matched:
        cell = row[column.index] if column.index < len(row) else None
        if column.column is None or cell is None or not str(cell).strip():
            continue
        try:
            text = lent(_text(cell, column.column, decimal), column.unit)
        except CellError as refused:
            yield column, refused
            continue
        if text:
            yield column, text


def _text(cell: Cell, column: Column, decimal: Decimal) -> str:
    if column.sort == "yes":
        return _yes(cell)
    if column.sort == "month":
        return _month(cell)
    if isinstance(cell, datetime | date):
        return _of_date(cell, column)
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    text = cell.strip() if isinstance(cell, str) else plain(cell or 0, decimal)
    if len(text) > MOST_CELL and column.key != "field_outline":
        raise CellError(say("use no more than {n} characters", n=MOST_CELL))
    return text


def plain(number: float, decimal: Decimal) -> str:
    """Write a number as somebody with this decimal sign types it.

    Examples
    --------
    >>> plain(38.5, ","), plain(20.0, "."), plain(0.1 + 0.2, ".")
    ('38,5', '20', '0.3')
    """
    return f"{number:.15g}".replace(".", decimal)


def _yes(cell: Cell) -> str:
    word = "1" if cell is True else str(cell).strip().casefold().removesuffix(".0")
    if word in _YES:
        return "yes"
    if word in _NO or cell is False:
        return "no"
    raise CellError(say("answer yes or no"))


def _month(cell: Cell) -> str:
    if isinstance(cell, datetime | date):
        return f"{cell:%Y-%m}"
    if isinstance(cell, int | float) and int(cell) in _SERIALS:
        return f"{_EPOCH + timedelta(days=int(cell)):%Y-%m}"
    text = str(cell).strip()
    if _SERIAL.fullmatch(text):
        need = say(
            "enter it as a month, such as {example}: this looks like a spreadsheet date number",
            example="2026-03",
        )
        raise CellError(need)
    return text


def _of_date(cell: date, column: Column) -> str:
    if column.measure is not None or column.sort == "number":
        need = say("enter it as text: the spreadsheet turned it into a date")
        raise CellError(need)
    return cell.isoformat()[:10]
