"""Tables: what is kept as files for spreadsheets, and tables of others taken in after a look."""

from base64 import b64decode, b64encode
from binascii import Error as NoBase64
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass
from typing import Any

from flask import Blueprint, Response, abort, jsonify, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue

from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.tasks.tables.csv import write_csv
from evenstand.tasks.tables.everything import (
    READ,
    TABLES,
    everything,
    filled,
    filled_all,
    table_named,
)
from evenstand.tasks.tables.file import DECIMALS, ENCODINGS, SEPARATORS, Way, read_table, write_xlsx
from evenstand.tasks.tables.geojson import MEDIA_TYPE, fields_geojson
from evenstand.tasks.tables.grid import Grid, TableError
from evenstand.tasks.tables.match import Choices, Matched
from evenstand.tasks.tables.model import Table
from evenstand.tasks.tables.take import Preview, preview, take

from ..site import forms, here

blueprint = Blueprint("tables", __name__)
MOST_UPLOAD = 3 * 1024 * 1024  # bytes of a file; larger ones are for the command line
MOST_SENT = 2 * MOST_UPLOAD  # of a form that carries one
MOST_DIGITS = 7  # of a number in an address
MOST_CHOSEN = 500
ROWS_SHOWN, REFUSALS_SHOWN, EXAMPLE = 8, 50, 60
XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


@blueprint.get("/tables")
def index() -> ResponseReturnValue:
    """Show what can be had as a table, and the way in."""
    return _index(forms.blank())


@blueprint.get("/tables/<name>.csv")
def csv(name: str) -> Response:
    """Hand out a table as CSV."""
    _known(name)
    text = write_csv(_filled(name), decimal=here.style().decimal)
    return _file(text, "text/csv; charset=utf-8", f"{name}.csv")


@blueprint.get("/tables/<name>.xlsx")
def xlsx(name: str) -> Response:
    """Hand out a table as XLSX, or all of them as its sheets."""
    if here.settings().on_phone:
        abort(404)
    if name == "all":
        style = here.style()
        found = list(filled_all(here.book(), units=style.system, style=style))
    else:
        _known(name)
        found = [_filled(name)]
    return _file(write_xlsx(*found), XLSX, f"{name}.xlsx")


@blueprint.get("/tables/fields.geojson")
def outlines() -> Response:
    """Hand out the fields on the map."""
    text = fields_geojson(here.book(), units=here.style().system)
    return _file(text, MEDIA_TYPE, "fields.geojson")


@blueprint.get("/tables/everything.json")
def whole() -> Response:
    """Hand out everything that stands in the book, for programs."""
    answer = jsonify(everything(here.book()))
    answer.headers["Content-Disposition"] = 'attachment; filename="book.json"'
    return answer


def _known(name: str) -> None:
    if name not in TABLES:
        abort(404)


def _filled(name: str) -> Any:
    style = here.style()
    return filled(here.book(), name, units=style.system, style=style)


def _file(data: bytes, media: str, name: str) -> Response:
    answer = Response(data, content_type=media)
    answer.headers["Content-Disposition"] = f'attachment; filename="{name}"'
    return answer


@dataclass(frozen=True)
class _Sent:
    """A file that was sent, how it is to be read, and what came out."""

    form: forms.Form
    table: Table
    data: bytes
    grid: Grid
    found: Preview


@blueprint.post("/tables/look")
def look() -> ResponseReturnValue:
    """Show what a file would bring; nothing is written."""
    return _opened(_look)


@blueprint.post("/tables/take")
def take_() -> ResponseReturnValue:
    """Take in all rows of a file that was looked at, or none."""
    return _opened(_take)


def _take(sent: _Sent) -> ResponseReturnValue:
    take(here.book(), sent.found, by=here.who())
    found = sent.found
    address = url_for(
        "tables.index",
        new=len(found.new) + len(found.changed),
        known=found.known,
        kind=sent.table.name,
    )
    return redirect(address, 303)


def _opened(go_on: Callable[[_Sent], ResponseReturnValue]) -> ResponseReturnValue:
    """Read the file that was sent and go on with it, where nothing of it is refused.

    The form is larger than those of other pages: it carries the file.
    """
    request.max_content_length = MOST_SENT
    request.max_form_memory_size = MOST_SENT
    form = forms.sent()
    try:
        sent = _read(form)
    except MeasurementError as error:
        return _index(form, refused=error.need), 422
    return (_look(sent), 422) if sent.found.refused else go_on(sent)


def _read(form: forms.Form) -> _Sent:
    table = table_named(form.text("kind"), READ)
    data = _data(form)
    grid = read_table(data, _way(form))
    found = preview(
        grid,
        table,
        here.book(),
        today=here.this_month(),
        style=here.style(),
        choices=_choices(form),
    )
    return _Sent(form, table, data, grid, found)


def _data(form: forms.Form) -> bytes:
    """Return the file: the one that was chosen, else the one that the form carries."""
    file = request.files.get("file")
    if file is not None and file.filename:
        with closing(file):
            data = bytes(file.read())
    else:
        try:
            data = b64decode(form.text("carried"), validate=True)
        except (NoBase64, ValueError):
            data = b""
        if not data:
            raise TableError(None, say("choose a file first"))
    if len(data) > MOST_UPLOAD:
        need = say(
            "choose a file of at most {n} MB here; the command line accepts larger ones",
            n=MOST_UPLOAD >> 20,
        )
        raise TableError(len(data), need)
    return data


def _way(form: forms.Form) -> Way:
    encoding = form.text("encoding")
    return Way(
        encoding=next((each for each in ENCODINGS if each == encoding), ""),
        separator=SEPARATORS.get(form.text("separator"), ""),
        decimal=DECIMALS.get(form.text("decimal"), ""),
        sheet=form.text("sheet"),
        office=not here.settings().on_phone,
    )


def _choices(form: forms.Form) -> Choices:
    keys, units = {}, {}
    for i in range(MOST_CHOSEN):
        if f"column{i}" in form.texts:
            keys[i] = form.text(f"column{i}")
        if unit := form.text(f"unit{i}"):
            units[i] = unit
    return Choices(keys, units)


def _index(form: forms.Form, *, refused: Phrase | None = None) -> str:
    return render_template(
        "tables.html",
        form=form,
        tables=TABLES.values(),
        kinds_read=[(name, TABLES[name].label) for name in READ],
        counts=here.book().counts(),
        refused=refused,
        taken=_taken(),
        ways=WAYS,
    )


WAYS = {
    "encoding": (
        ("", say("detect automatically")),
        ("utf-8", say("UTF-8")),
        ("windows-1252", say("Windows-1252")),
    ),
    "separator": (
        ("", say("detect automatically")),
        ("comma", say("comma")),
        ("semicolon", say("semicolon")),
        ("tab", say("tab")),
    ),
    "decimal": (
        ("", say("detect automatically")),
        ("point", say("point")),
        ("comma", say("comma")),
    ),
}


def _taken() -> tuple[Phrase, int, int] | None:
    """Read from the address what was taken in just now."""
    table = TABLES.get(request.args.get("kind", ""))
    numbers = [request.args.get(name, "") for name in ("new", "known")]
    if table is None or not all(n.isdecimal() and len(n) < MOST_DIGITS for n in numbers):
        return None
    return table.label, int(numbers[0]), int(numbers[1])


def _look(sent: _Sent) -> str:
    return render_template(
        "table_look.html",
        form=sent.form,
        table=sent.table,
        grid=sent.grid,
        found=sent.found,
        refused=sent.found.refused[:REFUSALS_SHOWN],
        columns=list(_columns(sent)),
        choices=[(column.key, column.label) for column in sent.table.columns],
        rows=_shown(sent),
        carried=b64encode(sent.data).decode(),
        ways=WAYS,
    )


def _columns(sent: _Sent) -> Iterator[dict[str, Any]]:
    """Yield what the page says of each column that has something in it."""
    for matched in sent.found.matched:
        example = _example(sent, matched.index)
        if matched.heading or example:
            yield {"of": matched, "example": example, "units": _units(matched)}


def _example(sent: _Sent, index: int) -> str:
    for number, row in zip(sent.grid.numbers, sent.grid.rows, strict=True):
        if number > sent.found.head and index < len(row) and row[index] not in (None, ""):
            return str(row[index])[:EXAMPLE]
    return ""


def _units(matched: Matched) -> tuple[str, ...]:
    kind = matched.column.measure if matched.column else None
    if kind is None:
        return ()
    return tuple(dict.fromkeys(filter(None, (matched.unit, kind.us.symbol, kind.metric.symbol))))


def _shown(sent: _Sent) -> list[tuple[int, list[str]]]:
    """Return the first rows, as far as they are read."""
    used = [matched.index for matched in sent.found.matched if matched.column]
    pairs = zip(sent.grid.numbers, sent.grid.rows, strict=True)
    rows = [(number, row) for number, row in pairs if number > sent.found.head]
    return [
        (n, [str(row[i])[:EXAMPLE] if i < len(row) and row[i] is not None else "" for i in used])
        for n, row in rows[:ROWS_SHOWN]
    ]
