"""The counts of a kept job, and what is known beside them."""

from collections.abc import Iterator, Sequence
from datetime import date

from evenstand.book.book import Book
from evenstand.book.kinds import work
from evenstand.book.kinds.shape import Typed
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase, say
from evenstand.engine.stand.advice import too_early
from evenstand.engine.stand.emergence import SOWN
from evenstand.engine.stand.place import Place
from evenstand.engine.stand.species import SownSpecies
from evenstand.engine.stand.tables import Water
from evenstand.engine.stand.usual import UNKNOWN, USUAL

from ..boxes.kept import body_of
from ..drill.machines import quantity
from ..job.kept import Kept, job_drill
from ..job.tables import InTables
from ..whole_job.gather import record_of
from .count import places_of
from .next_season import Earlier
from .seed_down import SeedDown, as_typed
from .stand import DAY, Known

OF_SOWING = ("load", "finished")  # kinds of what is written down while it is sown


def counts_of(book: Book, job: str) -> tuple[Thing, ...]:
    """Return the counts of plants of a job, oldest first."""
    things = book.things("count", of=job)
    return tuple(each for each in reversed(things) if isinstance(each.body, work.StandCount))


def bodies_of(counts: Sequence[Thing]) -> list[work.StandCount]:
    """Return what counts say."""
    return [each.body for each in counts if isinstance(each.body, work.StandCount)]


def wish_of(book: Book, job: str) -> Thing | None:
    """Return what was last said of what a stand is judged by."""
    for thing in book.things("stand wish", of=job, limit=1):
        if isinstance(thing.body, work.StandWish):
            return thing
    return None


def sown_on(book: Book, job: str, said: work.StandWish | None) -> str | None:
    """Return the day a job was sown: as said, else by its loads, else by its record."""
    if said and said.sown:
        return said.sown
    record = body_of(record_of(book, job), work.Record)
    in_record = (record.last or record.first) if record else None
    return max(_days_of_sowing(book, job), default=in_record)


def _days_of_sowing(book: Book, job: str) -> Iterator[str]:
    for kind in OF_SOWING:
        for thing in book.things(kind, of=job):
            if day := getattr(thing.body, "day", None):
                yield day


def places_counted(book: Book, kept: Kept) -> tuple[Place, ...]:
    """Return all places of a job that were counted.

    Raises
    ------
    MeasurementError
        For a job without a count, or what `places_of` refuses.
    """
    counts = bodies_of(counts_of(book, kept.thing.id))
    if not counts:
        raise MeasurementError("places", None, say("count the plants in at least one spot"))
    spacing = _between_open(kept)
    return places_of(counts, spacing=quantity(spacing, "row spacing") if spacing else None)


def known_beside(
    book: Book, kept: Kept, down: SeedDown | None, *, earlier: tuple[Earlier, ...] = ()
) -> Known:
    """Return what is known beside the counts of a job.

    Parameters
    ----------
    down : SeedDown or None
        None where only the stand is asked for.
    """
    job, counts = kept.thing.id, bodies_of(counts_of(book, kept.thing.id))
    said = body_of(wish_of(book, job), work.StandWish) or work.StandWish(job=job)
    own = counts[-1].spacing if counts and all(count.spacing for count in counts) else None
    spacing = own or _between_open(kept)
    since = _days_since(sown_on(book, job, said), [each.day for each in counts if each.day])
    names = {seen.species for count in counts for place in count.places for seen in place.plants}
    return Known(
        wish=said.wish.value if said.wish else None,
        spacing=spacing.value if spacing else None,
        crop=said.crop.replace("-", " "),
        early=None if since is None else _early(said, since),
        sown=_sown(down, apart=names != {""}) if down and down.seeds else (),
        field=where(kept),
        earlier=earlier,
    )


def _between_open(kept: Kept) -> Typed | None:
    """Ground that each open row has across: the spacing, more where rows between are shut off."""
    if kept.drill is None:
        return None
    spacing, share = kept.drill.spacing, job_drill(kept).sown_share
    if share == 1:
        return spacing
    return Typed(value=spacing.value / share, give_or_take=spacing.give_or_take / share)


def where(kept: Kept) -> str:
    """Name the field of a job; the job where it has none."""
    return kept.field.name if kept.field else kept.body.name


def _days_since(sown: str | None, counted: Sequence[str]) -> int | None:
    """Return days from sowing to the last count; None where one of both is not known."""
    if not (sown and counted):
        return None
    try:
        return (date.fromisoformat(max(counted)) - date.fromisoformat(sown)).days
    except ValueError:  # a day of a program that the calendar does not have
        return None


def _early(said: work.StandWish, days: int) -> Phrase | None:
    if days < 0:
        need = say("enter a whole number of {least} or more", least=0)
        raise MeasurementError(InTables("stand", "days"), days, need)
    water: Water = "irrigated" if said.irrigated else "dryland"
    return too_early(perennial=said.perennial, water=water, since=days * DAY)


def _sown(down: SeedDown, *, apart: bool) -> tuple[SownSpecies, ...]:
    """Return the seed of each species, or of all together under no name."""
    kinds = set(down.kinds.values())
    together = {"": (down.whole, kinds.pop() if len(kinds) == 1 else "")}
    each = {name: (seeds, down.kinds[name]) for name, seeds in down.seeds.items() if name}
    return tuple(
        SownSpecies(
            name=name, seeds=quantity(as_typed(seeds), SOWN), usual=USUAL.get(kind, UNKNOWN)
        )
        for name, (seeds, kind) in (each if apart else together).items()
    )
