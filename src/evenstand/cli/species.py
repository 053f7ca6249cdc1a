"""``evenstand species``: what the table knows of a species."""

import click

from evenstand.engine.seed.species_names import one
from evenstand.report.json import as_json
from evenstand.tasks.documents.species import species_list, species_shown
from evenstand.tasks.seed.species_table import species_table

from .flags import answers, example
from .output import Out


@click.command(epilog=example("evenstand species hairy vetch"))
@click.argument("name", nargs=-1)
@answers
def species(out: Out, name: tuple[str, ...]) -> None:
    """Look up a species.

    NAME is common, scientific or what people say; where it fits several, it asks
    which. Without NAME all species are listed.
    """
    if not name:
        table = species_table()
        if out.json:
            out.document({"species": [each.name for each in table]})
        else:
            out.show(species_list(table))
        return
    found = one(" ".join(name), species_table(), field="NAME")
    if out.json:
        out.document(as_json(found, out.style))
    else:
        out.show(species_shown(found, out.pen))
