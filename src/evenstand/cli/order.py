"""``evenstand order``: what to buy, to mix and to load."""

from pathlib import Path

import click

from evenstand.report.json import as_json
from evenstand.tasks.documents.order import order_shown
from evenstand.tasks.order.order import read_order
from evenstand.tasks.order.said import order_in

from .clock import TODAY, this_month
from .files import from_file
from .flags import answers, example
from .output import Out


@click.command(epilog=example("evenstand order alder-bench.toml --units metric"))
@click.argument("file", type=click.Path(path_type=Path))
@TODAY
@answers
def order(out: Out, file: Path, today: str | None) -> None:
    """List what to buy, mix and load for a field.

    FILE is a TOML file with the mix, the boxes and the field. The list has whole bags
    and their cost, batches, inoculant, loads and where each runs out, and the time.
    """
    month = this_month(today)
    found = from_file(file, lambda tables: read_order(order_in(tables), today=month))
    if out.json:
        out.document(as_json(found, out.style))
    else:
        out.warnings(found.warnings)
        out.show(order_shown(found, out.pen))
