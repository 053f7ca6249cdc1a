"""``evenstand record``: what was planned and done in a job of the book, to be shown and signed."""

from pathlib import Path
from typing import Any

import click

from evenstand.book.files import unusable
from evenstand.book.place import default_path
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import System, say
from evenstand.report.document import Printed
from evenstand.report.json import as_json
from evenstand.report.typesetting import PAPERS, Paper
from evenstand.tasks.record.frame import Reader
from evenstand.tasks.record.record import record as write_record

from .book import opened
from .clock import TODAY, this_month
from .flags import example
from .history import find
from .output import Out

USUAL: dict[System, Paper] = {"us": "letter", "metric": "a4"}


@click.command(
    epilog=example('evenstand record "Alder Bench, fall cover"', "--pdf record.pdf --paper letter")
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
@TODAY
@click.option("--json", "as_json", is_flag=True, help="Write JSON for programs.")
@click.option(
    "--units",
    type=click.Choice(["us", "metric"]),
    default="us",
    show_default=True,
    help="Units of the answer.",
)
def record(*, as_json: bool, units: System, **given: Any) -> None:
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
    today: str | None,
) -> None:
    if paper and pdf is None:
        raise MeasurementError(
            "--paper", paper, say("use it together with {partner}", partner="--pdf")
        )
    month, reader = this_month(today), Reader(style=out.style)
    with opened(where or default_path(), create=False) as book:
        document = write_record(book, find(book, job), reader, today=month)
    if pdf is not None:
        _write(pdf, document, reader, paper=paper or USUAL[out.style.system])
    if out.json:
        out.document(as_json(document, out.style))
    elif pdf is None:
        out.show(document)


def _write(path: Path, document: Printed, reader: Reader, *, paper: Paper) -> None:
    from evenstand.tasks.record.pdf import document_pdf

    made = document_pdf(document, paper, reader.pen)
    try:
        path.write_bytes(made)
    except OSError as refused:
        raise MeasurementError("--pdf", str(path), unusable(refused)) from None
