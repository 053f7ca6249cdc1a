"""The bags that seed or a carrier is sold in, as files, forms and book have them."""

from collections.abc import Iterable, Iterator
from functools import partial
from typing import Any

from evenstand.book.kinds.seed import BagSize as KeptBag
from evenstand.engine.order.bags import BagSize
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import LOAD, MONEY

from ..job.tables import JobTable
from ..parsing.given import Given
from ..parsing.structs import keys, numbered, read, texts
from ..parsing.writing import Writing, as_typed

MOST_BAGS = 6


def bags_in(table: JobTable) -> tuple[KeptBag, ...]:
    """Read bags of a job file: ``"50 lb"``, or with its price ``["50 lb", "$22"]``."""
    return tuple(_bag(table.given, each) for each in table.lists("bags"))


def _bag(given: Given, written: Any) -> KeptBag:
    parts = written if isinstance(written, list) else [written]
    if not 1 <= len(parts) <= 2:
        need = say("enter a bag as its weight, or as weight and price, {x}", x='["50 lb", "$22"]')
        raise given.piece("bags", str(written)).refuse("bags", need)
    kinds = zip(parts, (LOAD, MONEY), strict=False)
    read_, *price = (given.piece("bags", str(part)).reading("bags", kind) for part, kind in kinds)
    return KeptBag(weight=as_typed(read_), price=as_typed(price[0]) if price else None)


def bags_typed(form: Writing, line: str = "") -> Iterator[KeptBag]:
    """Read bags of a form: ``bag1_weight``, ``bag1_price``, behind ``line``."""
    for i in numbered(form.given, f"{line}bag", keys(KeptBag), most=MOST_BAGS):
        yield read(form, KeptBag, line=f"{line}bag{i}_")


def bag_texts(bags: Iterable[KeptBag], line: str = "") -> dict[str, str]:
    """Return the fields of a form as they were filled in."""
    written: dict[str, str] = {}
    for i, bag in enumerate(bags, 1):
        written |= texts(bag, line=f"{line}bag{i}_")
    return written


def bags_sold(given: Given, bags: Iterable[KeptBag], *, price: float | None) -> tuple[BagSize, ...]:
    """Return the bags to order; one without a price costs what its weight costs.

    Parameters
    ----------
    price : float or None
        By weight. [$/kg]
    """
    plain = partial(given.plain, "bags")

    def cost(bag: KeptBag) -> float | None:
        if bag.price is not None:
            return plain(bag.price, MONEY, zero=True)
        return None if price is None else price * plain(bag.weight, LOAD)

    return tuple(BagSize(weight=plain(bag.weight, LOAD), price=cost(bag)) for bag in bags)


def best_price(given: Given, bags: Iterable[KeptBag]) -> float | None:
    """Return the price of the bag that is cheapest by weight, None where none has one. [$/kg]"""
    sold = bags_sold(given, bags, price=None)
    return min((bag.price / bag.weight for bag in sold if bag.price is not None), default=None)
