"""``evenstand book table`` and ``take``: tables out of a book, and tables into it."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import click

from evenstand.book.book import Book
from evenstand.book.storage.files import new_file, unusable
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import System, say
from evenstand.tasks.tables.csv import write_csv
from evenstand.tasks.tables.everything import ALL, READ, everything, filled, filled_all, table_named
from evenstand.tasks.tables.file import DECIMALS, ENCODINGS, SEPARATORS, Way, read_table, write_xlsx
from evenstand.tasks.tables.geojson import fields_geojson
from evenstand.tasks.tables.match import Choices, choices_by_name
from evenstand.tasks.tables.model import plain_records
from evenstand.tasks.tables.take import Preview, preview, take, where

from .book import on_book
from .clock import TODAY, this_month
from .flags import example
from .output import Out

SHOWN = 20  # refusals told one by one
_path = click.Path(path_type=Path, dir_okay=False)
_units = click.option(
    "--units",
    type=click.Choice(["us", "metric"]),
    default="us",
    show_default=True,
    help="Units of the numbers.",
)


@click.command("table", epilog=example("evenstand book table catches --csv catches.csv"))
@click.argument("kind", metavar="KIND")
@click.option("--csv", "to_csv", type=_path, metavar="FILE", help="Write CSV into a new FILE.")
@click.option("--xlsx", "to_xlsx", type=_path, metavar="FILE", help="Write XLSX.")
@click.option(
    "--geojson", "to_map", type=_path, metavar="FILE", help="Write field boundaries as a map."
)
@_units
@on_book()
def table(
    out: Out,
    book: Book,
    *,
    kind: str,
    to_csv: Path | None,
    to_xlsx: Path | None,
    to_map: Path | None,
    units: System,
) -> None:
    """Export a table from the book.

    KIND is fields, drills, charts, lots, mixes, jobs, catches, bags, settings,
    loads or counts, or all: every table as the sheets of one XLSX. Without a FILE
    the table is printed as CSV, and with --json as JSON. With all and --json you
    get everything in the book as it is saved.
    """
    if kind != ALL:
        table_named(kind)
    written = {
        to_csv: lambda: write_csv(filled(book, kind, units=units)),
        to_xlsx: lambda: write_xlsx(*_tables(book, kind, units=units)),
        to_map: lambda: fields_geojson(book, units=units),
    }
    if to_map and kind != "fields":
        raise MeasurementError("--geojson", kind, say("only fields go on the map"))
    if kind == ALL and (to_csv or not (to_xlsx or out.json)):
        need = say("one CSV file has room for one table: use --xlsx or --json, or name one table")
        raise MeasurementError("KIND", kind, need)
    files = [file for file in written if file]
    for file in files:
        with new_file(file) as beside:
            beside.write_bytes(written[file]())
    if not files:
        _print(out, book, kind, units=units)
    else:
        _tell(out, files)


def _tables(book: Book, kind: str, *, units: System) -> Any:
    if kind == ALL:
        return filled_all(book, units=units)
    return [filled(book, kind, units=units)]


def _print(out: Out, book: Book, kind: str, *, units: System) -> None:
    if not out.json:
        click.echo(write_csv(filled(book, kind, units=units)).decode("utf-8-sig"), nl=False)
    elif kind == ALL:
        out.document(everything(book))
    else:
        found = filled(book, kind, units=units)
        out.document({"units": dict(found.units), "rows": plain_records(found)})


def _tell(out: Out, files: Sequence[Path]) -> None:
    if out.json:
        out.document({"files": [str(file) for file in files]})
    else:
        out.say(*(f"Wrote {file}." for file in files))


@click.command("take", epilog=example("evenstand book take lots.csv --kind lots --dry-run"))
@click.argument("file", type=_path)
@click.option("--kind", metavar="KIND", required=True, help="fields, drills, charts or lots.")
@click.option("--dry-run", is_flag=True, help="Show what would be imported, and change nothing.")
@click.option("--sheet", default="", metavar="NAME", help="The sheet of an XLSX.")
@click.option(
    "--column",
    "columns",
    multiple=True,
    metavar="COLUMN=NAME",
    help="What a column holds: C=price. C= with nothing after it skips the column.",
)
@click.option(
    "--encoding", type=click.Choice([each for each in ENCODINGS if each]), help="Encoding of a CSV."
)
@click.option("--decimal", type=click.Choice(["point", "comma"]), help="Decimal sign.")
@click.option(
    "--separator", type=click.Choice(["comma", "semicolon", "tab"]), help="Between cells."
)
@TODAY
@_units
@on_book(create=True)
def take_(
    out: Out,
    book: Book,
    *,
    file: Path,
    kind: str,
    dry_run: bool,
    columns: Sequence[str],
    today: str | None,
    units: System,
    **way: Any,
) -> None:
    """Import a table from FILE: CSV, XLSX, or fields as GeoJSON.

    All rows are imported, or none: each refusal names its row and column. What is
    in the book already is not imported again.
    """
    known = table_named(kind, READ)
    grid = read_table(_bytes(file), _way(**way))
    chosen: Choices | None = choices_by_name(grid, columns) if columns else None
    style = Out.of(json=out.json, units=units, working=False).style
    found = preview(grid, known, book, today=this_month(today), style=style, choices=chosen)
    if not dry_run and not found.refused:
        take(book, found)
    if out.json:
        out.document(_document(out, found, taken=not dry_run and not found.refused))
    else:
        out.say(*[out.write(note) for note in grid.notes], *_lines(out, found, dry_run=dry_run))
    if found.refused:
        first = found.refused[0]
        raise MeasurementError(where(first), first.given or None, first.need)


def _way(*, sheet: str, encoding: Any, decimal: str | None, separator: str | None) -> Way:
    return Way(
        encoding=encoding or "",
        decimal=DECIMALS[decimal or ""],
        separator=SEPARATORS[separator or ""],
        sheet=sheet,
    )


def _bytes(file: Path) -> bytes:
    try:
        return file.read_bytes()
    except OSError as refused:
        raise MeasurementError("FILE", str(file), unusable(refused)) from None


def _lines(out: Out, found: Preview, *, dry_run: bool) -> Iterator[str]:
    for column in found.matched:
        what = out.write(column.column.label) if column.column else "left out"
        yield f"Column {column.named}: {what}{f' in {column.unit}' if column.unit else ''}"
    for each in found.refused[:SHOWN]:
        given = f" is {each.given!r}" if each.given else ""
        yield f"{where(each)}{given}: {out.write(each.need)}"
    if len(found.refused) > SHOWN:
        yield f"… and {len(found.refused) - SHOWN:,} more."
    for change in found.changes[:SHOWN]:
        words = (change.field, change.before, change.after)
        field, before, after = (out.style.write(each) for each in words)
        yield f"{change.name}, {field}: {before} → {after}"
    if found.twins:
        yield f"Already here under this name: {', '.join(found.twins)}. This adds a second one."
    done = "Would import" if dry_run else "Taken in"
    yield out.write(found.say) if found.refused else f"{done}: {out.write(found.say)}"


def _document(out: Out, found: Preview, *, taken: bool) -> dict[str, Any]:
    return {
        "taken": taken,
        "new": len(found.new),
        "changed": len(found.changed),
        "known": found.known,
        "twice": found.twice,
        "twins": list(found.twins),
        "columns": [
            {
                "column": each.named,
                "says": each.column.key if each.column else None,
                "unit": each.unit or None,
            }
            for each in found.matched
        ],
        "refused": [
            {
                "row": each.row,
                "column": each.column,
                "given": each.given,
                "need": out.write(each.need),
            }
            for each in found.refused
        ],
    }
