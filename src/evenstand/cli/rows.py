"""``evenstand rows``: how even the rows are, and what to look at."""

from typing import Any

import click

from evenstand.report.json import as_json
from evenstand.tasks.calibration.rows import read_rows
from evenstand.tasks.documents.rows import rows_shown
from evenstand.tasks.parsing.repeats import repeated

from .flags import Flag, answers, example, together, written
from .output import Out


@click.command(
    epilog=example(
        'evenstand rows --resolution "0.1 g" --limit "10%"',
        '--weights "22.6, 22.4, 22.9, 22.1, 18.3, 22.7, 22.5, 22.2 g"',
    )
)
@together(
    click.option(
        "--weights",
        metavar="LIST",
        required=True,
        help="Seed from each row, left to right, facing forward.",
    ),
    click.option(
        "--again", metavar="LIST", multiple=True, help="The same rows again, once per repeat."
    ),
    click.option("--resolution", metavar="WEIGHT", help="Smallest step of the scale."),
    click.option("--limit", metavar="SHARE", help="Your own limit per row (±): 10%."),
    click.option("--row-cv", metavar="SHARE", help="Normal row-to-row variation."),
    click.option(
        "--columns",
        metavar="LIST",
        multiple=True,
        help="Row groups to compare: front, rear or box: left, left, right, right.",
    ),
)
@answers
def rows(out: Out, again: tuple[str, ...], columns: tuple[str, ...], **flags: Any) -> None:
    """Check how even the rows are.

    Which row is odd, which pattern is in them, and what to check about it.
    """
    given = written(flags)
    found = read_rows(
        given,
        repeated(again, "weights", path=Flag("again"), also=given),
        repeated(columns, "columns", path=Flag("columns"), also=given),
    )
    if out.json:
        out.document(as_json(found, out.style))
        return
    out.show(rows_shown(found, out.pen))
