"""``evenstand record``: what was planned and done in a job of the book, to be shown and signed."""

from pathlib import Path

import click

from evenstand.book.book import Book
from evenstand.book.files import unusable
from evenstand.engine.errors import MeasurementError
from evenstand.engine.words import Style, System, say
from evenstand.report.document import Document
from evenstand.report.document_json import document_json
from evenstand.report.typesetting import PAPERS, Paper
from evenstand.tasks.record import record as write_record
from evenstand.tasks.record_frame import Reader

from .book import on_book
from .clock import TODAY, this_month
from .flags import example
from .history import find
from .output import Out
from .record_pages import record_page

USUAL: dict[System, Paper] = {"us": "letter", "metric": "a4"}


@click.command(
    epilog=example('evenstand record "Alder Bench, fall cover"', "--pdf record.pdf --paper letter")
)
@click.argument("job")
@click.option("--pdf", type=click.Path(path_type=Path), metavar="FILE", help="Write a PDF.")
@click.option("--paper", type=click.Choice(list(PAPERS)), help="Its paper; that of the units.")
@click.option(
    "--units",
    type=click.Choice(["us", "metric"]),
    default="us",
    show_default=True,
    help="Units of the answer.",
)
@TODAY
@on_book()
def record(
    out: Out,
    book: Book,
    *,
    job: str,
    pdf: Path | None,
    paper: Paper | None,
    units: System,
    today: str | None,
) -> None:
    """Write the seeding record of a job.

    JOB is its name or its id. What nobody wrote down says so. The PDF is one for
    keeping (PDF/A-2a) that can be read aloud (PDF/UA-1).
    """
    if paper and pdf is None:
        raise MeasurementError("--paper", paper, say("it goes with {partner}", partner="--pdf"))
    reader = Reader(style=Style(system=units))
    document = write_record(book, find(book, job), reader, today=this_month(today))
    if pdf is not None:
        _write(pdf, document, reader, paper=paper or USUAL[units])
    if out.json:
        out.document(document_json(document))
    elif pdf is None:
        out.page(*record_page(document, out.sheet))


def _write(path: Path, document: Document, reader: Reader, *, paper: Paper) -> None:
    from evenstand.tasks.record_pdf import document_pdf  # takes a while to load

    made = document_pdf(document, paper, reader.pen)
    try:
        path.write_bytes(made)
    except OSError as refused:
        raise MeasurementError("--pdf", str(path), unusable(refused)) from None
