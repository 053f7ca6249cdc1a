"""``evenstand book``: exchange, check and keep safe what is kept."""

import json
import platform
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Any

import click

from evenstand.book.book import Book
from evenstand.book.errors import BookError
from evenstand.book.exchange import export_book, import_file
from evenstand.book.log.schema import entry_schema
from evenstand.book.opening import open_book
from evenstand.book.place import default_path, device_name
from evenstand.book.storage.check import Checked
from evenstand.book.storage.files import unusable
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.tasks.library.admitting import admitted

from .flags import example
from .history import find, history_lines, with_names
from .later import Laters
from .output import Out

TABLES = {
    "table": ("tables:table", "Export a table from the book."),
    "take": ("tables:take_", "Import a table from FILE: CSV, XLSX, or fields as GeoJSON."),
}
FAULTY = 1  # exit code of a check that found damage


class BookOption(click.Option):
    """The flag ``--book``, whose help shows where the book of this person lies."""

    def get_help_record(self, ctx: click.Context) -> tuple[str, str] | None:
        """Write the flag with its default."""
        flag, said = super().get_help_record(ctx) or ("", "")
        return flag, f"{said}  [default: {default_path()}]"


def on_book(*, create: bool = False) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """Hand a command its `Out` and the book, and end with what was refused."""

    def decorate(command: Callable[..., None]) -> Callable[..., None]:
        @click.option(
            "--book",
            "where",
            cls=BookOption,
            type=click.Path(path_type=Path),
            default=default_path,
            show_default=False,
            metavar="PATH",
            help="The book.",
        )
        @click.option("--json", "as_json", is_flag=True, help="Write JSON for programs.")
        @wraps(command)
        def run(*, where: Path, as_json: bool, **given: Any) -> None:
            out = Out.of(json=as_json, units="us", working=False)
            try:
                with opened(where, create=create) as book:
                    command(out, book, **given)
            except MeasurementError as error:
                raise out.refuse(error) from None

        return run

    return decorate


def opened(where: Path, *, create: bool) -> Book:
    """Open a book by its path; ``create`` begins one, and its folder, where there is none."""
    if create:
        try:
            where.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        except OSError as refused:
            raise BookError("--book", str(where), unusable(refused)) from None
    return open_book(where, device=device_name(platform.node()), create=create)


@click.group("book", cls=Laters, places=TABLES)
def book() -> None:
    """Export, import, check and back up your book.

    A book holds drills, charts, fields, seed, jobs and catches as entries that are
    never changed: a correction is a new entry.
    """


@book.command("export", epilog=example("evenstand book export pool.zip"))
@click.argument("file", type=click.Path(path_type=Path))
@on_book()
def export(out: Out, book: Book, file: Path) -> None:
    """Write every entry into a new FILE.

    Other books read it with import. Its format is in docs/format.md.
    """
    number = export_book(book, file)
    _tell(out, f"Wrote {number:,} entries into {file}.", entries=number, file=str(file))


@book.command("import", epilog=example("evenstand book import pool.zip"))
@click.argument("file", type=click.Path(path_type=Path))
@on_book(create=True)
def import_(out: Out, book: Book, file: Path) -> None:
    """Import what is new in FILE.

    Nothing here is overwritten, and a FILE that is damaged changes nothing.
    """
    merged = import_file(book, file, admit=admitted)
    text = f"Read {file}: {merged.new:,} new entries, {merged.known:,} known already."
    _tell(out, text, new=merged.new, known=merged.known)


@book.command("backup", epilog=example("evenstand book backup before-spring.evenstand"))
@click.argument("file", type=click.Path(path_type=Path))
@on_book()
def backup(out: Out, book: Book, file: Path) -> None:
    """Copy the book into a new FILE.

    It may be in use meanwhile. The copy is a book too: --book opens it.
    """
    book.backup(file)
    _tell(out, f"Copied the book into {file}.", file=str(file))


@book.command("restore", epilog=example("evenstand book restore COPY.evenstand"))
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--yes", is_flag=True, help="Do it; without this it only says what would be missing.")
@on_book()
def restore(out: Out, book: Book, file: Path, *, yes: bool) -> None:
    """Go back to the copy in FILE.

    Quit the office first. What is in the book now is copied before. The
    copies of each day are in the folder beside the book that ends in .copies.
    """
    lost = book.restore(file, really=yes)
    newest = f", the newest of {out.style.dated(lost.newest[:10])}" if lost.newest else ""
    text = f"{lost.entries:,} entries about {lost.things:,} items are not in {file}{newest}."
    done = (
        "The book is as it was in the copy." if yes else "Nothing is changed: use --yes to do it."
    )
    _tell(out, f"{text} {done}", missing=lost.entries, items=lost.things, restored=yes)


@book.command("check")
@on_book()
@click.pass_context
def check(context: click.Context, out: Out, book: Book) -> None:
    """Look for damage.

    With damage the exit code is 1.
    """
    found = book.check()
    if out.json:
        out.document(_checked_document(out, found))
    else:
        out.say(*_checked_lines(out, found))
    if found.faults:
        context.exit(FAULTY)


@book.command("history", epilog=example("evenstand book history Heron"))
@click.argument("thing")
@on_book()
def history(out: Out, book: Book, thing: str) -> None:
    """Show every entry about THING.

    THING is the name of a drill, field, lot, mix or job, or the id of anything.
    """
    entries = book.history(find(book, thing))
    if out.json:
        out.document({"entries": [json.loads(entry.text) for entry in entries]})
    else:
        out.say(*(with_names(line, book) for line in history_lines(entries, out.style)))


@book.command("schema")
def schema() -> None:
    """Print the JSON Schema of an entry."""
    click.echo(entry_schema(), nl=False)


def _tell(out: Out, text: str, **document: Any) -> None:
    if out.json:
        out.document(document)
    else:
        out.say(text)


def _checked_lines(out: Out, found: Checked) -> list[str]:
    kinds = ", ".join(f"{kind} {number:,}" for kind, number in found.things.items())
    lines = [f"{found.entries:,} entries" + (f": {kinds}." if kinds else ".")]
    if found.newer:
        lines.append(f"{found.newer:,} entries were made by a newer Evenstand; they are kept.")
    lines += [
        f"{loose.kind} {loose.thing} names {loose.target}, which is not here; it may still come."
        for loose in found.loose
    ]
    faults = [f"Damaged: {out.write(fault)}." for fault in found.faults]
    return [*lines, *(faults or ["No damage found."])]


def _checked_document(out: Out, found: Checked) -> dict[str, Any]:
    return {
        "entries": found.entries,
        "things": found.things,
        "newer": found.newer,
        "faults": [out.write(fault) for fault in found.faults],
        "loose": [
            {"thing": loose.thing, "kind": loose.kind, "target": loose.target}
            for loose in found.loose
        ],
    }
