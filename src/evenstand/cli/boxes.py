"""``evenstand boxes``: which seed goes in which box, and what each is set to."""

from pathlib import Path

import click

from evenstand.report.json import as_json
from evenstand.tasks.boxes.boxes import boxed, fill
from evenstand.tasks.boxes.said import boxes_in
from evenstand.tasks.documents.boxes import boxes_shown
from evenstand.tasks.parsing.repeats import repeated

from .clock import TODAY, this_month
from .files import from_file
from .flags import Flag, answers, example, together, written
from .output import Out

CAUGHT = (
    click.option(
        "--achieved",
        metavar="LIST",
        help="Actual box rates: grain 58 lb/ac, or grain +3%.",
    ),
    click.option(
        "--sample",
        "samples",
        metavar="LIST",
        multiple=True,
        help="A catch sorted by species: rye 160, vetch 41, out 50%; or by weight.",
    ),
)


@click.command(
    epilog=example('evenstand boxes alder-bench.toml --sample "rye 160, vetch 26, radish 14"')
)
@click.argument("file", type=click.Path(path_type=Path))
@together(*CAUGHT)
@TODAY
@answers
def boxes(
    out: Out, file: Path, *, achieved: str | None, samples: tuple[str, ...], today: str | None
) -> None:
    """Decide which seed goes in which box, and each box's rate.

    From FILE, a TOML file with the mix and the boxes. With --sample, whether
    seed separates in its box; with --achieved, what every species gets.
    """
    month = this_month(today)
    flags = written({"achieved": achieved})
    found = boxed(
        from_file(file, lambda tables: fill(boxes_in(tables), today=month)),
        achieved=flags if "achieved" in flags else None,
        samples=repeated(samples, "sample", path=Flag("sample"), also=flags),
    )
    if out.json:
        out.document(as_json(found, out.style))
    else:
        out.warnings(found.boxes.warnings)
        out.show(boxes_shown(found, out.pen))
