"""``evenstand seeding``: is it really going down at that rate?"""

from pathlib import Path

import click

from evenstand.report.json import as_json
from evenstand.tasks.documents.seeding import sow_shown
from evenstand.tasks.seeding.said import sow_in
from evenstand.tasks.seeding.seeding import read_sow

from .files import from_file
from .flags import answers, example
from .output import Out


@click.command(epilog=example("evenstand seeding on-the-way.toml --working"))
@click.argument("file", type=click.Path(path_type=Path))
@answers
def seeding(out: Out, file: Path) -> None:
    """Track the rate while seeding, and what to do next.

    FILE is a TOML file with a table [[loads]] for each load, level or lever moved.
    You get the rate so far, the odds that it is off, and whether you have enough seed.
    """
    found = from_file(file, lambda tables: read_sow(sow_in(tables)))
    if out.json:
        out.document(as_json(found, out.style))
    else:
        out.show(*sow_shown(found, out.pen))
