"""``evenstand catch``: what a catch says, and what would make it more certain."""

from typing import Any

import click

from evenstand.report.json import as_json
from evenstand.tasks.calibration.catch import read_catch
from evenstand.tasks.documents.catch import catch_shown
from evenstand.tasks.parsing.reading import WEIGHTS
from evenstand.tasks.parsing.repeats import repeated

from .flags import DRILL, WHEEL, Flag, answers, example, together, written
from .output import Out

RUN = (
    click.option("--turns", metavar="N", help="Turns of the drive wheel: 18 1/3."),
    click.option(
        "--distance", metavar="LENGTH", help="Or a measured distance, with the drill seeding."
    ),
    click.option("--crank-turns", metavar="N", help="Or hand-crank turns, with --per-turn."),
    click.option(
        "--per-turn",
        metavar="N|LENGTH",
        help="Crank turns per wheel turn (3.5), or distance per crank turn (27 in).",
    ),
    click.option(
        "--area", metavar="AREA", help="Or acres seeded, with the seed weighed back: 0.5 ac."
    ),
)
SEED = (
    click.option("--rows-caught", metavar="N", help="Number of rows caught."),
    click.option("--net", metavar="WEIGHT", help="Seed from all rows caught: 8 oz."),
    click.option("--gross", metavar="WEIGHT", help="Or seed and bag together, with --tare."),
    click.option("--tare", metavar="WEIGHT", help="The empty bag."),
    click.option("--weights", metavar="LIST", help="Or a weight for each row: 22.6 g, 22.4 g."),
    click.option(
        "--again",
        metavar="LIST|WEIGHT",
        multiple=True,
        help="A repeat of the same run, weighed the same way; use once per repeat.",
    ),
)
SCALE = (
    click.option("--resolution", metavar="WEIGHT", help="Smallest step of the scale.  [as typed]"),
    click.option("--scale-tolerance", metavar="WEIGHT", help="Scale accuracy (±)."),
    click.option("--row-cv", metavar="SHARE", help="Spread of this drill's rows.  [5%]"),
)
TARGET = (
    click.option("--target", metavar="RATE", help="Target rate: 60 lb/ac."),
    click.option("--tolerance", metavar="SHARE", help="How far off it may be (±).  [5%]"),
    click.option("--on", metavar="field|static", help="Which rate must meet it.  [field]"),
    click.option(
        "--test-weight", metavar="WEIGHT", help="This seed's test weight, for a target in bushels."
    ),
    click.option(
        "--field-ratio",
        metavar="RATIO",
        help="Field rate ÷ stationary rate for this drill: 0.96 ± 0.03.",
    ),
)


@click.command(
    epilog=example(
        'evenstand catch --rows 24 --spacing "7.5 in" --rolled "95 in"',
        '--turns "18 1/3" --rows-caught 4 --net "8.0 oz" --target "60 lb/ac"',
    )
)
@together(*DRILL, *WHEEL, *RUN, *SEED, *SCALE, *TARGET)
@answers
def catch(out: Out, again: tuple[str, ...], **flags: Any) -> None:
    """Figure the seeding rate from a catch.

    With its range, a verdict, and what would make it more certain.
    """
    given = written(flags)
    key = next((key for key in WEIGHTS if key in given), "net")
    found = read_catch(given, repeated(again, key, path=Flag("again"), also=given))
    if out.json:
        out.document(as_json(found, out.style))
        return
    out.warnings(found.warnings)
    out.show(catch_shown(found, out.pen))
