"""A kept mix with its lots, as it is read."""

from collections import Counter
from dataclasses import replace as changed

from msgspec.structs import replace

from evenstand.book.book import Book
from evenstand.book.errors import BookError
from evenstand.book.kinds import seed, work
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say

from ..job.kept import Kept, named
from ..job.tables import InTables
from ..parsing.given import Given
from ..parsing.structs import texts
from ..seed.kept import lot_body, lots_said
from ..seed.said import LotSaid
from .said import KEYS, MemberSaid, MixSaid, amount_text


def job_mix(book: Book, kept: Kept) -> MixSaid:
    """Return what a job says of its mix.

    Raises
    ------
    MeasurementError
        For a job without one: ``mix``.
    """
    return mix_said(book, mix_of(book, kept), field_of(kept))


def mix_of(book: Book, kept: Kept) -> seed.Mix:
    """Return the mix of a job; raises as `job_mix`."""
    mix = named(book, kept.body.mix, seed.Mix)
    if mix is None:
        raise MeasurementError("mix", None, say("choose a mix first"))
    return mix


def field_of(kept: Kept) -> work.Field:
    """Return the field of a job, one of the job's name where it has none."""
    return kept.field or work.Field(name=kept.body.name)


def mix_said(book: Book, mix: seed.Mix, area: work.Field) -> MixSaid:
    """Return a mix with its lots, each once and under a name of its own.

    A member whose lot is not in the book stands by its name alone.

    Parameters
    ----------
    area : Field
        That it is for.
    """
    lots = _lots(book, mix)
    return MixSaid(
        ground=area,
        lots=tuple(lots.values()),
        members=tuple(
            member_said(each, number, lots.get(each.lot or ""))
            for number, each in enumerate(mix.members, start=1)
        ),
        mix=replace(mix, members=()),
    )


def member_said(
    member: seed.Member, number: int, lot: LotSaid | None = None, *, box: str = ""
) -> MemberSaid:
    """Return a member with its lot.

    Parameters
    ----------
    number : int
        Its place in the mix, from 1.
    """
    full = "full_seeds" if member.full_basis == "live seeds" else "full_rate"
    rated = amount_text(KEYS[member.basis], member.rate) | amount_text(full, member.full)
    given = Given(texts(member) | rated, InTables("mix", number).part)
    return MemberSaid(given=given, member=member, lot=lot, box=box)


def lots_of(book: Book, mix: seed.Mix) -> list[Thing]:
    """Return the lots of a mix in their order, each once."""
    ids = dict.fromkeys(each.lot for each in mix.members if each.lot)
    return [thing for id in ids if (thing := _lot(book, id))]


def _lots(book: Book, mix: seed.Mix) -> dict[str, LotSaid]:
    """Return the lots of a mix by their ids.

    A lot without a name gets one only beside another of its species.
    """
    things = lots_of(book, mix)
    species = Counter(lot_body(thing).species for thing in things)
    said = lots_said(book, things, lambda number: InTables("lots", number).part)
    return {
        thing.id: changed(each, lot=replace(each.lot, name=""))
        if not lot_body(thing).name and species[each.lot.species] == 1
        else each
        for thing, each in zip(things, said, strict=True)
    }


def _lot(book: Book, id: str) -> Thing | None:
    try:
        thing = book.get(id)
    except BookError:
        return None
    return thing if isinstance(thing.body, seed.Lot) else None
