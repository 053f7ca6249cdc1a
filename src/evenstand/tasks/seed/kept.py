"""Kept lots as the tables of a job file, so that both are read in one way."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Any

from evenstand.book.book import Book
from evenstand.book.kinds.seed import GerminationTest, Lot, SeedCount, Tag
from evenstand.book.kinds.shape import Typed
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.quantities.units import (
    LOAD,
    MONEY,
    PRICE,
    SCALE_STEP,
    SEED_COUNT,
    SEED_WEIGHT,
    TEST_WEIGHT,
)
from evenstand.engine.seed.tag import Month

from ..job.tables import table
from ..parsing.given import Given, Written
from ..parsing.written import as_written, percent
from .lots import LotRead, Shelf, read_lot, read_shelf
from .tag import age_limit

THOUSAND = 1000
# How the seller told the seeds in a weight: key of a job file, field of a lot, kind.
COUNTS = (
    ("seeds_per_lb", "seeds_per_kg", SEED_COUNT),
    ("coated_per_lb", "coated_per_kg", SEED_COUNT),
    ("tsw", "thousand_seed_weight", SEED_WEIGHT),
)


def lot_table(book: Book, thing: Thing) -> dict[str, Any]:
    """Write a kept lot as a ``[[lots]]`` table of a job file.

    The newest count made of the lot stands in place of the seller's, and the
    newest home test beside the tag.

    Raises
    ------
    MeasurementError
        For a thing that is no lot.
    """
    if not isinstance(thing.body, Lot):
        raise MeasurementError("lot", thing.id, say("enter the ID of a lot"))
    count, test = count_of(book, thing.id), test_of(book, thing.id)
    return table_of(thing.body, count=count, test=test)


def lot_tables(book: Book, lots: Sequence[Thing]) -> list[dict[str, Any]]:
    """Write kept lots as tables in their order, each under a name of its own.

    A lot without a name has that of its species; of several with one name the
    later ones are numbered.
    """
    tables = [lot_table(book, thing) for thing in lots]
    taken: set[str] = set()
    for each in tables:
        name = each.get("name") or each["species"]
        number, free = 2, name
        while free in taken:
            number, free = number + 1, f"{name} ({number})"
        taken.add(free)
        each["name"] = free
    return tables


def shelf(book: Book, lots: Sequence[Thing], *, state: str, today: Month) -> Shelf:
    """Read kept lots as those of a job file are read.

    Parameters
    ----------
    state : str
        Whose limit of a test's age holds; empty for that of interstate trade.

    Raises
    ------
    MeasurementError
        As `read_shelf` does.
    """
    field = {"state": state} if state else {}
    return read_shelf({"field": field, "lots": lot_tables(book, lots)}, today=today)


def read_kept(
    lot: Lot,
    *,
    today: Month,
    state: str = "",
    count: SeedCount | None = None,
    test: GerminationTest | None = None,
) -> LotRead:
    """Read one kept lot, be its seeds counted or not.

    Parameters
    ----------
    state : str
        Whose limit of a test's age holds; empty for that of interstate trade.

    Raises
    ------
    MeasurementError
        As `read_lot` does, under the key of a job file alone: ``purity``.
    """
    limit, asked = age_limit(Given({"state": state} if state else {}))
    written = table(table_of(lot, count=count, test=test), "lots")
    plain = replace(written, given=replace(written.given, path=Written))
    found = read_lot(plain, today=today, limit=limit)
    return replace(found, warnings=(*asked, *found.warnings))


def count_of(book: Book, lot: str) -> SeedCount | None:
    """Return the newest count made of a lot."""
    for thing in book.things("seed count", of=lot):
        if isinstance(thing.body, SeedCount):
            return thing.body
    return None


def test_of(book: Book, lot: str) -> GerminationTest | None:
    """Return the newest home test of a lot that was counted."""
    for thing in book.things("germination test", of=lot):
        if isinstance(thing.body, GerminationTest) and thing.body.counted:
            return thing.body
    return None


def laid_out(book: Book, lot: str) -> Thing | None:
    """Return the newest home test of a lot, where it was laid out and is not counted yet."""
    for thing in book.things("germination test", of=lot, limit=1):
        if isinstance(thing.body, GerminationTest) and not thing.body.counted:
            return thing
    return None


def which_count(lot: Lot, count: SeedCount | None) -> Phrase | None:
    """Say which count of a lot holds, where there are two."""
    told = ", ".join(_told(lot).values())
    if count is None or not told:
        return None
    return say("Your own count is used, not the {told} on the tag or from the seller.", told=told)


def table_of(
    lot: Lot, *, count: SeedCount | None = None, test: GerminationTest | None = None
) -> dict[str, Any]:
    """Write what is kept of a lot as a ``[[lots]]`` table of a job file.

    Parameters
    ----------
    count : SeedCount, optional
        In place of what the lot says of the seeds in a weight.
    """
    found: dict[str, Any] = {
        "name": lot.name,
        "species": lot.species,
        **_tag_table(lot.tag),
        **(_count_table(count) if count else _told(lot)),
        **(_test_table(test) if test else {}),
        "bags": [
            [as_written(bag.weight, LOAD), *([as_written(bag.price, MONEY)] if bag.price else [])]
            for bag in lot.bags
        ],
        "price": lot.price and as_written(lot.price, PRICE),
        "on_hand": lot.on_hand and as_written(lot.on_hand, LOAD),
        "test_weight": lot.test_weight and as_written(lot.test_weight, TEST_WEIGHT),
        "age_limit": lot.age_limit and str(lot.age_limit),
    }
    found = {key: value for key, value in found.items() if value}
    said = {"count_hard": lot.count_hard, "fluffy": lot.fluffy}
    found |= {key: value for key, value in said.items() if value is not None}
    found |= {"own_name": True} if lot.own_name else {}
    return found | ({} if lot.buy else {"buy": False})


def _tag_table(tag: Tag) -> dict[str, Any]:
    needed = {"purity": percent(tag.purity), "germination": percent(tag.germination)}
    parts = {key: getattr(tag, key) for key in ("inert", "other_crop", "weed")}
    parts |= {key: getattr(tag, key) or None for key in ("hard", "dormant", "coating")}
    yes = {key: True for key in ("total_viable", "hermetic", "treated") if getattr(tag, key)}
    weeds = [f"{weed.name} {as_written(weed.per_kg, SEED_COUNT)}" for weed in tag.noxious]
    return {
        **needed,
        **{key: percent(share) for key, share in parts.items() if share is not None},
        **yes,
        "noxious": weeds,
        "tested": tag.tested,
        "seeds_tested": "" if tag.seeds_tested == 400 else str(tag.seeds_tested),
    }


def _told(lot: Lot) -> dict[str, str]:
    """How many seeds are in a weight as the tag or the seller says."""
    found = {}
    for key, name, kind in COUNTS:
        typed: Typed | None = getattr(lot, name)
        if typed:
            found[key] = as_written(typed, kind, of=THOUSAND if kind is SEED_WEIGHT else 1)
    return found


def _count_table(count: SeedCount) -> Mapping[str, Any]:
    weights = [as_written(sample.weight, SCALE_STEP) for sample in count.samples]
    if count.way == "replicates":
        return {"replicates": weights}
    counted = [f"{s.seeds} in {weight}" for s, weight in zip(count.samples, weights, strict=True)]
    step = count.resolution and as_written(count.resolution, SCALE_STEP)
    return {"counted": counted, "resolution": step}


def _test_table(test: GerminationTest) -> Mapping[str, Any]:
    dishes = [f"{dish.sprouted}/{dish.seeds}" for dish in test.dishes]
    hard = {} if test.hard is None else {"home_hard": str(test.hard)}
    return {"home_test": dishes, **hard}
