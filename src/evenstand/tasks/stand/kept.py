"""The counts of a kept job, as its job file would write them."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from itertools import groupby
from typing import Any

from evenstand.book.book import Book
from evenstand.book.kinds import work
from evenstand.book.kinds.shape import Typed
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import say
from evenstand.engine.quantities.units import DENSITY, GROUND, LENGTH, PLANTS, SPACING, Kind

from ..boxes.kept import body_of
from ..job.kept import Kept, job_drill
from ..parsing.written import as_written
from ..whole_job.gather import record_of
from .seed_down import SeedDown, as_typed

SIZES: Mapping[str, Kind] = {
    "length": LENGTH,
    "hoop": SPACING,
    "around": SPACING,
    "sides": LENGTH,
    "area": GROUND,
}


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


def stand_tables(book: Book, kept: Kept, down: SeedDown | None) -> dict[str, Any]:
    """Return field, stand, counts and species of a job as its job file would have them.

    Parameters
    ----------
    kept : Kept
        A job with a count.
    down : SeedDown or None
        None where only the stand is asked for.

    Raises
    ------
    MeasurementError
        For a job without a count.
    """
    counts = bodies_of(counts_of(book, kept.thing.id))
    if not counts:
        raise MeasurementError("places", None, say("count the plants in at least one spot"))
    said = body_of(wish_of(book, kept.thing.id), work.StandWish)
    spacing = _between_open(kept)
    names = {seen.species for count in counts for place in count.places for seen in place.plants}
    stand = _said(said, sown=sown_on(book, kept.thing.id, said), counts=counts)
    if own := counts[-1].spacing if all(count.spacing for count in counts) else None:
        stand["spacing"] = as_written(own, SPACING)
    seed, species = _seed(down, apart=names != {""}) if down else ({}, [])
    return {
        "field": {"name": where(kept)},
        "drill": {"spacing": as_written(spacing, SPACING)} if spacing else {},
        "stand": stand | seed,
        "counts": [table for count in counts for table in count_tables(count)],
        "species": species,
    }


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


def _said(
    said: work.StandWish | None, *, sown: str | None, counts: Sequence[work.StandCount]
) -> dict[str, Any]:
    since = _days_since(sown, [count.day for count in counts if count.day])
    table: dict[str, Any] = {} if since is None else {"days": since}
    if said is None:
        return table
    known = {"crop": said.crop.replace("-", " ")} if said.crop else {}
    wish = {"wish": as_written(said.wish, PLANTS)} if said.wish else {}
    water = {"water": "irrigated"} if said.irrigated else {}
    return table | known | wish | water | ({"perennial": True} if said.perennial else {})


def _days_since(sown: str | None, counted: Sequence[str]) -> int | None:
    """Return days from sowing to the last count; None where one of both is not known."""
    if not (sown and counted):
        return None
    try:
        return (date.fromisoformat(max(counted)) - date.fromisoformat(sown)).days
    except ValueError:  # a day of a program that the calendar does not have
        return None


def _seed(down: SeedDown, *, apart: bool) -> tuple[dict[str, Any], list[dict[str, Any]]]:
    """Return the seed as ``[stand] seeds``, of all together, or as ``[[species]]``."""
    if not down.seeds:
        return {}, []
    if apart:
        return {}, [
            {"name": name, "seeds": as_written(as_typed(seeds), DENSITY)} | _kind(down.kinds[name])
            for name, seeds in down.seeds.items()
            if name
        ]
    kinds = set(down.kinds.values())
    all_seed = down.whole
    seeds = as_written(as_typed(all_seed), DENSITY)
    return {"seeds": seeds} | _kind(kinds.pop() if len(kinds) == 1 else ""), []


def _kind(kind: str) -> dict[str, str]:
    return {"kind": kind} if kind else {}


def count_tables(count: work.StandCount) -> Iterator[dict[str, Any]]:
    """Yield a table for all places of one size that follow each other."""
    for _, alike in groupby(count.places, key=_alike):
        places = list(alike)
        own = {"spacing": as_written(count.spacing, SPACING)} if count.spacing else {}
        gaps = {"gaps": [_gaps(each) for each in places]} if _looked(places[0]) else {}
        yield _size(places[0]) | own | {"plants": _plants(places)} | gaps


def _alike(place: work.Place) -> tuple[Any, ...]:
    names = tuple(seen.species for seen in place.plants)
    return (*(getattr(place, key) for key in SIZES), names, _looked(place))


def _looked(place: work.Place) -> bool:
    return place.length is not None and (place.looked or bool(place.gaps))


def _size(place: work.Place) -> dict[str, str]:
    sizes: dict[str, Typed | None] = {key: getattr(place, key) for key in SIZES if key != "sides"}
    written = {key: as_written(each, SIZES[key]) for key, each in sizes.items() if each}
    if place.sides:
        written["frame"] = "; ".join(as_written(each, LENGTH) for each in place.sides)
    return written


def _plants(places: Sequence[work.Place]) -> list[int] | dict[str, list[int]]:
    names = [seen.species for seen in places[0].plants]
    columns = [[place.plants[i].plants for place in places] for i in range(len(names))]
    return columns[0] if names == [""] else dict(zip(names, columns, strict=True))


def _gaps(place: work.Place) -> str:
    return "; ".join(as_written(each, SPACING) for each in place.gaps)
