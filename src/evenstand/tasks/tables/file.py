"""Files of tables, told apart by what they begin with, and written by how they are called."""

from dataclasses import dataclass

from evenstand.engine.quantities.phrases import say

from .csv import Encoding, read_csv
from .geojson import read_geojson
from .grid import MOST_COLUMNS, MOST_FILE, MOST_OUTLINE, MOST_ROWS, MOST_SEEN, Grid, TableError
from .model import Filled

ZIP, OLE = b"PK\x03\x04", b"\xd0\xcf\x11\xe0"
ENCODINGS: tuple[Encoding, ...] = ("", "utf-8", "windows-1252")
SEPARATORS = {"": "", "comma": ",", "semicolon": ";", "tab": "\t"}
DECIMALS = {"": "", "point": ".", "comma": ","}


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """How a file is read, where it does not tell by itself.

    ``office`` tells whether XLSX can be read here.
    """

    encoding: Encoding = ""
    separator: str = ""
    decimal: str = ""
    sheet: str = ""
    office: bool = True


def read_table(data: bytes, way: Way) -> Grid:
    """Read a file of a table: CSV, XLSX or GeoJSON.

    Raises
    ------
    MeasurementError
        For what cannot be read safely; it says why.
    """
    found = _grid(data, way)
    if not found.rows:
        raise TableError(None, say("choose a file that is not empty"))
    return found


def _grid(data: bytes, way: Way) -> Grid:
    if len(data) > MOST_FILE:
        raise TableError(len(data), say("choose a file of at most {n} MB", n=MOST_FILE >> 20))
    if data.startswith(ZIP):
        return _read_xlsx(data, way)
    if data.startswith(OLE):
        need = say("save it as XLSX or CSV: the older spreadsheet format can't be read")
        raise TableError("XLS", need)
    if data.removeprefix(b"\xef\xbb\xbf").lstrip().startswith(b"{"):
        return read_geojson(data)
    return read_csv(data, encoding=way.encoding, separator=way.separator, decimal=way.decimal)


def _read_xlsx(data: bytes, way: Way) -> Grid:
    if not way.office:
        raise TableError("XLSX", say("save it as CSV: XLSX can only be read at the office"))
    from evenstand.office.spreadsheet_read import Limits, read_xlsx

    limits = Limits(rows=MOST_ROWS, seen=MOST_SEEN, columns=MOST_COLUMNS, cell=MOST_OUTLINE)
    found = read_xlsx(data, sheet=way.sheet, limits=limits)
    notes = []
    if len(found.sheets) > 1:
        notes.append(say("The sheet “{name}” was read.", name=found.name))
    if found.hidden:
        names = ", ".join(found.hidden)
        notes.append(say("Hidden sheets were skipped: {names}.", names=names))
    return Grid(
        rows=found.rows,
        numbers=found.numbers,
        decimal="," if way.decimal == "," else ".",
        faults=found.faults,
        merged=found.merged,
        notes=tuple(notes),
        sheets=found.sheets,
        sheet=found.name,
    )


def write_xlsx(*tables: Filled) -> bytes:
    """Write tables as the sheets of one workbook; at the office only."""
    from evenstand.office.spreadsheet import write_xlsx as write

    return write((each.table.name, each.headings, each.rows) for each in tables)
