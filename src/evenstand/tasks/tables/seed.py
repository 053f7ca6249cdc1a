"""The table of lots. A key is a field of the form that reads it."""

from collections.abc import Callable
from datetime import date
from operator import attrgetter
from typing import Any

from evenstand.book.kinds.seed import BagSize, Noxious
from evenstand.engine.quantities import units as u
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.seed.germination import TEST_SEEDS

from ..seed.form import MOST_BAGS, MOST_WEEDS
from .columns import ID, NOTE, amount, from_body, nth, spare, text, tick
from .model import Column, Table, TableLine

# The weight of a thousand seeds, which is kept for all of them together.
THOUSAND = u.Kind("seed weight", "mass/seeds", *[u.Unit("g per 1,000", u.GRAM)] * 2)


def _share(key: str, label: Phrase, *, zero: bool = False, **more: Any) -> Column:
    """Make a column of a share of the tag; 0 shows where it says more than nothing at all."""

    def get(lot: Any) -> Any:
        share = getattr(lot.tag, key)
        return share if zero else share or None

    return Column(key=key, label=label, value=from_body(get), measure=u.SHARE, **more)


def _tested(line: TableLine) -> date | None:
    return date.fromisoformat(f"{line.body.tag.tested}-01") if line.body.tag.tested else None


def _seeds_tested(line: TableLine) -> int | None:
    seeds: int = line.body.tag.seeds_tested
    return None if seeds == TEST_SEEDS else seeds


def _bag(i: int) -> tuple[Column, ...]:
    weight: Callable[[BagSize], Any] = attrgetter("weight")
    price: Callable[[BagSize], Any] = attrgetter("price")
    return (
        spare(f"bag{i}_weight", say("bag {n}", n=i), nth("bags", i, weight), measure=u.LOAD),
        spare(f"bag{i}_price", say("bag {n}, price", n=i), nth("bags", i, price), measure=u.MONEY),
    )


def _weed(i: int) -> tuple[Column, ...]:
    def of(get: Callable[[Noxious], Any]) -> Callable[[TableLine], Any]:
        return lambda line: (
            get(line.body.tag.noxious[i - 1]) if i <= len(line.body.tag.noxious) else None
        )

    count = of(attrgetter("per_kg"))
    return (
        spare(f"noxious{i}_name", say("noxious weed {n}", n=i), of(attrgetter("name"))),
        spare(
            f"noxious{i}_count", say("noxious weed {n}, seeds", n=i), count, measure=u.SEED_COUNT
        ),
    )


LOTS = Table(
    name="lots",
    kind="lot",
    label=say("Seed lots"),
    columns=(
        text("name", say("lot"), also=("lot number", "lot name")),
        text("species", say("species"), needed=True, also=("kind", "crop")),
        _share("purity", say("purity"), zero=True, needed=True, also=("pure seed",)),
        _share("germination", say("germination"), zero=True, needed=True, also=("germ",)),
        _share("hard", say("hard seed"), also=("hard",)),
        _share("dormant", say("dormant seed"), also=("dormant",)),
        _share("coating", say("coating")),
        _share("inert", say("inert matter"), zero=True, also=("inert",)),
        _share("other_crop", say("other crop seed"), zero=True, also=("other crop", "crop seed")),
        _share("weed", say("weed seed"), zero=True, also=("weed",)),
        Column(
            key="tested",
            label=say("test date"),
            value=_tested,
            sort="month",
            also=("test date", "date tested", "test month"),
        ),
        Column(key="seeds_tested", label=say("seeds tested"), value=_seeds_tested, sort="number"),
        amount(
            "seeds_per_lb",
            say("pure seed count"),
            u.SEED_COUNT,
            name="seeds_per_kg",
            called="seeds_in_weight",
        ),
        amount(
            "coated_per_lb",
            say("coated seed count"),
            u.SEED_COUNT,
            name="coated_per_kg",
            called="coated_in_weight",
        ),
        Column(
            key="tsw",
            called="thousand_seed_weight",
            label=say("thousand-seed weight"),
            value=lambda line: line.body.thousand_seed_weight,
            measure=THOUSAND,
            also=("tsw", "tkw", "tgw"),
        ),
        amount("test_weight", say("test weight"), u.TEST_WEIGHT),
        amount("price", say("price"), u.PRICE),
        *(column for i in range(1, MOST_BAGS + 1) for column in _bag(i)),
        amount("on_hand", say("on hand"), u.LOAD),
        tick("buy", say("available to buy")),
        tick("treated", say("treated"), "tag.treated"),
        text("treated_with", say("treated with")),
        tick("total_viable", say("germination is total viable"), "tag.total_viable"),
        tick("hermetic", say("sealed against moisture"), "tag.hermetic"),
        tick("own_name", say("name is your own"), "own_name"),
        tick("count_hard", say("count hard seed as live")),
        tick("fluffy", say("fluffy")),
        text("age_limit", say("test good for (months)"), sort="number"),
        *(column for i in range(1, MOST_WEEDS + 1) for column in _weed(i)),
        NOTE,
        ID,
    ),
)
