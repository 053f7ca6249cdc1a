"""Reading XLSX that anybody may have made: as far as it is safe, and no further."""

import io
import re
import warnings
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Any
from zipfile import BadZipFile, ZipFile

from openpyxl import Workbook, load_workbook
from openpyxl.cell.read_only import EMPTY_CELL
from openpyxl.utils import range_boundaries

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say

MOST_UNPACKED = 50 * 1024 * 1024  # bytes
MOST_PACKING = 200  # unpacked ÷ packed; sheets of numbers pack to about a tenth
FIRST_LOOKED = 1024 * 1024  # bytes: smaller parts may pack as tight as they like
_MERGED = re.compile(rb'<(?:\w+:)?mergeCell\b[^>]*?\bref="([A-Z0-9:$]{2,40})"')
_ENTITY = re.compile(rb"<!(?:DOCTYPE|ENTITY)", re.IGNORECASE)
_ENCODING = re.compile(rb"""\s*(?:\xef\xbb\xbf)?<\?xml[^>]*?encoding=["']([\w-]+)""")
_READABLE = (b"utf-8", b"utf8", b"us-ascii", b"ascii")
_CELLS = re.compile(rb"<(?:\w+:)?(?:c|xf)[\s/>]")  # cells of a sheet, styles of a workbook
MOST_CELLS = 250_000
_CONTROL = re.compile("_x00([01][0-9A-Fa-f])_")

Cell = str | int | float | bool | date | datetime | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """How much is read: rows with something in them, rows at all, columns, characters of a cell."""

    rows: int
    seen: int
    columns: int
    cell: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetRead:
    """One sheet: its rows with their numbers, and what is wrong with cells.

    ``sheets`` are the names of those that can be seen, ``hidden`` of the rest.
    """

    name: str
    sheets: tuple[str, ...]
    hidden: tuple[str, ...]
    numbers: tuple[int, ...]
    rows: tuple[tuple[Cell, ...], ...]
    faults: dict[tuple[int, int], Phrase]
    merged: tuple[tuple[int, int, int, str], ...]


def read_xlsx(data: bytes, *, sheet: str, limits: Limits) -> SheetRead:
    """Read one sheet of a workbook, the first one that can be seen where none is named.

    Raises
    ------
    MeasurementError
        Under ``file`` for what is no workbook, is damaged or too large;
        under ``sheet`` for one that is not there.
    """
    try:
        _check(data)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of styles and extensions that are not read
            return _read(data, sheet, limits)
    except MeasurementError:
        raise
    except Exception as refused:  # whatever openpyxl stumbles over in a foreign file
        need = say("save it as XLSX again: it is damaged or not a workbook")
        raise MeasurementError("file", type(refused).__name__, need) from None


def _check(data: bytes) -> None:
    """Refuse a file that unpacks to far more than it is, or defines its own signs."""
    try:
        with ZipFile(io.BytesIO(data)) as packed:
            parts = packed.infolist()
            whole = sum(part.file_size for part in parts)
            tight = any(
                part.file_size > max(FIRST_LOOKED, MOST_PACKING * part.compress_size)
                for part in parts
            )
            if whole > MOST_UNPACKED or tight:
                need = say(
                    "choose a file that unzips to {n} MB at most, and is not "
                    "packed unusually tight",
                    n=MOST_UNPACKED >> 20,
                )
                raise MeasurementError("file", whole, need)
            for part in parts:
                if _is_xml(part.filename):
                    _check_text(packed.read(part))
    except BadZipFile:
        need = say("save it as XLSX again: it is damaged or not a workbook")
        raise MeasurementError("file", "zip", need) from None


def _check_text(text: bytes) -> None:
    """Refuse a part that defines its own signs, hidden in another encoding too, or too much."""
    declared = _ENCODING.match(text)
    if b"\0" in text or (declared and declared[1].lower() not in _READABLE):
        need = say("save it as XLSX again: it is not written in UTF-8")
        raise MeasurementError("file", "UTF-16", need)
    if _ENTITY.search(text):
        need = say("save it as XLSX again: it defines character codes of its own")
        raise MeasurementError("file", "DOCTYPE", need)
    if len(_CELLS.findall(text)) > MOST_CELLS:
        need = say("delete empty, formatted cells: at most {n} are read", n=MOST_CELLS)
        raise MeasurementError("file", None, need)


def _is_xml(name: str) -> bool:
    return name.endswith((".xml", ".rels"))


def _read(data: bytes, sheet: str, limits: Limits) -> SheetRead:
    values = load_workbook(io.BytesIO(data), read_only=True, data_only=True, keep_links=False)
    written = load_workbook(io.BytesIO(data), read_only=True, keep_links=False)
    try:
        shown, hidden = _sheets(values)
        name = _chosen(sheet, shown)
        faults: dict[tuple[int, int], Phrase] = {}
        rows = list(_rows((values[name], written[name]), limits, faults))
        merged = tuple(_merged(data, values[name]._worksheet_path, limits))
    finally:
        values.close()
        written.close()
    return SheetRead(
        name=name,
        sheets=shown,
        hidden=hidden,
        numbers=tuple(number for number, _ in rows),
        rows=tuple(row for _, row in rows),
        faults=faults,
        merged=merged,
    )


def _sheets(book: Workbook) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the names of the sheets that can be seen, and of the rest."""
    sheets = [each for each in book.worksheets if hasattr(each, "_worksheet_path")]
    shown = tuple(each.title for each in sheets if each.sheet_state == "visible")
    return shown, tuple(each.title for each in sheets if each.title not in shown)


def _chosen(sheet: str, shown: tuple[str, ...]) -> str:
    if sheet and sheet not in shown:
        raise MeasurementError(
            "sheet", sheet, say("choose one of {names}", names=", ".join(shown) or "—")
        )
    if not shown:
        raise MeasurementError("file", None, say("unhide the sheet: all are hidden"))
    return sheet or shown[0]


def _rows(
    sheets: tuple[Any, Any], limits: Limits, faults: dict[tuple[int, int], Phrase]
) -> Iterator[tuple[int, tuple[Cell, ...]]]:
    """Yield rows with something in them, and gather what is wrong with cells."""
    for each in sheets:
        each.reset_dimensions()
    kept = 0
    # A row's width is its own: what a file says of its size may be a million.
    pairs = zip(*(each.iter_rows(max_col=limits.columns + 1) for each in sheets), strict=False)
    for number, (values, written) in enumerate(pairs, 1):
        if number > limits.seen:
            need = say("delete the empty rows: a sheet is read up to {n} rows", n=limits.seen)
            raise MeasurementError("file", number, need)
        width = max(_width(values), _width(written))
        row = _row(number, values[:width], written[:width], faults=faults)
        if not row and not any((number, i) in faults for i in range(width)):
            continue
        kept += 1
        _check_size(row, kept, limits)
        yield number, row


def _width(cells: Sequence[Any]) -> int:
    """Return how many cells there are up to the last one that the file has."""
    width = len(cells)
    while width and cells[width - 1] is EMPTY_CELL:
        width -= 1
    return width


def _too_long(limits: Limits) -> Phrase:
    return say("delete the empty rows: a sheet is read up to {n} rows", n=limits.seen)


def _check_size(row: tuple[Cell, ...], kept: int, limits: Limits) -> None:
    if kept > limits.rows + 1:
        need = say(
            "use at most {n} filled rows at a time: split the file",
            n=limits.rows,
        )
        raise MeasurementError("file", kept, need)
    if len(row) > limits.columns:
        raise MeasurementError("file", len(row), say("use at most {n} columns", n=limits.columns))
    longest = max((len(cell) for cell in row if isinstance(cell, str)), default=0)
    if longest > limits.cell:
        raise MeasurementError(
            "file", longest, say("use no more than {n} characters", n=limits.cell)
        )


def _row(
    number: int,
    values: Sequence[Any],
    written: Sequence[Any],
    *,
    faults: dict[tuple[int, int], Phrase],
) -> tuple[Cell, ...]:
    row: list[Cell] = []
    for i, (cell, source) in enumerate(zip(values, written, strict=False)):
        if need := _fault(cell, source):
            faults[number, i] = need
        row.append(_value(cell))
    while row and row[-1] is None:
        row.pop()
    return tuple(row)


def _fault(cell: Any, source: Any) -> Phrase | None:
    if source.data_type == "f" and cell.value is None:
        return say("open the file in a spreadsheet and save it: this formula has no value yet")
    if cell.data_type == "e":
        return say("fix the formula: its result is {error}", error=str(cell.value))
    return None


def _value(cell: Any) -> Cell:
    value = cell.value
    if isinstance(value, str):
        text = _CONTROL.sub(lambda sign: chr(int(sign[1], 16)), value)
        return text if text.strip() else None
    if isinstance(value, bool | int | float) and not isinstance(value, bool):
        shown_percent = "%" in (cell.number_format or "")
        return f"{value * 100:.12g}%" if shown_percent else value
    if isinstance(value, bool | datetime | date):
        return value
    return value.isoformat() if isinstance(value, time) else None if value is None else str(value)


def _merged(data: bytes, path: str, limits: Limits) -> Iterator[tuple[int, int, int, str]]:
    """Yield ranges that are joined into one cell: first and last row, first column, name."""
    with ZipFile(io.BytesIO(data)) as packed:
        text = packed.read(path.lstrip("/"))
    for found in list(_MERGED.finditer(text))[: limits.rows]:
        name = found[1].decode()
        left, top, _, bottom = range_boundaries(name)
        yield top, bottom, left - 1, name
