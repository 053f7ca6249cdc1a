"""The boxes, the order and the sowing of a job, worked out once for each request."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Generic, TypeVar, cast

from flask import g, request

from evenstand.book.kinds import work
from evenstand.book.storage.thing import Thing
from evenstand.engine.quantities.errors import MeasurementError
from evenstand.engine.quantities.phrases import Phrase
from evenstand.tasks.boxes.boxes import Boxes, fill
from evenstand.tasks.boxes.kept import body_of, boxes_said, order_of, split_of
from evenstand.tasks.job.kept import Kept, find
from evenstand.tasks.order.order import Ordered, read_order
from evenstand.tasks.order.said import order_said
from evenstand.tasks.whole_job.seeding import Sown, sow_job

from ..site import here

KEEP = 8  # ways to fill the boxes that are looked at
Result = TypeVar("Result")


@dataclass(frozen=True)
class Worked(Generic[Result]):
    """What was worked out with what a thing says, or what stands in the way."""

    thing: Thing | None
    result: Result | None
    missing: MeasurementError | None


def kept_job(job: str) -> Kept:
    """Return a job with its things, or answer that there is none."""
    here.thing(job, work.Job)
    return find(here.book(), job)


def kept_box(job: str) -> Kept:
    """Return a job with the box that was asked for, or answer that there is none."""
    here.thing(job, work.Job)
    return find(here.book(), job, box=request.values.get("box"))


def box_names(kept: Kept) -> list[str]:
    """Return what the boxes of a job's drill are called."""
    return [box.name for box in kept.drill.boxes] if kept.drill else []


def boxes_of(kept: Kept) -> Worked[Boxes]:
    """Work out the boxes of a job."""
    return _once(f"boxes {kept.thing.id}", lambda: _boxes(kept))


def order_made(kept: Kept) -> Worked[Ordered]:
    """Work out the order of a job."""
    return _once(f"order {kept.thing.id}", lambda: _order(kept))


def sown_of(kept: Kept) -> Worked[Sown]:
    """Follow all boxes of a job that were begun."""
    return _once(f"sown {kept.thing.id}", lambda: _tried(None, lambda: sow_job(here.book(), kept)))


def _once(key: str, work_out: Callable[[], Worked[Result]]) -> Worked[Result]:
    known = g.setdefault("worked", {})
    if key not in known:
        known[key] = work_out()
    return cast(Worked[Result], known[key])


def _boxes(kept: Kept) -> Worked[Boxes]:
    thing = split_of(here.book(), kept)
    return _tried(thing, lambda: filled(kept, body_of(thing, work.Split)))


def filled(kept: Kept, split: work.Split | None) -> Boxes:
    """Fill the boxes of a job in a way that may not be kept yet.

    Raises
    ------
    MeasurementError
        As `boxes_said` and `fill`.
    """
    said = boxes_said(here.book(), kept, split)
    return fill(said, today=here.this_month(), keep=KEEP)


def _order(kept: Kept) -> Worked[Ordered]:
    thing = order_of(here.book(), kept)
    return _tried(thing, lambda: ordered(kept, body_of(thing, work.Order)))


def ordered(kept: Kept, order: work.Order | None) -> Ordered:
    """Work out an order that may not be kept yet.

    Raises
    ------
    MeasurementError
        As `order_said` and `read_order`.
    """
    split = body_of(split_of(here.book(), kept), work.Split)
    said = order_said(here.book(), kept, split, order=order)
    return read_order(said, today=here.this_month())


def _tried(thing: Thing | None, work_out: Callable[[], Result]) -> Worked[Result]:
    try:
        return Worked(thing, work_out(), None)
    except MeasurementError as error:
        return Worked(thing, None, error)


def told_once(phrases: Iterable[Phrase]) -> list[Phrase]:
    """Leave out what was said before, word for word."""
    return list({here.style().write(each): each for each in phrases}.values())
