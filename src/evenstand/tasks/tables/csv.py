"""Tables as text: CSV that a spreadsheet opens cleanly, and CSV as spreadsheets write it."""

import csv
import io
import re
from collections.abc import Iterator
from datetime import date, datetime
from typing import Literal

from evenstand.engine.quantities.phrases import Decimal, Phrase, say

from .grid import (
    MOST_COLUMNS,
    MOST_FILE,
    MOST_OUTLINE,
    MOST_ROWS,
    MOST_SEEN,
    Grid,
    TableError,
    check_cell,
    too_long,
    too_many_columns,
    too_many_rows,
)
from .model import Filled, Value

Encoding = Literal["", "utf-8", "windows-1252"]
BOM = "\ufeff"
SEPARATORS = (",", ";", "\t")
# What a spreadsheet would take for a formula; an apostrophe before it keeps it text.
_FORMULA = re.compile(r"'*[=+\-@\t\r\n＝＋－＠]")
_ESCAPED = re.compile(r"'+[=+\-@\t\r\n＝＋－＠]")
_COMMA, _POINT = re.compile(r"[+-]?\d+,\d+"), re.compile(r"[+-]?\d+\.\d+")
_NOT_IN_1252 = re.compile(rb"[\x81\x8d\x8f\x90\x9d]")


def write_csv(filled: Filled, *, decimal: Decimal = ".") -> bytes:
    """Write a table as CSV, UTF-8 with its mark at the front.

    With a decimal comma cells stand apart by semicolons, as spreadsheets
    there expect. Text that begins as a formula gets an apostrophe in front,
    which `read_csv` takes away again. NUL, which no spreadsheet holds, is left out.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, delimiter=";" if decimal == "," else ",", lineterminator="\r\n")
    writer.writerow([harmless(heading) for heading in filled.headings])
    for row in filled.rows:
        writer.writerow([_cell(value, decimal) for value in row])
    return (BOM + text.getvalue()).encode("utf-8", "replace")


def harmless(text: str) -> str:
    """Keep text from being a formula.

    Examples
    --------
    >>> harmless("=1+1"), harmless("'=1+1"), harmless("vetch")
    ("'=1+1", "''=1+1", 'vetch')
    """
    text = text.replace("\0", "")
    return f"'{text}" if _FORMULA.match(text) else text


def _cell(value: Value, decimal: Decimal) -> str:
    if value is None:
        return ""
    if isinstance(value, datetime):
        return value.isoformat(" ", "seconds")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, float):
        return f"{value:.12g}".replace(".", decimal)
    return harmless(value) if isinstance(value, str) else str(value)


def read_csv(
    data: bytes, *, encoding: Encoding = "", separator: str = "", decimal: str = ""
) -> Grid:
    """Read a table that is text.

    Parameters
    ----------
    encoding, separator, decimal : str
        Empty where the file is to tell.

    Raises
    ------
    TableError
        For what is no text, or more than is read.
    """
    if len(data) > MOST_FILE:
        raise TableError(len(data), say("choose a file of at most {n} MB", n=MOST_FILE >> 20))
    text, note = _decoded(data, encoding)
    if text.startswith("sep=") and (line := re.match(r"sep=(.)\r?\n", text)):
        separator, text = separator or line[1], text[line.end() :]
    apart = separator or _separator(text)
    kept = tuple(_rows(text, apart))
    numbers, rows = zip(*kept, strict=True) if kept else ((), ())
    return Grid(
        rows=rows,
        numbers=numbers,
        decimal="," if (decimal or _decimal(rows, apart)) == "," else ".",
        notes=note,
    )


def _decoded(data: bytes, encoding: Encoding) -> tuple[str, tuple[Phrase, ...]]:
    """Return the text of a file, and what was taken for granted to read it."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return _utf16(data), (say("It was read as UTF-16."),)
    if encoding != "windows-1252":
        try:
            return _text(data.decode("utf-8-sig")), ()
        except UnicodeDecodeError as refused:
            if encoding:
                raise _no_utf8(data, refused.start) from None
    if found := _NOT_IN_1252.search(data):
        raise _no_utf8(data, found.start())
    read = say("It isn't UTF-8, so it was read as Windows-1252: check that names look right.")
    return _text(data.decode("cp1252")), () if encoding else (read,)


def _utf16(data: bytes) -> str:
    try:
        return _text(data.decode("utf-16"))
    except UnicodeDecodeError:
        raise TableError("UTF-16", say("save it as CSV in UTF-8")) from None


def _no_utf8(data: bytes, start: int) -> TableError:
    line = data.count(b"\n", 0, start) + 1
    need = say(
        "save it as CSV (UTF-8): line {line} has the byte {byte}, which is "
        "neither UTF-8 nor Windows-1252",
        line=line,
        byte=f"0x{data[start]:02X}",
    )
    if not _NOT_IN_1252.search(data):
        need = say(
            "read it as Windows-1252, or save it as UTF-8: line {line} has the byte {byte}",
            line=line,
            byte=f"0x{data[start]:02X}",
        )
    return TableError(f"0x{data[start]:02X}", need)


def _text(text: str) -> str:
    if "\0" in text:
        raise TableError("NUL", say("choose a table as CSV or XLSX: this is not text"))
    return text.removeprefix(BOM)


def _separator(text: str) -> str:
    """Return what stands between cells, by the first line that has something in it."""
    first = next((line for line in text.splitlines() if line.strip(" ,;\t")), "")
    bare = re.sub(r'"[^"]*"?', "", first)
    return max(SEPARATORS, key=bare.count)


def _rows(text: str, separator: str) -> Iterator[tuple[int, tuple[str, ...]]]:
    """Yield the rows that have something in them, with their numbers."""
    csv.field_size_limit(2 * MOST_OUTLINE)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
    kept = 0
    number = 0
    try:
        for number, row in enumerate(reader, 1):
            if number > MOST_SEEN:
                raise too_long()
            if not any(cell.strip() for cell in row):
                continue
            kept += 1
            if kept > MOST_ROWS + 1:
                raise too_many_rows(kept)
            yield number, _checked(row, number)
    except csv.Error as refused:
        need = say("fix row {row}: {said}", row=number + 1, said=str(refused))
        raise TableError(None, need) from None


def _checked(row: list[str], number: int) -> tuple[str, ...]:
    while row and not row[-1].strip():
        row.pop()
    if len(row) > MOST_COLUMNS:
        raise too_many_columns(len(row))
    for i, cell in enumerate(row):
        check_cell(cell, number, i)
    return tuple(cell[1:] if _ESCAPED.match(cell) else cell for cell in row)


def _decimal(rows: tuple[tuple[str, ...], ...], separator: str) -> str:
    """Tell the decimal sign by the numbers: a comma where some have one and none a point."""
    if separator == ",":
        return "."
    cells = [cell.strip() for row in rows for cell in row]
    points = any(_POINT.fullmatch(cell) for cell in cells)
    return "," if not points and any(_COMMA.fullmatch(cell) for cell in cells) else "."
