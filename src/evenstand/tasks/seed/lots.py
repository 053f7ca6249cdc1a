"""Seed lots of a job: what is on the shelf, or offered."""

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace

from evenstand.book.kinds.seed import Lot
from evenstand.engine.order.bags import BagSize
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say, series
from evenstand.engine.quantities.units import LOAD
from evenstand.engine.seed.age import AgeLimit
from evenstand.engine.seed.count import Counted
from evenstand.engine.seed.lot import pls_fraction
from evenstand.engine.seed.result import TagResult, tag_result
from evenstand.engine.seed.species import Species
from evenstand.engine.seed.species_names import find
from evenstand.engine.seed.tag import Month, Tag
from evenstand.engine.statistics.budget import Quantity

from ..parsing.given import Given
from ..parsing.warned import Warned
from .bags import bags_sold, best_price
from .count import count_asked, count_taken, read_count
from .said import LotSaid
from .species_table import species_table
from .tag import age_limit, choice_taken, doubts, price_of, read_tag, test_weight_of


@dataclass(frozen=True, kw_only=True)
class LotRead:
    """A lot of seed as read: its tag, its count, what it costs and how it is sold.

    ``species`` is None for seed that the table does not have, ``count`` where
    neither the lot nor the table tells it. ``price`` is that of bulk seed [$/kg], ``on_hand``
    what lies there already [kg], ``test_weight`` its own [kg/m³].
    """

    said: LotSaid
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
    def given(self) -> Given:
        """Where its inputs stand."""
        return self.said.given

    @property
    def name(self) -> str:
        """Name of the lot, empty where nobody gave one."""
        return self.said.lot.name

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

    def of(self, said: LotSaid) -> ShelfLot:
        """Return a lot of the shelf, or one beside it."""
        known = (lot for lot in self.lots if lot.said is said)
        return next(known, None) or _counted(said, today=self.today, limit=self.limit)


def read_shelf(lots: Sequence[LotSaid], *, state: str, of: Given, today: Month) -> Shelf:
    """Read the lots of a job.

    Parameters
    ----------
    state : str
        Whose limit of a test's age holds; empty for that of interstate trade.
    of : Given
        Where the state was written.

    Raises
    ------
    MeasurementError
        As `read_lot` does, and for a lot that nobody counted.
    """
    limit, asked = age_limit(of, state)
    read = tuple(_counted(said, today=today, limit=limit) for said in lots)
    return Shelf(lots=read, today=today, limit=limit, warnings=asked)


def _counted(said: LotSaid, *, today: Month, limit: AgeLimit) -> ShelfLot:
    found = read_lot(said, today=today, limit=limit)
    if found.count is None:
        need = say("enter this or tsw: the table has no seed count for this species")
        raise said.given.refuse("seeds_per_lb", need)
    parts = {part.name: getattr(found, part.name) for part in fields(found)}
    return ShelfLot(**parts)


def read_lot(said: LotSaid, *, today: Month, limit: AgeLimit) -> LotRead:
    """Read a lot, be its seeds counted or not.

    Raises
    ------
    MeasurementError
        Under the input that it is about.
    """
    given, lot = said.given, said.lot
    species, name = species_of(said)
    tag = read_tag(said, species=species)
    count = read_count(said, tag, species)
    own_limit = age_limit(given, "", months=lot.age_limit)[0] if lot.age_limit else limit
    price = best_price(given, lot.bags) if lot.price is None else price_of(said)
    with given.pointing():
        result = tag_result(
            tag,
            count_hard=lot.count_hard,
            count=count,
            species=species,
            today=today,
            limit=own_limit,
        )
    called = say("{species} {lot}", species=name, lot=lot.name) if lot.name else name
    return LotRead(
        said=said,
        species=species,
        species_name=name,
        tag=tag,
        count=count,
        limit=own_limit,
        result=result,
        price=price,
        bags=bags_sold(given, lot.bags, price=price),
        on_hand=given.plain("on_hand", lot.on_hand, LOAD, zero=True) if lot.on_hand else 0.0,
        test_weight=test_weight_of(said),
        fluffy=_fluffy(lot, species),
        assumed=(*choice_taken(said, tag, result.choice), *count_taken(said, count)),
        warnings=tuple(
            replace(each, about=called)
            for each in (*doubts(said, result), *count_asked(said, count))
        ),
    )


def species_of(said: LotSaid) -> tuple[Species | None, str]:
    """Return the species of a lot, None for a name of its own, and how it is called."""
    return species_or_own(said.given, said.lot.species, own=said.lot.own_name)


def species_or_own(given: Given, name: str, *, own: bool) -> tuple[Species | None, str]:
    """Find the species that was named; a name of one's own must be said to be one.

    Raises
    ------
    MeasurementError
        For a name that is missing, means several, or is not in the table.
    """
    name = name or given.text("species")
    if own:
        return None, name
    found = find(name, species_table())
    if found.species is not None:
        return found.species, found.species.name
    need = found.question or say("enter a species name")
    if not found.candidates:
        need = say("{need}, or check that the name is your own", need=need)
    raise given.refuse("species", need)


def _fluffy(lot: Lot, species: Species | None) -> bool:
    return (species is not None and species.has("chaffy")) if lot.fluffy is None else lot.fluffy


def lot_named(lots: Sequence[LotSaid], given: Given, name: str) -> LotSaid:
    """Return the lot of a name.

    Raises
    ------
    MeasurementError
        For a name that no lot has.
    """
    for said in lots:
        if said.lot.name == name:
            return said
    names = ", ".join(said.lot.name for said in lots if said.lot.name)
    need = say("no lot has that name: use one of {names}", names=names)
    if not names:
        need = say("no lot has a name: name one in [[lots]], or enter the tag here")
    raise given.refuse("lot", need)


def lot_of_species(lots: Sequence[LotSaid], given: Given, name: str) -> LotSaid:
    """Return the only lot of a species.

    Raises
    ------
    MeasurementError
        For a species with no lot, or with several.
    """
    found = [said for said in lots if species_of(said)[1] == name]
    if len(found) == 1:
        return found[0]
    if found:
        none = say("an unnamed lot")
        names = series([said.lot.name or none for said in found], last="or")
        raise given.refuse("lot", say("choose a lot of {name}: {names}", name=name, names=names))
    need = say("{name} has no lot in [[lots]]: enter its tag there or here", name=name)
    raise MeasurementError(given.path("purity"), None, need)
