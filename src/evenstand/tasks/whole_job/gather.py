"""All that a book knows of one job, gathered step by step for its record."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from functools import cached_property
from typing import TypeVar

import msgspec

from evenstand.book.book import Book
from evenstand.book.kinds import seed, sown, work
from evenstand.book.kinds.shape import Body, Typed
from evenstand.book.storage.thing import Thing
from evenstand.engine.calibration.choose import Candidate
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase
from evenstand.engine.seed.tag import Month
from evenstand.engine.seeding.closing import Closed
from evenstand.engine.seeding.field_area import SownGround
from evenstand.engine.statistics.budget import Quantity, nominal, uncertain

from ..boxes.boxes import Boxes, fill
from ..boxes.kept import body_of, boxes_said, split_of
from ..calibration.setting import Setting, where_next
from ..drill.machines import quantity
from ..job.kept import Kept, chosen_of, find, named
from ..mix.kept import job_mix
from ..mix.mix import Mixed, read_mix
from ..order.order import Ordered, read_order
from ..order.said import order_said
from ..seeding.closed import closed_boxes
from ..seeding.kept import overlap_of, shown_of
from ..seeding.on_the_way import OnTheWay, on_the_way
from ..seeding.seeding import SownField
from .calibration import set_job
from .made_at import newest
from .seeding import followed

Found = TypeVar("Found")


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

    ``weighed`` is None where the record does not say it, ``closed`` where the
    field is not done.
    """

    book: Book
    kept: Kept
    weighed: Weighed | None
    closed: Closed | None

    @cached_property
    def chosen(self) -> work.Chosen | None:
        """The setting that was taken."""
        return body_of(chosen_of(self.book, self.kept), work.Chosen)

    @cached_property
    def found(self) -> Setting | None:
        """What Set says of the box; None where nothing can be worked out."""
        return _tried(lambda: where_next(set_job(self.book, self.kept)))[0]

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
        if self.chosen is None or self.found is None:
            return None
        for each in self.found.choice.candidates:
            same = self.chosen.gear in ("", each.gear.name)
            if each.setting == self.chosen.setting and same:
                return each
        return None


@dataclass(frozen=True, kw_only=True)
class JobSoFar:
    """A job as far as it is, each step worked out where it is asked for; what is not known is None.

    ``today`` is for the age of tests.
    """

    book: Book
    kept: Kept
    today: Month

    @cached_property
    def said(self) -> work.Record:
        """What the record says beyond the steps."""
        job = self.kept.thing.id
        return body_of(record_of(self.book, job), work.Record) or work.Record(job=job)

    @cached_property
    def mix(self) -> seed.Mix | None:
        """The mix that is named."""
        return named(self.book, self.kept.body.mix, seed.Mix)

    @property
    def mixed(self) -> Mixed | None:
        """The mix worked out."""
        return self._mixed[0]

    @property
    def boxes(self) -> Boxes | None:
        """The boxes filled with it."""
        return self._boxes[0]

    @property
    def lacking(self) -> Phrase | None:
        """What stands in the way of a mix that is named, or of its boxes."""
        return (self._mixed[1] or self._boxes[1]) if self.mix else None

    @cached_property
    def ordered(self) -> Ordered | None:
        """The order worked out."""

        def order() -> Ordered:
            said = order_said(self.book, self.kept, self._split, order=self.way.order)
            return read_order(said, today=self.today)

        return _tried(order)[0]

    @cached_property
    def way(self) -> OnTheWay:
        """What was written down while it was sown, on the area that its record tells."""
        if (area := self.said.area) is None:
            return self._way
        things = tuple((id, _over(body, area)) for id, body in self._way.things)
        return replace(self._way, things=things)

    @cached_property
    def sown(self) -> SownField | None:
        """What follows of it for each box."""
        return _tried(lambda: followed(self.book, self.way).field)[0]

    @cached_property
    def sets(self) -> tuple[BoxSet, ...]:
        """The boxes that a rate is wanted from."""
        used = {each.box: each for each in reversed(self.said.used)}
        closed = _tried(lambda: closed_boxes(self.book, self.way))[0] or {}
        return tuple(
            BoxSet(
                book=self.book,
                kept=own,
                weighed=_weighed(used[own.box]) if own.box in used else None,
                closed=closed.get(own.box),
            )
            for own in self.way.boxes
        )

    @cached_property
    def counts(self) -> tuple[Thing, ...]:
        """Counts of plants, oldest first."""
        return tuple(reversed(self.book.things("count", of=self.kept.thing.id)))

    @cached_property
    def ground(self) -> Quantity | None:
        """Ground that was sown: as was written down; the whole field once it is done. [m²]"""
        done = self.way.finished
        if area := self.said.area or (done.area if done else None):
            return quantity(area, "area")
        return self.planned if done else None

    @cached_property
    def planned(self) -> Quantity | None:
        """Ground that was to be sown. [m²]"""
        return quantity(self.to_sow, "area") if self.to_sow else None

    @property
    def to_sow(self) -> Typed | None:
        """Ground that was to be sown, as it was typed. [m²]"""
        order, field = self.way.order, self.kept.field
        return (order.area if order else None) or (field.area if field else None)

    @property
    def mapped(self) -> Typed | None:
        """Ground by the map at the end of the field, as it was typed. [m²]"""
        return self._way.finished.area if self._way.finished else None

    @property
    def shown(self) -> float:
        """What the area meter showed for the whole field; 0 where it was not read. [m²]"""
        return shown_of(self.way)

    @property
    def driven(self) -> Quantity | None:
        """Ground that the drill went over, overlap twice. [m²]"""
        if self.ground is None:
            return None
        over = SownGround(area=self.ground, overlap=overlap_of(self.way))
        return over.driven(shown=self.shown)

    @cached_property
    def made(self) -> datetime:
        """When the newest entry was made of all that the papers of the job are made of."""
        return newest(self.book, self.kept)

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

    def laid_down(self, box: str) -> Quantity | None:
        """Return the seed that went out of a box on all the ground, overlap with it. [kg]"""
        found, (rate, _) = self.box(box), self.achieved(box)
        if found is None or rate is None or self.driven is None:
            return None
        if found.weighed and found.weighed.used is not None:
            return found.weighed.used
        if found.closed is not None:
            return uncertain(found.closed.used.value, found.closed.used.u, f"seed from {box}")
        return rate * self.driven

    def box(self, name: str) -> BoxSet | None:
        """Return what was set for a box; the only one stands for a job that names none."""
        for each in self.sets:
            if each.name == name:
                return each
        alone = len(self.sets) == 1 and not self.sets[0].name
        return self.sets[0] if alone else None

    @cached_property
    def _way(self) -> OnTheWay:
        return on_the_way(self.book, self.kept)

    @cached_property
    def _split(self) -> work.Split | None:
        return body_of(split_of(self.book, self.kept), work.Split)

    @cached_property
    def _mixed(self) -> tuple[Mixed | None, Phrase | None]:
        return _tried(lambda: read_mix(job_mix(self.book, self.kept), today=self.today))

    @cached_property
    def _boxes(self) -> tuple[Boxes | None, Phrase | None]:
        return _tried(lambda: fill(boxes_said(self.book, self.kept, self._split), today=self.today))


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
    job : str
        Id of the job.
    today : Month
        For the age of tests.

    Raises
    ------
    MeasurementError
        For a job that is not there.
    """
    return JobSoFar(book=book, kept=find(book, job), today=today)


def _tried(work_out: Callable[[], Found]) -> tuple[Found | None, Phrase | None]:
    """Return what was found, or what is needed for it."""
    try:
        return work_out(), None
    except MeasurementError as missing:
        return None, missing.need


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


def _over(body: Body, area: Typed) -> Body:
    """Return the end of a field with another area."""
    return msgspec.structs.replace(body, area=area) if isinstance(body, sown.Finished) else body


def _at_the_end(closed: Closed) -> Weighed:
    used = uncertain(closed.used.value, closed.used.u, "seed used")
    return Weighed(closed.used.value + closed.left, closed.left, used)
