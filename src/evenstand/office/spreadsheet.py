"""Tables as XLSX: one header row, real numbers and dates, text that stays text."""

import io
import re
from collections.abc import Iterable, Sequence
from datetime import date, datetime
from itertools import chain
from typing import Any

from openpyxl import Workbook
from openpyxl.cell import WriteOnlyCell
from openpyxl.styles import Font
from openpyxl.utils import get_column_letter

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say

Value = str | int | float | bool | date | datetime | None
Sheet = tuple[str, Sequence[str], Sequence[Sequence[Value]]]  # name, headings, rows

LONGEST_NAME = 31  # characters of a sheet's name
MOST_TEXT = 32_767  # characters of a cell
WIDEST = 40
_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0d\x0e-\x1f\ufffe\uffff]")
_FORMULA = ("=", "+", "-", "@")


def write_xlsx(sheets: Iterable[Sheet]) -> bytes:
    """Write a workbook.

    Text is text, whatever it begins with; signs that XML cannot hold are
    written as ``_x000B_``, as in ISO/IEC 29500-1, 22.9.2.19 (not read).

    Parameters
    ----------
    sheets : iterable of (name, headings, rows)

    Raises
    ------
    MeasurementError
        Naming the ``cell``, for a text longer than one holds.
    """
    whole = list(sheets)
    for _, headings, rows in whole:
        for value in chain(headings, *rows):
            _fits(value)
    book = Workbook(write_only=True)
    for name, headings, rows in whole:
        sheet = book.create_sheet(name[:LONGEST_NAME])
        sheet.freeze_panes = "A2"
        for i, heading in enumerate(headings, 1):
            wide = [len(str(row[i - 1] or "")) for row in rows]
            width = min(WIDEST, max([len(heading), *wide]) + 2)
            sheet.column_dimensions[get_column_letter(i)].width = width
        sheet.append([_heading(sheet, heading) for heading in headings])
        for row in rows:
            sheet.append([_cell(sheet, value) for value in row])
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def _fits(value: Value) -> None:
    """Refuse a text that no cell holds, before any of the workbook is written."""
    if isinstance(value, str) and len(_safe(value)) > MOST_TEXT:
        need = say("save this table as CSV: a spreadsheet cell allows {n} characters", n=MOST_TEXT)
        raise MeasurementError("cell", f"{value[:40]}… ({len(value)} signs)", need)


def _safe(text: str) -> str:
    return _CONTROL.sub(lambda sign: f"_x{ord(sign[0]):04X}_", text)


def _heading(sheet: Any, text: str) -> WriteOnlyCell:
    cell = _text(sheet, text)
    cell.font = Font(bold=True)
    return cell


def _cell(sheet: Any, value: Value) -> Any:
    if isinstance(value, str):
        return _text(sheet, value)
    if isinstance(value, date):
        cell = WriteOnlyCell(sheet, value)
        cell.number_format = "yyyy-mm-dd hh:mm:ss" if isinstance(value, datetime) else "yyyy-mm-dd"
        return cell
    return value


def _text(sheet: Any, text: str) -> WriteOnlyCell:
    safe = _safe(text)
    cell = WriteOnlyCell(sheet, safe)
    cell.data_type = "s"
    if text.startswith(_FORMULA):
        cell.quotePrefix = True
    return cell
