"""``evenstand stand``: what came up."""

from pathlib import Path

import click

from evenstand.report.json import as_json
from evenstand.tasks.documents.stand import stand_shown
from evenstand.tasks.stand.stand import read_stand

from .files import from_file
from .flags import answers, example
from .output import Out


@click.command(epilog=example("evenstand stand counts.toml --units metric"))
@click.argument("file", type=click.Path(path_type=Path))
@answers
def stand(out: Out, file: Path) -> None:
    """Figure the stand: plants, emergence and mix.

    FILE is a TOML file with a table [[counts]] for each size of spot. A table has a
    length of row, a hoop or a frame, and the plants in each spot.
    """
    found = from_file(file, read_stand)
    if out.json:
        out.document(as_json(found, out.style))
    else:
        out.show(stand_shown(found, out.pen))
