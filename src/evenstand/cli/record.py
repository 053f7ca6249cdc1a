"""``evenstand record``: what was planned and done in a job of the book, to be shown and signed."""

from pathlib import Path
from typing import Any

import click

from evenstand.book.place import default_path
from evenstand.book.storage.files import unusable
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import System, say
from evenstand.report.document import Printed
from evenstand.report.json import as_json as to_json
from evenstand.report.typesetting import PAPERS, Paper
from evenstand.tasks.record.frame import Reader
from evenstand.tasks.record.frozen import as_frozen, freeze_old, frozen_record, version_of
from evenstand.tasks.record.printed import Agreement, check_printed, fingerprint_of

from .book import opened
from .clock import TODAY, this_month
from .flags import example
from .history import find
from .output import Out

USUAL: dict[System, Paper] = {"us": "letter", "metric": "a4"}


class OrWrite(click.Group):
    """A group whose first word may be a job: then its record is written."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Read the command, or put it in."""
        known = args[:1] and args[0] in self.commands
        return super().parse_args(ctx, args if known else ["write", *args])


@click.group(cls=OrWrite)
def record() -> None:
    """Write a job's seeding record, or check a printed one."""


@record.command(
    "write",
    epilog=example('evenstand record "Alder Bench, fall cover"', "--pdf record.pdf --paper letter"),
)
@click.argument("job")
@click.option("--pdf", type=click.Path(path_type=Path), metavar="FILE", help="Write a PDF.")
@click.option(
    "--paper", type=click.Choice(list(PAPERS)), help="Paper size; default follows the units."
)
@click.option(
    "--book",
    "where",
    type=click.Path(path_type=Path),
    metavar="PATH",
    help="Use this book instead of the one in your data folder.",
)
@click.option("--version", type=int, metavar="N", help="An older version of a finished record.")
@TODAY
@click.option("--json", "as_json", is_flag=True, help="Write JSON for programs.")
@click.option(
    "--units",
    type=click.Choice(["us", "metric"]),
    default="us",
    show_default=True,
    help="Units of the answer.",
)
def write(*, as_json: bool, units: System, **given: Any) -> None:
    """Write a job's seeding record.

    JOB is its name or its id in the book. What nobody wrote down says so. The
    PDF is made to be kept (PDF/A-2a) and to be read aloud (PDF/UA-1).
    """
    out = Out.of(json=as_json, units=units, working=False)
    try:
        _answer(out, **given)
    except MeasurementError as error:
        raise out.refuse(error) from None


def _answer(
    out: Out,
    *,
    job: str,
    pdf: Path | None,
    paper: Paper | None,
    where: Path | None,
    version: int | None,
    today: str | None,
) -> None:
    if paper and pdf is None:
        raise MeasurementError(
            "--paper", paper, say("use it together with {partner}", partner="--pdf")
        )
    month, reader = this_month(today), Reader(style=out.style)
    with opened(where or default_path(), create=False) as book:
        freeze_old(book, today=month)
        id = find(book, job)
        if version is None:
            document = as_frozen(book, id, reader, today=month)
        else:
            document = frozen_record(book, version_of(book, id, version), reader)
    if pdf is not None:
        _write(pdf, document, reader, paper=paper or USUAL[out.style.system])
    if out.json:
        out.document(to_json(document, out.style))
    elif pdf is None:
        out.show(document)


def _write(path: Path, document: Printed, reader: Reader, *, paper: Paper) -> None:
    from evenstand.tasks.record.pdf import document_pdf

    made = document_pdf(document, paper, reader.pen)
    try:
        path.write_bytes(made)
    except OSError as refused:
        raise MeasurementError("--pdf", str(path), unusable(refused)) from None


CODES = {"agrees": 0, "amended": 1}  # exit codes of a check; 2 for all else


@record.command("check", epilog=example("evenstand record check record.pdf office.evenstand"))
@click.argument("file", type=click.Path(path_type=Path), metavar="FILE.pdf")
@click.argument("where", type=click.Path(path_type=Path), metavar="[BOOK]", required=False)
@click.option("--json", "as_json", is_flag=True, help="Write JSON for programs.")
@click.pass_context
def check(context: click.Context, file: Path, where: Path | None, *, as_json: bool) -> None:
    """Check whether a printed record and a book still agree.

    The PDF has the fingerprint of its entries. It is looked up in BOOK, your
    own without one, and figured again from the entries there. Exit codes: 0 it
    is the newest version, 1 it was amended since, 2 anything else.
    """
    out = Out.of(json=as_json, units="us", working=False)
    try:
        found = _checked(file, where or default_path())
    except MeasurementError as error:
        raise out.refuse(error) from None
    if as_json:
        out.document(to_json(found, out.style))
    else:
        out.say(out.write(found.say))
    context.exit(CODES.get(found.verdict, 2))


def _checked(file: Path, where: Path) -> Agreement:
    try:
        printed = fingerprint_of(file.read_bytes())
    except OSError as refused:
        raise MeasurementError("file", str(file), unusable(refused)) from None
    with opened(where, create=False) as book:
        return check_printed(book, printed)
