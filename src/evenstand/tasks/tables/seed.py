"""The table of lots."""

from collections.abc import Iterator
from operator import attrgetter

from evenstand.book.kinds.seed import BagSize, Lot, Noxious, Tag
from evenstand.engine.quantities.phrases import say
from evenstand.engine.seed.germination import TEST_SEEDS

from ..seed.bags import MOST_BAGS
from ..seed.form import MOST_WEEDS
from .columns import ID, NOTES, Fields, nth
from .model import Column, Table, TableLine, yes

_LOT, _TAG = Fields(Lot), Fields(Tag, attrgetter("body.tag"))


def _seeds_tested(line: TableLine) -> int | None:
    seeds: int = line.body.tag.seeds_tested
    return None if seeds == TEST_SEEDS else seeds


def bag_columns(parts: str) -> Iterator[Column]:
    """Make the columns of bags that something is sold in, spare ones for each."""
    for i in range(1, MOST_BAGS + 1):
        bag = Fields(BagSize, nth(parts, i), line=f"bag{i}_", spare=True)
        yield from bag.columns(weight=say("bag {n}", n=i), price=say("bag {n}, price", n=i))


def _weed(i: int) -> Iterator[Column]:
    weed = Fields(Noxious, nth("body.tag.noxious", i), line=f"noxious{i}_", spare=True)
    name, seeds = say("noxious weed {n}", n=i), say("noxious weed {n}, seeds", n=i)
    return weed.columns(name=name, per_kg=seeds)


LOTS = Table(
    name="lots",
    kind="lot",
    label=say("Seed lots"),
    columns=(
        _LOT.column("name", say("lot"), also=("lot number", "lot name")),
        _LOT.column("species", also=("kind", "crop")),
        _TAG.column("purity", say("purity"), also=("pure seed",)),
        _TAG.column("germination", say("germination"), also=("germ",)),
        *_TAG.columns("hard", "dormant", "coating", "inert"),
        _TAG.column("other_crop", say("other crop seed"), also=("crop seed",)),
        _TAG.column("weed"),
        _TAG.column("tested", say("test date"), also=("date tested", "test month")),
        _TAG.column("seeds_tested", value=_seeds_tested),
        _LOT.column("seeds_per_kg", say("pure seed count"), called="seeds_in_weight"),
        _LOT.column("coated_per_kg", say("coated seed count"), called="coated_in_weight"),
        _LOT.column(
            "thousand_seed_weight",
            say("thousand-seed weight"),
            also=("tkw", "tgw"),
            called="thousand_seed_weight",
        ),
        _LOT.column("test_weight", say("test weight")),
        _LOT.column("price"),
        *bag_columns("body.bags"),
        _LOT.column("on_hand", say("on hand")),
        _LOT.column(
            "buy", say("available to buy"), key="buy", value=lambda line: yes(line.body.buy)
        ),
        _TAG.column("treated"),
        _LOT.column("treated_with"),
        _TAG.column("total_viable", say("germination is total viable")),
        _TAG.column("hermetic"),
        *_LOT.columns(
            own_name=say("name is your own"),
            count_hard=say("count hard seed as live"),
            fluffy=say("fluffy"),
            age_limit=say("test good for (months)"),
        ),
        *(column for i in range(1, MOST_WEEDS + 1) for column in _weed(i)),
        _LOT.column("note", also=NOTES),
        ID,
    ),
)
