"""All that a book knows of one job, gathered step by step for its record."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import TypeVar

from evenstand.book import seed, sown, work
from evenstand.book.book import Book
from evenstand.book.thing import Thing
from evenstand.engine.budget import Quantity, nominal, uncertain
from evenstand.engine.choose import Candidate
from evenstand.engine.closing import Closed
from evenstand.engine.errors import MeasurementError
from evenstand.engine.tag import Month
from evenstand.engine.words import Phrase

from .boxes import Boxes, fill
from .kept import Kept, chosen_of, find, named
from .kept_boxes import body_of, box_tables, order_of, order_tables, split_of
from .kept_mix import mix_tables
from .machines import quantity
from .mix import Mixed, read_mix
from .on_the_way import OnTheWay, on_the_way
from .order import Ordered, read_order
from .set_job import set_job
from .setting import Setting, where_next
from .sow import SownField
from .sow_job import sow_job

Found = TypeVar("Found")
# What papers of a job are made of, beside what it names.
OF_JOB = (
    *("split", "order", "catch", "setting", "record", "note", "count", "stand wish"),
    *("load", "level", "area", "moved", "check", "finished"),
)
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)


@dataclass(frozen=True)
class Weighed:
    """Seed of one box: filled in, left at the end, and what stayed in the field. [kg]

    What is not known is None.
    """

    loaded: float | None
    left: float | None
    used: Quantity | None


@dataclass(frozen=True, kw_only=True)
class BoxSet:
    """One box of a job: what it was set to, what it was caught at, what went out of it.

    ``found`` is None where nothing can be worked out, ``weighed`` where the
    record does not say it, ``closed`` where Sow has not come to its end.
    """

    kept: Kept
    chosen: work.Chosen | None
    found: Setting | None
    weighed: Weighed | None
    closed: Closed | None

    @property
    def seen(self) -> Weighed | None:
        """Seed in and out as the record says it, else as Sow does."""
        return self.weighed or (_at_the_end(self.closed) if self.closed else None)

    @property
    def name(self) -> str:
        """Name of the box; empty where the job names none."""
        return self.kept.box

    @property
    def set_to(self) -> Candidate | None:
        """What the setting that was taken gives, by the chart and all catches."""
        if self.found is None or self.chosen is None:
            return None
        for each in self.found.choice.candidates:
            same = self.chosen.gear in ("", each.gear.name)
            if each.setting == self.chosen.setting and same:
                return each
        return None


@dataclass(frozen=True, kw_only=True)
class JobSoFar:
    """A job as far as it is; what is not known is None.

    ``lacking`` is what stands in the way of mix or boxes, ``way`` what was
    written down while it was sown, ``sown`` what follows. ``ground`` is what
    was sown, ``planned`` what was to be [m²]; ``sets`` are the boxes that a
    rate is wanted from.
    """

    book: Book
    kept: Kept
    said: work.Record
    mix: seed.Mix | None
    mixed: Mixed | None
    boxes: Boxes | None
    lacking: Phrase | None
    ordered: Ordered | None
    sets: tuple[BoxSet, ...]
    way: OnTheWay
    sown: SownField | None
    counts: tuple[Thing, ...]
    ground: Quantity | None
    planned: Quantity | None
    made: datetime
    today: Month

    def achieved(self, box: str) -> tuple[Quantity | None, bool]:
        """Return the rate that a box laid down [kg/m²], and whether it was weighed back."""
        found = self.box(box)
        if found is None:
            return None, False
        if found.weighed and found.weighed.used is not None and self.ground is not None:
            return found.weighed.used / self.ground, True
        if found.closed is not None:
            rate = found.closed.rate
            return uncertain(rate.value, rate.u, f"rate of {box}"), True
        if found.set_to is None:
            return None, False
        rate = found.set_to.rate
        return uncertain(rate.value, rate.u, f"rate of {box}"), False

    def box(self, name: str) -> BoxSet | None:
        """Return what was set for a box; the only one stands for a job that names none."""
        for each in self.sets:
            if each.name == name:
                return each
        alone = len(self.sets) == 1 and not self.sets[0].name
        return self.sets[0] if alone else None


def record_of(book: Book, job: str) -> Thing | None:
    """Return what was last said of a job's record."""
    for thing in book.things("record", of=job, limit=1):
        if isinstance(thing.body, work.Record):
            return thing
    return None


def boxes_to_fill(kept: Kept) -> tuple[str, ...]:
    """Return the boxes that a rate is wanted from; a job that names none has one without a name."""
    return tuple(dict.fromkeys(wanted.box for wanted in kept.body.wanted))


def days_sown(said: work.Record, way: OnTheWay) -> tuple[str | None, str | None]:
    """Return the first and the last day: as the record says, else as loads and the end do."""
    days = [load.day for load in way.of(sown.Load) if load.day]
    days += [end.day for end in way.of(sown.Finished) if end.day]
    return said.first or min(days, default=None), said.last or max(days, default=None)


def gather(book: Book, job: str, *, today: Month) -> JobSoFar:
    """Gather a job with all its steps.

    Parameters
    ----------
    book : Book
    job : str
        Id of the job.
    today : Month
        For the age of tests.

    Raises
    ------
    MeasurementError
        For a job that is not there.
    """
    kept = find(book, job)
    said = body_of(record_of(book, job), work.Record) or work.Record(job=job)
    split = body_of(split_of(book, kept), work.Split)
    order = body_of(order_of(book, kept), work.Order)
    mix = named(book, kept.body.mix, seed.Mix)
    mixed, no_mix = _tried(lambda: read_mix(mix_tables(book, kept), today=today))
    boxes, no_boxes = _tried(lambda: fill(box_tables(book, kept, split), today=today))
    ordered, _ = _tried(
        lambda: read_order(order_tables(book, kept, split, order=order), today=today)
    )
    way = on_the_way(book, kept)
    field, _ = _tried(lambda: sow_job(book, kept).field)
    ground = said.area or (way.finished.area if way.finished else None)
    return JobSoFar(
        book=book,
        kept=kept,
        said=said,
        mix=mix,
        mixed=mixed,
        boxes=boxes,
        lacking=no_mix or no_boxes if mix else None,
        ordered=ordered,
        sets=tuple(_set(book, own, said, closed=closed_of(field, own.box)) for own in way.boxes),
        way=way,
        sown=field,
        counts=tuple(reversed(book.things("count", of=job))),
        ground=quantity(ground, "area") if ground else None,
        planned=_planned(kept, order),
        made=newest(book, job, kept),
        today=today,
    )


def _tried(work_out: Callable[[], Found]) -> tuple[Found | None, Phrase | None]:
    """Return what was found, or what is needed for it."""
    try:
        return work_out(), None
    except MeasurementError as missing:
        return None, missing.need


def _planned(kept: Kept, order: work.Order | None) -> Quantity | None:
    area = (order.area if order else None) or (kept.field.area if kept.field else None)
    return quantity(area, "area") if area else None


def closed_of(field: SownField | None, box: str) -> Closed | None:
    """Return the end of a box over its field, None before it."""
    return next((each.closed for each in (field.boxes if field else ()) if each.name == box), None)


def _set(book: Book, kept: Kept, said: work.Record, *, closed: Closed | None) -> BoxSet:
    chosen = chosen_of(book, kept)
    seen = next((each for each in said.used if each.box == kept.box), None)
    return BoxSet(
        kept=kept,
        chosen=chosen.body if chosen and isinstance(chosen.body, work.Chosen) else None,
        found=_tried(lambda: where_next(set_job(book, kept)))[0],
        weighed=_weighed(seen) if seen else None,
        closed=closed,
    )


def _weighed(seen: work.Used) -> Weighed:
    """Return what went in and out of a box; what was used is known only with both."""
    loaded = quantity(seen.loaded, "seed filled in") if seen.loaded else None
    left = quantity(seen.left, "seed left over") if seen.left else None
    used = None if loaded is None or left is None else loaded - left
    return Weighed(
        None if loaded is None else nominal(loaded),
        None if left is None else nominal(left),
        used if used is not None and nominal(used) > 0 else None,
    )


def _at_the_end(closed: Closed) -> Weighed:
    used = uncertain(closed.used.value, closed.used.u, "seed used")
    return Weighed(closed.used.value + closed.left, closed.left, used)


def newest(book: Book, job: str, kept: Kept) -> datetime:
    """Return when the newest entry was made of all that a job's papers are made of."""
    return max(_moment(thing) for thing in _things(book, job, kept))


def _things(book: Book, job: str, kept: Kept) -> Iterator[Thing]:
    yield kept.thing
    for kind in OF_JOB:
        yield from book.things(kind, of=job)
    mix = named(book, kept.body.mix, seed.Mix)
    lots = [member.lot for member in mix.members] if mix else []
    ids = [kept.body.field, kept.body.drill, kept.body.mix, *lots]
    yield from book.many.things(ids).values()
    for lot in dict.fromkeys(lots):
        if lot:
            for kind in ("seed count", "germination test", "photo"):
                yield from book.things(kind, of=lot)
    if kept.drill_id:
        yield from book.things("chart", of=kept.drill_id)


def _moment(thing: Thing) -> datetime:
    return moment(thing.entry.made.ms)


def moment(ms: int) -> datetime:
    """Return a moment of a stamp, to the second, as a PDF tells it."""
    return _EPOCH + timedelta(seconds=ms // 1000)
