"""``evenstand tag``: what the tag on a bag of seed comes to."""

from typing import Any

import click

from evenstand.report.json import as_json
from evenstand.tasks.documents.tag import tag_shown
from evenstand.tasks.seed.tag import read_tag_result

from .clock import TODAY, this_month
from .flags import answers, example, together, written
from .output import Out


def many(flag: str, *, metavar: str, text: str) -> Any:
    """Return a flag that may stand many times, its texts joined as those of a list."""
    return click.option(
        flag,
        metavar=metavar,
        multiple=True,
        callback=lambda _context, _param, texts: "; ".join(texts) or None,
        help=text,
    )


def switch(flag: str, *, text: str) -> Any:
    """Return a flag that says yes by standing there."""
    return click.option(flag, is_flag=True, flag_value="yes", default=None, help=text)


PARTS = (
    click.option("--purity", metavar="SHARE", required=True, help="Pure seed, by weight: 98%."),
    click.option(
        "--germination", metavar="SHARE", required=True, help="Germination, of pure seed: 92%."
    ),
    click.option("--hard", metavar="SHARE", help="Hard seed, of pure seed."),
    click.option("--dormant", metavar="SHARE", help="Dormant seed, of pure seed."),
    switch("--total-viable", text="Germination is a total that includes hard and dormant seed."),
    click.option("--inert", metavar="SHARE", help="Inert matter, by weight, including coating."),
    click.option("--other-crop", metavar="SHARE", help="Seed of other crops, by weight."),
    click.option("--weed", metavar="SHARE", help="Weed seed, by weight."),
    click.option("--coating", metavar="SHARE", help="Coating, by weight, inside inert matter."),
    many("--noxious", metavar="NAME COUNT", text="A noxious weed: dodder 18 seeds/lb."),
    click.option("--tested", metavar="MONTH", help="Month germination was tested: 2026-03."),
    click.option("--seeds-tested", metavar="N", help="Seeds in that test.  [400]"),
    switch("--hermetic", text="Hermetically sealed: its test may be older."),
    switch("--treated", text="Treated with a pesticide."),
)
HOME = (
    many("--home-test", metavar="N/N", text="Your own test, sprouted/laid out, one per towel."),
    click.option("--home-hard", metavar="N", help="Firm seeds left in that test."),
)
COUNT = (
    click.option("--seeds-per-lb", metavar="N", help="Seeds in a pound of pure seed."),
    click.option("--tsw", metavar="WEIGHT", help="Or the weight of 1,000 seeds: 25 g."),
    click.option("--coated-per-lb", metavar="N", help="Or coated seeds per pound, as sold."),
    click.option("--replicates", metavar="LIST", help="Or the weights of eight 100-seed samples."),
    many("--counted", metavar="N in WEIGHT", text="Or seeds in a weighed sample: 560 in 20 g."),
    click.option("--resolution", metavar="WEIGHT", help="Scale's smallest step, with --counted."),
)
WANTED = (
    click.option("--rate", metavar="RATE", help="Target rate, with --basis: 3 lb/ac."),
    click.option("--basis", metavar="pls|bulk", help="PLS, or bulk as in the bag."),
    click.option(
        "--test-weight", metavar="WEIGHT", help="This seed's test weight, for a rate in bushels."
    ),
    click.option("--price", metavar="PRICE", help="Of bulk seed: 0.45 $/lb."),
)
JUDGED = (
    click.option("--species", metavar="NAME", help="Check it against this species in the table."),
    click.option(
        "--count-hard", metavar="yes|no", help="Whether hard and dormant seed counts as live."
    ),
    click.option("--state", metavar="STATE", help="State whose test-age limit applies: KY."),
    click.option("--age-limit", metavar="N", help="Or your own limit, in months."),
    TODAY,
)


@click.command(
    epilog=example(
        'evenstand tag --species "hairy vetch" --purity "98%" --germination "80%"',
        '--hard "12%" --seeds-per-lb 16,500 --rate "15 lb/ac" --basis pls',
    )
)
@together(*PARTS, *HOME, *COUNT, *WANTED, *JUDGED)
@answers
def tag(out: Out, today: str | None, **flags: Any) -> None:
    """Figure pure live seed from a seed tag.

    Pure live seed both ways, the rate to sow, live seeds on the ground, and
    what is odd about it.
    """
    found = read_tag_result(written(flags), today=this_month(today))
    if out.json:
        out.document(as_json(found, out.style))
    else:
        out.warnings(found.warnings)
        out.show(tag_shown(found, out.pen))
