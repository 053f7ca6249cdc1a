"""``evenstand turns``: how many turns cover an area."""

from typing import Any

import click

from evenstand.report.json import as_json
from evenstand.tasks.calibration.turns import read_turns
from evenstand.tasks.documents.turns import turns_shown

from .flags import DRILL, WHEEL, answers, example, together, written
from .output import Out


@click.command(
    epilog=example('evenstand turns --rows 24 --spacing "7.5 in" --rolled "95 in" --area "1/20 ac"')
)
@together(
    *DRILL,
    *WHEEL,
    click.option("--area", metavar="AREA", required=True, help="Area to cover: 1/20 ac."),
    click.option("--speed", metavar="SPEED", help="Field speed, to pace the turns: 5 mph."),
)
@answers
def turns(out: Out, **flags: Any) -> None:
    """Figure how many drive-wheel turns to make.

    They cover an area, such as 1/20 ac.
    """
    found = read_turns(written(flags))
    if out.json:
        out.document(as_json(found, out.style))
        return
    out.warnings(found.warnings)
    out.show(turns_shown(found, out.pen))
