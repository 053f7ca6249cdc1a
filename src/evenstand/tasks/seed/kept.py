"""Kept lots, each with the count and the home test that hold for it."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from msgspec import structs

from evenstand.book.book import Book
from evenstand.book.kinds.seed import GerminationTest, Lot, SeedCount
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.seed.tag import Month

from ..parsing.given import Written
from .lots import LotRead, read_lot
from .said import TOLD, LotSaid, kept_lot
from .tag import age_limit


def lots_said(
    book: Book, lots: Sequence[Thing], path: Callable[[int], Callable[[str], Written]]
) -> list[LotSaid]:
    """Return what is said of kept lots in their order, each under a name of its own.

    A lot without a name has that of its species; of several with one name the
    later ones are numbered. The newest count made of a lot holds in place of
    the seller's, and the newest home test beside the tag.

    Parameters
    ----------
    path : callable
        From the number of a lot, from 1, to where its inputs stand.

    Raises
    ------
    MeasurementError
        For a thing that is no lot.
    """
    found: list[LotSaid] = []
    for place, thing in enumerate(lots, start=1):
        lot, taken = lot_body(thing), [each.lot.name for each in found]
        name = lot.name or lot.species
        number, free = 2, name
        while free in taken:
            number, free = number + 1, f"{name} ({number})"
        count, test = count_of(book, thing.id), test_of(book, thing.id)
        own = structs.replace(lot, name=free)
        found.append(kept_lot(own, count=count, test=test, path=path(place)))
    return found


def lot_body(thing: Thing) -> Lot:
    """Return what a lot says.

    Raises
    ------
    MeasurementError
        For a thing that is no lot.
    """
    if not isinstance(thing.body, Lot):
        raise MeasurementError("lot", thing.id, say("enter the ID of a lot"))
    return thing.body


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
    said = kept_lot(lot, count=count, test=test)
    limit, asked = age_limit(said.given, state)
    found = read_lot(said, today=today, limit=limit)
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
    told = ", ".join(typed.text for name in TOLD if (typed := getattr(lot, name)))
    if count is None or not told:
        return None
    return say("Your own count is used, not the {told} on the tag or from the seller.", told=told)
