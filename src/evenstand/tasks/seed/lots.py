"""Seed lots of a job file: what is on the shelf, or offered."""

from collections.abc import Mapping
from dataclasses import dataclass, fields, replace
from typing import Any

from evenstand.engine.order.bags import BagSize
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say, series
from evenstand.engine.quantities.units import LOAD, MONEY, PRICE
from evenstand.engine.seed.age import AgeLimit
from evenstand.engine.seed.count import Counted
from evenstand.engine.seed.lot import pls_fraction
from evenstand.engine.seed.result import TagResult, tag_result
from evenstand.engine.seed.species import Species
from evenstand.engine.seed.species_names import find
from evenstand.engine.seed.tag import Month, Tag
from evenstand.engine.statistics.budget import Quantity

from ..job.tables import JobTable, many, one
from ..parsing import reading
from ..parsing.given import Given
from ..parsing.warned import Warned
from .count import count_asked, count_taken, read_count
from .species_table import species_table
from .tag import (
    age_limit,
    choice_taken,
    count_hard,
    doubt_key,
    read_tag,
    refuse_strays,
    yes,
    zero_or_more,
)


@dataclass(frozen=True, kw_only=True)
class LotRead:
    """A lot of seed as read: its tag, its count, what it costs and how it is sold.

    ``name`` is that of the lot, empty where nobody gave one; ``species`` is
    None for seed that the table does not have, ``count`` where neither the lot
    nor the table tells it. ``price`` is that of bulk seed [$/kg], ``on_hand``
    what lies there already [kg], ``test_weight`` its own [kg/m³].
    """

    given: Given
    name: str
    species: Species | None
    species_name: str
    tag: Tag
    count: Counted | None
    limit: AgeLimit
    result: TagResult
    price: float | None
    bags: tuple[BagSize, ...]
    on_hand: float
    test_weight: float | None
    fluffy: bool
    assumed: tuple[Phrase, ...]
    warnings: tuple[Warned, ...]

    @property
    def pls(self) -> Quantity:
        """Pure live seed in the bulk, hard seed counted as was chosen. [-]"""
        return pls_fraction(self.tag, count_hard=self.result.count_hard)


@dataclass(frozen=True, kw_only=True)
class ShelfLot(LotRead):
    """A lot of which it is known how many seeds are in a weight, as a mix needs it."""

    count: Counted


@dataclass(frozen=True, kw_only=True)
class Shelf:
    """All lots of a job, and where and when their tags are judged."""

    lots: tuple[ShelfLot, ...]
    today: Month
    limit: AgeLimit
    warnings: tuple[Warned, ...]

    def read(self, table: JobTable) -> ShelfLot:
        """Read one more lot from a table of its own."""
        return _lot(table, today=self.today, limit=self.limit)


def read_shelf(file: Mapping[str, Any], *, today: Month) -> Shelf:
    """Read the lots of a file.

    Raises
    ------
    MeasurementError
        As `read_tag` does, and for two lots of one name.
    """
    limit, asked = age_limit(one(file, "field").given)
    empty = Shelf(lots=(), today=today, limit=limit, warnings=asked)
    lots: list[ShelfLot] = []
    for table in many(file, "lots"):
        lot = empty.read(table)
        if lot.name and any(lot.name == earlier.name for earlier in lots):
            raise table.given.refuse("name", say("give each lot its own name"))
        lots.append(lot)
    return Shelf(lots=tuple(lots), today=today, limit=limit, warnings=asked)


def _lot(table: JobTable, *, today: Month, limit: AgeLimit) -> ShelfLot:
    found = read_lot(table, today=today, limit=limit)
    if found.count is None:
        need = say("enter this or tsw: the table has no seed count for this species")
        raise found.given.refuse("seeds_per_lb", need)
    parts = {part.name: getattr(found, part.name) for part in fields(found)}
    return ShelfLot(**parts)


def read_lot(table: JobTable, *, today: Month, limit: AgeLimit) -> LotRead:
    """Read a lot, be its seeds counted or not.

    Raises
    ------
    MeasurementError
        As `read_tag` does.
    """
    given = table.given
    refuse_strays(given)
    species, name = species_or_own(given)
    tag = read_tag(given, species=species)
    count = read_count(given, tag, species)
    own_limit = age_limit(given)[0] if "age_limit" in given else limit
    bags = _bags(table)
    price = zero_or_more(given, "price", PRICE) if "price" in given else _best_price(bags)
    with given.pointing():
        result = tag_result(
            tag,
            count_hard=count_hard(given),
            count=count,
            species=species,
            today=today,
            limit=own_limit,
        )
    doubts = [Warned(given.path(doubt_key(given, d.field)), d.say) for d in result.warnings]
    own = given.text("name") if "name" in given else ""
    called = say("{species} {lot}", species=name, lot=own) if own else name
    return LotRead(
        given=given,
        name=own,
        species=species,
        species_name=name,
        tag=tag,
        count=count,
        limit=own_limit,
        result=result,
        price=price,
        bags=_priced(bags, price),
        on_hand=zero_or_more(given, "on_hand", LOAD) if "on_hand" in given else 0.0,
        test_weight=reading.test_weight(given),
        fluffy=_fluffy(given, species),
        assumed=(*choice_taken(given, tag, result.choice), *count_taken(given, count)),
        warnings=tuple(
            replace(each, about=called) for each in (*doubts, *count_asked(given, count))
        ),
    )


def species_or_own(given: Given) -> tuple[Species | None, str]:
    """Find the species that was named; a name of one's own must be said to be one.

    Raises
    ------
    MeasurementError
        For a name that is missing, means several, or is not in the table.
    """
    name = given.text("species")
    if yes(given, "own_name"):
        return None, name
    found = find(name, species_table())
    if found.species is not None:
        return found.species, found.species.name
    need = found.question or say("enter a species name")
    if not found.candidates:
        need = say("{need}, or check that the name is your own", need=need)
    raise given.refuse("species", need)


def _fluffy(given: Given, species: Species | None) -> bool:
    if "fluffy" in given:
        return given.yes("fluffy")
    return species is not None and species.has("chaffy")


def _bags(table: JobTable) -> tuple[BagSize, ...]:
    """Read the bags a lot is sold in: ``"50 lb"``, or with its price ``["50 lb", "$22"]``."""
    if "bags" not in table.whole:
        return ()
    return tuple(_bag(table.given, each) for each in table.lists("bags"))


def _bag(given: Given, written: Any) -> BagSize:
    parts = written if isinstance(written, list) else [written]
    if not 1 <= len(parts) <= 2:
        need = say("enter a bag as its weight, or as weight and price, {x}", x='["50 lb", "$22"]')
        raise given.piece("bags", str(written)).refuse("bags", need)
    weight, *price = (given.piece("bags", str(part)) for part in parts)
    with weight.pointing(bag_size="bags", bag_price="bags"):
        return BagSize(
            weight=weight.exact("bags", LOAD),
            price=zero_or_more(price[0], "bags", MONEY) if price else None,
        )


def _best_price(bags: tuple[BagSize, ...]) -> float | None:
    """Take the price of the bag that is cheapest by weight. [$/kg]"""
    return min((bag.price / bag.weight for bag in bags if bag.price is not None), default=None)


def _priced(bags: tuple[BagSize, ...], price: float | None) -> tuple[BagSize, ...]:
    """Price every bag that has no price of its own by weight."""
    if price is None:
        return bags
    return tuple(
        bag if bag.price is not None else BagSize(weight=bag.weight, price=price * bag.weight)
        for bag in bags
    )


def lot_named(shelf: Shelf, given: Given) -> ShelfLot:
    """Return the lot that ``lot`` names.

    Raises
    ------
    MeasurementError
        For a name that no lot has.
    """
    name = given.text("lot")
    for lot in shelf.lots:
        if lot.name == name:
            return lot
    names = ", ".join(lot.name for lot in shelf.lots if lot.name)
    need = say("no lot has that name: use one of {names}", names=names)
    if not names:
        need = say("no lot has a name: name one in [[lots]], or enter the tag here")
    raise given.refuse("lot", need)


def lot_of_species(shelf: Shelf, given: Given) -> ShelfLot:
    """Return the only lot of the species that was named.

    Raises
    ------
    MeasurementError
        For a species with no lot, or with several.
    """
    name = species_or_own(given)[1]
    lots = [lot for lot in shelf.lots if lot.species_name == name]
    if len(lots) == 1:
        return lots[0]
    if lots:
        none = say("an unnamed lot")
        names = series([lot.name or none for lot in lots], last="or")
        raise given.refuse("lot", say("choose a lot of {name}: {names}", name=name, names=names))
    need = say("{name} has no lot in [[lots]]: enter its tag there or here", name=name)
    raise MeasurementError(given.path("purity"), None, need)
