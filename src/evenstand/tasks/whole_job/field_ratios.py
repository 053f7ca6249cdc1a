"""What fields got of what the stand promised, drill by drill, from the jobs that are done."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import islice

from evenstand.book.book import Book
from evenstand.book.kinds import sown
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.seed.size_class import SeedClass, size_class
from evenstand.engine.seeding.field_ratio import FieldRatio, PastField, learn_ratio
from evenstand.engine.statistics.budget import Quantity, nominal

from ..job.kept import Kept, find
from ..seed.species_seeds import seeds_per_kg
from ..seeding.closed import closed_boxes
from ..seeding.on_the_way import on_the_way

MOST_JOBS, MOST_FIELDS = 40, 12  # the latest ones; older ones say little more


@dataclass(frozen=True, kw_only=True)
class OwnField:
    """A field that was closed; ``past`` is None where its ratio cannot be right."""

    job: str
    name: str
    box: str
    seed: str
    ratio: Quantity
    past: PastField | None

    @property
    def value(self) -> float:
        """The ratio itself. [-]"""
        return nominal(self.ratio)


def own_fields(
    book: Book, drill: str | None, *, but: str = "", before: Thing | None = None
) -> tuple[OwnField, ...]:
    """Return the closed fields of a drill, newest first.

    Parameters
    ----------
    drill : str
        Id of the drill.
    but : str
        Id of a job that does not count.
    before : Thing, optional
        Only fields that were closed before it was written.
    """
    if drill is None:
        return ()
    jobs = [thing for thing in book.things("job", of=drill, limit=MOST_JOBS) if thing.id != but]
    done = book.many.newest(sown.Finished.kind, of=[thing.id for thing in jobs])
    known = {job for job, end in done.items() if before is None or str(end.born) < str(before.born)}
    closed = (each for job in jobs if job.id in known for each in _closed(book, job))
    return tuple(islice(closed, MOST_FIELDS))


def _closed(book: Book, thing: Thing) -> Iterator[OwnField]:
    kept = find(book, thing.id)
    if kept.drill_id is None:
        return
    way = on_the_way(book, kept)
    try:
        closed = closed_boxes(book, way)
    except MeasurementError:
        return
    ratios = {name: box.ratio for name, box in closed.items() if box.ratio is not None}
    for own in way.boxes:
        if own.box in ratios and way.finished:
            past = _past(ratios[own.box], own, soil=way.finished.soil, boxes=len(ratios))
            yield OwnField(
                job=own.thing.id,
                name=own.body.name,
                box=own.box,
                seed=own.wanted.seed if own.wanted else "",
                ratio=ratios[own.box],
                past=past,
            )


def _past(ratio: Quantity, kept: Kept, *, soil: sown.Soil, boxes: int) -> PastField | None:
    try:
        return PastField(ratio=ratio, seed_class=class_of(kept), soil=soil, boxes=boxes)
    except MeasurementError:
        return None


def learned_for(book: Book, kept: Kept) -> FieldRatio | None:
    """Learn the field ratio to set a box with; None where the job gives one or no field is done."""
    if kept.wanted is None or kept.body.field_ratio or kept.wanted.on != "field":
        return None
    ends = book.things(sown.Finished.kind, of=kept.thing.id, limit=1)
    before = ends[0] if ends else None  # what a field got is not judged by later ones
    fields = own_fields(book, kept.drill_id, but=kept.thing.id, before=before)
    return learn(fields, seed_class=class_of(kept))


def learn(fields: Sequence[OwnField], *, seed_class: SeedClass) -> FieldRatio | None:
    """Learn from closed fields; None where there is none that can be right."""
    past = [field.past for field in fields if field.past]
    return learn_ratio(past, seed_class=seed_class) if past else None


def class_of(kept: Kept) -> SeedClass:
    """Return the class of the seed in a box: by its first species, else by the kind of the box."""
    names = kept.wanted.seed.split(",") if kept.wanted else []
    for name in names:
        if count := seeds_per_kg(name):
            return size_class(count).seed_class
    boxes = kept.drill.boxes if kept.drill else ()
    of_box = next((box.seed for box in boxes if box.name == kept.box), "grain")
    return BOX_CLASSES[of_box]


BOX_CLASSES: Mapping[str, SeedClass] = {"grain": "large", "small seed": "small", "fluffy": "fluffy"}
